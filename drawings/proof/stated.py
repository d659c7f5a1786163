"""Numbers that a solid can't be asked for: the stock to buy, what the order and the checks say. Each is held against
where it comes from."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial

from drawings.lists.part_lines import GLUE_UP
from drawings.paper.measured import Measured, Shown
from drawings.paper.saying import Topic
from drawings.proof.ground import Ground, OnSheet
from drawings.proof.held import printed_alike
from model.checks.glue_up import clamps_for, minutes_for, pressure_for
from model.joints.joint import Joint
from model.lengths import INCH, INCH_UNITS, parse_length
from model.way_home import Tip
from model.wood.lumber import COMMON_PRACTICE, ROUNDED, nominal_thicknesses, plywood_categories
from model.wood.material import material_named

#: Why a number is not what it comes from; None if it is.
Origin = Callable[[str, tuple[str, ...], OnSheet], str | None]

_HALF_TENTH = 0.05 + 1e-9
#: How far the whole piece reaches along an axis.
_REACH: Mapping[str, Measured] = {
    "x": Shown().extent((1.0, 0.0)),
    "y": Shown().extent((0.0, 1.0)),
    "z": Shown((), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)).extent((0.0, 1.0)),
}

#: What a check makes of the joints glued in a step.
_OfGlue = Callable[[Sequence[Joint], Ground], float]


def _finished(name: str, ground: Ground) -> tuple[float, float, float]:
    """Length, width and thickness of a part's stock, no less than its solid, mm."""
    wood, plan, edge = ground.wood(name), Shown((name,)), Shown((name,), up=(0.0, 0.0, 1.0))
    views = ((plan, (1.0, 0.0)), (plan, (0.0, 1.0)), (edge, (0.0, 1.0)))
    reaches = [next(ground.witness.measure(shown.extent(along))) for shown, along in views]
    sizes = (wood.stock.length, wood.stock.width, wood.thickness) if wood else (0.0, 0.0, 0.0)
    length, width, thickness = (max(size, reach) for size, reach in zip(sizes, reaches, strict=True))
    return length, width, thickness


def _boards(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    """Enough that none is wider in the rough than boards for panels are."""
    width = _finished(of[0], sheet.ground)[1]
    each = width / int(number) + COMMON_PRACTICE.width
    fewer = width / (int(number) - 1) + COMMON_PRACTICE.width if int(number) > 1 else float("inf")
    return None if each <= GLUE_UP + 1e-6 and fewer > GLUE_UP - 1e-6 else f"boards would be {each:.1f} mm wide"


def _rough_length(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    return _near(number, _finished(of[0], sheet.ground)[0] + COMMON_PRACTICE.length, sheet.ground)


def _rough_width(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    """of: the part, and how many boards it is glued up from."""
    return _near(number, _finished(of[0], sheet.ground)[1] / int(of[1]) + COMMON_PRACTICE.width, sheet.ground)


def _nominal(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    """The thinnest that the yard sells and that dresses to the part's thickness; for sheet goods the category."""
    wood, thick = sheet.ground.wood(of[0]), _finished(of[0], sheet.ground)[2]
    if wood is None:
        return "is of no part made of stock"
    if wood.stock.kind == "sheet":
        within = [s.category for s in plywood_categories() if s.least <= thick <= s.most]
        return None if number in within or not within else f"is no category for {thick:.1f} mm"
    sold = nominal_thicknesses(hardwood=not material_named(wood.stock.species or "").softwood)
    enough = [n.text for n in sold if n.dressed_mm >= thick - ROUNDED]
    return None if enough[:1] == [number] else f"dresses to another thickness than {thick:.1f} mm"


def _thickness(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    return _near(number, sheet.ground.order.wood.thickness, sheet.ground)


def _fit(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    fits = [j.fit for j in sheet.ground.piece.joints if (j.first, j.second) == of]
    return _near_one(number, fits, sheet.ground)


def _cut_at(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    """Somewhere in the piece: where a section is taken is the drawing's own choice."""
    size = next(sheet.ground.witness.measure(_REACH[of[0]]))
    value = parse_length(number, sheet.ground.order.units)
    return None if value <= size else f"lies outside the piece, which is {size:.1f} mm there"


def _way(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    steps = sheet.ground.piece.steps
    legs = steps[int(of[0]) - 1].way if int(of[0]) <= len(steps) else ()
    if number.endswith("°"):
        turned = [leg.angle for leg in legs if isinstance(leg, Tip)]
        near = any(abs(float(number[:-1]) - angle) <= _HALF_TENTH for angle in turned)
        return None if near else "is the angle of no leg of the way home"
    return _near_one(number, [leg.travel for leg in legs if not isinstance(leg, Tip)], sheet.ground)


def _glue(
    what: Callable[[Sequence[Joint], Ground], float], number: str, of: tuple[str, ...], sheet: OnSheet
) -> str | None:
    glued = [j for j in sheet.ground.made.get(int(of[0]), ()) if j.glue_area > 0.0]
    found = what(glued, sheet.ground)
    return None if abs(float(number) - found) <= _half_place(number) else f"is {found:.1f}"


def _half_place(number: str) -> float:
    """Half of the last place that a number is printed to, and a hair."""
    return 0.5 * 10.0 ** -len(number.partition(".")[2]) + 1e-4


def _area(glued: Sequence[Joint], ground: Ground) -> float:
    """Square centimetres, or in an inch order square inches."""
    area = sum(j.glue_area for j in glued)
    return area / float(INCH) ** 2 if ground.order.units in INCH_UNITS else area / 100.0


def _clamps(glued: Sequence[Joint], ground: Ground) -> float:
    return clamps_for(glued, pressure_for(material_named(ground.piece.parameters.species).density(12.0)))


def _near(number: str, value: float, ground: Ground) -> str | None:
    return _near_one(number, [value], ground)


def _near_one(number: str, values: Sequence[float], ground: Ground) -> str | None:
    """A printed length against those that it may be, mm."""
    read = parse_length(number, ground.order.units)
    if any(abs(read - value) <= printed_alike(ground.order) for value in values):
        return None
    return f"is {values[0]:.3f}" if values else "comes from nothing that is there"


#: Where each topic comes from.
ORIGINS: Mapping[Topic, Origin] = {
    "boards": _boards,
    "rough length": _rough_length,
    "rough width": _rough_width,
    "nominal": _nominal,
    "thickness": _thickness,
    "fit": _fit,
    "cut at": _cut_at,
    "way": _way,
    "glue area": partial(_glue, _area),
    "glue minutes": partial(_glue, lambda glued, _: minutes_for(glued)),
    "clamps": partial(_glue, _clamps),
}
