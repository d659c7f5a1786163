"""The report of a run: what was found, what was proved, and the figures; as JSON and as a page to read."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import jinja2
from markupsafe import Markup

from drawings.folder import write_json
from model.checks.dry_fit import fits
from model.checks.finding import Answer
from model.in_units import size_in_units
from model.lengths import INCH_UNITS
from model.order import Order
from model.piece import Piece

_PAGE = Path(__file__).with_name("report_page") / "report.html"

#: What each severity asks of the maker.
VERDICTS = {"fault": "fault: do not cut", "caution": "caution: decide", "note": "note"}


@dataclass(frozen=True)
class Report:
    """What the two forms of the report are made from; close_ups: an SVG of the place, by the finding's number."""

    order: Order
    piece: Piece
    answer: Answer
    figures: Mapping[str, Any]
    close_ups: Mapping[int, str] = field(default_factory=dict)


def as_dict(report: Report) -> dict[str, Any]:
    """report.json, as contracted."""
    return {
        "order": report.order.name,
        "piece": report.order.piece,
        "fits": fits(report.answer),
        "findings": [f.as_dict() for f in report.answer.findings],
        "proofs": [{"what": p.what, "checked": p.checked, "held": p.held} for p in report.answer.proofs],
        "figures": dict(report.figures),
    }


def write_report_json(report: Report, path: Path) -> None:
    write_json(path, as_dict(report))


def write_report_page(report: Report, pictures: Sequence[tuple[str, str]], path: Path) -> None:
    """One page to read, opening offline. pictures: (caption, SVG text), largest first."""
    environment = jinja2.Environment(autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True)
    page = environment.from_string(_PAGE.read_text(encoding="utf-8")).render(
        order=report.order,
        piece=report.piece,
        fits=fits(report.answer),
        counts=Counter(f.severity for f in report.answer.findings),
        verdicts=VERDICTS,
        answer=report.answer,
        figures=_in_words(report),
        clearances=report.figures.get("clearances", ()),
        sized=lambda value, unit: size_in_units(value, unit, report.order.units),
        close_ups={n: Markup(svg) for n, svg in report.close_ups.items()},
        pictures=[(caption, Markup(svg)) for caption, svg in pictures],
    )
    path.write_text(page, encoding="utf-8", newline="\n")


def _in_words(report: Report) -> list[tuple[str, str]]:
    """The figures a client and a maker ask for first."""
    f = report.figures
    return [
        ("Overall", str(f["overall"])),
        ("Parts", f"{f['parts']}, of {f['distinct_parts']} kinds"),
        ("Joints", str(f["joints"])),
        ("Hardware", f"{f['hardware']} items"),
        ("Weight of the wood", _weight(f["mass_kg"], report.order.units)),
        ("Lumber", f"{f['board_feet']:.1f} board feet, rough, before waste"),
        *_builds(f),
    ]


def _weight(kg: float, units: str) -> str:
    """In pounds where lengths are in inches; the international pound is 0.45359237 kg."""
    return f"about {kg / 0.45359237:.0f} lb" if units in INCH_UNITS else f"about {kg:.1f} kg"


def _builds(f: Mapping[str, Any]) -> list[tuple[str, str]]:
    """How often it goes together, where it has fits to ask of."""
    if "builds_that_go_together" not in f:
        return []
    by_rule = f["builds_that_go_together_by_the_rule"]
    told = f"in {f['builds_that_go_together']:.0f} builds of 100, in {by_rule:.0f} without marking from the work"
    return [("Goes together", told)]
