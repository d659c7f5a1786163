"""Bad input: every refusal is one OrderError that names file, key and remedy."""

import json
import math
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.errors import OrderError
from model.order import HEAD, Order, order_from_text, read_order
from model.order_sections import SECTIONS
from model.parameters import BoardWidths, Length, Parameters, WidthRange, board_widths, count, flag, size

DESIGNS = ("settle", "bookcase")
HEADER = 'piece = "bookcase"\nname = "mine"\nunits = "in"\n'


class Bookcase(Parameters):
    """A bookcase to test with."""

    height: Length = size("1200 mm", "300 mm", "2400 mm", "floor to top")
    shelves: int = count(3, 1, 12, "shelves between")
    back: bool = flag(True, "a boarded back")
    boards: BoardWidths = board_widths(WidthRange(90, 140, 7), 40, 200, "back boards")


def read(text: str) -> tuple[Order, Bookcase]:
    order = order_from_text(text, "somewhere/mine.toml", DESIGNS)
    return order, order.parameters(Bookcase)


def refusal(text: str) -> str:
    with pytest.raises(OrderError) as refused:
        read(text)
    message = str(refused.value)
    assert all(line.startswith("mine.toml: ") for line in message.splitlines())
    assert "somewhere" not in message
    return message


def test_a_missing_file_lists_the_examples(tmp_path: Path) -> None:
    with pytest.raises(
        OrderError, match=r'"refuge-bnch\.toml": there is no such file.* did you mean "refuge-bench"'
    ) as bad:
        read_order(tmp_path / "refuge-bnch.toml", DESIGNS)
    assert "Known: refuge-bench, refuge-bookcase" in str(bad.value)
    assert str(tmp_path) not in str(bad.value)


@pytest.mark.parametrize("name", ["", ".", "..", "/", "a\0b", "y" * 5000, "~", "refuge-bench/", "../refuge-bench"])
def test_no_odd_name_opens_anything(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(OrderError, match="there is no such file"):
        read_order(name, DESIGNS)


@pytest.mark.parametrize(
    ("raw", "message"),
    [
        (b'piece = "settle"\nname "mine"\n', r"mine\.toml: is not TOML: .*line 2, column 6.*; each line is"),
        (b'piece = "settle', r"is not TOML: .*line 1, column \d+.*text in \"quotes\""),
        (b"piece = settle\n", r"is not TOML: .*line 1, column 9"),
        (b'name = "a"\nname = "b"\n', r"is not TOML: .*line 2"),
        (b'piece = "settle"\nname = "M\xfcller"\n', r"mine\.toml: is not UTF-8 text at line 2, column 10; save it"),
        (b"x = " + b"[" * 5000, r"is not TOML that can be read: lists are nested too deeply"),
        (b"x = " + b"9" * 5000, r"is not TOML"),
        (b"\x00\x01\x02", r"is not TOML: .*line 1, column 1"),
        (b"#" * 1_000_001, r"is larger than 1000 kB; an order is a short TOML file"),
    ],
)
def test_not_toml_names_line_and_column(raw: bytes, message: str, tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_bytes(raw)
    with pytest.raises(OrderError, match=message):
        read_order(file, DESIGNS)


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        ("", 'piece is missing; add a first line such as  piece = "settle"'),
        ('piece = "settle"', 'name is missing; add a first line such as  name = "my-bench"'),
        ('piece = "setle"\nname = "a"', 'piece = "setle": there is no such piece; did you mean "settle"?'),
        ('piece = "throne"\nname = "a"', 'piece = "throne": there is no such piece. Known: settle, bookcase'),
        ('piece = 3\nname = "a"', "piece = 3: must be one line of text in quotes"),
        (HEADER.replace('"in"', '"inches"'), 'units = "inches": must be one of "mm", "cm", "m", "in"'),
        (HEADER.replace('"in"', "25.4"), "units = 25.4: must be one of"),
        (HEADER + 'title = """two\nlines"""', "title = "),
        (HEADER + "widht = 3", "widht: there is no such key"),
        (HEADER + "[wod]\nthickness = 1", '[wod]: there is no such section; did you mean "wood"?'),
        (HEADER + "wood = 3", "wood = 3: must be a section: a line [wood], its keys below it"),
        (HEADER + "[[size]]\nheight = 3", "must be a section: a line [size]"),
        (HEADER + "[wood]\nthicknes = 1", '[wood] thicknes = 1: there is no such key; did you mean "thickness"?'),
        (HEADER + '[wood]\nspecies = "eastern whit pine"', "did you mean eastern white pine"),
        (HEADER + "[wood]\nspecies = 3", "[wood] species = 3: must be a wood by its trade name in quotes"),
        (HEADER + "[wood]\nthickness = 0", "[wood] thickness = 0: must lie between 1/8 in and 3 7/8 in; 0 in is"),
        (HEADER + "[wood]\nmoisture_content = 99", "moisture_content = 99: must lie between 0 % and 30 %"),
        (HEADER + "[place]\ndry = { humidity_pct = 101 }", "humidity_pct = 101: must lie between 0 % and 100 %"),
        (HEADER + "[place]\ndry = { humidity_pct = 90 }", "[place] dry: humidity_pct = 90 must not be above the 65"),
        (HEADER + "[place]\ndry = 30", "[place] dry = 30: must be a table such as { temperature_c = 20"),
        (HEADER + "[place]\ndry = { humidity = 30 }", 'did you mean "humidity_pct"?'),
        (HEADER + "[shop]\nkerf = -0.125", "[shop] kerf = -0.125: must lie between 1/16 in and 3/8 in; -0.125 in"),
        (HEADER + "[shop]\ncutter_diameters = []", "[shop] cutter_diameters = []: must be a list of lengths"),
        (HEADER + "[shop]\nsheet_sizes = [96, 48]", "[shop] sheet_sizes = [96, 48]: must be a list of [length, width]"),
        (HEADER + "[shop]\nsheet_sizes = [[96, 48, 1]]", "[shop] sheet_sizes = [[96, 48, 1]]: must be"),
        (HEADER + "[shop]\ncnc_bed = [96]", "[shop] cnc_bed must be two lengths: [length, width]"),
        (HEADER + "[shop]\naccuracy = { sawn = 0 }", "sawn = 0: must lie between"),
        (HEADER + "[prices]\nhour = -1", "[prices] hour = -1: must lie between 0 and 1000000; -1 is below it"),
        (HEADER + "[prices]\nhour = nan", "[prices] hour = nan: must lie between 0 and 1000000; nan is not a number"),
        (HEADER + '[drawing]\npaper = "A9"', '[drawing] paper = "A9": must be one of "A4", "A3"'),
        (HEADER + "[drawing]\ndenominator = 12", "[drawing] denominator = 12: must be one of 2, 4, 8, 16, 32, 64"),
        (HEADER + "[drawing]\ndate = 2024-02-01", "[drawing] date = 2024-02-01: must be one line of text in quotes"),
        (HEADER + "[size]\nheigth = 40", '[size] heigth = 40: there is no such key; did you mean "height"?'),
        (HEADER + '[size]\nheight = "2.5 m"', '[size] height = "2.5 m": must lie between 11 13/16 in and 94 7/16 in'),
        (HEADER + '[size]\nheight = "tall"', "can't read \"tall\" as a length"),
        (HEADER + "[size]\nheight = inf", "[size] height = inf: must lie between"),
        (HEADER + "[size]\nheight = 0xffffffffffffffffffff", "[size] height = a very large number: must lie"),
        (HEADER + "[size]\nheight = 2024-02-01", "[size] height = 2024-02-01: must lie between"),
        (HEADER + "[size]\nshelves = 2.5", "[size] shelves = 2.5: must be a whole number between 1 and 12"),
    ],
)  # fmt: skip
def test_refusal_names_file_key_and_remedy(text: str, remedy: str) -> None:
    assert remedy in refusal(text)


@pytest.mark.parametrize(
    "name", ["", ".", "..", "../x", "a/b", "a\\\\b", "/etc", "C:", "a b", "é", "x" * 65, "a.b", "~", "-\\n"]
)
def test_a_name_never_leaves_the_output_folder(name: str) -> None:
    message = refusal(f'piece = "settle"\nname = "{name}"')
    assert "name = " in message
    assert "must be 1 to 64 letters, digits, - and _" in message


SAFE_KEYS = st.text("abcdefghijklmnopqrstuvwxyz_", min_size=1, max_size=12)
SCALARS = (
    st.text(max_size=30)
    | st.booleans()
    | st.integers(-(10**30), 10**30)
    | st.floats()
    | st.dates()
    | st.datetimes()
    | st.times()
    | st.sampled_from(["10' 8\"", "3/4", "-1 mm", "1e3", "0", "½ in", "nan", "inf"])
)
VALUES = st.recursive(
    SCALARS, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(SAFE_KEYS, inner, max_size=3), max_leaves=8
)
SECTION_KEYS = [(name, key) for name, section in SECTIONS.items() for key in section.declared()]
KEYS = [("", key) for key in HEAD] + SECTION_KEYS + [("size", key) for key in Bookcase.declared()]


def toml(value: Any) -> str:
    match value:
        case str():
            return json.dumps(value).replace("\x7f", "\\u007f")
        case bool():
            return str(value).lower()
        case list():
            return f"[{', '.join(map(toml, value))}]"
        case dict():
            return f"{{ {', '.join(f'{key} = {toml(item)}' for key, item in value.items())} }}"
        case int() | float():
            return repr(value)
        case _:
            return value.isoformat()


def order_with(section: str, key: str, value: Any) -> str:
    head = {"piece": "bookcase", "name": "mine", "units": "mm"}
    if not section:
        head[key] = value
    lines = [f"{name} = {toml(item)}" for name, item in head.items()]
    return "\n".join([*lines, f"[{section}]\n{key} = {toml(value)}" if section else ""])


def numbers_in(value: Any) -> list[float]:
    match value:
        case dict():
            return [number for item in value.values() for number in numbers_in(item)]
        case list() | tuple():
            return [number for item in value for number in numbers_in(item)]
        case int() | float():
            return [value]
        case _:
            return []


@settings(deadline=None)
@given(where=st.sampled_from(KEYS), value=VALUES)
def test_any_value_under_any_key_is_refused_or_sound(where: tuple[str, str], value: Any) -> None:
    try:
        order, parameters = read(order_with(*where, value))
    except OrderError:
        assert "mine.toml: " in refusal(order_with(*where, value))
        return
    as_read = order.as_read()
    json.dumps(as_read, allow_nan=False)
    assert all(math.isfinite(number) for number in numbers_in(parameters.model_dump()))
    assert 300 <= parameters.height <= 2400


@settings(deadline=None)
@given(
    where=st.sampled_from(KEYS),
    value=st.sampled_from([math.nan, math.inf, -math.inf, date(2024, 2, 1), [[[]]], {"a": 1}]),
)
def test_what_can_never_be_right_is_always_refused(where: tuple[str, str], value: Any) -> None:
    assert where[1] in refusal(order_with(*where, value))


@settings(deadline=None)
@given(raw=st.binary(max_size=200) | st.text(max_size=200).map(lambda text: text.encode("utf-8", "replace")))
def test_any_bytes_are_an_order_error(raw: bytes, tmp_path_factory: pytest.TempPathFactory) -> None:
    file = tmp_path_factory.getbasetemp() / "mine.toml"
    file.write_bytes(raw)
    with pytest.raises(OrderError, match=r"^mine\.toml: "):
        read_order(file, DESIGNS)
