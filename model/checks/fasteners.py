"""Is every nail, screw, biscuit, dowel, peg and plug long enough, hidden, clear of the others, and in reach; does every
spline, key, wedge and loose tongue go into its slot?"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from model.checks.fastening.clear import clear
from model.checks.fastening.edges import spaced
from model.checks.fastening.limits import Pilot, pilot
from model.checks.fastening.lines import FastenerLine, fastener_lines, passages
from model.checks.fastening.loose_pieces import loose_pieces, slotted
from model.checks.fastening.reach import reached
from model.checks.fastening.seat import Wrong, seated
from model.checks.finding import Answer, Finding, Proof
from model.checks.solids.wood_along import stood_woods
from model.cuts.faces import Bore
from model.hardware import Hardware
from model.part import Part
from model.piece import Piece
from model.solids import standing
from model.tolerance import SAME_POINT

CHECK = "fasteners"


def fasteners(
    piece: Piece, shapes: Mapping[str, Any] | None = None, *, least_wood: float = 3.0, driver_room: float = 150.0
) -> Answer:
    """Faults, cautions and proofs for everything driven or set into wood; like troubles share a finding.

    shapes: every part's solid where it stands, by name, made if not given; least_wood: over a point and between
    neighbours; driver_room: clear in line with a head when its step comes, mm.
    Raises DesignError if the cuts of a part leave no single valid solid.
    """
    lines, loose = fastener_lines(piece), loose_pieces(piece)
    if not lines and not loose:
        return Answer()
    filled = stood_woods(piece, filled=True)
    found = passages(lines, filled)
    by_name = {w.name: w for w in filled}
    asked: dict[str, tuple[int, Sequence[Wrong]]] = {
        "fasteners that hold in wood": (len(lines), list(seated(piece, found, by_name, least_wood))),
        "nails and screws clear of edges and ends": (_driven(lines), list(spaced(piece, found))),
        "fasteners clear of each other": (len(lines), list(clear(piece, lines, loose, least_wood))),
        "splines, keys, wedges and tongues in their slots": (
            len(loose),
            list(slotted(piece, standing(piece) if loose and shapes is None else shapes or {})),
        ),
        "nails, screws and pegs in reach": (
            sum(p.struck for p in found),
            list(reached(piece, found, stood_woods(piece, filled=False), driver_room)),
        ),
    }
    wrongs = [w for _, ws in asked.values() for w in ws]
    proofs = [Proof(what, n, n - _items(ws)) for what, (n, ws) in asked.items() if n]
    return Answer(tuple(_told(piece, wrongs)), tuple(proofs))


def pilots(piece: Piece) -> list[Pilot]:
    """What to bore for each kind of nail and screw in each wood, in the order they come: the holes its joint bores,
    or, where it bores none, the handbook's."""
    found: dict[tuple[str, str], Pilot] = {}
    for item in (f.item for f in fastener_lines(piece) if f.driven):
        part = piece[item.parts[-1]].part
        species = (part.stock.species if isinstance(part, Part) else part.species) or piece.parameters.species
        said = pilot(item, species)
        bored = _bored(piece, item)
        if bored is not None:
            said = Pilot(said.label, species, bored, said.clearance, "as its joint bores it")
        found.setdefault((item.label, species), said)
    return list(found.values())


def _bored(piece: Piece, item: Hardware) -> float | None:
    """Diameter of the pilot bored for an item in the part that takes its point, mm."""
    placed = piece[item.parts[-1]]
    if not isinstance(placed.part, Part) or placed.part.bend is not None:
        return None
    mouth, way = placed.at.own_point(item.at), placed.at.own_direction(item.direction)
    for cut in placed.part.cuts:
        if isinstance(cut, Bore) and cut.diameter < item.diameter:
            off = [cut.at[k] - mouth[k] for k in range(3)]
            run = sum(off[k] * way[k] for k in range(3))
            if sum((off[k] - run * way[k]) ** 2 for k in range(3)) < 0.25:
                return cut.diameter
    return None


def _driven(lines: Iterable[FastenerLine]) -> int:
    return sum(f.driven for f in lines)


def _items(wrongs: Iterable[Wrong]) -> int:
    return len({id(w.item) for w in wrongs if w.severity != "note"})


def _told(piece: Piece, wrongs: Sequence[Wrong]) -> list[Finding]:
    """One finding for all of one size that miss the same limit; a fault is told once for parts cut alike."""
    numbers = piece.items()
    alike: dict[tuple[object, ...], list[Wrong]] = {}
    for w in wrongs:
        fault = w.severity == "fault"
        parts = (*(numbers[name] for name in (*w.item.parts, *w.others)), _tenths(w.value)) if fault else ()
        alike.setdefault((w.severity, w.source, w.item.label, _tenths(w.limit), parts), []).append(w)
    return sorted((_finding(piece, ws) for ws in alike.values()), key=lambda f: (f.parts, f.message))


def _tenths(size: float) -> float:
    """To a tenth, without the last digits' noise that would part what is alike, mm."""
    return round(round(size, 6), 1)


def _worst(piece: Piece, alike: Sequence[Wrong]) -> Wrong:
    """The one furthest off its limit; of several, the same one wherever the piece stands."""

    def told_first(w: Wrong) -> tuple[object, ...]:
        own = piece[w.item.parts[0]].at.own_point(w.where)
        return (w.item.parts, w.says, tuple(round(c, 3) for c in own))

    furthest = max(abs(w.value - w.limit) for w in alike)
    return min((w for w in alike if abs(w.value - w.limit) > furthest - SAME_POINT), key=told_first)


def _finding(piece: Piece, alike: Sequence[Wrong]) -> Finding:
    first, more = _worst(piece, alike), len(alike) - 1
    held = " to ".join(first.item.parts[:2])
    many = f"; {more} more like it" if more else ""
    parts = dict.fromkeys(name for w in alike for name in (*w.item.parts, *w.others))
    message = f"the {first.item.label}, {held}, {first.says}{many}"
    value, limit = round(first.value, 4), round(first.limit, 4)
    return Finding(CHECK, first.severity, tuple(parts), message, value, limit, "mm", first.source, first.where)
