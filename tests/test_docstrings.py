"""Every public module, class and function says what it is for.

Public is what has no leading underscore, in a module without one. Exempt, since their names say it all: properties and
methods of at most two lines of code, methods that override one told about in the class above, nested functions.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
MODULES = sorted(p for package in ("model", "drawings") for p in (ROOT / package).rglob("*.py"))
TRIVIAL = 2
FUNCTIONS = ast.FunctionDef | ast.AsyncFunctionDef


def lines_of_code(node: ast.AST) -> int:
    """Lines of a function's body."""
    body = node.body  # type: ignore[attr-defined]
    return int(body[-1].end_lineno) - int(body[0].lineno) + 1


def silent(tree: ast.Module) -> Iterator[str]:
    for node in tree.body:
        if not isinstance(node, FUNCTIONS | ast.ClassDef) or node.name.startswith("_"):
            continue
        if not ast.get_docstring(node) and not (isinstance(node, FUNCTIONS) and lines_of_code(node) <= TRIVIAL):
            yield node.name
        if isinstance(node, ast.ClassDef):
            yield from (f"{node.name}.{name}" for name in silent_methods(node))


def silent_methods(cls: ast.ClassDef) -> Iterator[str]:
    told_above = bool(cls.bases)
    for node in cls.body:
        if not isinstance(node, FUNCTIONS) or node.name.startswith("_") or told_above:
            continue
        if not ast.get_docstring(node) and lines_of_code(node) > TRIVIAL:
            yield node.name


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(ROOT)))
def test_public_names_are_told_about(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))

    assert ast.get_docstring(tree) or not tree.body, "the module says nothing of itself"
    assert list(silent(tree)) == []
