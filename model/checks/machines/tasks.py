"""What has to be done to make a part, with the sizes that decide which machine can do it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import singledispatch

from model.cuts.cut import Cut
from model.cuts.dovetails import Fingers, Pins, Tails
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeCut, EdgeGroove, Rabbet, Tongue
from model.cuts.faces import BiscuitSlot, Bore, Channel, Counterbore, entered
from model.cuts.gains import HingeGain
from model.cuts.laps import Lap
from model.cuts.legs import Taper, Turned
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.moulding import Moulding, RaisedEdge
from model.cuts.pockets import Pocket
from model.cuts.sawn import SawCut, SawnGroove
from model.cuts.slanted_dado import SlantedDado
from model.cuts.sliding_dovetails import DovetailSocket, DovetailTongue
from model.cuts.slots import SlottedHole
from model.cuts.tenons import Kerf, TenonedEnd
from model.cuts.through import Notch, Opening, Profile
from model.layout.outline import Outline
from model.part import Part
from model.piece import WIDEST_BOARD
from model.tolerance import SAME_POINT

#: Clamps on a glue-up stand this far apart, mm (common practice: 200 to 300 mm).
CLAMP_SPACING = 250.0


@dataclass(frozen=True)
class Task:
    """One thing to do to a part: `work` names the row of the table of ways, `what` is said of it. Millimetres.

    length, width, thickness: of the wood on the machine; depth: of the cut, opening: its narrowest width; radius: the
    least of its hollow curves; reach: from the nearest edge; open: whether it runs right through; clamps: how many;
    times: how often it is done to one part.
    """

    work: str
    what: str
    length: float
    width: float
    thickness: float
    cut: Cut | None = None
    depth: float = 0.0
    opening: float = math.inf
    radius: float = math.inf
    reach: float = 0.0
    open: bool = True
    clamps: int = 0
    times: int = 1

    @property
    def longer(self) -> float:
        return max(self.length, self.width)

    @property
    def shorter(self) -> float:
        return min(self.length, self.width)


def tasks(part: Part) -> list[Task]:
    """The stock made ready, then every cut; cuts that ask the same of a machine are counted together."""
    found: dict[Task, int] = {}
    first: dict[Task, Cut | None] = {}
    for task in (*_stock(part), *(t for cut in part.cuts for t in _of(cut, part))):
        alike = replace(task, cut=None)
        found[alike] = found.get(alike, 0) + 1
        first.setdefault(alike, task.cut)
    return [replace(t, cut=first[t], times=n) for t, n in found.items()]


def cut_tasks(cut: Cut, part: Part) -> list[Task]:
    """What one cut of a part asks for."""
    return list(_of(cut, part))


def board_width(part: Part) -> float:
    """Of the widest board in it, mm: a panel is glued up of as few equal ones as boards are wide enough for."""
    wide = part.stock.width
    return wide / math.ceil(wide / WIDEST_BOARD) if part.stock.kind == "panel" else wide


def _stock(part: Part) -> Iterator[Task]:
    length, width, thick = part.stock.length, part.stock.width, part.thickness
    if part.stock.kind == "sheet":
        yield Task("sheet", "cutting out of a sheet", length, width, thick)
        return
    board = board_width(part)
    yield Task("flatten", "flattening a face", length, board, thick)
    yield Task("plane", "planing to thickness", length, board, thick)
    yield Task("edge", "truing an edge", length, board, thick)
    yield Task("rip", "ripping to width", length, board, thick)
    if part.stock.kind == "panel":
        clamps = math.ceil(length / CLAMP_SPACING) + 1
        yield Task("glue up", "gluing up", length, width, thick, clamps=clamps)
        yield Task("level", "leveling after gluing up", length, width, thick)
    yield Task("crosscut", "cutting to length", length, width, thick)
    if part.bend is not None:
        yield Task("bend", "bending", length, width, thick, radius=part.bend.radius)


def _task(work: str, cut: Cut, part: Part, depth: float = 0.0, **more: float | bool) -> Task:
    wood = part.stock
    made = Task(work, f"the {cut.name}", wood.length, wood.width, part.thickness, cut, round(depth, 3))
    sizes = {name: round(size, 3) if isinstance(size, float) else size for name, size in more.items()}
    return replace(made, **sizes)  # type: ignore[arg-type]


@singledispatch
def _of(cut: Cut, part: Part) -> Iterator[Task]:
    """What a cut asks for; anything not known to a machine is done by hand."""
    yield _task("joinery", cut, part)


@_of.register
def _(cut: Profile, part: Part) -> Iterator[Task]:
    if shaped(cut.outline):
        yield replace(_task("outline", cut, part, radius=hollow(cut.outline, True)), what="its outline")


@_of.register
def _(cut: Opening, part: Part) -> Iterator[Task]:
    yield _task("opening", cut, part, radius=hollow(cut.outline, False))


@_of.register
def _(cut: Notch, part: Part) -> Iterator[Task]:
    yield _task("notch", cut, part, radius=hollow(cut.outline, False))


@_of.register
def _(cut: Channel, part: Part) -> Iterator[Task]:
    yield _task("trench", cut, part, cut.depth, opening=cut.width, open=all(cut.open_ends(part.blank)))


@_of.register
def _(cut: SlantedDado, part: Part) -> Iterator[Task]:
    yield _task("slanted trench", cut, part, cut.wall_depth, opening=cut.width)


@_of.register
def _(cut: EdgeGroove, part: Part) -> Iterator[Task]:
    yield _task("trench", cut, part, cut.depth, opening=cut.width, open=cut.full)


@_of.register
def _(cut: Rabbet, part: Part) -> Iterator[Task]:
    yield _task("rabbet", cut, part, min(cut.width, cut.depth), open=cut.full)


@_of.register
def _(cut: Tongue, part: Part) -> Iterator[Task]:
    yield _task("rabbet", cut, part, cut.length, open=cut.full)


@_of.register(Bead)
@_of.register(Ease)
@_of.register(Chamfer)
@_of.register(Moulding)
def _(cut: EdgeCut, part: Part) -> Iterator[Task]:
    sections = [s.bounds for s in cut.sections(part.thickness)]
    yield _task("molded edge", cut, part, max(min(x1, part.stock.width) - max(x0, 0.0) for x0, _, x1, _ in sections))


@_of.register
def _(cut: RaisedEdge, part: Part) -> Iterator[Task]:
    yield _task("raised edge", cut, part, cut.width)


@_of.register
def _(cut: Bevel, part: Part) -> Iterator[Task]:
    yield _task("bevel", cut, part, part.thickness / math.cos(math.radians(cut.angle)))


@_of.register(Bore)
@_of.register(Counterbore)
@_of.register(SlottedHole)
def _(cut: Bore | Counterbore | SlottedHole, part: Part) -> Iterator[Task]:
    reach = 0.0
    if entered(cut.into) is not None:
        x0, y0, x1, y1 = part.outline.bounds
        x, y, _ = cut.at
        reach = max(0.0, min(x - x0, x1 - x, y - y0, y1 - y))
    yield _task("bore", cut, part, cut.depth, reach=round(reach, 1))


@_of.register
def _(cut: BiscuitSlot, part: Part) -> Iterator[Task]:
    yield _task("biscuit", cut, part, cut.depth)


@_of.register
def _(cut: Pocket, part: Part) -> Iterator[Task]:
    yield _task("pocket", cut, part)


@_of.register
def _(cut: Mortise, part: Part) -> Iterator[Task]:
    yield _task("mortise", cut, part, cut.depth, opening=cut.width)


@_of.register(TenonedEnd)
@_of.register(Lap)
@_of.register(OpenMortise)
def _(cut: Cut, part: Part) -> Iterator[Task]:
    yield _task("tenon", cut, part)


@_of.register(Tails)
@_of.register(Pins)
@_of.register(Fingers)
@_of.register(DovetailSocket)
@_of.register(DovetailTongue)
@_of.register(HingeGain)
@_of.register(Kerf)
@_of.register(SawnGroove)
def _(cut: Cut, part: Part) -> Iterator[Task]:
    yield _task("joinery", cut, part)


@_of.register
def _(cut: SawCut, part: Part) -> Iterator[Task]:
    yield replace(_task("saw cut", cut, part), what="a saw cut")


@_of.register
def _(cut: Taper, part: Part) -> Iterator[Task]:
    yield _task("taper", cut, part)


@_of.register
def _(cut: Turned, part: Part) -> Iterator[Task]:
    yield replace(_task("turn", cut, part, max(s.diameter for s in cut.profile)), what="the turning")


def shaped(outline: Outline) -> bool:
    """Whether it is anything but a rectangle."""
    x0, y0, x1, y1 = outline.bounds
    return any(not e.straight for e in outline.edges) or (x1 - x0) * (y1 - y0) - outline.area > SAME_POINT


def hollow(outline: Outline, outside: bool) -> float:
    """The least radius of the arcs that are hollow toward the cutter, mm; infinite for none. Corners don't count: a
    saw cuts into them from both sides, a CNC relieves them.

    outside: the cutter works round the outline rather than within it.
    """
    radii = (e.radius for e in outline.edges if not e.straight and (e.bulge < 0.0) == outside)
    return min(radii, default=math.inf)
