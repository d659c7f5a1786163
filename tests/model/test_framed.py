"""Frames with floating panels: sound in any size and any way up, one groove a stile, lefts and rights mirrored."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks.contact import contact
from model.checks.overlap import overlap
from model.cuts.edges import EdgeGroove
from model.cuts.moulding import RaisedEdge
from model.errors import DesignError
from model.framed import Frame, Framed, frame_and_panel, groove_depth
from model.joints.panel import LEAST_HOLD, ROOM_ACROSS
from model.parameters import Parameters
from model.piece import Piece
from model.placement import Placement, place
from model.solids import standing
from tests.model.joints.witness import assert_mirror_images

DOOR = place((500.0, 19.0, 100.0), grain="up", face="front")
LID = place((-10.0, 0.0, 400.0))


def framed(frame: Frame, at: Placement = DOOR, thickness: float = 19.0) -> tuple[Piece, Framed]:
    piece = Piece("framed", Parameters(thickness=thickness))
    return piece, frame_and_panel(piece, "door", frame, at)


@settings(max_examples=8, deadline=None)
@given(
    st.floats(300, 1200),
    st.floats(220, 600),
    st.floats(45, 75),
    st.integers(1, 3),
    st.booleans(),
    st.sampled_from([DOOR, LID]),
    st.sampled_from([15.0, 19.0, 25.4]),
)
def test_any_frame_is_sound(
    length: float, width: float, member: float, panels: int, raised: bool, at: Placement, thickness: float
) -> None:
    bay = (length - (panels + 1) * member) / panels
    if bay < 80.0 or width - 2.0 * member < 80.0:
        return
    piece, made = framed(Frame(length, width, member, member, panels=panels, raised=raised), at, thickness)
    shapes = standing(piece)

    assert all(s.isValid() for s in shapes.values())
    assert overlap(piece, shapes).findings == contact(piece, shapes).findings == ()
    assert len(made.parts) == 2 + panels + 1 + panels
    assert len({p.part for p in made.panels}) == 1
    for part in made.parts:
        if part.mirror_of:
            assert_mirror_images(piece[part.mirror_of], part)


def test_each_stile_has_one_groove_for_all_its_panels() -> None:
    _, made = framed(Frame(900.0, 400.0, 60.0, 60.0, panels=3))

    for stile in made.stiles:
        (groove,) = [c for c in stile.wood.cuts if isinstance(c, EdgeGroove)]
        assert groove.full
        assert groove.depth == pytest.approx(groove_depth(19.0)) == pytest.approx(19.0 / 3.0)


def test_names_say_where_members_are() -> None:
    door, _ = framed(Frame(600.0, 400.0, 50.0, 50.0, foot=70.0))
    lid, _ = framed(Frame(900.0, 400.0, 50.0, 50.0, panels=2, words=("rail", "end", "muntin")), LID)

    assert set(door.parts) == {
        "left door stile", "right door stile", "bottom door rail", "top door rail", "door panel"
    }  # fmt: skip
    assert set(lid.parts) == {
        "front door rail", "back door rail", "left door end", "right door end", "door muntin", "door panel 1",
        "door panel 2",
    }  # fmt: skip
    assert door["bottom door rail"].wood.stock.width == 70.0


def test_a_raised_field_is_flush_with_the_frame() -> None:
    _, made = framed(Frame(600.0, 400.0, 50.0, 50.0))
    panel = made.panels[0]

    assert panel.at.point((0.0, 0.0, panel.wood.thickness))[1] == pytest.approx(0.0, abs=1e-6)
    assert sum(isinstance(c, RaisedEdge) for c in panel.wood.cuts) == 4


@pytest.mark.parametrize("thickness", [12.7, 15.0, 19.0, 25.4])
def test_a_shrunken_panel_still_holds(thickness: float) -> None:
    assert groove_depth(thickness) - 2.0 * ROOM_ACROSS >= LEAST_HOLD


def test_a_frame_without_room_for_its_panels_is_refused() -> None:
    with pytest.raises(DesignError, match="panels 300 by 45 mm; 60 mm is the least, so make the frame narrower"):
        framed(Frame(280.0, 400.0, 50.0, 50.0, panels=2, foot=90.0))
