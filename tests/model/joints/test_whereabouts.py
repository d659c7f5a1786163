"""A refusal tells where the parts stand that should have met."""

import pytest

from model.errors import DesignError
from model.joints.meetings.whereabouts import whereabouts
from model.joints.mortise import mortise_and_tenon
from model.parameters import Parameters
from model.piece import Piece
from model.placement import place
from model.stock import board


def test_the_room_of_each_is_told_whichever_way_it_is_turned():
    piece = Piece("frame", Parameters())
    post = piece.add("post", board(700.0, 40.0, 40.0), place((40.0, 40.0, 0.0), grain="up", face="front"))
    rail = piece.add("rail", board(500.0, 60.0, 20.0), place((90.0, 30.0, 400.0), grain="right", face="front"))
    told = whereabouts(rail, post)
    assert "rail has x 90 to 590 mm, y 10 to 30 mm, z 400 to 460 mm" in told
    assert "post has x 0 to 40 mm, y 0 to 40 mm, z 0 to 700 mm" in told
    behind = piece.add("shelf", board(500.0, 60.0, 20.0), place((0.0, 900.0, 400.0), grain="right", face="front"))
    with pytest.raises(DesignError, match=r"check where they stand: shelf has x 0 to 500 mm, y 880 to 900 mm"):
        mortise_and_tenon(behind, into=post)
