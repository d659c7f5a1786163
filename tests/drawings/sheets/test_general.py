"""The general sheet: legible, true to the model, in projection, on the paper the order names."""

import re
import subprocess
import sys
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drawings.paper.audit import audit
from drawings.paper.lettering import text_width
from drawings.paper.sheet import Line, LinearDimension, Pen, RadiusDimension, Text, ViewPort
from drawings.sheets.general import general_sheet, general_views
from drawings.sheets.principal import middle_of
from drawings.sheets.tiers import Span, joined, tiered
from drawings.sheets.view_marks import LEAST_SPACE, view_marks
from drawings.views.curves import FRONT, LEFT, PICTORIAL, RIGHT, TOP, CircularArc, Segment, View
from model.errors import DesignError
from model.lengths import format_length
from model.order import order_from_text, read_order
from model.pieces import design

EXAMPLES = ("refuge-bench", "refuge-bookcase")


@lru_cache(maxsize=1)
def kernel_solids(name):
    from model.solids import standing

    return standing(example(name)[0])


@lru_cache(maxsize=2)
def example(name):
    order = read_order(name)
    script = design(order.piece)
    return script.make(order.parameters(script.parameters)), order


@lru_cache(maxsize=4)
def example_views(name, projection):
    return general_views(kernel_solids(name), drawn_as(example(name)[1], projection=projection))


def drawn_as(order, units=None, **drawing):
    return replace(order, units=units or order.units, drawing=order.drawing.model_copy(update=drawing))


def example_sheet(name, units=None, projection="third", paper="A3"):
    piece, order = example(name)
    order = drawn_as(order, units, projection=projection, paper=paper)
    return general_sheet(piece, order, example_views(name, projection))


def texts(sheet):
    return [e.text for e in sheet.entities if isinstance(e, Text)]


def dimensions(sheet):
    return [e for e in sheet.entities if isinstance(e, LinearDimension | RadiusDimension)]


@pytest.mark.parametrize("projection", ["third", "first"])
@pytest.mark.parametrize("name", EXAMPLES)
def test_example_sheets_have_no_blemish(name, projection):
    for units in ("mm", "in", "ft-in"):
        assert audit(example_sheet(name, units, projection)) == ()
    for paper in ("A4", "A2", "B"):
        assert audit(example_sheet(name, "in", projection, paper)) == ()


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_printed_length_is_the_drawn_one(name):
    for units in ("mm", "in", "ft-in"):
        shown = dimensions(example_sheet(name, units))
        assert len(shown) >= 7
        for dimension in shown:
            assert dimension.drawn_mm == pytest.approx(dimension.value_mm, abs=1e-6)
            printed = dimension.text.removeprefix("R")
            assert printed == format_length(dimension.value_mm, units)


@pytest.mark.parametrize("name", EXAMPLES)
def test_overall_sizes_are_the_solids_own(name):
    """The kernel's exact bounding box is the witness; the sheet goes by the curves it drew."""
    import cadquery as cq

    box = cq.Compound.makeCompound(list(kernel_solids(name).values())).BoundingBox()
    values = [d.value_mm for d in dimensions(example_sheet(name))]

    for size in (box.xlen, box.ylen, box.zlen):
        assert min(abs(size - value) for value in values) < 1e-3


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_named_measure_is_shown(name):
    piece, _ = example(name)
    values = [d.value_mm for d in dimensions(example_sheet(name))]

    assert piece.measures
    for measure in piece.measures:
        asked = max(abs(a - b) for a, b in zip(measure.start, measure.end, strict=True))
        assert min(abs(asked - value) for value in values) < 1e-6, measure.what


def test_the_settle_shows_its_arcs_from_their_true_centre():
    sheet = example_sheet("refuge-bench")
    radii = {d.text: d for d in dimensions(sheet) if isinstance(d, RadiusDimension)}
    middle = {
        line.p[0] for line in sheet.entities if isinstance(line, Line) and line.pen is Pen.CENTRE and upright(line)
    }

    assert set(radii) == {"R2750", "R2355"}
    assert radii["R2750"].centre == pytest.approx(radii["R2355"].centre)
    assert any(abs(radii["R2750"].centre[0] - x) < 1e-6 for x in middle)
    assert radii["R2750"].centre[1] < 0, "the centre is off the sheet"
    notes = " ".join(texts(sheet))
    assert "have one centre, on the centre line, 2355 in front of the seat front" in re.sub(r"\s+", " ", notes)


def upright(line):
    return abs(line.p[0] - line.q[0]) < 1e-9


@pytest.mark.parametrize(
    ("projection", "side", "top_is_above"), [("third", "Right side", True), ("first", "Left side", False)]
)
def test_views_stand_in_projection(projection, side, top_is_above):
    sheet = example_sheet("refuge-bookcase", projection=projection)
    at = {e.text: e.at for e in sheet.entities if isinstance(e, Text)}
    floor = [e for e in sheet.entities if isinstance(e, Line) and e.pen is Pen.VISIBLE and abs(e.p[1] - e.q[1]) < 1e-9]
    lowest_of = {
        name: min(e.p[1] for e in floor if abs((e.p[0] + e.q[0]) / 2 - at[name][0]) < 2 and e.p[1] < at[name][1])
        for name in (side, "Front")
    }

    assert (at["Top"][1] > at["Front"][1]) is top_is_above
    assert at["Top"][0] == pytest.approx(at["Front"][0])
    assert at[side][0] > at["Front"][0]
    if top_is_above:
        assert lowest_of[side] == pytest.approx(lowest_of["Front"])


def test_scale_is_the_largest_that_fits():
    """At the next one up, front and top alone (1330 and 517 high) are higher than the frame."""
    scales = {paper: shown_scale(example_sheet("refuge-bench", paper=paper)) for paper in ("A4", "A3", "A2", "A1")}
    assert scales == {"A4": "1:20", "A3": "1:10", "A2": "1:10", "A1": "1:5"}


def shown_scale(sheet):
    return next(text for text in texts(sheet) if re.fullmatch(r"\d+:\d+", text))


def test_title_block_says_what_the_order_says():
    piece, order = example("refuge-bookcase")
    order = drawn_as(
        order,
        units="ft-in",
        owner="Walkers' refuge association",
        drawn_by="M. Aubert",
        approved_by="J. Perrin",
        date="2025-06-01",
        revision="B",
        denominator=32,
    )
    said = " ".join(texts(general_sheet(piece, order, example_views("refuge-bookcase", "third"))))

    for field in ("M. Aubert", "J. Perrin", "2025-06-01", "B", "refuge-bookcase", "General arrangement", "1 of 1"):
        assert field in said
    assert "Feet and inches, to 1/32 in" in said
    assert "Eastern white pine" in said


def test_the_same_order_gives_the_same_sheet():
    assert example_sheet("refuge-bookcase") == example_sheet("refuge-bookcase")


def test_dxf_passes_its_own_audit(tmp_path):
    import ezdxf

    from drawings.players.dxf import write_dxf

    sheet = example_sheet("refuge-bench")
    write_dxf(sheet, tmp_path / "general.dxf")
    doc = ezdxf.readfile(tmp_path / "general.dxf")

    assert not doc.audit().has_errors
    measured = [d.get_measurement() for d in doc.modelspace().query("DIMENSION") if d.dimtype == 0]
    assert len(doc.modelspace().query("DIMENSION")) == len(dimensions(sheet))
    assert measured


def test_a_paper_too_small_is_refused_with_a_remedy():
    order = example("refuge-bookcase")[1]
    crowded = design(order.piece).make(order.parameters(design(order.piece).parameters))
    for n in range(60):
        crowded.measure(f"level {n}", (0.0, 0.0, 0.0), (0.0, 0.0, 100.0 + 10.0 * n), "front")

    with pytest.raises(DesignError, match="don't fit on A4 at any scale; choose a larger paper"):
        general_sheet(crowded, drawn_as(order, paper="A4"), example_views("refuge-bookcase", "third"))


def test_middle_is_that_of_the_mirrored_pairs():
    assert middle_of(example("refuge-bench")[0]) == pytest.approx(0)
    assert middle_of(example("refuge-bookcase")[0]) == pytest.approx(450)


def test_composing_needs_no_kernel():
    script = "import drawings.sheets.general, sys; sys.exit('cadquery' in sys.modules or 'OCP' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", script], check=False).returncode == 0


# --- bookcases of all sizes, as bare outlines: the kernel's views would only add lines inside them


def outline(spec, low, high):
    (x0, y0), (x1, y1) = spec.project(low), spec.project(high)
    (x0, x1), (y0, y1) = sorted((x0, x1)), sorted((y0, y1))
    corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
    edges = tuple(Segment(*sorted(edge)) for edge in zip(corners, corners[1:] + corners[:1], strict=True))
    return View(spec.name, spec.direction, spec.right, edges)


bookcases = st.fixed_dictionaries(
    {
        "bays": st.integers(1, 12),
        "bay": st.floats(300, 1000),
        "height": st.floats(700, 2700),
        "depth": st.floats(150, 450),
        "share": st.floats(0, 1),
    }
)


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(
    bookcases,
    st.sampled_from(["mm", "in", "ft-in", "cm"]),
    st.sampled_from(["third", "first"]),
    st.sampled_from(["A4", "A3", "A1", "B", "E"]),
)
def test_no_bookcase_makes_an_illegible_sheet(size, units, projection, paper):
    shelves = int(size["share"] * (size["height"] - 150) / 115) if size["height"] > 150 else 0
    width = size["bays"] * size["bay"]
    source = f"""
piece = "bookcase"
name = "any"
[size]
width = {width}
height = {size["height"]}
depth = {size["depth"]}
bays = {size["bays"]}
shelves = {min(shelves, 20)}
[drawing]
paper = "{paper}"
projection = "{projection}"
"""
    order = order_from_text(source)
    script = design("bookcase")
    piece = script.make(order.parameters(script.parameters))
    high = (width, size["depth"], size["height"])
    views = {
        s.name: outline(s, (0, 0, 0), high) for s in (FRONT, TOP, RIGHT if projection == "third" else LEFT, PICTORIAL)
    }

    sheet = general_sheet(piece, drawn_as(order, units), views)

    assert audit(sheet) == ()
    for dimension in dimensions(sheet):
        assert dimension.drawn_mm == pytest.approx(dimension.value_mm, abs=1e-6)


# --- tiers


def spans(*stretches, side="left"):
    return [Span((0, low), (0, high), side) for low, high in stretches]


def form(mm):
    return format_length(mm)


def test_small_dimensions_stand_inside_larger_ones():
    drawn = tiered(spans((0, 1330), (0, 435), (0, 1260)), (0, 0, 1500, 1330), ViewPort(0.1), form)
    assert [d.text for d in sorted(drawn, key=lambda d: -d.line[0])] == ["435", "1260", "1330"]


def test_a_chain_stands_in_one_line():
    drawn = tiered(spans((0, 300), (300, 700), (700, 1200)), (0, 0, 900, 1200), ViewPort(0.1), form)
    assert len({d.line[0] for d in drawn}) == 1


def test_a_short_first_link_prints_at_its_free_end():
    drawn = tiered(spans((0, 30), (30, 700)), (0, 0, 900, 700), ViewPort(0.1), form)
    assert [d.beside for d in drawn if d.text == "30"] == ["start"]


def test_a_text_that_a_longer_dimension_would_strike_moves_to_the_other_side():
    bay, whole = Span((19, 0), (500, 0), "below", times=2), Span((0, 0), (1016, 0), "below")
    at_1_to_50, at_1_to_5 = (tiered([bay, whole], (0, 0, 1016, 2400), ViewPort(s), form) for s in (0.02, 0.2))

    assert {d.text: d.line[1] > 0 for d in at_1_to_50} == {"2 × 481": True, "1016": False}
    assert {d.text: d.line[1] > 0 for d in at_1_to_5} == {"2 × 481": False, "1016": False}
    assert all(d.drawn_mm == pytest.approx(d.value_mm) for d in at_1_to_50)


@given(st.integers(2, 20), st.floats(40, 60))
def test_equal_links_without_room_are_shown_as_one(count, step):
    links = spans(*((n * step, (n + 1) * step) for n in range(count)))
    (run,) = joined(links, 0.02, form)

    assert run.text(form) == f"{count} × {form(step)} ({form(count * step)})"
    assert run.length == pytest.approx(count * step)


def test_equal_links_with_room_stay_apart():
    assert len(joined(spans((0, 300), (300, 600)), 0.1, form)) == 2


# --- thinning


def drawn_lines(scale, *curves):
    view = View("front", FRONT.direction, FRONT.right, curves)
    return list(view_marks(view, ViewPort(scale)))


def test_lines_that_would_run_together_are_drawn_once():
    pair = [Segment((x, 0.0), (x, 1000.0)) for x in (0.0, 5.0)]
    assert len(drawn_lines(0.1, *pair)) == 1
    assert len(drawn_lines(0.5, *pair)) == 2


def test_the_outermost_of_close_lines_is_kept():
    lines = [Segment((x, 0.0), (x, 1000.0)) for x in (0.0, 5.0, 500.0, 995.0, 1000.0)]
    assert sorted(line.p[0] for line in drawn_lines(0.1, *lines)) == pytest.approx([0, 50, 100])


def test_what_a_close_line_leaves_bare_is_drawn():
    outer, inner = Segment((0.0, 200.0), (0.0, 1000.0)), Segment((5.0, 0.0), (5.0, 1000.0))
    far = Segment((900.0, 0.0), (900.0, 1000.0))

    drawn = {
        (round(m.p[0], 3), *sorted((round(m.p[1], 3), round(m.q[1], 3)))) for m in drawn_lines(0.1, outer, inner, far)
    }

    assert drawn == {(0, 20, 100), (0.5, 0, 20), (90, 0, 100)}


@given(st.lists(st.floats(0, 1000), min_size=2, max_size=30))
def test_no_two_drawn_lines_run_together(places):
    lines = drawn_lines(0.1, *(Segment((x, 0.0), (x, 500.0)) for x in places))
    xs = sorted(line.p[0] for line in lines)
    assert all(b - a >= LEAST_SPACE - 1e-9 for a, b in pairwise(xs))


def test_concentric_arcs_are_thinned_by_radius():
    arcs = [CircularArc((0.0, 0.0), r, 30.0, 150.0) for r in (1000.0, 1004.0, 1100.0)]
    assert sorted(round(a.radius, 1) for a in drawn_lines(0.1, *arcs)) in ([100.0, 110.0], [100.4, 110.0])


def test_lettering_of_dimensions_is_measured_not_guessed():
    """A text that just fits stands between the arrows, one that just does not stands outside."""
    room = text_width("1000", 2.5) + 1.0
    for slack, joined_count in ((1.01, 2), (0.99, 1)):
        scale = room * slack / 1000
        assert len(joined(spans((0, 1000), (1000, 2000)), scale, form)) == joined_count
