"""A panel that floats in the grooves of a frame: never glued, with room to move across its grain."""

from __future__ import annotations

from collections.abc import Sequence

from model.cuts.edges import EdgeGroove, Rabbet, Tongue
from model.cuts.moulding import RaisedEdge
from model.errors import DesignError
from model.joints.edge import PLAY
from model.joints.joint import Contact, Joint, Stood, clean
from model.joints.meetings.edgewise import Edgewise, edgewise, grain_along
from model.layout.outline import Edge
from model.part import Part

PANELLING = (
    "Noyes, Handwork in Wood (1910), No. 42: groove a third of the stock wide, about as deep; "
    "wax the panel's corners so that it is not glued to the frame"
)

#: Back and face of a panel's edge, in its own frame.
Levels = tuple[float, float]

#: Room at the bottom of the groove, mm: for a solid panel across its grain (1/16 in a side, for panels of up to about
#: 300 mm), and where it doesn't move: along the grain, and for sheet stock (1/32 in). Common practice.
ROOM_ACROSS, ROOM_ALONG = 2.0, 0.8
#: What a shrunken panel must still run into its groove, mm (common practice).
LEAST_HOLD = 1.0
#: A panel's edge thinner than its groove by more than this rattles, mm (common practice).
LOOSE = 0.5
#: Least wood on either side of the groove, mm (common practice: shoulders of 1/8 in or more).
LEAST_CHEEK = 3.0


def floats(
    panel: Stood, into: Stood, *, width: float | None = None, room: float | None = None, through: bool = False
) -> Joint:
    """The edge of `panel` in a groove along the edge of `into`, as far as it runs in, with `room` left at the bottom.

    The panel may be flat, or its edge raised (RaisedEdge), tongued or rabbeted. width: of the groove, mm; not said, a
    third of the stock where the panel's edge fits that, else the panel's edge and PLAY. room: mm, ROOM_ACROSS or
    ROOM_ALONG if not said. The groove stops where the panel with its room ends, and runs out where the member does;
    `through` plows it from end to end. Raises DesignError if the panel does not run in along a straight edge, holds
    too little, is too thick, or leaves cheeks too thin. Source: Noyes, Handwork in Wood (1910), No. 42.
    """
    m = edgewise(panel, into)
    wide = _moves(panel.wood, m.lip)
    left = clean((ROOM_ACROSS if wide else ROOM_ALONG) if room is None else room)
    low, high = m.heights(*_edge_levels(panel, m))
    edge = clean(high - low)
    groove = clean(_width(m, edge) if width is None else width)
    rise = clean((low + high - groove) / 2.0)
    _check(m, edge, groove, rise, left)
    beside = ROOM_ALONG if wide or panel.wood.stock.kind == "sheet" else ROOM_ACROSS
    start, stop = (None, None) if through else m.stops(m.low - beside, m.high + beside)
    cut = EdgeGroove(
        edge=m.entered.name, width=groove, depth=clean(m.run + left), rise=rise, start=start, stop=stop
    )  # fmt: skip
    cut.check(into.wood.blank)
    tip = tuple(m.point(m.low + t * (m.high - m.low), m.run, (low + high) / 2.0) for t in (0.1, 0.5, 0.9))
    return Joint(
        "panel in groove",
        panel.name,
        into.name,
        m.closing,
        (Contact(tip, m.out, left),),
        second_cuts=(cut,),
        fit=clean(groove - edge),
        source=PANELLING,
    )


def panel_in_frame(panel: Stood, members: Sequence[Stood], *, width: float | None = None) -> tuple[Joint, ...]:
    """The panel floating in each of the frame's members, stiles and rails; width: of all the grooves, mm."""
    return tuple(floats(panel, into=member, width=width) for member in members)


def panel_run(stock: float, room: float = ROOM_ACROSS) -> float:
    """How far a panel runs into frame `stock` that thick, mm, for a groove as deep as it is wide (Noyes, No. 42)."""
    return stock / 3.0 - room


def panel_tongue(stock: float) -> float:
    """Thickness of a panel's edge, mm, that slides in a groove a third of the frame's stock wide (Noyes, No. 42)."""
    return stock / 3.0 - PLAY


def _moves(part: Part, lip: Edge) -> bool:
    """Whether the wood swells and shrinks square to an edge."""
    return part.stock.kind != "sheet" and grain_along(part, lip)


def _edge_levels(panel: Stood, m: Edgewise) -> Levels:
    """Back and face of what of the panel's edge goes into the groove, in the panel's own frame."""
    thickness = panel.wood.thickness
    levels: Levels = (0.0, thickness)
    for cut in panel.wood.cuts:
        if isinstance(cut, RaisedEdge | Tongue | Rabbet) and cut.edge == m.lip.name:
            levels = _thinned(panel, levels, cut, m.run, thickness)
    return levels


def _thinned(panel: Stood, levels: Levels, cut: RaisedEdge | Tongue | Rabbet, run: float, thickness: float) -> Levels:
    if isinstance(cut, RaisedEdge):
        gone, side = thickness - cut.left_at(run, thickness), cut.side
    elif isinstance(cut, Rabbet):
        _reaches(panel, "rabbet", cut.width, run)
        gone, side = cut.depth, cut.side
    else:
        _reaches(panel, "tongue", cut.length, run)
        return (max(levels[0], cut.rise), min(levels[1], cut.rise + cut.thickness))
    if side == "face":
        return (levels[0], min(levels[1], thickness - gone))
    return (max(levels[0], gone), levels[1])


def _reaches(panel: Stood, what: str, length: float, run: float) -> None:
    if length < run - 1e-6:
        raise DesignError(
            f"the {what} of {panel.name} is {length:g} mm long, but the panel runs {run:g} mm into its groove; "
            f"make the {what} at least that long"
        )


def _width(m: Edgewise, edge: float) -> float:
    third = m.second.wood.thickness / 3.0
    return third if PLAY - 1e-6 <= third - edge <= LOOSE else edge + PLAY


def _check(m: Edgewise, edge: float, groove: float, rise: float, room: float) -> None:
    panel, member, stock = m.first.name, m.second.name, m.second.wood.thickness
    if groove < edge + 1e-6:
        raise DesignError(
            f"the edge of {panel} is {edge:.2f} mm thick and does not slide in a groove {groove:g} mm wide; "
            f"make the groove {edge + PLAY:.2f} mm wide or the edge thinner"
        )
    cheek = min(rise, stock - rise - groove)
    if cheek < LEAST_CHEEK - 1e-6 or groove > stock / 2.0:
        raise DesignError(
            f"a groove {groove:.1f} mm wide for {panel} would leave {max(cheek, 0.0):.1f} mm of cheek in {member}, "
            f"{stock:g} mm thick; a third of it is {stock / 3.0:.1f} mm, so raise or rabbet the panel's edge to "
            f"{panel_tongue(stock):.1f} mm and let it into the middle"
        )
    if m.run - room < LEAST_HOLD - 1e-6:
        raise DesignError(
            f"{panel} runs {m.run:g} mm into {member}; shrunk by its room of {room:g} mm it would hold by "
            f"{max(m.run - room, 0.0):.1f} mm only, so let it run in {room + LEAST_HOLD:g} mm or more"
        )
