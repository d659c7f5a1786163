"""Reliefs: exact arcs, square corners that go home, and nothing cut that a round cutter can't cut."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, reject, settings
from hypothesis import strategies as st
from shapely import Point as Spot
from shapely import Polygon

from model.cuts.laps import Slot
from model.cuts.reliefs import HAIR, relieved, relieved_cut
from model.cuts.through import Opening, Profile
from model.errors import DesignError
from model.layout.outline import Outline, Point, rectangle, rounded
from model.part import Part
from model.solids import solid
from model.stock import sheet

FINE = 1e-4
cutters = st.floats(3, 12)
ways = st.sampled_from(["both", "longer", "shorter"])


@st.composite
def star(draw) -> Outline:  # type: ignore[no-untyped-def]
    """A ring of straight sides with corners of any kind, wide enough for reliefs."""
    count = draw(st.integers(3, 9))
    radii = draw(st.lists(st.floats(90, 300), min_size=count, max_size=count))
    lean = draw(st.floats(0, 1))
    corners = [
        (r * math.cos(math.tau * (n + lean) / count), r * math.sin(math.tau * (n + lean) / count))
        for n, r in enumerate(radii)
    ]
    ring = Outline(tuple(corners))
    assume(all(e.length > 60.0 for e in ring.edges))
    assume(all(a > 35.0 for a in _angles(ring)))
    return ring


def _angles(ring: Outline) -> list[float]:
    """Between the two sides at each corner, degrees, the lesser."""
    found = []
    for n, e in enumerate(ring.edges):
        (ux, uy), (vx, vy) = ring.edges[n - 1].direction(1.0), e.direction(0.0)
        found.append(180.0 - math.degrees(abs(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy))))
    return found


def inside_corners(ring: Outline, waste: str) -> list[Point]:
    found = []
    for n, e in enumerate(ring.edges):
        (ux, uy), (vx, vy) = ring.edges[n - 1].direction(1.0), e.direction(0.0)
        turn = math.degrees(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy))
        if (turn if waste == "inside" else -turn) > 1.0:
            found.append(e.start)
    return found


def wasted(ring: Outline, waste: str) -> Polygon:
    """What the cutter takes away, in a field wide enough."""
    inner = Polygon(ring.points(FINE))
    return inner if waste == "inside" else Spot(0.0, 0.0).buffer(900.0).difference(inner)


def furthest(ring: Outline, corner: Point, cutter: float) -> float:
    """How far from a corner may be cut, mm: one cutter, or in a very sharp corner as far as it needs to come in."""
    angle = _angles(ring)[ring.corners.index(corner)]
    return (cutter + 2.0 * HAIR) * max(1.0, 0.5 / math.sin(math.radians(angle / 2.0)))


def relieved_if_room(ring: Outline, cutter: float, waste: str, into: str) -> Outline:
    """Relieved; an example whose sides are too short for it is thrown back."""
    try:
        return relieved(ring, cutter, waste=waste, into=into)  # type: ignore[arg-type]
    except DesignError as error:
        if "run into each other" not in str(error):
            raise
        reject()


def reliefs(before: Outline, after: Outline) -> list:
    return [e for e in after.edges if not e.straight and e.bulge not in before.bulges]


@settings(max_examples=60, deadline=None)
@given(star(), cutters, ways, st.sampled_from(["inside", "outside"]))
def test_the_square_corner_goes_home(ring, cutter, into, waste) -> None:  # type: ignore[no-untyped-def]
    made = relieved_if_room(ring, cutter, waste, into)
    asked, cut = wasted(ring, waste), wasted(made, waste)
    corners = inside_corners(ring, waste)

    # all that was to go does go
    assert asked.difference(cut.buffer(2.0 * FINE)).area < 1e-4
    # nothing more is cut than round the inside corners, within one cutter of them
    more = cut.difference(asked.buffer(2.0 * FINE))
    near = [Spot(c).buffer(furthest(ring, c, cutter) + 0.005, 64) for c in corners]
    assert more.area < 1e-6 or all(any(n.contains(bit) for n in near) for bit in getattr(more, "geoms", [more]))
    # a round cutter of that size reaches all of it
    reached = cut.buffer(-cutter / 2.0, 64).buffer(cutter / 2.0, 64)
    assert cut.difference(reached.buffer(0.02)).area < 0.05


@settings(max_examples=60, deadline=None)
@given(star(), cutters, ways, st.sampled_from(["inside", "outside"]))
def test_reliefs_are_true_arcs_through_the_corner(ring, cutter, into, waste) -> None:  # type: ignore[no-untyped-def]
    made = relieved_if_room(ring, cutter, waste, into)
    corners = inside_corners(ring, waste)
    arcs = reliefs(ring, made)

    assert len(arcs) == len(corners)
    for arc in arcs:
        assert arc.radius == pytest.approx(cutter / 2.0 + HAIR, abs=1e-6)
        assert (arc.bulge > 0.0) == (waste == "inside")
        assert any(abs(math.dist(arc.centre, c) - arc.radius) < 1e-6 for c in corners)


def test_a_square_opening_gets_four_half_circles() -> None:
    made = relieved(rectangle(60.0, 40.0), 6.0, waste="inside")
    arcs = [e for e in made.edges if not e.straight]

    assert [a.sweep for a in arcs] == pytest.approx([math.pi] * 4)
    # four half circles beyond the chords, less the corners' own triangles
    r = 3.0 + HAIR
    assert made.area == pytest.approx(2400.0 + 4.0 * (math.pi * r * r / 2.0 - r * r))
    assert set(made.names) == {"near", "right", "far", "left", "relief"}


def test_reliefs_into_one_side_leave_the_other_whole() -> None:
    slot = rectangle(60.0, 20.0)
    longer = relieved(slot, 6.0, waste="inside", into="longer")
    shorter = relieved(slot, 6.0, waste="inside", into="shorter")

    assert longer.bounds == pytest.approx((0.0, -3.0 - HAIR, 60.0, 23.0 + HAIR))
    assert shorter.bounds == pytest.approx((-3.0 - HAIR, 0.0, 63.0 + HAIR, 20.0))


def test_only_inside_corners() -> None:
    convex = rectangle(200.0, 100.0)

    assert relieved(convex, 6.0) == convex


def test_smooth_roundings_are_left_and_tight_ones_refused() -> None:
    corners = ((0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0))
    wide = rounded(corners, (5.0,) * 4)

    assert relieved(wide, 6.0, waste="inside") == wide
    with pytest.raises(DesignError, match="rounded to 2 mm is too tight for a cutter 6 mm across; round it to 3 mm"):
        relieved(rounded(corners, (2.0,) * 4), 6.0, waste="inside")
    # on the outside of a part a small rounding is no trouble
    tight = rounded(corners, (2.0,) * 4)
    assert relieved(tight, 6.0) == tight


@settings(max_examples=40, deadline=None)
@given(st.floats(60, 300), st.floats(-0.6, 0.6), cutters, ways)
def test_corners_between_arcs(chord, bulge, cutter, into) -> None:  # type: ignore[no-untyped-def]
    assume(abs(bulge) > 0.02)
    ring = Outline(((0.0, 0.0), (chord, 0.0), (chord, 120.0), (0.0, 120.0)), (bulge / 4.0, 0.0, 0.0, 0.0))
    made = relieved(ring, cutter, waste="inside", into=into)
    asked, cut = Polygon(ring.points(FINE)), Polygon(made.points(FINE))
    kept = next(e for e in made.edges if not e.straight and e.radius > 40.0)

    assert asked.difference(cut.buffer(10.0 * FINE)).area < 1e-4
    assert kept.radius == pytest.approx(ring.edges[0].radius)
    assert kept.centre == pytest.approx(ring.edges[0].centre)


def test_corners_too_sharp_refuse() -> None:
    with pytest.raises(DesignError, match="an inside corner of 20 degrees is too sharp to be relieved; 30 degrees"):
        relieved(Outline(((0.0, 0.0), (200.0, 0.0), (200.0, 72.8))), 6.0, waste="inside")


def test_reliefs_that_meet_refuse() -> None:
    with pytest.raises(DesignError, match=r"a side 8\.0 mm long run into each other; take a smaller cutter"):
        relieved(rectangle(60.0, 8.0), 6.0, waste="inside")
    with pytest.raises(DesignError, match="a cutter 0 mm across"):
        relieved(rectangle(60.0, 8.0), 0.0)


def test_a_slot_is_relieved_at_its_bottom_only() -> None:
    part = Part(sheet(400.0, 300.0, 18.0))
    slot = Slot(Outline(((191.0, -1.0), (209.0, -1.0), (209.0, 150.0), (191.0, 150.0))), 18.0, 150.0)
    made = relieved_cut(slot, part.blank, 6.0)
    r = 3.0 + HAIR

    assert isinstance(made, Slot)
    assert (made.width, made.length) == (18.0, 150.0)
    assert sum(b != 0.0 for b in made.outline.bulges) == 2
    wood = solid(part.cut(made)).Volume()
    assert 400.0 * 300.0 - wood / 18.0 == pytest.approx(18.0 * 150.0 + 2.0 * (math.pi * r * r / 2.0 - r * r), rel=1e-7)


def test_profiles_and_openings_in_wood() -> None:
    part = Part(sheet(400.0, 300.0, 18.0))
    tee = Outline(((0, 0), (400, 0), (400, 100), (250, 100), (250, 300), (150, 300), (150, 100), (0, 100)))
    profile = relieved_cut(Profile(tee), part.blank, 8.0, into="shorter")
    opening = relieved_cut(Opening(rectangle(60.0, 40.0, 170.0, 30.0)), part.blank, 8.0)
    shape = solid(part.cut(profile, opening))

    assert shape.isValid()
    assert shape.Volume() == pytest.approx(18.0 * (profile.outline.area - opening.outline.area), rel=1e-9)
    mirrored = solid(part.cut(profile, opening).mirrored())
    assert mirrored.Volume() == pytest.approx(shape.Volume(), rel=1e-9)
