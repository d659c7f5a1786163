"""From an order to its folder: build the piece, prove it, draw it, list it, write it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from drawings.folder import whole_folder, write_manifest
from drawings.side_by_side import side_by_side
from model.checks.dry_fit import dry_fit, fits
from model.checks.finding import Answer
from model.errors import DesignError
from model.order import Order, blaming
from model.part import Part
from model.piece import Piece
from model.pieces import design_of

if TYPE_CHECKING:
    import cadquery as cq

    from drawings.paper.sheet import Sheet

Progress = Callable[[str], None]


@dataclass(frozen=True)
class Built:
    """An order's piece, every part solid where it stands."""

    order: Order
    piece: Piece
    shapes: Mapping[str, cq.Shape]


def build(order: Order, progress: Progress = lambda _: None) -> Built:
    """The piece an order asks for, made solid. Raises OrderError or DesignError, naming the order's file."""
    progress("Working out the parts")
    design = design_of(order)
    parameters = order.parameters(design.parameters)
    with blaming(order.file, order.units):
        piece = design.make(parameters)
        progress("Making the parts solid")
        return Built(order, piece, _standing(piece))


def _standing(piece: Piece) -> dict[str, cq.Shape]:
    """Every part's solid where it stands; they are made on both cores, those with most cuts first."""
    from model.solids import bring, standing

    different = dict.fromkeys(part.part for part in piece if isinstance(part.part, Part))
    laborious = sorted(different, key=lambda part: -len(part.cuts))
    ours, theirs = laborious[::2], laborious[1::2]
    _, made = side_by_side(lambda: _sound(ours), lambda: _sound(theirs))
    bring({part: solid for part, solid in zip(theirs, made, strict=True) if solid is not None})
    return standing(piece)


def _sound(parts: Sequence[Part]) -> list[cq.Shape | None]:
    """The solids of parts; None for one that can't be made, which `standing` tells by its name."""
    from model.solids import solid

    made: list[cq.Shape | None] = []
    for part in parts:
        try:
            made.append(solid(part))
        except DesignError:
            made.append(None)
    return made


def check(built: Built, progress: Progress = lambda _: None) -> Answer:
    """The dry fit, told in the order's units."""
    order = built.order
    answer = dry_fit(built.piece, built.shapes, shop=order.shop, at=order.place, progress=progress)
    return answer.in_units(order.units)


def set_out(order: Order, target: Path, progress: Progress = lambda _: None) -> Answer:
    """Everything an order asks for, into the folder `target`, which is replaced whole or left as it was.

    Raises OrderError or DesignError for an order that can't be made; the folder is then untouched.
    """
    built = build(order, progress)
    with whole_folder(target) as folder:
        answer, pictures = side_by_side(
            lambda: _prove_and_list(built, folder, progress),
            lambda: _drawn(built, folder),
        )
        progress("Measuring every printed number on the solids")
        numbers = _numbers_proved(built, folder / "drawings")
        answer = Answer(numbers.findings + answer.findings, answer.proofs + numbers.proofs, answer.figures)
        progress("Writing the report and the preview")
        _report(built, answer, pictures, folder)
        write_manifest(folder, order.as_read())
    return answer


def _prove_and_list(built: Built, folder: Path, progress: Progress) -> Answer:
    """The dry fit, and all that is written of the parts alone: models, cutting files, lists."""
    from drawings.cutting.files import write_cutting
    from drawings.cutting.proof import cutting_proof
    from drawings.lists.write import write_lists
    from drawings.preview.glb import write_glb
    from drawings.preview.scene import scene
    from drawings.step import write_step

    order, piece = built.order, built.piece
    answer = check(built, progress)
    progress("Writing models, cutting files and lists")
    write_step(piece, folder / "model.step")
    write_glb(scene(piece), folder / "model.glb")
    cutting = _sub(folder, "cutting")
    write_cutting(piece, cutting)
    write_lists(piece, order, _sub(folder, "lists"))
    return Answer(answer.findings, (*answer.proofs, cutting_proof(piece, cutting)), answer.figures)


def _drawn(built: Built, folder: Path) -> list[tuple[str, str]]:
    """The drawing set, and the patterns and story sticks at full size; the pictures for the report."""
    from drawings.cards.story_sticks import write_story_sticks
    from drawings.patterns.write import write_patterns

    pictures = draw(built, folder)
    patterns = _sub(folder, "patterns")
    write_patterns(built.piece, built.order, patterns)
    write_story_sticks(built.piece, built.order, patterns)
    return pictures


def draw(built: Built, folder: Path) -> list[tuple[str, str]]:
    """Writes the drawing set into a folder; the pictures for the report, each with its caption."""
    from drawings.players.dxf import write_dxf
    from drawings.players.pdf import write_pdf
    from drawings.players.svg import svg_text, write_svg
    from drawings.sheets.book import book

    order = built.order
    sheets = book(built.piece, order, built.shapes)
    drawings = _sub(folder, "drawings")

    def play(some: list[Sheet]) -> None:
        for sheet in some:
            write_dxf(sheet, drawings / f"{sheet.name}.dxf")
            write_svg(sheet, drawings / f"{sheet.name}.svg")

    def bound() -> None:
        write_pdf(sheets, drawings / "set.pdf", order.title, f"Drawings of {order.name}")
        play(sheets[2::3])

    side_by_side(lambda: play([s for n, s in enumerate(sheets) if n % 3 != 2]), bound)
    return [(sheet.title, svg_text(sheet)) for sheet in sheets if sheet.name in ("general", "exploded")]


def _numbers_proved(built: Built, drawings: Path) -> Answer:
    """Every printed number held against the solids. One that differs, or can't be proven, is our own mistake."""
    from drawings.proof.numbers import numbers_answer, numbers_proof

    files = sorted(drawings.glob("*.dxf"))
    halves = side_by_side(
        lambda: numbers_proof(built.piece, built.order, files[::2], dict(built.shapes)),
        lambda: numbers_proof(built.piece, built.order, files[1::2], dict(built.shapes)),
    )
    return numbers_answer(halves, whole=True)


def _report(built: Built, answer: Answer, pictures: list[tuple[str, str]], folder: Path) -> None:
    from drawings.close_ups import close_ups
    from drawings.lists.figures import figures, overall
    from drawings.preview.opening import openings
    from drawings.preview.page import write_preview
    from drawings.preview.parts_shown import parts_shown
    from drawings.report import Report, write_report_json, write_report_page

    order, piece = built.order, built.piece
    places = close_ups(answer.findings, built.shapes)
    report = Report(order, piece, answer, {**figures(piece, order, built.shapes), **answer.figures}, places)
    write_report_json(report, folder / "report.json")
    write_report_page(report, pictures, folder / "report.html")
    write_preview(
        folder / "model.glb",
        folder / "preview.html",
        title=order.title,
        subtitle=f"{piece.name}, {order.wood.species}",
        overall=overall(built.shapes, order),
        parts=parts_shown(piece, order),
        openings=openings(piece),
        findings=[f.as_dict() for f in answer.findings if f.severity != "note"],
        proofs=[{"what": p.what, "checked": p.checked, "held": p.held} for p in answer.proofs],
    )


def _sub(folder: Path, name: str) -> Path:
    inner = folder / name
    inner.mkdir()
    return inner


__all__ = ["Built", "build", "check", "draw", "fits", "set_out"]
