"""Does a row of boards tongued edge to edge fill its room where that lies on no line, as round an arc?

On a line such a row closes a loop (`loops`). Round an arc its boards look different ways; then their widths alone are
asked, against the room as it is drawn between the two parts that only the outermost boards meet.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterator

from model.checks.chains.chain import HIDDEN, Chain, Window, gains, loses
from model.checks.chains.loops import ROW, brought
from model.checks.chains.made_sizes import Maker
from model.cuts.edges import Tongue
from model.joints.joint import Joint
from model.piece import Piece

ROUND = "boards round an arc"


def row_chains(piece: Piece, maker: Maker, closed: Collection[Chain]) -> Iterator[Chain]:
    """The rows that close no loop; closed: the loops that are known."""
    told = [set(chain.parts) for chain in closed if chain.kind == ROW]
    for boards, joints in _rows(piece):
        if _fills_its_room(piece, boards) and not any(set(boards) <= parts for parts in told):
            yield _chain(boards, joints, maker)


def _rows(piece: Piece) -> Iterator[tuple[list[str], list[Joint]]]:
    """Boards from one end of a row to the other, the end that the steps bring last coming last, and their joints."""
    beside: dict[str, list[Joint]] = defaultdict(list)
    for joint in piece.joints:
        if any(isinstance(c, Tongue) for c in joint.first_cuts):
            beside[joint.first].append(joint)
            beside[joint.second].append(joint)
    ends = {name for name, joints in beside.items() if len(joints) == 1}
    while ends:
        boards = [min(ends, key=lambda name: (brought(piece, name), name))]
        joints: list[Joint] = []
        while further := [j for j in beside[boards[-1]] if {j.first, j.second} - set(boards)]:
            joints.append(further[0])
            boards += {further[0].first, further[0].second} - set(boards)
        ends -= set(boards)
        yield boards, joints


def _fills_its_room(piece: Piece, boards: list[str]) -> bool:
    """Whether each end meets a part that no board between them meets."""
    met: dict[str, set[str]] = defaultdict(set)
    for joint in piece.joints:
        met[joint.first].add(joint.second)
        met[joint.second].add(joint.first)
    between = {part for board in boards[1:-1] for part in met[board]} | set(boards)
    return len(boards) > 2 and all(met[end] - between for end in (boards[0], boards[-1]))


def _chain(boards: list[str], joints: list[Joint], maker: Maker) -> Chain:
    """As in a loop: too narrow by what the tongues may stand open, but hardly too wide."""
    links = gains(*map(maker.width, boards))
    slack = 0.0
    for joint in joints:
        tongue = next(c for c in joint.first_cuts if isinstance(c, Tongue))
        links += loses(
            maker.cut(joint.first, "length of tongue", tongue.length, "routed", tongue, f"for {joint.second}")
        )
        slack += max(0.0, *(c.gap for c in joint.contacts)) if joint.contacts else 0.0
    window = Window(HIDDEN.least - slack, HIDDEN.most)
    return Chain(ROUND, tuple(sorted(boards)), 0.0, links, window, maker.scribe("rip to the room left"), boards[-1])
