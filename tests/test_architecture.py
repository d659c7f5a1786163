"""The shape of the house, read from its imports: one direction, no circles, the kernel only where it is meant to be."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]

#: What is slow to load, and so stays out of order reading, numbers, wood, lists and --help.
HEAVY = ("cadquery", "OCP", "ezdxf", "reportlab", "trimesh", "shapely")

#: The only modules that name the CAD kernel where they are loaded; the rest work on plain values.
KERNEL = {
    "drawings.preview.meshes",
    "drawings.proof.measurable",
    "drawings.proof.sectioned",
    "drawings.step",
    "drawings.views.facets",
    "drawings.views.growing",
    "drawings.views.project",
    "drawings.views.section",
    "drawings.views.shown",
    "model.checks.apart",
    "model.checks.contact",
    "model.checks.dry_fit",
    "model.checks.solids.facets",
    "model.checks.overlap",
    "model.checks.solids.shared_wood",
    "model.checks.memory.solid_digest",
    "model.checks.solids.stood_solid",
    "model.checks.travel.ways",
    "model.checks.way_in",
    "model.checks.solids.wood_along",
    "model.hardware_solids",
    "model.solid_blocks",
    "model.solids",
}

#: Loaded by anything that answers without solids.
QUICK = [
    "model.order",
    "model.lengths",
    "model.wood.species",
    "model.wood.lumber",
    "model.layout.arcs",
    "model.layout.boards",
    "model.layout.ordinates",
    "model.layout.outline",
    "model.piece",
    "model.pieces.settle",
    "model.pieces.bookcase",
    "drawings.cli",
]


def modules() -> dict[str, Path]:
    """Every module of the two packages, by its import name."""
    found = {}
    for package in ("model", "drawings"):
        for path in sorted((ROOT / package).rglob("*.py")):
            parts = path.relative_to(ROOT).with_suffix("").parts
            found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


MODULES = modules()


def loaded_by(tree: ast.AST, inside_functions: bool) -> Iterator[str]:
    """Names imported by a syntax tree; not those for the type checker only."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test):
            continue
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            assert node.level == 0, "imports are written out in full"
            yield node.module
            yield from (f"{node.module}.{name.name}" for name in node.names)
        elif inside_functions or not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield from loaded_by(node, inside_functions)


def imports(module: str, inside_functions: bool = False) -> set[str]:
    tree = ast.parse(MODULES[module].read_text(encoding="utf-8"))
    return set(loaded_by(tree, inside_functions))


def test_the_model_never_imports_the_drawings() -> None:
    backward = {
        (module, name)
        for module in MODULES
        if module.split(".")[0] == "model"
        for name in imports(module, inside_functions=True)
        if name.split(".")[0] == "drawings"
    }
    assert backward == set()


def test_no_module_imports_itself_by_way_of_others() -> None:
    graph = {module: imports(module) & set(MODULES) - {module} for module in MODULES}
    done: set[str] = set()

    def walk(module: str, path: tuple[str, ...]) -> None:
        assert module not in path, " -> ".join((*path[path.index(module) :], module))
        if module in done:
            return
        for name in graph[module]:
            walk(name, (*path, module))
        done.add(module)

    for module in graph:
        walk(module, ())


def test_the_kernel_is_loaded_by_the_modules_listed_and_no_others() -> None:
    users = {m for m in MODULES if any(name.split(".")[0] in ("cadquery", "OCP") for name in imports(m))}
    assert users == KERNEL


@pytest.mark.parametrize("module", QUICK)
def test_what_must_be_quick_leaves_the_heavy_libraries_alone(module: str) -> None:
    code = f"import sys; import {module}; print([m for m in {HEAVY} if m in sys.modules])"
    run = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)

    assert run.stdout.strip() == "[]"
