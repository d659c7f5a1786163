"""Part sheets: each distinct part dimensioned so that it can be made from its sheet alone."""

from drawings.parts.compose import part_sheets

__all__ = ["part_sheets"]
