"""The words of a piece script: exactly those that are meant, each there, none costing anything until it is used."""

from __future__ import annotations

import ast
import importlib
import inspect
import pkgutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

import model
import model.cuts
import model.joints
from model.cuts.cut import Cut

ROOT = Path(__file__).parents[1]

#: Cuts that only stand for what others have in common.
ABSTRACT = {"Cut", "EdgeCut"}
#: Words of the joints' modules that joints are written with, not pieces.
FOR_JOINTS = {"first_tail"}


def typed() -> dict[str, str]:
    """What the type checker is told: word to module."""
    tree = ast.parse((ROOT / "model" / "__init__.py").read_text(encoding="utf-8"))
    checked = next(node for node in tree.body if isinstance(node, ast.If))
    return {a.name: str(node.module) for node in checked.body if isinstance(node, ast.ImportFrom) for a in node.names}


def test_the_table_is_what_the_type_checker_is_told_and_all() -> None:
    assert typed() == model._WORDS
    assert model.__all__ == sorted(model._WORDS)


@pytest.mark.parametrize("word", model.__all__)
def test_every_word_is_there_and_has_been_told_about(word: str) -> None:
    found: Any = getattr(model, word)

    assert found is getattr(importlib.import_module(model._WORDS[word]), word)
    if inspect.isclass(found) or inspect.isfunction(found):
        assert inspect.getdoc(found)


def test_every_joint_and_every_cut_is_among_the_words() -> None:
    joints, cuts = set(), set()
    for found in pkgutil.iter_modules(model.joints.__path__):
        module = importlib.import_module(f"model.joints.{found.name}")
        joints |= {
            name
            for name, f in inspect.getmembers(module, inspect.isfunction)
            if f.__module__ == module.__name__
            and not name.startswith("_")
            and str(f.__annotations__.get("return")) in ("Joint", "Hinged", "tuple[Joint, ...]")
        }
    for found in pkgutil.iter_modules(model.cuts.__path__):
        module = importlib.import_module(f"model.cuts.{found.name}")
        cuts |= {name for name, c in inspect.getmembers(module, inspect.isclass) if issubclass(c, Cut)}

    assert joints - FOR_JOINTS - set(model.__all__) == set()
    assert cuts - ABSTRACT - set(model.__all__) == set()


def test_the_joint_and_the_cut_of_one_name_are_told_apart() -> None:
    assert model.dado.__module__ == "model.joints.housed"
    assert model.Channel.__module__ == "model.cuts.faces"


def test_a_word_that_is_not_there_is_an_error_like_any_other() -> None:
    with pytest.raises(AttributeError, match="dadoo"):
        model.dadoo  # noqa: B018
    assert "dado" in dir(model)


def test_importing_the_package_loads_nothing_of_it() -> None:
    code = "import sys, model; print([m for m in sys.modules if m.startswith(('model.', 'pydantic'))])"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)

    assert done.stdout.strip() == "[]"
