"""Does anything hold every part to the rest of the piece?"""

from __future__ import annotations

from collections.abc import Iterator

from model.checks.finding import Answer, Finding, Proof, listed
from model.piece import Piece

CHECK = "held"
SOURCE = "common practice: what nothing holds falls off, or is lost, the first time the piece is carried"


def held(piece: Piece) -> Answer:
    """Cautions for parts that no joint, fastener or guide ties to the most of the piece, one for each lot of them that
    hold together. One that is only laid in place is tied by the joint that says so."""
    lots = _lots(piece)
    loose = lots[1:]
    findings = tuple(_finding(lot) for lot in loose)
    count = len(piece.parts)
    return Answer(findings, (Proof("parts held to the piece", count, count - sum(map(len, loose))),))


def _lots(piece: Piece) -> list[tuple[str, ...]]:
    """The parts, those that hold together in one lot, the largest first, whatever their order in the piece."""
    lot_of = {name: name for name in piece.parts}
    for tied in _ties(piece):
        one, *others = {lot_of[name] for name in tied if name in lot_of} or {""}
        lot_of = {name: one if lot in others else lot for name, lot in lot_of.items()}
    lots = [tuple(sorted(name for name, lot in lot_of.items() if lot == of)) for of in set(lot_of.values())]
    return sorted(lots, key=lambda lot: (-len(lot), lot))


def _ties(piece: Piece) -> Iterator[tuple[str, ...]]:
    """Parts that hold together. What slides or turns is held by its guides or its hinge, joint or not."""
    body = next(iter(piece.parts), "")
    yield from ((j.first, j.second) for j in piece.joints)
    yield from (item.parts for item in piece.hardware)
    yield from ((slide.part, body) for slide in piece.slides)
    yield from ((swing.part, body) for swing in piece.swings)


def _finding(lot: tuple[str, ...]) -> Finding:
    one = len(lot) == 1
    message = (
        f"nothing holds {listed(lot)} to the rest of the piece; join {'it' if one else 'them'}, or say with "
        f"rests(...) that {'it is' if one else 'they are'} only laid there"
    )
    return Finding(CHECK, "caution", lot, message, 0.0, 1.0, "joints", SOURCE)
