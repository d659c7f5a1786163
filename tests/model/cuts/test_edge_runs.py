"""A cut along edges that bear one name: one stretch is run through, two apart are refused."""

from __future__ import annotations

import pytest

from model.cuts.cut import Blank
from model.cuts.edges import Chamfer
from model.errors import DesignError
from model.layout.outline import Outline

CORNERS = ((0.0, 0.0), (100.0, 0.0), (200.0, 0.0), (200.0, 50.0), (0.0, 50.0))


def test_edges_that_follow_one_another_are_one_run() -> None:
    blank = Blank(Outline(CORNERS, names=("side", "side", "end", "top", "end")), 50.0, 20.0)
    assert len(list(Chamfer(edge="side", width=2.0).removals(blank))) == 4


def test_edges_with_others_between_them_are_refused() -> None:
    blank = Blank(Outline(CORNERS, names=("side", "side", "end", "side", "end")), 50.0, 20.0)
    with pytest.raises(DesignError, match='the edges called "side" do not follow one another; give each stretch'):
        list(Chamfer(edge="side", width=2.0).removals(blank))
