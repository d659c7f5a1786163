"""The gallery of joints: all of them, on one sheet, legible, nothing over anything else."""

from __future__ import annotations

import pytest

from drawings.paper.lettering import text_box
from drawings.paper.page import title_block_area
from drawings.paper.sheet import Sheet, Text
from drawings.sheets.clear_room import box_of, boxes_meet
from drawings.sheets.joint_sheet import joint_sheets
from model.joints.samples import samples


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    (only,) = joint_sheets()
    return only


def words(sheet: Sheet) -> list[Text]:
    """What is written outside the title block and the frame's own grid."""
    x0, y0, x1, y1 = sheet.paper.frame
    inside = [m for m in sheet.entities if isinstance(m, Text) and x0 < m.at[0] < x1 and y0 < m.at[1] < y1]
    return [t for t in inside if not boxes_meet(text_box(t), title_block_area(sheet.paper))]


def test_every_joint_has_its_name_and_the_whole_of_its_rule(sheet: Sheet) -> None:
    written = words(sheet)
    names = [t.text.lower() for t in written if t.bold]
    rules = " ".join(t.text for t in written if not t.bold).lower()

    assert names == [s.name for s in samples()]
    assert all(s.source.lower() in rules for s in samples())


def test_lettering_is_legible_and_nothing_is_written_over_anything(sheet: Sheet) -> None:
    written = words(sheet)
    boxes = [text_box(t) for t in written]

    assert min(t.height for t in written) >= 1.8
    assert [a for n, a in enumerate(boxes) for b in boxes[n + 1 :] if boxes_meet(a, b)] == []
    lines = [box_of([m]) for m in sheet.entities if not isinstance(m, Text) and getattr(m, "pen", None)]
    x0, y0, x1, y1 = sheet.paper.frame
    drawn = [b for b in lines if x0 + 7 < b[0] and b[2] < x1 - 7 and y0 + 7 < b[1] and b[3] < y1 - 7]
    assert len(drawn) > 1000
    assert [t.text for t, box in zip(written, boxes, strict=True) if any(boxes_meet(box, line) for line in drawn)] == []
