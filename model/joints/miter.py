"""Miters at any corner angle: flat as in a frame or standing as in a carcass, plain, splined or keyed."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model.cuts.cut import Cut
from model.cuts.sawn import SawnGroove, sawn_through
from model.errors import DesignError
from model.hardware import Hardware
from model.joints.joint import Joint, Stood, clean
from model.joints.meetings.corner import Corner, corner
from model.joints.meetings.shared_face import SharedFace, clear_of_edges, shared_face
from model.placement import Vector, added, cross, dot, scaled, tidy, unit

MITERING = "common practice: the saw plane through the outer and the inner corner, which halves the angle"
SPLINING = (
    "NAVEDTRA 14119, chapter 3: a spline a third of the stock; common practice: near the inner corner of a standing "
    "miter, half as deep as the wood there"
)
KEYING = "common practice: keys as thick as a saw kerf, 1/8 in (3.2 mm), let in two thirds of the miter"

#: A key's thickness, mm, and how far along the miter it is let in from the outside.
KEY_THICKNESS, KEY_SHARE = 3.2, 2.0 / 3.0
#: Where on a standing miter its spline sits, from the outer corner to the inner one.
SPLINE_AT = 2.0 / 3.0
#: Wood that stays between a spline's floor and the outside, at the least, mm (common practice).
LEAST_COVER = 2.0


@dataclass(frozen=True)
class _Groove:
    """A groove across the miter, the same in both boards: `at` on its mouth, square to `across`; `into` the second
    board for a spline, into the corner for a key."""

    at: Vector
    into: Vector
    across: Vector
    width: float
    depth: float
    called: str

    def cut(self, part: Stood, into: Vector) -> SawnGroove:
        x, y, z = part.at.own_point(self.at)
        own = part.at.own_direction
        return SawnGroove(
            (clean(x), clean(y), clean(z)), tidy(own(into)), tidy(own(self.across)), self.width, self.depth, self.called
        )

    def misses(self, p: Vector) -> bool:
        """Whether a point of the miter lies clear of the groove's mouth."""
        off = added(p, scaled(self.at, -1.0))
        return abs(dot(self.across, off)) > self.width / 2.0 + 0.3 or dot(self.into, off) > self.depth + 0.3


def miter(
    a: Stood,
    to: Stood,
    *,
    spline: float | bool = False,
    spline_depth: float | None = None,
    keys: int = 0,
    key_thickness: float = KEY_THICKNESS,
    key_depth: float | None = None,
) -> Joint:
    """`a` and `to` sawn to meet at a corner, at any angle: both are placed running on to its outside.

    Boards whose faces lie level get a flat miter, as in a frame; any others a standing one, as in a carcass or a
    hopper. The saw plane runs from the outer to the inner corner, so it bisects boards of one width.
    spline: thickness of a loose spline in both sawn faces, mm, True for a third of the stock; spline_depth: of its
    groove in each, mm. keys: how many keys are let in across the corner after gluing; key_depth: along the miter from
    the outside, mm. glue_area, mm2: the sawn faces that meet, and what a spline and the keys add, both their sides in
    one board. Raises DesignError if the boards make no corner or stop short of it, or if a spline or key is too big.
    """
    c = corner(a, to)
    face = shared_face(a, to, c.plane)
    if face is None:
        raise DesignError(f"{a.name} and {to.name} pass each other at the corner; place them level with each other")
    n = c.plane.normal
    splined = (_spline(c, face, spline, spline_depth),) if spline else ()
    keyed = _keys(c, face, keys, key_thickness, key_depth)
    first: list[Cut] = [sawn_through(c.plane.flipped().seen_from(a.at))]
    second: list[Cut] = [sawn_through(c.plane.seen_from(to.at))]
    first += [g.cut(a, n) for g in splined] + [g.cut(a, g.into) for g in keyed]
    second += [g.cut(to, scaled(n, -1.0)) for g in splined] + [g.cut(to, g.into) for g in keyed]
    grooves = (*splined, *keyed)
    names = (a.name, to.name)
    return Joint(
        _kind(c, bool(splined), bool(keyed)),
        a.name,
        to.name,
        scaled(n, -1.0),
        (face.contact(lambda p: all(g.misses(p) for g in grooves) and clear_of_edges(a, p) and clear_of_edges(to, p)),),
        tuple(first),
        tuple(second),
        0.0,
        face.area + sum(_spline_gain(g, face) for g in splined) + sum(_key_gain(g, c) for g in keyed),
        tuple(_spline_piece(g, face, names) for g in splined) + tuple(_key_piece(g, c, names) for g in keyed),
        SPLINING if splined else KEYING if keyed else MITERING,
    )


def _kind(c: Corner, splined: bool, keyed: bool) -> str:
    words = [word for word, wanted in (("splined", splined), ("keyed", keyed)) if wanted]
    return " ".join([*words, "flat" if c.flat else "standing", "miter"])


def _spline(c: Corner, face: SharedFace, spline: float | bool, depth: float | None) -> _Groove:
    """In a frame the spline lies level with the faces, in the middle of their thickness; in a carcass it stands square
    to the miter, near the inner corner."""
    along = c.line if c.flat else unit(c.inward)
    low, high = face.extent(along)
    stock = high - low if c.flat else min(c.first.width, c.second.width)
    thickness = clean(stock / 3.0 if spline is True else spline)
    if not 0.0 < thickness <= stock / 2.0:
        raise DesignError(
            f"a spline {thickness:.2f} mm thick leaves {(stock - thickness) / 2.0:.2f} mm of wood beside it in "
            f"{_both(c)}; a third of the stock, {stock / 3.0:.1f} mm, is the rule (NAVEDTRA 14119, chapter 3)"
        )
    middle = (low + high) / 2.0 if c.flat else low + SPLINE_AT * (high - low)
    at = added(face.middle, scaled(along, middle - dot(along, face.middle)))
    room = _room(c, stock, SPLINE_AT * c.length - thickness / 2.0)
    usual, deepest = (min(stock, room), room) if c.flat else (room / 2.0, room - LEAST_COVER)
    chosen = clean(usual if depth is None else depth)
    if not 0.0 < chosen <= deepest:
        raise DesignError(
            f"a spline let {chosen:.2f} mm into each board leaves {room - chosen:.2f} mm of wood behind it in "
            f"{_both(c)}; {usual:.1f} mm deep will do"
        )
    return _Groove(at, c.plane.normal, along, thickness, chosen, "spline groove")


def _room(c: Corner, stock: float, from_outside: float) -> float:
    """How deep, square to the miter, the wood of either board is: half the width in a frame; in a carcass, as far as
    the outer side behind a spline that lies so far from the outer corner, mm."""
    if c.flat:
        return min(c.first.width, c.second.width) / 2.0
    least = min(c.half_angle(band) for band in (c.first, c.second))
    return from_outside * math.tan(least) if least < math.radians(85.0) else stock


def _keys(c: Corner, face: SharedFace, count: int, thickness: float, depth: float | None) -> tuple[_Groove, ...]:
    """Slots across the corner, evenly along its line, floors square to the miter."""
    if count < 1:
        return ()
    low, high = face.extent(c.line)
    pitch = (high - low) / count
    if pitch < 2.0 * thickness:
        raise DesignError(
            f"{count} keys {thickness:g} mm thick crowd the {high - low:.1f} mm of the miter of {_both(c)}; "
            f"at most {int((high - low) // (2.0 * thickness))} go in"
        )
    chosen = clean(KEY_SHARE * c.length if depth is None else depth)
    if not 0.0 < chosen < c.length:
        raise DesignError(
            f"keys {chosen:.2f} mm deep come through the inside of the corner of {_both(c)}, {c.length:.2f} mm in; "
            f"two thirds, {KEY_SHARE * c.length:.1f} mm, is common practice"
        )
    foot = added(c.outside, scaled(c.line, -dot(c.line, c.outside)))
    inward = unit(c.inward)
    return tuple(
        _Groove(added(foot, scaled(c.line, low + (k + 0.5) * pitch)), inward, c.line, thickness, chosen, "key slot")
        for k in range(count)
    )


def _both(c: Corner) -> str:
    return f"{c.first.part.name} and {c.second.part.name}"


def _groove_run(g: _Groove, face: SharedFace) -> tuple[Vector, float, float]:
    """The direction of a spline along the miter, and between which reaches the boards meet there."""
    run = cross(g.into, g.across)
    low, high = face.extent(run)
    return run, low, high


def _spline_gain(g: _Groove, face: SharedFace) -> float:
    """Both sides of the spline in one board, less the mouth of its groove, mm2."""
    _, low, high = _groove_run(g, face)
    return (2.0 * g.depth - g.width) * (high - low)


def _key_gain(g: _Groove, c: Corner) -> float:
    """Both sides of a key in one board, triangles between the miter and its outer side, less the slot's mouth, mm2."""
    half = min(c.half_angle(band) for band in (c.first, c.second))
    return g.depth**2 * math.tan(half) - g.width * g.depth


def _spline_piece(g: _Groove, face: SharedFace, names: tuple[str, str]) -> Hardware:
    run, low, high = _groove_run(g, face)
    start = added(g.at, scaled(run, low - dot(run, g.at)))
    size = f"{g.width:g} x {2.0 * g.depth:g} x {high - low:.1f} mm, grain across"
    return Hardware("spline", size, start, run, names, high - low, 2.0 * g.depth, g.width, g.into)


def _key_piece(g: _Groove, c: Corner, names: tuple[str, str]) -> Hardware:
    """A triangle before it is trimmed; its length is along the bottom of the slot."""
    long = g.depth * sum(math.tan(c.half_angle(band)) for band in (c.first, c.second))
    floor = added(g.at, scaled(g.into, g.depth))
    start = added(floor, scaled(c.plane.normal, -g.depth * math.tan(c.half_angle(c.second))))
    size = f"{g.width:g} x {g.depth:.1f} x {long:.1f} mm"
    return Hardware("key", size, start, c.plane.normal, names, long, g.depth, g.width, scaled(g.into, -1.0))
