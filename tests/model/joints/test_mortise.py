"""Mortise and tenon at every angle, the kernel as witness; figures from the formulas of prisms cut by planes.

A tenon is a prism along the grain: cut off by any plane, its volume is its section times its length at the section's
middle, and its sides have its perimeter times that length.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.faces import Bore
from model.cuts.mortises import Mortise
from model.cuts.tenons import Kerf, TenonedEnd
from model.errors import CutError, DesignError
from model.joints.mortise import BOTTOM_ROOM, HAUNCH_ROOM, loose_tongue, mortise_and_tenon
from model.joints.tenon_locks import KERF, SPLIT, WEDGE
from model.placement import dot, scaled
from model.solids import solid
from tests.model.joints.legs_and_rails import SIDES, Run, mirror_image
from tests.model.joints.witness import (
    assert_mirror_images,
    assert_sound,
    contact_area,
    home,
    taken_away,
)

few = settings(max_examples=8, deadline=None)
leans = st.floats(-15, 15)
sides = st.sampled_from(sorted(SIDES))
ends = st.sampled_from(["left", "right"])
runs = st.builds(
    Run,
    run=st.floats(25, 40),
    skew=leans,
    tilt=leans,
    wide=st.floats(50, 120),
    thick=st.floats(15, 25),
    leg=st.tuples(st.floats(60, 90), st.floats(60, 90)),
    side=sides,
    end=ends,
)


def joined(run: Run, **wanted: Any) -> Any:
    rail, leg = run.stood()
    joint = mortise_and_tenon(rail, leg, **wanted)
    home(rail, leg, joint)
    return rail, leg, joint


def cuts_of(joint: Any, kind: type) -> list[Any]:
    return [c for c in (*joint.first_cuts, *joint.second_cuts) if isinstance(c, kind)]


@few
@given(runs)
def test_a_blind_tenon_at_any_angle(run: Run) -> None:
    rail, leg, joint = joined(run)
    (tenon,) = joint.first_cuts[0].tenons
    (mortise,) = joint.second_cuts
    section, tongue = run.wide * run.thick, tenon.width * tenon.thickness

    assert joint.kind == "mortise and tenon"
    assert_sound(rail, leg, joint)
    assert tenon.thickness == pytest.approx(run.thick / 3)
    assert mortise.depth == pytest.approx(run.run + BOTTOM_ROOM)
    assert taken_away(rail) == pytest.approx((section - tongue) * run.run, rel=1e-5)
    assert taken_away(leg) == pytest.approx(tongue * (run.run + BOTTOM_ROOM), rel=1e-5)
    assert joint.glue_area == pytest.approx(2 * tenon.width * run.run)
    touching = 2 * (tenon.width + tenon.thickness) * run.run + (section - tongue) / run.cosine
    assert contact_area(rail, leg) == pytest.approx(touching, rel=5e-3)


@few
@given(runs, st.booleans())
def test_a_through_tenon_stands_as_placed_or_is_sawn_off(run: Run, flush: bool) -> None:
    through = run.through / run.cosine
    run = replace(run, run=through + 60)
    rail, leg, joint = joined(run, kind="through", proud=4.0 if flush else None)
    (tenon,) = joint.first_cuts[0].tenons
    section, tongue = run.wide * run.thick, tenon.width * tenon.thickness
    long = through + 4.0 / run.cosine if flush else run.run

    assert_sound(rail, leg, joint, reach=160)
    assert taken_away(rail) == pytest.approx(section * run.run - tongue * long, rel=1e-5)
    assert taken_away(leg) == pytest.approx(tongue * through, rel=1e-5)
    touching = 2 * (tenon.width + tenon.thickness) * through + (section - tongue) / run.cosine
    assert contact_area(rail, leg) == pytest.approx(touching, rel=5e-3)


@few
@given(st.floats(60, 120), st.floats(6, 12), st.booleans(), ends)
def test_a_haunch_fills_the_groove_to_the_end_of_the_leg(wide: float, haunch: float, foot: bool, end: str) -> None:
    up = wide / 2 if foot else 600 - wide / 2
    rail, leg, joint = joined(Run(run=35, wide=wide, up=up, end=end), haunch=haunch)
    cut = joint.first_cuts[0]
    (tenon,) = cut.tenons
    outer = wide / 2
    thick = tenon.thickness

    assert joint.kind == "mortise and haunched tenon"
    assert tenon.width == pytest.approx(wide / 2 - haunch)
    assert_sound(rail, leg, joint)
    standing = thick * (tenon.width * 35 + outer * haunch)
    assert taken_away(rail) == pytest.approx(wide * 22 * 35 - standing, rel=1e-5)
    hollow = thick * (tenon.width * (35 + BOTTOM_ROOM) + outer * (haunch + HAUNCH_ROOM))
    assert taken_away(leg) == pytest.approx(hollow, rel=1e-5)


@few
@given(runs, st.floats(4, 10))
def test_a_haunch_at_a_slant_is_as_deep_all_along(run: Run, haunch: float) -> None:
    run = replace(run, up=run.wide / 2 + 30)
    rail, leg, joint = joined(run, haunch=haunch)
    assert_sound(rail, leg, joint)
    shoulder, tip = joint.first_cuts[0].shoulder, joint.first_cuts[0].haunch.tip
    assert tip.normal == shoulder.normal
    assert tip.offset - shoulder.offset == pytest.approx(haunch)


@few
@given(st.integers(1, 2), st.integers(1, 2), runs)
def test_twins_and_doubles_share_the_section_in_equal_parts(count: int, rows: int, run: Run) -> None:
    rail, leg, joint = joined(run, count=count, rows=rows)
    tenons = joint.first_cuts[0].tenons
    assert len(tenons) == len(joint.second_cuts) == count * rows
    assert_sound(rail, leg, joint)
    for t in tenons:
        assert t.thickness == pytest.approx(run.thick / (2 * count + 1))
    standing = sum(t.width * t.thickness for t in tenons)
    assert taken_away(rail) == pytest.approx((run.wide * run.thick - standing) * run.run, rel=1e-5)


@few
@given(st.floats(50, 120), st.floats(15, 24), st.booleans(), ends)
def test_wedges_spread_a_tenon_along_the_grain_of_the_leg(wide: float, thick: float, on_edge: bool, end: str) -> None:
    run = Run(run=65, wide=wide, thick=thick, leg=(60, 150), end=end, on_edge=on_edge)
    rail, leg, joint = joined(run, kind="through", wedged=True)
    (tenon,) = joint.first_cuts[0].tenons
    kerfs, (mortise,) = cuts_of(joint, Kerf), cuts_of(joint, Mortise)
    size, other = (tenon.width, tenon.thickness) if on_edge else (tenon.thickness, tenon.width)

    assert_sound(rail, leg, joint, reach=100)
    assert len(kerfs) == len(joint.hardware) == (2 if on_edge else 1)
    for kerf in kerfs:
        spread = rail.at.direction(kerf.across)
        assert abs(dot(spread, leg.at.x)) == pytest.approx(1.0)
        # from the end, 5 mm proud, two thirds through the leg
        assert kerf.depth == pytest.approx(5 + SPLIT * 60)
    assert len(kerfs) * (WEDGE - KERF) == pytest.approx(2 * mortise.eased)
    eased = mortise.eased * SPLIT * 60 * other
    assert taken_away(leg) == pytest.approx(size * other * 60 + eased, rel=1e-5)


@few
@given(runs, st.floats(0.5, 2.5))
def test_a_draw_bored_hole_lies_nearer_the_shoulder(run: Run, offset: float) -> None:
    rail, leg, joint = joined(replace(run, run=35), draw_bore=offset)
    holes, pegs = [c for c in joint.first_cuts if isinstance(c, Bore)], [h for h in joint.hardware if h.kind == "peg"]
    assert_sound(rail, leg, joint)
    assert len(holes) == len(pegs) >= 1
    for hole, peg in zip(holes, pegs, strict=True):
        seen = rail.at.point(hole.at)
        apart = tuple(a - b for a, b in zip(seen, peg.at, strict=True))
        along = scaled(peg.direction, dot(apart, peg.direction))
        aside = tuple(a - b for a, b in zip(apart, along, strict=True))
        # square to the peg the two axes stand the offset apart, seen along the rail
        lean = math.sqrt(1.0 - dot(peg.direction, rail.at.x) ** 2)
        assert math.hypot(*aside) == pytest.approx(offset * lean, abs=1e-4)
        assert dot(aside, joint.closes) < 0.0


@few
@given(runs, st.floats(2, 6))
def test_a_loose_tongue_in_an_end_sawn_to_the_leg(run: Run, thick: float) -> None:
    run = replace(run, tilt=run.tilt / 4, run=20.0)
    rail, leg = run.stood()
    joint = loose_tongue(rail, leg, length=30.0, thickness=thick)
    home(rail, leg, joint)
    tongue = joint.hardware[0]
    slots = cuts_of(joint, Mortise)
    width = slots[0].length

    assert_sound(rail, leg, joint)
    assert tongue.length == pytest.approx(30.0)
    assert sum(s.depth for s in slots) == pytest.approx(30.0 + BOTTOM_ROOM)
    end = run.wide * run.thick / run.cosine
    mouth = slots[1].length * slots[1].width
    assert contact_area(rail, leg) == pytest.approx(end - mouth, rel=5e-3)
    assert taken_away(leg) == pytest.approx(width * thick * slots[1].depth, rel=1e-5)


@few
@given(
    runs, st.sampled_from([{}, {"draw_bore": 1.5}, {"haunch": 6.0}, {"count": 2}, {"kind": "through", "wedged": True}])
)
def test_left_and_right_are_mirror_images(run: Run, wanted: dict[str, Any]) -> None:
    run = replace(run, up=run.wide / 2 + 25, run=130 if wanted.get("wedged") else 35)
    rail, leg = run.stood()
    other_rail, other_leg = mirror_image(rail), mirror_image(leg)
    home(rail, leg, mortise_and_tenon(rail, leg, **wanted))
    home(other_rail, other_leg, mortise_and_tenon(other_rail, other_leg, **wanted))
    for part, image in ((rail, other_rail), (leg, other_leg)):
        assert_mirror_images(part, image)
        assert solid(part.wood.mirrored()).Volume() == pytest.approx(solid(image.part).Volume(), rel=1e-9)


def test_a_tenon_near_the_end_of_a_leg_is_narrowed_on_the_outside() -> None:
    for up, outer in ((40.0, "low"), (560.0, "high")):
        rail, leg = Run(up=up).stood()
        end = mortise_and_tenon(rail, leg).first_cuts[0]
        assert isinstance(end, TenonedEnd)
        (t,) = end.tenons
        heights = sorted(rail.at.point((0.0, y, 0.0))[2] for y in (t.inset, t.inset + t.width))
        assert (heights[0] if outer == "low" else 600 - heights[1]) == pytest.approx(12.7)


def test_a_bare_faced_tenon_has_one_shoulder() -> None:
    rail, leg, joint = joined(Run(), rise=0.0, thickness=12.0)
    assert_sound(rail, leg, joint)
    assert taken_away(rail) == pytest.approx(30 * (80 * 22 - 12 * joint.first_cuts[0].tenons[0].width))


REFUSALS: list[tuple[Run, dict[str, Any], str]] = [
    (
        Run(thick=19),
        {"thickness": 13.0},
        r"would leave 3\.0 mm of cheek in a 19 mm rail; a third of the rail is 6\.3 mm",
    ),
    (Run(run=-2), {}, r"stops 2\.00 mm short of leg"),
    (Run(run=59), {}, r"runs 59\.0 mm into leg, 60\.0 mm through; .* 40\.0 mm, is common practice"),
    (Run(run=50), {"kind": "through"}, r"stops 10\.00 mm short of the far side"),
    (Run(), {"wedged": True}, r"can't be wedged from outside while it is blind"),
    (Run(), {"width": 40.0, "shoulders": 5.0}, r"not both"),
    (Run(), {"shoulders": 40.0}, r"leave no tenon on rail, 80\.0 mm wide"),
    (Run(leg=(60, 9)), {}, r"would leave 0\.8 mm of wood beside it in leg"),
    (Run(run=57), {}, r"would leave 1\.5 mm of wood beside it"),
    (Run(), {"draw_bore": 5.0}, r"would shear a 6\.35 mm peg; a quarter of the peg, 1\.6 mm"),
    (Run(run=20), {"draw_bore": 1.0}, r"20\.0 mm long, is too short for a 6\.35 mm peg"),
    (Run(on_edge=False, leg=(60, 150)), {"haunch": 8.0}, r"lies across that grain"),
    (Run(), {"haunch": 8.0, "count": 2}, r"single tenon"),
    (Run(skew=65, run=100, up=100), {}, r"65 degrees out of square"),
]


@pytest.mark.parametrize(("run", "wanted", "sentence"), REFUSALS)
def test_refusals_say_what_would_be_right(run: Run, wanted: dict[str, Any], sentence: str) -> None:
    rail, leg = run.stood()
    with pytest.raises((DesignError, CutError), match=sentence):
        mortise_and_tenon(rail, leg, **wanted)


def test_a_rail_that_comes_nowhere_near_is_refused() -> None:
    rail, leg = Run(up=900).stood()
    with pytest.raises(DesignError, match="no end of rail runs along its grain to a side of leg"):
        mortise_and_tenon(rail, leg)


def test_a_square_mortise_in_a_face_is_one_a_router_cuts() -> None:
    _, leg, joint = joined(Run(side="face"))
    (mortise,) = joint.second_cuts
    (footprint,) = mortise.footprints(leg.wood.blank)
    assert (footprint.side, footprint.through) == ("face", False)
    assert footprint.outline.area == pytest.approx(mortise.length * mortise.width)
    _, slanting, joint = joined(Run(side="face", skew=5.0))
    assert not list(joint.second_cuts[0].footprints(slanting.wood.blank))
