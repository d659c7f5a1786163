"""The solids as witness: what they say to a number's meaning, found and measured by their own faces and edges."""

from __future__ import annotations

import math
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

    from drawings.proof.measurable import Measurable


class Witness:
    """A piece's solids, and what has been found on them already. Loads the CAD kernel.

    shapes: the solids where they stand, by name (`model.solids.standing`).
    """

    def __init__(self, piece: Piece, shapes: dict[str, cq.Shape]) -> None:
        self._piece = piece
        self._shapes = shapes
        self._features: Callable[[Shown], Features] = cache(self._seen)
        self._solid: Callable[[str], cq.Shape] = cache(self._flat)
        self._alone: Callable[[str, int], cq.Shape] = cache(self._with)

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

    def size(self, name: str, wanted: float, cut: int | None = None) -> float:
        """The size of a part, as its solid has it, nearest to the one wanted, mm; cut: with this of its cuts alone."""
        from drawings.proof.part_sizes import nearest, sizes

        return nearest(sizes(self._own(name, cut)), wanted)

    def along(self, name: str, wanted: float, cut: int | None = None) -> float:
        """How far something lies from a corner of a part, along an edge, that is nearest to the distance wanted, mm."""
        from drawings.proof.part_sizes import alongs, nearest

        return nearest(alongs(self._own(name, cut)), wanted)

    def lean(self, name: str, wanted: float, cut: int | None = None) -> float:
        """The angle at which something of a part leans that is nearest to the one wanted, degrees."""
        from drawings.proof.part_sizes import angles, nearest

        return nearest(angles(self._own(name, cut)), wanted)

    def bend(self, name: str, wanted: float, cut: int | None = None) -> float:
        """The radius of a part's round faces, where it stands, nearest to the one wanted, mm; infinite for none."""
        from drawings.proof.measurable import measurable

        radii = (c.radius for c in measurable(self._shapes[name]).cylinders)
        return min(radii, key=lambda r: abs(r - wanted), default=math.inf)

    def _own(self, name: str, cut: int | None) -> Measurable:
        """A part's solid, flat, with all of its cuts or one, as plain numbers."""
        from drawings.proof.measurable import measurable

        return measurable(self._solid(name) if cut is None else self._alone(name, cut))

    def volume(self, name: str) -> float:
        """Of a part as it is cut, mm3."""
        return float(self._solid(name).Volume())

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

    def _with(self, name: str, cut: int) -> cq.Shape:
        """A part's blank with one of its cuts."""
        from model.solids import solid

        wood = self._piece[name].wood
        return solid(replace(wood, bend=None, cuts=(wood.cuts[cut],)))
