"""Set-up cards: every row on a card, every part with its boxes, the section as large as the figures say."""

import pytest

from drawings.cards.card import bearing, flowed, ticks
from drawings.cards.cut_section import example as example_cut
from drawings.cards.cut_section import posed
from drawings.cards.machines import ANY, machine_for, trial_for
from drawings.cards.setups import cards, setup_sheets
from drawings.lists.setups import Setting, setups
from drawings.paper.audit import audit, sheet_texts
from drawings.paper.dimensions import dimension_text
from model.cuts.edges import EdgeGroove, Tongue
from model.cuts.faces import dado
from model.part import Part
from model.stock import board
from tests.drawings.made_pieces import example, in_inches


@pytest.fixture(scope="module", params=["refuge-bench", "refuge-bookcase"])
def made(request):
    return example(request.param)


def test_nothing_is_illegible(made):
    assert [blemish for sheet in setup_sheets(*made) for blemish in audit(sheet)] == []


def test_nothing_is_illegible_in_inches():
    for piece, order in (in_inches("bookcase"), in_inches("settle")):
        assert [blemish for sheet in setup_sheets(piece, order) for blemish in audit(sheet)] == []


def test_every_row_is_on_one_card(made):
    piece, order = made

    assert [row for card in cards(piece, order) for row in card.rows] == setups(piece)


def test_every_figure_of_a_row_is_printed(made):
    piece, order = made
    printed = {text.text for sheet in setup_sheets(piece, order) for text in sheet_texts(sheet)}

    for row in setups(piece):
        for size in (row.setting.width, row.setting.fence):
            assert size is None or dimension_text(size) in printed


def test_every_part_has_its_box(made):
    piece, order = made
    printed = [text.text for sheet in setup_sheets(piece, order) for text in sheet_texts(sheet)]

    for row in setups(piece):
        for _, names in row.served:
            assert all(token in printed for token in ticks(names))


def test_lefts_and_rights_lie_back_to_back(made):
    piece, order = made
    paired = [card for card in cards(piece, order) if card.pair]

    assert paired
    for card in paired:
        left, right = card.pair.names
        assert piece[right].mirror_of == left


def test_a_name_cut_twice_says_so_and_numbers_follow_their_kind():
    assert ticks(["shelf 1", "shelf 2", "top", "top"]) == ["shelf 1", "2", "top (2 cuts)"]


def test_boxes_flow_into_lines_within_their_width():
    placed = list(flowed(["left side"] * 9, (10.0, 50.0), 60.0))

    assert len({at[1] for _, at in placed}) > 1
    assert all(at[0] < 70.0 for _, at in placed)


@pytest.mark.parametrize(
    ("setting", "place", "said"),
    [
        (Setting("dado", 19, 6, None, 70, "end"), "face side from left end", "Left end to the fence, face side down:"),
        (Setting("tongue", 6, 7, None, 6, "back side"), "far edge", "Back side to the fence, far edge down:"),
        (
            Setting("rabbet", 9, 9, None, 0.0, "edge"),
            "back side of near edge",
            "Near edge to the fence, back side down:",
        ),
        (Setting("ease", 3, 3), "both sides of front edge", "Both sides of front edge:"),
    ],
)
def test_what_bears_on_the_fence(setting, place, said):
    assert bearing(setting, place) == said


def wood_area(found):
    return sum(
        abs(sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(ring, (*ring[1:], ring[0]), strict=True))) / 2.0
        for ring in found.rings
    )


def test_a_trench_is_drawn_cut_side_down_and_true():
    cut = dado(70.0, 19.0, 6.0, 0.0, 250.0)
    found = posed(Setting("dado", 19.0, 6.0, None, 12.0, "end"), cut, Part(board(1200, 250, 20), (cut,)))
    spans = {s.letter: s for s in found.spans}

    assert wood_area(found) == pytest.approx(found.width * 20.0 - 19.0 * 6.0)
    assert (spans["F"].q[0], spans["W"].p, spans["W"].q) == (12.0, (12.0, 0.0), (31.0, 0.0))
    assert spans["D"].p[1] - spans["D"].q[1] == 6.0


@pytest.mark.parametrize(
    ("cut", "taken"),
    [
        (EdgeGroove(edge="near", width=6.0, depth=8.0, rise=5.0), 6.0 * 8.0),
        (Tongue(edge="near", thickness=6.0, length=8.0, rise=5.0), (18.0 - 6.0) * 8.0),
    ],
)
def test_work_on_an_edge_stands_on_it(cut, taken):
    setting = Setting(cut.name, 6.0, 8.0, None, 5.0, "back side")
    found = posed(setting, cut, Part(board(800, 100, 18), (cut,)))

    assert found.fence
    assert found.width == 18.0
    assert wood_area(found) == pytest.approx(18.0 * found.height - taken)


def test_the_cut_shown_is_one_that_the_setting_makes(made):
    piece, _ = made
    for row in setups(piece):
        names = [n for _, served in row.served for n in served]
        found = example_cut(piece, row.setting, names)
        assert found is not None, row.setting
        assert any(found[1] == piece[name].part for name in names)


def test_a_cut_of_no_known_kind_still_gets_its_advice():
    assert machine_for("whatnot") is ANY
    assert "scrap" in trial_for("whatnot")
    assert machine_for("sliding dovetail").name.startswith("Dovetail saw")
