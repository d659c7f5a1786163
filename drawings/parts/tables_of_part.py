"""The tables that go with a part's plan: what it is made of, arcs, trenches, holes and slots, arrises."""

from __future__ import annotations

import math
from collections.abc import Iterator

from drawings.cutting.finished import finished_size, turned_all_along
from drawings.lists.distinct import in_brief
from drawings.lists.part_lines import PartLine
from drawings.lists.teller import edge_in_words
from drawings.paper.measured import Shown, Vector
from drawings.paper.saying import Saying, Says, counted, number, say
from drawings.paper.sheet import Point
from drawings.parts.edge_section import EdgeSection, is_arris
from drawings.parts.family import Family
from drawings.parts.hole_table import hole_table
from drawings.parts.lean_cells import lean_cells, lean_depth
from drawings.parts.plan import Plan
from drawings.parts.table import Cell, Row, Table
from drawings.parts.trenches import Trench, letters
from drawings.parts.turning_table import turning_table
from drawings.sheets.principal import Lengths
from model.cuts.edges import Chamfer, Ease, EdgeCut
from model.layout.outline import Outline

_X, _Y = (1.0, 0.0), (0.0, 1.0)
#: Seen from the near edge: along the part to the right, from back to face upwards.
_ALONG: tuple[Vector, Vector] = ((1.0, 0.0, 0.0), (0.0, 0.0, 1.0))


def tables(plan: Plan) -> list[Table]:
    """All tables of a part but its heading, those that would be empty left out."""
    turning = turning_table(plan.family, plan.form)
    found = [turning, arc_table(plan), trench_table(plan), hole_table(plan), arris_table(plan)]
    return [table for table in found if table.rows]


def heading_table(family: Family, form: Lengths) -> Table:
    """What is made, how many, of what, finished and rough: a row for each member, by name where there are several."""
    heads = ("Item", "Part", "Make", "Stock", "Length", "Width W" if family.tabulated else "Width", "Thick", "Rough")
    rows = tuple(_heading_rows(family, form))
    if len(rows) > 1:
        return Table("", heads, rows)
    return Table("", (heads[0], *heads[2:]), tuple((row[0], *row[2:]) for row in rows))


def _heading_rows(family: Family, form: Lengths) -> Iterator[Row]:
    for member in family.members:
        line, part = PartLine(member), member.wood
        assert part is not None
        (length, width, thickness), round_ = finished_size(part), "Ø" if turned_all_along(part) else ""
        plan, edge = family.shown_one(member), Shown((member.names[0],), *_ALONG)
        name, stock = member.names[0], f"{line.species}, {line.kind}"
        if line.boards > 1:
            stock = say("{} of {}", stock, counted(line.boards, "boards", name))
        yield (
            Cell(counted(member.item, "item", name)),
            Cell(in_brief(member.names, 40)),
            Cell(counted(member.quantity, "off", name)),
            Cell(stock),
            Cell(form(length), plan.extent(_X)),
            Cell(form(width, round_), plan.extent(_Y)),
            Cell(form(thickness, round_), edge.extent(_Y)),
            Cell(_rough(line, form)),
        )


def _rough(line: PartLine, form: Lengths) -> Saying:
    """What to cut it from, and what thickness to ask for."""
    name = line.distinct.names[0]
    nominal = number(line.nominal, Says("nominal", (name,)))
    if line.rough is None:
        return nominal
    each = say("{} of ", counted(line.boards, "boards", name)) if line.boards > 1 else ""
    long = number(form(line.rough.length), Says("rough length", (name,)))
    wide = number(form(line.rough.width), Says("rough width", (name, str(line.boards))))
    return say("{}{} × {}, nominal {}", each, long, wide, nominal)


def arc_table(plan: Plan) -> Table:
    """Each arc's radius and where its centre lies from the datum; reliefs that are alike in one row."""
    shown, (x0, y0), form = plan.family.shown(), plan.datum, plan.form
    rows = list[Row]()
    for arc in sorted(plan.arcs, key=lambda e: -e.radius):
        (cx, cy), bent = arc.centre, "hollow" if _hollow(arc.bulge, plan, arc.point(0.5)) else "round"
        rows.append(
            (
                Cell(bent),
                Cell(form(arc.radius, "R"), shown.radius(arc.centre)),
                Cell(form(cx - x0), shown.length((x0, y0), arc.centre, _X)),
                Cell(form(cy - y0), shown.length((x0, y0), arc.centre, _Y)),
            )
        )
    for found in plan.reliefs.values():
        each = Cell(form(found[0].radius, "R"), tuple(shown.radius(e.centre) for e in found))
        what = "reliefs through corners" if len(found) > 1 else "relief through its corner"
        rows.append((Cell(what), each, Cell(""), Cell("")))
    if not plan.arcs:
        return Table("Arcs", ("Edge", "Radius"), tuple(row[:2] for row in rows))
    return Table("Arcs, centres from the datum", ("Edge", "Radius", "x", "y"), tuple(rows))


def _hollow(bulge: float, plan: Plan, at: Point) -> bool:
    """An outline's arc that turns right is hollow; a trench's is hollow for the wood where it turns left."""
    on_outline = any(not e.straight and _near(e.point(0.5), at) for e in plan.outline.edges)
    return (bulge < 0) is on_outline


def _near(p: Point, q: Point) -> bool:
    return abs(p[0] - q[0]) + abs(p[1] - q[1]) < 1e-6


def trench_table(plan: Plan) -> Table:
    """Kind, depth and side of each lettered trench or pocket; its walls are located in the plan."""
    alike: dict[str, Trench] = {}
    for letter, trench in zip(letters(plan.trenches), plan.trenches, strict=True):
        alike.setdefault(letter, trench)
    heads = ["Mark", "Cut", "Depth", "From"]
    rows: list[Row] = [(Cell(letter), Cell(t.what), _depth(t, plan), Cell(_side(t))) for letter, t in alike.items()]
    if any(t.leans for t in alike.values()):
        leans = [lean_cells(t.leans, plan.family) for t in alike.values()]
        told = 3 if any(arris.text for *_, arris in leans) else 2
        heads += ["Leans", "Toward", "To arris"][:told]
        rows = [(*row, *cells[:told]) for row, cells in zip(rows, leans, strict=True)]
    return Table("Trenches and openings", tuple(heads), tuple(rows))


def _side(trench: Trench) -> str:
    if trench.sunk_from_edge:
        return trench.side
    return "right through" if trench.through else f"{trench.side} side"


def _depth(trench: Trench, plan: Plan) -> Cell:
    if trench.through:
        return Cell("through")
    if trench.leans:
        return lean_depth(trench.leans, plan)
    if trench.sunk_from_edge:
        wall = trench.outline_depth
        return Cell(plan.form(trench.depth), plan.family.shown().length(*wall, _way(*wall)))
    x, _ = _inner_spot(trench.outline)
    thick = plan.family.part.thickness
    top, floor = (thick, thick - trench.depth) if trench.side == "face" else (0.0, trench.depth)
    shown = plan.family.shown(*_ALONG)
    low, high = sorted((top, floor))
    return Cell(plan.form(trench.depth), shown.length((x, low), (x, high), _Y))


def _way(p: Point, q: Point) -> Point:
    """The unit direction from p to q."""
    size = math.dist(p, q)
    return (q[0] - p[0]) / size, (q[1] - p[1]) / size


def _inner_spot(outline: Outline) -> Point:
    x0, y0, x1, y1 = outline.bounds
    return (x0 + x1) / 2, (y0 + y1) / 2


def arris_table(plan: Plan) -> Table:
    """Edges whose arrises are eased or chamfered, and by how much."""
    part, rows = plan.family.part, []
    for cut in (c for c in part.cuts if isinstance(c, EdgeCut) and is_arris(c)):
        section = EdgeSection(part, cut.edge, (cut,))
        edge = Cell(edge_in_words(cut.edge))
        work = Cell(number(_treatment(cut), Says("size", (plan.family.names[0],))))
        rows.append((edge, work, _arris_size(cut, section, plan), Cell(_arrises(cut))))
    return Table("Edge treatment", ("Edge", "Work", "Size", "On"), tuple(rows))


def _arrises(cut: EdgeCut) -> str:
    sides = getattr(cut, "sides", "both")
    return "both arrises" if sides == "both" else f"{sides} side"


def _treatment(cut: EdgeCut) -> str:
    return "eased, rounded over" if isinstance(cut, Ease) else "chamfered at 45°"


def _arris_size(cut: EdgeCut, section: EdgeSection, plan: Plan) -> Cell:
    shown, thick = section.shown(plan.family), plan.family.part.thickness
    face = getattr(cut, "sides", "both") != "back"
    if isinstance(cut, Ease):
        centre = section.point(cut.radius, thick - cut.radius if face else cut.radius)
        return Cell(plan.form(cut.radius, "R"), shown.radius(centre))
    assert isinstance(cut, Chamfer)
    level = thick if face else 0.0
    low = thick - cut.width if face else cut.width
    ends = sorted((section.point(0.0, low), section.point(cut.width, level)))
    return Cell(plan.form(cut.width), shown.length(ends[0], ends[1], _X))
