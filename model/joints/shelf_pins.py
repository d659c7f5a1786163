"""A shelf that lies on pins in rows of bores, to be set higher or lower."""

from __future__ import annotations

from model.cuts.faces import Bore, entered
from model.errors import DesignError
from model.hardware import Hardware
from model.joints.joint import Joint, Stood, clean
from model.joints.meetings.edgewise import reach
from model.placement import Vector, dot, scaled
from model.tolerance import CONTACT

PINNING = "common practice: a pin near each corner of an adjustable shelf, in bores 5 mm or 1/4 in across"

#: Length of a pin, mm: in its bore, and out under the shelf; how far a shelf's end may stay off the upright.
PIN_OUT, LOOSEST = 9.0, 3.0


def on_pins(shelf: Stood, side: Stood) -> Joint:
    """One end of `shelf`, which lies level, on pins in the bores of `side`, whose tops its underside lies on.

    The shelf stays off the side by its clearance, mm, which becomes the joint's fit. Raises DesignError if no bores
    lie under its end at that height, saying where the nearest ones are, or if its end is not beside the side.
    """
    up: Vector = (0.0, 0.0, 1.0)
    bottom, _ = reach(shelf, up)
    pins, wide = [], []
    for cut in side.wood.cuts:
        if not isinstance(cut, Bore) or entered(cut.into) is None:
            continue
        mouth, out = side.at.point(cut.at), scaled(side.at.direction(cut.into), -1.0)
        gap = _clearance(shelf, mouth, out)
        if gap is None:
            continue
        top = mouth[2] + cut.diameter / 2.0
        wide.append(top)
        if abs(top - bottom) < CONTACT:
            pins.append((clean(gap), _pin(shelf, side, cut, mouth, out)))
    if not pins:
        raise DesignError(_no_pins(shelf, side, bottom, wide))
    gap = min(gap for gap, _ in pins)
    return Joint("shelf pins", shelf.name, side.name, (0.0, 0.0, -1.0), fit=gap, hardware=tuple(p for _, p in pins),
                 source=PINNING)  # fmt: skip


def _clearance(shelf: Stood, mouth: Vector, out: Vector) -> float | None:
    """How far the shelf's end stays off a bore's mouth, if it lies over where its pin comes out."""
    low, _ = reach(shelf, out)
    gap = low - dot(out, mouth)
    under = shelf.at.own_point(tuple(m + (gap + PIN_OUT / 2.0) * o for m, o in zip(mouth, out, strict=True)))  # type: ignore[arg-type]
    return gap if -CONTACT <= gap <= LOOSEST and shelf.wood.outline.contains(under[:2]) else None


def _pin(shelf: Stood, side: Stood, bore: Bore, mouth: Vector, out: Vector) -> Hardware:
    bottom: Vector = side.at.point(tuple(a + bore.depth * i for a, i in zip(bore.at, bore.into, strict=True)))  # type: ignore[arg-type]
    names = (shelf.name, side.name)
    return Hardware("shelf pin", f"{bore.diameter:g} mm", bottom, out, names, bore.depth + PIN_OUT, bore.diameter)


def _no_pins(shelf: Stood, side: Stood, bottom: float, tops: list[float]) -> str:
    if not tops:
        return f"no bores of {side.name} lie beside the end of {shelf.name}; bore it, or move the shelf to it"
    nearest = min(tops, key=lambda top: abs(top - bottom))
    return (
        f"{shelf.name} lies {bottom:.1f} mm up, but the nearest pins of {side.name} are {nearest:.1f} mm up; "
        "move the shelf there"
    )
