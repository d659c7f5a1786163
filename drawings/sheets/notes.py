"""The general notes of a sheet: what it is made of, how many parts, where its arcs are struck from, what rules."""

from __future__ import annotations

from collections.abc import Sequence

from drawings.paper.lettering import LINE_PITCH, wrapped
from drawings.paper.measured import Shown
from drawings.paper.saying import Saying, Says, counted, joined, number, say
from drawings.paper.sheet import Point, Text
from drawings.sheets.clear_room import Box
from drawings.sheets.principal import Lengths, middle_of
from model.order import Order
from model.piece import Piece

#: Widths the notes can be wrapped to, mm.
NOTES_WIDTHS = (84.0, 120.0, 170.0)
_HEADING, _HEIGHT, _INDENT, _BETWEEN = 3.5, 2.5, 5.0, 1.2


def general_notes(piece: Piece, order: Order, form: Lengths) -> list[Saying]:
    """The notes, one sentence or two each; `form` prints lengths in mm."""
    kinds = len(set(piece.items().values()))
    wood = order.wood
    return [
        say(
            "{}, {} thick as measured, unless a part says otherwise.",
            wood.species.capitalize(),
            number(form(wood.thickness), Says("thickness")),
        ),
        say(
            "{} parts of {} kinds, listed in lists/parts.csv.",
            counted(len(piece.parts), "parts"),
            counted(kinds, "kinds"),
        ),
        *arc_notes(piece, form),
        say(
            "The order {} is the source of this sheet: change it there, not here.",
            number(order.name, Says("order", ("name",))),
        ),
    ]


def arc_notes(piece: Piece, form: Lengths) -> list[Saying]:
    """Where the centres of the arcs are, which lie off the sheet."""
    centres: dict[Point, list[tuple[float, str]]] = {}
    for name, (radius, centre) in piece.arcs.items():
        centres.setdefault(centre, []).append((radius, name))
    return [_arc_note(centre, middle_of(piece), sorted(arcs), form) for centre, arcs in centres.items()]


def _arc_note(centre: Point, middle: float | None, arcs: Sequence[tuple[float, str]], form: Lengths) -> Saying:
    """Told from the arc nearest to the centre, where a trammel would be set from; a piece stands about y = 0."""
    struck = Shown().radius(centre)
    told = joined(" and ", (say("{} {}", name, number(form(radius, "R"), struck)) for radius, name in arcs))
    radius, nearest = arcs[0]
    have = "have one centre" if len(arcs) > 1 else "has its centre"
    on_line = ", on the centre line" if middle is not None and abs(centre[0] - middle) < 1e-3 else ""
    way = "in front of" if centre[1] < 0.0 else "behind"
    off = number(form(radius), struck)
    return say("Arcs {} {}{}, {} {} the {}.", told, have, on_line, off, way, nearest)


def notes_size(notes: Sequence[str], width: float) -> tuple[float, float]:
    """Width and height that the notes take when they are wrapped to `width`, mm."""
    lines = sum(len(_lines(note, width)) for note in notes)
    return width, _HEADING * 2.0 + lines * _HEIGHT * LINE_PITCH + (len(notes) - 1) * _BETWEEN


def notes_marks(notes: Sequence[str], box: Box) -> list[Text]:
    """The notes, numbered, under their heading, wrapped to their box."""
    x, width = box[0], box[2] - box[0]
    marks = [Text((x, box[3]), "General notes", _HEADING, level="top", bold=True)]
    y = box[3] - _HEADING * 2.0 - _HEIGHT
    for n, note in enumerate(notes, 1):
        marks.append(Text((x, y), say("{}.", counted(n, "nth", "general notes")), _HEIGHT))
        for line in _lines(note, width):
            marks.append(Text((x + _INDENT, y), line, _HEIGHT))
            y -= _HEIGHT * LINE_PITCH
        y -= _BETWEEN
    return marks


def _lines(note: str, width: float) -> list[str]:
    return wrapped(note, width - _INDENT, _HEIGHT)
