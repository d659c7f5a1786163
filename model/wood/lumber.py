"""What must be bought for a wanted size, and how much of it is paid for?

Sizes in lumber.csv: softwoods as dressed dry, American Softwood Lumber Standard PS 20-20 Table 3; hardwood
quarters surfaced two sides, NHLA Rules for the Measurement and Inspection of Hardwood and Cypress; plywood,
PS 1-22 performance categories; all as cited by secondary sources (10/4 hardwood is from memory). Millimetres
where a name says so or where a finished size is meant; inches and feet only where the trade's own rule counts
in them.
"""

import csv
import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from model.errors import DesignError, OrderError

MM_PER_INCH = 25.4
MM_PER_FOOT = 304.8

#: How many mm too thin may stock be before the next size is taken? 3/4 in (19.05 mm) serves for 19.1.
ROUNDED = 0.06


@dataclass(frozen=True)
class Nominal:
    """A thickness as the yard names it: `text` ("4/4", "1 1/4"), in `inches`, and what it dresses to [mm]."""

    text: str
    inches: float
    dressed_mm: float


@dataclass(frozen=True)
class Dressed:
    """Least planed size of dry softwood lumber [mm]."""

    thickness: float
    width: float


@dataclass(frozen=True)
class Plywood:
    """A plywood performance category ("23/32"): thickness on its label, least and most allowed [mm]."""

    category: str
    thickness: float
    least: float
    most: float


@dataclass(frozen=True)
class Allowances:
    """What is cut off a rough piece on the way to its finished size [mm]."""

    length: float
    width: float


#: Common practice: 25 mm for squaring the ends, 6 mm for ripping and jointing.
COMMON_PRACTICE = Allowances(length=25.0, width=6.0)


@dataclass(frozen=True)
class Rough:
    """The stock to cut for one finished piece: length and width [mm], and the thickness to ask for."""

    length: float
    width: float
    nominal: Nominal

    @property
    def board_feet(self) -> float:
        """Board feet of this rough piece, unrounded."""
        return board_feet(self.length, self.width, self.nominal.inches)


@dataclass(frozen=True)
class _Size:
    """One row of lumber.csv [in]; plywood alone has limits."""

    kind: str
    axis: str
    text: str
    nominal: float
    dressed: float
    least: float | None
    most: float | None


def dressed(nominal_thickness: float, nominal_width: float) -> Dressed:
    """Least dressed size of dry softwood of this nominal size [in]: a 2 by 4 is 38.1 by 88.9 mm.

    Dry is 19 % moisture content or less. PS 20-20 Table 3: boards under 2 in thick, dimension lumber
    2 to 4 1/2, timbers 5 and over.

    Raises:
        OrderError: the standard has no such nominal size; the message lists those it has.
    """
    _require_positive("nominal thickness", nominal_thickness, "in")
    _require_positive("nominal width", nominal_width, "in")
    if nominal_thickness >= 5 and nominal_width >= 5:
        return Dressed(_timber(nominal_thickness), _timber(nominal_width))
    kind = "board" if nominal_thickness < 2 else "dimension"
    return Dressed(_dressed(kind, "thickness", nominal_thickness), _dressed(kind, "width", nominal_width))


def nominal_thickness_for(finished_mm: float, hardwood: bool) -> Nominal:
    """The thinnest nominal stock that dresses to this finished thickness [mm] or more.

    Hardwood in quarters, surfaced two sides; softwood as boards and dimension lumber. A size up to 0.06 mm
    over is taken as rounded from inches.

    Raises:
        OrderError: the thickness is not a positive number.
        DesignError: no single board is that thick.

    >>> nominal_thickness_for(19, hardwood=False).text
    '1'
    >>> nominal_thickness_for(20.6, hardwood=True).text
    '4/4'
    """
    _require_positive("finished thickness", finished_mm, "mm")
    choices = nominal_thicknesses(hardwood)
    for nominal in choices:
        if nominal.dressed_mm >= finished_mm - ROUNDED:
            return nominal
    raise DesignError(
        f"no {'hardwood' if hardwood else 'softwood'} board dresses to {finished_mm:g} mm; "
        f"the thickest, {choices[-1].text}, gives {choices[-1].dressed_mm:.1f} mm: "
        f"laminate it from thinner boards"
    )


def nominal_thicknesses(hardwood: bool) -> tuple[Nominal, ...]:
    """Every thickness a yard sells, thinnest first."""
    kinds = ("hardwood",) if hardwood else ("board", "dimension")
    return tuple(
        Nominal(size.text, size.nominal, size.dressed * MM_PER_INCH)
        for kind in kinds
        for size in _sizes(kind, "thickness")
    )


def plywood_categories() -> tuple[Plywood, ...]:
    """Unsanded, touch-sanded and overlaid structural plywood, PS 1-22, thinnest first."""
    return tuple(
        Plywood(size.text, size.dressed * MM_PER_INCH, size.least * MM_PER_INCH, size.most * MM_PER_INCH)
        for size in _sizes("plywood", "thickness")
        if size.least is not None and size.most is not None
    )


def plywood(category: str) -> Plywood:
    """Plywood by its performance category, "3/4" or "23/32".

    Raises:
        OrderError: PS 1 has no such category; the message lists those it has.
    """
    by_category = {sheet.category: sheet for sheet in plywood_categories()}
    try:
        return by_category[category.strip().removesuffix("in").rstrip()]
    except KeyError:
        raise OrderError(f'no plywood category "{category}"; PS 1 has {", ".join(by_category)} (inches)') from None


def board_feet(length_mm: float, width_mm: float, nominal_thickness_in: float) -> float:
    """Board feet of one piece, unrounded: W [in] x L [ft] x T [in] / 12; T under 1 in counts as 1 in.

    The rule of the trade (NHLA Rules, as explained by the American Hardwood Export Council). For what a
    yard bills from its tally see `surface_measure`.

    Raises:
        OrderError: a size is not a positive number.
    """
    _require_positive("length", length_mm, "mm")
    _require_positive("width", width_mm, "mm")
    return (width_mm / MM_PER_INCH) * (length_mm / MM_PER_FOOT) * _counted(nominal_thickness_in) / 12


def surface_measure(width_in: float, length_ft: float) -> int:
    """Surface measure of a hardwood board in whole square feet: W [in] x L [ft] / 12 to the nearest.

    NHLA Rules: the width is taken with its fraction, the length rounded down to whole feet. An
    exact half goes to the even foot: our choice, where a tallyman would go up and down by turns.

    Raises:
        OrderError: a size is not a positive number.
    """
    _require_positive("width", width_in, "in")
    return round(width_in * tally_length(length_ft) / 12)


def bundle_board_feet(surface_measures: Iterable[int], nominal_thickness_in: float) -> int:
    """Board feet billed for boards of one thickness: the sum of their surface measures times T [in], rounded.

    NHLA Rules. T under 1 in counts as 1 in.
    """
    return round(sum(surface_measures) * _counted(nominal_thickness_in))


def tally_length(length_ft: float) -> int:
    """Length as tallied: rounded down to whole feet (NHLA Rules).

    Raises:
        OrderError: the length is not a positive number.
    """
    _require_positive("length", length_ft, "ft")
    return math.floor(length_ft)


def tally_widths(widths_in: Iterable[float]) -> list[int]:
    """Widths as tallied in a bundle: nearest whole inch, exact halves by turns up and down (NHLA Rules)."""
    tallied, up = [], True
    for width in widths_in:
        whole = math.floor(width)
        if width - whole == 0.5:
            tallied.append(whole + up)
            up = not up
        else:
            tallied.append(round(width))
    return tallied


def rough_size(
    length: float,
    width: float,
    thickness: float,
    *,
    hardwood: bool,
    allowances: Allowances = COMMON_PRACTICE,
) -> Rough:
    """The rough piece to cut for a finished one [mm]: larger by the allowances, in a nominal thickness.

    Raises:
        OrderError: a size is not a positive number.
        DesignError: no single board is thick enough.
    """
    _require_positive("finished length", length, "mm")
    _require_positive("finished width", width, "mm")
    return Rough(length + allowances.length, width + allowances.width, nominal_thickness_for(thickness, hardwood))


def _counted(nominal_thickness_in: float) -> float:
    _require_positive("nominal thickness", nominal_thickness_in, "in")
    return max(1.0, nominal_thickness_in)


def _timber(nominal: float) -> float:
    """Dressed size of a timber [mm]: 1/2 in under nominal to 6 in, 3/4 in to 15 in, 1 in from 16 in."""
    less = 0.5 if nominal < 7 else 0.75 if nominal < 16 else 1.0
    return (nominal - less) * MM_PER_INCH


def _dressed(kind: str, axis: str, nominal: float) -> float:
    sizes = _sizes(kind, axis)
    for size in sizes:
        if size.nominal == nominal:
            return size.dressed * MM_PER_INCH
    raise OrderError(
        f"no softwood {kind} has a nominal {axis} of {nominal:g} in; PS 20 has {', '.join(size.text for size in sizes)}"
    )


def _require_positive(what: str, value: float, unit: str) -> None:
    if not (math.isfinite(value) and value > 0):
        raise OrderError(f"{what} is {value:g} {unit}; it must be more than 0")


@cache
def _sizes(kind: str, axis: str) -> tuple[_Size, ...]:
    return tuple(size for size in _table() if (size.kind, size.axis) == (kind, axis))


@cache
def _table() -> tuple[_Size, ...]:
    text = files("model.wood").joinpath("lumber.csv").read_text(encoding="utf-8")
    return tuple(
        _Size(
            row["kind"],
            row["axis"],
            row["nominal"],
            float(row["nominal_in"]),
            float(row["dressed_in"]),
            _limit(row["least_in"]),
            _limit(row["most_in"]),
        )
        for row in csv.DictReader(text.splitlines())
    )


def _limit(text: str) -> float | None:
    return float(text) if text else None
