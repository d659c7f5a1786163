"""One set-up card: the section, the figures large, every part with a box to tick, the trial and the caution."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from drawings.cards.cut_section import Posed
from drawings.cards.figures import What, meant
from drawings.cards.machines import FIRST, machine_for, trial_for
from drawings.cards.made_cuts import place_of, spaced
from drawings.cards.sketch import back_to_back, section_marks
from drawings.lists.distinct import Distinct, stem_and_number
from drawings.lists.setups import Setting, Setup
from drawings.paper.dimensions import angle_text
from drawings.paper.lettering import LINE_PITCH, paragraph, reach, text_width, wrapped
from drawings.paper.measured import Meant, Measured
from drawings.paper.saying import Saying, counted, named, say
from drawings.paper.sheet import Entity, Pen, Point, Polyline, Text
from drawings.sheets.principal import Lengths
from model.part import Part

#: Lettering, mm: the heading, figures to be read at arm's length, a fence's figure, and words.
_HEADING, _LESSER, _FIGURE, _FENCE, _WORDS = 5.0, 3.5, 7.0, 5.0, 2.5
_PAD, _LINE = 3.0, _WORDS * 1.9
#: The section's share of the width, the most it takes, and its height; the width of the figures' column and the height
#: of a pair laid back to back, mm.
_SHARE, _SECTION, _FIGURES, _PAIR = 0.3, (58.0, 46.0), 40.0, 15.0
_TICK = 3.0
#: A card with more fence settings than this goes on on another (ours).
MOST_ROWS = 5

#: What an angle is measured from, where it is not the work out of square to the cutter.
_ANGLES = {
    "screw pocket": "to the side it is in",
    "planed slope": "to the back side",
    "key slot": "side to the table",
}
_WHAT = {
    "tongue": ("thickness of the tongue", "length of the tongue"),
    "hole": ("diameter", "depth"),
    "counterbore": ("diameter", "depth"),
    "clearance hole": ("diameter", "depth, right through"),
    "ease": ("radius", ""),
    "notch": ("along the grain", "across the grain"),
}


#: Draws one column of a card from its upper left corner, so many mm wide, and says how low it reaches.
_Column = Callable[[Point, float], tuple[list[Entity], float]]


def _section_width(inner: float) -> float:
    """How much of a card's width the section takes, mm."""
    return min(_SECTION[0], _SHARE * inner)


@dataclass(frozen=True)
class Pair:
    """A left and a right that one setting serves."""

    names: tuple[str, str]
    left: Part
    right: Part


@dataclass(frozen=True)
class Card:
    """All that is cut with one cutter setting: its rows differ in the fence alone; posed: the section, if one shows."""

    rows: tuple[Setup, ...]
    posed: Posed | None
    pair: Pair | None
    form: Lengths
    continued: bool = False
    distinct: Mapping[str, Distinct] = field(default_factory=dict)

    @property
    def setting(self) -> Setting:
        return self.rows[0].setting

    @property
    def heading(self) -> Saying:
        """Its number and what it is a set-up for; equal cutters so set have one number all over the set."""
        said = self.setting.called(self.form.units, self.form.denominator, spaced(self.rows))
        s = self.setting
        cutter = f"{s.cut} {s.spacing} {s.width} {s.depth} {s.angle} {s.tilt}"
        place = counted(self.rows[0].number, "key", "set-ups", cutter, "set")
        return say("Set-up {}: {}{}", place, said, ", continued" if self.continued else "")

    def height(self, width: float) -> float:
        return -self._laid((0.0, 0.0), width)[1]

    def marks(self, corner: Point, width: float) -> list[Entity]:
        """The card hanging from its upper left corner, so many mm wide, in its frame."""
        marks, foot = self._laid(corner, width)
        x, top = corner
        frame = ((x, foot), (x + width, foot), (x + width, top), (x, top))
        return [*marks, Polyline(frame, closed=True, pen=Pen.GRID)]

    def _laid(self, corner: Point, width: float) -> tuple[list[Entity], float]:
        """The marks, and how low they reach."""
        x, inner = corner[0] + _PAD, width - 2.0 * _PAD
        machine, top = machine_for(self.setting.cut), corner[1] - _PAD
        size = _HEADING if text_width(self.heading, _HEADING, bold=True) <= inner else _LESSER
        both = text_width(self.heading, size, bold=True) + 6.0 + text_width(machine.name, _WORDS)
        drop = 0.0 if both < inner else _LINE
        marks: list[Entity] = [
            Text((x, top), self.heading, size, level="top", bold=True),
            Text((x + inner, top - _HEADING - drop), machine.name, _WORDS, "right"),
        ]
        top -= _HEADING * 1.7 + drop
        marks += self._section((x, top), inner)
        lows = [top - _SECTION[1] - 1.0 if self.posed else top]
        for column, x0, wide in self._columns(x, inner):
            found, low = column((x0, top), wide)
            marks += found
            lows.append(low)
        y = min(lows) - 1.5
        for word, text in (("Trial", trial_for(self.setting.cut)), ("Mind", f"{machine.caution} {FIRST}")):
            marks += _told(word, text, (x, y), inner)
            y -= _told_height(text, inner)
        return marks, y - _PAD + 1.5

    def _columns(self, x: float, inner: float) -> list[tuple[_Column, float, float]]:
        """The figures and the fence settings: what draws each, its left edge and its width."""
        start = x + (_section_width(inner) + 2.0 if self.posed else 0.0)
        wide = max([_FIGURES, *(8.0 + text_width(figure, _FIGURE, bold=True) for _, figure, *_ in self._said)])
        rows = start + wide + 3.0
        return [(self._figures, start, wide), (self._rows, rows, x + inner - rows)]

    @property
    def _said(self) -> list[tuple[str, str, str, What]]:
        """Letter, figure, what it is and what of the setting, of all that is set but the fence."""
        s = self.setting
        wide, deep = next((_WHAT[word] for word in _WHAT if s.cut.startswith(word)), ("width", "depth"))
        said: list[tuple[str, str, str, What]] = (
            [("W", self.form(s.width), wide, "width")] if s.width is not None else []
        )
        if s.depth is not None and deep:
            said.append(("D", self.form(s.depth), deep, "depth"))
        if s.angle is not None:
            said.append(("A", angle_text(s.angle), _ANGLES.get(s.cut, "out of square"), "angle"))
        if s.tilt:
            said.append(("B", angle_text(s.tilt), "blade tilted from upright", "tilt"))
        return said

    def _section(self, corner: Point, inner: float) -> list[Entity]:
        x, y = corner
        room = (x, y - _SECTION[1], x + _section_width(inner), y)
        return section_marks(self.posed, room, self.form.units, self._meant) if self.posed else []

    def _meant(self, letter: str) -> tuple[Measured, ...]:
        """What the figure with a letter in the section measures."""
        of: Mapping[str, What] = {"W": "width", "D": "depth", "F": "fence"}
        return meant(self.rows[:1], of[letter], self.distinct) if letter in of else ()

    def _figures(self, corner: Point, width: float) -> tuple[list[Entity], float]:
        x, y = corner
        marks: list[Entity] = []
        for letter, figure, what, of in self._said:
            marks.append(Text((x, y), letter, _HEADING, level="top"))
            measured = meant(self.rows, of, self.distinct)
            marks.append(Text((x + 8.0, y), figure, _FIGURE, level="top", bold=True, measured=measured))
            y -= _FIGURE * (1.0 - reach(figure)[0]) + 1.3
            lines = wrapped(what, width - 9.0, _WORDS)
            marks += paragraph((x + 8.0, y), what, width - 9.0, _WORDS)
            y -= 1.4 + len(lines) * _WORDS * LINE_PITCH
        if self.pair:
            marks += back_to_back(self.pair.left, self.pair.right, self.setting.cut, (x, y - _PAIR, x + width, y))
            said = " over ".join(self.pair.names) + ", edge to edge as drawn: mark the triangle across both"
            marks += paragraph((x, y - _PAIR - 1.5), said, width, _WORDS)
            y -= _PAIR + 1.5 + len(wrapped(said, width, _WORDS)) * _WORDS * LINE_PITCH
        return marks, y

    def _rows(self, corner: Point, width: float) -> tuple[list[Entity], float]:
        marks: list[Entity] = []
        y = corner[1]
        for row in self.rows:
            fence = meant([row], "fence", self.distinct)
            found, y = _Row(row, self.form, fence, self.distinct).laid((corner[0], y), width)
            marks += found
        return marks, y


@dataclass(frozen=True)
class _Row:
    """One place of the fence and the parts it serves."""

    setup: Setup
    form: Lengths
    measured: Meant
    distinct: Mapping[str, Distinct]

    def laid(self, corner: Point, inner: float) -> tuple[list[Entity], float]:
        x, y = corner
        s = self.setup.setting
        marks: list[Entity] = []
        if s.fence is not None:
            figure = self.form(s.fence)
            marks.append(Text((x, y), "F", _FENCE, level="top"))
            marks.append(Text((x + 8.0, y), figure, _FENCE, level="top", bold=True, measured=self.measured))
            beside, said = x + 8.0 + text_width(figure, _FENCE, bold=True) + 3.0, f"from the {s.against}"
            fits = beside + text_width(said, _WORDS) < x + inner
            if fits:
                marks.append(Text((beside, y - _FENCE), said, _WORDS))
            y -= _FENCE * (1.2 - reach(figure)[0]) + 1.75
            for line in [] if fits else wrapped(said, inner, _WORDS):
                marks.append(Text((x, y), line, _WORDS, level="top"))
                y -= _LINE
        for place, names in self.setup.served:
            for line in wrapped(bearing(s, place), inner, _WORDS):
                marks.append(Text((x, y), line, _WORDS, level="top"))
                y -= _LINE
            for token, at in flowed(ticks(names, self._cuts(place)), (x + 4.0, y), inner - 4.0):
                marks += _tick(token, at)
                y = at[1]
            y -= _LINE
        return marks, y - 1.0

    def _cuts(self, place: str) -> dict[str, list[str]]:
        """The cuts made at a place, by the names of their parts: where among the part's cuts each is."""
        found: dict[str, list[str]] = {}
        for made in (m for m in self.setup.made if m.own.place == place):
            found.setdefault(made.name, []).append(place_of(made, self.distinct[made.name]))
        return found


def bearing(setting: Setting, place: str) -> str:
    """How the part lies for a cut made at a place: what bears on fence and table.

    >>> bearing(Setting("dado", 19.0, 6.0, None, 70.0, "end"), "face side from left end")
    'Left end to the fence, face side down:'
    """
    side, _, edge = place.partition(" from ")
    if edge and setting.fence is not None:
        return f"{edge.capitalize()} to the fence, {side} down:"
    side, _, edge = place.partition(" of ")
    if edge and setting.against == "edge":
        return f"{edge.capitalize()} to the fence, {side} down:"
    if setting.against == "back side":
        return f"Back side to the fence, {place} down:"
    if setting.against.startswith("back side"):
        down = "down" if "slot" in setting.cut else "to the fence"
        return f"Into the {place}, back side {down}:"
    return f"{place.capitalize()}:"


def ticks(names: Sequence[str], cuts: Mapping[str, Sequence[str]] | None = None) -> list[Saying]:
    """What stands by each box: a name, or its number after the first of its kind; a part cut several times says so.

    cuts: which cuts of a part those are.
    """
    count = {name: names.count(name) for name in names}
    said, before = list[Saying](), ""
    for name, times in count.items():
        stem, place = stem_and_number(name)
        text = named(str(place) if place is not None and stem == before else name, name)
        many = counted(times, "cuts", name, *(cuts or {}).get(name, ()))
        said.append(say("{} ({} cuts)", text, many) if times > 1 else text)
        before = stem
    return said


def flowed(tokens: Sequence[Saying], corner: Point, width: float) -> Iterator[tuple[Saying, Point]]:
    """Where each token with its box begins, in lines as long as the width allows."""
    x, y = corner
    for token in tokens:
        takes = _TICK + 1.2 + text_width(token, _WORDS) + 4.0
        if x > corner[0] and x + takes > corner[0] + width:
            x, y = corner[0], y - _LINE
        yield token, (x, y)
        x += takes


def _tick(token: Saying, at: Point) -> list[Entity]:
    x, y = at
    top = y + 0.25
    box = ((x, top - _TICK), (x + _TICK, top - _TICK), (x + _TICK, top), (x, top))
    return [
        Polyline(box, closed=True, pen=Pen.GRID),
        Text((x + _TICK + 1.2, y), token, _WORDS, level="top", pen=Pen.REFERENCE),
    ]


def _told(word: str, text: str, corner: Point, inner: float) -> list[Entity]:
    x, y = corner
    return [
        Text((x, y), word, _WORDS, level="top", bold=True),
        *paragraph((x + 12.0, y), text, inner - 12.0, _WORDS),
    ]


def _told_height(text: str, inner: float) -> float:
    return len(wrapped(text, inner - 12.0, _WORDS)) * _WORDS * LINE_PITCH + 1.6
