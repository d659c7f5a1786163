"""Reading and printing lengths: millimetres inside, whatever the shop speaks outside.

Reading takes `1480`, `47 cm`, `1.2 m`, `2.5 in`, `14 7/8"`, `⅞″`, `10' 8"`, `10'-8 1/2"` and the like, and
refuses anything it would have to guess at. Printing rounds to a fraction or a decimal and always knows by how
much. Arithmetic is exact (rational) up to the last step, so that a printed multiple reads back as the same
number.
"""

import math
import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from model.errors import LengthError
from model.tolerance import SAME_POINT

#: One inch is 25.4 mm exactly (international yard and pound agreement, 1959).
INCH = Fraction(254, 10)
FOOT = 12 * INCH

#: Units a bare number can be in, and units a length can be printed in; millimetres in each.
#: "in" prints fractions, "in.dec" decimal inches, "ft-in" feet and inches from one foot up.
UNITS = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": INCH,
    "in.dec": INCH,
    "ft-in": INCH,
}

#: Those of the US trade.
INCH_UNITS = frozenset(unit for unit, mm in UNITS.items() if mm == INCH)

#: Longer than this (1 km) is a slip of the pen, not furniture. Millimetres.
LONGEST = 1_000_000

#: Denominators found on a rule.
DENOMINATORS = (1, 2, 4, 8, 16, 32, 64, 128)

_DECIMALS = {"mm": 1, "cm": 2, "m": 4, "in.dec": 3}
_SUFFIX = {"mm": "", "cm": " cm", "m": " m", "in.dec": '"'}
_REMEDY = "write 1480, 47 cm, 14 7/8 in or 10' 8\""

_FEET_MARK = r"(?:'|ft\.?|foot|feet)"
_INCH_MARK = r"(?:\"|inches|inch|in\.?)"
_SUFFIXES = {
    re.compile(r"mm"): Fraction(1),
    re.compile(r"cm"): Fraction(10),
    re.compile(r"m"): Fraction(1000),
    re.compile(_INCH_MARK): INCH,
    re.compile(_FEET_MARK): FOOT,
}
_NUMBER = r"(?:[0-9]+(?: - |[ -]))?[0-9]+ ?/ ?[0-9]+|[0-9]+\.?[0-9]*|\.[0-9]+"
_ONE_UNIT = re.compile(rf"(?P<number>{_NUMBER}) ?(?P<suffix>[a-z]+\.?|['\"])?")
_FEET_AND_INCHES = re.compile(rf"(?P<feet>[0-9]+) ?{_FEET_MARK}(?: ?- ?| ?)(?P<inches>{_NUMBER}) ?{_INCH_MARK}")
_PLAIN_SIGNS = str.maketrans("′’‘″”“⁄∕−–‑", "'''\"\"\"//---")
_LONGEST_TEXT = 60


def parse_length(text: str | int | float, unit: str = "mm") -> float:
    """Read a length, in millimetres.

    A bare number is in `unit` (a key of `UNITS`). A bare fraction is read only when `unit` is inches: `3/4`
    in a millimetre order is far likelier a forgotten inch mark than three quarters of a millimetre.

    >>> parse_length("10' 8\\"")
    3251.2
    >>> parse_length("14⅞", unit="in")
    377.825
    >>> parse_length("47 cm")
    470.0

    Raises:
        LengthError: what was read, why it can't be a length, and what would be right.
    """
    per_unit = _mm_per(unit)
    mm = _read_text(text, unit) if isinstance(text, str) else _finite(text) * per_unit
    if abs(mm) > LONGEST:
        raise _unreadable(text, f"it is more than {LONGEST // 1000} m")
    return float(mm)


@dataclass(frozen=True)
class Printed:
    """A length as printed: its text, and how far the text is from the length (printed minus true) [mm]."""

    text: str
    error_mm: float

    @property
    def exact(self) -> bool:
        """Whether the text is the length itself, to within `tolerance.SAME_POINT`."""
        return abs(self.error_mm) <= SAME_POINT

    @property
    def marked(self) -> str:
        """The text, with ≈ before it when it was rounded."""
        return self.text if self.exact else f"≈{self.text}"


def printed(
    mm: float,
    unit: str = "mm",
    denominator: int = 16,
    feet_above: float | None = None,
    decimals: int | None = None,
) -> Printed:
    """Print a length and say what the rounding cost.

    Args:
        mm: the length [mm].
        unit: a key of `UNITS`. Millimetres print bare, to keep drawings quiet; every other unit is shown.
        denominator: inch fractions are the nearest at this denominator, reduced; one of `DENOMINATORS`.
        feet_above: print inches as feet and inches from this many inches up ("ft-in" has 12).
        decimals: most decimals printed, trailing zeros dropped; by default to the nearest 0.1 mm (0.001 in).

    >>> printed(377.825, "in").text
    '14 7/8"'
    >>> printed(300, "ft-in")
    Printed(text='11 13/16"', error_mm=0.0375)

    Raises:
        LengthError: not a finite number, or a unit, denominator or number of decimals that isn't there.
    """
    true, per_unit = _finite(mm), _mm_per(unit)
    if unit in ("in", "ft-in"):
        least_feet = 12 if unit == "ft-in" and feet_above is None else feet_above
        steps = _rounded(true * _rule(denominator) / INCH)
        inches = Fraction(steps, denominator)
        return Printed(_inches_text(inches, least_feet), float(inches * INCH - true))
    places = _places(_DECIMALS[unit] if decimals is None else decimals)
    value = Fraction(_rounded(true / per_unit * 10**places), 10**places)
    return Printed(_decimal_text(value, places) + _SUFFIX[unit], float(value * per_unit - true))


def format_length(
    mm: float,
    unit: str = "mm",
    denominator: int = 16,
    feet_above: float | None = None,
    decimals: int | None = None,
    mark_rounding: bool = False,
) -> str:
    """The text of `printed`, with the same arguments; `mark_rounding` puts ≈ before a text that was rounded.

    >>> format_length(1480), format_length(9.5), format_length(3251.2, "ft-in")
    ('1480', '9.5', '10\\' 8"')
    >>> format_length(19, "in", mark_rounding=True)
    '≈3/4"'

    Raises:
        LengthError: as `printed`.
    """
    result = printed(mm, unit, denominator, feet_above, decimals)
    return result.marked if mark_rounding else result.text


def _read_text(text: str, unit: str) -> Fraction:
    plain = _plain(text)
    negative = plain.startswith("-")
    unsigned = plain.removeprefix("-").lstrip()
    if both := _FEET_AND_INCHES.fullmatch(unsigned):
        mm = _feet_and_inches(text, both["feet"], both["inches"])
    elif one := _ONE_UNIT.fullmatch(unsigned):
        mm = _number(text, one["number"]) * _suffix_mm(text, one["number"], one["suffix"], unit)
    else:
        raise _unreadable(text, _reason(plain))
    return -mm if negative else mm


def _plain(text: str) -> str:
    """The text in plain signs: fractions, primes, quotes, dashes and spaces made ASCII, case dropped."""
    if len(text) > _LONGEST_TEXT:
        raise _unreadable(text)
    spelled = "".join(_spelled_fraction(sign) for sign in text).translate(_PLAIN_SIGNS)
    return " ".join(spelled.split()).replace("''", '"').lower()


def _spelled_fraction(sign: str) -> str:
    """`⅞` as ` 7⁄8`; the space keeps `14⅞` from becoming 147/8."""
    is_fraction = unicodedata.decomposition(sign).startswith("<fraction>")
    return " " + unicodedata.normalize("NFKC", sign) if is_fraction else sign


def _feet_and_inches(text: str, feet: str, inches: str) -> Fraction:
    loose = _number(text, inches)
    if loose >= 12:
        raise _unreadable(text, "inches after feet are fewer than 12")
    return int(feet) * FOOT + loose * INCH


def _number(text: str, number: str) -> Fraction:
    """`14.875`, `7/8`, `14 7/8` or `14-7/8`, exactly."""
    if "/" not in number:
        return Fraction(number.rstrip("."))
    whole, top, bottom = _fraction_pieces(number)
    if bottom == 0:
        raise _unreadable(text, "a fraction can't be over 0")
    if whole is not None and top >= bottom:
        raise _unreadable(text, "a fraction after a whole number is less than 1")
    return (whole or 0) + Fraction(top, bottom)


def _fraction_pieces(number: str) -> tuple[int | None, int, int]:
    *whole, top, bottom = (int(digits) for digits in re.findall(r"[0-9]+", number))
    return (whole[0] if whole else None), top, bottom


def _suffix_mm(text: str, number: str, suffix: str | None, unit: str) -> Fraction:
    if suffix is None:
        if "/" in number and _mm_per(unit) != INCH:
            raise _unreadable(text, "a fraction needs its unit here")
        return _mm_per(unit)
    for pattern, mm in _SUFFIXES.items():
        if pattern.fullmatch(suffix):
            return mm
    raise _unreadable(text, f'"{suffix}" is not a unit read here')


def _reason(plain: str) -> str:
    if not plain:
        return "it is empty"
    if "," in plain:
        return "a comma is not read; the decimal sign is a point"
    if re.fullmatch(rf".*{_INCH_MARK}.*{_FEET_MARK}", plain):
        return "feet come before inches"
    if re.fullmatch(rf"[0-9]+ ?{_FEET_MARK}[ -]*(?:{_NUMBER})", plain):
        return "the inches after the feet need their mark"
    return ""


def _finite(value: object) -> Fraction:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise _unreadable(value, "it is not a number")
    if not math.isfinite(value):
        raise _unreadable(value, "it is not a finite number")
    return Fraction(value)


def _mm_per(unit: str) -> Fraction:
    if unit not in UNITS:
        raise LengthError(f'"{unit}" is not a unit of length here; the units are {", ".join(UNITS)}')
    return UNITS[unit]


def _rule(denominator: int) -> int:
    if denominator not in DENOMINATORS:
        offered = ", ".join(map(str, DENOMINATORS))
        raise LengthError(f"inches can't be printed in 1/{denominator}; the denominators are {offered}")
    return denominator


def _places(decimals: int) -> int:
    if not 0 <= decimals <= 9:
        raise LengthError(f"a length can't be printed with {decimals} decimals; take 0 to 9")
    return decimals


def _unreadable(read: object, why: str = "") -> LengthError:
    shown = read if isinstance(read, str) else repr(read)
    if len(shown) > _LONGEST_TEXT:
        shown = shown[:_LONGEST_TEXT] + "…"
    because = f" ({why})" if why else ""
    return LengthError(f'can\'t read "{shown}" as a length{because}; {_REMEDY}')


def _rounded(value: Fraction) -> int:
    """The nearest whole number, halves away from zero."""
    nearest = math.floor(abs(value) + Fraction(1, 2))
    return nearest if value >= 0 else -nearest


def _inches_text(inches: Fraction, least_feet: float | None) -> str:
    sign, size = ("-" if inches < 0 else ""), abs(inches)
    if least_feet is None or size < least_feet:
        return f'{sign}{_mixed(size)}"'
    feet, rest = divmod(size, 12)
    return f"{sign}{feet}' {_mixed(rest, leading_zero=True)}\""


def _mixed(size: Fraction, leading_zero: bool = False) -> str:
    whole, part = divmod(size, 1)
    if part == 0:
        return str(whole)
    return f"{whole} {part}" if whole or leading_zero else str(part)


def _decimal_text(value: Fraction, places: int) -> str:
    digits = f"{abs(value) * 10**places}".rjust(places + 1, "0")
    whole, part = digits[: len(digits) - places], digits[len(digits) - places :].rstrip("0")
    sign = "-" if value < 0 else ""
    return f"{sign}{whole}.{part}" if part else f"{sign}{whole}"
