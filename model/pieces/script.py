"""A maker's own piece script: read from its file, its mistakes told by line and not by traceback."""

from __future__ import annotations

import importlib.util
import traceback
from collections.abc import Callable
from pathlib import Path
from typing import Any

from model.errors import DryfitError, OrderError


def load_script(path: Path) -> Callable[..., Any]:
    """The `make` function of a script. Raises OrderError naming file, line and remedy if there is none to be had."""
    if not path.is_file():
        raise OrderError(f"{path.name}: there is no such piece script; give its path from the order's own folder")
    spec = importlib.util.spec_from_file_location(f"piece_script_{path.stem}", path)
    if spec is None or spec.loader is None:
        raise OrderError(f"{path.name}: is not a Python script")
    module = importlib.util.module_from_spec(spec)
    try:
        spec.loader.exec_module(module)
    except DryfitError:
        raise
    except Exception as error:
        raise _told(path, error) from None
    make = getattr(module, "make", None)
    if not callable(make):
        raise OrderError(f"{path.name}: has no function make; add  def make(p: MyPiece) -> Piece")
    return make


def running(path: Path, make: Callable[..., Any]) -> Callable[..., Any]:
    """`make`, its mistakes turned into an OrderError that names the script's line."""

    def made(parameters: Any) -> Any:
        from model.piece import Piece

        try:
            piece = make(parameters)
        except DryfitError as error:
            raise type(error)(f"{_where(path, error)}: {error}") from None
        except Exception as error:
            raise _told(path, error) from None
        if not isinstance(piece, Piece):
            raise OrderError(f"{path.name}: make must return the piece; end it with  return piece")
        return piece

    return made


def _told(path: Path, error: Exception) -> OrderError:
    if isinstance(error, SyntaxError):
        return OrderError(f"{path.name} line {error.lineno}: {error.msg}")
    return OrderError(f"{_where(path, error)}: {type(error).__name__}: {error}")


def _where(path: Path, error: Exception) -> str:
    """The script, and its line that was at work last."""
    script = path.resolve()
    lines = [f.lineno for f in traceback.extract_tb(error.__traceback__) if Path(f.filename).resolve() == script]
    return f"{path.name} line {lines[-1]}" if lines else path.name
