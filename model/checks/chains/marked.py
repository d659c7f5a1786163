"""The chains of what is bored or cut in both parts at places marked for it: dowels, biscuits, hinges, shelf pins."""

from __future__ import annotations

from collections.abc import Iterator

from model.checks.chains.chain import CLOSED, HIDDEN, Chain, Window, gains, loses
from model.checks.chains.fitted import Fitted
from model.cuts.gains import HingeGain

#: How far a biscuit may stand off the middle of its slots, mm, either way (common practice: slots are cut longer).
BISCUIT_PLAY = 1.5


def pinned(f: Fitted) -> Iterator[Chain]:
    """Dowels or biscuits: each after the first against it, at places in both parts; a biscuit alone against the
    parts' edges."""
    for kind, window, says in (
        ("dowel", CLOSED, "mark its holes from the other part with centre points, or bore both through one jig"),
        ("biscuit", Window(-BISCUIT_PLAY, BISCUIT_PLAY), "mark its slots from the other part"),
    ):
        count = sum(h.kind == kind for h in f.joint.hardware)
        for n in range(min(count, 2), count + 1):
            ends = (1, n) if n > 1 else (1,)
            links = gains(*(f.by_hand_in_first(kind, "drilled", which=k) for k in ends))
            links += loses(*(f.by_hand_in_second(kind, "drilled", which=k) for k in ends))
            if count:
                yield f.chain(f"{kind}s", 0.0, links, window, f.maker.scribe(says), f.second)


def hinged(f: Fitted) -> Iterator[Chain]:
    """The gap beside the hinges, by the depth of their gains; and the gains of both parts at the same places."""
    ours, theirs = f.in_first(HingeGain), f.in_second(HingeGain)
    for n, (mine, other) in enumerate(zip(ours, theirs, strict=True), 1):
        deep = loses(f.of_first("depth of gain", mine.depth, "routed", mine, which=n))
        deep += loses(f.of_second("depth of gain", other.depth, "routed", other, which=n))
        yield f.chain("gap", 0.0, deep, HIDDEN, f.maker.fit("pare the gains, or shim a leaf, until the gap is even"))
    for n in range(2, len(ours) + 1):
        links = gains(*(f.by_hand_in_first("gain", "drilled", which=k) for k in (1, n)))
        links += loses(*(f.by_hand_in_second("gain", "drilled", which=k) for k in (1, n)))
        yield f.chain("places", 0.0, links, CLOSED, f.maker.scribe("mark its gains from the other part"), f.second)


def on_pins(f: Fitted) -> Iterator[Chain]:
    """A shelf rocks if the pins at one end are not level; its bores come from one stop or one stick."""
    pins = [h for h in f.joint.hardware if h.kind == "shelf pin"]
    height = f.second.at.own_point(pins[0].at)[0]
    for n in range(2, len(pins) + 1):
        links = gains(f.of_second("pin", height, "drilled", which=1)) + loses(
            f.of_second("pin", height, "drilled", which=n)
        )
        yield f.chain("level", 0.0, links, HIDDEN, f.maker.scribe("bore both rows from one stick"), f.second)
