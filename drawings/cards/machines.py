"""What a cut is made on, how its setting is tried, and what to mind there.

All common practice, in our own words; the machine maker's instructions come first, as every card says.
"""

from __future__ import annotations

from dataclasses import dataclass

FIRST = "The machine maker's instructions come first."


@dataclass(frozen=True)
class Machine:
    """name: what most shops would make the cut on; caution: what to mind there."""

    name: str
    caution: str


SAW = Machine(
    "Table saw with a dado set, or router table",
    "Unplug to set up. Hold the work down and to the fence with push blocks and featherboards, hands never over the "
    "cutter; a cut that doesn't go through still needs a guard over it. On the router table feed from right to left, "
    "against the turn of the cutter.",
)
SLANTED = Machine(
    "Table saw with a dado set tilted, or router against a fence on a wedge",
    "Unplug to set up. Turn the tilted set by hand through its insert before the saw is started. Hold the work down "
    "and to the fence with push blocks, hands never over the cutter. Router: wedge and work clamped, light passes.",
)
TILTED = Machine(
    "Table saw with the blade tilted, or plane",
    "Unplug to set up. Riving knife and guard on; tilt the blade away from the fence so that the offcut can't be "
    "pinched; push stick for narrow stock.",
)
ROUTER = Machine(
    "Router table, or router with a bearing",
    "Unplug to set up. Table: feed right to left, cutter guarded, featherboards on. By hand: left to right as you face "
    "the edge. Go down in light passes; never trap the work between cutter and fence.",
)
DRILL = Machine(
    "Drill press",
    "Clamp the work or set it against a stop so that it can't spin. Scrap under it where the hole comes through. "
    "Sleeves and hair tied back, chuck key out.",
)
JOINER = Machine(
    "Biscuit joiner",
    "Clamp the work. Both hands on the joiner, none in front of it; let the cutter run up before the plunge and stop "
    "before it is lifted.",
)
MORTISER = Machine(
    "Hollow-chisel mortiser, or plunge router with a fence",
    "Clamp the work. Mortiser: short strokes, clear the chips. Router: several plunges, none deeper than the cutter is "
    "wide, fed against its turn.",
)
HAND = Machine(
    "Hand saw and chisel, or band saw",
    "Clamp the work; both hands behind the edge. Band saw: guide set just above the work, stop the saw before "
    "backing out.",
)
TAILS = Machine(
    "Dovetail saw and chisel, or router with a jig",
    "Clamp the work. Router: don't lift it while the cutter turns; feed against its turn and keep both hands on it.",
)
ANY = Machine("As the shop has it", "Unplug to set up. Guards on, work held fast, hands clear of the cutter.")

#: The first word found in a cut's name says what it is made on.
_MADE_ON = (
    ("biscuit", JOINER),
    ("dovetail", TAILS),
    ("tail", TAILS),
    ("mortise", MORTISER),
    ("hole", DRILL),
    ("bore", DRILL),
    ("bevel", TILTED),
    ("bead", ROUTER),
    ("ease", ROUTER),
    ("chamfer", ROUTER),
    ("mould", ROUTER),
    ("notch", HAND),
    ("slanted", SLANTED),
    ("dado", SAW),
    ("groove", SAW),
    ("rabbet", SAW),
    ("tongue", SAW),
    ("tenon", SAW),
    ("lap", SAW),
    ("shoulder", SAW),
)

#: How a setting is tried before it touches a part.
_TRIALS = (
    (
        "dado",
        "Cut scrap of the same stock. An offcut of the part that goes in must slide home by hand and not fall out.",
    ),
    (
        "edge groove",
        "Cut scrap, then try the tongue in it: it goes in by hand, and closes at the shoulder, not at the tip.",
    ),
    ("groove", "Cut scrap of the same stock. What runs in it must go in by hand, without play to be seen."),
    ("tongue", "Cut scrap, both rabbets from one setting, and try it in the groove: hand tight, shoulders closed."),
    ("rabbet", "Cut scrap and lay the part that goes in on it: flush, or as much under as the drawing says."),
    ("bead", "Cut scrap until the crown of the bead just touches the face: no flat is left on top of it."),
    ("bevel", "Cut scrap and try it in place or against a bevel gauge; two cuts face to face double the error."),
    ("biscuit", "Slot two scraps and close them dry on a biscuit: faces flush. Then mark the middles on the parts."),
    ("counterbore", "Bore scrap and try a plug and the screw's head in it."),
    ("clearance", "Bore scrap: the screw drops through without turning."),
    ("hole", "Bore scrap and measure its depth; set the stop to that."),
    ("mortise", "Cut one in scrap and try the tenon: a push fit. Then set the stops."),
    ("tenon", "Cut both cheeks on scrap of the same thickness and try it in a mortise already cut."),
    ("ease", "Try it on scrap: no step where cutter and face meet."),
    ("chamfer", "Try it on scrap and measure the flat."),
)


def machine_for(cut: str) -> Machine:
    """What a cut of that name is made on.

    >>> machine_for("edge groove").name
    'Table saw with a dado set, or router table'
    """
    return next((machine for word, machine in _MADE_ON if word in cut), ANY)


def trial_for(cut: str) -> str:
    """How the setting for a cut of that name is tried."""
    found = (trial for word, trial in _TRIALS if word in cut)
    return next(found, "Make the cut in scrap of the same stock, measure it, and only then cut the parts.")
