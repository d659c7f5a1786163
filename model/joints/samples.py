"""One small demonstration of every joint in the vocabulary, to be shown, listed and tried. Kernel-free."""

from __future__ import annotations

import inspect
import math
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from model.cuts.edges import EdgeGroove
from model.cuts.moulding import fielded
from model.cuts.shelf_bores import shelf_bores
from model.drawers import DRAWER, DrawerOpening, drawer
from model.hardware import Hardware
from model.joints.box import box_joint
from model.joints.breadboard import breadboard
from model.joints.bridle import bridle
from model.joints.butt import biscuited, nailed, screwed
from model.joints.dovetail import dovetail
from model.joints.dowelled import dowelled, dowelled_edges
from model.joints.edge import tongue_and_groove
from model.joints.hinged import butt_hinges, continuous_hinge
from model.joints.housed import dado, rabbet
from model.joints.joint import Joint
from model.joints.lap import half_lap
from model.joints.miter import miter
from model.joints.mortise import loose_tongue, mortise_and_tenon
from model.joints.panel import floats
from model.joints.pocket import pocket_screwed
from model.joints.sample_pairs import (
    THICKNESS,
    Pair,
    case_corner,
    crossing,
    drawer_corner,
    edge_to_edge,
    frame_corner,
    rail_and_leg,
    rail_and_stile,
    shelf_and_side,
    stood,
)
from model.joints.scarf import scarf, scarf_length
from model.joints.shelf_pins import on_pins
from model.joints.shiplap import ship_lap
from model.joints.slanted_dado import slanted_dado
from model.joints.sliding_dovetail import sliding_dovetail
from model.joints.slot_screwed import slot_screwed
from model.joints.slotted import slotted
from model.joints.splined import splined
from model.joints.tabbed import tabbed
from model.parameters import Parameters
from model.piece import Piece, Placed
from model.placement import Vector, added, cross, place, scaled, unit
from model.stock import board, panel, sheet

#: First parameters whose names say nothing of the part.
_UNSAYABLE = ("a", "part", "end", "tongued", "first", "tails")

#: What joins placed parts.
Joins = Callable[..., Any]


@dataclass(frozen=True)
class Sample:
    """One joint shown: `parts` with their cuts made, placed home, and how far each is drawn back to show it, mm.

    caption: what the joint is, in one line, from its docstring; rule: of its proportions, where that is more than its
    first joint says.
    """

    name: str
    caption: str
    parts: tuple[Placed, ...]
    joints: tuple[Joint, ...]
    back: tuple[Vector, ...]
    rule: str = ""

    @property
    def hardware(self) -> tuple[Hardware, ...]:
        return tuple(item for joint in self.joints for item in joint.hardware)

    @property
    def source(self) -> str:
        """Of its proportions: the rule, and who says so."""
        return self.rule or self.joints[0].source


def samples() -> list[Sample]:
    """Every joint of the vocabulary once, or once for each of its kinds, from the plain to the intricate."""
    return [*_butted(), *_housed(), *_edge_joints(), *_lapped(), *_tenoned(), *_cornered(), *_assembled()]


def _shown(name: str, pair: Sequence[Placed], join: Joins, back: float, **sizes: Any) -> Sample:
    """A sample of two parts, the first drawn back `back` mm against the way it closes."""
    joint = join(*pair, **sizes)
    return _made(name, join, pair, (joint,), {joint.first: scaled(joint.closes, -back)})


def _made(name: str, join: Joins, parts: Sequence[Placed], joints: Sequence[Joint], back: dict[str, Vector]) -> Sample:
    _make(parts, joints)
    drawn = tuple(back.get(p.name, (0.0, 0.0, 0.0)) for p in parts)
    return Sample(name, caption(join), tuple(parts), tuple(joints), drawn)


def _make(parts: Sequence[Placed], joints: Sequence[Joint]) -> None:
    """Makes the joints' cuts in the parts."""
    by_name = {p.name: p for p in parts}
    for joint in joints:
        by_name[joint.first].cut(*joint.first_cuts)
        by_name[joint.second].cut(*joint.second_cuts)


def caption(join: Joins) -> str:
    """What a joint is, in one line: the first sentence of its docstring."""
    paragraph = " ".join((inspect.getdoc(join) or "").split("\n\n")[0].split())
    first, second = list(inspect.signature(join).parameters)[:2]
    spoken = {first: "one part" if first in _UNSAYABLE else f"the {first}", second: "the other"}
    said = re.sub(r"`(\w+)`", lambda name: spoken.get(name[1], name[1]), re.split(r"(?<=\.)\s", paragraph)[0])
    return said[0].upper() + said[1:]


def _butted() -> Iterator[Sample]:
    yield _shown("nailed", _board_on_rail(), nailed, 60, count=2)
    screws = _board_on_rail()
    yield _shown("plugged screws", screws, screwed, 60, at=[(59.5, 22.5), (59.5, 67.5)])
    yield _shown("biscuits", shelf_and_side(), biscuited, 56)
    yield _shown("pocket screws", rail_and_stile(), pocket_screwed, 45, side="face")
    yield _shown("dowelled end", rail_and_stile(), dowelled, 58)
    yield _shown("dowelled edge", edge_to_edge(), dowelled_edges, 70, spacing=60.0, margin=30.0)


def _housed() -> Iterator[Sample]:
    yield _shown("dado", shelf_and_side(6.5), dado, 50)
    yield _shown("stopped dado", shelf_and_side(6.5), dado, 50, stopped=20.0)
    yield _shown("slanted dado", _shelf_and_splayed_side(), slanted_dado, 50)
    lid = stood("top", panel(160, 150, 9.5), place((9.5, 0, 180.5)))
    yield _shown("rabbet", (lid, shelf_and_side()[1]), rabbet, 40)
    yield _shown("sliding dovetail", shelf_and_side(9.0), sliding_dovetail, 80, stopped=20.0)
    side = shelf_and_side()[1]
    side.cut(*shelf_bores(side.wood, 20, 170, inset=30, front="far"))
    pinned = stood("shelf", board(160, 150), place((THICKNESS + 0.5, 0, 84.0 + 2.5)))
    yield _shown("shelf pins", (pinned, side), on_pins, 45)


def _edge_joints() -> Iterator[Sample]:
    yield _shown("tongue and groove", edge_to_edge(7.0), tongue_and_groove, 60)
    yield _shown("loose spline", edge_to_edge(), splined, 80)
    yield _shown("ship-lap", edge_to_edge(9.5), ship_lap, 60)
    run = scarf_length(THICKNESS, 1.0 / 8.0)
    first = stood("first length", board(190, 50), place())
    second = stood("second length", board(190, 50), place((190.0 - run, 0.0, 0.0)))
    yield _shown("scarf", (first, second), scarf, 60, slope=1.0 / 8.0)


def _lapped() -> Iterator[Sample]:
    yield _shown("corner half lap", crossing((0, -85, 0), (45, -85, 0)), half_lap, 50)
    yield _shown("tee half lap", crossing((0, -22.5, 0), (45, -85, 0)), half_lap, 50)
    yield _shown("cross half lap", crossing((-85, -22.5, 0), (22.5, -85, 0)), half_lap, 50)
    rail = stood("rail", board(160, 45), place((0, THICKNESS, 145), "right", "front"))
    yield _shown("corner bridle", (rail, _upright(190.0, 45.0)), bridle, 70)
    over = stood("rail", board(170, 45), place((-62.5, THICKNESS, 85), "right", "front"))
    yield _shown("tee bridle", (_upright(130.0, 45.0), over), bridle, 70)
    yield _shown("slotted", _dividers(), slotted, 60)
    yield _shown("slotted, relieved", _dividers(), slotted, 60, cutter=6.0)


def _tenoned() -> Iterator[Sample]:
    yield _shown("mortise and tenon", rail_and_leg(30.0), mortise_and_tenon, 52)
    yield _shown("wedged tenon", rail_and_leg(51.0), mortise_and_tenon, 78, kind="through", wedged=True)
    yield _shown("leaning tenon", _leaning_rail(), mortise_and_tenon, 52)
    yield _shown("haunched tenon", _grooved(*rail_and_leg(30.0, at=140.0)), mortise_and_tenon, 52, haunch=8.0)
    yield _shown("draw-bored tenon", rail_and_leg(34.0), mortise_and_tenon, 52, draw_bore=1.5)
    yield _shown("twin tenon", rail_and_leg(34.0, thick=45.0, leg=60.0), mortise_and_tenon, 52, count=2)
    yield _shown("loose tongue", rail_and_leg(0.0), loose_tongue, 64)
    sheet_end = stood("shelf", board(160, 150), place((-4.0, 0, 85)))
    yield _shown("tabs", (sheet_end, shelf_and_side()[1]), tabbed, 48, at=[-40.0, 40.0], width=36.0)


def _cornered() -> Iterator[Sample]:
    yield _shown("through dovetail", case_corner(), dovetail, 45)
    yield _shown("half-blind dovetail", drawer_corner(6.3), dovetail, 40)
    yield _shown("box joint", case_corner(), box_joint, 45)
    yield _shown("miter", frame_corner(), miter, 40)
    yield _shown("splined miter", frame_corner(), miter, 50, spline=True)
    yield _shown("keyed miter", case_corner(), miter, 0, keys=3)


def _assembled() -> Iterator[Sample]:
    yield _panel_in_frame()
    yield _drawer()
    top = stood("top", panel(140, 170, 22), place())
    batten = stood("batten", board(170, 60, 22), place((170, 0, 0), "back", "up"))
    yield _shown("breadboard end", (batten, top), breadboard, 62, movement=4.0)
    table = stood("top", panel(150, 200, 25), place((0, 0, 45)))
    bearer = stood("bearer", board(200, 45, 45), place((98, 0, 0), "back", "up"))
    yield _shown("slotted screws", (bearer, table), slot_screwed, 60, at=[65.0], movement=4.0)
    post = stood("stile", board(200, 45), place((45, THICKNESS, 0), "up", "front"))
    door = stood("door", board(200, 90), place((136, THICKNESS, 0), "up", "front"))
    hung = butt_hinges(door, post, size="38 mm")
    yield _made("butt hinges", butt_hinges, (door, post), (hung,), {"door": (45.0, 0.0, 0.0)})
    lid = stood("lid", board(170, 90), place((0, 0, 90)))
    rail = stood("back rail", board(170, 60), place((0, 91.5 + THICKNESS, 49), "right", "front"))
    hinged = continuous_hinge(lid, rail, knuckle="up", margin=10.0)
    yield _made("continuous hinge", continuous_hinge, (lid, rail), (hinged,), {"lid": (0.0, -40.0, 0.0)})


def _drawer() -> Sample:
    """A whole drawer, its five parts drawn apart."""
    piece = Piece("drawer", Parameters())
    made = drawer(piece, "drawer", DrawerOpening((0.0, 0.0, 0.0), (230.0, 200.0, 84.0)))
    ways = ((0.0, -55.0, 0.0), (-50.0, 0.0, 0.0), (50.0, 0.0, 0.0), (0.0, 55.0, 0.0), (0.0, 0.0, -70.0))
    return Sample("drawer", caption(drawer), made.parts, tuple(piece.joints), ways, DRAWER)


def _panel_in_frame() -> Sample:
    """A raised panel in two members of its frame."""
    stile = stood("stile", board(200, 50, 22), place((50, 22, 0), "up", "front"))
    rail = stood("rail", board(170, 50, 22), place((20, 22, 0), "right", "front"))
    field = stood("panel", panel(140, 110, 14), place((154, 14.5, 44), "up", "front"))
    field.cut(*fielded(14.0, 7.0, 32.0, flat=8.0))
    parts, back = (stile, rail, field), {"rail": (60.0, 0.0, 0.0), "panel": (60.0, 0.0, 60.0)}
    grooves = [floats(field, stile, through=True), floats(field, rail, through=True)]
    _make(parts, grooves)
    tenon = mortise_and_tenon(rail, stile, haunch=8.0)  # after the grooves, which its haunch fills
    return replace(_made("floating panel", floats, parts, [tenon], back), joints=(*grooves, tenon))


def _board_on_rail() -> Pair:
    """A board that lies across the top of a rail."""
    rail = stood("rail", board(180, 60), place((0, 59.5 + 9.5, 0), "right", "front"))
    return stood("board", board(119, 90), place((135, 0, 60), "back", "up")), rail


def _dividers() -> Pair:
    """Two boards on edge that cross."""
    across = stood("second divider", sheet(160, 64, 12), place((86, 0, 0), "back", "right"))
    return stood("first divider", sheet(170, 64, 12), place((0, 86, 0), "right", "front")), across


def _shelf_and_splayed_side() -> Pair:
    """A level shelf let into a side whose foot stands out."""
    splay = math.radians(10.0)
    grain = (math.sin(splay), 0.0, math.cos(splay))
    side = stood("side", board(190, 150), place((-17.0, 150.0, 0.0), grain, (grain[2], 0.0, -grain[0])))
    inside = side.at.point((95.0, 0.0, THICKNESS))
    return stood("shelf", board(150, 150), place((inside[0] - 8.0, 0.0, inside[2] - THICKNESS / 2.0))), side


def _leaning_rail() -> Pair:
    """A rail that comes down to its leg at a slant, and a little from the front."""
    leg = rail_and_leg(0.0)[1]
    grain = unit((0.9, -0.2, 0.35))
    face = unit(cross(grain, (0.0, 0.0, 1.0)))
    at = place((0.0, 0.0, 0.0), grain, face)
    foot = at.point((30.0, 30.0, 11.0))
    middle = (45.0, 22.5, 80.0)
    way = added(middle, scaled(foot, -1.0))
    return stood("rail", board(170, 60, 22), at.moved(*way)), leg


def _upright(height: float, wide: float) -> Placed:
    return stood("post", board(height, wide), place((wide, THICKNESS, 0), "up", "front"))


def _grooved(rail: Placed, leg: Placed) -> Pair:
    """Both plowed for a panel."""
    third = rail.wood.thickness / 3.0
    rail.cut(EdgeGroove(edge="near", width=third, depth=8.0, rise=third))
    leg.cut(EdgeGroove(edge="near", width=third, depth=8.0, rise=(leg.wood.thickness - third) / 2.0))
    return rail, leg


def drawn_back(sample: Sample) -> list[Placed]:
    """The parts as they are shown: each where it is once drawn back."""
    return [
        Placed(p.name, p.part, p.at.moved(*way), p.mirror_of) for p, way in zip(sample.parts, sample.back, strict=True)
    ]
