"""Where a piece stands, which hand it is made for and in what order its parts are named changes nothing that is found.

Asked of the whole dry fit, of pieces with several faults in them at once.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache, reduce

import pytest

from model.checks.dry_fit import dry_fit
from model.checks.finding import Answer, Finding
from model.checks.solids.clearance import forget_clearances
from model.checks.solids.pairs import forget_pairs
from model.checks.travel.ways import forget_ways
from model.cuts.faces import Bore, Channel
from model.order_sections import Place, Shop
from model.piece import Piece
from model.placement import Placement, Vector, turned_about, unit
from model.solids import solid, standing
from tests.model.checks.planting import (
    BOOKCASE,
    DOOR,
    DRAWER,
    LARGE,
    LID,
    STOOL,
    bring,
    cut,
    drive,
    faultless,
    hang,
    keep_apart,
    lengthen,
    move,
    put,
    recut,
    slide,
    tighten,
)
from tests.model.checks.whole_piece import carried, flipped, mirrored, shuffled

#: Elsewhere on the floor, turned; and anyhow in space, where nothing is asked of doorways.
ON_THE_FLOOR = Placement((300.0, -20.0, 0.0)).swung(33.0, about=(10.0, 20.0))
ANYHOW = Placement((300.0, -70.0, 41.0)) @ turned_about((5.0, 6.0, 7.0), unit((0.3, -0.5, 0.8)), 77.0)

#: Checks of what often meets or stands open all along a line or a face, so that any place of it may be shown.
ALL_ALONG = ("contact", "light", "apart", "moving")

SMALL_SHOP = Shop(planer_width=245.0, open_time=5.0, clamps=4)

FAULTY = {
    BOOKCASE: (
        move("shelf 2", -0.4, 0.0, 0.0),
        recut("left side", Channel, depth=10.0),
        cut("shelf 3", Channel((300.0, 60.0), (300.0, 150.0), 8.0, 17.0)),
        drive("finish nail", "back board 1", "shelf 2", length=268.0),
        keep_apart("shelf 1", "shelf 2", 300.0),
        tighten("shelf 1", "right side", Channel, width=-0.4),
        bring("plinth", 2),
    ),
    STOOL: (move("seat", 0.0, 0.0, 0.2), cut("seat", Bore((150.0, 60.0, 18.0), (0.0, 0.0, -1.0), 8.0, 16.0))),
    DRAWER: (
        slide(460.0),
        put((100.0, -420.0, 90.0), (50.0, 20.0, 50.0)),
        lengthen("drawer bottom", 1.0),
        keep_apart("left drawer side", "left case side", 1.0),
    ),
    DOOR: (hang(0.0, 22.0, 0.0), drive("hinge screw", "post", length=70.0), move("door", 0.3, 0.0, 0.0)),
    LID: (hang(0.0, -12.0, 0.0), move("front", 0.0, 0.05, 0.0)),
}


def faulty(name: str) -> Piece:
    return reduce(lambda piece, plant: plant(piece), FAULTY[name], faultless(name))


def told(name: str, piece: Piece) -> Answer:
    """Asked afresh, with nothing known from before."""
    for forget in (forget_pairs, forget_ways, forget_clearances):
        forget()
    shop = LARGE if name == DRAWER else SMALL_SHOP
    return dry_fit(piece, standing(piece), shop=shop, at=Place(door=(240.0, 1000.0)))


@cache
def as_drawn(name: str) -> Answer:
    return told(name, faulty(name))


def in_order(answer: Answer, without: str = "") -> list[Finding]:
    """By all that must not change but the value's last digits."""

    def key(f: Finding) -> tuple[object, ...]:
        return f.check, f.severity, sorted(f.parts), f.unit, round(f.limit, 3), round(f.value, 2)

    return sorted((f for f in answer.findings if f.check != without), key=key)


def assert_same(piece: Piece, one: Answer, other: Answer, to: Callable[[Vector], Vector], without: str = "") -> None:
    """The same findings, their places carried along, and the same proofs. piece: the one that the other is told of."""
    here, there = in_order(one, without), in_order(other, without)
    assert [(f.check, f.severity, set(f.parts)) for f in here] == [(f.check, f.severity, set(f.parts)) for f in there]
    for f, g in zip(here, there, strict=True):
        assert (g.value, g.limit) == pytest.approx((f.value, f.limit), abs=1e-3), f.message
        assert (f.where is None) == (g.where is None)
        if f.where is not None and g.where is not None:
            alike = f.check in ALL_ALONG and in_a_part(piece, g)
            assert alike or math.dist(to(f.where), g.where) < 0.01, (f.message, g.message)
    assert without or set(one.proofs) == set(other.proofs)
    assert figures(one) == figures(other)


def in_a_part(piece: Piece, f: Finding) -> bool:
    """Whether its place lies in the bounds of one of its parts or, but for 1 mm, half way from it to the other."""
    off = 1.0 + (f.value / 2.0 if f.check == "apart" else 0.0)

    def inside(name: str) -> bool:
        box, (x, y, z) = solid(piece[name].part).BoundingBox(), piece[name].at.own_point(f.where or (0.0, 0.0, 0.0))
        return off > max(box.xmin - x, x - box.xmax, box.ymin - y, y - box.ymax, box.zmin - z, z - box.zmax)

    return any(map(inside, f.parts))


def figures(answer: Answer) -> dict[str, object]:
    """But for the table of clearances, whose rows come as the joints do."""
    return {name: figure for name, figure in answer.figures.items() if name != "clearances"}


@pytest.mark.parametrize("name", FAULTY)
def test_these_pieces_have_faults_of_several_kinds(name):
    assert len({f.check for f in as_drawn(name).findings if f.severity != "note"}) >= 3


@pytest.mark.parametrize("name", FAULTY)
def test_turned_on_the_floor(name):
    other = carried(faulty(name), ON_THE_FLOOR)
    assert_same(other, as_drawn(name), told(name, other), ON_THE_FLOOR.point)


@pytest.mark.parametrize("name", FAULTY)
def test_turned_anyhow(name):
    other = carried(faulty(name), ANYHOW)
    assert_same(other, as_drawn(name), told(name, other), ANYHOW.point, without="way in")


@pytest.mark.parametrize("name", FAULTY)
def test_made_for_the_other_hand(name):
    other = mirrored(faulty(name))
    assert_same(other, as_drawn(name), told(name, other), flipped)


@pytest.mark.parametrize("name", FAULTY)
def test_its_parts_named_in_another_order(name):
    other = shuffled(faulty(name), 7)
    assert_same(other, as_drawn(name), told(name, other), lambda where: where)
