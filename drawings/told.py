"""What the command says on the terminal."""

from __future__ import annotations

from pathlib import Path

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from model.checks.finding import Answer
from model.declared import Declared
from model.in_units import size_in_units
from model.order import Order
from model.orders import example_names
from model.parameters import WidthRange, describe
from model.pieces import design, design_names
from model.wood.material import material_named, material_names
from model.wood.species import Species, species_named

#: Moisture content that the handbook gives its figures at, %.
AIR_DRY = 12.0

_COLOURS = {"fault": "bold red", "caution": "yellow", "note": "dim"}


def tell_designs() -> None:
    """The designs and the examples."""
    console = _console()
    table = Table(box=None, pad_edge=False, show_header=False, padding=(0, 2, 0, 0))
    for name in design_names():
        table.add_row(Text(name, style="bold"), design(name).summary)
    console.print(table)
    console.print(f"\nExample orders: {', '.join(example_names())}", highlight=False)
    console.print("Parameters of one: dryfit pieces NAME", style="dim", highlight=False)


def tell_design(name: str) -> None:
    """A design's parameters with defaults and limits."""
    found, console = design(name), _console()
    console.print(Text(found.name, style="bold"), Text(found.summary))
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="dim")
    for heading in (r"\[size], mm", "default", "least", "most", "what it is"):
        table.add_column(heading, overflow="fold", justify="left" if "i" in heading else "right")
    for said in describe(found.parameters):
        table.add_row(said.name, *_limits(said), said.what)
    console.print(table)
    console.print("Start an order: dryfit order " + name + " > mine.toml", style="dim", highlight=False)


def tell_woods() -> None:
    """Every wood and sheet good an order may name, with what a maker chooses by."""
    console = _console()
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="dim")
    table.add_column("wood", overflow="fold")
    for heading in ("kg/m³ at 12 %", "shrinks radially, %", "tangentially, %"):
        table.add_column(heading, justify="right")
    for name in material_names():
        material = material_named(name)
        shrinks = ("", "") if material.sheet else _shrinkage(species_named(name))
        table.add_row(name, f"{material.density(AIR_DRY):.0f}", *shrinks)
    console.print(table)
    console.print("All of one wood's figures, and their sources: dryfit woods NAME", style="dim", highlight=False)


def tell_wood(name: str) -> None:
    """One wood's figures, its other names, and where the figures come from; raises OrderError for one not known."""
    material, console = material_named(name), _console()
    console.print(Text(material.name, style="bold"))
    table = Table(box=None, pad_edge=False, show_header=False, padding=(0, 2, 0, 2))
    table.add_row("density at 12 % moisture content", f"{material.density(AIR_DRY):.0f} kg/m³")
    for what, figure in () if material.sheet else _figures(species_named(name)):
        table.add_row(what, figure)
    console.print(table)
    console.print(Padding(Text(material.source, style="dim"), (0, 0, 0, 2)))


def _figures(wood: Species) -> list[tuple[str, str]]:
    radial, tangential = _shrinkage(wood)
    return [
        ("also called", ", ".join(wood.also) or "-"),
        ("botanical name", wood.scientific),
        ("shrinkage, green to ovendry", f"{radial} % radially, {tangential} % tangentially"),
        ("modulus of rupture at 12 %", f"{wood.bending_strength:.0f} MPa"),
        ("modulus of elasticity at 12 %", f"{wood.elastic_modulus / 1e3:.1f} GPa"),
        ("side hardness at 12 %", "-" if wood.hardness is None else f"{round(wood.hardness, -1):,.0f} N"),
    ]


def _shrinkage(wood: Species) -> tuple[str, str]:
    return f"{wood.radial_shrinkage:.1f}", f"{wood.tangential_shrinkage:.1f}"


def tell_joints() -> None:
    """Every joint of the vocabulary by name, what it is, and whose rule its sizes go by."""
    from model.joints.samples import samples

    console = _console()
    for sample in samples():
        console.print(Text(sample.name, style="bold"), highlight=False)
        console.print(Padding(Text(sample.caption), (0, 0, 0, 4)))
        console.print(Padding(Text(sample.source, style="dim"), (0, 0, 0, 4)))
    console.print("Drawn: dryfit joints -o DIR", style="dim", highlight=False)


def tell_answer(order: Order, answer: Answer, folder: Path | None = None) -> None:
    """The findings a maker can act on, what was proved, and where everything is."""
    console = _console()
    faults = sum(f.severity == "fault" for f in answer.findings)
    verdict = Text("does not fit: do not cut", style="bold red") if faults else Text("it fits", style="bold green")
    console.print(Text.assemble((order.title, "bold"), ": ", verdict), highlight=False)
    if answer.findings:
        console.print(_findings(answer, order.units))
    for proof in answer.proofs:
        style = "dim" if proof.held == proof.checked else "yellow"
        console.print(Text(f"  {proof.held:,} of {proof.checked:,} {proof.what}", style=style), highlight=False)
    if folder is not None:
        console.print(Text(f"Written to {folder}/ - open report.html or preview.html first"), highlight=False)


def _findings(answer: Answer, units: str) -> Table:
    """A row each: what to do about it, and what was found; how it was measured only where something must be done."""
    table = Table(box=None, show_header=False, padding=(0, 2, 0, 0))
    table.add_column(no_wrap=True)
    table.add_column(overflow="fold")
    for finding in answer.findings:
        told = Text(finding.message, style="dim" if finding.severity == "note" else "")
        if finding.severity != "note":
            value, limit = (size_in_units(v, finding.unit, units) for v in (finding.value, finding.limit))
            measured = f"{value} against {limit}; " if finding.value != finding.limit else ""
            told.append(f"\n{measured}{finding.source}", style="dim")
        table.add_row(Text(finding.severity, style=_COLOURS[finding.severity]), told)
    return table


def _limits(said: Declared) -> tuple[str, str, str]:
    """Default, least and most; a choice's words stand where the limits would."""
    options = getattr(said, "options", None)
    if options:
        return str(said.default), " / ".join(map(str, options)), ""
    if isinstance(said.default, bool):
        return ("yes" if said.default else "no"), "", ""
    if isinstance(said.default, WidthRange):
        default = f"{said.default.low:g}-{said.default.high:g}"
    else:
        default = f"{said.default:g}"
    return default, f"{said.low:g}", f"{said.high:g}"


def _console() -> Console:
    return Console(soft_wrap=False)
