"""The folder a run writes: whole or not at all, with a manifest of what is in it."""

from __future__ import annotations

import hashlib
import json
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import Any

from model.errors import OrderError

MANIFEST = "manifest.json"

#: Whose versions decide what a run writes.
_TOOLS = ("dryfit", "cadquery", "cadquery-ocp", "ezdxf", "numpy", "reportlab", "shapely", "trimesh")


@contextmanager
def whole_folder(target: Path) -> Iterator[Path]:
    """A folder to write into, put in the place of `target` at the end; on any error nothing is changed.

    Raises OrderError if `target` holds something that an earlier run did not write.
    """
    _check_ours(target)
    target.parent.mkdir(parents=True, exist_ok=True)
    beside = Path(tempfile.mkdtemp(prefix=f".{target.name}-", dir=target.parent))
    try:
        yield beside
        beside.chmod(0o755)
        _swap(beside, target)
    finally:
        shutil.rmtree(beside, ignore_errors=True)


def write_manifest(folder: Path, order: dict[str, Any]) -> None:
    """Every file with its SHA-256, the order as read, and the versions that made it."""
    files = sorted(p for p in folder.rglob("*") if p.is_file() and p.name != MANIFEST)
    sums = {p.relative_to(folder).as_posix(): hashlib.sha256(p.read_bytes()).hexdigest() for p in files}
    write_json(folder / MANIFEST, {"order": order, "versions": _versions(), "files": sums})


def write_json(path: Path, value: Any) -> None:
    text = json.dumps(value, indent=2, ensure_ascii=False, allow_nan=False)
    path.write_text(text + "\n", encoding="utf-8", newline="\n")


def _versions() -> dict[str, str]:
    found = {}
    for tool in _TOOLS:
        try:
            found[tool] = version(tool)
        except PackageNotFoundError:
            found[tool] = "from source"
    return found


def _check_ours(target: Path) -> None:
    if target.exists() and not (target.is_dir() and (not any(target.iterdir()) or (target / MANIFEST).is_file())):
        raise OrderError(
            f"{target} exists and was not written by dryfit, so it is left alone; move it away or give another folder"
        )


def _swap(beside: Path, target: Path) -> None:
    if not target.exists():
        beside.rename(target)
        return
    old = beside.with_name(beside.name + "-old")
    target.rename(old)
    try:
        beside.rename(target)
    except OSError:
        old.rename(target)
        raise
    shutil.rmtree(old, ignore_errors=True)
