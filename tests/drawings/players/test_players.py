"""The players: the same marks in each file, the same bytes each time, and files that other readers accept."""

import io
import math
import re
from collections import Counter
from xml.etree import ElementTree

import ezdxf
import pytest
from pypdf import PdfReader

from drawings.paper.audit import sheet_texts
from drawings.paper.lettering import font_size
from drawings.paper.page import PAPERS
from drawings.paper.sheet import (
    AngularDimension,
    Arc,
    Circle,
    Fill,
    Hatch,
    Line,
    LinearDimension,
    Pen,
    Polyline,
    RadiusDimension,
    Sheet,
    Text,
)
from drawings.players.dxf import write_dxf
from drawings.players.pdf import write_pdf
from drawings.players.svg import svg_text, write_svg
from tests.drawings.demonstration import demonstration

SHEET = demonstration()
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def dxf(tmp_path_factory):
    path = tmp_path_factory.mktemp("dxf") / "sheet.dxf"
    write_dxf(SHEET, path)
    return ezdxf.readfile(path)


@pytest.fixture(scope="module")
def pdf(tmp_path_factory):
    path = tmp_path_factory.mktemp("pdf") / "set.pdf"
    write_pdf([SHEET, demonstration("A2", "in")], path, "Refuge bench", "Shop drawings", "Refuge")
    return PdfReader(path)


def small(*entities) -> Sheet:
    return Sheet("small", "Small", PAPERS["A4"], entities)


@pytest.mark.parametrize(
    "write", [write_svg, write_dxf, lambda sheet, path: write_pdf([sheet], path, "Title")], ids=["svg", "dxf", "pdf"]
)
def test_same_sheet_same_bytes(write, tmp_path):
    first, second = tmp_path / "first", tmp_path / "second"
    write(SHEET, first)
    write(demonstration(), second)
    assert first.read_bytes() == second.read_bytes()


def test_dxf_is_sound_and_in_millimetres(dxf):
    assert dxf.audit().errors == []
    assert (dxf.header["$INSUNITS"], dxf.dxfversion) == (4, "AC1024")
    assert dxf.header["$EXTMAX"][:2] == (420, 297)


def test_dxf_has_a_layer_for_each_pen(dxf):
    for pen in Pen:
        layer = dxf.layers.get(pen.value)
        assert (layer.dxf.lineweight, layer.color) == (round(pen.width * 100), 7)
        assert layer.dxf.linetype == (pen.value if pen.dashes else "Continuous")


def test_dxf_dimensions_carry_text_value_and_picture(dxf):
    drawn = [d for d in SHEET.entities if isinstance(d, LinearDimension | RadiusDimension)]
    written = [d for d in dxf.modelspace().query("DIMENSION") if d.dimtype in (0, 3, 4)]

    assert [(d.dxf.text, d.dxf.actual_measurement) for d in written] == [(d.text, d.value_mm) for d in drawn]
    for dimension in written:
        block = dxf.blocks.get(dimension.dxf.geometry)
        assert [t.dxf.text for t in block.query("TEXT")] == [dimension.dxf.text]
        assert block.query("SOLID")


def test_dxf_dimension_points_measure_the_true_length(dxf):
    """What a CAD program would measure itself: the points of the entity times the style's length factor."""
    for dimension in dxf.modelspace().query("DIMENSION"):
        if dimension.dimtype in (0, 3, 4):
            factor = dimension.get_dim_style().dxf.dimlfac
            assert dimension.get_measurement() * factor == pytest.approx(dimension.dxf.actual_measurement)


def test_dxf_angle_measures_itself(dxf):
    (angle,) = [d for d in SHEET.entities if isinstance(d, AngularDimension)]
    (written,) = [d for d in dxf.modelspace().query("DIMENSION") if d.dimtype == 5]
    assert written.get_measurement() == pytest.approx(angle.value_deg)


def test_dxf_hatches_are_hatches(dxf):
    hatches = [h for h in dxf.modelspace().query("HATCH") if h.has_pattern_fill]
    assert [h.pattern.lines[0].angle for h in hatches] == [45, 135]
    assert [len(h.paths) for h in hatches] == [2, 1]
    assert [h.rgb for h in dxf.modelspace().query("HATCH") if h.has_solid_fill and h.rgb] == [(230, 220, 200)]


def test_dxf_layout_shows_the_paper_at_full_size(dxf):
    layout = dxf.layout("Layout1")
    assert (layout.dxf.paper_width, layout.dxf.paper_height) == (420, 297)
    viewport = next(v for v in layout.viewports() if v.dxf.id != 1)
    assert viewport.dxf.height == viewport.dxf.view_height == 297


def test_dxf_leaves_the_writers_options_as_they_were(tmp_path):
    write_dxf(small(), tmp_path / "s.dxf")
    assert ezdxf.options.write_fixed_meta_data_for_testing is False


def test_svg_is_one_well_formed_page_in_millimetres(tmp_path):
    write_svg(SHEET, tmp_path / "s.svg")
    root = ElementTree.parse(tmp_path / "s.svg").getroot()
    assert [root.get(k) for k in ("width", "height", "viewBox")] == ["420mm", "297mm", "0 0 420 297"]
    assert root.findtext(f"{SVG}title") == SHEET.title


def test_svg_has_every_text_once():
    root = ElementTree.fromstring(svg_text(SHEET))
    shown = Counter(text.text for text in root.iter(f"{SVG}text"))
    assert shown == Counter(text.text for text in sheet_texts(SHEET))


@pytest.mark.parametrize(
    ("entity", "data"),
    [
        (Line((10, 20), (30, 40)), "M10 277L30 257"),
        (Arc((50, 50), 10, 0, 90), "M60 247A10 10 0 0 0 50 237"),
        (Arc((50, 50), 10, 90, 0), "M50 237A10 10 0 1 0 60 247"),
        (Circle((50, 50), 10), "M60 247A10 10 0 0 0 40 247A10 10 0 0 0 60 247Z"),
        (Polyline(((0, 0), (10, 0), (10, 10)), (0, -1, 0), True), "M0 297L10 297A5 5 0 0 1 10 287L0 297Z"),
    ],
)
def test_svg_turns_y_down(entity, data):
    assert f'd="{data}"' in svg_text(small(entity))


def test_svg_gathers_marks_of_one_pen_and_keeps_the_order():
    hidden = Line((0, 0), (1, 1), Pen.HIDDEN)
    visible = Line((0, 0), (1, 1))
    paths = re.findall(r'class="pen-(\w+)"', svg_text(small(visible, visible, hidden, Text((5, 5), "t"), hidden)))
    assert paths == ["visible", "hidden", "hidden"]


def test_svg_escapes_what_it_is_given():
    root = ElementTree.fromstring(svg_text(small(Text((50, 50), '<3/4" & "so on">'))))
    assert root.findtext(f"{SVG}text") == '<3/4" & "so on">'


def test_pdf_pages_have_their_own_size(pdf):
    millimetres = [
        (float(page.mediabox.width) / 72 * 25.4, float(page.mediabox.height) / 72 * 25.4) for page in pdf.pages
    ]
    assert [side for page in millimetres for side in page] == pytest.approx([420, 297, 594, 420], abs=0.01)


def test_pdf_text_can_be_searched(pdf):
    found = pdf.pages[0].extract_text()
    assert [t.text for t in sheet_texts(SHEET) if t.text not in found] == []


def test_pdf_embeds_its_fonts(pdf):
    for page in pdf.pages:
        fonts = [f.get_object() for f in page["/Resources"]["/Font"].get_object().values()]
        used = [f for f in fonts if "DejaVu" in f["/BaseFont"]]
        assert len(used) >= 2
        assert all("/FontFile2" in f["/FontDescriptor"].get_object() for f in used)


def test_pdf_has_bookmarks_and_no_clock(pdf):
    assert [entry.title for entry in pdf.outline] == ["Left side", "Left side"]
    assert (pdf.metadata.title, pdf.metadata.subject, pdf.metadata.author) == (
        "Refuge bench",
        "Shop drawings",
        "Refuge",
    )
    assert pdf.metadata.creation_date.year == 2000


def test_pdf_dashes_are_true_millimetres(tmp_path):
    path = tmp_path / "dash.pdf"
    write_pdf(
        [small(Line((10, 20), (30, 40), Pen.HIDDEN), Fill((Polyline(((0, 0), (9, 0), (0, 9)), closed=True),)))],
        path,
        "t",
    )
    stream = PdfReader(path).pages[0].get_contents().get_data().decode("latin1")
    scales = [float(scale) for scale in re.findall(r"([\d.]+) 0 0 [\d.]+ 0 0 cm", stream)]
    assert math.prod(scales) == pytest.approx(72 / 25.4, abs=1e-4)
    assert "[3 .75] 0 d" in stream
    assert ".25 w" in stream
    assert "10 20 m 30 40 l" in stream


def test_pdf_needs_a_sheet(tmp_path):
    with pytest.raises(ValueError, match="at least one sheet"):
        write_pdf([], tmp_path / "none.pdf", "t")
    assert list(tmp_path.iterdir()) == []


def test_hatch_is_the_same_in_svg_and_dxf(tmp_path):
    hatch = Hatch((Polyline(((20, 20), (50, 20), (50, 40), (20, 40)), closed=True),), 45, 3)
    write_dxf(small(hatch), tmp_path / "h.dxf")
    (entity,) = ezdxf.readfile(tmp_path / "h.dxf").modelspace().query("HATCH")

    from ezdxf.render import hatching

    by_ezdxf = list(hatching.hatch_entity(entity))
    by_us = re.search(r'pen-hatch" d="([^"]*)"', svg_text(small(hatch)))[1].count("M")
    assert len(by_ezdxf) == by_us


def test_lettering_size_is_by_capitals():
    """The font's own outline: the capital H of the file is as high as `font_size` takes it to be."""
    from fontTools.ttLib import TTFont

    from drawings.paper.lettering import FONT_FOLDER

    for file in FONT_FOLDER.glob("*.ttf"):
        font = TTFont(io.BytesIO(file.read_bytes()))
        height = font["glyf"]["H"].yMax / font["head"].unitsPerEm
        assert font_size(2.5) * height == pytest.approx(2.5)
