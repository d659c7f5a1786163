"""Which cuts a setting makes: where each is among its part's cuts, and what the spacing of a row measures."""

from __future__ import annotations

from collections.abc import Iterable

from drawings.lists.bore_rows import BoreRow
from drawings.lists.distinct import Distinct
from drawings.lists.setups import Made, Setup
from drawings.paper.measured import Measured, Shown


def place_of(made: Made, distinct: Distinct) -> str:
    """The places of a cut, or of all bores of a row, among the cuts of its part, and which of its settings it is."""
    wood = distinct.wood
    cuts = made.cut.bores if isinstance(made.cut, BoreRow) else (made.cut,)
    places = [str(wood.cuts.index(cut)) for cut in cuts] if wood else []
    return f"{','.join(places)}:{made.nth}"


def spaced(rows: Iterable[Setup]) -> tuple[Measured, ...]:
    """How far apart the first two bores of each row are, on every part that has one."""
    found: dict[Measured, None] = {}
    for made in (m for row in rows for m in row.made):
        if isinstance(made.cut, BoreRow):
            (x, y, _), (far, _, _) = (bore.at for bore in made.cut.bores[:2])
            found[Shown((made.name,)).length((x, y), (far, y), (1.0, 0.0))] = None
    return tuple(found)
