"""The proof pass: every number on the written sheets, measured again on the solids it was printed for.

Dimensions and figures (the numbers of tables, cards and lists) are counted apart, and so are those in words and the
counts and references (`drawings/proof/census.py`). A number that differs from the solid by more than half its last
place, or that says nothing it can be held against, is our own mistake.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from drawings.proof.census import census
from drawings.proof.ground import Ground
from drawings.proof.held import not_held
from drawings.proof.numbered import Run, broken_runs
from drawings.proof.readings import Reading, readings_of
from drawings.proof.said import said_in
from drawings.proof.witness import Witness
from drawings.proof.written_dxf import WrittenDxf
from model.checks.finding import Answer, Finding, Proof
from model.errors import LengthError
from model.order import Order
from model.piece import Piece

if TYPE_CHECKING:
    import cadquery as cq

#: The kinds of printed numbers: those measured as a whole, and how the others are accounted for.
Kind = Literal["dimension", "figure", "in words", "counted", "looked up", "stated"]

#: How far a dimension may be drawn from what it measures, mm of the model: the DXF's own digits.
_DRAWN = 1e-3

#: What is proved of which numbers.
_WHAT: Mapping[Kind, str] = {
    "dimension": "printed dimensions measured on the solids",
    "figure": "printed figures of tables, cards and lists measured on the solids",
    "in words": "printed numbers in words measured on the solids",
    "counted": "printed counts and places in lists counted again in the piece",
    "looked up": "printed references found where they refer to",
    "stated": "printed numbers stated, not measured: as the order, the stock or a check has them",
}
#: Why a printed number is held to the model.
_RULE = "a printed number is within half its last place of the solid, and says what it is (our own rule)"


@dataclass(frozen=True)
class Complaint:
    """A printed number that is not proven: on which sheet, of which kind, what it prints and why."""

    file: str
    kind: Kind
    text: str
    why: str

    def __str__(self) -> str:
        return f'{self.file}: "{self.text}" {self.why}'


@dataclass(frozen=True)
class Proved:
    """How many numbers of each kind were checked, a complaint for each that was not proven, and the sheets' lists."""

    checked: Mapping[Kind, int]
    complaints: tuple[Complaint, ...]
    runs: tuple[Run, ...]

    def of(self, kind: Kind) -> Proof:
        """How many of a kind held."""
        checked = self.checked.get(kind, 0)
        return Proof(_WHAT[kind], checked, checked - sum(c.kind == kind for c in self.complaints))

    @property
    def dimensions(self) -> Proof:
        return self.of("dimension")

    @property
    def figures(self) -> Proof:
        return self.of("figure")


def numbers_proof(piece: Piece, order: Order, files: Iterable[Path], shapes: dict[str, cq.Shape]) -> Proved:
    """Every number on the sheets in `files`, their DXF, held against the solids and the piece. Loads the CAD kernel.

    shapes: the solids where they stand, by name (`model.solids.standing`). Raises ValueError for a file that is no DXF.
    """
    ground = Ground(piece, order, Witness(piece, shapes))
    checked, complaints, runs = Counter[Kind](), list[Complaint](), list[Run]()
    for path in files:
        written = WrittenDxf(path)
        found = list(readings_of(written, path.name))
        explained = any(not r.dimension for r in found)
        for reading in (r for r in found if not (r.symbol and explained)):
            checked[_kind(reading)] += 1
            complaints += [c for c in [_complaint(reading, ground)] if c]
        counted = census(list(said_in(written, path.name)), found, ground)
        checked.update(counted.checked)
        complaints += [Complaint(path.name, u.account, u.said.text, u.why) for u in counted.unaccounted]
        runs += counted.runs
    return Proved(checked, tuple(complaints), tuple(runs))


def numbers_answer(proved: Sequence[Proved], whole: bool = False) -> Answer:
    """The proofs of several lots of sheets added up; a fault for each number that is wrong or could not be proven:
    either is our own mistake, and nobody should cut by it. whole: they are all sheets of a set, whose lists must be
    whole too."""
    wrong = [str(c) for one in proved for c in one.complaints]
    wrong += broken_runs(run for one in proved for run in one.runs) if whole else []
    findings = (Finding("numbers", "fault", (), why, 1.0, 0.0, "", _RULE) for why in wrong)
    return Answer(tuple(findings), tuple(_added(one.of(kind) for one in proved) for kind in _WHAT))


def _added(proofs: Iterable[Proof]) -> Proof:
    each = list(proofs)
    return Proof(each[0].what, sum(p.checked for p in each), sum(p.held for p in each))


def _kind(reading: Reading) -> Kind:
    return "dimension" if reading.dimension else "figure"


def _complaint(reading: Reading, ground: Ground) -> Complaint | None:
    """Why a printed number does not hold; None if it does."""

    def told(why: str) -> Complaint:
        return Complaint(reading.file, _kind(reading), reading.text, why)

    if not reading.meanings:
        return told("does not say what it measures")
    try:
        values = reading.values(ground.order.units)
    except LengthError:
        return told("can't be read as a length")
    sign: Callable[[float], float] = abs if reading.dimension else float
    wrong = not_held(values, reading.meanings, ground.witness, ground.order, sign) or _drawn(reading)
    return told(wrong) if wrong else None


def _drawn(reading: Reading) -> str | None:
    """Is the drawn distance what the points are apart?"""
    m = reading.measured
    if m is None or reading.drawn is None:
        return None
    apart = abs((m.q[0] - m.p[0]) * m.along[0] + (m.q[1] - m.p[1]) * m.along[1])
    return (
        None
        if abs(apart - reading.drawn) <= _DRAWN
        else f"is drawn {reading.drawn:.3f} long, but stands for {apart:.3f}"
    )
