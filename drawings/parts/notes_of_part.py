"""What a part's sheet says in words: mirror images, bending, and cuts that no view or table gives."""

from __future__ import annotations

from collections.abc import Iterator

from drawings.lists.cut_words import cut_in_words
from drawings.lists.said_of_part import in_part
from drawings.paper.lettering import LINE_PITCH, wrapped
from drawings.paper.saying import Saying, Says, capital, counted, named, number, say
from drawings.paper.sheet import Point, Text
from drawings.parts.family import Family
from drawings.parts.joint_cuttings import cuttings
from drawings.parts.located import holes
from drawings.parts.trenches import trenches
from drawings.sheets.block import Block
from drawings.sheets.principal import Lengths
from model.cuts.cut import Cut
from model.cuts.dovetails import Pins
from model.cuts.edges import EdgeCut
from model.cuts.legs import Taper, Turned
from model.cuts.through import Notch, Profile
from model.part import Part
from model.piece import Piece

_HEIGHT, _INDENT, _WIDTH = 2.5, 6.5, 100.0


def notes(family: Family, piece: Piece, form: Lengths) -> list[Saying]:
    """The notes on a part, a sentence or two each."""
    return [*_mirrors(family, piece), *_bent(family, form), *_told(family, form)]


def _mirrors(family: Family, piece: Piece) -> Iterator[Saying]:
    items = piece.items()
    for member in family.members:
        if member.mirror_of and items[member.mirror_of] != member.item:
            item = counted(items[member.mirror_of], "item", member.mirror_of)
            yield say("Mirror image of the {} (item {}).", named(member.mirror_of, member.mirror_of), item)
        others = [p.name for p in piece if p.mirror_of in member.names and items[p.name] != member.item]
        for name in others:
            item = counted(items[name], "item", name)
            yield say("The {} (item {}) is its mirror image and has a drawing of its own.", named(name, name), item)


def _bent(family: Family, form: Lengths) -> Iterator[Saying]:
    bend = family.part.bend
    if bend:
        radius = number(form(bend.radius, "R"), Says("bend", (family.names[0],)))
        yield say(
            "Drawn flat, as it is cut. Bent afterwards across the grain to {} on its {} side, which is the hollow one.",
            radius,
            bend.hollow,
        )


def _told(family: Family, form: Lengths) -> Iterator[Saying]:
    """Cuts that nothing else on the sheet shows."""
    part = family.part
    for cut in part.cuts:
        if not _drawn(cut, part):
            words = cut_in_words(cut, part, form.units, form.denominator)
            yield say("{}.", capital(in_part(words, family.names[0], part, [cut])))


def _drawn(cut: Cut, part: Part) -> bool:
    shaped = isinstance(cut, Profile | Notch | EdgeCut | Taper | Turned)
    located = bool(holes(cut, part)) or any(trenches(cut, part)) or any(cut.footprints(part.blank))
    cut_through = isinstance(cut, Pins) or any(cuttings(cut, part))
    return shaped or located or cut_through


def notes_block(said: list[Saying], of: str) -> Block:
    """The notes of a part by its name, numbered, wrapped."""
    return Block(lambda at: _marks(said, of, at))


def _marks(said: list[Saying], of: str, corner: Point) -> list[Text]:
    x, y = corner
    marks = [Text((x, y), "Notes", _HEIGHT, level="top", bold=True)]
    y -= 2 * _HEIGHT * LINE_PITCH
    for n, note in enumerate(said, 1):
        marks.append(Text((x, y), say("{}.", counted(n, "nth", f"notes of the {of}")), _HEIGHT))
        for line in wrapped(note, _WIDTH - _INDENT, _HEIGHT):
            marks.append(Text((x + _INDENT, y), line, _HEIGHT))
            y -= _HEIGHT * LINE_PITCH
    return marks
