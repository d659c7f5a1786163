"""Random orders of a design over its whole declared ranges: the pieces made, the rest refused plainly."""

from __future__ import annotations

import random
import re
from functools import cache
from typing import Any

from model.declared import Declared, DeclaredChoice, DeclaredCount, DeclaredFlag, DeclaredWidths, WidthList, WidthRange
from model.errors import DesignError, DryfitError, OrderError
from model.piece import Piece
from model.pieces import design

#: What a refusal must say: what to do.
REMEDY = re.compile(r"\b(make|add|take|give|move|use|keep|let|widen|change|choose|half|must|needs)\b")


@cache
def order(name: str, seed: int) -> Piece | DryfitError:
    """The piece of one random order, or the error it is refused with."""
    source, script = random.Random(seed), design(name)
    values = {key: _drawn(declared, source) for key, declared in script.parameters.declared().items()}
    values["thickness"] = source.choice([15.0, 18.3, 19.0, 19.05, 22.0, 25.4])
    values["units"] = source.choice(["mm", "ft-in", "in.dec"])
    try:
        return script.make(script.parameters(**values))
    except DryfitError as refusal:
        return refusal


def orders(name: str, count: int) -> list[Piece | DryfitError]:
    return [order(name, seed) for seed in range(count)]


def pieces_of(orders: list[Piece | DryfitError]) -> list[Piece]:
    return [o for o in orders if isinstance(o, Piece)]


def assert_refused_plainly(orders: list[Piece | DryfitError]) -> None:
    """A refusal is a whole sentence with its figures and what to do, and no noise."""
    for refusal in (o for o in orders if isinstance(o, DryfitError)):
        assert isinstance(refusal, DesignError | OrderError)
        assert len(str(refusal)) > 30, refusal
        assert REMEDY.search(str(refusal)), refusal
        assert re.search(r"\d", str(refusal)), refusal
        assert not re.search(r"\bnan\b|\binf\b|e-\d\d|None", str(refusal)), refusal


def _drawn(declared: Declared, source: random.Random) -> Any:
    """Any value the declaration allows; of counts the small ones oftener, as in orders."""
    match declared:
        case DeclaredFlag():
            return source.random() < 0.5
        case DeclaredChoice():
            return source.choice(declared.options)
        case DeclaredCount():
            return declared.low + int((declared.high - declared.low + 1) * source.random() ** 3)
        case DeclaredWidths():
            return _drawn_widths(declared, source)
        case _:
            return source.uniform(declared.low, declared.high)


def _drawn_widths(declared: DeclaredWidths, source: random.Random) -> WidthRange | WidthList:
    low, high = sorted(source.uniform(declared.low, declared.high) for _ in range(2))
    if source.random() < 0.75:
        return WidthRange(low, high, source.randrange(1000))
    return WidthList(tuple(source.uniform(low, high) for _ in range(source.randint(3, 40))))
