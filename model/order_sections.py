"""The sections of an order that every design shares: [wood] [place] [shop] [prices] [drawing].

Each value is declared with its default and limits. Where no source is named, a default is common practice: a
starting point that the shop is meant to overwrite with its own.
"""

from dataclasses import replace
from typing import Any, TypeAlias

from model.declared import (
    Declared,
    DeclaredLengths,
    DeclaredNumber,
    DeclaredRectangles,
    DeclaredText,
)
from model.errors import OrderError
from model.lengths import INCH_UNITS
from model.parameters import Declaring, Length, choice, size
from model.written import shown

Lengths: TypeAlias = tuple[float, ...]
Rectangles: TypeAlias = tuple[tuple[float, float], ...]

#: Trimmed ISO 216 sheets and the ANSI/ASME Y14.1 sheets that drawings are made on.
PAPERS = ("A4", "A3", "A2", "A1", "A0", "A", "B", "C", "D", "E")


class DeclaredSpecies(DeclaredText):
    """A wood by its trade name."""

    kind = "species"

    def take(self, written: object, units: str) -> str:
        from model.wood.material import material_named

        return material_named(super().take(written, units)).name

    def allowed(self, units: str) -> str:
        return "be a wood by its trade name in quotes"


class DeclaredTable(Declared):
    """A small table of declared values; what an order leaves out stays as in the default."""

    kind = "table"
    default: Declaring

    def take(self, written: object, units: str) -> Declaring:
        if isinstance(written, Declaring):
            return written
        if not isinstance(written, dict):
            raise OrderError(f"{shown(written)} is not a table")
        return type(self.default).read(written, units, given=dict(self.default))

    def allowed(self, units: str) -> str:
        return f"be a table such as {self.toml(units)}"

    def toml(self, units: str) -> str:
        entries = type(self.default).declared().values()
        # Not each entry's own default: a table declared twice (dry and damp) has two sets of them.
        mine = [replace(said, default=getattr(self.default, said.name)) for said in entries]
        return f"{{ {', '.join(f'{said.name} = {said.toml(units)}' for said in mine)} }}"


def _number(default: float, low: float, high: float, what: str, mark: str = "") -> Any:
    return DeclaredNumber(what=what, default=default, low=low, high=high, mark=mark)


def _price(default: float, what: str) -> Any:
    return _number(default, 0, 1e6, f"price of {what}")


def _text(what: str, default: str = "", longest: int = 100) -> Any:
    return DeclaredText(what=what, default=default, longest=longest)


def _species(default: str) -> Any:
    return DeclaredSpecies(what="trade name of the wood", default=default)


def _table(default: Declaring, what: str) -> Any:
    return DeclaredTable(what=what, default=default)


def _lengths(default: Lengths, low: float, high: float, what: str) -> Any:
    return DeclaredLengths(what=what, default=default, low=low, high=high)


def _rectangles(default: Rectangles, low: float, high: float, what: str) -> Any:
    return DeclaredRectangles(what=what, default=default, low=low, high=high)


class Wood(Declaring):
    """What it is made of."""

    species: str = _species("eastern white pine")
    thickness: Length = size(19, 3, 100, "thickness of the boards, as measured")
    moisture_content: float = _number(8, 0, 30, "moisture in the wood now, of its dry weight", " %")


class Season(Declaring):
    """The air of a room in one season."""

    temperature_c: float = _number(20, -40, 60, "temperature", " °C")
    humidity_pct: float = _number(45, 0, 100, "relative humidity", " %")


class Stair(Declaring):
    """A stair on the way in."""

    width: Length = size(0, 0, 5000, "clear width of its flights; 0 for no stair")
    headroom: Length = size(2000, 1000, 10000, "least headroom, square up from the line of the nosings")
    rise: Length = size(180, 80, 300, "of one step")
    going: Length = size(260, 100, 500, "of one step, from nosing to nosing")
    landing: Length = size(0, 0, 10000, "depth of the landing on which it turns; 0 where it runs straight")
    turn: str = choice("quarter", ("quarter", "half"), "to the side, or back beside the first flight")


class Place(Declaring):
    """Where it will stand."""

    dry: Season = _table(Season(temperature_c=20, humidity_pct=30), "driest season: a heated room in winter")
    damp: Season = _table(Season(temperature_c=22, humidity_pct=65), "dampest season: a room in summer")
    door: Lengths = _lengths((760, 1980), 100, 10000, "narrowest doorway on the way in, width and height")
    corner: Lengths = _lengths(
        (0, 0), 0, 10000, "square corner of a passage or stair, width before and after; 0 for none"
    )
    stair: Stair = _table(Stair(), "a stair on the way in")
    ceiling: Length = size(0, 0, 10000, "height of the room where it will stand; 0 to leave it aside")
    hinge_gap: Lengths = _lengths((5, 12), 0, 100, "gap at a hinge that catches a finger, from and up to")
    finger_gap: Lengths = _lengths((8, 25), 0, 100, "distance in passing that squeezes a finger, from and up to")

    def check(self) -> None:
        if self.dry.humidity_pct > self.damp.humidity_pct:
            raise OrderError(
                f"dry: humidity_pct = {self.dry.humidity_pct:g} must not be above the "
                f"{self.damp.humidity_pct:g} of damp; exchange the two seasons"
            )
        if len(self.door) != 2:
            raise OrderError("door must be two lengths: [width, height]")
        if len(self.corner) != 2 or (min(self.corner) == 0.0) != (max(self.corner) == 0.0):
            raise OrderError("corner must be two lengths: [width before, width after], or [0, 0] where there is none")
        for name in ("hinge_gap", "finger_gap"):
            rising(name, getattr(self, name))


def rising(name: str, pair: Lengths) -> None:
    """Raises OrderError unless a pair of lengths is one, the first no more than the second."""
    if len(pair) != 2 or pair[0] > pair[1]:
        raise OrderError(f"{name} must be two lengths: [from, up to], the first no more than the second")


class Accuracy(Declaring):
    """How far a finished size may be from the drawn one, either way: part of it is the setting's and common to all that
    is cut in it, the rest differs from cut to cut. All common practice, from memory: a shop measures its own."""

    sawn: Length = size(0.5, 0.01, 10, "lengths and widths off the saw")
    planed: Length = size(0.2, 0.01, 10, "thicknesses off the planer")
    routed: Length = size(0.2, 0.01, 10, "widths and depths of dados, grooves and rabbets")
    drilled: Length = size(0.5, 0.01, 10, "places of holes, slots, dados and mortises")
    cnc: Length = size(0.1, 0.01, 10, "outlines and pockets off the CNC")
    angle: float = _number(0.1, 0.005, 5, "angles off the saw", " degrees")
    again_pct: float = _number(30, 0, 100, "of all these, what differs between two cuts made in one setting", " %")
    scribed: Length = size(0.1, 0.005, 5, "sizes marked from the work with a knife and cut to the line")
    fitted: Length = size(0.05, 0.005, 5, "fits planed or pared until they go")


class Shop(Declaring):
    """What the shop has and can do."""

    kerf: Length = size(3.2, 0.5, 10, "what the saw turns to dust")
    cutter_diameters: Lengths = _lengths((3.175, 6.35, 12.7), 0.5, 60, "router cutters at hand, by diameter")
    sheet_sizes: Rectangles = _rectangles(((2440.0, 1220.0),), 100, 10000, "sheets bought, length and width")
    board_lengths: Lengths = _lengths((2438.4, 3048.0, 3657.6), 300, 10000, "lengths boards are bought in")
    biscuit: str = choice("20", ("0", "10", "20"), "biscuit size")
    cnc_bed: Lengths = _lengths((2440, 1220), 100, 10000, "bed of the CNC, length and width")
    fence_reach: Length = size(760, 100, 3000, "widest rip between saw and fence")
    planer_width: Length = size(330, 0, 2000, "widest board the planer takes; 0 for no planer")
    jointer_width: Length = size(150, 0, 600, "widest face the jointer flattens; 0 for no jointer")
    jointer_bed: Length = size(1200, 0, 5000, "length of the jointer's bed; it trues edges of twice that")
    saw_depth: Length = size(79, 0, 300, "deepest cut of the table saw and the miter saw")
    crosscut_width: Length = size(300, 0, 1500, "widest board the miter saw cuts off square")
    bandsaw_throat: Length = size(340, 0, 1500, "between the bandsaw's blade and its frame; 0 for no bandsaw")
    bandsaw_depth: Length = size(150, 0, 600, "thickest wood, or stack, under the bandsaw's guides")
    jigsaw_depth: Length = size(60, 0, 150, "thickest wood, or stack, for the jigsaw")
    router_depth: Length = size(50, 0, 150, "deepest cut of the router")
    drill_throat: Length = size(200, 0, 600, "from the drill press's column to the drill")
    cnc_depth: Length = size(75, 0, 300, "thickest wood on the CNC; 0 for no CNC")
    lathe: Lengths = _lengths((900, 300), 0, 5000, "the lathe: between its centers, and over its bed")
    clamp_reach: Length = size(1000, 0, 5000, "how far the bar clamps open")
    driver_room: Length = size(150, 0, 500, "clear in line with a nail or a screw, to drive it")
    drawer_play: Lengths = _lengths((0.4, 1.6), 0, 20, "play of a drawer on each side, the least and the most")
    least_wood: Length = size(3, 0.5, 25, "least wood a cut may leave")
    light_gap: Length = size(0.15, 0.02, 2, "widest gap a joint may show")
    open_time: float = _number(10, 1, 240, "from spreading the glue to closing the joint, as on its bottle", " min")
    clamps: float = _number(12, 0, 500, "bar clamps at hand")
    waste_pct: float = _number(20, 0, 200, "lumber bought beyond the rough sizes", " %")
    accuracy: Accuracy = _table(
        Accuracy(),
        "how far a finished size may be off, from cut to cut in one setting, and marked from or fitted to the work",
    )

    def check(self) -> None:
        if len(self.cnc_bed) != 2:
            raise OrderError("cnc_bed must be two lengths: [length, width]")
        if len(self.lathe) != 2:
            raise OrderError("lathe must be two lengths: [between its centers, over its bed]")
        rising("drawer_play", self.drawer_play)


class Prices(Declaring):
    """What things cost, all in one currency."""

    currency: str = _text("the currency, as printed", "USD", longest=8)
    board_foot: float = _price(8.0, "a board foot of the wood")
    sheet: float = _price(60.0, "a sheet")
    hour: float = _price(60.0, "an hour in the shop")
    finish_nail: float = _price(0.03, "a finish nail")
    screw: float = _price(0.12, "a screw")
    plug: float = _price(0.15, "a plug over a screw")
    biscuit: float = _price(0.08, "a biscuit")
    dowel: float = _price(0.06, "a dowel")
    hinge_metre: float = _price(24.0, "a metre of continuous hinge")


def usual_paper(units: str) -> str:
    """The paper of a set whose order names none: the sheet of the trade that a shop's printer takes."""
    return "B" if units in INCH_UNITS else "A3"


class Drawing(Declaring):
    """How it is drawn."""

    paper: str = choice("A3", PAPERS, "paper of the set, B if none is named in inches")
    projection: str = choice("third", ("third", "first"), "which side of a view its neighbour stands on")
    denominator: int = choice(16, ("2", "4", "8", "16", "32", "64"), "finest inch fraction printed, one over")
    owner: str = _text("who owns the drawing, for the title block")
    drawn_by: str = _text("who drew it")
    approved_by: str = _text("who approved it")
    date: str = _text("date, as it should stand; no clock is read")
    revision: str = _text("revision mark")


#: The sections by their names in an order.
SECTIONS: dict[str, type[Declaring]] = {
    "wood": Wood,
    "place": Place,
    "shop": Shop,
    "prices": Prices,
    "drawing": Drawing,
}
