"""Parts that nothing holds to the piece."""

import pytest

from model.checks.held import held
from model.hardware import wood_screw
from model.joints.butt import glued
from model.parameters import Parameters
from model.piece import Piece
from model.placement import place
from model.stock import board
from tests.model.checks.planted import sound
from tests.model.checks.whole_piece import shuffled

EXAMPLES = ["bench", "bookcase", "chest", "table", "cupboard", "stool"]


def stack(count: int = 3) -> tuple[Piece, list]:
    """Boards lying on each other."""
    piece = Piece("stack", Parameters())
    t = piece.parameters.thickness
    return piece, [piece.add(f"board {n}", board(300.0, 100.0), place((0, 0, n * t))) for n in range(1, count + 1)]


@pytest.mark.parametrize("example", EXAMPLES)
def test_every_part_of_the_examples_is_held(example):
    piece = sound(f"refuge-{example}")
    answer = held(piece)
    assert answer.findings == ()
    assert answer.proofs[0].held == answer.proofs[0].checked == len(piece.parts)


def test_one_part_is_held_by_itself():
    assert held(stack(1)[0]).findings == ()


def test_a_board_that_only_lies_there_is_named():
    piece, (low, middle, _) = stack()
    piece.join(glued(middle, to=low))
    (finding,) = held(piece).findings
    assert (finding.severity, finding.parts) == ("caution", ("board 3",))
    assert "nothing holds board 3" in finding.message


def test_parts_that_hold_together_but_not_to_the_rest_are_named_together():
    piece, boards = stack(5)
    piece.join(
        glued(boards[1], to=boards[0]),
        glued(boards[2], to=boards[1]),
        glued(boards[4], to=boards[3]),
    )
    (finding,) = held(piece).findings
    assert finding.parts == ("board 4", "board 5")
    assert held(shuffled(piece, 3)).findings == (finding,)


def test_a_screw_or_a_slide_holds():
    piece, (low, middle, high) = stack()
    t = piece.parameters.thickness
    piece.fit(wood_screw("8", 30.0, (50.0, 50.0, 2 * t), (0.0, 0.0, -1.0), (middle.name, low.name)))
    piece.slide(high, (0.0, -1.0, 0.0), 50.0)
    assert held(piece).findings == ()
