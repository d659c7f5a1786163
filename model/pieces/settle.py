"""A high-backed settle whose back is a segment of a long arc; the seat lifts on a box."""

from __future__ import annotations

import math
from dataclasses import replace

from model.cuts.edges import Bead, Bevel, Ease
from model.cuts.through import Opening, Profile
from model.hardware import FINISH_NAILS, finish_nail, nail_through, screw_through
from model.joints.butt import biscuited, nailed, rests, rests_at, screwed
from model.joints.edge import fullest_tongue, tongue_and_groove
from model.joints.hinged import continuous_hinge
from model.joints.housed import dado
from model.joints.joint import Contact, Joint
from model.layout.boards import (
    Standing,
    chord_boards,
    fill_with_random,
    gap_behind,
    tangent_boards,
)
from model.layout.outline import Outline, Point, ring_sector, rounded
from model.lengths import INCH_UNITS
from model.parameters import WidthRange
from model.piece import Piece, Placed
from model.pieces.settle_sizes import Settle
from model.placement import Placement, added, place, scaled
from model.stock import board, panel

#: A screw passes a biscuit this far from its middle, mm (common practice: 10 mm of wood and more between them).
ROOM = 16.0


def make(p: Settle) -> Piece:
    """The settle; raises DesignError where the sizes can't be built."""
    piece = Piece("settle", p)
    piece.arc("back line", p.back_radius, p.centre)
    piece.arc("seat front", p.front_radius, p.centre)
    principal_measures(piece, p)
    t = p.thickness

    left, right = piece.pair("side", panel(p.height, p.seat_depth + 12.0), at_left(p), Profile(side_profile(p)))
    for side, edge in ((left, "front"), (right, "front")):
        side.cut(Ease(edge=edge, radius=3.0))

    seat = piece.lay("seat", curved(p, p.front_radius, p.back_radius, p.housing), p.seat_bottom)
    seat.cut(Opening(hatch_outline(p, 0.0, 0.0).moved(*own(seat))))
    top_rail = piece.lay("top rail", curved(p, p.back_radius - p.rail_width, p.back_radius, p.housing), p.rail_bottom)
    seat_rail = piece.lay("seat rail", curved(p, p.back_radius - p.rail_width, p.back_radius), p.seat_bottom - t)
    floor = piece.lay("floor", curved(p, p.cleat_radius, p.back_radius), p.floor_height)
    thick = p.seat_cleat_thickness
    cleat = curved(p, p.cleat_radius, p.cleat_reach)
    seat_cleat = piece.lay("seat cleat", cleat, p.seat_bottom - thick, thickness=thick)
    cleat = curved(p, p.cleat_radius, p.cleat_radius + p.floor_cleat_width)
    floor_cleat = piece.lay("floor cleat", cleat, p.floor_height + t)
    for end in (left, right):
        piece.join(dado(seat, into=end, nails=p.side_nail), dado(top_rail, into=end, nails=p.side_nail))
        piece.join(biscuited(seat_rail, to=end), biscuited(floor, to=end))
        piece.join(biscuited(seat_cleat, to=end), rests(floor_cleat, on=end))
    piece.join(rests(seat_rail, on=seat), rests(seat_cleat, on=seat), rests(floor_cleat, on=floor))

    hatch = piece.lay("hatch", hatch_outline(p, p.clearance, p.clearance), p.seat_bottom)
    hang(piece, p, hatch, seat)
    piece.join(rests(hatch, on=seat_cleat))

    fronts = [front_board(piece, p, s) for s in front_layout(p)]
    for front in fronts:
        for behind in (seat_cleat, floor, floor_cleat):
            piece.join(nailed(front, to=behind, penny=p.nail))

    band = bend_band(piece, p, left, right, floor)
    backs = back_boards(piece, p)
    for n, back in enumerate(backs):
        off = gap_behind(p.back_radius, back.wood.stock.width) if n in (0, len(backs) - 1) else 0.0
        for rail in (top_rail, seat, seat_rail):
            joint = nailed(back, to=rail, penny=p.nail, gap=off)
            piece.join(inside(joint, left, right) if off else joint)
        piece.join(foot_on_band(back, band))
    piece.join(nail_end_board(p, backs[0], left), nail_end_board(p, backs[-1], right))

    piece.step("Lay the floor on its cleat; the boards of the front will hold both", floor, floor_cleat)
    piece.step(
        "Stand the left side; glue seat rail, seat cleat and floor to it with biscuits", left, seat_rail, seat_cleat
    )
    piece.step("Glue the seat and the top rail into the left side's dadoes", seat, top_rail)
    piece.step("Bring on the right side: all ends go home at once; clamp, check for square, nail the dadoes", right)
    piece.step("Bend the band round the foot of the back; screw and plug its ends, nail it to the floor", band)
    piece.step("Nail on the back boards from left to right, tongues into grooves, without glue", *backs)
    piece.step("Close the front with boards nailed to cleats and floor", *fronts)
    piece.step("Hang the hatch on its hinge", hatch)
    return piece


def principal_measures(piece: Piece, p: Settle) -> None:
    """What a client asks about and the shop checks first."""
    half, back = p.chord / 2.0, p.centre[1] + math.sqrt(p.back_radius**2 - (p.chord / 2.0) ** 2)
    rail_top = p.height - p.rail_drop
    piece.measure("back chord", (-half, back, p.height), (half, back, p.height), "top")
    piece.measure("seat depth", (0.0, 0.0, p.seat_height), (0.0, p.seat_depth, p.seat_height), "top")
    piece.measure("seat height", (-half, 0.0, 0.0), (-half, 0.0, p.seat_height), "front")
    piece.measure("top rail height", (-half, 0.0, 0.0), (-half, 0.0, rail_top), "front")
    piece.measure("arm height", (half, 0.0, 0.0), (half, 0.0, p.arm_height), "side")


def at_left(p: Settle) -> Placement:
    """The left side on its radial line: inside face on the line, back corner on the back line."""
    back = p.centre[1] + math.sqrt(p.back_radius**2 - p.thickness**2)
    return place((-p.thickness, back, 0.0), grain="up", face="right").swung(p.half_angle, about=p.centre)


def side_profile(p: Settle) -> Outline:
    """In the side's own plane, x up from the floor and y forward from the back edge."""
    depth = p.seat_depth + 12.0
    corners = [
        (0.0, 0.0),
        (p.height, 0.0),
        (p.height, p.top_depth),
        (p.arm_height, depth - p.arm_length),
        (p.arm_height, depth),
        (0.0, depth),
    ]
    names = ("near", "front", "front", "front", "front", "bottom")
    return rounded(corners, (0.0, 0.0, p.top_curve, 40.0, p.corner, 0.0), names)


def curved(p: Settle, inner: float, outer: float, housed: float = 0.0) -> Outline:
    """A member concentric with the back, its ends on the sides' radial lines or `housed` mm beyond."""
    return ring_sector(inner, outer, p.half_angle, housed, p.centre)


def own(laid: Placed) -> Point:
    """From the piece's plan to the part's own."""
    return (-laid.at.origin[0], -laid.at.origin[1])


def hatch_outline(p: Settle, round_it: float, at_hinge: float) -> Outline:
    """The hatch in plan, drawn in by its clearances: straight at the hinge, concentric with the seat's front."""
    half, radius = p.hatch_half_width - round_it, p.front_radius + p.front_margin + round_it
    front = p.centre[1] + math.sqrt(radius**2 - half**2)
    back = p.hinge_line - at_hinge
    bulge = -math.tan(math.asin(half / radius) / 2.0)
    return Outline(((-half, front), (half, front), (half, back), (-half, back)), (bulge, 0.0, 0.0, 0.0))


def hang(piece: Piece, p: Settle, hatch: Placed, seat: Placed) -> None:
    """On a continuous hinge in the gap, its knuckle above the seat."""
    hinge = continuous_hinge(hatch, to=seat)
    piece.join(hinge)
    piece.keep_apart(hatch, seat, p.clearance)
    piece.swing(hatch, *hinge.swing)


def front_layout(p: Settle) -> list[Standing]:
    """As many equal boards as keep within the greatest width."""
    total = 2.0 * p.half_angle
    count = math.ceil(math.radians(total) * p.cleat_radius / p.front_width)
    return chord_boards(p.cleat_radius, count, p.thickness, total)


def front_board(piece: Piece, p: Settle, stand: Standing) -> Placed:
    """An upright board against the cleats, clear of the floor."""
    foot = 15.0
    back = p.centre[1] + stand.distance + p.thickness
    at = place((stand.width / 2.0, back, foot), grain="up", face="front").swung(-stand.angle, about=p.centre)
    return piece.add(f"front board {stand.index + 1}", board(p.seat_bottom - foot, stand.width), at)


def back_boards(piece: Piece, p: Settle) -> list[Placed]:
    """Flat boards round the arc, grooved and tongued by turns; the tongued ones beaded on both faces."""
    layout = back_layout(p)
    last = len(layout) - 1
    boards: list[Placed] = []
    for n, stand in enumerate(layout):
        odd = n % 2 == 1
        to_right, to_left = p.tongue_length * (odd and n < last), p.tongue_length * odd
        width = stand.width + to_left + to_right
        start = (stand.width / 2.0 + to_right, p.centre[1] + p.back_radius + p.thickness, p.band_top)
        at = place(start, grain="up", face="front").swung(-stand.angle, about=p.centre)
        boards.append(piece.add(f"back board {n + 1}", board(p.height - p.band_top, width), at))
    pairs = [(boards[n], boards[n + d]) for n in range(1, last + 1, 2) for d in (-1, 1) if n + d <= last]
    groove = p.thickness / 3.0
    tongue = min((fullest_tongue(a, b, groove) for a, b in pairs), default=None)
    for tongued, grooved in pairs:
        piece.join(tongue_and_groove(tongued, into=grooved, width=groove, tongue=tongue))
    for n in range(1, last + 1, 2):
        for edge in ("near", "far") if n < last else ("far",):
            for side in ("face", "back"):
                boards[n].cut(Bead(edge=edge, radius=p.bead, quirk=1.5, side=side, inset=p.tongue_length))
    return boards


def back_layout(p: Settle) -> list[Standing]:
    """Where the back boards stand: the order's widths in turn, or a random choice that fills the arc."""
    total = 2.0 * p.outer_angle
    if isinstance(p.board_widths, WidthRange):
        spec = p.board_widths
        unit = "in" if p.units in INCH_UNITS else "mm"
        widths = fill_with_random(p.back_radius, spec.low, spec.high, spec.seed, total, unit)
    else:
        widths = list(p.board_widths.widths)
    return tangent_boards(p.back_radius, widths, total, least=p.thickness + 25.0)


def bend_band(piece: Piece, p: Settle, left: Placed, right: Placed, floor: Placed) -> Placed:
    """A board bent round the foot of the back, its upper edge undercut so that the boards close on its face."""
    length = math.radians(2.0 * p.outer_angle) * (p.back_radius + p.band_thickness / 2.0)
    start = (length / 2.0, p.centre[1] + p.back_radius, p.band_height)
    at = place(start, grain="left", face="back")
    band = piece.add("band", board(length, p.band_width, p.band_thickness), at).bent(p.back_radius)
    band.cut(Bevel(edge="far", angle=p.band_bevel, keep="face"))
    ends = p.thickness / 2.0
    level = p.floor_height + p.thickness / 2.0
    rows = clear_of(level - p.band_height, 0.25 * p.band_width, 0.7 * p.band_width)
    plug_depth = min(6.0, p.band_thickness - 3.0)
    screw = screw_through("8", p.band_thickness - plug_depth)
    for side, x in ((right, ends), (left, length - ends)):
        points = [(x, y) for y in rows]
        piece.join(screwed(band, to=side, at=points, length=screw, plug_depth=plug_depth, gap=p.side_gap))
    for degrees in (-0.6 * p.half_angle, 0.0, 0.6 * p.half_angle):
        out = (math.sin(math.radians(degrees)), math.cos(math.radians(degrees)), 0.0)
        on_floor = (p.back_radius * out[0], p.centre[1] + p.back_radius * out[1], level)
        piece.join(rests_at(band, on=floor, points=[on_floor], toward=out))
        head = added(on_floor, scaled(out, p.band_thickness))
        piece.fit(finish_nail(nail_through(p.band_thickness), head, scaled(out, -1.0), ("band", "floor")))
    return band


def clear_of(level: float, low: float, high: float) -> tuple[float, float]:
    """Two heights, each `ROOM` or more from the biscuits at `level`; mm."""
    return min(low, level - ROOM) if low < level else max(low, level + ROOM), max(high, level + ROOM)


def foot_on_band(back: Placed, band: Placed) -> Joint:
    """The board's foot closes on the band's outer arris."""
    thickness = back.wood.thickness
    out = min(band.wood.thickness, thickness) - 0.02
    middle = back.at.point((0.0, back.wood.stock.width / 2.0, thickness - out))
    return rests_at(back, on=band, points=[middle], toward=(0.0, 0.0, 1.0), gap=0.1)


def inside(joint: Joint, left: Placed, right: Placed) -> Joint:
    """An end board takes one nail to a rail, the one further from the side: there the side's own nails end."""
    sides = [s.at.point((0.0, 0.0, s.wood.thickness / 2.0)) for s in (left, right)]
    nails = sorted(joint.hardware, key=lambda n: min(math.dist(n.at[:2], s[:2]) for s in sides))
    return replace(joint, hardware=(nails[-1],))


def nail_end_board(p: Settle, back: Placed, side: Placed) -> Joint:
    """The outer edge of an end board is drawn up to the side's back edge, clear of the dadoes that run out there; the
    nails, square to the board, cross the side's middle half way in."""
    t = back.wood.thickness
    halfway = (FINISH_NAILS[p.nail].length - t) / 2.0
    middle = side.at.point((0.0, halfway if side.mirror_of is None else side.wood.stock.width - halfway, t / 2.0))
    y = back.at.own_point(middle)[1]
    heights = (0.5 * (p.band_top + p.seat_bottom), 0.5 * (p.seat_height + p.rail_bottom), p.rail_bottom - 25.0)
    points = tuple(back.at.point((z - p.band_top, y, t)) for z in heights)
    off = gap_behind(p.back_radius, back.wood.stock.width) + p.side_gap
    return nailed(back, to=side, penny=p.nail, contact=Contact(points, scaled(back.at.z, -1.0), off))
