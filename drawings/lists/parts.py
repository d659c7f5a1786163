"""parts.csv: every distinct part with its finished and rough sizes, grain, lumber, and all its cuts in words."""

from __future__ import annotations

from drawings.lists.columns import Column, Measure, Speech, decimal, exact, lengths
from drawings.lists.cut_words import cuts_in_words
from drawings.lists.distinct import in_short
from drawings.lists.part_lines import PartLine
from model.part import Part

_SIZES = ("length", "width", "thickness")


def parts_columns(speech: Speech) -> list[Column]:
    """The columns of the parts list; its lines are `PartLine`s."""
    millimetres = Speech("mm", speech.denominator)
    return [
        Column("item", lambda line: str(line.distinct.item)),
        Column("parts", lambda line: in_short(line.distinct.names)),
        Column("quantity", lambda line: str(line.quantity)),
        Column("kind", lambda line: line.kind),
        Column("species", lambda line: line.species),
        *(lengths(f"finished {what}", _finished(n), speech) for n, what in enumerate(_SIZES)),
        lengths("rough length", _rough_length, speech),
        lengths("rough width of each board", _rough_width, speech),
        Column("nominal thickness (inches)", lambda line: line.nominal),
        Column("boards in each part", lambda line: str(line.boards) if line.rough else ""),
        Column("board feet each", lambda line: decimal(line.board_feet, 2) if line.rough else ""),
        Column("board feet total", lambda line: decimal(line.total_board_feet, 2) if line.rough else ""),
        Column("grain", lambda line: "along length" if line.part else ""),
        Column("notes", lambda line: "; ".join(notes(line, speech))),
        Column(f"cuts (lengths in {speech.unit})", lambda line: _cuts(line, speech)),
        *(exact(f"finished {what}", _finished(n)) for n, what in enumerate(_SIZES)),
        exact("rough length", _rough_length),
        exact("rough width of each board", _rough_width),
        *([] if speech.units == "mm" else [Column("cuts (lengths in mm)", lambda line: _cuts(line, millimetres))]),
    ]


def notes(line: PartLine, speech: Speech) -> list[str]:
    """What must be known of a part besides its sizes: mirror image, glue-up, bending; or that it is a given solid."""
    if line.part is None:
        return ["given as a solid; not cut from stock"]
    found = []
    if line.distinct.mirror_of:
        found.append(f"mirror image of {line.distinct.mirror_of}")
    if line.part.stock.kind == "panel":
        found.append(f"glue up from {line.boards} boards" if line.boards > 1 else "from one wide board")
    if line.part.bend:
        found.append(_bending(line.part, speech))
    return found


def _bending(part: Part, speech: Speech) -> str:
    assert part.bend is not None
    radius, length = speech.length(part.bend.radius), speech.length(part.stock.length)
    return f"bend to a radius of {radius}, hollow on the {part.bend.hollow} side; {length} is its length laid flat"


def _cuts(line: PartLine, speech: Speech) -> str:
    if line.part is None:
        return ""
    return "; ".join(cuts_in_words(line.part.cuts, line.part, speech.units, speech.denominator))


def _finished(n: int) -> Measure:
    return lambda line: line.finished[n] if line.finished else None


def _rough_length(line: PartLine) -> float | None:
    return line.rough.length if line.rough else None


def _rough_width(line: PartLine) -> float | None:
    return line.rough.width if line.rough else None
