"""What every cut has in common, and the blank it is made in."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from model.cuts.removal import Removal
from model.errors import CutError
from model.layout.outline import Outline

Side = Literal["face", "back"]

_MIRRORED_EDGES = {"near": "far", "far": "near"}


def mirrored_edge(name: str) -> str:
    """The name an edge bears on the mirror image: near and far change places, other names stay."""
    return _MIRRORED_EDGES.get(name, name)


@dataclass(frozen=True)
class Blank:
    """The wood before its cuts, mm: the outline it is sawn to, in the part's own frame, and its stock's sizes."""

    outline: Outline
    width: float
    thickness: float


@dataclass(frozen=True)
class Footprint:
    """A cut as a CNC router sees it from one side: where, how deep, and whether it goes right through."""

    outline: Outline
    side: Side
    depth: float
    through: bool = False


class Cut(ABC):
    """One named cut in a part, in the part's own frame: x along the grain, y across, z from back side to face."""

    @property
    def name(self) -> str:
        """The trade's name of the cut, for lists and drawings."""
        return type(self).__name__.lower()

    @abstractmethod
    def removals(self, blank: Blank) -> Iterable[Removal]:
        """What it takes away."""

    @abstractmethod
    def mirrored(self, blank: Blank) -> Cut:
        """The same cut in the mirror image (y' = width - y) of a part made from this blank."""

    @abstractmethod
    def check(self, blank: Blank) -> None:
        """Raises CutError if it can't be made in this blank."""

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        """What of it a router cuts from above or below; nothing for work on the edges."""
        return ()


def positive(what: str, **sizes: float) -> None:
    """Raises CutError for a size that is not more than zero."""
    for name, size in sizes.items():
        if not size > 0:
            raise CutError(f"the {what}'s {name} is {size:g} mm; it must be more than zero")


def shallower(what: str, depth: float, thickness: float) -> None:
    """Raises CutError for a cut that would come through the stock."""
    if depth >= thickness:
        raise CutError(
            f"a {what} {depth:g} mm deep would come through stock {thickness:g} mm thick; "
            f"half the stock, {thickness / 2:g} mm, is common practice"
        )
