"""Splines, keys, wedges, tongues, hinge screws: sound ones are clean, planted faults are found, none else accused."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.checks.fasteners import fasteners, pilots
from model.checks.fastening.clear import _from_outline
from model.checks.fastening.limits import pilot
from model.hardware import Hardware, finish_nail
from model.joints.samples import samples
from model.parameters import Parameters
from model.piece import Piece
from model.placement import added, scaled
from tests.model.checks.planted import BENCH, sound
from tests.model.checks.test_fasteners import graver, planted

LOOSE = ("loose spline", "wedged tenon", "loose tongue", "splined miter", "keyed miter")
HUNG = ("butt hinges", "continuous hinge")


@cache
def joined(name):
    """The sample of a joint as a piece."""
    sample = next(s for s in samples() if s.name == name)
    piece = Piece(name, Parameters())
    piece.parts = {p.name: p for p in sample.parts}
    piece.joints = list(sample.joints)
    piece.fit(*sample.hardware)
    piece.step("All of it", *sample.parts)
    return piece


def number(piece, kind):
    return next(n for n, h in enumerate(piece.hardware) if h.kind == kind)


def changed(name, kind, **changes):
    piece = joined(name)
    return planted(piece, number(piece, kind), **changes)


def shifted(name, kind, way, by):
    """An item moved along one of its own directions."""
    item = joined(name).hardware[number(joined(name), kind)]
    direction = getattr(item, way)
    return changed(name, kind, at=added(item.at, scaled(direction, by)))


@pytest.mark.parametrize("name", [*LOOSE, *HUNG])
def test_joints_with_loose_pieces_and_hinges_are_sound(name):
    answer = fasteners(joined(name))
    assert graver(answer) == []
    assert all(p.held == p.checked for p in answer.proofs)


@pytest.mark.parametrize(
    ("piece", "says"),
    [
        (lambda: changed("loose spline", "spline", thickness=7.0), "too big for its slot"),
        (lambda: changed("splined miter", "spline", diameter=45.0), "too big for its slot"),
        (lambda: changed("keyed miter", "key", thickness=4.0), "too big for its slot"),
        (lambda: shifted("keyed miter", "key", "across", -5.0), "too big for its slot"),
        (lambda: changed("loose tongue", "loose tongue", length=200.0), "too big for its slot"),
        (lambda: shifted("loose spline", "spline", "across", 60.0), "doesn't join it"),
        (lambda: shifted("loose tongue", "loose tongue", "direction", 120.0), ""),
    ],
)
def test_a_loose_piece_that_does_not_go_in_is_a_fault(piece, says):
    found = graver(fasteners(piece()))
    assert found
    assert {f.severity for f in found} == {"fault"}
    assert any(says in f.message for f in found)
    missed = [p.what for p in fasteners(piece()).proofs if p.held < p.checked]
    assert missed == ["splines, keys, wedges and tongues in their slots"]


def through(name, kind):
    """The joint with a nail driven through the middle of its loose piece."""
    piece = joined(name)
    item = piece.hardware[number(piece, kind)]
    middle = item.at if kind == "loose tongue" else added(item.at, scaled(item.direction, item.length / 2.0))
    assert item.across is not None
    if kind == "key":
        middle = added(middle, scaled(item.across, item.diameter / 3.0))
    flat = tuple(float(c) for c in np.cross(item.direction, item.across))
    way = item.across if kind == "wedge" else flat
    head = added(middle, scaled(way, -12.0))
    other = Piece(name, Parameters())
    other.parts, other.joints, other.steps = piece.parts, piece.joints, piece.steps
    other.fit(*piece.hardware, finish_nail("3d", head, way, item.parts))
    return other


@pytest.mark.parametrize(
    ("name", "kind"),
    [("loose spline", "spline"), ("loose tongue", "loose tongue"), ("keyed miter", "key"), ("wedged tenon", "wedge")],
)
def test_a_nail_through_a_loose_piece_is_found(name, kind):
    assert any(f"runs into the {kind}" in f.message for f in graver(fasteners(through(name, kind))))


@given(st.floats(-20.0, 20.0), st.floats(-20.0, 20.0))
def test_a_point_is_as_far_from_an_outline_as_shapely_says(x, y):
    import shapely

    corners = ((-8.0, -3.0), (9.0, -3.0), (0.0, 6.0))
    triangle, p = shapely.Polygon(corners), shapely.Point(x, y)
    expected = triangle.distance(p) or -triangle.exterior.distance(p)
    assert _from_outline(np.array([[x, y]]), corners)[0] == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("piece", "severity", "says"),
    [
        (lambda: changed("butt hinges", "hinge screw", length=6.0), "fault", "holds nothing"),
        (lambda: changed("continuous hinge", "hinge screw", length=8.0), "caution", "full hold"),
        (lambda: shifted("butt hinges", "hinge screw", "direction", -30.0), "fault", "does not reach"),
        (lambda: crowded("butt hinges"), "fault", "runs into the hinge screw"),
        (lambda: crowded("continuous hinge"), "fault", "runs into the hinge screw"),
    ],
)
def test_a_hinge_screw_that_is_wrong_is_found_and_nothing_else(piece, severity, says):
    other = piece()
    (found,) = graver(fasteners(other))
    assert found.severity == severity
    assert says in found.message
    assert set(found.parts) <= {n for h in other.hardware if h.kind == "hinge screw" for n in h.parts}


def crowded(name):
    """A second screw driven across the first one."""
    piece = joined(name)
    first = piece.hardware[number(piece, "hinge screw")]
    second = piece.hardware[number(piece, "hinge screw") + 1]
    run = added(second.at, scaled(first.at, -1.0))
    return planted(piece, number(piece, "hinge screw") + 1, at=added(first.at, scaled(run, 0.02)))


def test_hinge_screws_are_short_of_the_far_side_and_have_pilots():
    piece = sound(BENCH)
    screws = [h for h in piece.hardware if h.kind == "hinge screw"]
    assert len({h.parts for h in screws}) == 2
    assert len(screws) % 2 == 0
    (bored,) = (p for p in pilots(piece) if p.label.startswith("hinge screw"))
    assert 0.0 < bored.pilot < screws[0].diameter * 2.0 / 3.0
    assert bored.clearance == 0.0, "the leaf has its own holes"
    oak = Hardware("hinge screw", "No. 6", (0, 0, 0), (1, 0, 0), ("a",), 19.0, 3.51)
    assert pilot(oak, "white oak").pilot > pilot(oak, "eastern white pine").pilot
