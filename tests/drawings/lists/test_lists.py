"""The lists, read back as a spreadsheet would read them."""

import csv
from collections import Counter
from pathlib import Path

import pytest

from drawings.lists.distinct import in_short
from drawings.lists.figures import figures, overall_mm
from drawings.lists.part_lines import GLUE_UP, part_lines
from drawings.lists.write import write_lists
from model.lengths import parse_length
from model.order import Order, order_from_text
from model.parameters import Parameters
from model.piece import Piece
from model.placement import place
from model.solids import placed, solid, standing
from model.stock import board, panel, sheet
from model.wood.lumber import board_feet
from model.wood.species import density, species_named
from tests.drawings.made_pieces import example, in_inches, made

CASES = {
    "bench, mm": lambda: example("refuge-bench"),
    "bookcase, mm": lambda: example("refuge-bookcase"),
    "settle, inches": lambda: in_inches("settle"),
    "bookcase, feet": lambda: in_inches("bookcase", "ft-in"),
}


@pytest.fixture(scope="module", params=CASES)
def case(request: pytest.FixtureRequest) -> tuple[Piece, Order]:
    return CASES[request.param]()


@pytest.fixture(scope="module")
def lists(case: tuple[Piece, Order], tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[dict[str, str]]]:
    return {path.stem: read(path) for path in write_lists(*case, tmp_path_factory.mktemp("lists"))}


def read(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def only(row: dict[str, str], beginning: str) -> str:
    """The cell of the one column whose header begins so and is not the exact one."""
    (found,) = [v for k, v in row.items() if k.startswith(f"{beginning} (")]
    return found


def test_four_lists_with_every_row_as_long_as_its_header(lists):
    assert list(lists) == ["parts", "hardware", "stock", "setups"]
    for rows in lists.values():
        assert rows
        assert all(None not in row and None not in row.values() for row in rows)


def test_every_part_is_counted_once(case, lists):
    assert sum(int(row["quantity"]) for row in lists["parts"]) == len(case[0].parts)
    assert [int(row["item"]) for row in lists["parts"]] == list(range(1, len(lists["parts"]) + 1))


def test_board_feet_add_up_from_each_to_total_to_stock_to_figures(case, lists):
    parts = lists["parts"]
    total = sum(float(row["board feet total"]) for row in parts)
    bought = sum(float(row["board feet to buy"]) for row in lists["stock"])

    for row in parts:
        each = float(row["board feet each"])
        assert float(row["board feet total"]) == pytest.approx(
            each * int(row["quantity"]), abs=0.005 * (1 + int(row["quantity"]))
        )
    assert sum(float(row["board feet, rough"]) for row in lists["stock"]) == pytest.approx(total, abs=0.01 * len(parts))
    assert figures(*case)["board_feet"] == pytest.approx(total, abs=0.01 * len(parts))
    assert bought == pytest.approx(1.2 * total, abs=0.02 * len(parts))


def test_board_feet_are_those_of_the_rough_sizes_listed(lists):
    for row in lists["parts"]:
        length, width = (float(row[f"{what}, exact mm"]) for what in ("rough length", "rough width of each board"))
        nominal = parse_length(row["nominal thickness (inches)"], "in") / 25.4
        each = int(row["boards in each part"]) * board_feet(length, width, nominal)

        assert float(row["board feet each"]) == pytest.approx(each, abs=0.006)


def test_printed_lengths_are_the_exact_ones_rounded_to_what_the_order_prints(case, lists):
    units = case[1].units
    half = 0.05 if units == "mm" else 25.4 / 32
    unit = {"mm": "mm", "in": "inches", "ft-in": "feet and inches"}[units]
    checked = 0
    for rows in lists.values():
        for row in rows:
            for name in [k.removesuffix(", exact mm") for k in row if k.endswith(", exact mm")]:
                if printed := row.get(f"{name} ({unit})"):
                    assert parse_length(printed, "mm") == pytest.approx(
                        float(row[f"{name}, exact mm"]), abs=half + 0.001
                    )
                    checked += 1
    assert checked > 50


def test_rough_sizes_are_larger_than_finished_ones_by_the_allowances(case):
    for line in part_lines(case[0]):
        length, width, thickness = line.finished

        assert line.rough.length == pytest.approx(length + 25)
        assert line.boards * (line.rough.width - 6) == pytest.approx(width)
        assert line.rough.nominal.dressed_mm >= thickness - 0.06


def test_hardware_adds_up_and_every_item_says_where(case, lists):
    rows = lists["hardware"]

    assert sum(int(row["quantity"]) for row in rows) == len(case[0].hardware)
    for row in rows:
        told = [int(place.rsplit(": ", 1)[1]) for place in row["where used: how many"].split("; ")]
        assert sum(told) == int(row["quantity"])
    assert len({(row["item"], row["size"]) for row in rows}) == len(rows)


def test_setups_serve_every_cut_of_their_kind(case, lists):
    listed: Counter[str] = Counter()
    for row in lists["setups"]:
        listed[row["cut"]] += int(row["cuts"])
    made_cuts = Counter(cut.name for placed in case[0] for cut in placed.wood.cuts)

    for kind in ("dado", "groove", "rabbet", "tongue", "edge groove", "bead", "bevel"):
        assert listed[kind] == made_cuts[kind], kind


def test_nothing_in_the_lists_is_garbled_by_a_spreadsheet(case, tmp_path):
    for path in write_lists(*case, tmp_path):
        assert path.read_bytes().isascii(), path.name


def test_the_same_order_gives_the_same_bytes(case, tmp_path):
    first = [p.read_bytes() for p in write_lists(*case, tmp_path / "a")]

    assert first == [p.read_bytes() for p in write_lists(*case, tmp_path / "b")]


def test_what_a_maker_must_know_of_the_bench(tmp_path):
    rows = {row["parts"]: row for row in read(write_lists(*example("refuge-bench"), tmp_path)[0])}

    assert rows["right side"]["notes"] == "mirror image of left side; glue up from 3 boards"
    assert rows["band"]["kind"] == "bent board"
    assert rows["band"]["notes"].startswith("bend to a radius of 2750, hollow on the back side; 1539.8 is its length")
    assert rows["front board 1 to 11"]["quantity"] == "11"
    assert "dado 19 x 9.5 deep, face side, 416 from left end" in rows["left side"]["cuts (lengths in mm)"]


def test_an_inch_order_tells_its_cuts_in_inches_and_in_mm(tmp_path):
    side = read(write_lists(*in_inches("settle"), tmp_path)[0])[0]

    assert 'dado 3/4" x 3/8" deep' in side["cuts (lengths in inches)"]
    assert "dado 19.1 x 9.5 deep" in side["cuts (lengths in mm)"]


@pytest.fixture
def mixed() -> tuple[Piece, Order]:
    """A piece of every kind of stock, and a part given as a solid."""
    order = order_from_text('piece = "bookcase"\nname = "mixed"\n[wood]\nspecies = "red oak"\n')
    piece = Piece("mixed", Parameters(species="red oak", thickness=20.6))
    piece.add("shelf", board(800, 200), place())
    piece.add("top", panel(1000, 400), place())
    piece.add("back", sheet(1000, 500, 11.9, "red oak"), place())
    piece.given("knob", solid(piece["shelf"].part))
    return piece, order


def test_hardwood_is_bought_in_quarters_and_sheets_by_area(mixed, tmp_path):
    parts, _, stock, _ = map(read, write_lists(*mixed, tmp_path))

    assert [row["nominal thickness (inches)"] for row in parts] == ["4/4", "4/4", "15/32", ""]
    assert parts[1]["boards in each part"] == "3"
    assert [row["board feet total"] != "" for row in parts] == [True, True, False, False]
    assert [
        (row["kind"], row["sheet area (m2)"], row["sheet area to buy (m2)"]) for row in stock if row["kind"] == "sheet"
    ] == [("sheet", "0.5", "0.6")]


def test_a_given_solid_is_listed_as_no_stock_and_weighed_by_its_solid(mixed, tmp_path):
    knob = read(write_lists(*mixed, tmp_path)[0])[3]
    alone = Piece("knob", Parameters(species="red oak"))
    alone.given("knob", solid(mixed[0]["shelf"].part))

    assert (knob["kind"], knob["finished length (mm)"], knob["grain"]) == ("given solid", "", "")
    volume = 800 * 200 * 20.6 / 1e9
    assert figures(alone, mixed[1])["mass_kg"] == pytest.approx(
        volume * density(species_named("red oak"), 8), abs=0.001
    )


@pytest.mark.parametrize("width", [100, 146.4, 146.5, 292.8, 293, 600])
def test_a_panel_takes_as_few_boards_as_stay_flat(width):
    piece = Piece("panel", Parameters())
    piece.add("panel", panel(800, width), place())
    line = part_lines(piece)[0]

    assert line.rough.width <= GLUE_UP + 1e-6
    assert line.boards == 1 or width / (line.boards - 1) + 6 > GLUE_UP


@pytest.mark.parametrize("name", ["refuge-bench", "refuge-bookcase"])
def test_figures_with_and_without_solids_agree_but_for_edge_work(name):
    piece, order = example(name)
    shapes = standing(piece)
    exact, flat = figures(piece, order, shapes), figures(piece, order)

    assert exact["mass_kg"] < flat["mass_kg"] < 1.06 * exact["mass_kg"]
    volume = sum(shape.Volume() for shape in shapes.values()) / 1e9
    assert exact["mass_kg"] == pytest.approx(volume * density(species_named("eastern white pine"), 8), abs=0.001)
    assert "overall" not in flat


def test_the_bookcase_measures_what_was_ordered():
    piece, order = example("refuge-bookcase")
    found = figures(piece, order, standing(piece))

    assert found["overall"] == "900 mm wide, 250 mm deep, 1200 mm high"
    assert (found["parts"], found["joints"], found["hardware"]) == (16, len(piece.joints), len(piece.hardware))
    assert found["glue_area_m2"] == pytest.approx(sum(j.glue_area for j in piece.joints) / 1e6, abs=1e-4)


def test_the_overall_size_does_not_depend_on_where_the_piece_stands():
    piece, _ = example("refuge-bookcase")
    moved = {name: placed(shape, place((100.0, -50.0, 30.0))) for name, shape in standing(piece).items()}

    assert overall_mm(moved) == pytest.approx((900, 250, 1200), abs=1e-4)


def test_one_changed_number_reaches_the_lists(tmp_path):
    text = 'piece = "bookcase"\nname = "wider"\n[size]\nwidth = {}\n'
    shelf = [
        read(write_lists(*made(order_from_text(text.format(width))), tmp_path)[0])[2]["finished length, exact mm"]
        for width in (900, 950)
    ]

    assert float(shelf[1]) - float(shelf[0]) == 50


def test_names_in_short_lose_nobody():
    assert in_short(["a 1", "a 2", "b", "a 3"]) == "a 1, 2, b, a 3"
    assert in_short([f"shelf {k} of bay {n}" for n in (1, 2, 3) for k in (1,)]) == "shelf 1 of bay 1 to 3"
    assert in_short(["7", "8", "9"]) == "7 to 9"
