"""Joinery in the cutting files: what a router can make is drawn exactly, the rest is listed as work on edges."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawings.cutting.layers import OUTLINE, THROUGH, edge_work, traces
from drawings.cutting.sawn_outline import sawn_outline, without
from model.cuts.faces import BiscuitSlot, Bore, Counterbore
from model.cuts.laps import Slot
from model.cuts.mortises import OpenMortise
from model.cuts.reliefs import relieved, relieved_cut
from model.cuts.removal import Plane
from model.cuts.tenons import Tenon, TenonedEnd
from model.cuts.through import Notch, Profile
from model.joints.samples import samples
from model.layout.outline import circle, rectangle, ring_sector
from model.part import Part
from model.solids import solid
from model.stock import board

ROUTED = [
    (f"{s.name}: {p.name}", p.wood)
    for s in samples()
    for p in s.parts
    if not edge_work(p.wood) and not any(isinstance(c, BiscuitSlot | Bore | Counterbore) for c in p.wood.cuts)
]


def tenths(low: int, high: int) -> st.SearchStrategy[float]:
    """Lengths to a tenth of a millimetre."""
    return st.integers(10 * low, 10 * high).map(lambda n: n / 10.0)


def volume(part: Part) -> float:
    """What the traces leave of the stock, mm3."""
    return sum(t.outline.area * t.depth * (1 if t.layer == OUTLINE else -1) for t in traces(part))


@pytest.mark.parametrize("part", [w for _, w in ROUTED], ids=[n for n, _ in ROUTED])
def test_outline_and_pockets_are_all_that_is_cut(part: Part) -> None:
    # a groove across a tail's end is counted where there is no wood, a few mm3
    assert volume(part) == pytest.approx(solid(part).Volume(), rel=1e-4)


def test_laps_tails_fingers_tenons_slots_and_tabs_are_routed() -> None:
    names = {name for name, _ in ROUTED}

    assert {
        "tee half lap: first lath",
        "through dovetail: front",
        "box joint: side",
        "mortise and tenon: rail",
        "slotted, relieved: first divider",
        "tabs: side",
        "miter: second member",
    } <= names


@pytest.mark.parametrize(
    ("joint", "part", "listed"),
    [
        ("through dovetail", "side", ["pins"]),
        ("mortise and tenon", "leg", ["mortise"]),
        ("twin tenon", "rail", ["twin tenon"]),
        ("leaning tenon", "rail", ["tenon"]),
        ("sliding dovetail", "side", ["dovetail socket"]),
        ("keyed miter", "front", ["saw cut", "key slot", "key slot", "key slot"]),
    ],
)
def test_what_no_router_makes_from_above_is_listed(joint: str, part: str, listed: list[str]) -> None:
    wood = next(p.wood for s in samples() if s.name == joint for p in s.parts if p.name == part)

    assert [c.name for c in edge_work(wood)] == listed


@settings(max_examples=20, deadline=None)
@given(tenths(3, 12), tenths(5, 30), tenths(0, 15), tenths(0, 8), tenths(5, 12))
def test_a_tenon_of_any_size_is_routed_exactly(thick: float, long: float, near: float, far: float, rise: float) -> None:
    shoulder = Plane((1.0, 0.0, 0.0), 300.0 - long)
    tenon = Tenon(near, 80.0 - near - far, rise, thick)
    part = Part(board(300, 80, 30, "red oak")).cut(TenonedEnd(shoulder, (tenon,)))

    assert volume(part) == pytest.approx(solid(part).Volume(), rel=1e-9)
    assert sum(t.layer == THROUGH for t in traces(part)) == 0


@settings(max_examples=25, deadline=None)
@given(st.floats(4, 8), st.floats(20, 40), st.floats(45, 120), st.floats(-30, 30))
def test_a_relieved_slot_is_part_of_the_outline(cutter: float, wide: float, long: float, turn: float) -> None:
    slot = rectangle(wide, long + 400.0).moved(-wide / 2.0, -400.0).turned(turn).moved(150, 0)
    part = Part(board(300, 200, 18, "red oak"))
    cut = relieved_cut(Slot(slot, wide, long), part.blank, cutter)
    found = traces(part.cut(cut))

    assert [t.layer for t in found] == [OUTLINE]
    assert sum(not e.straight for e in found[0].outline.edges) >= 2
    assert found[0].outline.area * 18 == pytest.approx(solid(part.cut(cut)).Volume(), rel=1e-6)


@given(st.floats(30, 120), st.floats(0, 360))
def test_a_round_bite_out_of_a_round_edge(bite: float, around: float) -> None:
    disc = circle((0.0, 0.0), 400.0)
    hole = circle((200.0, 0.0), bite).turned(around)
    left = without(disc, hole)

    assert left is not None
    assert len(left.edges) in (2, 3, 4, 5)
    assert left.bounds == pytest.approx(left.bounds)
    assert 0.4 < (disc.area - left.area) / hole.area < 0.6


def test_a_curved_board_with_a_relieved_notch_keeps_its_true_arcs() -> None:
    seat = ring_sector(2355, 2750, 15.6).moved(800, -2250)
    part = Part(board(1600, 520, 19, "red oak")).cut(Profile(seat))
    square = rectangle(60, 600).moved(770, -450)
    front, left = sawn_outline(part.cut(Notch(relieved(square, 8, waste="inside", within=part.outline))))
    radii = {round(e.radius, 3) for e in front.edges if not e.straight}

    assert left == ()
    assert {2355.0, 2750.0, 4.02} <= radii


def test_an_open_mortise_is_saw_work() -> None:
    part = Part(board(300, 60, 19, "red oak")).cut(OpenMortise(Plane((1.0, 0.0, 0.0), 260.0), 6.0, 6.5))

    assert [t.layer for t in traces(part)] == [OUTLINE]
    assert len(edge_work(part)) == 1
