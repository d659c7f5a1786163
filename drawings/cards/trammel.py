"""Trammel cards: where the pivot stands, each radius, arcs with one centre together; and ordinates for a small shop."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drawings.cards.flow import area
from drawings.cards.long_arcs import Pivot, Swept, pivots
from drawings.cards.ordinate_blocks import BowBlock, bows
from drawings.cards.pivot_drawing import pivot_drawing
from drawings.lists.distinct import in_short
from drawings.paper.board import board
from drawings.paper.lettering import paragraph
from drawings.paper.measured import Measured, Point, Shown
from drawings.paper.saying import Saying, number, say
from drawings.paper.scales import largest_scale, sheet_scale
from drawings.paper.sheet import Entity, Sheet
from drawings.parts.table import Cell, Row, Table
from drawings.sheets.block import Block
from drawings.sheets.clear_room import Box, box_of
from drawings.sheets.leaves import Leaf, bind
from drawings.sheets.packing import filled, sheet_room
from drawings.sheets.principal import Lengths, middle_of
from model.order import Order
from model.piece import Piece

KIND = "Trammel card"
_PLAN, _OWN, _ORDINATES = "Long arcs by trammel", "Long arcs of single parts", "Long arcs by ordinates"
_HEIGHT, _BETWEEN, _ROW = 2.5, 6.0, 4.8
#: The words over the table are wrapped to this; a drawing narrower than the least goes under the table, mm.
_WORDS, _LEAST = 150.0, 110.0
_HEADS = ("Radius", "Edge", "The wood is", "Pivot from left end", "From near edge")


def trammel_sheets(piece: Piece, order: Order) -> list[Sheet]:
    """The cards of a piece's long arcs, none if it has none: one for each pivot in its plan, one for the pivots of
    single parts, and the ordinates of every arc."""
    return bind(trammel_leaves(piece, order), order)


def trammel_leaves(piece: Piece, order: Order) -> list[Leaf]:
    """The same before they are bound."""
    form = Lengths(order.units, order.drawing.denominator)
    found = pivots(piece)
    plan = [p for p in found if p.part is None and (p.arcs or any(r > 0 for _, r in p.named))]
    own = [p for p in found if p.part is not None]
    return [
        *(_plan_card(piece, pivot, order, form) for pivot in plan),
        *_laid_out_cards(_own_tables(own, order, form), [arc for p in found for arc in p.arcs], order, form),
    ]


def _plan_card(piece: Piece, pivot: Pivot, order: Order, form: Lengths) -> Leaf:
    box = area(order)
    words = paragraph((box[0], box[3]), _stands(piece, pivot, form), _WORDS, _HEIGHT)
    top = box_of(words)[1] - _BETWEEN
    marks: list[Entity] = [*words, *Table("Settings", _HEADS, tuple(_rows(pivot, form))).marks((box[0], top))]
    taken = box_of(marks)
    beside = (taken[2] + _BETWEEN, box[1], box[2], box[3])
    room: Box = beside if beside[2] - beside[0] > _LEAST else (box[0], box[1], box[2], taken[1] - _BETWEEN)
    stands = {p.name: p.at for p in piece}
    scale, drawn = pivot_drawing(pivot, stands, room, form)
    return Leaf("trammel", KIND, (*marks, *drawn), sheet_scale(scale, order.units), _PLAN)


def _stands(piece: Piece, pivot: Pivot, form: Lengths) -> Saying:
    """Where the pivot is, told from the work's centre line and from the arc nearest to it."""
    middle, x = middle_of(piece), pivot.centre[0]
    if middle is not None and abs(x - middle) < 0.01:
        line = say("on the centre line of the work")
    else:
        datum, what = (0.0, "the piece's own origin") if middle is None else (middle, "the centre line of the work")
        off = Shown().length((datum, 0.0), pivot.centre, (1.0 if x > datum else -1.0, 0.0))
        line = say("{} {} of {}", number(form(abs(x - datum)), off), "right" if x > datum else "left", what)
    swung = in_short(name for name, _ in pivot.named)
    told = say(" From here are swung {} and all that runs along with them.", swung) if swung else ""
    nearest = number(form(pivot.radii[0]), Shown().radius(pivot.centre))
    where = say("The pivot stands {}, {} from the nearest arc, measured along that line.", line, nearest)
    return say(
        "{}{} Set the pivot once, strike the longest arc first, and check each radius from the pivot with a "
        "rule before it is swung. Pivots in the table are measured on each part's own blank, from its left end and "
        "near edge, face side up.",
        where,
        told,
    )


def _rows(pivot: Pivot, form: Lengths) -> Iterator[Row]:
    arcs = sorted(pivot.arcs, key=lambda a: a.radius)
    for name, radius in pivot.named:
        if not any(abs(a.radius - radius) < 0.01 for a in arcs):
            measured = Shown().radius(pivot.centre)
            laid_out = say("{} (laid out only)", name)
            yield (Cell(form(radius, "R"), measured), Cell(laid_out), Cell(""), Cell(""), Cell(""))
    for arc in arcs:
        yield _row(arc, form)


def _row(arc: Swept, form: Lengths) -> Row:
    radius = Cell(form(arc.radius, "R"), Shown((arc.distinct.names[0],)).radius(arc.centre))
    return radius, Cell(arc.name), Cell(arc.shape), _along(arc, form), _across(arc, form)


def _along(arc: Swept, form: Lengths) -> Cell:
    x, length = arc.centre[0], arc.part.stock.length
    off, end, along = _outside(x, length), (length, 0.0) if x > length else (0.0, 0.0), (1.0, 0.0)
    words = (
        ", its centre line" if abs(x - length / 2.0) < 0.005 else ("", " outside left end", " outside right end")[off]
    )
    return Cell(f"{form(abs(x - end[0]))}{words}", _from(end, arc, along))


def _across(arc: Swept, form: Lengths) -> Cell:
    y, width = arc.centre[1], arc.part.stock.width
    off, edge, along = _outside(y, width), (0.0, width) if y > width else (0.0, 0.0), (0.0, 1.0)
    return Cell(f"{form(abs(y - edge[1]))}{('', ' outside', ' outside far edge')[off]}", _from(edge, arc, along))


def _outside(value: float, size: float) -> int:
    """0 on the blank, 1 before it, 2 beyond it."""
    return 1 if value < -0.005 else 2 if value > size + 0.005 else 0


def _from(datum: Point, arc: Swept, along: Point) -> Measured:
    """How far the centre is from an end or edge of the blank."""
    before = arc.centre[0] * along[0] + arc.centre[1] * along[1] < datum[0] * along[0] + datum[1] * along[1]
    way = (-along[0], -along[1]) if before else along
    return Shown((arc.distinct.names[0],)).length(datum, arc.centre, way)


def _own_tables(own: Sequence[Pivot], order: Order, form: Lengths) -> list[Table]:
    """The pivots of single parts, in as many tables as their rows take."""
    _, y0, _, y1 = area(order)
    rows = [_row(arc, form) for pivot in own for arc in pivot.arcs]
    most = int((y1 - y0 - 10.0) / _ROW) - 1
    title = "Settings, each pivot on the part's own blank, face side up"
    return [Table(title, _HEADS, tuple(rows[n : n + most])) for n in range(0, len(rows), most)]


def _laid_out_cards(tables: Sequence[Table], arcs: Sequence[Swept], order: Order, form: Lengths) -> Iterator[Leaf]:
    """The tables of single parts' pivots, then every bow by its ordinates, all at one scale: over the width of a sheet,
    or in two columns if that saves one."""
    x0, _, x1, _ = area(order)
    empty = sheet_room(board(order.drawing.paper, order.units), _BETWEEN)
    ways = []
    for width in (x1 - x0, (x1 - x0 - _BETWEEN) / 2.0):
        bows = _bow_blocks(arcs, order, form, width)
        blocks = [Block(table.marks) for table in tables] + [_block(bow) for bow in bows]
        pages = filled([[block] for block in blocks], empty) if bows and width > _LEAST else None
        ways += [(len(pages), bows[0].scale, pages)] if pages else []
    title = _ORDINATES if not tables else f"{_OWN}, and by ordinates"
    _, scale, best = min(ways, key=lambda way: way[0], default=(0, 1.0, []))
    for page in best:
        yield Leaf("ordinates", KIND, page, sheet_scale(scale, order.units), title)


def _block(bow: BowBlock) -> Block:
    return Block(lambda at: list(bow.marks(*at)))


def _bow_blocks(arcs: Sequence[Swept], order: Order, form: Lengths, width: float) -> list[BowBlock]:
    _, y0, _, y1 = area(order)
    found = bows(arcs)
    longest, highest = max((b.chord for b in found), default=1.0), max((b.rise for b in found), default=1.0)
    room = (width - 4.0, (y1 - y0) / 2.0)
    scale = largest_scale(longest, highest, room, units=order.units) or min(room[0] / longest, room[1] / highest)
    return [BowBlock(bow, scale, width, form) for bow in found]
