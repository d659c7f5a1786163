"""What a piece of furniture is: stock, cuts, parts, joints, and the checks on them.

These are the words a piece script is written in:  from model import Parameters, Piece, board, dado, place, size
Each is loaded when it is first asked for, so that importing the package costs nothing. The joint `dado` lets a shelf
into a side; the cut of that name is a `Channel`, as is a groove.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from model.cuts.cut import Cut
    from model.cuts.dovetails import Fingers, Pins, Tails
    from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeGroove, Rabbet, Tongue
    from model.cuts.faces import BiscuitSlot, Bore, Channel, Counterbore
    from model.cuts.gains import HingeGain
    from model.cuts.laps import Lap, Shoulder, Slot
    from model.cuts.legs import Station, Taper, Turned
    from model.cuts.mortises import Mortise, OpenMortise
    from model.cuts.moulding import Moulding, RaisedEdge, cove, fielded, ogee, round_over, waste
    from model.cuts.pockets import Pocket
    from model.cuts.reliefs import relieved, relieved_cut
    from model.cuts.sawn import SawCut, SawnGroove
    from model.cuts.shelf_bores import shelf_bores
    from model.cuts.sliding_dovetails import DovetailSocket, DovetailTongue
    from model.cuts.slots import SlottedHole
    from model.cuts.tenons import Kerf, Tenon, TenonedEnd
    from model.cuts.through import Notch, Opening, Profile
    from model.drawers import Drawer, DrawerOpening, drawer, runners
    from model.errors import CutError, DesignError
    from model.framed import Frame, Framed, frame_and_panel
    from model.hardware import Hardware, finish_nail, knob, nail_through, screw_pilot, screw_shank, wood_screw
    from model.joints.box import box_joint
    from model.joints.breadboard import breadboard
    from model.joints.bridle import bridle
    from model.joints.butt import biscuited, glued, nailed, rests, rests_at, screwed
    from model.joints.dovetail import dovetail
    from model.joints.dowelled import dowelled, dowelled_edges
    from model.joints.edge import fullest_tongue, tongue_and_groove
    from model.joints.hinged import butt_hinges, continuous_hinge, lid_stay
    from model.joints.housed import dado, rabbet
    from model.joints.joint import Contact, Joint
    from model.joints.lap import half_lap
    from model.joints.miter import miter
    from model.joints.mortise import loose_tongue, mortise_and_tenon
    from model.joints.panel import floats, panel_in_frame, panel_run, panel_tongue
    from model.joints.pocket import pocket_screwed
    from model.joints.scarf import scarf, scarf_length
    from model.joints.shelf_pins import on_pins
    from model.joints.shiplap import ship_lap
    from model.joints.sliding_dovetail import sliding_dovetail
    from model.joints.slot_screwed import slot_screwed
    from model.joints.slotted import slotted
    from model.joints.splined import splined
    from model.joints.tabbed import tabbed
    from model.layout.arcs import arc_length, half_angle_from_chord, radius_from_chord_rise
    from model.layout.boards import fill_straight_with_random, fill_with_random, tangent_boards
    from model.layout.outline import Outline, Point, circle, rectangle, ring_sector, rounded
    from model.parameters import (
        Angle,
        BoardWidths,
        Length,
        Parameters,
        WidthList,
        WidthRange,
        angle,
        board_widths,
        choice,
        count,
        flag,
        ratio,
        size,
    )
    from model.piece import Piece, Placed
    from model.placement import Placement, Vector, place
    from model.stock import Stock, board, panel, sheet
    from model.way_home import come, push, tip

#: Where each word comes from.
_WORDS: dict[str, str] = {
    word: module
    for module, words in {
        "model.errors": "CutError DesignError",
        "model.parameters": "Angle BoardWidths Length Parameters WidthList WidthRange "
        "angle board_widths choice count flag ratio size",
        "model.piece": "Piece Placed",
        "model.stock": "Stock board panel sheet",
        "model.placement": "Placement Vector place",
        "model.way_home": "come push tip",
        "model.layout.outline": "Outline Point circle rectangle ring_sector rounded",
        "model.layout.arcs": "arc_length half_angle_from_chord radius_from_chord_rise",
        "model.layout.boards": "fill_straight_with_random fill_with_random tangent_boards",
        "model.cuts.cut": "Cut",
        "model.cuts.through": "Notch Opening Profile",
        "model.cuts.faces": "BiscuitSlot Bore Channel Counterbore",
        "model.cuts.slots": "SlottedHole",
        "model.cuts.pockets": "Pocket",
        "model.cuts.gains": "HingeGain",
        "model.cuts.edges": "Bead Bevel Chamfer Ease EdgeGroove Rabbet Tongue",
        "model.cuts.moulding": "Moulding RaisedEdge cove fielded ogee round_over waste",
        "model.cuts.sawn": "SawCut SawnGroove",
        "model.cuts.laps": "Lap Shoulder Slot",
        "model.cuts.legs": "Station Taper Turned",
        "model.cuts.mortises": "Mortise OpenMortise",
        "model.cuts.tenons": "Kerf Tenon TenonedEnd",
        "model.cuts.dovetails": "Fingers Pins Tails",
        "model.cuts.sliding_dovetails": "DovetailSocket DovetailTongue",
        "model.cuts.shelf_bores": "shelf_bores",
        "model.cuts.reliefs": "relieved relieved_cut",
        "model.joints.joint": "Contact Joint",
        "model.joints.butt": "biscuited glued nailed rests rests_at screwed",
        "model.joints.pocket": "pocket_screwed",
        "model.joints.dowelled": "dowelled dowelled_edges",
        "model.joints.housed": "dado rabbet",
        "model.joints.edge": "fullest_tongue tongue_and_groove",
        "model.joints.shiplap": "ship_lap",
        "model.joints.splined": "splined",
        "model.joints.scarf": "scarf scarf_length",
        "model.joints.lap": "half_lap",
        "model.joints.slotted": "slotted",
        "model.joints.tabbed": "tabbed",
        "model.joints.bridle": "bridle",
        "model.joints.mortise": "loose_tongue mortise_and_tenon",
        "model.joints.dovetail": "dovetail",
        "model.joints.sliding_dovetail": "sliding_dovetail",
        "model.joints.box": "box_joint",
        "model.joints.miter": "miter",
        "model.joints.panel": "floats panel_in_frame panel_run panel_tongue",
        "model.joints.breadboard": "breadboard",
        "model.joints.slot_screwed": "slot_screwed",
        "model.joints.hinged": "butt_hinges continuous_hinge lid_stay",
        "model.joints.shelf_pins": "on_pins",
        "model.framed": "Frame Framed frame_and_panel",
        "model.drawers": "Drawer DrawerOpening drawer runners",
        "model.hardware": "Hardware finish_nail knob nail_through screw_pilot screw_shank wood_screw",
    }.items()
    for word in words.split()
}

__all__ = [
    "Angle",
    "Bead",
    "Bevel",
    "BiscuitSlot",
    "BoardWidths",
    "Bore",
    "Chamfer",
    "Channel",
    "Contact",
    "Counterbore",
    "Cut",
    "CutError",
    "DesignError",
    "DovetailSocket",
    "DovetailTongue",
    "Drawer",
    "DrawerOpening",
    "Ease",
    "EdgeGroove",
    "Fingers",
    "Frame",
    "Framed",
    "Hardware",
    "HingeGain",
    "Joint",
    "Kerf",
    "Lap",
    "Length",
    "Mortise",
    "Moulding",
    "Notch",
    "OpenMortise",
    "Opening",
    "Outline",
    "Parameters",
    "Piece",
    "Pins",
    "Placed",
    "Placement",
    "Pocket",
    "Point",
    "Profile",
    "Rabbet",
    "RaisedEdge",
    "SawCut",
    "SawnGroove",
    "Shoulder",
    "Slot",
    "SlottedHole",
    "Station",
    "Stock",
    "Tails",
    "Taper",
    "Tenon",
    "TenonedEnd",
    "Tongue",
    "Turned",
    "Vector",
    "WidthList",
    "WidthRange",
    "angle",
    "arc_length",
    "biscuited",
    "board",
    "board_widths",
    "box_joint",
    "breadboard",
    "bridle",
    "butt_hinges",
    "choice",
    "circle",
    "come",
    "continuous_hinge",
    "count",
    "cove",
    "dado",
    "dovetail",
    "dowelled",
    "dowelled_edges",
    "drawer",
    "fielded",
    "fill_straight_with_random",
    "fill_with_random",
    "finish_nail",
    "flag",
    "floats",
    "frame_and_panel",
    "fullest_tongue",
    "glued",
    "half_angle_from_chord",
    "half_lap",
    "knob",
    "lid_stay",
    "loose_tongue",
    "miter",
    "mortise_and_tenon",
    "nail_through",
    "nailed",
    "ogee",
    "on_pins",
    "panel",
    "panel_in_frame",
    "panel_run",
    "panel_tongue",
    "place",
    "pocket_screwed",
    "push",
    "rabbet",
    "radius_from_chord_rise",
    "ratio",
    "rectangle",
    "relieved",
    "relieved_cut",
    "rests",
    "rests_at",
    "ring_sector",
    "round_over",
    "rounded",
    "runners",
    "scarf",
    "scarf_length",
    "screw_pilot",
    "screw_shank",
    "screwed",
    "sheet",
    "shelf_bores",
    "ship_lap",
    "size",
    "sliding_dovetail",
    "slot_screwed",
    "slotted",
    "splined",
    "tabbed",
    "tangent_boards",
    "tip",
    "tongue_and_groove",
    "waste",
    "wood_screw",
]


def __getattr__(name: str) -> object:
    """A word of the public face, loaded now and kept."""
    if name not in _WORDS:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = getattr(import_module(_WORDS[name]), name)
    globals()[name] = found
    return found


def __dir__() -> list[str]:
    return sorted([*globals(), *__all__])
