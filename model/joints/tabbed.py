"""Tabs on the edge of one sheet through openings in another: the through tenon of parts cut on a router."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from model.cuts.reliefs import relieved_cut
from model.cuts.removal import RUN_OUT
from model.cuts.through import Notch, Opening
from model.errors import DesignError
from model.joints.joint import Contact, Joint, Stood, clean
from model.joints.meetings.meeting import Meeting, meeting
from model.layout.outline import Outline, Point
from model.placement import Vector, scaled
from model.tolerance import CONTACT

TABBING = "common practice: tabs as thick as the stock, right through, 0.2 mm wider openings to slide in by hand"

#: How much longer and wider than the tab its opening is, mm.
TAB_FIT = 0.2
#: Least sheet left round an opening, mm (1/2 in, common practice).
BESIDE = 12.7
#: How finely shoulders are looked for along the edge, mm.
_STEP = 1.0


def tabbed(
    part: Stood,
    into: Stood,
    *,
    at: Sequence[float],
    width: float,
    fit: float = TAB_FIT,
    cutter: float | None = None,
) -> Joint:
    """Tabs on the edge of `part`, as long as it runs into the sheet or through it, each in an opening there.

    at: middles of the tabs along the edge, mm from the middle of what runs in. width: of each tab, mm; they are as
    thick as the part. fit: how much longer and wider the openings are, mm. cutter: diameter of the router's cutter,
    mm, for which all inside corners are relieved; square without one. Both parts are cut right through from a face.
    Raises DesignError if the part doesn't stand square to the sheet, doesn't reach through it, or the tabs don't lie
    on it.
    """
    m = meeting(part, into)
    low, high = m.reach(CONTACT)
    begins = sorted((low + high - width) / 2.0 + s for s in at)
    tabs = [(clean(b), clean(b + width)) for b in begins]
    _check(m, tabs, low, high)
    notches = tuple(_notch(m, a, b, cutter) for a, b in _waste(tabs, low, high))
    openings = tuple(_opening(m, a, b, fit, cutter) for a, b in tabs)
    return Joint(
        "tabbed",
        part.name,
        into.name,
        scaled(m.normal, -1.0),
        (Contact(tuple(_shoulders(m, tabs, openings, cutter or 0.0)), m.normal),),
        notches,
        openings,
        fit,
        sum(2.0 * width * into.wood.thickness for _ in tabs),
        source=TABBING,
    )


def _waste(tabs: Sequence[tuple[float, float]], low: float, high: float) -> Iterator[tuple[float, float]]:
    """What is cut away beside and between the tabs, along the edge."""
    edges = [low - RUN_OUT, *(end for tab in tabs for end in tab), high + RUN_OUT]
    spans = list(zip(edges[::2], edges[1::2], strict=True))
    for n, (a, b) in enumerate(spans):
        outer = n in (0, len(spans) - 1)
        if b - a > CONTACT + RUN_OUT * outer:
            yield a, b


def _notch(m: Meeting, a: float, b: float, cutter: float | None) -> Notch:
    """Down to the shoulder between two stations, out past the part's edge."""
    top = m.depth + RUN_OUT
    notch = Notch(Outline(tuple(_own(m, s, into) for s, into in ((a, 0.0), (b, 0.0), (b, top), (a, top)))))
    return notch if cutter is None else relieved_cut(notch, m.first.wood.blank, cutter)


def _own(m: Meeting, along: float, into: float) -> Point:
    """In the first part's own plane."""
    (rx, ry), (sx, sy), away = m.run, m.slope, m.offset - into
    return (clean(along * rx + away * sx), clean(along * ry + away * sy))


def _opening(m: Meeting, a: float, b: float, fit: float, cutter: float | None) -> Opening:
    x, y = m.on_second(m.point((a + b) / 2.0))
    ux, uy, _ = m.second.at.own_direction(m.along)
    half, thick = (b - a + fit) / 2.0, (m.first.wood.thickness + fit) / 2.0
    corners = ((-half, -thick), (half, -thick), (half, thick), (-half, thick))
    opening = Opening(Outline(tuple((clean(x + u * ux - v * uy), clean(y + u * uy + v * ux)) for u, v in corners)))
    return opening if cutter is None else relieved_cut(opening, m.second.wood.blank, cutter)


def _shoulders(
    m: Meeting, tabs: Sequence[tuple[float, float]], openings: Sequence[Opening], cutter: float
) -> Iterator[Vector]:
    """The middle of each stretch of the edge that comes to lie against the sheet, clear of reliefs."""
    low, high = m.first.wood.outline.extent(m.run)
    edges = [low, *(end for tab in tabs for end in tab), high]
    for a, b in zip(edges[::2], edges[1::2], strict=True):
        stations = [s for s in _steps(a + cutter, b - cutter) if _bears(m, s, openings)]
        for run in _stretches(stations):
            yield m.point(run[len(run) // 2])


def _steps(a: float, b: float) -> Iterator[float]:
    count = int((b - a) / _STEP)
    yield from (a + _STEP * n for n in range(1, count))


def _bears(m: Meeting, s: float, openings: Sequence[Opening]) -> bool:
    """Whether there is wood of both parts where they meet."""
    on = m.on_second(m.point(s))
    holes = [*openings, *(c for c in m.second.wood.cuts if isinstance(c, Opening | Notch))]
    met = m.second.wood.outline.contains(on) and not any(h.outline.contains(on) for h in holes)
    return met and m.first.wood.outline.contains(_own(m, s, -_STEP))


def _stretches(stations: Sequence[float]) -> Iterator[list[float]]:
    """Stations without a gap between them, together; single ones may lie on an arris and are left out."""
    runs: list[list[float]] = [[]]
    for before, here in pairwise([-1e9, *stations]):
        if here - before > 1.5 * _STEP:
            runs.append([])
        runs[-1].append(here)
    yield from (run for run in runs if len(run) > 2)


def _check(m: Meeting, tabs: Sequence[tuple[float, float]], low: float, high: float) -> None:
    part, sheet, through = m.first.name, m.second.name, m.second.wood.thickness
    if m.depth < through - CONTACT:
        raise DesignError(
            f"{part} runs {max(m.depth, 0.0):.2f} mm into {sheet}, {through:g} mm thick; tabs go right through, so let "
            "it run in as far as that"
        )
    if not tabs or tabs[0][0] < low - CONTACT or tabs[-1][1] > high + CONTACT:
        raise DesignError(
            f"tabs do not lie on the edge of {part}, {high - low:.1f} mm long where it runs into {sheet}; move them in"
        )
    if any(b[0] - a[1] < BESIDE for a, b in pairwise(tabs)):
        raise DesignError(
            f"the tabs of {part} leave less than {BESIDE:g} mm of {sheet} between them; make them narrower or fewer"
        )
