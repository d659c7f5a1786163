"""A maker's own piece script: read, run, and its mistakes told by line."""

from __future__ import annotations

from pathlib import Path

import pytest

from model.errors import OrderError
from model.order import read_order
from model.pieces import design, design_of

SCRIPT = '''
from model.parameters import Length, Parameters, size
from model.piece import Piece
from model.placement import place
from model.stock import board


class Shelf(Parameters):
    """One board on the wall."""

    length: Length = size("600 mm", "200 mm", "1200 mm", "left to right")


def make(p: Shelf) -> Piece:
    piece = Piece("shelf", p)
    piece.add("shelf", board(p.length, 180), place())
    return piece
'''


def written(folder: Path, text: str) -> Path:
    path = folder / "shelf.py"
    path.write_text(text)
    return path


def test_an_order_names_a_script_beside_it(tmp_path: Path) -> None:
    written(tmp_path, SCRIPT)
    (tmp_path / "mine.toml").write_text('piece = "shelf.py"\nname = "hut"\nunits = "in"\n[size]\nlength = 30\n')
    order = read_order(tmp_path / "mine.toml")
    found = design_of(order)
    piece = found.make(order.parameters(found.parameters))

    assert found.summary == "One board on the wall."
    assert piece["shelf"].wood.stock.length == pytest.approx(762.0)


def made(path: Path) -> object:
    found = design(str(path))
    return found.make(found.parameters())


@pytest.mark.parametrize(
    ("broken", "told"),
    [
        (SCRIPT.replace("def make", "def mak"), "has no function make"),
        (SCRIPT.replace("return piece", "return None"), "must return the piece"),
        (SCRIPT.replace("p.length, 180", "p.lenth, 180"), r"shelf.py line 16: AttributeError"),
        (SCRIPT + "def (", "shelf.py line 18"),
        (SCRIPT.replace("p: Shelf", "p: int"), "make must take one argument"),
    ],
)
def test_mistakes_are_told_by_line(broken: str, told: str, tmp_path: Path) -> None:
    path = written(tmp_path, broken)
    with pytest.raises(OrderError, match=told):
        made(path)


def test_a_script_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(OrderError, match="there is no such piece script"):
        design(str(tmp_path / "shelf.py"))
