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
ABSTRACT = {"Cut", "AimedCut", "EdgeCut", "SawnTrench"}
#: Words of the joints' modules that joints are written with, not pieces; `dado` hands over to `slanted_dado`.
FOR_JOINTS = {"first_tail", "slanted_dado"}


def told() -> dict[str, str]:
    """Word to module, as the stub has them."""
    tree = ast.parse((ROOT / "model" / "__init__.pyi").read_text(encoding="utf-8"))
    return {a.name: f"model.{n.module}" for n in tree.body if isinstance(n, ast.ImportFrom) for a in n.names}


def test_the_words_are_those_of_the_stub() -> None:
    assert sorted(model.__all__) == sorted(told())


@pytest.mark.parametrize("word", model.__all__)
def test_every_word_is_there_and_has_been_told_about(word: str) -> None:
    found: Any = getattr(model, word)

    assert found is getattr(importlib.import_module(told()[word]), word)
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
