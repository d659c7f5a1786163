"""The command: dryfit pieces, woods, joints, order, check, make."""

from __future__ import annotations

import atexit
import gc
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from model.errors import DryfitError

if TYPE_CHECKING:
    from drawings.set_out import Progress
    from model.checks.finding import Answer
    from model.order import Order

# Our arrays are small: the threads that numpy would start for them mostly spin, and take the second core from the
# drawing half of a run. Numpy reads this once, when it is first imported.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

#: What the exit code says of an order.
FITS, HAS_A_FAULT, UNREADABLE = 0, 1, 2

EXAMPLE = "refuge-bench"


class _Command(click.Group):
    """Shows our errors as one clear message and exits 2, never a traceback."""

    def invoke(self, ctx: click.Context) -> Any:
        ours = click.style("dryfit: ", fg="red", bold=True)
        try:
            return super().invoke(ctx)
        except DryfitError as error:
            click.echo(f"{ours}{error}", err=True)
            ctx.exit(UNREADABLE)
        except BrokenPipeError:
            ctx.exit(FITS)
        except OSError as error:
            if error.filename is None:
                raise
            click.echo(f"{ours}{error.filename}: {error.strerror}; give a folder that can be written to", err=True)
            ctx.exit(UNREADABLE)


def run() -> None:
    """The command, as a process of its own. What it makes is left for the end of the process to throw away whole: the
    garbage collector would walk the CAD kernel's many objects over and over, and once more for most of a second at
    the end."""
    gc.disable()
    atexit.register(gc.freeze)
    main()


@click.group(cls=_Command, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="dryfit")
def main() -> None:
    """From one order file to a checked, buildable piece of furniture.

    An ORDER is a TOML file, or the name of a shipped example. Exit codes: 0 it fits, 1 it has a fault, 2 the order
    can't be read.
    """


@main.command()
@click.argument("name", required=False)
def pieces(name: str | None) -> None:
    """List the designs, or the parameters of the design NAME (or of a piece script, NAME.py).

    Reads nothing else, writes to the terminal.
    """
    from drawings.told import tell_design, tell_designs

    if name is None:
        tell_designs()
    else:
        tell_design(name)


@main.command()
@click.argument("name", required=False)
def woods(name: str | None) -> None:
    """List the woods and sheet goods an order may name, or the handbook's figures of the wood NAME.

    Reads nothing else, writes to the terminal.
    """
    from drawings.told import tell_wood, tell_woods

    if name is None:
        tell_woods()
    else:
        tell_wood(name)


@main.command()
@click.option(
    "-o",
    "--into",
    metavar="DIR",
    type=click.Path(file_okay=False, path_type=Path),
    help="Draw them all, into this folder.",
)
def joints(into: Path | None) -> None:
    """List the joints a piece can be put together with: what each is, and whose rule its sizes go by.

    Reads nothing, writes to the terminal; with -o also the gallery of joints, DIR/joints.pdf and DIR/joints-1.svg.
    """
    from drawings.told import tell_joints

    if into is None:
        tell_joints()
        return
    from drawings.players.pdf import write_pdf
    from drawings.players.svg import write_svg
    from drawings.sheets.joint_sheet import TITLE, joint_sheets

    with _progress() as progress:
        progress("Drawing the joints")
        sheets = joint_sheets()
    into.mkdir(parents=True, exist_ok=True)
    write_pdf(sheets, into / "joints.pdf", TITLE)
    for sheet in sheets:
        write_svg(sheet, into / f"{sheet.name}.svg")
    click.echo(f"Written to {into}/joints.pdf")


@main.command()
@click.argument("name")
@click.option("--inches", is_flag=True, help="An order in inches instead of millimetres.")
def order(name: str, inches: bool) -> None:
    """Print a commented order for the design NAME, to start from: dryfit order NAME > mine.toml"""
    from model.order_template import order_template
    from model.pieces import design

    found = design(name)
    click.echo(order_template(found.name, found.parameters, "in" if inches else "mm"), nl=False)


@main.command()
@click.argument("order", metavar="ORDER")
def check(order: str) -> None:
    """Dry-fit the piece of ORDER: every pair of parts, every joint, the wood every cut leaves.

    Reads ORDER, writes to the terminal only.
    """
    from drawings.set_out import build
    from drawings.set_out import check as dry_fit
    from model.order import read_order

    asked = read_order(order)
    with _progress() as progress:
        answer = dry_fit(build(asked, progress), progress)
    _finish(asked, answer)


@main.command()
@click.argument("order", metavar="[ORDER]", default=EXAMPLE)
@click.option(
    "-o",
    "--into",
    metavar="DIR",
    default="outputs",
    show_default=True,
    type=click.Path(file_okay=False, path_type=Path),
    help="Where the order's own folder is put.",
)
def make(order: str, into: Path) -> None:
    """Make everything ORDER asks for; without ORDER, the example.

    Writes DIR/<order name>/: report, STEP, GLB, 3-D preview, drawings, cutting files, lists and a manifest. The
    folder is replaced whole, or left as it was.
    """
    from drawings.set_out import set_out
    from model.order import read_order

    asked = read_order(order)
    with _progress() as progress:
        answer = set_out(asked, into / asked.name, progress)
    _finish(asked, answer, into / asked.name)


@contextmanager
def _progress() -> Iterator[Progress]:
    """The stage at work, on a terminal; silent elsewhere."""
    from rich.console import Console
    from rich.status import Status

    console = Console(stderr=True)
    if not console.is_terminal:
        yield lambda _: None
        return
    with Status("Starting", console=console) as status:
        yield lambda stage: status.update(stage)


def _finish(order: Order, answer: Answer, folder: Path | None = None) -> None:
    from drawings.told import tell_answer
    from model.checks.dry_fit import fits

    tell_answer(order, answer, folder)
    sys.exit(FITS if fits(answer) else HAS_A_FAULT)
