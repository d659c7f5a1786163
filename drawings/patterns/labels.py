"""Lettering the cuts on one tile: inside them where there is room, else beside them, else at the end of a leader."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drawings.paper.arcs import polar
from drawings.paper.sheet import Entity, Leader, Text
from drawings.patterns.pattern import Label
from drawings.sheets.clear_room import Box, Drawn, box_of, grown, within

HEIGHT = 2.5
#: From a cut to the words beside it, mm, the nearest first; and how long leaders are tried, and in which directions.
_BESIDE = (1.6, 3.5, 6.0, 9.0, 13.0)
_LEADERS, _WAYS = (
    (8.0, 12.0, 17.0, 23.0, 30.0, 38.0, 48.0, 60.0),
    (50.0, 130.0, -50.0, -130.0, 20.0, 160.0, -20.0, -160.0),
)
#: Where along a trench words are tried, as shares of its length.
_ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
#: Less of a cut than this on a tile is left to the neighbour to letter, mm, unless that is all there is of it.
_SHOWS = 4.0


def lettered(labels: Sequence[Label], room: Box, drawn: Sequence[Entity]) -> tuple[list[Text | Leader], list[str]]:
    """The words on a tile whose lines and texts so far are `drawn`, all within `room`, pattern mm; and those that
    found no place. Round holes of one kind are told once, with their number."""
    lines, placed, left = Drawn(drawn), list[Text | Leader](), list[str]()
    for words, spots in _told(labels, room):
        found = _placed(words, spots, room, lines, placed)
        if found:
            placed.append(found)
        else:
            left.append(words)
    return placed, left


def _told(labels: Sequence[Label], room: Box) -> Iterator[tuple[str, list[Box]]]:
    """Each thing to letter, with the places it may stand at."""
    counted: dict[str, list[Box]] = {}
    for label in labels:
        shown = _shown(label.spot, room)
        if shown and label.counted:
            counted.setdefault(label.words, []).append(shown)
        elif shown:
            yield label.words, [shown]
    for words, spots in counted.items():
        yield (f"{len(spots)} × {words}" if len(spots) > 1 else words), spots


def _shown(spot: Box, room: Box) -> Box | None:
    box = max(spot[0], room[0]), max(spot[1], room[1]), min(spot[2], room[2]), min(spot[3], room[3])
    enough = all(box[n + 2] - box[n] >= min(_SHOWS, spot[n + 2] - spot[n]) - 1e-6 for n in (0, 1))
    return box if enough else None


def _placed(
    words: str, spots: Sequence[Box], room: Box, lines: Drawn, placed: Sequence[Text | Leader]
) -> Text | Leader | None:
    texts = Drawn(placed)
    for tried in (_plain, _led):
        for spot in spots:
            for candidate in tried(words, spot):
                struck = lines.strikes(candidate) + texts.strikes(candidate) + texts.crossings(candidate)
                if not struck and within(box_of([candidate]), room):
                    return candidate
    return None


def _plain(words: str, spot: Box) -> Iterator[Text]:
    x0, y0, x1, y1 = spot
    upright = y1 - y0 > x1 - x0
    for share in _ALONG:
        middle = (
            (x0 + x1) / 2.0 if upright else x0 + share * (x1 - x0),
            y0 + share * (y1 - y0) if upright else (y0 + y1) / 2.0,
        )
        yield Text(middle, words, HEIGHT, "centre", "middle", 90.0 if upright else 0.0)
    for gap in _BESIDE:
        yield from _beside(words, grown(spot, gap), upright)


def _beside(words: str, box: Box, upright: bool) -> Iterator[Text]:
    x0, y0, x1, y1 = box
    x, y = (x0 + x1) / 2.0, (y0 + y1) / 2.0
    yield Text((x1, y), words, HEIGHT, "left", "middle")
    yield Text((x0, y), words, HEIGHT, "right", "middle")
    yield Text((x, y1), words, HEIGHT, "centre")
    yield Text((x, y0), words, HEIGHT, "centre", "top")
    if upright:
        yield Text((x1 + HEIGHT / 2.0, y), words, HEIGHT, "centre", "middle", 90.0)
        yield Text((x0 - HEIGHT / 2.0, y), words, HEIGHT, "centre", "middle", 90.0)


def _led(words: str, spot: Box) -> Iterator[Leader]:
    tip = (spot[0] + spot[2]) / 2.0, (spot[1] + spot[3]) / 2.0
    for reach in _LEADERS:
        for way in _WAYS:
            yield Leader((tip, polar(tip, reach, way)), words, "dot", HEIGHT)
