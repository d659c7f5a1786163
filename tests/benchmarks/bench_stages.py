"""What each stage of a run costs, for the six examples and walls of 200 and 1000 parts, beside the straight way; and
what each question of the dry fit costs again, and with one size changed.

Run: python tests/benchmarks/bench_stages.py [refuge-bench ...] [200] [1000]

Processor seconds, one core, best of one: repeats vary by 30 %, so read the ratios. The straight way is what a plain
script does: a boolean for each cut, a solid for each part whether equal or not, the kernel's intersection for every
pair (timed on a sample, multiplied up), a STEP file without shared shapes.

The dry fit of an example is then asked in processes of their own. Again: the same order, answers remembered from a
first run. Changed: one size in the order is another, and what has not changed is remembered; `anew` beside it is the
changed order with nothing remembered. What they say is compared: it must not depend on what is remembered.
"""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterable, Mapping
from itertools import combinations, pairwise
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
from model.checks.dry_fit import dry_fit
from model.checks.finding import Answer
from model.order import Order, order_from_text, read_order
from model.part import Part
from model.piece import Piece
from model.pieces import design_of

SAMPLE = 150

#: One size of each example, and what it is changed to.
CHANGED: dict[str, tuple[str, Any]] = {
    "refuge-bench": ("seat_height", 440),
    "refuge-bookcase": ("base", 75),
    "refuge-chest": ("plinth_height", 104),
    "refuge-table": ("stretcher_height", 340),
    "refuge-cupboard": ("drawer_height", 95),
    "refuge-stool": ("hand_hold", 124),
}

#: The question that the straight way asks of every pair.
OVERLAP = "do any two parts overlap?"


def wall(bays: int, shelves: int) -> Order:
    """A wall of bookcase, about bays x (shelves + 5) parts with its back boards."""
    text = f'piece = "bookcase"\nname = "wall"\n[size]\nwidth = {500 * bays}\nheight = 2400\nbays = {bays}\n'
    return order_from_text(text + f"shelves = {shelves}\n")


ORDERS: dict[str, Callable[[], Order]] = {
    **{name: lambda name=name: read_order(name) for name in CHANGED},  # type: ignore[misc]
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
    laps, _ = questions(piece, shapes, order)
    rows += [(q, seconds, straight_overlap(plain_shapes) if q == OVERLAP else None) for q, seconds in laps.items()]
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


def questions(piece: Piece, shapes: Mapping[str, cq.Shape], order: Order) -> tuple[dict[str, float], Answer]:
    """Seconds of each question of the dry fit, those of the children it forks counted too, and the answer."""
    laps: list[tuple[str, float]] = []
    answer = dry_fit(piece, shapes, shop=order.shop, at=order.place, progress=lambda q: laps.append((q, spent())))
    laps.append(("", spent()))
    return {q: after - before for (q, before), (_, after) in pairwise(laps)}, answer


def spent() -> float:
    t = os.times()
    return t.user + t.system + t.children_user + t.children_system


def one_run(name: str, size: dict[str, Any]) -> dict[str, Any]:
    """Seconds of each question, and all that is said."""
    order = read_order(name)
    order.size.update(size)
    found = design_of(order)
    piece = found.make(order.parameters(found.parameters))
    seconds, answer = questions(piece, solids.standing(piece), order)
    said = [f.as_dict() for f in answer.findings], [vars(p) for p in answer.proofs]
    return {"seconds": seconds, "said": json.dumps(said)}


def run(name: str, size: dict[str, Any], cache: str) -> dict[str, Any]:
    """The same in a process of its own, remembering in a folder, or nowhere."""
    command = [sys.executable, __file__, "--one", name, json.dumps(size)]
    told = subprocess.run(command, env={**os.environ, "DRYFIT_CACHE": cache}, capture_output=True, check=True)
    found: dict[str, Any] = json.loads(told.stdout.splitlines()[-1])
    return found


def remembering(name: str) -> None:
    """The dry fit of an example first, again, and with one size changed."""
    key, value = CHANGED[name]
    with tempfile.TemporaryDirectory() as cache:
        runs = [run(name, {}, cache), run(name, {}, cache), run(name, {key: value}, cache), run(name, {key: value}, "")]
    same = runs[0]["said"] == runs[1]["said"] and runs[2]["said"] == runs[3]["said"]
    print(f"  changed: {key} = {value}; {'says the same' if same else 'SAYS SOMETHING ELSE'}")
    print(f"  {'':48s}{'first':>8s}{'again':>8s}{'changed':>8s}{'anew':>8s}")
    for question in runs[0]["seconds"]:
        print(f"  {question:48s}" + "".join(f"{r['seconds'][question]:8.2f}" for r in runs))
    print(f"  {'all':48s}" + "".join(f"{sum(r['seconds'].values()):8.2f}" for r in runs), flush=True)


def main(names: list[str]) -> None:
    if names[:1] == ["--one"]:
        print(json.dumps(one_run(names[1], json.loads(names[2]))))
        return
    os.environ["DRYFIT_CACHE"] = ""
    for name in names or list(ORDERS):
        with tempfile.TemporaryDirectory() as folder:
            rows = stages(ORDERS[name](), Path(folder))
        for what, seconds, plain in rows:
            beside = "" if plain is None else f"   straight {plain:9.2f} s   {seconds / plain:8.4f} x"
            print(f"  {what:48s}{seconds:8.2f} s{beside}", flush=True)
        print(f"  {'total':48s}{sum(s for _, s, _ in rows):8.2f} s")
        if name in CHANGED:
            remembering(name)


if __name__ == "__main__":
    main(sys.argv[1:])
