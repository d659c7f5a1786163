"""Was this whole question asked of this very piece before?

A piece that has not changed by a digit, in the same shop and place, is not asked again; one that has is, and then what
is remembered of its pairs of parts still helps.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from model.checks.finding import Answer, Finding, Proof
from model.checks.memory.remembered import folder, remembered_one
from model.checks.memory.solid_digest import key_of
from model.checks.solids.stood_solid import stood_solids
from model.part import GivenPart, Part
from model.piece import Piece

if TYPE_CHECKING:
    import cadquery as cq

#: Asks a question by its name, unless its answer is remembered.
Asking = Callable[[str, Callable[[], Answer]], Answer]


def asking_of(piece: Piece, shapes: Mapping[str, cq.Shape], *given: Any) -> Asking:
    """How to ask questions of a piece whose solids stand as `shapes`; given: all else that the answers follow from,
    plain values.

    A piece with something in it that has no digest, such as a maker's own class, is always asked.
    """
    if folder() is None:
        return lambda _, answered: answered()
    solids = stood_solids(shapes)
    parts = [(p.name, _without_given(p.part), p.at, p.mirror_of) for p in piece]  # given ones are told by their shapes
    places = [(s.name, s.at) for s in solids]
    whole = key_of("piece", solids, places, {**vars(piece), "parts": parts}, *given)

    def ask(question: str, answered: Callable[[], Answer]) -> Answer:
        key = None if whole is None else key_of(question, (), whole)
        return remembered_one(key, answered, _written, _read)

    return ask


def _without_given(part: Part | GivenPart) -> Part | None:
    return None if isinstance(part, GivenPart) else part


def _written(answer: Answer) -> Any:
    """Raises TypeError for figures that would not come back as they were."""
    if json.loads(json.dumps(answer.figures)) != answer.figures:
        raise TypeError("figures that are not plain JSON values can't be kept")
    return [[asdict(f) for f in answer.findings], [asdict(p) for p in answer.proofs], answer.figures]


def _read(told: Any) -> Answer:
    findings, proofs, figures = told
    return Answer(tuple(map(_finding, findings)), tuple(Proof(**p) for p in proofs), figures)


def _finding(told: dict[str, Any]) -> Finding:
    where = told["where"]
    return Finding(**{**told, "parts": tuple(told["parts"]), "where": None if where is None else tuple(where)})
