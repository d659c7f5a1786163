"""Does it go together in the order of its steps? Each part travels home from clear of everything, and meets nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from model.checks.finding import Answer, Finding, Proof, listed
from model.checks.places import spot
from model.checks.travel.closing_order import Build
from model.checks.travel.homecoming import Homecoming, Trapped
from model.checks.travel.remedies import step_before, step_with, unsaid_way, working_order
from model.part import GivenPart
from model.piece import Piece
from model.placement import Vector
from model.way_home import told, toward

CHECK = "closing"
SOURCE = "a part can't pass through wood; 0.01 mm is the finest a shop's machines hold (common practice)"
DRAGGING = "glue is wiped off a surface that slides home along it (common practice)"
STEPS = "every part has its step (common practice)"

#: This many ends or more to be started at once are worth a word (common practice: two people hold four).
MANY_ENDS = 5


def closing(build: Build) -> Answer:
    """Faults for parts that can't go home in their step, cautions for glued joints that a part must slide along and for
    parts no step brings in, notes of many ends that must go home at once and of ways round, where none is straight.

    Two parts that overlap at home are overlap's to tell: neither is held to stand in the other's way, nothing is said
    of what passes the other, and it doesn't count as proved.
    """
    played = build.played
    moves = [m for m in played.moves if m.judged]
    findings = [
        *(_trapped(build, t) for t in played.trapped),
        *(_dragged(build.piece, m) for m in moves if m.dragged),
        *(_left_out(build.piece)),
        *(_at_once(m) for m in moves if len(m.ends) >= MANY_ENDS),
        *(_round_about(m) for m in moves if len(m.legs) > 1 and not m.said),
    ]
    tried = len(played.moves) + len(played.trapped)
    return Answer(tuple(findings), (Proof("closing paths clear", tried, len(moves)),))


def _trapped(build: Build, t: Trapped) -> Finding:
    piece, other = build.piece, t.blocker.other
    since = build.step_of(other)
    stands = f", which stands since step {since}" if 0 < since < t.step else ""
    what, near = _few(t.parts), spot(piece[other], t.blocker.where)
    if t.said:
        message = (
            f"{what} can't go home as step {t.step} says ({told(t.legs)}): {t.blocker.moving} meets {other}{stands}, "
            f"near {near}; {_other_way(build, t)}"
        )
    else:
        message = (
            f"{what} can't go home in step {t.step}: on its way {toward(t.along)} it runs into {other}{stands}, near "
            f"{near}, and no other straight way is clear, {_search(t)}; {_advice(build, t)}"
        )
    return Finding(
        CHECK, "fault", (*t.parts, other), message, float(t.step), float(t.step), "step", SOURCE, t.blocker.where
    )


def _round_about(m: Homecoming) -> Finding:
    what = _few(m.parts)
    message = f"step {m.step}: no straight way is clear for {what}, but this one is: {told(m.legs)}"
    return Finding(CHECK, "note", m.parts, message, float(len(m.legs)), 1.0, "legs", SOURCE)


def _search(t: Trapped) -> str:
    return "and the search for a way round was given up" if t.given_up else "nor one of two legs"


def _other_way(build: Build, t: Trapped) -> str:
    found = unsaid_way(build, t)
    return f"this way is clear: {told(found)}" if found else "bring it in another way, or earlier"


def _advice(build: Build, t: Trapped) -> str:
    if (before := step_before(build, t)) is not None:
        return f"it would right after step {before}, so bring it in there"
    if (together := step_with(build, t)) is not None:
        return f"bring it in with step {together}, where it goes home together with the parts of that step"
    order = working_order(build)
    if order is None:
        return "no order of these parts lets it in: open the joint to one side, or make it in two parts"
    after = {n for parts in order[order.index(t.parts) + 1 :] for n in parts} if t.parts in order else set()
    late = [n for n in build.piece.parts if n in after and 0 < build.step_of(n) <= t.step]
    if late:
        return f"an order that works brings it in before {_few(late)}"
    return f"an order that works: {', then '.join(map(_few, order))}"


def _few(names: Sequence[str]) -> str:
    """So many names as one reads at a glance."""
    return listed(names, 4)


def _dragged(piece: Piece, move: Homecoming) -> Finding:
    what = _few(move.parts)
    joint = min(move.dragged, key=lambda j: (-j.glue_area, j.first, j.second))  # of equal ones always the same
    length = _length_along(piece, joint.first, move.along)
    message = (
        f"step {move.step}: {what} can only slide home {toward(move.along)}, up to {length:.0f} mm along the glue of "
        f"the {joint.kind} joint of {joint.first} and {joint.second}, and wipes it off; bring it in earlier, or leave "
        "this joint dry"
    )
    return Finding(CHECK, "caution", (joint.first, joint.second), message, round(length, 3), 0.0, "mm", DRAGGING)


def _length_along(piece: Piece, name: str, along: Vector) -> float:
    placed = piece[name]
    if isinstance(placed.part, GivenPart):
        return 0.0
    x, y, z = (abs(c) for c in placed.at.own_direction(along))
    stock = placed.part.stock
    return x * stock.length + y * stock.width + z * stock.thick


def _at_once(move: Homecoming) -> Finding:
    what, ends = _few(move.parts), move.ends
    message = (
        f"step {move.step}: {what} must go home on {len(ends)} ends at once ({', '.join(ends)}); start them all before "
        "any is driven home"
    )
    return Finding(CHECK, "note", (*move.parts, *ends), message, float(len(ends)), float(MANY_ENDS), "ends", STEPS)


def _left_out(piece: Piece) -> Iterator[Finding]:
    named = {n for s in piece.steps for n in s.parts}
    left = tuple(sorted(n for n in piece.parts if n not in named))
    if not piece.steps:
        message = "the piece has no steps, so nothing is known of how it goes together; add piece.step(...) for each"
    elif left:
        message = f"no step brings in {', '.join(left)}, so nothing is known of the way home; name it in a step"
    else:
        return
    yield Finding(CHECK, "caution", left, message, float(len(left)), 0.0, "parts", STEPS)
