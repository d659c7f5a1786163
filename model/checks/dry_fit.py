"""The dry fit: every question asked of a piece, one answer."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import cadquery as cq

from model.checks.accuracy import accuracy
from model.checks.apart import apart
from model.checks.closing import closing
from model.checks.contact import contact
from model.checks.fasteners import fasteners
from model.checks.finding import Answer
from model.checks.glue_up import glue_up
from model.checks.held import held
from model.checks.light import light
from model.checks.memory.remembered import keep_all
from model.checks.memory.whole_answers import asking_of
from model.checks.moving import Limits, moving
from model.checks.overlap import overlap
from model.checks.shop import shop_can
from model.checks.travel.closing_order import Build
from model.checks.travel.ways import Ways
from model.checks.way_in import way_in
from model.checks.wood_left import wood_left
from model.order_sections import Place, Shop
from model.piece import Piece

#: Told what is being asked, before it is asked.
Progress = Callable[[str], None]

_GRAVEST_FIRST = ("fault", "caution", "note")


def dry_fit(
    piece: Piece,
    shapes: Mapping[str, cq.Shape],
    *,
    shop: Shop | None = None,
    at: Place | None = None,
    least_wood: float | None = None,
    progress: Progress | None = None,
) -> Answer:
    """All that the checks find and prove, faults first, then cautions, then notes.

    shapes: every part's solid where it stands, by name. shop: what there is to make it with, an order's [shop]; at:
    where it will stand, an order's [place];
    least_wood: what a cut may leave, mm, if it is not the shop's. Raises DesignError if the kernel can't intersect or
    measure two solids.
    """
    shop, at = shop or Shop(), at or Place()
    least = shop.least_wood if least_wood is None else least_wood
    ways = Ways(shapes)
    build = Build(piece, ways)
    questions: dict[str, Callable[[], Answer]] = {
        "do any two parts overlap?": lambda: overlap(piece, shapes),
        "is every joint in contact?": lambda: contact(piece, shapes),
        "does anything hold every part?": lambda: held(piece),
        "would light show through a joint?": lambda: light(piece, shapes, shop.light_gap),
        "do parts that must not touch stay apart?": lambda: apart(piece, shapes),
        "do the cuts leave enough wood?": lambda: wood_left(piece, least),
        "does it go together in the order of its steps?": lambda: closing(build),
        "can each step be glued in time?": lambda: glue_up(build, open_time=shop.open_time, clamps=shop.clamps),
        "do moving parts move freely?": lambda: moving(
            piece, ways, Limits(at.hinge_gap, at.finger_gap, shop.drawer_play)
        ),
        "do nails, screws and their like sit right?": lambda: fasteners(
            piece, shapes, least_wood=least, driver_room=shop.driver_room
        ),
        "can this shop make it?": lambda: shop_can(piece, shop),
        "does it pass the door?": lambda: _way_in(piece, shapes, at),
        "is the shop exact enough for its fits?": lambda: accuracy(piece, shop),
    }
    asked, answers = asking_of(piece, shapes, shop, at, least), []
    for question, answered in questions.items():
        if progress is not None:
            progress(question)
        answers.append(asked(question, answered))
    keep_all()
    findings = [f for answer in answers for f in answer.findings]
    ordered = sorted(findings, key=lambda f: _GRAVEST_FIRST.index(f.severity))
    figures = {name: figure for answer in answers for name, figure in answer.figures.items()}
    return Answer(tuple(ordered), tuple(p for answer in answers for p in answer.proofs if p.checked), figures)


def _way_in(piece: Piece, shapes: Mapping[str, cq.Shape], at: Place) -> Answer:
    stair = at.stair
    return way_in(
        piece,
        shapes,
        door=at.door,
        corner=at.corner,
        stair=(stair.width, stair.headroom, stair.rise, stair.going),
        landing=stair.landing,
        half_turn=stair.turn == "half",
        ceiling=at.ceiling,
    )


def fits(answer: Answer) -> bool:
    """Whether nothing found is a fault."""
    return all(f.severity != "fault" for f in answer.findings)
