"""The dry fit: every question asked of a piece, one answer."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import cadquery as cq

from model.checks.apart import apart
from model.checks.closing import closing
from model.checks.closing_order import Build
from model.checks.contact import contact
from model.checks.finding import Answer
from model.checks.glue_up import CLAMPS, OPEN_TIME, glue_up
from model.checks.moving import moving
from model.checks.overlap import overlap
from model.checks.ways import Ways
from model.checks.wood_left import wood_left
from model.piece import Piece

#: Told what is being asked, before it is asked.
Progress = Callable[[str], None]

_GRAVEST_FIRST = ("fault", "caution", "note")


def dry_fit(
    piece: Piece,
    shapes: Mapping[str, cq.Shape],
    *,
    least_wood: float,
    open_time: float = OPEN_TIME,
    clamps: float = CLAMPS,
    progress: Progress | None = None,
) -> Answer:
    """All that the checks find and prove, faults first, then cautions, then notes.

    shapes: every part's solid where it stands, by name. least_wood: what a cut may leave, mm. open_time: of the
    glue, minutes; clamps: how many there are. Raises DesignError if the kernel can't intersect or measure two solids.
    """
    ways = Ways(shapes)
    build = Build(piece, ways)
    questions: dict[str, Callable[[], Answer]] = {
        "do any two parts overlap?": lambda: overlap(piece, shapes),
        "is every joint in contact?": lambda: contact(piece, shapes),
        "do parts that must not touch stay apart?": lambda: apart(piece, shapes),
        "do the cuts leave enough wood?": lambda: wood_left(piece, least_wood),
        "does it go together in the order of its steps?": lambda: closing(build),
        "can each step be glued in time?": lambda: glue_up(build, open_time=open_time, clamps=clamps),
        "do moving parts move freely?": lambda: moving(piece, ways),
    }
    answers = []
    for question, ask in questions.items():
        if progress is not None:
            progress(question)
        answers.append(ask())
    findings = [f for answer in answers for f in answer.findings]
    ordered = sorted(findings, key=lambda f: _GRAVEST_FIRST.index(f.severity))
    return Answer(tuple(ordered), tuple(p for answer in answers for p in answer.proofs if p.checked))


def fits(answer: Answer) -> bool:
    """Whether nothing found is a fault."""
    return all(f.severity != "fault" for f in answer.findings)
