"""Cuts in words: what is said, in which units, and measured from where."""

import re

import pytest

from drawings.lists.cut_words import cut_in_words, cuts_in_words
from drawings.lists.nearest_edge import nearest_edge
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeGroove, Rabbet, Tongue
from model.cuts.faces import BiscuitSlot, Bore, Channel, Counterbore, dado, groove
from model.cuts.through import Notch, Opening, Profile
from model.layout.outline import circle, rectangle, ring_sector
from model.part import Part
from model.stock import board
from tests.drawings.made_pieces import example

DOWN = (0.0, 0.0, -1.0)
PLAIN = Part(board(1200, 250, 19, "red oak"))

SAID = [
    (dado(416, 19, 9.5, 0, 250), "dado 19 × 9.5 deep, face side, 416 from left end"),
    (
        dado(416, 19, 9.5, 12, 250, "back"),
        "dado 19 × 9.5 deep, back side, 416 from left end, from 12 to 250 off the near edge",
    ),
    (groove(30, 6, 8, 0, 1200), "groove 6 × 8 deep, face side, 30 from near edge"),
    (
        Channel((100, 50), (300, 90), 6, 5),
        "groove 6 × 5 deep, face side, its middle from 100 from left end, 50 from near edge"
        " to 300 from left end, 90 from near edge",
    ),
    (
        Bore((80, 40, 19), DOWN, 8, 12),
        "hole 8 diameter × 12 deep, face side, 80 from left end, 40 from near edge",
    ),
    (
        Bore((55, 250, 9.5), (0, -1, 0), 2.4, 32),
        "hole 2.4 diameter × 32 deep, in far edge, 55 from left end, 9.5 from back side",
    ),
    (
        Counterbore((9.5, 35, 19), DOWN, 10, 6, 4.5),
        "counterbore 10 diameter × 6 deep, 4.5 through, face side, 9.5 from left end, 35 from near edge",
    ),
    (
        BiscuitSlot((1200, 60, 9.5), (-1, 0, 0), (0, 1, 0), "20"),
        "biscuit slot No. 20, in right end, 60 from near edge, 9.5 from back side",
    ),
    (
        BiscuitSlot((300, 60, 19), DOWN, (0, 1, 0), "10"),
        "biscuit slot No. 10, lying across the grain, face side, 300 from left end, 60 from near edge",
    ),
    (
        Rabbet(edge="far", width=12, depth=9.5, start=30, stop=1130),
        "rabbet 12 × 9.5 deep, along far edge, back side, from 70 to 1170 off the left end",
    ),
    (
        Tongue(edge="near", thickness=6, length=7, rise=6.5),
        "tongue 6 thick × 7 long, along near edge, 6.5 from back side",
    ),
    (EdgeGroove(edge="left", width=6, depth=8, rise=6.5), "groove 6 × 8 deep, in left end, 6.5 from back side"),
    (
        Bead(edge="near", radius=3, quirk=1.5, inset=7),
        "bead 3 radius, 1.5 quirk, along near edge, 7 in, face side",
    ),
    (Bevel(edge="far", angle=5), "bevel 5°, along far edge, full size kept on face side"),
    (Ease(edge="near", radius=3), "ease 3 radius, along near edge, both sides"),
    (Chamfer(edge="near", width=2, sides="face"), "chamfer 2, along near edge, face side"),
    (
        Opening(rectangle(100, 60, 300, 80)),
        "opening 100 × 60 right through, 300 from left end, 80 from near edge",
    ),
    (Notch(rectangle(7, 13, -1, -1)), "notch 6 × 12 right through, at left end and near edge"),
    (Notch(rectangle(40, 13, 500, 238)), "notch 40 × 12 right through, at 500 from left end and far edge"),
    (
        Profile(ring_sector(2355, 2400, 10).moved(500, -2300)),
        "sawn to its outline, arcs of radius 2355, 2400",
    ),
]


@pytest.mark.parametrize(("cut", "words"), SAID, ids=lambda value: value if isinstance(value, str) else "")
def test_a_cut_is_told_in_a_makers_words(cut, words):
    assert cut_in_words(cut, PLAIN) == words


def test_an_inch_length_that_was_rounded_shows_it():
    assert (
        cut_in_words(dado(101.6, 19.05, 9.5, 0, 250), PLAIN, "in")
        == 'dado 3/4" × 3/8" deep, face side, 4" from left end'
    )
    assert (
        cut_in_words(dado(102, 19.05, 9, 0, 250), PLAIN, "in") == 'dado 3/4" × ≈3/8" deep, face side, ≈4" from left end'
    )
    assert '≈4 1/64"' in cut_in_words(dado(102.1, 19.05, 9, 0, 250), PLAIN, "in", 64)


def test_a_place_on_a_slanting_end_is_told_along_it_from_the_front():
    seat = Part(board(1600, 500, 19, "red oak")).cut(Profile(ring_sector(2355, 2750, 15).moved(800, -2250)))
    right = seat.outline.named("right")[0]
    x, y = right.point(0.25)
    slot = BiscuitSlot((x, y, 9.5), (-1, 0, 0), (0, 1, 0))

    assert f"in right end, {right.length / 4:.1f} along it from front edge" in cut_in_words(slot, seat)


def test_the_nearest_edge_of_an_arc_is_found_with_the_way_along_it():
    ring = circle((0, 0), 100)
    edge, along = nearest_edge(ring, (0, -60))

    assert edge == ring.edges[0]
    assert along == pytest.approx(edge.length / 2)


def test_equal_cuts_on_both_edges_and_both_sides_are_told_once():
    beads = [Bead(edge=e, radius=3, quirk=1.5, side=s) for e in ("near", "far") for s in ("face", "back")]

    assert cuts_in_words(beads, PLAIN) == ["bead 3 radius, 1.5 quirk, along near and far edges, both sides"]
    assert len(cuts_in_words([beads[0], beads[3]], PLAIN)) == 2, "near face and far back are not all four"


@pytest.mark.parametrize("name", ["refuge-bench", "refuge-bookcase"])
def test_every_cut_of_the_examples_has_words_of_its_own(name):
    for placed in example(name)[0]:
        for cut in placed.wood.cuts:
            assert re.search(r"\d", cut_in_words(cut, placed.wood)), cut
