import base64
import gzip
import json
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from drawings.preview.page import MODULES, PAGE, module_source, write_preview

MODEL = b"glTF and what follows"


class Loads(HTMLParser):
    """What a page would load: every src, and the href of links that are not for reading."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found += [value or "" for name, value in attrs if name in ("src", "srcset", "data", "href")]


@pytest.fixture
def page(tmp_path: Path) -> str:
    return write(tmp_path)


def write(folder: Path, **more: object) -> str:
    (folder / "model.glb").write_bytes(MODEL)
    words = {"title": "Bench <1>", "subtitle": "in pine", "overall": "1480 mm wide"}
    write_preview(folder / "model.glb", folder / "preview.html", **(words | more))  # type: ignore[arg-type]
    return (folder / "preview.html").read_text(encoding="utf-8")


def embedded(page: str, attribute: str) -> str:
    return re.search(rf"<script [^>]*{attribute}[^>]*>(.*?)</script>", page, re.DOTALL)[1]  # type: ignore[index]


def test_page_loads_nothing_from_outside(page: str) -> None:
    loads = Loads()
    loads.feed(page)
    assert loads.found == []
    assert "default-src 'none'" in page
    assert not re.search(r"@import|url\(", page)


def test_words_are_shown_and_kept_harmless(page: str) -> None:
    assert "<h1>Bench &lt;1&gt;</h1>" in page
    assert "in pine" in page
    assert "1480 mm wide" in page


def test_data_cannot_close_its_script(tmp_path: Path) -> None:
    parts = [{"name": "</script><b>", "size": "19 mm"}]
    page = write(tmp_path, parts=parts)
    assert "</script><b>" not in page
    assert json.loads(embedded(page, 'id="data"'))["parts"] == parts


def test_what_opens_is_told(tmp_path: Path) -> None:
    openings = [{"parts": ["lid"], "pin": [0.0, 0.0, 400.0], "along": [-1.0, 0.0, 0.0], "opens": 95.0}]
    assert json.loads(embedded(write(tmp_path, openings=openings), 'id="data"'))["openings"] == openings


def test_model_travels_inside(page: str) -> None:
    assert gzip.decompress(base64.b64decode(embedded(page, 'id="model"'))) == MODEL


def test_every_script_travels_inside_as_it_is(page: str) -> None:
    for name in MODULES:
        packed = embedded(page, f'data-module="{name}"')
        assert gzip.decompress(base64.b64decode(packed)).decode() == module_source(name)


def test_every_import_names_a_script_that_travels_with_it() -> None:
    for name in MODULES:
        imports = re.findall(r"^(?:import|export|\}).*?from ['\"]([^'\"]+)['\"]", module_source(name), re.MULTILINE)
        assert set(imports) <= set(MODULES), name


def test_the_library_is_whole_and_its_licence_is_shown(page: str) -> None:
    licence = (PAGE / "three" / "LICENSE").read_text(encoding="utf-8")
    assert "The MIT License" in licence
    assert licence in page
    assert "SPDX-License-Identifier: MIT" in module_source("three")


def test_same_input_gives_the_same_bytes(tmp_path: Path) -> None:
    assert write(tmp_path) == write(tmp_path)


def test_a_missing_model_is_an_error_and_leaves_no_page(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        write_preview(tmp_path / "none.glb", tmp_path / "preview.html", title="Bench")
    assert not (tmp_path / "preview.html").exists()
