"""Overlaps planted on purpose: parts pushed into those they touch, so that what must be found is known beforehand."""

from __future__ import annotations

import copy
import random
from dataclasses import dataclass, replace

from model.piece import Piece
from model.placement import Vector, scaled

Names = tuple[str, str]


@dataclass(frozen=True)
class Planted:
    """A piece with some parts pushed; pairs: those pushed into each other, to be found; pushed: the parts moved."""

    piece: Piece
    pairs: frozenset[Names]
    pushed: frozenset[str]

    def score(self, found: set[Names]) -> tuple[int, int]:
        """How many planted pairs were missed, and how many pairs that only touch were accused: those of no pushed
        part, as a pushed one may truly run into others too."""
        innocent = {pair for pair in found if not self.pushed & set(pair)}
        return len(self.pairs - found), len(innocent)


def planted(piece: Piece, deep: float, most: int, seed: int) -> Planted:
    """Up to `most` parts pushed `deep` mm into others, each where a joint says that the two touch without a gap; none
    of them touches another that is pushed."""
    joints = random.Random(seed).sample(piece.joints, len(piece.joints))
    pushes: dict[str, Vector] = {}
    pairs: set[Names] = set()
    still: set[str] = set()
    for joint in joints:
        touching = [c for c in joint.contacts if c.gap == 0.0 and c.points]
        if len(pushes) == most or not touching:
            continue
        if joint.first in still | pushes.keys() or joint.second in pushes:
            continue
        pushes[joint.first] = scaled(touching[0].toward, -deep)
        still |= {n for j in piece.joints if joint.first in (j.first, j.second) for n in (j.first, j.second)}
        still.discard(joint.first)
        first, second = sorted((joint.first, joint.second))
        pairs.add((first, second))
    other = copy.copy(piece)
    other.parts = {
        name: replace(p, at=p.at.moved(*pushes[name])) if name in pushes else p for name, p in piece.parts.items()
    }
    return Planted(other, frozenset(pairs), frozenset(pushes))
