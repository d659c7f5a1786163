"""Panels that float in frames: they go in, have their room, and are held."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.edges import EdgeGroove, Rabbet, Tongue
from model.cuts.moulding import RaisedEdge
from model.cuts.through import Profile
from model.errors import DesignError
from model.joints.joint import Joint
from model.joints.panel import ROOM_ACROSS, ROOM_ALONG, floats, panel_in_frame, panel_run, panel_tongue
from model.layout.outline import Outline
from model.piece import Placed
from model.placement import Placement, place
from model.stock import board, panel, sheet
from tests.model.joints.sizes import mm
from tests.model.joints.witness import (
    assert_mirror_images,
    assert_sound,
    contact_area,
    home,
    shape,
    shared,
    stood,
    taken_away,
)

few = settings(max_examples=10, deadline=None)

STILE = 60.0


def upright(x: float, z: float, width: float, thickness: float) -> Placement:
    """Grain up and face to the front, its left edge (the far one) at x, its foot at z, its middle in depth at y = 0."""
    return place((x + width, thickness / 2.0, z), grain="up", face="front")


def stile_and_panel(
    run: float, thickness: float = 6.0, stock: float = 19.0, tall: float = 400.0, up: float = 80.0
) -> tuple[Placed, Placed]:
    """(panel, stile): an upright panel, grain up, that runs into the edge of a longer stile on its left."""
    stile = stood("stile", board(560.0, STILE, stock), upright(0.0, 0.0, STILE, stock))
    at = upright(STILE - run, up, 250.0, thickness)
    return stood("panel", panel(tall, 250.0, thickness), at), stile


def groove(joint: Joint) -> EdgeGroove:
    (cut,) = joint.second_cuts
    assert isinstance(cut, EdgeGroove)
    return cut


@few
@given(mm(3.2, 9.0), mm(3.0, 8.0), mm(19.0, 28.0), mm(40.0, 100.0))
def test_a_flat_panel_in_a_stile_that_carries_on(run, thickness, stock, up) -> None:  # type: ignore[no-untyped-def]
    part, stile = stile_and_panel(run, thickness, stock, up=up)
    joint = floats(part, into=stile)
    home(part, stile, joint)
    cut = groove(joint)

    assert_sound(part, stile, joint)
    assert contact_area(part, stile) < 1e-3  # it touches nowhere: it floats
    assert cut.depth == pytest.approx(run + ROOM_ACROSS)
    assert cut.width - thickness == pytest.approx(joint.fit)
    # the groove stops with the room the panel needs along its grain
    length = 400.0 + 2.0 * ROOM_ALONG
    assert taken_away(stile) == pytest.approx(cut.width * cut.depth * length, rel=1e-6)
    assert joint.glue_area == 0.0
    assert "wax the panel's corners" in joint.source


@few
@given(mm(3.2, 9.0), mm(3.0, 6.0), st.booleans())
def test_the_panel_has_its_room(run, thickness, turned) -> None:  # type: ignore[no-untyped-def]
    part, stile = stile_and_panel(run, thickness)
    if turned:  # face to the back: everything seen from the other side
        part.at = place((STILE - run, -thickness / 2.0, 80.0), grain="up", face="back")
    joint = floats(part, into=stile)
    home(part, stile, joint)

    assert shared(part, stile) < 1e-3
    assert shared(part, stile, tuple(c * (ROOM_ACROSS - 0.01) for c in joint.closes)) < 1e-3  # type: ignore[arg-type]
    assert shared(part, stile, tuple(c * (ROOM_ACROSS + 0.1) for c in joint.closes)) > 1.0  # type: ignore[arg-type]
    assert shared(part, stile, (0.0, 0.0, ROOM_ALONG - 0.01)) < 1e-3
    assert shared(part, stile, (0.0, 0.0, ROOM_ALONG + 0.1)) > 0.1


@few
@given(mm(4.0, 8.0), mm(5.0, 12.0), st.sampled_from(["face", "back"]))
def test_a_raised_panel(run, angle, side) -> None:  # type: ignore[no-untyped-def]
    part, stile = stile_and_panel(run, 16.0, 22.0)
    raised = RaisedEdge(edge="far", width=40.0, tongue=panel_tongue(22.0), flat=run + 1.0, angle=angle, side=side)
    z = 22.0 / 6.0 if side == "face" else 16.0 - 22.0 / 6.0  # the tongue's middle goes into the stile's
    part.at = part.at.moved(dy=z - 8.0)
    part.cut(raised, replace(raised, edge="near"))
    joint = floats(part, into=stile)
    home(part, stile, joint)

    assert groove(joint).width == pytest.approx(22.0 / 3.0)
    assert_sound(part, stile, joint)


def test_a_slope_without_a_flat_is_as_thick_as_it_runs_in() -> None:
    part, stile = stile_and_panel(6.0, 12.0, 25.0)
    part.at = part.at.moved(dy=-3.0)
    part.cut(*(RaisedEdge(edge=e, width=40.0, tongue=6.0, angle=8.0) for e in ("near", "far")))
    joint = floats(part, into=stile)
    home(part, stile, joint)

    assert groove(joint).width - joint.fit == pytest.approx(6.0 + 6.0 * math.tan(math.radians(8.0)))
    assert_sound(part, stile, joint)


@few
@given(mm(-18.0, 18.0), mm(4.0, 8.0))
def test_a_panel_under_a_slanting_rail(slant, run) -> None:  # type: ignore[no-untyped-def]
    slope = math.tan(math.radians(slant))
    names = ("near", "right", "far", "left")
    rail = stood("rail", board(330.0, 180.0, 19.0), place((0.0, 9.5, 0.0), "right", "front"))
    # the rail's upper edge slants up to the right about (165, 110)
    low, high = 110.0 - 165.0 * slope, 110.0 + 165.0 * slope
    rail.cut(Profile(Outline(((0.0, 0.0), (330.0, 0.0), (330.0, high), (0.0, low)), names=names)))
    # so does the panel's foot, run / cos lower; own x up, own y to the left
    foot = 110.0 - run / math.cos(math.radians(slant))
    right, left = foot + 125.0 * slope - 40.0, foot - 125.0 * slope - 40.0
    part = stood("panel", sheet(320.0, 250.0, 6.0), upright(40.0, 40.0, 250.0, 6.0))
    part.cut(Profile(Outline(((right, 0.0), (320.0, 0.0), (320.0, 250.0), (left, 250.0)), names=names)))
    joint = floats(part, into=rail)
    home(part, rail, joint)

    assert groove(joint).depth == pytest.approx(run + ROOM_ALONG, abs=1e-4)
    assert_sound(part, rail, joint)


def test_four_members_and_their_mirror_images() -> None:
    run = panel_run(19.0)
    inner_w, inner_h = 250.0 - 2.0 * run, 400.0 - 2.0 * run
    part = stood("panel", panel(400.0, 250.0, 6.0), upright(-run, -run, 250.0, 6.0))

    def member(name: str, length: float, x: float, z: float, grain: str) -> Placed:
        placed = stood(name, board(length, STILE, 19.0), place((0.0, 0.0, 0.0), grain, "front"))
        box = shape(placed).BoundingBox()
        placed.at = placed.at.moved(x - box.xmin, -9.5 - box.ymin, z - box.zmin)
        return placed

    left = member("left stile", 600.0, -STILE, -100.0, "up")
    right = member("right stile", 600.0, inner_w, -100.0, "up")
    bottom = member("bottom rail", inner_w, 0.0, -STILE, "right")
    top = member("top rail", inner_w, 0.0, inner_h, "right")
    joints = panel_in_frame(part, (left, right, bottom, top))
    for joint, placed in zip(joints, (left, right, bottom, top), strict=True):
        home(part, placed, joint)
        assert_sound(part, placed, joint)

    assert [groove(j).depth for j in joints] == pytest.approx(
        [run + ROOM_ACROSS] * 2 + [run + ROOM_ALONG] * 2
    )  # fmt: skip
    assert groove(joints[2]).full  # a rail between the stiles is plowed right through
    assert not groove(joints[0]).full
    assert_mirror_images(left, right)
    assert sum(shared(part, p) for p in (left, right, bottom, top)) < 1e-3


def test_plowed_through_when_asked() -> None:
    part, stile = stile_and_panel(5.0)

    assert groove(floats(part, into=stile, through=True)).full


def test_sheet_stock_needs_little_room() -> None:
    part, stile = stile_and_panel(5.0)
    part.part = replace(part.wood, stock=sheet(400.0, 250.0, 6.0, "birch plywood"))

    assert groove(floats(part, into=stile)).depth == pytest.approx(5.0 + ROOM_ALONG)


@pytest.mark.parametrize(
    ("run", "thickness", "cuts", "asked", "said"),
    [
        (
            5.0,
            12.0,
            (),
            {},
            r"would leave 3\.4 mm of cheek in stile.* a third of it is 6\.3 mm",
        ),
        (2.5, 6.0, (), {}, r"runs 2\.5 mm into stile; shrunk by its room of 2 mm it would hold by 0\.5 mm only"),
        (-3.0, 6.0, (), {}, r"panel stops 3\.00 mm short of stile"),
        (5.0, 6.0, (), {"width": 5.0}, r"6\.00 mm thick and does not slide in a groove 5 mm wide"),
        (9.0, 12.0, (Tongue(edge="far", thickness=6, length=5, rise=3),), {}, "the tongue of panel is 5 mm long"),
        (9.0, 12.0, (Rabbet(edge="far", width=5, depth=6),), {}, "the rabbet of panel is 5 mm long"),
    ],
)
def test_panels_that_cannot_be(run, thickness, cuts, asked, said) -> None:  # type: ignore[no-untyped-def]
    part, stile = stile_and_panel(run, thickness)
    part.cut(*cuts)

    with pytest.raises(DesignError, match=said):
        floats(part, into=stile, **asked)


def test_faces_must_be_parallel_and_edges_straight() -> None:
    part, stile = stile_and_panel(5.0)
    part.at = part.at.swung(5.0, about=(STILE, 0.0))
    with pytest.raises(DesignError, match="not parallel"):
        floats(part, into=stile)

    part, stile = stile_and_panel(5.0)
    part.cut(Profile(Outline(((0, 0), (400, 0), (380, 250), (20, 230)))))
    with pytest.raises(DesignError, match="no straight edge parallel"):
        floats(part, into=stile)
