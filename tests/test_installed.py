"""The project as a user installs it: not editable, run from another folder, all its data files along."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent


def copied(to: Path) -> Path:
    """The source alone, so that nothing built earlier gets in."""
    for folder in ("model", "drawings"):
        shutil.copytree(ROOT / folder, to / folder, ignore=shutil.ignore_patterns("__pycache__"))
    for file in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(ROOT / file, to / file)
    return to


def test_the_installed_project_makes_the_example(tmp_path: Path) -> None:
    site, shop = tmp_path / "site", tmp_path / "shop"
    shop.mkdir()
    pip = [sys.executable, "-m", "pip", "install", "--quiet", "--no-deps", "--no-build-isolation"]
    subprocess.run([*pip, "--target", str(site), str(copied(tmp_path / "source"))], check=True, cwd=tmp_path)
    environment = {**os.environ, "PYTHONPATH": str(site), "COLUMNS": "200"}
    start = "import drawings.cli as c; print(c.__file__); c.main(['make'])"
    done = subprocess.run(
        [sys.executable, "-c", start], cwd=shop, env=environment, capture_output=True, text=True, check=False
    )

    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.startswith(str(site))
    written = {p.relative_to(shop / "outputs" / "refuge-bench").as_posix() for p in shop.rglob("*") if p.is_file()}
    assert {"report.json", "report.html", "model.step", "model.glb", "preview.html", "manifest.json"} <= written
    assert {"drawings/set.pdf", "lists/parts.csv", "cutting/01-left-side.dxf"} <= written
