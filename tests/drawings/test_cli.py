"""The command as a user meets it: exit codes, messages, and no folder touched by an order that can't be read."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from drawings.cli import main

GOOD = 'piece = "bookcase"\nname = "hut"\n'


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments)


@pytest.mark.parametrize("command", [[], ["pieces"], ["order"], ["check"], ["make"]])
def test_help_answers_and_says_what_is_read_and_written(command: list[str]) -> None:
    result = run(*command, "--help")

    assert result.exit_code == 0
    assert "ORDER" in result.output or "NAME" in result.output


def test_help_leaves_the_kernel_alone() -> None:
    heavy = ("cadquery", "OCP", "numpy", "ezdxf", "reportlab", "shapely", "trimesh", "pydantic", "rich")
    script = (
        "import sys\nfrom drawings.cli import main\n"
        "try: main(['--help'])\nexcept SystemExit: pass\n"
        f"print([m for m in {heavy!r} if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)

    assert done.stdout.splitlines()[-1] == "[]"


def test_pieces_lists_designs_and_their_limits() -> None:
    assert "settle" in run("pieces").output
    told = run("pieces", "bookcase").output
    assert "shelves" in told
    assert "20" in told


def test_woods_are_listed_and_each_tells_its_figures() -> None:
    told = run("woods").output
    assert "eastern white pine" in told
    assert "plywood" in told
    cherry = run("woods", "cherry").output
    assert "Prunus serotina" in cherry
    assert "Table 5-3b" in cherry
    unknown = run("woods", "cherri")
    assert (unknown.exit_code, "cherry" in unknown.stderr) == (2, True)


def test_a_folder_that_cant_be_written_to_is_told_without_a_traceback(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    result = run("make", "refuge-stool", "-o", str(tmp_path / "file" / "out"))
    assert result.exit_code == 2
    assert "give a folder that can be written to" in result.stderr


def test_joints_are_listed_with_their_rules() -> None:
    told = run("joints").output

    assert "half-blind dovetail" in told
    assert "Noyes, Handwork in Wood" in told


def test_joints_are_drawn(tmp_path: Path) -> None:
    assert run("joints", "-o", str(tmp_path / "gallery")).exit_code == 0

    assert sorted(p.name for p in (tmp_path / "gallery").iterdir()) == ["joints-1.svg", "joints.pdf"]
    assert "Half-blind dovetail" in (tmp_path / "gallery" / "joints-1.svg").read_text(encoding="utf-8")


def test_a_printed_order_reads_back(tmp_path: Path) -> None:
    printed = run("order", "bookcase", "--inches")
    (tmp_path / "mine.toml").write_text(printed.output)

    assert printed.exit_code == 0
    assert run("check", str(tmp_path / "mine.toml")).exit_code == 0


BROKEN = {
    "missing file": ("", ["nowhere"]),
    "not TOML": ("piece = settle", ["line 1", "TOML"]),
    "unknown key": (GOOD + "[size]\nheigth = 1000\n", ["heigth", "height"]),
    "unreadable length": (GOOD + '[size]\nheight = "tall"\n', ["height", "tall"]),
    "out of range": (GOOD + "[size]\nheight = 90000\n", ["height", "2700"]),
    "not finite": (GOOD + "[size]\nheight = inf\n", ["height"]),
    "wrong type": (GOOD + "[size]\nheight = true\n", ["height"]),
    "name leaves the folder": ('piece = "bookcase"\nname = "../hut"\n', ["name"]),
    "unknown piece": ('piece = "bokcase"\nname = "hut"\n', ["bookcase"]),
    "unknown species": (GOOD + '[wood]\nspecies = "eastern wite pine"\n', ["eastern white pine"]),
    "dado deeper than stock": (GOOD + '[wood]\nthickness = 10\n[size]\nhousing = "12 mm"\n', ["housing", "10"]),
    "radius too small": (
        'piece = "settle"\nname = "hut"\n[size]\nchord = 2400\nback_radius = 1150\n',
        ["back_radius", "1260"],
    ),
    "boards can't fill": (
        'piece = "settle"\nname = "hut"\n[size]\nboard_widths = [100, 120]\n',
        ["board"],
    ),
}


@pytest.mark.parametrize("case", BROKEN)
def test_a_broken_order_exits_2_and_touches_nothing(case: str, tmp_path: Path) -> None:
    source, told = BROKEN[case]
    order = tmp_path / ("nowhere.toml" if case == "missing file" else "mine.toml")
    if source:
        order.write_text(source)
    into = tmp_path / "outputs"
    result = run("make", str(order), "-o", str(into))

    assert result.exit_code == 2, result.output
    assert result.output.count(order.name) == 1
    assert "Traceback" not in result.output
    for word in told:
        assert word in result.output
    assert not into.exists()


def test_a_valid_piece_that_does_not_fit_exits_1_with_its_report(tmp_path: Path) -> None:
    script = """
from model.parameters import Length, Parameters, size
from model.piece import Piece
from model.placement import place
from model.stock import board

class Crossed(Parameters):
    '''Two boards in the same place.'''
    length: Length = size(400, 100, 900, "of both")

def make(p: Crossed) -> Piece:
    piece = Piece("crossed", p)
    piece.add("one", board(p.length, 80), place((0, 0, 0)))
    piece.add("two", board(p.length, 80), place((0, 40, 0)))
    return piece
"""
    (tmp_path / "crossed.py").write_text(script)
    (tmp_path / "mine.toml").write_text('piece = "crossed.py"\nname = "crossed"\n')
    result = run("make", str(tmp_path / "mine.toml"), "-o", str(tmp_path / "out"))

    assert result.exit_code == 1, result.output
    assert "do not cut" in result.output
    assert '"fits": false' in (tmp_path / "out" / "crossed" / "report.json").read_text()
