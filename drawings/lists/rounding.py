"""A length as lists and cards tell it, saying so where rounding would be seen on a rule."""

from __future__ import annotations

from model.lengths import printed

#: A length printed this near to the true one counts as exact, mm: half of 0.1 mm, the finest a rule is read to.
READ = 0.05 + 1e-9


def told(mm: float, units: str, denominator: int) -> str:
    """A length in mm, in a key of lengths.UNITS; with ≈ before it where it had to be rounded by more than a rule is
    read to.

    >>> told(32.0, "mm", 16), told(32.0, "in", 16)
    ('32', '≈1 1/4"')
    """
    said = printed(mm, units, denominator)
    return said.text if abs(said.error_mm) <= READ else f"≈{said.text}"
