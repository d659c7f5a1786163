"""Mortise and tenon, blind or through, haunched, wedged or draw-bored, single or twin; and the loose tongue."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from model.cuts.mortises import Mortise
from model.cuts.tenons import LEAST_SHOULDER, Tenon, TenonedEnd
from model.errors import DesignError
from model.hardware import Hardware
from model.joints.joint import Joint, Stood, clean
from model.joints.meetings.entering import Entry, entry, exact_point, middle
from model.joints.meetings.shoulders import butting, cheeks, shoulder_contacts
from model.joints.tenon_locks import DrawBore, Wedging, draw_bored, wedging
from model.joints.tenon_sizes import TENON_RULE, Wanted, check_room, haunch, tenons
from model.placement import Vector, dot, scaled, square_to, tidy, unit

#: How much deeper a blind mortise is than its tenon is long, mm (Noyes: "slightly"; 1/16 in is common practice).
BOTTOM_ROOM = 1.5
#: Room under a haunch, mm (1/32 in, common practice).
HAUNCH_ROOM = 0.8
#: Play of a tenon in its mortise, mm: none, it goes home by hand and glue (common practice).
SNUG = 0.0

TONGUE_RULE = "NAVEDTRA 14119, chapter 3: tongue a third of the stock; common practice: as long as a tenon would be"


def mortise_and_tenon(
    rail: Stood,
    into: Stood,
    *,
    kind: Literal["blind", "through"] = "blind",
    thickness: float | None = None,
    rise: float | None = None,
    width: float | None = None,
    shoulders: float | tuple[float, float] | None = None,
    count: int = 1,
    rows: int = 1,
    haunch: float | None = None,
    proud: float | None = None,
    wedged: bool = False,
    draw_bore: float | None = None,
    peg: float = 6.35,
    fit: float = SNUG,
) -> Joint:
    """A tenon on the end of `rail`, as long as the rail runs into `into`, in a mortise there. Millimetres.

    thickness: a third of the rail (a fifth for twins). rise: from the rail's back side to the tenon, in the middle if
    not said. width, or shoulders (near and far edge, or both alike): 1/4 in each, more toward the end of the mortised
    part. count: tenons side by side in the thickness, 2 for a twin; rows: one over the other in the width. haunch:
    its length, as deep as the groove it fills; the tenon is then half the rail less that. proud: a through tenon is
    sawn off this far past the far side, 0 for flush; None leaves the end as it stands. wedged: two wedges spread it
    along the grain of the mortised part. draw_bore: pegged, the hole in the tenon this much nearer to the shoulder;
    peg: its diameter. fit: play across the tenon.

    The tenon runs along the rail's grain whatever the angle; the shoulder lies in the side it meets. Raises
    DesignError if the rail does not run in, or too far, or the mortise leaves too little wood; CutError for a tenon
    that leaves too little cheek. Sources: Noyes, Handwork in Wood (1910); else common practice.
    """
    pair = (shoulders, shoulders) if isinstance(shoulders, int | float) else shoulders
    wanted = Wanted(thickness, rise, width, pair, count, rows, haunch)
    e = entry(rail, into)
    plain, tongue = tenons(e, wanted), None
    if haunch is not None:
        tongue = _haunch(e, wanted, plain)
    _check_run(e, plain, kind)
    standing = _sawn(e, plain, proud) if kind == "through" else plain
    depth = _depth(e, standing[0], kind)
    check_room(e, standing, depth)
    end = TenonedEnd(e.shoulder, standing, tongue)
    end.check(rail.wood.blank)
    wedges = wedging(e, standing, depth, proud) if _wedged(e, kind, wedged) else Wedging()
    pegs = draw_bored(e, standing, draw_bore, peg) if draw_bore is not None else DrawBore()
    mortises = tuple(_mortise(e, t, _depth(e, t, kind), kind, fit, wedges) for t in standing)
    socket = () if tongue is None else (_socket(e, tongue, haunch or 0.0, fit),)
    return Joint(
        _kind(end, kind, wedged, draw_bore),
        rail.name,
        into.name,
        e.axis,
        (*shoulder_contacts(e, standing, tongue), *cheeks(e, standing, fit)),
        (end, *wedges.kerfs, *pegs.first),
        (*mortises, *socket, *pegs.second),
        fit,
        sum(2.0 * t.width * _engaged(e, t, kind) for t in standing),
        (*wedges.hardware, *pegs.hardware),
        TENON_RULE,
    )


def loose_tongue(
    rail: Stood,
    to: Stood,
    *,
    length: float | None = None,
    thickness: float | None = None,
    width: float | None = None,
    shoulders: float | tuple[float, float] | None = None,
    count: int = 1,
    fit: float = SNUG,
) -> Joint:
    """The end of `rail` butted against `to` (sawn to it where it runs in), a loose tongue mortised into both.

    length: of the tongue, mm; if not said, as much in each part as goes into two thirds of the other. thickness: a
    third of the rail; width or shoulders as for a tenon. The tongue runs square to the side it meets. Raises
    DesignError if the parts don't meet or the tongue doesn't go in. Source: NAVEDTRA 14119; else common practice.
    """
    pair = (shoulders, shoulders) if isinstance(shoulders, int | float) else shoulders
    e = entry(rail, to)
    sawn = butting(e)
    tongues = tenons(e, Wanted(thickness, None, width, pair, count))
    TenonedEnd(e.shoulder, tongues).check(rail.wood.blank)
    through = e.crossing(*middle(e)) * -dot(e.axis, e.normal)
    half = clean((length or 2.0 * min(2.0 * through / 3.0, 40.0)) / 2.0)
    if half + BOTTOM_ROOM / 2.0 > through - 3.0:
        raise DesignError(
            f"a tongue {2 * half:.1f} mm long goes {half:.1f} mm into {to.name}, {through:.1f} mm deep there; "
            f"two thirds of that, {2 * through / 3:.1f} mm, is common practice"
        )
    depth = clean(half + BOTTOM_ROOM / 2.0)
    _check_slant(e, tongues[0], depth)
    check_room(e, tongues, min(depth, 0.9 * e.crossing(*middle(e))))
    ends, sides, items = [], [], []
    for t in tongues:
        p = e.point(*t.middle)
        out = scaled(e.normal, -1.0)
        ends.append(_slot(e, e.first, t, scaled(out, -1.0), depth, fit))
        sides.append(_slot(e, e.second, t, out, depth, fit))
        size = f"{t.thickness:.3g} x {t.width:.3g} x {2 * half:.3g} mm"
        names = (rail.name, to.name)
        items.append(Hardware("loose tongue", size, p, out, names, 2 * half, t.width, t.thickness, _level(e, out)))
    return Joint(
        "loose tongue",
        rail.name,
        to.name,
        scaled(e.normal, -1.0),
        shoulder_contacts(e, tongues),
        (*sawn, *ends),
        tuple(sides),
        fit,
        sum(4.0 * t.width * half for t in tongues),
        tuple(items),
        TONGUE_RULE,
    )


def _kind(end: TenonedEnd, kind: str, wedged: bool, draw_bore: float | None) -> str:
    words = ["wedged"] * wedged + ["draw-bored"] * (draw_bore is not None) + ["through"] * (kind == "through")
    return " ".join([*words, "mortise and", end.name])


def _wedged(e: Entry, kind: str, wedged: bool) -> bool:
    if wedged and kind != "through":
        raise DesignError(
            f"the tenon of {e.first.name} can't be wedged from outside while it is blind; make it a through tenon"
        )
    return wedged


def _haunch(e: Entry, wanted: Wanted, plain: tuple[Tenon, ...]) -> Tenon | None:
    if abs(dot(e.first.at.y, e.second.at.x)) < 0.5:
        raise DesignError(
            f"a haunch fills a groove along the grain of {e.second.name}, but {e.first.name} lies across that grain; "
            "stand it on edge or leave the haunch out"
        )
    if len(plain) > 1:
        raise DesignError(f"a haunch goes with a single tenon; {e.first.name} has {len(plain)}, so leave one out")
    return haunch(e, wanted, plain[0])


def _check_run(e: Entry, standing: tuple[Tenon, ...], kind: str) -> None:
    y, z = standing[0].middle
    run, through = clean(e.run_in(y, z)), clean(e.crossing(y, z))
    first, second = e.first.name, e.second.name
    if run <= 0.0:
        raise DesignError(f"{first} stops {-run:.2f} mm short of {second}; a tenon needs it to run in by its length")
    if kind == "blind" and run + BOTTOM_ROOM >= through:
        raise DesignError(
            f"{first} runs {run:.1f} mm into {second}, {through:.1f} mm through; a blind tenon two thirds of that, "
            f"{2.0 * through / 3.0:.1f} mm, is common practice, or make it a through tenon"
        )
    short = max(e.crossing(*c) - e.run_in(*c) for t in standing for c in t.corners)
    if kind == "through" and short > 1e-6:
        raise DesignError(
            f"the tenon of {first} stops {short:.2f} mm short of the far side of {second}; a through tenon is at least "
            "as long as the part is thick (Noyes, Handwork in Wood, no. 31)"
        )


def _sawn(e: Entry, standing: tuple[Tenon, ...], proud: float | None) -> tuple[Tenon, ...]:
    """Sawn off level with the far side, or `proud` of it."""
    if proud is None:
        return standing
    tip = e.exit.moved_by(proud)
    return tuple(Tenon(t.inset, t.width, t.rise, t.thickness, tip) for t in standing)


def _depth(e: Entry, t: Tenon, kind: str) -> float:
    """Of the mortise along its middle line."""
    return e.crossing(*t.middle) if kind == "through" else e.run_in(*t.middle) + BOTTOM_ROOM


def _engaged(e: Entry, t: Tenon, kind: str) -> float:
    """How long the tenon is inside the mortised part, along its middle line."""
    return e.crossing(*t.middle) if kind == "through" else e.run_in(*t.middle)


def _mortise(e: Entry, t: Tenon, depth: float, kind: str, fit: float, wedges: Wedging) -> Mortise:
    """The tenon's own prism, seen from the mortised part; where wedges spread it, its long way is theirs."""
    at, upright = e.in_second(e.point(*t.middle)), wedges.upright
    along, sizes = ((0.0, 0.0, 1.0), (t.thickness, t.width)) if upright else ((0.0, 1.0, 0.0), (t.width, t.thickness))
    into = e.turned_to_second((e.sense, 0.0, 0.0))
    return Mortise(
        at,
        tidy(e.near.plane.normal),
        into,
        e.turned_to_second(along),
        clean(sizes[0] + fit),
        clean(sizes[1] + fit),
        round(depth, 9),
        e.far.plane if kind == "through" else None,
        kind == "through",
        wedges.eased,
        wedges.depth,
    )


def _socket(e: Entry, tongue: Tenon, length: float, fit: float) -> Mortise:
    """For the haunch: a little deeper than it is long, its bottom along the side it is cut in."""
    deep = length + HAUNCH_ROOM
    plain = _mortise(e, tongue, deep / -dot(e.axis, e.normal), "blind", fit, Wedging())
    return replace(plain, floor=e.near.plane.flipped().moved_by(deep))


def _check_slant(e: Entry, t: Tenon, depth: float) -> None:
    """Raises DesignError where the slot in a slanting end would come out at its cheek."""
    cheek = min(t.rise, e.first.wood.thickness - t.rise - t.thickness) - depth * abs(e.shoulder.normal[2])
    if cheek < min(LEAST_SHOULDER, e.first.wood.thickness / 6.0):
        raise DesignError(
            f"the slot in the slanting end of {e.first.name} would leave {cheek:.1f} mm of cheek; "
            "make the tongue shorter or thinner"
        )


def _level(e: Entry, out: Vector) -> Vector:
    """The way a loose tongue's width lies."""
    return unit(square_to(e.first.at.y, out))


def _slot(e: Entry, part: Stood, t: Tenon, out: Vector, depth: float, fit: float) -> Mortise:
    """Half the room for a loose tongue, `out` being the way it runs into this part."""
    along = tidy(part.at.own_direction(_level(e, out)))
    own = tidy(part.at.own_direction(out))
    at = exact_point(part.at.own_point(e.point(*t.middle)))
    return Mortise(at, scaled(own, -1.0), own, along, clean(t.width + fit), clean(t.thickness + fit), depth)
