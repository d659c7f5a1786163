"""Can this shop make it: is there something for every cut, and for getting every part's stock ready?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from model.checks.finding import Answer, Finding, Proof, Severity, listed
from model.checks.machines.tasks import Task, cut_tasks, shaped, tasks
from model.checks.machines.ways import WAYS, Refusal, way_round
from model.cuts.cut import Cut, mirrored_edge
from model.layout.outline import Outline
from model.order_sections import Shop
from model.part import Part
from model.piece import Piece, Placed

CHECK = "shop"
SOURCE = "capacities in [shop] of the order"


@dataclass(frozen=True)
class Assignment:
    """One task of one item: what makes it, or nothing; refused: why those tried first can't.

    parts: names of all parts cut alike. machine: empty where nothing can. usual: by hand as a matter of course.
    """

    item: int
    parts: tuple[str, ...]
    task: Task
    machine: str
    by_hand: bool = False
    usual: bool = False
    refused: tuple[Refusal, ...] = ()


@dataclass(frozen=True)
class Stack:
    """Parts of one outline, sawn as one: `thickness` of them together, `depth` what the saw takes, mm."""

    parts: tuple[str, ...]
    saw: str
    thickness: float
    depth: float


def shop_can(piece: Piece, shop: Shop) -> Answer:
    """Faults for what nothing in the shop can make, notes for what is too large for its machines and done by hand, and
    for parts that can be sawn as one stack."""
    made = assignments(piece, shop)
    findings = [f for alike in _alike(made) for f in _findings(piece, alike, shop)]
    findings += [_stack_note(s) for s in stacks(piece, shop)]
    ordered = sorted(findings, key=lambda f: (f.parts, f.message))
    able = sum(bool(a.machine) for a in made)
    return Answer(tuple(ordered), (Proof("cuts and stock this shop can make", len(made), able),))


def assignments(piece: Piece, shop: Shop) -> list[Assignment]:
    """Every task of every distinct part and the first way in the table that can do it, by item number."""
    found = []
    for number, stood in sorted(_items(piece).items()):
        names = tuple(p.name for p in stood)
        found += [_assigned(number, names, task, shop) for task in tasks(stood[0].wood)]
    return found


def machine_for(cut: Cut, part: Part, shop: Shop) -> str:
    """What makes a cut of a part; empty where nothing does, or nothing need be done."""
    return next((_assigned(0, (), task, shop).machine for task in cut_tasks(cut, part)), "")


def stacks(piece: Piece, shop: Shop) -> list[Stack]:
    """Parts of one shaped outline, mirror images too, that bandsaw or jigsaw can cut together."""
    groups: dict[tuple[Outline, float], list[str]] = {}
    for placed in piece:
        part = placed.part
        if isinstance(part, Part) and shaped(part.outline):
            groups.setdefault((_one_way_round(part), part.thickness), []).append(placed.name)
    return [s for (outline, thick), names in groups.items() for s in _stacked(outline, thick, names, shop)]


def _items(piece: Piece) -> dict[int, list[Placed]]:
    numbers = piece.items()
    items: dict[int, list[Placed]] = {}
    for placed in piece:
        if isinstance(placed.part, Part):
            items.setdefault(numbers[placed.name], []).append(placed)
    return items


def _assigned(number: int, names: tuple[str, ...], task: Task, shop: Shop) -> Assignment:
    refused: list[Refusal] = []
    for way in WAYS[task.work]:
        refusal = way.refusal(task, shop)
        if refusal is None:
            return Assignment(number, names, task, way.machine, way.by_hand, way.usual, tuple(refused))
        refused.append(refusal)
    return Assignment(number, names, task, "", refused=tuple(refused))


def _alike(made: Iterable[Assignment]) -> Iterator[Assignment]:
    """Those that ask the same of the shop as one, such as a left's and its right's."""
    groups: dict[tuple[Task, str], list[Assignment]] = {}
    for a in made:
        groups.setdefault((replace(a.task, cut=None, times=1), a.machine), []).append(a)
    return (replace(same[0], parts=tuple(p for a in same for p in a.parts)) for same in groups.values())


def _findings(piece: Piece, a: Assignment, shop: Shop) -> Iterator[Finding]:
    if a.machine and (not a.by_hand or a.usual or not a.refused):
        return
    sized = [r for r in a.refused if r.value != r.limit] or a.refused
    nearest = min(sized, key=lambda r: abs(r.value - r.limit))
    names = listed(a.parts, 3)
    says = f"{names}: {a.task.what} is left to the {a.machine}: {nearest.says}"
    if not a.machine:
        says = f"{names}: {a.task.what} can't be done in this shop: {nearest.says}; {way_round(a.task, shop)}"
    first = piece[a.parts[0]]
    where = first.at.point(first.wood.station((first.wood.stock.length / 2.0, first.wood.stock.width / 2.0, 0.0)))
    severity: Severity = "note" if a.machine else "fault"
    value, limit = round(nearest.value, 3), round(nearest.limit, 3)
    yield Finding(CHECK, severity, a.parts, says, value, limit, nearest.unit, SOURCE, where)


def _one_way_round(part: Part) -> Outline:
    """The outline, or its mirror image: the same for a left and its right."""
    there = _rounded(part.outline)
    back = _rounded(part.outline.mirrored(part.stock.width, mirrored_edge))
    return min(there, back, key=lambda o: (o.corners, o.bulges))


def _rounded(outline: Outline) -> Outline:
    """From its least corner on, without names, to a thousandth of a millimetre."""
    x0, y0, _, _ = outline.bounds
    corners = [(round(x - x0, 3) + 0.0, round(y - y0, 3) + 0.0) for x, y in outline.corners]
    first = corners.index(min(corners))
    bulges = [round(b, 6) + 0.0 for b in outline.bulges]
    return Outline(tuple(corners[first:] + corners[:first]), tuple(bulges[first:] + bulges[:first]))


def _stacked(outline: Outline, thick: float, names: list[str], shop: Shop) -> Iterator[Stack]:
    _, _, length, width = outline.bounds
    fits = min(length, width) <= shop.bandsaw_throat
    saws = (("bandsaw", shop.bandsaw_depth if fits else 0.0), ("jigsaw", shop.jigsaw_depth))
    saw, depth = max(saws, key=lambda s: s[1])
    most = int(depth / thick + 1e-9)
    if most >= 2:
        for n in range(0, len(names), most):
            together = names[n : n + most]
            if len(together) > 1:
                yield Stack(tuple(together), saw, thick * len(together), depth)


def _stack_note(s: Stack) -> Finding:
    names, count = listed(s.parts), len(s.parts)
    says = f"{names} have one outline: saw them as a stack of {count}, {s.thickness:.1f} mm thick, on the {s.saw}"
    return Finding(CHECK, "note", s.parts, says, round(s.thickness, 3), s.depth, "mm", SOURCE)
