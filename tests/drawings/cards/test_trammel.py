"""Trammel cards: pivots and radii from the model, ordinates against the circle, every sheet legible."""

import math
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.cards.long_arcs import LONG, long_arcs, pivots
from drawings.cards.ordinate_blocks import bows, even_spacing
from drawings.cards.trammel import trammel_sheets
from drawings.lists.distinct import Distinct
from drawings.paper.audit import audit, sheet_texts
from drawings.sheets.principal import Lengths
from model.cuts.through import Notch, Profile
from model.layout.outline import circle, rectangle, ring_sector
from model.order import order_from_text
from model.orders import example_names
from model.part import Part
from model.stock import panel
from tests.drawings.made_pieces import example, in_inches, made


def arcs_of(part):
    return list(long_arcs(Distinct(1, ("board",), part, None), part))


def curved(inner=2000.0, outer=2150.0, half=12.0):
    shape = ring_sector(inner, outer, half)
    x0, y0, x1, y1 = shape.bounds
    return Part(panel(x1 - x0, y1 - y0, 19.0)).cut(Profile(shape.moved(-x0, -y0))), (-x0, -y0)


def test_the_bench_swings_all_its_arcs_from_one_pivot():
    piece, _ = example("refuge-bench")
    (pivot,) = pivots(piece)
    assert pivot.centre == (0.0, -2355.0)
    assert pivot.radii[0] == 2355.0
    assert pivot.radii[-1] == 2750.0
    assert {name for name, _ in pivot.named} == {"back line", "seat front"}


@pytest.mark.parametrize("name", example_names())
def test_every_long_arc_of_an_outline_is_swung_from_its_own_centre(name):
    piece, _ = example(name)
    told = {(p.part and p.part.item, p.centre, round(r, 2)) for p in pivots(piece) for r in p.radii}
    for pivot in pivots(piece):
        for arc in pivot.arcs:
            assert arc.radius > LONG
            for end in (arc.start, arc.end, arc.middle):
                assert math.dist(end, arc.centre) == pytest.approx(arc.radius, abs=1e-6)
            if pivot.part is None:
                at = piece[arc.distinct.names[0]].at.point((*arc.centre, 0.0))
                assert at[:2] == pytest.approx(pivot.centre, abs=0.01)
    assert len(told) == sum(len(p.radii) for p in pivots(piece))


def test_a_curved_board_has_a_hollow_and_a_round_edge_about_one_centre():
    part, centre = curved()
    by_shape = {arc.shape: arc for arc in arcs_of(part)}
    assert {s: round(a.radius, 6) for s, a in by_shape.items()} == {"hollow": 2000.0, "round": 2150.0}
    assert all(arc.centre == pytest.approx(centre) for arc in by_shape.values())
    assert by_shape["round"].chord == pytest.approx(2 * 2150.0 * math.sin(math.radians(12.0)))


def test_an_arc_parted_by_a_notch_is_one_arc_still():
    part, _ = curved()
    length, width = part.stock.length, part.stock.width
    whole = next(a for a in arcs_of(part) if a.shape == "round")
    notched = part.cut(Notch(rectangle(60.0, 90.0, length / 2 - 200.0, width - 60.0)))
    (arc,) = [a for a in arcs_of(notched) if a.shape == "round"]
    assert arc.chord == pytest.approx(whole.chord)
    assert arc.sweep == pytest.approx(whole.sweep)


def test_a_round_top_is_laid_out_over_its_diameter():
    top = Part(panel(1400.0, 1400.0, 25.0)).cut(Profile(circle((700.0, 700.0), 1400.0)))
    (arc,) = arcs_of(top)
    assert (arc.chord, arc.centre) == (1400.0, pytest.approx((700.0, 700.0)))
    (bow,) = bows([arc])
    assert bow.rise == pytest.approx(700.0)


@given(st.floats(601.0, 9000.0), st.floats(0.05, 0.999))
def test_ordinates_lie_on_the_circle(radius, share):
    """Closed form: a point of the circle at x from the middle stands sqrt(R² - x²) - sqrt(R² - c²/4) over the chord."""
    half = radius * share
    part, _ = curved(inner=radius, outer=radius + 80.0, half=math.degrees(math.asin(share)) * 0.9)
    for bow in bows(arcs_of(part)):
        for x, height in bow.stations(Lengths(), 12):
            closed = math.sqrt(max(bow.radius**2 - x**2, 0.0)) - math.sqrt(bow.radius**2 - bow.chord**2 / 4)
            assert height == pytest.approx(closed, abs=1e-6)
        assert half > 0


@given(st.floats(50.0, 6000.0), st.sampled_from(["mm", "in"]))
def test_stations_are_few_and_their_spacing_is_on_the_rule(chord, units):
    spacing = even_spacing(chord, units, 12)
    assert chord / 2 / spacing <= 11 + 1e-9
    unit = 5.0 if units == "mm" else 25.4 / 4
    assert spacing / unit == pytest.approx(round(spacing / unit))


@pytest.mark.parametrize("name", example_names())
def test_every_sheet_is_legible(name):
    piece, order = example(name)
    sheets = trammel_sheets(piece, order)
    assert [(s.name, b) for s in sheets for b in audit(s)] == []
    assert [s.number for s in sheets] == list(range(1, len(sheets) + 1))


@pytest.mark.parametrize("paper", ["A4", "A2"])
def test_any_paper_will_do(paper):
    order = order_from_text(f'piece = "settle"\nname = "t"\n[drawing]\npaper = "{paper}"\n')
    assert [(s.name, b) for s in trammel_sheets(*made(order)) for b in audit(s)] == []


def test_inches():
    sheets = trammel_sheets(*in_inches("settle"))
    assert [(s.name, b) for s in sheets for b in audit(s)] == []


def test_a_piece_without_long_arcs_has_no_card():
    assert trammel_sheets(*example("refuge-bookcase")) == []


def test_the_card_says_where_the_pivot_stands_and_every_radius():
    card, *ordinates = trammel_sheets(*example("refuge-bench"))
    said = " ".join(t.text for t in sheet_texts(card))
    assert "on the centre line of the work, 2355 from the nearest arc" in said
    assert {"R2355", "R2388", "R2455", "R2684", "R2750"} <= {t.text for t in sheet_texts(card)}
    assert (card.number, ordinates[0].number) == (1, 2)
    assert "101.4" in {t.text for t in sheet_texts(ordinates[0])}


def test_every_radius_and_every_place_of_a_pivot_says_what_it_measures():
    card = trammel_sheets(*example("refuge-bench"))[0]
    told = [t for t in sheet_texts(card) if t.measured]
    assert Counter(t.measured.kind for t in told) == {"radius": 14 + 8, "length": 2 * 14}
