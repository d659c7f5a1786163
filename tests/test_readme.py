"""What the README shows must work as it stands."""

from __future__ import annotations

import re
from pathlib import Path

from model.checks.dry_fit import dry_fit, fits
from model.order import order_from_text
from model.pieces import design
from model.solids import standing

README = (Path(__file__).parent.parent / "README.md").read_text(encoding="utf-8")


def block(language: str) -> str:
    found = re.search(rf"```{language}\n(.*?)```", README, re.DOTALL)
    assert found is not None
    return found[1]


def test_the_script_makes_a_piece_that_fits(tmp_path: Path) -> None:
    script = tmp_path / "shelf.py"
    script.write_text(block("python"))
    found = design(str(script))
    piece = found.make(found.parameters())

    assert len(piece.parts) == 5
    assert fits(dry_fit(piece, standing(piece)))


def test_the_order_is_read() -> None:
    order = order_from_text(block("toml"))
    found = design(order.piece)

    assert order.parameters(found.parameters).seat_depth == 14.875 * 25.4


def test_every_picture_is_there() -> None:
    root = Path(__file__).parent.parent
    pictures = re.findall(r"!\[.+?\]\((.+?)\)", README)

    assert len(pictures) >= 5
    assert [p for p in pictures if not (root / p).is_file()] == []
