"""Which chains does a joint have? Told by the cuts it makes, not by its name."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from model.checks.chains.at_ends import bridled, loose_tongued, pegged, slid_dovetail, tabbed, tenoned
from model.checks.chains.chain import Chain
from model.checks.chains.fitted import Fitted
from model.checks.chains.let_in import housed, panelled, rabbeted, ship_lapped, splined, tongued
from model.checks.chains.made_sizes import Maker
from model.checks.chains.marked import hinged, on_pins, pinned
from model.checks.chains.of_corners import dovetailed, fingered, halved, sawn_faces, slotted
from model.cuts.cut import Cut
from model.cuts.dovetails import Fingers, Pins, Tails
from model.cuts.edges import EdgeGroove, Rabbet, Tongue
from model.cuts.faces import Channel
from model.cuts.gains import HingeGain
from model.cuts.laps import Lap, Slot
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.sawn import SawCut
from model.cuts.slanted_dado import SlantedDado
from model.cuts.sliding_dovetails import DovetailSocket, DovetailTongue
from model.cuts.slots import SlottedHole
from model.cuts.tenons import TenonedEnd
from model.cuts.through import Opening
from model.joints.joint import Joint
from model.part import GivenPart

#: Joints that no exactness decides, and why.
WITHOUT_FIT = {
    "rest": "one part lies where the other holds it",
    "glued": "a face glued to a face goes anywhere",
    "nailed": "a nail makes its own hole",
    "screwed": "the pilot is bored through the hole of the part laid on",
    "pocket screw": "the screw finds its own way, the parts held flush",
    "slot-screwed": "the pilot is marked through its slot, the parts in place",
    "continuous hinge": "its screws are marked through the leaves, the parts in place",
}


@dataclass(frozen=True)
class Family:
    """Joints that make such cuts in their first and second parts, and the chains of one; None: whatever there is."""

    chains: Callable[[Fitted], Iterator[Chain]]
    first: type[Cut] | None = None
    second: type[Cut] | None = None

    def holds(self, joint: Joint) -> bool:
        return _has(joint.first_cuts, self.first) and _has(joint.second_cuts, self.second)


def _has(cuts: tuple[Cut, ...], kind: type[Cut] | None) -> bool:
    return kind is None or any(isinstance(c, kind) for c in cuts)


#: The first that holds has a joint's wood; a kind of cut that is also another stands before it.
FAMILIES = (
    Family(bridled, first=OpenMortise),
    Family(slid_dovetail, DovetailTongue, DovetailSocket),
    Family(fingered, Fingers, Fingers),
    Family(dovetailed, Tails, Pins),
    Family(tenoned, TenonedEnd, Mortise),
    Family(loose_tongued, Mortise, Mortise),
    Family(tongued, Tongue, EdgeGroove),
    Family(tongued, EdgeGroove, Tongue),
    Family(splined, EdgeGroove, EdgeGroove),
    Family(panelled, second=EdgeGroove),
    Family(housed, second=Channel),
    Family(housed, second=SlantedDado),
    Family(ship_lapped, Rabbet, Rabbet),
    Family(rabbeted, second=Rabbet),
    Family(halved, Lap, Lap),
    Family(slotted, Slot, Slot),
    Family(tabbed, second=Opening),
    Family(sawn_faces, SawCut, SawCut),
    Family(hinged, HingeGain, HingeGain),
)

#: What is put into both parts, by its kind: a joint of any family may have some.
WITH_HARDWARE: dict[str, Callable[[Fitted], Iterator[Chain]]] = {
    "dowel": pinned,
    "biscuit": pinned,
    "shelf pin": on_pins,
}


def chains_of(joint: Joint, maker: Maker) -> Iterator[Chain]:
    """Every fit of a joint; none for one that no exactness decides, nor with a part given as a solid, which has no
    sizes to ask."""
    f = Fitted(joint, maker)
    if any(isinstance(placed.part, GivenPart) for placed in (f.first, f.second)):
        return
    family = next((family for family in FAMILIES if family.holds(joint)), None)
    if family is not None:
        yield from family.chains(f)
    elif joint.kind == "panel in groove":  # plowed already, for another joint
        yield from panelled(f)
    if _has(joint.first_cuts, SlottedHole) and _has(joint.second_cuts, SlottedHole):
        yield from pegged(f)
    for kind in sorted({h.kind for h in joint.hardware} & WITH_HARDWARE.keys()):
        yield from WITH_HARDWARE[kind](f)
