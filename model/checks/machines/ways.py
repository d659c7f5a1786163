"""What can do which work, with the limits of each machine: a table to read and to add to."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from model.checks.machines.tasks import Task
from model.order_sections import Shop
from model.piece import WIDEST_BOARD

#: Sizes this little over a capacity still go, mm.
SLACK = 0.05

#: Least hollow radius a bandsaw blade follows, mm (common practice: a 6 mm blade).
BLADE_RADIUS = 16.0
#: Narrowest chisel, mm (common practice: 1/8 in).
CHISEL = 3.175


@dataclass(frozen=True)
class Refusal:
    """Why a way can't do a task: value against limit, in mm unless said otherwise."""

    way: str
    says: str
    value: float
    limit: float
    unit: str = "mm"


@dataclass(frozen=True)
class Limit:
    """One size of a task against one capacity: at most that, or at least that where `least`.

    says: what is so large or small, in words after "it is ... mm". A capacity of nothing means no such machine. of:
    what has the capacity, if it is not the machine.
    """

    size: str
    says: str
    capacity: Callable[[Shop], float]
    least: bool = False
    of: str = ""

    def refusal(self, machine: str, task: Task, shop: Shop) -> Refusal | None:
        """Why the task is too large or small for the machine; None if it is not."""
        value, capacity = float(getattr(task, self.size)), self.capacity(shop)
        if (value >= capacity - SLACK) if self.least else (value <= capacity + SLACK):
            return None
        if capacity in (0.0, math.inf):
            return Refusal(machine, f"there is no {machine}", value, 0.0)
        if self.size == "clamps":
            return Refusal(machine, f"it takes {value:g} clamps and there are {capacity:g}", value, capacity, "clamps")
        bound = f"the {self.of} is {capacity:g} mm"
        if not self.of:
            bound = f"{capacity:g} mm is the {'least' if self.least else 'most'} for the {machine}"
        says = f"it is {value:.1f} mm {self.says}, and {bound}"
        return Refusal(machine, says, value, capacity)


@dataclass(frozen=True)
class Way:
    """A machine, or a hand tool, and what it can take. usual: done by hand as a matter of course; needs_open: it can't
    stop short of an end."""

    machine: str
    limits: tuple[Limit, ...] = ()
    by_hand: bool = False
    usual: bool = False
    needs_open: bool = False

    def refusal(self, task: Task, shop: Shop) -> Refusal | None:
        """The first reason why it can't be done this way; None if it can."""
        if self.needs_open and not task.open:
            return Refusal(self.machine, f"the {self.machine} can't stop short of an end", 0.0, 0.0)
        reasons = (limit.refusal(self.machine, task, shop) for limit in self.limits)
        return next((r for r in reasons if r is not None), None)


def _thick(capacity: Callable[[Shop], float]) -> Limit:
    return Limit("thickness", "thick", capacity)


def _wide(capacity: Callable[[Shop], float]) -> Limit:
    return Limit("width", "wide", capacity)


def _deep(capacity: Callable[[Shop], float]) -> Limit:
    return Limit("depth", "deep", capacity)


def _bit(shop: Shop) -> float:
    return min(shop.cutter_diameters, default=math.inf)


_BIT = Limit("opening", "in its narrowest width", _bit, least=True)
_ROUTED = (_BIT, _deep(lambda s: s.router_depth))
_ON_CNC = (
    _thick(lambda s: s.cnc_depth),
    Limit("longer", "long", lambda s: max(s.cnc_bed)),
    Limit("shorter", "wide", lambda s: min(s.cnc_bed)),
)
_UNDER_GUIDES = (_thick(lambda s: s.bandsaw_depth), _wide(lambda s: s.bandsaw_throat))

TABLE_SAW_RIP = Way("table saw", (_wide(lambda s: s.fence_reach), _thick(lambda s: s.saw_depth)))
TABLE_SAW_TRENCH = Way(
    "table saw",
    (Limit("opening", "in its narrowest width", lambda s: s.kerf, least=True), _deep(lambda s: s.saw_depth)),
    needs_open=True,
)
#: The dado set tilted as the trench leans, or the router guided by a fence, on a wedge (common practice).
TABLE_SAW_SLANTED = replace(TABLE_SAW_TRENCH, machine="table saw with the blade tilted")
ROUTER_SLANTED = Way("router on a wedge", _ROUTED)
TABLE_SAW = Way("table saw", (_deep(lambda s: s.saw_depth),))
TABLE_SAW_RABBET = Way("table saw", (_deep(lambda s: s.saw_depth),), needs_open=True)
MITER_SAW = Way("miter saw", (_wide(lambda s: s.crosscut_width), _thick(lambda s: s.saw_depth)))
SLED = Way("table saw with a sled", (_wide(lambda s: s.fence_reach), _thick(lambda s: s.saw_depth)))
PLANER = Way("planer", (_wide(lambda s: s.planer_width),))
#: Where there is no planer, wood is bought planed.
MILL = Way("mill", (_wide(lambda s: 0.0 if s.planer_width else WIDEST_BOARD),), by_hand=True)
JOINTER_FACE = Way("jointer", (_wide(lambda s: s.jointer_width),))
PLANER_SLED = Way("planer on a sled", (_wide(lambda s: s.planer_width),))
JOINTER = Way("jointer", (Limit("length", "long", lambda s: 2.0 * s.jointer_bed if s.jointer_width else 0.0),))
BANDSAW = Way("bandsaw", _UNDER_GUIDES)
BANDSAW_CURVES = Way(
    "bandsaw", (*_UNDER_GUIDES, Limit("radius", "in its least hollow radius", lambda s: BLADE_RADIUS, least=True))
)
JIGSAW = Way("jigsaw", (_thick(lambda s: s.jigsaw_depth),))
CNC = Way("CNC", (*_ON_CNC, Limit("radius", "in its least hollow radius", lambda s: _bit(s) / 2.0, least=True)))
CNC_TRENCH = Way("CNC", (*_ON_CNC, _BIT))
ROUTER = Way("router", _ROUTED)
CUT_SHEET = Way(
    "circular saw along a straightedge",
    (
        Limit("longer", "long", lambda s: _sheet(s)[0], of="largest sheet"),
        Limit("shorter", "wide", lambda s: _sheet(s)[1], of="largest sheet"),
    ),
)
DRILL_PRESS = Way("drill press", (Limit("reach", "from the nearest edge", lambda s: s.drill_throat),))
LATHE = Way(
    "lathe",
    (Limit("length", "long", lambda s: s.lathe[0]), Limit("depth", "in diameter", lambda s: s.lathe[1])),
)
CLAMPS = Way(
    "bar clamps",
    (_wide(lambda s: s.clamp_reach), Limit("clamps", "", lambda s: s.clamps)),
)


def _hand(tool: str, *limits: Limit, usual: bool = False) -> Way:
    return Way(tool, limits, by_hand=True, usual=usual)


_CHISELLED = Limit("opening", "in its narrowest width", lambda s: CHISEL, least=True)

#: For each kind of work, the ways of doing it, the first that can is taken.
WAYS: dict[str, tuple[Way, ...]] = {
    "flatten": (JOINTER_FACE, PLANER_SLED, _hand("hand plane")),
    "plane": (PLANER, MILL),
    "level": (PLANER, _hand("hand plane")),
    "edge": (JOINTER, _hand("hand plane")),
    "rip": (TABLE_SAW_RIP, BANDSAW, _hand("hand saw along a straightedge")),
    "crosscut": (MITER_SAW, SLED, _hand("hand saw")),
    "sheet": (CUT_SHEET,),
    "glue up": (CLAMPS, _hand("wedges against battens")),
    "bend": (Way("bending form"),),
    "outline": (BANDSAW_CURVES, CNC, JIGSAW, _hand("bow saw")),
    "opening": (JIGSAW, CNC, _hand("keyhole saw")),
    "notch": (BANDSAW, JIGSAW, CNC, _hand("hand saw and chisel")),
    "trench": (ROUTER, TABLE_SAW_TRENCH, CNC_TRENCH, _hand("saw and chisel", _CHISELLED)),
    "slanted trench": (TABLE_SAW_SLANTED, ROUTER_SLANTED, _hand("saw and chisel", _CHISELLED)),
    "rabbet": (TABLE_SAW_RABBET, ROUTER, _hand("rabbet plane")),
    "molded edge": (Way("router", (_deep(lambda s: s.router_depth),)), _hand("molding plane")),
    "raised edge": (Way("router", (_deep(lambda s: s.router_depth),)), TABLE_SAW, _hand("panel plane")),
    "bevel": (TABLE_SAW, JOINTER, _hand("hand plane")),
    "bore": (DRILL_PRESS, Way("hand drill")),
    "biscuit": (Way("biscuit joiner"),),
    "pocket": (Way("hand drill in a pocket jig"),),
    "mortise": (ROUTER, _hand("mortise chisel", _CHISELLED, usual=True)),
    "tenon": (Way("table saw", (_thick(lambda s: 2.0 * s.saw_depth),)), BANDSAW, _hand("tenon saw")),
    "saw cut": (MITER_SAW, SLED, _hand("hand saw")),
    "taper": (BANDSAW, TABLE_SAW_RIP, _hand("hand plane")),
    "turn": (LATHE,),
    "joinery": (_hand("saw and chisel", usual=True),),
}


def _sheet(shop: Shop) -> tuple[float, float]:
    """Length and width of the largest sheet, mm."""
    if not shop.sheet_sizes:
        return (0.0, 0.0)
    best = max(shop.sheet_sizes, key=lambda s: s[0] * s[1])
    return (max(best), min(best))


def way_round(task: Task, shop: Shop) -> str:
    """What to do about a task that nothing in the shop can do."""
    match task.work:
        case "plane" if shop.planer_width > 0.0:
            parts = -int(-task.width // shop.planer_width)
            count = {2: "two", 3: "three", 4: "four"}.get(parts, str(parts))
            return f"glue it up in {count} widths of {task.width / parts:.1f} mm, each planed first"
        case "plane":
            return "glue it up from narrower boards, bought planed"
        case "sheet":
            return "join it from two sheets, or make it smaller"
        case "turn":
            return "turn it in two lengths, one doweled into the other, or have it turned"
        case "trench" | "slanted trench" | "mortise":
            return f"make it {min(_bit(shop), CHISEL):g} mm wide, or get a bit for it"
        case _:
            return "make it smaller"
