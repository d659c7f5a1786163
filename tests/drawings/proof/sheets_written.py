"""The part sheets of a shipped example, written as DXF for the proofs to read."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

from drawings.parts import part_sheets
from drawings.players.dxf import write_dxf
from model.order import Order, read_order


def ordered(example: str, units: str = "mm") -> Order:
    """A shipped order that prints in other units."""
    return replace(read_order(example), units=units)


def written(piece: Any, order: Order, folder: Path) -> list[Path]:
    """Each part sheet of a piece as a DXF."""
    files = []
    for sheet in part_sheets(piece, order):
        files.append(folder / f"{sheet.name}.dxf")
        write_dxf(sheet, files[-1])
    return files
