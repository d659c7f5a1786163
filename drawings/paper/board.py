"""The board that a sheet is composed on: the sheet itself, or for inches a smaller one that is enlarged to it.

All lettering, arrows and gaps are laid out by ISO 3098's heights: 2.5 mm for figures and notes, 5 for letters of
sections. ASME Y14.2 asks for 0.12 in (3 mm) and 0.24 in (6 mm) there (its Table 1, from memory and as drawing programs
in public repositories cite it). Both are 1.2 times ISO's, and so a set in inches is composed on a board 1.2 times
smaller than its sheet, and enlarged. Line widths are not.
"""

from __future__ import annotations

from dataclasses import replace

from drawings.paper.page import paper
from drawings.paper.sheet import Paper
from model.lengths import INCH_UNITS

#: ASME Y14.2's least lettering over ISO 3098's: 3 mm over 2.5 (0.12 in is 3.05 mm as inches, 3 as Y14.2 writes it).
_INCHES_OVER_ISO = 3.05 / 2.5


def enlargement(units: str) -> float:
    """How many times larger than on its board a sheet in these units is."""
    return _INCHES_OVER_ISO if units in INCH_UNITS else 1.0


def board(name: str, units: str) -> Paper:
    """The board for sheets on a paper, with lengths in these units. Raises KeyError for an unknown paper."""
    sheet, by = paper(name), enlargement(units)
    return replace(
        sheet,
        width=sheet.width / by,
        height=sheet.height / by,
        filing_edge=sheet.filing_edge / by,
        edge=sheet.edge / by,
        enlarged=by,
    )
