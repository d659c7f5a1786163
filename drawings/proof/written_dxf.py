"""A written DXF read back tag by tag, by a reader that is not the one that wrote it: the entities of its model space.

An ASCII DXF is pairs of lines, a group code and its value (Autodesk, DXF reference, "About the DXF format"). Only what
the proofs ask for is looked into, so that a sheet is read many times faster than a whole drawing is built up.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from drawings.paper.measured import Vector

#: Group codes: whether an entity is in paper space; the application that extended data belongs to, and their least.
_IN_PAPER_SPACE, _APPLICATION, _EXTENDED = 67, "1001", 1000


@dataclass(frozen=True)
class Record:
    """An entity or a table's record: its kind and its tags, group codes and values, in their order."""

    kind: str
    codes: Sequence[str]
    values: Sequence[str]

    def text(self, code: int, otherwise: str = "") -> str:
        """The first value of a group code."""
        wanted = str(code)
        return next((v for c, v in zip(self.codes, self.values, strict=True) if c == wanted), otherwise)

    def number(self, code: int, otherwise: float = 0.0) -> float:
        found = self.text(code)
        return float(found) if found else otherwise

    def point(self, code: int) -> Vector:
        """A point by the group code of its x; y and z have codes 10 and 20 higher."""
        return self.number(code), self.number(code + 10), self.number(code + 20)

    def extended(self, application: str) -> list[tuple[int, str]]:
        """The extended data of an application, without its name."""
        found, own = [], False
        for code, value in zip(self.codes, self.values, strict=True):
            if code == _APPLICATION:
                own = value == application
            elif own and int(code) >= _EXTENDED:
                found.append((int(code), value))
        return found


class WrittenDxf:
    """One file's tags. Raises ValueError for a file that is not pairs of lines."""

    def __init__(self, path: Path) -> None:
        lines = path.read_text(encoding="utf-8").replace("\r\n", "\n").split("\n")
        self._values = lines[1::2]
        self._codes = [code.strip() for code in lines[0 : 2 * len(self._values) : 2]]
        if "EOF" not in self._values[-2:]:
            raise ValueError(f"{path.name} is not a whole DXF file")
        self._starts = [n for n, code in enumerate(self._codes) if code == "0"]

    def entities(self, kinds: Collection[str]) -> Iterator[Record]:
        """Those of the model space, in the order they were written."""
        for record in self._section("ENTITIES", kinds):
            if record.text(_IN_PAPER_SPACE) != "1":
                yield record

    def table_records(self, kind: str) -> Iterator[Record]:
        """The records of one of the tables."""
        yield from self._section("TABLES", (kind,))

    def _section(self, name: str, kinds: Collection[str]) -> Iterator[Record]:
        inside = False
        for start, end in zip(self._starts, [*self._starts[1:], len(self._codes)], strict=True):
            kind = self._values[start]
            if kind == "SECTION":
                inside = self._values[start + 1] == name
            elif inside and kind in kinds:
                yield Record(kind, self._codes[start + 1 : end], self._values[start + 1 : end])
