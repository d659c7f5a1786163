"""The shop's lists as CSV files: parts, hardware, stock to buy, and set-ups.

UTF-8, comma-separated, one header line in plain words that names each column's unit. × ° ≈ are spelled x, deg and ~,
so that no spreadsheet garbles them.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from pathlib import Path

from drawings.lists.columns import Column, Speech
from drawings.lists.hardware import hardware_columns, hardware_lines
from drawings.lists.part_lines import part_lines
from drawings.lists.parts import parts_columns
from drawings.lists.setup_rows import setup_columns
from drawings.lists.setups import setups
from drawings.lists.stock import stock_columns, stock_lines
from model.order import Order
from model.piece import Piece

_PLAIN = str.maketrans({"×": "x", "≈": "~", "°": " deg"})


def write_lists(piece: Piece, order: Order, folder: Path) -> list[Path]:
    """Write parts.csv, hardware.csv, stock.csv and setups.csv into `folder`; returns the files written.

    Lengths stand as the order prints them, and beside them exactly in mm. The same piece and order give the same bytes.
    Raises DesignError if no board is thick enough for a part.
    """
    folder.mkdir(parents=True, exist_ok=True)
    speech = Speech(order.units, order.drawing.denominator)
    lines = part_lines(piece)
    return [
        _write(folder / "parts.csv", parts_columns(speech), lines),
        _write(folder / "hardware.csv", hardware_columns(speech), hardware_lines(piece)),
        _write(folder / "stock.csv", stock_columns(speech, order.shop.waste_pct), stock_lines(lines)),
        _write(folder / "setups.csv", setup_columns(speech), setups(piece)),
    ]


def _write(path: Path, columns: Sequence[Column], lines: Iterable[object]) -> Path:
    with path.open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file, lineterminator="\n")
        rows.writerow([column.header for column in columns])
        rows.writerows([[column.cell(line).translate(_PLAIN) for column in columns] for line in lines])
    return path
