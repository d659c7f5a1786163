"""The reader of written DXF files: it reads what a full library reads, and says when a file is not whole."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import ezdxf
import pytest

from drawings.players.dxf import APPLICATION
from drawings.proof.readings import readings
from drawings.proof.written_dxf import WrittenDxf
from tests.drawings.proof.sheets_written import ordered, written


@pytest.fixture
def side(bookcase: Any, tmp_path: Path) -> Path:
    return written(bookcase, ordered("refuge-bookcase"), tmp_path)[0]


def test_it_reads_what_the_library_reads(side: Path) -> None:
    doc, ours = ezdxf.readfile(side), WrittenDxf(side)

    for kind, texts in (("TEXT", lambda e: e.dxf.text), ("DIMENSION", lambda e: e.dxf.text)):
        theirs = [texts(e) for e in doc.modelspace().query(kind)]
        assert [e.text(1) for e in ours.entities((kind,))] == theirs
    for mine, entity in zip(ours.entities(("DIMENSION",)), doc.modelspace().query("DIMENSION"), strict=True):
        assert mine.point(13) == pytest.approx(tuple(entity.dxf.defpoint2))
        tags = entity.get_xdata(APPLICATION) if entity.has_xdata(APPLICATION) else []
        words = [t.value for t in tags if t.code == 1000]
        assert [v for c, v in mine.extended(APPLICATION) if c == 1000] == words


def test_texts_of_paper_space_and_of_blocks_are_no_entities_of_the_model(tmp_path: Path) -> None:
    doc = ezdxf.new("R2010")
    doc.modelspace().add_text("here")
    doc.layout("Layout1").add_text("on the paper")
    doc.blocks.new("B").add_text("in a block")
    doc.saveas(tmp_path / "texts.dxf")

    assert [e.text(1) for e in WrittenDxf(tmp_path / "texts.dxf").entities(("TEXT",))] == ["here"]


def test_a_file_cut_short_is_no_whole_one(side: Path) -> None:
    whole = side.read_text(encoding="utf-8")
    side.write_text(whole[: len(whole) // 2], encoding="utf-8")

    with pytest.raises(ValueError, match="not a whole DXF"):
        list(readings(side))
