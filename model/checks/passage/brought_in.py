"""If a piece does not pass whole: as it stands after which step does it, and what must be done in the room?"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from model.checks.travel.joined import Joined, holds
from model.piece import Piece

#: Whether some parts together pass all that is on the way.
Passes = Callable[[Sequence[str]], bool]


def brought_in(piece: Piece, names: Sequence[str], passes: Passes) -> tuple[tuple[str, ...], str]:
    """The parts that must wait or don't pass even alone, and what to do."""
    stuck = tuple(n for n in names if not passes([n]))
    if stuck:
        return stuck, f"{', '.join(stuck)} can't pass even alone: take a window, or join it on the spot"
    for number in range(len(piece.steps), 0, -1):
        stood = {n for s in piece.steps[:number] for n in s.parts}
        held = bodies(piece, [n for n in names if n in stood])
        whole = len(held) == 1 and len(held[0]) == len(names)
        loose = len(held) > 1 and all(len(b) == 1 for b in held)
        if held and not whole and not loose and all(passes(b) for b in held):
            return _after(piece, names, number, held)
    return tuple(names), "carry it in as loose parts and put it together inside"


def bodies(piece: Piece, names: Sequence[str]) -> list[tuple[str, ...]]:
    """What some parts are in, taken off their hinges and rests: those that joints hold together, the largest first."""
    groups = Joined(piece).made_one([(n,) for n in names], holds)
    return sorted((tuple(n for (n,) in group) for group in groups), key=len, reverse=True)


def _after(
    piece: Piece, names: Sequence[str], number: int, held: Sequence[tuple[str, ...]]
) -> tuple[tuple[str, ...], str]:
    loose = tuple(n for b in held[1:] for n in b)
    apart = f", in {len(held)} pieces ({_short(loose)} apart)" if loose else ""
    rest = tuple(n for n in names if n not in {m for b in held for m in b})
    if number == len(piece.steps):
        return rest or loose, f"carry it in with what hangs or rests on it taken off ({_short(loose)})"
    step = piece.steps[number]
    then = f'step {number + 1} ("{step.text}")' + (" and those after it" if number + 1 < len(piece.steps) else "")
    return rest or loose, f"carry it in as it stands after step {number}{apart}, and do {then} in the room"


def _short(names: Sequence[str]) -> str:
    return ", ".join(names[:4]) + (f" and {len(names) - 4} more" if len(names) > 4 else "")
