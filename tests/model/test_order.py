"""Reading orders: the shipped examples, defaults, units, names, and the template that reads back."""

import json
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from model.errors import DesignError, OrderError
from model.order import Order, order_from_text, read_order
from model.order_sections import SECTIONS
from model.order_template import order_template
from model.orders import example_names, example_path
from model.parameters import (
    Angle,
    BoardWidths,
    Length,
    Parameters,
    WidthRange,
    angle,
    board_widths,
    choice,
    count,
    flag,
    size,
)
from model.pieces.stool import Stool

DESIGNS = ("settle", "bookcase")
UNITS = ("mm", "cm", "m", "in", "ft-in", "in.dec")


class Bookcase(Parameters):
    """Two sides, dadoed shelves, a boarded back."""

    height: Length = size("1200 mm", "300 mm", "2400 mm", "floor to top")
    width: Length = size("800 mm", "250 mm", "800 mm", "outside to outside")
    bead: Length = size("6 mm", "3 mm", "12 mm", "bead on the boards")
    shelves: int = count(3, 1, 12, "shelves between bottom and top")
    lean: Angle = angle(2.5, 0, 5, "back from upright")
    edge: str = choice("plain", ("plain", "bead"), "front edges")
    back: bool = flag(True, "a boarded back")
    boards: BoardWidths = board_widths(WidthRange(90, 140, 7), 40, 200, "back boards")

    def check(self) -> None:
        if self.shelves * 40 > self.height:
            raise DesignError(f"{self.shelves} shelves don't go into {self.show(self.height)}; take fewer")


def order(rest: str = "", units: str = "mm") -> Order:
    return order_from_text(f'piece = "bookcase"\nname = "b"\nunits = "{units}"\n{rest}', "mine.toml", DESIGNS)


def test_examples_ship_and_read() -> None:
    assert {"refuge-bench", "refuge-bookcase", "refuge-stool", "refuge-table"} <= set(example_names())
    for name in example_names():
        read = read_order(name)
        assert (read.name, read.path) == (name, example_path(name))
    for name in ("refuge-bench", "refuge-bookcase"):
        assert (read_order(name).wood.species, read_order(name).wood.thickness) == ("eastern white pine", 19)


def test_the_template_names_the_wood_of_a_design_that_is_made_of_another() -> None:
    written = order_template("stool", Stool)
    read = order_from_text(written, "stool.toml", ("stool",))
    assert read.wood.species == "plywood"
    assert read.parameters(Stool) == Stool()
    assert '\n# species = "eastern white pine"' in order_template("bookcase", Bookcase)


@pytest.mark.parametrize(("design", "example"), [("settle", "refuge-bench"), ("bookcase", "refuge-bookcase")])
def test_a_design_name_stands_for_its_example(design: str, example: str) -> None:
    assert read_order(design, DESIGNS).name == example


def test_a_file_goes_before_an_example(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("settle").write_text('piece = "settle"\nname = "mine"\n', encoding="utf-8")
    Path("bookcase").mkdir()

    assert read_order("settle", DESIGNS).name == "mine"
    assert read_order("bookcase", DESIGNS).name == "refuge-bookcase"


def test_a_byte_order_mark_and_windows_line_ends_are_read(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_bytes('\ufeffpiece = "settle"\r\nname = "mine"\r\n'.encode())

    assert read_order(file, DESIGNS).title == "mine"


def test_only_the_first_keys_are_needed() -> None:
    read = order()

    assert {name: getattr(read, name) for name in SECTIONS} == {name: cls() for name, cls in SECTIONS.items()}
    assert read.parameters(Bookcase) == Bookcase()


def test_bare_numbers_follow_the_units_everywhere() -> None:
    read = order(
        "[size]\nheight = 40\n[wood]\nthickness = 0.75\n"
        '[shop]\nkerf = 0.125\ncutter_diameters = [0.25, "10 mm"]\nsheet_sizes = [[96, 48]]\n'
        "accuracy = { sawn = 0.03125 }",
        units="in",
    )

    assert read.wood.thickness == 19.05
    assert read.shop.kerf == 3.175
    assert read.shop.cutter_diameters == (6.35, 10)
    assert read.shop.sheet_sizes == ((2438.4, 1219.2),)
    assert (read.shop.accuracy.sawn, read.shop.accuracy.cnc) == (0.79375, 0.1)
    assert read.parameters(Bookcase) == Bookcase(height=1016, thickness=19.05, units="in")


def test_a_season_keeps_what_the_order_leaves_out() -> None:
    place = order("[place]\ndamp = { humidity_pct = 80 }").place

    assert (place.damp.humidity_pct, place.damp.temperature_c) == (80, 22)


def test_a_stair_keeps_what_the_order_leaves_out() -> None:
    place = order('[place]\nstair = { width = 800, landing = 850, turn = "half" }\nceiling = 2300').place

    assert (place.stair.width, place.stair.headroom, place.stair.landing) == (800, 2000, 850)
    assert (place.stair.turn, place.ceiling) == ("half", 2300)


@pytest.mark.parametrize(
    ("said", "wrong"),
    [
        ("[place]\nfinger_gap = [25, 8]", "finger_gap must be two lengths"),
        ("[place]\nhinge_gap = [5]", "hinge_gap must be two lengths"),
        ("[shop]\ndrawer_play = [2, 1]", "drawer_play must be two lengths"),
    ],
)
def test_limits_from_and_up_to_must_rise(said: str, wrong: str) -> None:
    with pytest.raises(OrderError, match=wrong):
        order(said)


def test_a_species_gets_its_trade_name() -> None:
    assert order('[wood]\nspecies = "Pine, Eastern White"').wood.species == "eastern white pine"


def test_choices_are_read_in_any_case() -> None:
    drawing = order('[drawing]\npaper = "a2"\nprojection = "First"\ndenominator = 32').drawing

    assert (drawing.paper, drawing.projection, drawing.denominator) == ("A2", "first", 32)


def test_a_design_error_names_the_file() -> None:
    with pytest.raises(DesignError, match=r"^mine\.toml: 12 shelves don't go into 15 3/4 in; take fewer$"):
        order("[size]\nheight = '400 mm'\nshelves = 12", units="in").parameters(Bookcase)


def test_as_read_is_plain_json_with_defaults_filled_in() -> None:
    read = read_order("refuge-bench", DESIGNS).as_read()

    assert json.loads(json.dumps(read, allow_nan=False)) == read
    assert read["size"]["board_widths"] == {"from": 90, "to": 140, "seed": 7}
    assert read["shop"]["kerf"] == 3.2
    assert str(Path.cwd()) not in json.dumps(read)


@pytest.mark.parametrize("units", UNITS)
def test_template_reads_back_as_the_defaults(units: str) -> None:
    written = order_template("bookcase", Bookcase, units)
    read = order_from_text(written, designs=DESIGNS).parameters(Bookcase)

    assert read.units == units
    for said in Bookcase.declared():
        ours, default = getattr(read, said), getattr(Bookcase(), said)
        if isinstance(default, float):
            # An order in fractions rounds long lengths to 1/16 in.
            assert ours == pytest.approx(default, abs=25.4 / 32 if units in ("in", "ft-in") else 0.05)
    assert (read.bead, read.lean) == (6, 2.5)
    assert read.width <= 800, "the rounding may not leave the limits"
    assert read.boards.seed == 7  # type: ignore[union-attr]


@pytest.mark.parametrize("units", UNITS)
def test_every_line_of_the_template_can_be_uncommented(units: str) -> None:
    written = order_template("bookcase", Bookcase, units)
    lines = [line.removeprefix("# ") if " = " in line else line for line in written.splitlines()]
    read = order_from_text("\n".join(lines), designs=DESIGNS)

    toml = tomllib.loads("\n".join(lines))
    for name, section in SECTIONS.items():
        assert list(toml[name]) == list(section.declared())
    assert (read.wood, read.prices) == (SECTIONS["wood"](), SECTIONS["prices"]())
    if units == "mm":
        assert (read.place, read.shop) == (SECTIONS["place"](), SECTIONS["shop"]())


def test_template_says_meaning_and_limits() -> None:
    written = order_template("bookcase", Bookcase)

    assert "height = 1200" in written
    assert "# floor to top; between 300 mm and 2400 mm" in written
    assert "# shelves between bottom and top; a whole number between 1 and 12" in written


def test_reading_an_order_leaves_the_heavy_libraries_alone() -> None:
    heavy = {"cadquery", "OCP", "numpy", "shapely", "ezdxf", "trimesh", "reportlab", "jinja2"}
    script = "import sys, model.order, model.order_template; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True).stdout

    assert not heavy & set(loaded.split())


@pytest.mark.parametrize(("units", "paper"), [("mm", "A3"), ("in", "B"), ("ft-in", "B"), ("in.dec", "B")])
def test_a_set_in_inches_comes_on_the_sheets_of_that_trade_unless_another_is_named(units, paper):
    head = f'piece = "settle"\nname = "x"\nunits = "{units}"\n'
    assert order_from_text(head).drawing.paper == paper
    assert order_from_text(head + '[drawing]\npaper = "A2"').drawing.paper == "A2"
    assert f'paper = "{paper}"' in order_template("stool", Stool, units)
