"""The designs: each a readable script that turns its parameters into a piece."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module

from model.errors import OrderError
from model.parameters import Parameters
from model.piece import Piece
from model.written import unknown

_SCRIPTS = ("settle", "bookcase")


@dataclass(frozen=True)
class Design:
    """A design: its name, what it is in one line, its parameters, and the script that makes it."""

    name: str
    summary: str
    parameters: type[Parameters]
    make: Callable[..., Piece]


def design_names() -> list[str]:
    return list(_SCRIPTS)


def design(name: str) -> Design:
    """The design of that name; raises OrderError, with the nearest, for one that isn't there."""
    if name not in _SCRIPTS:
        raise OrderError(unknown(name, _SCRIPTS, "piece"))
    return design_in(name, import_module(f"model.pieces.{name}").make)


def design_in(name: str, make: Callable[..., Piece]) -> Design:
    """The design a script's `make` function stands for: its one argument says which parameters it takes."""
    (argument,) = inspect.signature(make, eval_str=True).parameters.values()
    summary = (inspect.getdoc(argument.annotation) or "").split("\n", 1)[0]
    return Design(name, summary, argument.annotation, make)
