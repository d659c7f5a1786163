"""What is said of each step of assembly: its parts, joints, glue and clamps, hardware, and what to mind."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from drawings.lists.distinct import in_short
from drawings.paper.saying import Saying, Says, capital, counted, joined, number, say
from model.in_units import in_units
from model.joints.joint import Joint
from model.lengths import INCH_UNITS
from model.piece import Piece
from model.way_home import Leg
from model.way_home import told as way_told

#: From so many ends on, all must be started before one is driven home (common practice).
_MANY = 5


@dataclass(frozen=True)
class Told:
    """One paragraph under its heading."""

    heading: str
    text: Saying


@dataclass(frozen=True)
class Stage:
    """A step by its number from 1: the parts that it brings in, those that are there already, and the legs of the way
    home where it says them."""

    number: int
    text: str
    new: tuple[str, ...]
    there: tuple[str, ...]
    way: tuple[Leg, ...] = ()


def stages(piece: Piece) -> list[Stage]:
    """The steps of a piece, each with the parts it is the first to name."""
    found: list[Stage] = []
    there: dict[str, None] = {}
    for place, step in enumerate(piece.steps, 1):
        new = tuple(name for name in dict.fromkeys(step.parts) if name in piece.parts and name not in there)
        found.append(Stage(place, step.text, new, tuple(there), step.way))
        there |= dict.fromkeys(new)
    return found


def joints_made(piece: Piece, stage: Stage) -> list[Joint]:
    """The joints that close in a step: both parts there, one of them new."""
    present = {*stage.new, *stage.there}
    return [j for j in piece.joints if {j.first, j.second} <= present and not {j.first, j.second}.isdisjoint(stage.new)]


def told(piece: Piece, stage: Stage, cautions: Sequence[str] = (), units: str = "mm") -> list[Told]:
    """What is said of a step, beside its own sentence. cautions: more of them, from the checks; units: the order's."""
    joints = joints_made(piece, stage)
    said = [
        Told("New parts", _parts(piece, stage)),
        Told("Way home", _way(piece, stage)),
        Told("Joints", _counted((j.kind for j in joints if not _loose(j)), stage)),
        Told("Glue", _glue(piece, joints, stage, units)),
        Told("Hardware", _hardware(piece, stage, units)),
        Told("Mind", joined(" ", (*_mind(joints, stage), *cautions))),
    ]
    return [t for t in said if t.text]


def _way(piece: Piece, stage: Stage) -> Saying:
    """The legs, where it is not one straight line."""
    said = number(way_told(stage.way, piece.parameters.show), Says("way", (str(stage.number),)))
    return say("{}.", capital(said)) if said else say("")


def _loose(joint: Joint) -> bool:
    """Do its parts only lie on each other?"""
    return not (joint.first_cuts or joint.second_cuts or joint.hardware or joint.glue_area)


def _parts(piece: Piece, stage: Stage) -> Saying:
    """Names with their item numbers, those of one number together."""
    items = piece.items()
    alike: dict[int, list[str]] = {}
    for name in stage.new:
        alike.setdefault(items[name], []).append(name)
    if len(alike) > 1 and len({_stem(n) for n in stage.new}) == 1:
        first, last = (counted(item, "item", alike[item][0]) for item in (min(alike), max(alike)))
        return say("{} (items {} to {})", in_short(stage.new), first, last)
    return joined(
        "; ",
        (say("{} (item {})", in_short(names), counted(item, "item", names[0])) for item, names in alike.items()),
    )


def _stem(name: str) -> str:
    return name.rstrip("0123456789 ")


def _counted(kinds: Iterable[str], stage: Stage) -> Saying:
    each = Counter(kinds).items()
    return joined(", ", (say("{} {}", counted(n, "joints", str(stage.number), kind), kind) for kind, n in each))


def _glue(piece: Piece, joints: Sequence[Joint], stage: Stage, units: str) -> Saying:
    """Area and clamps for the step's glued joints, the clamps as the glue-up check counts them."""
    from model.checks.glue_up import clamps_for, minutes_for, pressure_for
    from model.wood.material import material_named

    glued = [j for j in joints if j.glue_area > 0.0]
    if not glued:
        return say("")
    pressure = pressure_for(material_named(piece.parameters.species).density(12.0))
    clamps = clamps_for(glued, pressure)
    of = str(stage.number)
    count = say("{} joints", counted(len(glued), "glued", of)) if len(glued) > 1 else "one joint"
    many = say("{} clamps", counted(clamps, "clamps", of))
    held = many if clamps > 1 else "one clamp" if clamps else "no clamps, its fastenings draw it up"
    area = number(_area(glued, units), Says("glue area", (of,)))
    minutes = counted(round(minutes_for(glued)), "glue minutes", of)
    return say("{}, {} in all, {} minutes to have it home; {}", count, area, minutes, held)


def _area(glued: Sequence[Joint], units: str) -> str:
    """In whole square centimetres, or in square inches."""
    area = sum(j.glue_area for j in glued) / 100.0
    return in_units(f"{area:.4f} cm²", units) if units in INCH_UNITS else f"{area:.0f} cm²"


def _hardware(piece: Piece, stage: Stage, units: str) -> Saying:
    """A joint's with its joint, so that a hinge's screws come with the hinge; the rest with the last of its parts."""
    present, before = {*stage.new, *stage.there}, set(stage.there)
    of_joints = {id(h) for j in piece.joints for h in j.hardware}
    loose = [h for h in piece.hardware if id(h) not in of_joints]
    used = [h for j in joints_made(piece, stage) for h in j.hardware]
    used += [h for h in loose if set(h.parts) <= present and not set(h.parts) <= before]
    each = Counter((h.kind, h.size, h.label) for h in used).items()
    return joined("; ", (_brought(n, kind, size, label, stage, units) for (kind, size, label), n in each))


def _brought(count: int, kind: str, size: str, label: str, stage: Stage, units: str) -> Saying:
    """So many items of hardware, by what they are called."""
    said = number(in_units(label, units), Says("label", (kind, size)))
    return say("{} {}", counted(count, "hardware", label, str(stage.number)), said)


def _mind(joints: Sequence[Joint], stage: Stage) -> list[Saying]:
    """Common practice."""
    said: list[Saying] = []
    glued = [j for j in joints if j.glue_area > 0.0]
    if glued:
        said.append(say("Try it dry with the clamps on before any glue is spread."))
    if len(stage.new) == 1 and len(_ends(glued)) >= _MANY:
        ends = counted(len(_ends(glued)), "ends", str(stage.number))
        said.append(say("{} ends go home at once: start them all before any is driven home.", ends))
    if any("nail" in h.kind for j in joints for h in j.hardware):
        said.append(say("Bore for nails near an end; set the heads."))
    return said


def _ends(joints: Sequence[Joint]) -> set[tuple[str, str]]:
    return {(j.first, j.second) for j in joints}
