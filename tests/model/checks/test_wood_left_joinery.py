"""Wood left by joinery: cheeks of mortises, tenons, pins and laps; pegs may cross what they hold."""

from __future__ import annotations

import pytest

from model.checks.solids.cavities import cavities
from model.checks.wood_left import remnants
from model.cuts.cut import Cut
from model.cuts.dovetails import Pins, Tails, ring
from model.cuts.faces import Bore, Channel
from model.cuts.laps import Lap, Shoulder
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.removal import Plane
from model.cuts.slanted_dado import SlantedDado
from model.cuts.sliding_dovetails import DovetailSocket
from model.cuts.tenons import Tenon, TenonedEnd
from model.joints.samples import samples
from model.part import Part
from model.stock import board

LEAST = 3.0
NEAR = ((0.0, -1.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))


def leg(*cuts: Cut) -> Part:
    return Part(board(600.0, 60.0, 45.0, "red oak")).cut(*cuts)


def thin(part: Part) -> list[float]:
    return sorted(round(r.left, 3) for r in remnants(part, LEAST) if r.left < LEAST)


def mortise(z: float = 22.5, depth: float = 30.0, x: float = 300.0, **more: object) -> Mortise:
    """One in the near edge, 50 long and 10 wide."""
    return Mortise((x, 0.0, z), *NEAR, 50.0, 10.0, depth, **more)  # type: ignore[arg-type]


def pins(*spans: tuple[float, float], depth: float = 45.0) -> Pins:
    sockets = tuple(ring(((a, 45.0 - depth), (b, 45.0 - depth), (b, 45.0), (a, 45.0))) for a, b in spans)
    return Pins(sockets, Plane((1.0, 0.0, 0.0), 12.0), Plane((-1.0, 0.0, 0.0), 0.0), "face")


def tenoned(thickness: float) -> TenonedEnd:
    return TenonedEnd(Plane((1.0, 0.0, 0.0), 570.0), (Tenon(5.0, 50.0, 20.0, thickness),))


@pytest.mark.parametrize(
    ("cuts", "left"),
    [
        ((mortise(),), []),
        ((mortise(z=7.0),), [2.0]),
        ((mortise(depth=58.0),), [2.0]),
        ((mortise(depth=60.0, through=True),), []),
        ((mortise(x=27.0),), [2.0]),
        ((mortise(z=15.0), mortise(z=27.0)), [2.0]),
        ((mortise(x=200.0), mortise(x=252.5)), [2.5]),
        ((mortise(), Channel((0, 31.5), (600, 31.5), 6.0, 12.0)), []),
        ((mortise(), Channel((0, 20.0), (600, 20.0), 6.0, 16.0)), [1.5]),
        ((SlantedDado((300.0, 30.0, 45.0), (0.6, 0.0, -0.8), (0.8, 0.0, 0.6), 20.0, 46.25),), [2.0]),
        ((SlantedDado((300.0, 30.0, 0.0), (0.0, 0.6, 0.8), (0.0, 0.8, -0.6), 20.0, 46.25),), [2.0]),
        ((OpenMortise(Plane((1.0, 0.0, 0.0), 560.0), 40.0, 2.5),), [2.5, 2.5]),
        ((tenoned(2.5),), [2.5]),
        ((tenoned(10.0),), []),
        ((pins((5.0, 25.0), (30.0, 55.0)),), []),
        ((pins((5.0, 25.0), (27.0, 57.5)),), [2.0, 2.5]),
        ((pins((5.0, 25.0), (30.0, 55.0), depth=43.0),), [2.0, 2.0]),
        ((Lap((Shoulder((500.0, 0.0), (-1.0, 0.0)),), 43.0),), [2.0]),
        ((DovetailSocket((0.0, 13.0), (600.0, 13.0), 12.0, 10.0, slope=0.5),), [2.0]),
    ],
)  # fmt: skip
def test_thin_wood_is_found(cuts: tuple[Cut, ...], left: list[float]) -> None:
    if isinstance(cuts[0], OpenMortise | TenonedEnd):
        part = Part(board(600.0, 60.0, 45.0, "red oak"), cuts)
    else:
        part = leg(*cuts)

    assert thin(part) == pytest.approx(left, abs=0.01)


def test_a_peg_goes_right_across_its_mortise_and_a_dowel_that_breaks_in_is_a_fault() -> None:
    peg = Bore((300.0, 15.0, 45.0), (0.0, 0.0, -1.0), 6.0, 45.0)
    astray = Bore((300.0, 15.0, 45.0), (0.0, 0.0, -1.0), 6.0, 20.0)

    assert thin(leg(mortise(), peg)) == []
    assert min(thin(leg(mortise(), astray))) < 0.0


def test_the_neck_of_a_tail_must_hold() -> None:
    tails = tuple(ring(((570.0, y - 1.2), (570.0, y + 1.2), (600.0, y + 6.0), (600.0, y - 6.0))) for y in (15.0, 45.0))
    cut = Tails(tails, Plane((-1.0, 0.0, 0.0), -570.0), Plane((1.0, 0.0, 0.0), 600.0), "face", (0.0, 0.0, 1.0))

    assert thin(leg(cut)) == pytest.approx([2.4, 2.4])


@pytest.mark.parametrize("sample", samples(), ids=lambda s: s.name)
def test_the_samples_have_enough(sample) -> None:  # type: ignore[no-untyped-def]
    assert [thin(p.wood) for p in sample.parts if thin(p.wood)] == []


def test_what_joinery_hollows_out_is_counted() -> None:
    kinds = {c.name for s in samples() for p in s.parts for c in cavities(p.wood)}

    assert {"mortise", "through mortise", "open mortise", "pins", "lap", "dovetail socket", "tenon", "tails"} <= kinds
