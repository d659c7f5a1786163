"""Declared parameters: limits, units and remedies."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.errors import DesignError, OrderError
from model.lengths import parse_length
from model.parameters import (
    Angle,
    BoardWidths,
    Length,
    Parameters,
    WidthList,
    WidthRange,
    angle,
    board_widths,
    choice,
    count,
    describe,
    flag,
    ratio,
    size,
)
from model.written import span, spoken


class Bench(Parameters):
    """A bench to test with."""

    height: Length = size("1200 mm", "300 mm", "2400 mm", "floor to top")
    chord: Length = size("4 ft", 500, "8 ft", "along the back")
    shelves: int = count(3, 1, 12, "shelves between")
    lean: Angle = angle(5, 0, 20, "back from upright")
    rise: float = ratio(0.5, 0, 1, "of the depth")
    edge: str = choice("bead", ("bead", "plain"), "edge treatment")
    hatch: bool = flag(True, "a hinged hatch in the seat")
    boards: BoardWidths = board_widths(WidthRange(90, 140, 7), 40, 200, "widths of the back boards")

    def check(self) -> None:
        if self.chord > 2 * self.height:
            raise DesignError(f"chord is {self.show(self.chord)}; at most {self.show(2 * self.height)} here")


def test_defaults_are_millimetres_with_the_wood_beside_them() -> None:
    bench = Bench()

    assert (bench.height, bench.chord, bench.shelves) == (1200.0, 4 * 304.8, 3)
    assert (bench.thickness, bench.species) == (19.0, "eastern white pine")
    assert bench.boards == WidthRange(90.0, 140.0, 7)


def test_description_lists_what_a_maker_can_set_and_nothing_else() -> None:
    described = describe(Bench)

    assert [said.name for said in described] == [
        "height", "chord", "shelves", "lean", "rise", "edge", "hatch", "boards",
    ]  # fmt: skip
    height = described[0]
    assert (height.kind, height.default, height.low, height.high) == ("length", 1200, 300, 2400)
    assert height.what == "floor to top"
    assert described[5].options == ("bead", "plain")


@pytest.mark.parametrize("low_or_high", [300, 2400, "300 mm", "240 cm", "2.4 m"])
def test_limits_are_included(low_or_high: object) -> None:
    assert Bench.read({"height": low_or_high, "chord": 500}, "mm").height in (300, 2400)


@pytest.mark.parametrize(
    ("units", "written", "mm"),
    [("mm", 1500, 1500), ("in", 50, 1270), ("ft-in", "4' 2\"", 1270), ("cm", 150, 1500), ("in", "1500 mm", 1500)],
)
def test_bare_numbers_are_in_the_units_of_the_order(units: str, written: object, mm: float) -> None:
    assert Bench.read({"height": written}, units).height == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize(
    ("key", "written", "message"),
    [
        ("height", "3 m", r'^\[size\] height = "3 m": must lie between 300 mm and 2400 mm; 3 m is above it$'),
        ("height", 299.99, r"height = 299\.99: must lie between 300 mm and 2400 mm; 299\.99 mm is below it"),
        ("height", 0, r"height = 0: must lie between 300 mm and 2400 mm"),
        ("height", -1200, r"height = -1200: must lie between 300 mm and 2400 mm"),
        ("height", math.nan, r"height = nan: must lie between 300 mm and 2400 mm; nan is not a number"),
        ("height", math.inf, r"height = inf: must lie between 300 mm and 2400 mm; inf is not a number"),
        ("height", 10**400, r"height = a very large number: must lie between"),
        ("height", True, r"height = true: must lie between .* true is not a number"),
        ("height", [1200], r"height = \[1200\]: must lie between .* \[1200\] is not a number"),
        ("height", "tall", r'height = "tall": must lie between .*; can\'t read "tall" as a length'),
        ("shelves", 0, r"shelves = 0: must be a whole number between 1 and 12; 0 is below it"),
        ("shelves", 3.0, r"shelves = 3\.0: must be a whole number between 1 and 12; 3\.0 is not a whole number"),
        ("shelves", True, r"shelves = true: must be a whole number"),
        ("shelves", "3", r'shelves = "3": must be a whole number'),
        ("lean", 21, r"lean = 21: must lie between 0° and 20°; 21° is above it"),
        ("lean", "5 deg", r'lean = "5 deg": must lie between 0° and 20°; "5 deg" is not a number'),
        ("rise", 1.01, r"rise = 1\.01: must lie between 0 and 1; 1\.01 is above it"),
        ("edge", "ogee", r'edge = "ogee": must be one of "bead", "plain"; "ogee" is none of them'),
        ("hatch", 1, r"hatch = 1: must be true or false; 1 is neither"),
        ("hight", 1200, r'hight = 1200: there is no such key; did you mean "height"\? Known: height, chord,'),
        ("thickness", 19, r"thickness = 19: there is no such key"),
        ("check", 19, r"check = 19: there is no such key"),
    ],
)
def test_refusal_names_key_value_and_remedy(key: str, written: object, message: str) -> None:
    with pytest.raises(OrderError, match=message):
        Bench.read({key: written}, "mm", where="[size] ")


def test_every_wrong_key_is_told_at_once() -> None:
    with pytest.raises(OrderError) as refused:
        Bench.read({"height": "3 m", "shelves": 0, "hatch": False}, "mm")

    assert [line.split(" = ")[0] for line in str(refused.value).splitlines()] == ["height", "shelves"]


@pytest.mark.parametrize(
    ("units", "limits"),
    [("mm", "300 mm and 2400 mm"), ("in", "11 13/16 in and 94 7/16 in"), ("ft-in", "11 13/16 in and 7 ft 10 7/16 in")],
)
def test_limits_are_printed_in_the_units_of_the_order(units: str, limits: str) -> None:
    with pytest.raises(OrderError, match=f"must lie between {limits}; 3 m is above it"):
        Bench.read({"height": "3 m"}, units)


@settings(deadline=None)
@given(
    low=st.floats(1, 5000), width=st.floats(4, 5000), units=st.sampled_from(["mm", "cm", "m", "in", "ft-in", "in.dec"])
)
def test_a_printed_limit_is_never_refused(low: float, width: float, units: str) -> None:
    high = low + width
    for printed in span(low, high, units).split(" and "):
        assert low - 1e-5 <= parse_length(printed) <= high + 1e-5


@settings(deadline=None)
@given(mm=st.floats(0, 20000), units=st.sampled_from(["mm", "cm", "m", "in", "ft-in", "in.dec"]))
def test_a_spoken_length_carries_its_unit(mm: float, units: str) -> None:
    # Half of the coarsest printed step, 1/16 in; read as metres, so that a missing unit shows.
    assert parse_length(spoken(mm, units), "m") == pytest.approx(mm, abs=25.4 / 32 + 1e-6)


@pytest.mark.parametrize(
    ("written", "widths"),
    [
        ([90, "100 mm", "12 cm"], WidthList((90, 100, 120))),
        ({"from": 90, "to": "14 cm", "seed": 3}, WidthRange(90, 140, 3)),
        ({"from": 100, "to": 100}, WidthRange(100, 100, 1)),
    ],
)
def test_board_widths_are_a_list_or_a_range(written: object, widths: BoardWidths) -> None:
    assert Bench.read({"boards": written}, "mm").boards == widths


@pytest.mark.parametrize(
    ("written", "trouble"),
    [
        ([], "it has 0 entries"),
        ([90] * 201, "it has 201 entries"),
        ([90, 201], "201 mm is above it"),
        ([90, math.nan], "nan is not a number"),
        ([90, True], "true is not a number"),
        (90, "90 is not a list"),
        ({"from": 140, "to": 90, "seed": 1}, "from is above to"),
        ({"from": 90, "seed": 1}, "both from and to are needed"),
        ({"from": 90, "to": 140, "sed": 1}, 'did you mean "seed"'),
        ({"from": 90, "to": 140, "seed": 1.5}, "1.5 is not a whole number"),
        ({"from": 90, "to": 140, "seed": -1}, "seed must be a whole number from 0"),
        ({"from": 1, "to": 140, "seed": 1}, "1 mm is below it"),
    ],
)
def test_board_widths_refused(written: object, trouble: str) -> None:
    with pytest.raises(OrderError, match=rf"boards = .*: must be a list of widths.* 40 mm and 200 mm; .*{trouble}"):
        Bench.read({"boards": written}, "mm")


def test_values_that_cannot_stand_together_are_a_design_error() -> None:
    with pytest.raises(DesignError, match="chord is 1500 mm; at most 1000 mm here"):
        Bench(chord=1500, height=500)
    with pytest.raises(DesignError, match="chord is 60 in; at most 39 3/8 in here"):
        Bench.read({"chord": 60, "height": "500 mm"}, "in", given={"units": "in"})


def test_made_from_python_the_same_limits_hold() -> None:
    with pytest.raises(OrderError, match="height = 10: must lie between 300 mm and 2400 mm"):
        Bench(height=10)
    with pytest.raises(OrderError, match='hieght = 500: there is no such key; did you mean "height"'):
        Bench(hieght=500)
    with pytest.raises(OrderError, match="thickness = -1"):
        Bench(thickness=-1)


def test_one_change_is_checked_and_leaves_the_rest() -> None:
    inches = Bench(units="in", height=1000, boards=WidthList((90, 100)))

    assert inches.but(height=1500) == Bench(units="in", height=1500, boards=WidthList((90, 100)))
    with pytest.raises(OrderError, match="height = 9999"):
        inches.but(height=9999)


def test_parameters_are_frozen() -> None:
    with pytest.raises(ValueError, match="frozen"):
        Bench().height = 1300  # type: ignore[misc]


def test_a_default_outside_its_own_limits_is_refused_where_it_is_declared() -> None:
    with pytest.raises(OrderError, match="must lie between 300 mm and 400 mm; 1000 mm is above it"):
        size("1 m", 300, 400, "wrong")
