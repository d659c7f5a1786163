"""The preview page in a real browser: Chromium, from a file, with no network and no graphics card."""

import io
from collections.abc import Iterator
from pathlib import Path

import cadquery as cq
import numpy as np
import pytest
from PIL import Image

from drawings.preview.glb import write_glb
from drawings.preview.meshes import PlacedMesh, tessellate
from drawings.preview.page import write_preview
from tests.outside.browser import Browser


def boards() -> list[PlacedMesh]:
    """Two equal uprights, a shelf between them and a hinge."""
    upright = tessellate(cq.Workplane().box(600, 200, 19, centered=False).val())
    shelf = tessellate(cq.Workplane().box(400, 200, 19, centered=False).val())
    hinge = tessellate(cq.Workplane().box(60, 20, 2, centered=False).val())
    stand = np.array([[0, 0, 1.0, 0], [0, 1, 0, 0], [-1, 0, 0, 600], [0, 0, 0, 1]])
    beside, across, on = stand.copy(), np.eye(4), np.eye(4)
    beside[0, 3], across[:3, 3], on[:3, 3] = 419, (19, 0, 300), (60, 0, 319)
    pine, brass = (0.86, 0.7, 0.48), (0.72, 0.66, 0.5)
    return [
        PlacedMesh("side left", upright, stand, pine, "pine", "sides"),
        PlacedMesh("side right", upright, beside, pine, "pine", "sides"),
        PlacedMesh("shelf 1", shelf, across, pine, "pine", "shelves"),
        PlacedMesh("hinge", hinge, on, brass, "brass", "shelves", "hardware"),
    ]


#: The shelf folds up against the left side.
OPENING = {"parts": ["shelf 1", "hinge"], "pin": [19, 0, 319], "along": [0, -1, 0], "opens": 90}
FINDING = {"check": "overlap", "severity": "fault", "parts": ["shelf 1", "side left"], "where": [19, 100, 310]}


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("preview")
    write_glb(boards(), folder / "model.glb")
    parts = [{"name": item.name, "group": item.group, "size": "as drawn"} for item in boards()]
    findings = [FINDING | {"message": "The shelf runs 0.5 mm into the left side."}]
    write_preview(
        folder / "model.glb", folder / "preview.html", title="Shelf", parts=parts, openings=[OPENING], findings=findings
    )
    return folder / "preview.html"


@pytest.fixture(scope="module")
def browser(page: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    browser = Browser(tmp_path_factory.mktemp("profile"))
    browser.open(page)
    yield browser
    browser.close()


def test_first_frame_is_drawn_without_a_complaint(browser: Browser) -> None:
    assert browser.run("window.dryfitReady") is True
    assert browser.run("document.documentElement.dataset.state") == "ready"
    assert browser.complaints() == []


def test_nothing_is_asked_of_the_network(browser: Browser, page: Path) -> None:
    schemes = {url.split(":")[0] for url in browser.requests()}
    assert schemes <= {"file", "blob", "data"}
    assert [url for url in browser.requests() if url.startswith("file")] == [page.as_uri()]


def test_the_piece_is_in_the_middle_of_the_picture(browser: Browser) -> None:
    pixels = np.asarray(Image.open(io.BytesIO(browser.picture())).convert("RGB"), dtype=float)
    warmth = pixels[:, :, 0] - pixels[:, :, 2]
    rows, columns = np.nonzero(warmth > 60)
    assert len(rows) > 0.03 * warmth.size
    assert abs(columns.mean() / warmth.shape[1] - 0.5) < 0.1


def test_a_click_in_the_list_names_the_part(browser: Browser) -> None:
    browser.run("document.querySelector('[data-part=\"shelf 1\"]').click()")
    assert browser.run("document.getElementById('chosen').textContent") == "shelf 1 · as drawn"
    browser.run("document.dispatchEvent(new KeyboardEvent('keydown', {key: 'Escape'}))")
    assert browser.run("document.getElementById('chosen').hidden") is True


def test_take_apart_views_and_findings_work_without_a_complaint(browser: Browser) -> None:
    before = browser.picture()
    browser.run("apart.value = 80; apart.dispatchEvent(new Event('input'))")
    for view in ("front", "side", "top", "quarter"):
        browser.run(f"document.querySelector('[data-view={view}]').click()")
        browser.run("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")
        assert browser.run(f"document.querySelector('[data-view={view}]').ariaPressed") == "true"
    assert browser.picture() != before
    browser.run("document.querySelector('.finding').click()")
    assert browser.run("apart.value") == "0"
    assert "0.5 mm" in browser.run("document.getElementById('chosen').textContent")
    assert browser.complaints() == []


def test_what_opens_opens_and_shuts_again(browser: Browser) -> None:
    def shelf_at(share: int) -> np.ndarray:
        opening = "document.getElementById('open')"
        browser.run(f"{opening}.value = {share}; {opening}.dispatchEvent(new Event('input'))")
        browser.run("document.querySelector('[data-view=front]').click()")
        browser.run("new Promise((done) => setTimeout(done, 1200))")
        pixels = np.asarray(Image.open(io.BytesIO(browser.picture())).convert("RGB"), dtype=float)
        return pixels[: len(pixels) // 2]  # the controls are below

    assert browser.run("document.getElementById('opening').hidden") is False
    shut, opened, again = shelf_at(0), shelf_at(100), shelf_at(0)
    middle = slice(int(0.45 * shut.shape[1]), int(0.55 * shut.shape[1]))

    def wood(picture: np.ndarray) -> int:
        return int((picture[:, middle, 0] - picture[:, middle, 2] > 60).sum())

    assert wood(opened) < 0.2 * wood(shut)
    assert wood(again) == pytest.approx(wood(shut), rel=0.02)
    assert browser.complaints() == []


def test_without_webgl_the_page_says_so(page: Path, tmp_path: Path) -> None:
    browser = Browser(tmp_path / "profile", "--disable-3d-apis")
    try:
        browser.open(page)
        assert browser.run("document.documentElement.dataset.state") == "no-webgl"
        assert "WebGL" in browser.run("document.getElementById('message').textContent")
    finally:
        browser.close()
