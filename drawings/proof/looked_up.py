"""Numbers that refer to something: each is looked up where that stands."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from functools import reduce

from drawings.paper.measured import Measured, Shown
from drawings.paper.saying import Topic, numbers_in
from drawings.proof.ground import OnSheet
from model.cuts.faces import BiscuitSlot, Bore
from model.in_units import in_units
from model.lengths import INCH, parse_length

#: Why a number is not what is found there; None if it is.
Lookup = Callable[[str, tuple[str, ...], OnSheet], str | None]

#: Two scales are the same within this, of themselves: a setting for several cuts is not quite that of each.
_SAME_SCALE = 0.02
_ARCHITECTS = re.compile(r"(?P<inches>.+\") = 1'-0\"")


def _name(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    """In the name of a part, a cut in one or a measure; of a run of names in the last, all of them being there."""
    first, last = of[0], of[-1]
    run = _run(first, last) if len(of) > 1 else [first]
    missing = next((name for name in run if name.rpartition(" in ")[2] not in sheet.ground.names), None)
    if missing is not None:
        return f"is of {missing}, and nothing is called so"
    return None if number in numbers_in(last) else f"is not in the name of the {last}"


def _run(first: str, last: str) -> list[str]:
    """All names from one to another that differ in the number at their end."""
    (stem, low), (_, high) = (name.rsplit(" ", 1) for name in (first, last))
    return [f"{stem} {n}" for n in range(int(low), int(high) + 1)]


def _label(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    """In what an item of hardware is called, its size in the order's units."""
    kind, size = of
    if not any((h.kind, h.size) == (kind, size) for h in sheet.ground.piece.hardware):
        return f"is of {kind}, {size}, and there is no such hardware"
    told = in_units(size, sheet.ground.order.units)
    return None if number in numbers_in(f"{kind}, {told}") else f"is not in the size {told}"


def _biscuit(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    """The size of a biscuit's slot in the part named, or in any."""
    woods = (sheet.ground.wood(name) for name in of[:1] or sheet.ground.piece.parts)
    sizes = {numbers_in(str(c.size))[0] for w in woods if w for c in w.cuts if isinstance(c, BiscuitSlot)}
    return None if number in sizes else "is the size of no biscuit there"


def _row(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    """As many holes, alike and evenly spaced, in the part named, or in any."""
    woods = (sheet.ground.wood(name) for name in of[:1] or sheet.ground.piece.parts)
    rows = [_in_line([c for c in w.cuts if isinstance(c, Bore)]) for w in woods if w]
    return None if any(int(number) in some for some in rows) else "is the number of no row of holes there"


def _teeth(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    """As many tails, sockets or tenons as one of the part's cuts has."""
    wood = sheet.ground.wood(of[0])
    cuts = wood.cuts if wood else ()
    counts = {len(getattr(cut, teeth, ())) for cut in cuts for teeth in ("tails", "sockets", "tenons")}
    return None if int(number) in counts else f"is the number of nothing cut in the {of[0]}"


def _in_line(bores: Sequence[Bore]) -> set[int]:
    """How many bores lie in each line along a part."""
    return set(Counter((round(b.at[1], 3), round(b.at[2], 3), b.into, b.diameter) for b in bores).values())


def _order(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    """What an entry of the order says, told as section.key."""
    said = str(reduce(getattr, of[0].split("."), sheet.ground.order))
    return None if number in numbers_in(said) else f'is not what the order says: {of[0]} = "{said}"'


def _finest(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    denominator = sheet.ground.order.drawing.denominator
    return None if number == f"1/{denominator}" else f"is not the order's finest fraction, 1/{denominator}"


def _step(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    places = [n for n, step in enumerate(sheet.ground.piece.steps, 1) if step.text.startswith(of[0])]
    return None if int(number) in places else f"is the number of another step than “{of[0]}”"


def _script(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    steps = sheet.ground.piece.steps
    text = steps[int(of[0]) - 1].text if int(of[0]) <= len(steps) else ""
    return None if number in numbers_in(text) else "is not in the step's sentence"


def _sheet_scale(number: str, of: tuple[str, ...], sheet: OnSheet) -> str | None:
    """Something on the sheet is drawn so."""
    return _not_among(number, [factor for _, factor in sheet.scaled])


def scale_off(number: str, meaning: tuple[Measured, ...], sheet: OnSheet) -> str | None:
    """Why a scale is not that of the dimensions in the views it is said of, or of what is measured before it."""
    return _not_among(number, drawn_factors(meaning, sheet))


def drawn_factors(meaning: tuple[Measured, ...], sheet: OnSheet) -> list[float]:
    """Model over paper in the views that a scale is said of; none where nothing is measured in them."""
    lengths = [m.q[0] for m in meaning if m.kind == "scale" and m.q[0] > 0.0]
    if lengths:
        true = (abs(value) for m in meaning if m.kind != "scale" for value in sheet.ground.witness.measure(m))
        return [value / length for value in true for length in lengths]
    views = [m.shown for m in meaning if m.kind == "scale"]
    return [factor for m, factor in sheet.scaled if any(_same(m.shown, view) for view in views)]


def _same(one: Shown, other: Shown) -> bool:
    """Do two views show the same, or parts of one family, from the same side?"""
    if (one.right, one.up, one.at) != (other.right, other.up, other.at):
        return False
    return one.subjects == other.subjects or not set(one.subjects).isdisjoint(other.subjects)


def _not_among(number: str, factors: Sequence[float]) -> str | None:
    wanted = model_over_paper(number)
    if not factors or any(abs(factor / wanted - 1.0) < _SAME_SCALE for factor in factors):
        return None
    return f"is no scale that is drawn in: those are {', '.join(f'1:{f:.4g}' for f in sorted(set(factors)))}"


def model_over_paper(number: str) -> float:
    """A printed scale as model over paper: 1:10 is 10, so is 1 1/5" = 1'-0".

    >>> model_over_paper("2:1"), model_over_paper('3" = 1\\'-0"')
    (0.5, 4.0)
    """
    architects = _ARCHITECTS.fullmatch(number)
    if architects:
        return float(12 * INCH) / parse_length(architects["inches"], "in")
    paper, model = number.split(":")
    return float(model) / float(paper)


#: How each topic is looked up.
LOOKUPS: Mapping[Topic, Lookup] = {
    "name": _name,
    "label": _label,
    "biscuit": _biscuit,
    "row": _row,
    "teeth": _teeth,
    "order": _order,
    "finest": _finest,
    "step": _step,
    "script": _script,
    "sheet scale": _sheet_scale,
}
