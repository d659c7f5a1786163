"""Random orders of one design over its whole declared ranges, and the dry fit of a piece."""

from __future__ import annotations

import random
import re
from typing import Any

from model.checks.dry_fit import dry_fit
from model.errors import DesignError, DryfitError
from model.order_sections import Shop
from model.pieces import design
from model.solids import standing
from tests.model.pieces.sound import NOT_THE_DESIGNS

#: What a refusal must say: what to do.
REMEDY = re.compile(r"\b(make|give|keep|take|let|move)\b")


def random_order(name: str, seed: int, thicknesses: tuple[float, ...]) -> Any:
    """The piece of one random order, or the refusal; lengths anywhere in their ranges, in mm or in inches."""
    source, script = random.Random(seed), design(name)
    values = {key: source.uniform(said.low, said.high) for key, said in script.parameters.declared().items()}  # type: ignore[attr-defined]
    values["thickness"] = source.choice(thicknesses)
    values["units"] = source.choice(("mm", "ft-in", "in.dec"))
    try:
        return script.make(script.parameters(**values))
    except DryfitError as refusal:
        return refusal


def assert_clear(refusal: Any) -> None:
    """A refusal is a whole sentence with its numbers and what to do."""
    assert isinstance(refusal, DesignError), refusal
    assert REMEDY.search(str(refusal)), refusal
    assert re.search(r"\d", str(refusal)), refusal
    assert not re.search(r"\bnan\b|\binf\b|e-\d\d|None", str(refusal)), refusal


def assert_fits(piece: Any) -> None:
    """Every part one valid solid; the dry fit finds no fault and asks for no caution."""
    shapes = standing(piece)
    for name, shape in shapes.items():
        assert shape.isValid(), name
        assert len(shape.Solids()) == 1, name
    answer = dry_fit(piece, shapes, least_wood=Shop().least_wood)
    assert [f.message for f in answer.findings if f.severity != "note" and f.check not in NOT_THE_DESIGNS] == []
    assert len(answer.proofs) >= 2
