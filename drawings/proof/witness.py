"""The solids as witness: what they say to a number's meaning, found and measured by their own faces and edges."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

from drawings.paper.measured import Measured, Shown, Vector
from drawings.proof.features import Features, together
from model.part import Part
from model.piece import Piece
from model.placement import added, scaled

if TYPE_CHECKING:
    import cadquery as cq


class Witness:
    """A piece's solids, and what has been found on them already. Loads the CAD kernel.

    shapes: the solids where they stand, by name (`model.solids.standing`).
    """

    def __init__(self, piece: Piece, shapes: dict[str, cq.Shape]) -> None:
        self._piece = piece
        self._shapes = shapes
        self._features: Callable[[Shown], Features] = cache(self._seen)
        self._solid: Callable[[str], cq.Shape] = cache(self._flat)

    def measure(self, m: Measured) -> Iterator[float]:
        """What the solid itself has to say, mm or degrees; nothing where the features are not found."""
        if m.kind == "extent":
            yield self._extent(m.shown, m.along)
            return
        found = self._features(m.shown)
        if m.kind == "angle":
            turned = found.angle(m.p, *m.along)
            yield from () if turned is None else (turned,)
        elif m.kind == "length":
            strict = bool(m.shown.subjects)
            p, q = found.station(m.p, m.along, strict), found.station(m.q, m.along, strict)
            yield from () if p is None or q is None else (q - p,)
        elif m.kind == "depth":
            yield from found.depths(m.p, m.along[0])
        elif m.kind in ("height", "station"):
            ordinate = found.ordinate((m.p, m.q), m.along)
            yield from () if ordinate is None else (ordinate[m.kind == "height"],)
        else:
            yield from (r * (2 if m.kind == "diameter" else 1) for r in found.radii(m.p))

    def _extent(self, shown: Shown, along: tuple[float, float]) -> float:
        from drawings.proof.measurable import extent

        way: Vector = added(scaled(shown.right, along[0]), scaled(shown.up, along[1]))
        return extent(self._solids(shown), way)

    def _seen(self, shown: Shown) -> Features:
        from drawings.proof.measurable import measurable
        from drawings.proof.sectioned import cut_features
        from drawings.proof.seen import seen_features

        if shown.at is not None:
            return together(cut_features(s, shown) for s in self._solids(shown))
        return together(seen_features(measurable(s), shown) for s in self._solids(shown))

    def _solids(self, shown: Shown) -> list[cq.Shape]:
        """The part as it is cut, flat; or everything where it stands."""
        if not shown.subjects:
            return list(self._shapes.values())
        return [self._solid(name) for name in shown.subjects]

    def _flat(self, name: str) -> cq.Shape:
        from model.solids import solid

        part = self._piece[name].part
        return solid(replace(part, bend=None) if isinstance(part, Part) and part.bend else part)
