"""A hundred random orders over each design's whole declared ranges: a sound piece, or a refusal that says what to do.

Every order is made; every tenth that can be is built solid and looked at pair by pair.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from typing import Any

import pytest

from model.declared import Declared, DeclaredChoice, DeclaredCount, DeclaredFlag, DeclaredWidths, WidthList, WidthRange
from model.errors import DesignError, DryfitError, OrderError
from model.pieces import design, design_names
from model.solids import standing

ORDERS = 100
LEAST_MADE = 0.4
#: Parts: a piece with more is made but not built, for time.
LARGEST_BUILT = 40
REMEDIES = r"make|add|take|give|move|use|keep|widen|change|choose|half|must|needs"


def drawn(declared: Declared, source: random.Random) -> Any:
    """Any value the declaration allows; of counts the small ones oftener, as in orders."""
    match declared:
        case DeclaredFlag():
            return source.random() < 0.5
        case DeclaredChoice():
            return source.choice(declared.options)
        case DeclaredCount():
            return declared.low + int((declared.high - declared.low + 1) * source.random() ** 3)
        case DeclaredWidths():
            return drawn_widths(declared, source)
        case _:
            return source.uniform(declared.low, declared.high)


def drawn_widths(declared: DeclaredWidths, source: random.Random) -> WidthRange | WidthList:
    low, high = sorted(source.uniform(declared.low, declared.high) for _ in range(2))
    if source.random() < 0.75:
        return WidthRange(low, high, source.randrange(1000))
    return WidthList(tuple(source.uniform(low, high) for _ in range(source.randint(3, 40))))


def order(name: str, seed: int) -> Any:
    """The piece of one random order, or the error it is refused with."""
    source, script = random.Random(seed), design(name)
    values = {key: drawn(declared, source) for key, declared in script.parameters.declared().items()}
    values["thickness"] = source.choice([15.0, 19.0, 19.05, 22.0, 25.4])
    values["units"] = source.choice(["mm", "ft-in", "in.dec"])
    try:
        return script.make(script.parameters(**values))
    except DryfitError as refusal:
        return refusal


@pytest.fixture(scope="module", params=design_names())
def orders(request: pytest.FixtureRequest) -> list[Any]:
    return [order(request.param, seed) for seed in range(ORDERS)]


def made(orders: list[Any]) -> list[Any]:
    return [o for o in orders if not isinstance(o, DryfitError)]


def test_most_orders_can_be_made(orders: list[Any]) -> None:
    assert len(made(orders)) >= LEAST_MADE * ORDERS


def test_every_refusal_is_a_sentence_with_its_remedy(orders: list[Any]) -> None:
    for refusal in (o for o in orders if isinstance(o, DryfitError)):
        assert isinstance(refusal, DesignError | OrderError)
        assert len(str(refusal)) > 30, refusal
        assert re.search(rf"\b({REMEDIES})\b", str(refusal)), refusal
        assert not re.search(r"\bnan\b|\binf\b|e-\d\d|None", str(refusal)), refusal


def test_every_made_piece_is_told_in_full(orders: list[Any]) -> None:
    for piece in made(orders):
        told = {name for step in piece.steps for name in step.parts}
        joined = {name for joint in piece.joints for name in (joint.first, joint.second)}
        assert told <= set(piece.parts)
        assert joined <= set(piece.parts)
        assert {n for n in piece.parts if n not in joined} == set(), "a part that nothing holds"


def test_every_tenth_is_sound_wood_that_overlaps_nowhere_and_touches_where_it_should(
    orders: list[Any],
    overlaps: Callable[[Any], list[tuple[str, str, float]]],
    loose_contacts: Callable[[Any, Any], list[str]],
) -> None:
    for piece in [p for p in made(orders)[::10] if len(p.parts) <= LARGEST_BUILT]:
        shapes = standing(piece)
        assert all(shape.isValid() and shape.Volume() > 0 for shape in shapes.values())
        assert overlaps(shapes) == []
        assert loose_contacts(piece, shapes) == []
        for name, placed in piece.parts.items():
            if placed.mirror_of and placed.part == piece[placed.mirror_of].part.mirrored():
                assert shapes[name].Volume() == pytest.approx(shapes[placed.mirror_of].Volume(), rel=1e-6)


def test_a_wall_of_two_hundred_parts_is_made() -> None:
    script = design("bookcase")
    wall = script.make(script.parameters(width=9000.0, height=2400.0, bays=12, shelves=8, housing=6.0))

    assert len(wall.parts) >= 200
    # shelves of all bays are alike, so are the uprights between them
    assert len(set(wall.items().values())) < 60
