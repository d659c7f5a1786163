from __future__ import annotations

import hashlib
import json
from pathlib import Path

import pytest

from drawings.folder import whole_folder, write_manifest
from model.errors import OrderError


def test_a_folder_appears_whole(tmp_path: Path) -> None:
    with whole_folder(tmp_path / "bench") as folder:
        (folder / "a.txt").write_text("a")

        assert not (tmp_path / "bench").exists()
    assert [p.name for p in tmp_path.iterdir()] == ["bench"]
    assert (tmp_path / "bench" / "a.txt").read_text() == "a"


def test_an_error_leaves_nothing_behind(tmp_path: Path) -> None:
    with pytest.raises(ZeroDivisionError), whole_folder(tmp_path / "bench") as folder:
        (folder / "a.txt").write_text(str(1 / 0))

    assert list(tmp_path.iterdir()) == []


def test_an_error_leaves_the_earlier_run_as_it_was(tmp_path: Path) -> None:
    with whole_folder(tmp_path / "bench") as folder:
        (folder / "manifest.json").write_text("first")
    with pytest.raises(ZeroDivisionError), whole_folder(tmp_path / "bench") as folder:
        (folder / "manifest.json").write_text(str(1 / 0))

    assert (tmp_path / "bench" / "manifest.json").read_text() == "first"
    assert len(list(tmp_path.iterdir())) == 1


def test_an_earlier_run_is_replaced_whole(tmp_path: Path) -> None:
    with whole_folder(tmp_path / "bench") as folder:
        (folder / "manifest.json").write_text("first")
        (folder / "old.txt").write_text("old")
    with whole_folder(tmp_path / "bench") as folder:
        (folder / "manifest.json").write_text("second")

    assert [p.name for p in (tmp_path / "bench").iterdir()] == ["manifest.json"]
    assert len(list(tmp_path.iterdir())) == 1


def test_somebody_elses_folder_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "bench").mkdir()
    (tmp_path / "bench" / "photos.txt").write_text("mine")

    with pytest.raises(OrderError, match="was not written by dryfit"), whole_folder(tmp_path / "bench"):
        pass
    assert (tmp_path / "bench" / "photos.txt").read_text() == "mine"


def test_the_manifest_sums_every_file(tmp_path: Path) -> None:
    (tmp_path / "lists").mkdir()
    (tmp_path / "lists" / "parts.csv").write_text("item\n")
    write_manifest(tmp_path, {"name": "bench"})

    manifest = json.loads((tmp_path / "manifest.json").read_text())
    assert manifest["order"] == {"name": "bench"}
    assert manifest["files"] == {"lists/parts.csv": hashlib.sha256(b"item\n").hexdigest()}
    assert "cadquery" in manifest["versions"]
