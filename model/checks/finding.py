"""What a check has to say: findings, and proofs of what it found in order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any, Literal

from model.in_units import in_units
from model.placement import Vector

#: fault: do not cut; caution: decide; note: know.
Severity = Literal["fault", "caution", "note"]


def listed(names: Sequence[str], most: int | None = None) -> str:
    """Names in a sentence; of more than `most` the first, and how many more there are.

    >>> listed(["seat", "floor", "hatch"]), listed(["seat", "floor", "hatch"], 2)
    ('seat, floor and hatch', 'seat and 2 more')
    """
    if most is not None and len(names) > most:
        return f"{', '.join(names[: most - 1])} and {len(names) - most + 1} more"
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else names[0]


@dataclass(frozen=True)
class Finding:
    """One thing found: `value` against `limit`, both in `unit`, the limit with its source; `where` in the piece, mm."""

    check: str
    severity: Severity
    parts: tuple[str, ...]
    message: str
    value: float
    limit: float
    unit: str
    source: str
    where: Vector | None = None

    def in_units(self, units: str) -> Finding:
        """Its sentence and source in an order's units; value and limit stay as they were measured."""
        return replace(self, message=in_units(self.message, units), source=in_units(self.source, units))

    def as_dict(self) -> dict[str, Any]:
        """As it stands in report.json."""
        plain = {
            "check": self.check,
            "severity": self.severity,
            "parts": list(self.parts),
            "message": self.message,
            "value": round(self.value, 6),
            "limit": round(self.limit, 6),
            "unit": self.unit,
            "source": self.source,
        }
        return plain if self.where is None else {**plain, "where": [round(c, 3) for c in self.where]}


@dataclass(frozen=True)
class Proof:
    """What was proved: how many things were looked at, and how many of them held."""

    what: str
    checked: int
    held: int


@dataclass(frozen=True)
class Answer:
    """What one check found and proved; figures: what it measured by the way, by the names that the report gives
    them."""

    findings: tuple[Finding, ...] = ()
    proofs: tuple[Proof, ...] = ()
    figures: Mapping[str, Any] = field(default_factory=dict)

    def in_units(self, units: str) -> Answer:
        """The same, its findings told in an order's units."""
        return replace(self, findings=tuple(f.in_units(units) for f in self.findings))
