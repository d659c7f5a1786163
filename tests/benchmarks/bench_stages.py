"""What each stage of a run costs, for the two examples and for walls of 200 and 1000 parts, beside the straight way.

Run: python tests/benchmarks/bench_stages.py [refuge-bench] [refuge-bookcase] [200] [1000]

Processor seconds of this process, one core, best of one: repeats vary by 30 %, so read the ratios. The straight way is
what a plain script does: a boolean for each cut, a solid for each part whether equal or not, the kernel's intersection
for every pair (timed on a sample, multiplied up), a STEP file without shared shapes.
"""

from __future__ import annotations

import random
import sys
import tempfile
import time
from collections.abc import Callable, Iterable
from itertools import combinations
from pathlib import Path
from typing import Any

import cadquery as cq

from drawings.cutting.files import write_cutting
from drawings.lists.write import write_lists
from drawings.players.dxf import write_dxf
from drawings.players.pdf import write_pdf
from drawings.preview.glb import write_glb
from drawings.preview.scene import colour, scene, species_of
from drawings.sheets.general import general_sheet, general_views
from drawings.step import write_step
from drawings.views.shown import shown_solids
from model import solids
from model.checks.contact import contact
from model.checks.overlap import overlap
from model.order import Order, order_from_text, read_order
from model.part import Part
from model.piece import Piece
from model.pieces import design_of

SAMPLE = 150


def wall(bays: int, shelves: int) -> Order:
    """A wall of bookcase, about bays x (shelves + 5) parts with its back boards."""
    text = f'piece = "bookcase"\nname = "wall"\n[size]\nwidth = {500 * bays}\nheight = 2400\nbays = {bays}\n'
    return order_from_text(text + f"shelves = {shelves}\n")


ORDERS: dict[str, Callable[[], Order]] = {
    "refuge-bench": lambda: read_order("refuge-bench"),
    "refuge-bookcase": lambda: read_order("refuge-bookcase"),
    "200": lambda: wall(12, 9),
    "1000": lambda: wall(24, 20),
}


def timed(work: Callable[[], Any]) -> tuple[float, Any]:
    start = time.process_time()
    result = work()
    return time.process_time() - start, result


def straight_solids(piece: Piece) -> list[cq.Shape]:
    """Every part from its block, cut by cut, whether another is equal or not."""
    made = []
    for placed in piece:
        part = placed.part
        assert isinstance(part, Part)
        shape = solids._base(part, ())
        for cut in part.cuts:
            for removal in cut.removals(part.blank):
                shape = solids._minus(shape, [solids._tool(removal, part)])
        made.append(solids.placed(cq.Shape.cast(shape), placed.at))
    return made


def straight_overlap(shapes: list[cq.Shape]) -> float:
    """Seconds for every pair through the kernel, from a sample."""
    pairs = list(combinations(shapes, 2))
    chosen = random.Random(1).sample(pairs, min(SAMPLE, len(pairs)))
    seconds, _ = timed(lambda: [a.intersect(b).Volume() for a, b in chosen])
    return seconds * len(pairs) / len(chosen)


def straight_step(piece: Piece, shapes: Iterable[cq.Shape], path: Path) -> None:
    assembly = cq.Assembly()
    for placed, shape in zip(piece, shapes, strict=True):
        assembly.add(shape, name=placed.name, color=cq.Color(*colour(species_of(placed))))
    assembly.export(str(path), exportType="STEP")


def stages(order: Order, folder: Path) -> list[tuple[str, float, float | None]]:
    found = design_of(order)
    rows: list[tuple[str, float, float | None]] = []
    seconds, piece = timed(lambda: found.make(order.parameters(found.parameters)))
    rows.append(("parts and joints", seconds, None))
    seconds, shapes = timed(lambda: solids.standing(piece))
    plain, plain_shapes = timed(lambda: straight_solids(piece))
    rows.append(("solids", seconds, plain))
    seconds, _ = timed(lambda: overlap(piece, shapes))
    rows.append(("overlap", seconds, straight_overlap(plain_shapes)))
    rows.append(("contact", timed(lambda: contact(piece, shapes))[0], None))
    seconds, _ = timed(lambda: write_step(piece, folder / "a.step"))
    plain, _ = timed(lambda: straight_step(piece, plain_shapes, folder / "b.step"))
    rows.append(("STEP", seconds, plain))
    seconds, placed = timed(lambda: scene(piece))
    rows.append(("meshes", seconds, None))
    rows.append(("GLB", timed(lambda: write_glb(placed, folder / "a.glb"))[0], None))
    seconds, views = timed(lambda: general_views(shown_solids(piece, shapes), order))
    rows.append(("four views", seconds, None))
    seconds, sheet = timed(lambda: general_sheet(piece, order, views))
    rows.append(("general sheet", seconds, None))
    rows.append(("DXF", timed(lambda: write_dxf(sheet, folder / "a.dxf"))[0], None))
    rows.append(("PDF", timed(lambda: write_pdf([sheet], folder / "a.pdf", "", ""))[0], None))
    (folder / "cutting").mkdir()
    rows.append(("cutting files", timed(lambda: write_cutting(piece, folder / "cutting"))[0], None))
    (folder / "lists").mkdir()
    rows.append(("lists", timed(lambda: write_lists(piece, order, folder / "lists"))[0], None))
    print(f"\n{order.name}: {len(piece.parts)} parts of {len(set(piece.items().values()))} kinds")
    return rows


def main(names: list[str]) -> None:
    for name in names or list(ORDERS):
        with tempfile.TemporaryDirectory() as folder:
            rows = stages(ORDERS[name](), Path(folder))
        for what, seconds, plain in rows:
            beside = "" if plain is None else f"   straight {plain:9.2f} s   {seconds / plain:8.4f} x"
            print(f"  {what:18s}{seconds:8.2f} s{beside}", flush=True)
        print(f"  {'total':18s}{sum(s for _, s, _ in rows):8.2f} s")


if __name__ == "__main__":
    main(sys.argv[1:])
