"""Each kind of cut made again with its own sizes as they are printed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import singledispatch

from drawings.paper.measured import Vector
from drawings.parts.located import is_round
from drawings.proof.dovetails_made_again import socket, tongue
from drawings.proof.edges_made_again import edge_work, moulding, raised_edge
from drawings.proof.holes_made_again import biscuit_slot, bore, counterbore
from drawings.proof.leaning_made_again import groove, leaning_mortise, pocket, saw_cut, sloping
from drawings.proof.legs_made_again import taper, turned
from drawings.proof.maker import Maker, axis_of
from drawings.proof.printed_numbers import IncompleteError
from drawings.proof.slanted_made_again import slanted_dado
from drawings.proof.slanting_made_again import slanting_channel, slanting_shoulder
from model.cuts.cut import Cut
from model.cuts.dovetails import Pins
from model.cuts.edges import EdgeCut
from model.cuts.faces import BiscuitSlot, Bore, Channel, Counterbore, entered
from model.cuts.gains import HingeGain
from model.cuts.laps import Lap
from model.cuts.legs import Taper, Turned
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.moulding import Moulding, RaisedEdge
from model.cuts.pockets import Pocket
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut, SawnGroove
from model.cuts.slanted_dado import SlantedDado
from model.cuts.sliding_dovetails import DovetailSocket, DovetailTongue
from model.cuts.slots import SlottedHole
from model.cuts.tenons import Kerf, Tenon, TenonedEnd
from model.cuts.through import Notch, Opening
from model.layout.outline import Outline, Point, circle
from model.placement import cross

_ALIGNED, _THERE = 1e-6, 1e-3


def _at(places: dict[int, float]) -> Vector:
    return places[0], places[1], places[2]


@singledispatch
def made_again(cut: Cut, maker: Maker) -> Cut:
    """The cut with its own numbers printed. Raises IncompleteError for a number that is missing, and for a kind of cut
    that is not known here."""
    raise IncompleteError(f"{maker.numbers.part}: a {cut.name} can't be made again from its numbers yet")


@made_again.register
def _(cut: Opening, maker: Maker) -> Opening:
    if is_round(cut.outline):
        (x0, y0), (x1, y1) = cut.outline.corners
        centre = maker.point(((x0 + x1) / 2.0, (y0 + y1) / 2.0))
        return Opening(circle(centre, maker.numbers.size(x1 - x0, "diameter")))
    return Opening(maker.outline(cut.outline))


@made_again.register
def _(cut: Notch, maker: Maker) -> Notch:
    """What of it lies outside the wood runs out just as far; a full circle by its middle."""
    if is_round(cut.outline):
        centre = maker.past(0, cut.outline.edges[0].centre[0]), maker.past(1, cut.outline.edges[0].centre[1])
        return Notch(circle(centre, 2.0 * maker.numbers.radius(cut.outline.edges[0])))
    if not all(e.straight for e in cut.outline.edges):
        raise IncompleteError(f"{maker.numbers.part}: a rounded notch can't be made again on its own yet")
    corners = tuple((maker.past(0, x), maker.past(1, y)) for x, y in cut.outline.corners)
    return Notch(Outline(corners, cut.outline.bulges, cut.outline.names))


@made_again.register
def _(cut: Channel, maker: Maker) -> Channel:
    if max(map(abs, cut.direction)) < 1.0 - _ALIGNED:
        return slanting_channel(cut, _depth(cut.depth, cut.side, maker), maker)
    k = 0 if abs(cut.direction[1]) > 0.5 else 1
    low, high = (maker.numbers.place(k, cut.start[k] + s * cut.width / 2) for s in (-1.0, 1.0))
    opened = cut.open_ends(maker.part.blank)
    ends = [_channel_end(p, 1 - k, out, maker) for p, out in zip((cut.start, cut.end), opened, strict=True)]
    middle = (low + high) / 2
    start, end = ((middle, p) if k == 0 else (p, middle) for p in ends)
    return replace(cut, start=start, end=end, width=high - low, depth=_depth(cut.depth, cut.side, maker))


def _channel_end(p: Point, axis: int, opened: bool, maker: Maker) -> float:
    """Where a trench stops; one that runs out, over an edge or into another trench, is known by that."""
    if opened or _runs_out(p, maker):
        return p[axis]
    return maker.numbers.place(axis, p[axis])


def _runs_out(p: Point, maker: Maker) -> bool:
    """Is the end of a trench lost in another?"""
    others = [c for c in maker.part.cuts if isinstance(c, Channel) and p not in (c.start, c.end)]
    return any(c.footprint().contains(p) for c in others)


def _depth(depth: float, side: str, maker: Maker) -> float:
    thick = maker.part.thickness
    start, end = (thick, thick - depth) if side == "face" else (0.0, depth)
    return abs(maker.numbers.apart(2, start, end))


@made_again.register
def _(cut: SlottedHole, maker: Maker) -> SlottedHole:
    level, deep = axis_of(cut.along), axis_of(cut.into)
    across = 3 - level - deep
    half = cut.length / 2.0
    long = abs(maker.numbers.apart(level, cut.at[level] - half, cut.at[level] + half)) if not cut.round else None
    width = maker.numbers.size(cut.width, "diameter")
    places = {level: maker.numbers.place(level, cut.at[level]), across: maker.numbers.place(across, cut.at[across])}
    places[deep], depth = _slot_depth(cut, deep, maker)
    return replace(cut, at=_at(places), width=width, length=long or width, depth=depth)


def _slot_depth(cut: SlottedHole, deep: int, maker: Maker) -> tuple[float, float]:
    """From where it is begun to its floor; right through, or down to a floor that is located itself."""
    low, high = maker.numbers.ends[deep]
    sign = cut.into[deep]
    floor = cut.at[deep] + sign * cut.depth
    if not low + _THERE < floor < high - _THERE:
        return cut.at[deep], cut.depth
    side = entered(cut.into)
    if side is not None:
        depth = maker.numbers.size(cut.depth, "depth")
        return (maker.z(maker.part.thickness) if side == "face" else 0.0), depth
    try:
        return cut.at[deep], abs(maker.numbers.place(deep, floor) - cut.at[deep])
    except IncompleteError:
        return maker.numbers.place(deep, cut.at[deep]), maker.numbers.size(cut.depth, "depth")


@made_again.register
def _(cut: Mortise, maker: Maker) -> Mortise:
    if not cut.square or max(map(abs, cut.mouth)) < 1.0 - _ALIGNED:
        return leaning_mortise(cut, maker)
    along, across, into = axis_of(cut.along), axis_of(cut.across), axis_of(cut.into)
    places = {}
    places[along], length = maker.stretch(cut.at, cut.along, cut.length)
    places[across], width = maker.stretch(cut.at, cut.across, cut.width)
    places[into] = maker.numbers.place(into, cut.at[into])
    floor = None if cut.floor is None else maker.level(cut.floor)
    depth = abs(maker.numbers.apart(into, cut.at[into], cut.at[into] + cut.into[into] * cut.depth))
    made = replace(cut, at=_at(places), length=length, width=width, depth=depth, floor=floor)
    return _eased(cut, made, along, into, maker) if cut.eased else made


def _eased(cut: Mortise, made: Mortise, along: int, into: int, maker: Maker) -> Mortise:
    """Widened on its far side, so much at each end, from so far in."""
    half, far = cut.length / 2.0, cut.at[into] + cut.into[into] * cut.depth
    wide = abs(maker.numbers.apart(along, cut.at[along] - half - cut.eased, cut.at[along] + half + cut.eased))
    begins = far - cut.into[into] * cut.ease_depth
    return replace(made, eased=(wide - made.length) / 2.0, ease_depth=abs(maker.numbers.apart(into, begins, far)))


@made_again.register
def _(cut: HingeGain, maker: Maker) -> HingeGain:
    along, across, into = axis_of(cut.along), axis_of(cut.across), axis_of(cut.into)
    places = {}
    places[along], length = maker.stretch(cut.at, cut.along, cut.length)
    sizes = {}
    for axis, way, size in ((across, cut.across, cut.leaf), (into, cut.into, cut.depth)):
        places[axis] = maker.numbers.place(axis, cut.at[axis])
        sizes[axis] = abs(maker.numbers.apart(axis, cut.at[axis], cut.at[axis] + way[axis] * size))
    return replace(cut, at=_at(places), length=length, leaf=sizes[across], depth=sizes[into])


@made_again.register
def _(cut: Kerf, maker: Maker) -> Kerf:
    level = cross(cut.into, cut.across)
    along, across, into = axis_of(level), axis_of(cut.across), axis_of(cut.into)
    places = {}
    places[across], width = maker.stretch(cut.at, cut.across, cut.width)
    places[along], length = maker.stretch(cut.at, level, cut.length)
    places[into] = maker.numbers.place(into, cut.at[into])
    depth = abs(maker.numbers.apart(into, cut.at[into], cut.at[into] + cut.into[into] * cut.depth))
    return replace(cut, at=_at(places), width=width, length=length, depth=depth)


@made_again.register
def _(cut: TenonedEnd, maker: Maker) -> TenonedEnd:
    haunch = None if cut.haunch is None else _tenon(cut.haunch, maker)
    tenons = tuple(_tenon(t, maker) for t in cut.tenons)
    _, y0, _, y1 = maker.part.outline.bounds
    standing = cut.tenons if cut.haunch is None else (*cut.tenons, cut.haunch)
    across = [y0, y1, *(y for t in standing for y in (t.inset, t.inset + t.width))]
    heights = [0.0, maker.part.thickness, *(z for t in standing for z in (t.rise, t.rise + t.thickness))]
    return replace(cut, shoulder=_face(cut.shoulder, across, heights, maker), tenons=tenons, haunch=haunch)


def _face(plane: Plane, across: Sequence[float], heights: Sequence[float], maker: Maker) -> Plane:
    """Square across the part, or leaning."""
    square = abs(plane.normal[0]) > 1.0 - _ALIGNED
    return maker.level(plane) if square else sloping(plane, across, heights, maker)


def _tenon(tenon: Tenon, maker: Maker) -> Tenon:
    inset, far = (maker.y(v) for v in (tenon.inset, tenon.inset + tenon.width))
    rise, top = (maker.z(v) for v in (tenon.rise, tenon.rise + tenon.thickness))
    ends, levels = (tenon.inset, tenon.inset + tenon.width), (tenon.rise, tenon.rise + tenon.thickness)
    tip = None if tenon.tip is None else _face(tenon.tip, ends, levels, maker)
    return Tenon(inset, far - inset, rise, top - rise, tip)


@made_again.register
def _(cut: Pins, maker: Maker) -> Pins:
    sockets = tuple(replace(s, corners=tuple((maker.y(y), maker.z(z)) for y, z in s.corners)) for s in cut.sockets)
    return replace(cut, sockets=sockets, baseline=maker.level(cut.baseline), end=maker.level(cut.end))


@made_again.register
def _(cut: OpenMortise, maker: Maker) -> OpenMortise:
    low, high = (maker.z(v) for v in (cut.rise, cut.rise + cut.width))
    return replace(cut, floor=maker.level(cut.floor), rise=low, width=high - low)


@made_again.register
def _(cut: Lap, maker: Maker) -> Lap:
    shoulders = []
    for wall in cut.shoulders:
        if max(map(abs, wall.beyond)) < 1.0 - _ALIGNED:
            shoulders.append(slanting_shoulder(wall, cut, maker))
            continue
        axis = axis_of((*wall.beyond, 0.0))
        at = list(wall.at)
        at[axis] = maker.numbers.place(axis, at[axis])
        shoulders.append(replace(wall, at=(at[0], at[1])))
    return replace(cut, shoulders=tuple(shoulders), depth=_depth(cut.depth, cut.side, maker))


made_again.register(SawCut, saw_cut)
made_again.register(Pocket, pocket)
made_again.register(SawnGroove, groove)
made_again.register(SlantedDado, slanted_dado)
made_again.register(Bore, bore)
made_again.register(Counterbore, counterbore)
made_again.register(BiscuitSlot, biscuit_slot)
made_again.register(EdgeCut, edge_work)
made_again.register(Moulding, moulding)
made_again.register(RaisedEdge, raised_edge)
made_again.register(Taper, taper)
made_again.register(Turned, turned)
made_again.register(DovetailTongue, tongue)
made_again.register(DovetailSocket, socket)
