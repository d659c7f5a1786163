"""Both halves of a sliding dovetail made again: a tongue from the sections at its two ends, a socket from its plan."""

from __future__ import annotations

import math
from dataclasses import replace

from drawings.parts.sliding_dovetail_sections import tongue_shares
from drawings.proof.maker import Maker, axis_of
from model.cuts.sliding_dovetails import DovetailSocket, DovetailTongue


def tongue(cut: DovetailTongue, maker: Maker) -> DovetailTongue:
    """Its thickness at the tip as it is printed where it is cut through, told on to its ends."""
    say, thick, axis = maker.numbers, maker.part.thickness, axis_of((*cut.out, 0.0))
    shares = tongue_shares(cut, maker.part)
    rises = [cut.inset + cut.taper / 2.0 * share for share in shares]
    tips = [say.apart(2, rise, thick - rise) for rise in rises]
    taper = (tips[0] - tips[-1]) / (shares[-1] - shares[0]) if cut.taper else 0.0
    start, end = maker.point(cut.start), maker.point(cut.end)
    return replace(
        cut,
        start=start,
        end=end,
        length=abs(say.apart(axis, cut.start[axis], cut.start[axis] + cut.length * cut.out[axis])),
        slope=_slope(cut.slope, maker),
        inset=maker.z(rises[0]) - taper / 2.0 * shares[0],
        taper=taper,
        heel=_heel(cut, maker),
    )


def _heel(cut: DovetailTongue, maker: Maker) -> float:
    axis = axis_of(((cut.end[0] - cut.start[0]) / cut.run, (cut.end[1] - cut.start[1]) / cut.run, 0.0))
    way = math.copysign(1.0, cut.end[axis] - cut.start[axis])
    return abs(maker.numbers.apart(axis, cut.end[axis] - way * cut.heel, cut.end[axis])) if cut.heel else 0.0


def socket(cut: DovetailSocket, maker: Maker) -> DovetailSocket:
    """Its mouth at both ends from the plan, its depth from the table, its walls' lean from the section."""
    along, across = axis_of((*cut.direction, 0.0)), 1 - axis_of((*cut.direction, 0.0))
    widths, middles = [], []
    for p, width in ((cut.start, cut.width), (cut.end, cut.width - cut.taper)):
        low, high = (maker.numbers.place(across, p[across] + s * width / 2.0) for s in (-1.0, 1.0))
        widths.append(high - low)
        middles.append((low + high) / 2.0)
    ends = [maker.numbers.place(along, p[along]) for p in (cut.start, cut.end)]
    start, end = ((e, m) if along == 0 else (m, e) for e, m in zip(ends, middles, strict=True))
    top = maker.part.thickness if cut.side == "face" else 0.0
    depth = abs(maker.numbers.apart(2, top, abs(top - cut.depth)))
    return replace(
        cut, start=start, end=end, width=widths[0], depth=depth, slope=_slope(cut.slope, maker),
        taper=widths[0] - widths[1],
    )  # fmt: skip


def _slope(slope: float, maker: Maker) -> float:
    """Of a wall, off upright or off level as the section tells it."""
    angle = math.degrees(math.atan(slope))
    return math.tan(math.radians(maker.numbers.size(angle, "angle")))
