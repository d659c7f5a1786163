"""What the figures of a setting measure, for the cuts parts join by: in step with `drawings/lists/joinery_settings`."""

from __future__ import annotations

import math
from collections.abc import Iterator

from drawings.cards.stock_figures import Figures, Told, off_square, tilted
from drawings.cards.wood import Wood, X, Y, Z
from drawings.cutting.finished import finished_bounds
from drawings.lists.joinery_sizes import crossed, end_of, splays, tenon_length
from drawings.paper.measured import Measured, Vector
from drawings.parts.mortise_box import MortiseBox
from model.cuts.cut import Cut
from model.cuts.dovetails import Fingers, Pins, Tails
from model.cuts.faces import entered
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.tenons import Kerf, Tenon, TenonedEnd
from model.placement import added, cross, scaled
from model.tolerance import SAME_POINT


def _tenoned_end(cut: TenonedEnd, wood: Wood) -> Iterator[Figures]:
    part, blank = wood.part, wood.part.blank
    longest = max(cut.tenons, key=lambda t: tenon_length(cut, t, blank))
    bare = sorted({round(t.rise, 6) for t in cut.tenons} | {_over(t, part.thickness) for t in cut.tenons})
    deep = next((low for low in bare if low > SAME_POINT), None)
    at, out = (crossed(cut.shoulder, 0.0, 0.0), 0.0, 0.0), cut.shoulder.normal
    sawn = None if deep is None else _bare(cut, deep, wood)
    yield Figures(None, sawn, off_square(out, at, wood), _long(cut, longest, wood), tilted(out, at, wood))
    for tenon in cut.tenons:
        long = _long(cut, tenon, wood)
        tip = _tip(cut, tenon, wood)
        rise = (tenon.rise, tenon.rise + tenon.thickness)
        yield Figures(wood.thick(*rise, tip), long, None, wood.thick(0.0, rise[0], tip))
        if tenon.width < part.stock.width - SAME_POINT:
            y0 = finished_bounds(part)[1]
            near, far = (_tip_at(cut, tenon, y, wood) for y in (tenon.inset, tenon.inset + tenon.width))
            yield Figures(wood.span(near, far, Y, X), long, None, wood.span((near[0], y0, near[2]), near, Y, X))
    if cut.haunch is not None:
        h = cut.haunch
        tip = _tip(cut, h, wood)
        yield Figures(wood.thick(h.rise, h.rise + h.thickness, tip), _long(cut, h, wood))


def _over(tenon: Tenon, thickness: float) -> float:
    """Between a tenon and the face side, mm."""
    return round(thickness - tenon.rise - tenon.thickness, 6)


def _tip(cut: TenonedEnd, tenon: Tenon, wood: Wood) -> Vector:
    """The middle of a tenon's tip."""
    return _at_tip(cut, tenon, *tenon.middle, wood)


def _tip_at(cut: TenonedEnd, tenon: Tenon, y: float, wood: Wood) -> Vector:
    """The corner of a tenon's tip on its upper cheek, at one of its edges."""
    return _at_tip(cut, tenon, y, tenon.rise + tenon.thickness, wood)


def _at_tip(cut: TenonedEnd, tenon: Tenon, y: float, z: float, wood: Wood) -> Vector:
    x0, _, x1, _ = wood.part.blank.outline.bounds
    x = (x1 if cut.end == "right" else x0) if tenon.tip is None else crossed(tenon.tip, y, z)
    return x, y, z


def _long(cut: TenonedEnd, tenon: Tenon, wood: Wood) -> Measured:
    tip, at = _tip(cut, tenon, wood), crossed(cut.shoulder, *tenon.middle)
    low, high = sorted((tip, (at, *tenon.middle)))
    return wood.span(low, high, X, Y)


def _bare(cut: TenonedEnd, deep: float, wood: Wood) -> Measured:
    """From a side to the nearest cheek."""
    thick = wood.part.thickness
    for tenon in cut.tenons:
        tip = _tip(cut, tenon, wood)
        if abs(tenon.rise - deep) < SAME_POINT:
            return wood.thick(0.0, deep, tip)
        if abs(_over(tenon, thick) - deep) < SAME_POINT:
            return wood.thick(thick - deep, thick, tip)
    raise AssertionError("a shoulder is as deep as one of its tenons asks")


def _mortise(cut: Mortise, wood: Wood) -> Iterator[Figures]:
    """Between its walls half way down; its depth, down its middle line."""
    inward = scaled(cut.mouth, -1.0)
    within, half = added(cut.at, scaled(cut.into, cut.depth / 2.0)), scaled(cut.across, cut.width / 2.0)
    walls = added(within, scaled(half, -1.0)), added(within, half)
    deep = added(cut.at, scaled(cut.into, cut.depth))
    # what opens square may open into a groove, and its mouth have no middle of its own
    middle = deep if cut.square else cut.at
    yield Figures(
        wood.span(*walls, cut.across, cut.into),
        wood.span(cut.at, deep, cut.into, cross(cut.across, cut.into)) if cut.square or not cut.through else None,
        None if cut.square else _leaning(cut, wood),
        None if entered(inward) is not None else wood.thick(0.0, middle[2], middle, inward),
    )


def _leaning(cut: Mortise, wood: Wood) -> Measured:
    """Between a corner of a mortise and square to the side it is cut in."""
    box = MortiseBox(cut)
    return wood.turned(box.aside, box.inward, box.down, 90.0 - box.lean, 90.0)


def _open_mortise(cut: OpenMortise, wood: Wood) -> Iterator[Figures]:
    x0, y0, x1, y1 = finished_bounds(wood.part)
    y, z = (y0 + y1) / 2.0, cut.rise + cut.width / 2.0
    low, high = sorted((x1 if cut.end == "right" else x0, crossed(cut.floor, y, z)))
    at = ((low + high) / 2.0, y, z)
    wide, rise = wood.thick(cut.rise, cut.rise + cut.width, at), wood.thick(0.0, cut.rise, at)
    yield Figures(wide, wood.span((low, y, z), (high, y, z), X, Z), None, rise)


def _kerf(cut: Kerf, wood: Wood) -> Iterator[Figures]:
    half = scaled(cut.across, cut.width / 2.0)
    walls = added(cut.at, scaled(half, -1.0)), added(cut.at, half)
    deep = added(cut.at, scaled(cut.into, cut.depth))
    yield Figures(wood.span(*walls, cut.across, cut.into), wood.span(cut.at, deep, cut.into, cut.across))


def _tails(cut: Tails, wood: Wood) -> Iterator[Figures]:
    tail = splays(cut, wood.part.blank)[0]
    x0, _, x1, _ = wood.part.blank.outline.bounds
    right = end_of(cut.shoulder) == "right"
    foot, tip = crossed(cut.shoulder, 0.0, 0.0), x1 if right else x0
    low, high = sorted(((foot, tail.narrow[0], 0.0), (tip, tail.wide[0], 0.0)))
    slope, out = math.degrees(math.atan(tail.slope)), 0.0 if right else 180.0
    flank = (out - slope, out) if right else (out, out + slope)
    at = (foot, tail.narrow[0], 0.0)
    turned = wood.turned(X, Y, at, *flank)
    if isinstance(cut, Fingers):
        wide = max(splays(cut, wood.part.blank), key=lambda f: f.width).wide
        ends = [(tip, v, 0.0) for v in wide]
        first = wood.span((tip, finished_bounds(wood.part)[1], 0.0), (tip, tail.wide[0], 0.0), Y, X)
        yield Figures(wood.span(ends[0], ends[1], Y, X), wood.span(low, high, X, Y), None, first)
    else:
        yield Figures(None, wood.span(low, high, X, Y), turned)


def _pins(cut: Pins, wood: Wood) -> Iterator[Figures]:
    """Seen from the end: the sockets' depth from the side they open to, and how their flanks splay."""
    part = wood.part
    x0, y0, x1, y1 = part.blank.outline.bounds
    socket, face = splays(cut, part.blank)[0], cut.side == "face"
    top, floor = (part.thickness, part.thickness - cut.depth) if face else (0.0, cut.depth)
    end, base = (x1 if cut.end.normal[0] > 0.0 else x0), crossed(cut.baseline, (y0 + y1) / 2.0, part.thickness / 2.0)
    y = sum(socket.narrow) / 2.0
    low, high = sorted(((end, y, part.thickness / 2.0), (base, y, part.thickness / 2.0)))
    yield Figures(None, wood.thick(min(top, floor), max(top, floor), (end, y, 0.0), Y), _flank(cut, wood),
                  wood.span(low, high, X, Z))  # fmt: skip


def _flank(cut: Pins, wood: Wood) -> Measured:
    """The angle between a socket's flank and square to the board, at its corner on a side."""
    a, _, _, d = cut.sockets[0].corners
    base, tip = (a, d) if a[1] < d[1] else (d, a)
    turn = math.degrees(math.atan2(tip[1] - base[1], tip[0] - base[0]))
    return wood.turned(Y, Z, (0.0, *base), *sorted((90.0, turn)))


JOINERY_FIGURES: dict[type[Cut], Told] = {
    TenonedEnd: _tenoned_end,
    Mortise: _mortise,
    OpenMortise: _open_mortise,
    Kerf: _kerf,
    Tails: _tails,
    Fingers: _tails,
    Pins: _pins,
}
