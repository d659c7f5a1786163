"""How does a sentence said inside, in millimetres, read in the order's units?

Checks and joints measure and speak in millimetres, as everything inside does; so answers can be remembered whatever the
units, and only at the edge is what they say turned into what the maker reads off a rule.
"""

from __future__ import annotations

import re
from collections import Counter

from model.lengths import INCH, INCH_UNITS
from model.written import spoken

_INCH = float(INCH)
#: Shorter lengths are told in thousandths of an inch, as one tells a shaving or a feeler, not in fractions, mm.
FINE = _INCH / 8.0

_NUMBER = r"\d[\d,]*(?:\.\d+)?(?:e-?\d+)?"
#: One size, or several that share their unit: "400 x 1980 mm", "1.2 to 1.4 mm"; but a screw's "No. 10" is none.
_SIZES = re.compile(rf"(?<!No\. )(?<![\w.])({_NUMBER}(?: (?:x|to|or|and) {_NUMBER})*) (mm³|cm³|cm²|mm)(?!\w)")
#: An inch to the power, in the unit that is turned into it.
_CUBED_OR_SQUARED = {"mm³": ("in³", _INCH**3), "cm³": ("in³", 2.54**3), "cm²": ("in²", 2.54**2)}

#: What findings count rather than measure.
COUNTED = ("clamps", "ends", "joints", "legs", "parts", "step")


def size_in_units(value: float, unit: str, units: str) -> str:
    """A value and its unit as a finding has them, as the order's units tell it: `0.31 mm`, `0.012 in`, `6 ends`."""
    if unit in COUNTED:
        return f"{value:.0f} {unit.removesuffix('s') if value == 1.0 else unit}"
    return in_units(f"{value:.2f} {unit}".rstrip(), units)


def in_units(text: str, units: str) -> str:
    """What a sentence says in millimetres, said in the order's units. Metric orders keep it as it is: their fits are
    told in millimetres, whatever they write lengths in. Two lengths that differ are not told by the same fraction, but
    both in thousandths."""
    if units not in INCH_UNITS:
        return text
    lengths = {float(n) for sizes, unit in _SIZES.findall(text) if unit == "mm" for n in _numbers(sizes)}
    plain = {mm: _length(mm, units) for mm in lengths}
    used = Counter(plain.values())
    told = {mm: words if used[words] == 1 else _thousandths(mm) for mm, words in plain.items()}

    def turned(found: re.Match[str]) -> str:
        sizes, unit = found.groups()
        if unit == "mm":
            return re.sub(_NUMBER, lambda n: told[_number(n.group())], sizes)
        inches, worth = _CUBED_OR_SQUARED[unit]
        return f"{re.sub(_NUMBER, lambda n: _rounded(_number(n.group()) / worth), sizes)} {inches}"

    return _SIZES.sub(turned, text)


def _length(mm: float, units: str) -> str:
    return _thousandths(mm) if 0.0 < mm < FINE else spoken(mm, units)


def _thousandths(mm: float) -> str:
    return f"{max(mm / _INCH, 0.001):.3f} in" if mm else "0 in"


def _rounded(value: float) -> str:
    """To a whole number, or to two digits where it is smaller."""
    return f"{value:.0f}" if value >= 10.0 else f"{value:.2g}"


def _numbers(sizes: str) -> list[float]:
    return [_number(n) for n in re.findall(_NUMBER, sizes)]


def _number(written: str) -> float:
    return float(written.replace(",", ""))
