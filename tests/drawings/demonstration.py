"""A sheet with every kind of mark on it, for the tests: a settle's side that no one builds."""

from drawings.paper.dimensions import aligned, angular, diameter, linear, radius
from drawings.paper.page import PAPERS, frame_and_title
from drawings.paper.sheet import Arc, Circle, Entity, Fill, Hatch, Leader, Line, Pen, Polyline, Sheet, Text, ViewPort
from drawings.paper.strokes import circle_and_text
from drawings.paper.title_block import TitleBlock

BLOCK = TitleBlock(
    "Entry bench for the refuge",
    owner="Walkers' refuge association",
    number="REFUGE-BENCH-02",
    revision="A",
    date="2025-06-01",
    creator="M. Aubert",
    scale="1:10",
    sheet=2,
    of=7,
    supplement="Left side, seat and floor",
)


def demonstration(paper: str = "A3", units: str = "mm", block: TitleBlock = BLOCK) -> Sheet:
    page = PAPERS[paper]
    entities = (*frame_and_title(page, block), *_side(units), *_section())
    return Sheet("side-left", "Left side", page, entities, 2, 7)


def _side(units: str) -> list[Entity]:
    view = ViewPort(0.1, (70, 110))
    outline = ((0, 0), (395, 0), (395, 560), (220, 700), (180, 1330), (0, 1330))
    bulges = (0.0, 0.0, 0.4, -0.3, 0.0, 0.0)
    dado = [view.place(p) for p in ((0, 416), (395, 416), (395, 435), (0, 435))]
    centre = view.place((300, 200))
    return [
        Polyline(tuple(view.place(p) for p in outline), bulges, closed=True),
        Polyline(tuple(dado), closed=True, pen=Pen.HIDDEN),
        Arc(view.place((90, 1130)), 20, -60, 60, Pen.THIN),
        Circle(centre, 4),
        Line((centre[0] - 6, centre[1]), (centre[0] + 6, centre[1]), Pen.CENTRE),
        Line((centre[0], centre[1] - 6), (centre[0], centre[1] + 6), Pen.CENTRE),
        linear((0, 0), (395, 0), view, "below", units=units),
        linear((0, 0), (0, 1330), view, "left", tier=1, units=units),
        linear((0, 0), (0, 416), view, "left", units=units),
        linear((395, 416), (395, 435), view, "right", units=units),
        diameter((300, 200), 80, 60, view, -16, units=units),
        aligned((220, 700), (180, 1330), view, -14, units=units),
        radius((90, 1130), 200, 0, view, 4, units=units),
        angular((0, 0), 58, 90, view, 28, 20),
        Leader((view.place((200, 425)), (120, 135), (124, 135)), "Dado 19 wide, 9.5 deep", "dot"),
        Leader((view.place((90, 1330)), (84, 252), (88, 252)), "Ease 2 mm all round"),
    ]


def _section() -> list[Entity]:
    view = ViewPort(1, (210, 150))
    board = Polyline(((210, 150), (290, 150), (290, 169), (210, 169)), closed=True)
    tongue = Polyline(((290, 150), (330, 150), (330, 169), (290, 169)), closed=True)
    hole = Polyline(((240, 159), (248, 159)), (1.0, 1.0), closed=True)
    return [
        Hatch((board, hole), 45, 2),
        Hatch((tongue,), 135, 2),
        Fill((Polyline(((340, 150), (380, 150), (380, 169), (340, 169)), closed=True),), "#e6dcc8"),
        board,
        tongue,
        hole,
        Arc((360, 200), 12, 0, 120, Pen.PHANTOM),
        Line((200, 190), (340, 190), Pen.CUTTING),
        Text((270, 215), "Section A–A", 5, "centre", bold=True),
        Text((270, 208), "scale 1:1", 3.5, "centre"),
        linear((0, 0), (80, 0), view, "below", edge=0),
        linear((80, 0), (85, 0), view, "below", edge=0),
        linear((0, 0), (120, 0), view, "below", tier=1, edge=0),
        *circle_and_text((370, 250), "12"),
    ]
