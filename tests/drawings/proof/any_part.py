"""Any part as a maker cuts it: an end or an edge worked one way, and between them each cut in its own stretch."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence

from drawings.cutting.finished import finished_bounds
from model.cuts.cut import Cut, Side
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeCut, EdgeGroove, Rabbet, Tongue
from model.cuts.faces import BiscuitSlot, Bore, Channel, Counterbore, dado, groove
from model.cuts.laps import Lap, Shoulder, Slot
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.moulding import Moulding, ogee, round_over
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut
from model.cuts.slots import SlottedHole
from model.cuts.tenons import Tenon, TenonedEnd
from model.cuts.through import Notch, Opening, Profile
from model.layout.outline import Outline, circle, rectangle
from model.part import Part
from model.placement import Vector, scaled
from model.stock import board

#: Left free at each end for what is worked there, and at each edge, mm.
END, EDGE = 110.0, 24.0
X: Vector = (1.0, 0.0, 0.0)


def any_part(seed: int) -> Part:
    """A board with a random choice of work on it, one in four a right."""
    source = random.Random(seed)
    stock = board(_size(source, 500, 900), _size(source, 85, 220), _size(source, 15, 40), "red oak")
    part = _worked(Part(stock), source) if source.random() < 0.85 else _shaped(Part(stock), source)
    return part.mirrored() if source.random() < 0.25 else part


def _size(source: random.Random, low: float, high: float) -> float:
    """Mostly a round size, as a script says it; sometimes one that comes of a sum."""
    size = source.uniform(low, high)
    return round(size, 1) if source.random() < 0.7 else size


def _worked(part: Part, source: random.Random) -> Part:
    """Its edges worked and its ends square, or its ends sawn at an angle and its edges left as they are."""
    if source.random() < 0.5:
        part = _with(part, _edge(part, "near", source))
        part = _with(part, _edge(part, "far", source))
        part = _with(part, _end(part, source.choice(["left", "right"]), source))
        return _filled(part, source, BETWEEN)
    for name in ("left", "right"):
        (x0, y0, x1, _), out = finished_bounds(part), 1.0 if name == "right" else -1.0
        at = x1 if name == "right" else x0
        part = part.cut(sawn(name, at - out * _size(source, 1, 15), y0, *_angles(source)))
    return _filled(part, source, BETWEEN[:3])


def _filled(part: Part, source: random.Random, kinds: Sequence[Between]) -> Part:
    x0, _, x1, _ = finished_bounds(part)
    step = (x1 - x0 - 2.0 * END) / 3.0
    for n in range(3):
        if source.random() < 0.5:
            low = x0 + END + n * step
            part = part.cut(source.choice(kinds)(part, low, low + step, source))
    return part


def _with(part: Part, cut: Cut | None) -> Part:
    """With one more cut, unless its end or edge is worked already."""
    return part if cut is None or _place(cut) in {_place(c) for c in part.cuts} else part.cut(cut)


def _place(cut: Cut) -> str:
    if isinstance(cut, EdgeCut):
        return cut.edge
    if isinstance(cut, SawCut | TenonedEnd | OpenMortise):
        return cut.end
    return repr(cut)


def _shaped(part: Part, source: random.Random) -> Part:
    """Its far edge arched, or tapered at both ends, or a corner rounded off."""
    long, wide = part.stock.length, part.stock.width
    rise, quarter = _size(source, 4, wide / 5), math.tan(math.pi / 8)
    names = ("near", "right", "far", "left")
    outline = source.choice([
        Outline(((0, 0), (long, 0), (long, wide - rise), (0, wide - rise)), (0, 0, 2 * rise / long, 0), names),
        Outline(((0, 0), (long, 0), (long, wide), (0, wide)), (0, 0, -2 * rise / long, 0), names),
        Outline(((0, 0), (long, 0), (long - rise, wide), (2 * rise, wide)), (), names),
        Outline(((0, 0), (long, 0), (long, wide - rise), (long - rise, wide), (0, wide)), (0, 0, quarter, 0, 0),
                ("near", "right", "corner", "far", "left")),
    ])  # fmt: skip
    return _filled(part.cut(Profile(outline)), source, BETWEEN[:2])


def _end(part: Part, name: str, source: random.Random) -> Cut | None:
    (x0, y0, x1, y1), thick = finished_bounds(part), part.thickness
    out, at = (1.0, x1) if name == "right" else (-1.0, x0)
    slim, wide = _size(source, 4, thick * 0.4), y1 - y0
    kinds: dict[str, Callable[[], Cut]] = {
        "saw cut": lambda: sawn(name, at - out * _size(source, 1, 15), y0, 0.0, 0.0),
        "tenon": lambda: TenonedEnd(
            Plane((out, 0.0, 0.0), out * (at - out * _size(source, 10, 40))),
            (Tenon(y0 + wide / 5, wide / 2, (thick - slim) / 2, slim),),
        ),
        "open mortise": lambda: OpenMortise(Plane((out, 0.0, 0.0), out * (at - out * 40)), slim, (thick - slim) / 2),
        "tongue": lambda: Tongue(edge=name, thickness=slim, length=_size(source, 4, 15), rise=(thick - slim) / 2),
        "rabbet": lambda: Rabbet(edge=name, width=_size(source, 3, 20), depth=slim, side=_side(source)),
        "groove": lambda: EdgeGroove(edge=name, width=slim, depth=_size(source, 4, 15), rise=(thick - slim) / 2),
        "corner": lambda: Notch(rectangle(41, 21).moved(at - 40 if out > 0.0 else at - 1, y1 - 20)),
    }
    return kinds[kind]() if (kind := source.choice([*kinds, ""])) else None


def sawn(end: str, x: float, y: float, miter: float, bevel: float) -> SawCut:
    """A crosscut through the back side's arris at (x, y), degrees off square and off upright."""
    m, b, out = math.radians(miter), math.radians(bevel), 1.0 if end == "right" else -1.0
    return SawCut((x, y, 0.0), (out * math.cos(m) * math.cos(b), math.sin(m) * math.cos(b), -math.sin(b)))


def _angles(source: random.Random) -> tuple[float, float]:
    return source.choice([(0.0, 0.0), (_size(source, -45, 45), 0.0), (0.0, _size(source, -45, 45)), (30.0, -20.0)])


def _edge(part: Part, name: str, source: random.Random) -> Cut | None:
    (_, y0, _, y1), thick = finished_bounds(part), part.thickness
    at, out = (y0, -1.0) if name == "near" else (y1, 1.0)
    slim, into, x = _size(source, 3, thick * 0.4), (0.0, -out, 0.0), _size(source, 72, 78)
    spot = (x, at, thick / 2)
    kinds: list[Cut | None] = [
        None,
        Rabbet(edge=name, width=_size(source, 3, 20), depth=slim, side=_side(source)),
        Tongue(edge=name, thickness=slim, length=_size(source, 4, 15), rise=(thick - slim) / 2),
        EdgeGroove(edge=name, width=slim, depth=_size(source, 4, 15), rise=(thick - slim) / 2),
        Bead(edge=name, radius=_size(source, 2, thick * 0.4), quirk=1.5, side=_side(source)),
        Bevel(edge=name, angle=_size(source, 2, 30), keep=_side(source)),
        Ease(edge=name, radius=_size(source, 1, 4)),
        Chamfer(edge=name, width=_size(source, 1, 4), sides=_side(source)),
        Moulding(edge=name, section=source.choice([ogee(6), round_over(5, 1.5)]), side=_side(source)),
        SawCut((0.0, at - out * _size(source, 1, 8), 0.0), (0.0, out, 0.0)),
        Bore(spot, into, slim, 12.0),
        BiscuitSlot((x, at, thick / 3), into, X, "10"),
        Mortise(spot, scaled(into, -1.0), into, X, 25.0, slim, 14.0),
        Slot(rectangle(12, 13).moved(x, at - 12 if out > 0 else at - 1), 12, 12),
    ]
    return source.choice(kinds)


def _side(source: random.Random) -> Side:
    return "face" if source.random() < 0.5 else "back"


#: A cut between two stations along a part.
Between = Callable[[Part, float, float, random.Random], Cut]


def _trench(part: Part, low: float, high: float, source: random.Random) -> Cut:
    _, y0, _, y1 = finished_bounds(part)
    wide, deep, side = _size(source, 4, 18), _size(source, 2, part.thickness / 2), _side(source)
    x, inner = (low + high) / 2 - 6, (y0 + EDGE, y1 - EDGE)
    return source.choice([
        dado(x, wide, deep, 0.0, part.stock.width, side),
        dado(x, wide, deep, *inner, side),
        groove((y0 + y1) / 2, wide / 2, deep, low + 10, high - 10, side),
        Channel((low + 20, inner[0]), (high - 20, inner[1]), wide / 2, deep, side),
    ])  # fmt: skip


def _hole(part: Part, low: float, high: float, source: random.Random) -> Cut:
    _, y0, _, y1 = finished_bounds(part)
    face, deep = source.random() < 0.5, _size(source, 2, part.thickness / 2)
    at = ((low + high) / 2, _size(source, y0 + EDGE, y1 - EDGE), part.thickness if face else 0.0)
    into, lean = (0.0, 0.0, -1.0 if face else 1.0), math.radians(_size(source, 5, 25))
    aslant = (math.sin(lean) * 0.6, math.sin(lean) * 0.8, into[2] * math.cos(lean))
    return source.choice([
        Bore(at, into, _size(source, 3, 15), source.choice([part.thickness, deep])),
        Bore(at, aslant, _size(source, 3, 8), deep),
        Counterbore(at, into, 12.0, deep, 4.5),
        SlottedHole(at, into, X, 6.0, _size(source, 10, 25), source.choice([part.thickness, deep])),
        Mortise(at, scaled(into, -1.0), into, X, _size(source, 10, 30), _size(source, 4, 10), deep),
    ])  # fmt: skip


def _opened(part: Part, low: float, high: float, source: random.Random) -> Cut:
    _, y0, _, y1 = finished_bounds(part)
    x, tall = (low + high) / 2, y1 - y0 - 2 * EDGE
    wide = _size(source, 10, 30)
    return Opening(source.choice([circle((x, (y0 + y1) / 2), wide), rectangle(wide, tall).moved(x - 15, y0 + EDGE)]))


def _lapped(part: Part, low: float, high: float, source: random.Random) -> Cut:
    _, y0, _, _ = finished_bounds(part)
    turn, x, half = math.radians(source.choice([0.0, _size(source, -12, 12)])), (low + high) / 2, (high - low) / 6
    c, s = math.cos(turn), math.sin(turn)
    shoulders = Shoulder((x - half, y0), (-c, -s)), Shoulder((x + half, y0), (c, s))
    return Lap(shoulders, _size(source, 2, part.thickness / 2), _side(source))


BETWEEN: tuple[Between, ...] = (_trench, _hole, _opened, _lapped)
