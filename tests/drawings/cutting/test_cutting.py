"""Cutting files: what is in them, what is not, and that their proof finds what is wrong with them."""

import math
from pathlib import Path

import ezdxf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawings.cutting.files import cut_from_stock, write_cutting
from drawings.cutting.layers import OUTLINE, THROUGH, Trace, edge_work, traces
from drawings.cutting.proof import cutting_complaints, cutting_proof
from model.cuts.edges import Rabbet
from model.cuts.faces import BiscuitSlot, Bore, Channel, Counterbore, dado, groove
from model.cuts.through import Notch, Opening
from model.layout.outline import circle, rectangle
from model.parameters import Parameters
from model.part import Part
from model.piece import Piece
from model.placement import place
from model.solids import solid
from model.stock import board
from tests.drawings.made_pieces import in_inches

DOWN, UP = (0.0, 0.0, -1.0), (0.0, 0.0, 1.0)


@pytest.fixture(scope="module", params=["bench", "bookcase"])
def written(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Piece, Path]:
    piece = request.getfixturevalue(request.param)
    folder = tmp_path_factory.mktemp(request.param)
    write_cutting(piece, folder)
    return piece, folder


def test_one_file_for_each_distinct_part_and_a_readme(written):
    piece, folder = written
    files = {p.name for p in folder.iterdir()}

    assert len(files) == len(set(piece.items().values())) + 1
    assert "README.txt" in files


def test_files_are_named_by_item_part_and_number(bench, tmp_path):
    names = {p.name for p in write_cutting(bench, tmp_path)}

    assert {"01-left-side.dxf", "02-right-side.dxf", "10-front-board-1-x11.dxf"} <= names


def test_every_file_is_sound_in_millimetres_and_holds_closed_shapes_only(written):
    for path in written[1].glob("*.dxf"):
        doc = ezdxf.readfile(path)
        kinds = {e.dxftype() for e in doc.modelspace()}

        assert doc.audit().errors == []
        assert (doc.header["$INSUNITS"], doc.header["$MEASUREMENT"], doc.dxfversion) == (4, 1, "AC1015")
        assert kinds <= {"LWPOLYLINE", "CIRCLE"}
        assert all(e.closed for e in doc.modelspace() if e.dxftype() == "LWPOLYLINE")
        assert len(doc.modelspace().query(f'*[layer=="{OUTLINE}"]')) == 1


def test_the_proof_holds_for_what_was_written(written):
    proof = cutting_proof(*written)

    assert proof.checked == proof.held == len(list(written[1].glob("*.dxf")))


def test_the_same_piece_gives_the_same_bytes(written, tmp_path):
    for path in write_cutting(written[0], tmp_path):
        assert path.read_bytes() == (written[1] / path.name).read_bytes(), path.name


def test_arcs_of_the_seat_keep_their_true_radii(written):
    found = list(written[1].glob("*-seat.dxf"))
    for path in found:
        seat = ezdxf.readfile(path).modelspace().query(f'*[layer=="{OUTLINE}"]').first
        rings = list(seat.get_points("xyb"))
        bulged = [(a, b) for a, b in zip(rings, rings[1:] + rings[:1], strict=True) if a[2]]
        radii = [math.dist(a[:2], b[:2]) * (1 + a[2] ** 2) / (4 * abs(a[2])) for a, b in bulged]

        assert sorted(radii) == pytest.approx([2750 - 395, 2750], abs=1e-5)
    assert len(found) == (written[0].name == "settle")


def test_outlines_and_pockets_account_for_all_the_wood_of_a_part(written):
    """Outline x thickness less pockets is the solid, for parts a router finishes (biscuits lie in round slots)."""
    compared = 0
    for _, part in cut_from_stock(written[0]).values():
        biscuits = any(isinstance(c, BiscuitSlot) for c in part.cuts)
        if edge_work(part) or biscuits or part.bend:
            continue
        assert routed_volume(traces(part)) == pytest.approx(solid(part).Volume(), rel=1e-9)
        compared += 1
    assert compared >= (5 if written[0].name == "settle" else 0)


def routed_volume(shapes: list[Trace]) -> float:
    return sum(t.outline.area * t.depth * (1 if t.layer == OUTLINE else -1) for t in shapes)


@settings(max_examples=25, deadline=None)
@given(
    length=st.floats(300, 2000),
    width=st.floats(120, 400),
    depths=st.lists(st.floats(0.5, 18), min_size=2, max_size=2),
    corner=st.tuples(st.floats(5, 60), st.floats(5, 30)),
    stop=st.floats(40, 80),
)
def test_a_routed_board_has_the_volume_its_traces_tell(length, width, depths, corner, stop):
    part = Part(board(length, width, 19, "red oak")).cut(
        dado(70, 19, depths[0], stop, width),
        dado(120, 10, depths[1], 0, width, "back"),
        Notch(rectangle(corner[0] + 1, corner[1] + 1, -1, -1)),
        Opening(circle((200, width / 2), 30)),
        Bore((250, 35, 19), DOWN, 8, 12),
        Rabbet(edge="far", width=10, depth=5, side="face", start=10, stop=length - 220),
    )

    assert routed_volume(traces(part)) == pytest.approx(solid(part).Volume(), rel=1e-9)


def plain(*cuts, length=400.0, width=200.0) -> Part:
    return Part(board(length, width, 19, "red oak")).cut(*cuts)


def layers(part: Part, inches: bool = False) -> list[str]:
    return [t.layer for t in traces(part, inches)]


def test_each_depth_and_each_side_has_its_own_layer():
    part = plain(dado(50, 19, 9.5, 0, 200), dado(90, 19, 6, 0, 200), dado(130, 19, 6, 0, 200, "back"))

    assert layers(part) == ["face side 6 mm deep", "face side 9.5 mm deep", "back side 6 mm deep", OUTLINE]


def test_back_side_work_is_drawn_where_it_lies_seen_from_the_face():
    trace = traces(plain(dado(50, 20, 6, 0, 80, "back")))[0]

    assert trace.outline.bounds == (50, 0, 70, 80)


def test_a_depth_is_told_to_a_thousandth_and_in_inches_where_the_order_speaks_them(tmp_path):
    assert layers(plain(groove(50, 6, 25.4 / 3, 0, 400)))[0] == "face side 8.467 mm deep"
    piece, _ = in_inches("bookcase")
    write_cutting(piece, tmp_path)
    side = ezdxf.readfile(tmp_path / "01-left-side.dxf")

    assert "face side 6 mm (0.236 in) deep" in side.layers
    assert side.header["$INSUNITS"] == 4


def test_the_same_shape_twice_on_a_layer_is_drawn_once():
    hole = Bore((100, 100, 19), DOWN, 10, 6)
    trench, backwards = Channel((50, 0), (50, 200), 19, 6), Channel((50, 200), (50, 0), 19, 6)

    assert layers(plain(hole, hole, trench, backwards)) == ["face side 6 mm deep"] * 2 + [OUTLINE]
    assert len(traces(plain(hole, Bore((100, 100, 0), UP, 10, 6)))) == 3, "the other side is another cut"


def test_a_through_hole_from_both_sides_is_one_hole():
    assert layers(plain(Bore((100, 100, 19), DOWN, 8, 19), Bore((100, 100, 0), UP, 8, 19))) == [THROUGH, OUTLINE]


def test_a_counterbore_is_a_pocket_and_a_hole_and_both_are_circles(tmp_path):
    piece = Piece("board", Parameters())
    piece.add("cover", board(400, 200), place()).cut(Counterbore((100, 60, 19), DOWN, 10, 6, 4.5))
    write_cutting(piece, tmp_path)
    space = ezdxf.readfile(tmp_path / "01-cover.dxf").modelspace()
    circles = {(c.dxf.layer, tuple(c.dxf.center), c.dxf.radius) for c in space.query("CIRCLE")}

    assert circles == {("face side 6 mm deep", (100, 60, 0), 5.0), (THROUGH, (100, 60, 0), 2.25)}


def test_a_notch_is_sawn_into_the_outline():
    shapes = traces(plain(Notch(rectangle(31, 13, -1, -1))))

    assert [t.layer for t in shapes] == [OUTLINE]
    assert len(shapes[0].outline.corners) == 6
    assert shapes[0].outline.area == pytest.approx(400 * 200 - 30 * 12)


def test_work_on_edges_is_in_the_readme_and_not_in_the_file(written):
    readme = (written[1] / "README.txt").read_text(encoding="utf-8")

    assert "not in the file: groove" in readme
    assert "not in the file: dado" not in readme


def test_a_bent_part_is_drawn_flat(bench, tmp_path):
    write_cutting(bench, tmp_path)
    outline = ezdxf.readfile(tmp_path / "11-band.dxf").modelspace().query(f'*[layer=="{OUTLINE}"]').first

    assert max(x for x, *_ in outline) == pytest.approx(bench["band"].wood.stock.length, abs=1e-6)
    assert "bend after cutting, to a radius of 2750 mm" in (tmp_path / "README.txt").read_text(encoding="utf-8")


def test_a_part_given_as_a_solid_gets_no_file(tmp_path):
    piece = Piece("odd", Parameters())
    piece.add("shelf", board(400, 200), place())
    piece.given("knob", solid(piece["shelf"].part))
    names = [p.name for p in write_cutting(piece, tmp_path)]

    assert names == ["01-shelf.dxf", "README.txt"]
    assert "not cut from stock and not in these files: knob" in (tmp_path / "README.txt").read_text(encoding="utf-8")


class TestProofFinds:
    @pytest.fixture
    def side(self, bookcase, tmp_path):
        write_cutting(bookcase, tmp_path)
        return bookcase, tmp_path, tmp_path / "01-left-side.dxf"

    def spoiled(self, side, spoil) -> list[str]:
        piece, folder, path = side
        doc = ezdxf.readfile(path)
        spoil(doc)
        doc.saveas(path)
        proof = cutting_proof(piece, folder)
        assert proof.held == proof.checked - 1
        return cutting_complaints(piece, folder)[path.name]

    def test_a_missing_pocket(self, side):
        found = self.spoiled(side, lambda doc: doc.modelspace().delete_entity(doc.modelspace()[0]))

        assert "4 shapes on face side 6 mm deep, where the cuts explain 5" in found

    def test_an_open_shape(self, side):
        found = self.spoiled(side, lambda doc: setattr(doc.modelspace()[0], "closed", False))

        assert "a shape on face side 6 mm deep is open" in found

    def test_a_second_outline_and_an_unexplained_layer(self, side):
        found = self.spoiled(
            side, lambda doc: doc.modelspace().add_line((0, 0), (9, 9), dxfattribs={"layer": "scribble"})
        )

        assert "1 shapes on scribble, where the cuts explain 0" in found

    def test_an_outline_off_by_a_tenth(self, side):
        def stretch(doc):
            outline = doc.modelspace().query(f'*[layer=="{OUTLINE}"]').first
            outline.set_points([(x + 0.1 * (x > 600), y, b) for x, y, b in outline.get_points("xyb")], format="xyb")

        assert any("no shape on outline" in text for text in self.spoiled(side, stretch))

    def test_inches(self, side):
        assert "its units are not millimetres" in self.spoiled(side, lambda doc: setattr(doc, "units", 1))

    def test_a_file_too_many_and_one_too_few(self, side):
        piece, folder, path = side
        path.rename(folder / "99-stranger.dxf")
        found = cutting_complaints(piece, folder)

        assert found[path.name] == ["the file is missing"]
        assert found["99-stranger.dxf"] == ["no part explains this file"]

    def test_a_file_that_is_no_dxf(self, side):
        piece, folder, path = side
        path.write_text("no drawing", encoding="utf-8")

        assert "can't be read" in cutting_complaints(piece, folder)[path.name][0]
