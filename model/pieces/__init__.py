"""The designs: each a readable script that turns its parameters into a piece. They ship here, or are a maker's own."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

from model.errors import OrderError
from model.parameters import Parameters
from model.pieces.script import load_script, running
from model.written import unknown

if TYPE_CHECKING:
    from model.order import Order
    from model.piece import Piece

_SCRIPTS = ("settle", "bookcase", "table", "stool", "chest", "cupboard")


@dataclass(frozen=True)
class Design:
    """A design: its name, what it is in one line, its parameters, and the script that makes it."""

    name: str
    summary: str
    parameters: type[Parameters]
    make: Callable[..., Piece]


def design_names() -> list[str]:
    """The designs that ship, in the order they are listed."""
    return list(_SCRIPTS)


def design(name: str) -> Design:
    """The design of that name, or in that script (a path ending in .py); raises OrderError for one that isn't
    there, naming the nearest."""
    if name.endswith(".py"):
        return design_in(Path(name))
    if name not in _SCRIPTS:
        raise OrderError(unknown(name, _SCRIPTS, "piece"))
    return _design(name, import_module(f"model.pieces.{name}").make)


def design_of(order: Order) -> Design:
    """The design an order asks for; a script of the maker's own is looked for beside the order."""
    return design_in(order.path.parent / order.piece) if order.piece.endswith(".py") else design(order.piece)


def design_in(path: Path) -> Design:
    """The design in a maker's own script. Raises OrderError if it can't be read or has no `make`."""
    make = load_script(path)
    found = _design(path.stem, make)
    return Design(found.name, found.summary, found.parameters, running(path, make))


def _design(name: str, make: Callable[..., Piece]) -> Design:
    """What `make` stands for: its one argument says which parameters it takes."""
    arguments = list(inspect.signature(make, eval_str=True).parameters.values())
    kind = arguments[0].annotation if len(arguments) == 1 else None
    if not (isinstance(kind, type) and issubclass(kind, Parameters)):
        raise OrderError(f"{name}: make must take one argument, its parameters: def make(p: MyPiece) -> Piece")
    return Design(name, (inspect.getdoc(kind) or "").split("\n", 1)[0], kind, make)
