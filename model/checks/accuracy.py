"""Do parts made as exactly as this shop makes them go together, and which are better marked from the work?

Every fit of every joint, every closed loop of parts and the play of what moves is a chain of sizes (`chains`). The
piece is built many times over from the rule alone, and then with what fails most made from the work (`builds`,
`marking`).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from model.checks.chains.builds import every, share
from model.checks.chains.chain import Chain, Remedy
from model.checks.chains.loops import LOOP, ROW, loop_chains, ties
from model.checks.chains.made_sizes import Maker
from model.checks.chains.marking import ENOUGH, Alike, Survey, survey
from model.checks.chains.of_joints import chains_of
from model.checks.chains.plays import PLAYING, play_chains
from model.checks.chains.rows import ROUND, row_chains
from model.checks.finding import Answer, Finding, Proof, Severity, listed
from model.order_sections import Shop
from model.piece import Piece

CHECK = "accuracy"
SOURCE = "[shop] accuracy of the order, taken as two standard deviations; 95 builds in 100 are common practice"

#: So many notes tell what is best made from the work; the rest, which fails least, is told in one more.
_NOTES = 5

#: So many parts are told by name.
_FEW = 4

LOOPS = (LOOP, ROW, ROUND, PLAYING)


def accuracy(piece: Piece, shop: Shop | None = None) -> Answer:
    """Notes of the parts to mark from the work; cautions for what fails in more than 5 builds of 100 even so. shop: how
    exactly it works, and with what. The same piece gives the same answer, whatever the order of its parts."""
    chains = list(all_chains(piece, Maker(piece, shop or Shop())))
    if not chains:
        return Answer()
    found = survey(chains)
    findings = (*map(_caution, found.lost), *_notes(found.marked), _summary(found, len(chains)))
    return Answer(findings, tuple(_proofs(found)), figures(found))


def all_chains(piece: Piece, maker: Maker) -> Iterator[Chain]:
    """Every fit of every joint, every closed loop of parts, and the play of everything that moves."""
    for joint in piece.joints:
        yield from chains_of(joint, maker)
    tied = ties(piece, maker)
    loops = list(loop_chains(tied, maker))
    yield from loops
    yield from row_chains(piece, maker, loops)
    yield from play_chains(piece, tied, maker)


def figures(found: Survey) -> dict[str, float | str]:
    """For the report: builds in 100 that go together with what is marked made from the work, and by the rule alone;
    the chain that fails most by the rule, and in how many builds of 100 it goes together."""
    told: dict[str, float | str] = {
        "builds_that_go_together": found.from_work,
        "builds_that_go_together_by_the_rule": found.by_rule,
    }
    if found.worst is not None:
        told["worst_chain"] = _named(found.worst)
        told["worst_chain_goes_together"] = round(found.worst.share, 2)
    return told


def _caution(alike: Alike) -> Finding:
    chain, many = alike.first, len(alike.chains)
    more = f", and {many - 1} more like it," if many > 1 else ""
    says = (
        f"{_named(chain)}{more} is drawn with {chain.room:.2f} mm to spare, and even made from the work would do in "
        f"only {chain.from_the_work.share:.0f} builds of 100; draw it otherwise, or work more exactly"
    )
    value = round(max(chain.share, chain.from_the_work.share), 2)
    return Finding(CHECK, "caution", _parts((alike,)), says, value, ENOUGH, "%", SOURCE)


def _notes(marked: Sequence[Alike]) -> Iterator[Finding]:
    """One for each way of making a fit from the work, what fails most first; what fails least all in one."""
    by_remedy: dict[Remedy, list[Alike]] = defaultdict(list)
    for alike in marked:
        by_remedy[alike.first.remedy].append(alike)
    ways = list(by_remedy.values())
    yield from (_note([some]) for some in ways[:_NOTES])
    if ways[_NOTES:]:
        yield _note(ways[_NOTES:])


def _note(ways: Sequence[Sequence[Alike]]) -> Finding:
    every_one = [alike for some in ways for alike in some]
    by_rule, from_work = (share(every(getattr(a, way) for a in every_one)) for way in ("by_rule", "from_work"))
    says = "; ".join(f"{_few(_marked(some))}: {some[0].first.remedy.says} ({_kinds(some)})" for some in ways)
    told = f"{says}: of 100 builds, {by_rule:.0f} go together if made by the rule, {from_work:.0f} if made so"
    return Finding(CHECK, "note", _marked(every_one), told, by_rule, ENOUGH, "%", SOURCE)


def _summary(found: Survey, count: int) -> Finding:
    made = sum(len(a.chains) for a in (*found.marked, *found.lost))
    all_of = f"all {count} fits and loops of parts together" if count > 1 else "its one fit"
    so = f", {found.from_work:.0f} if {made} are made from the work as said" if made else ""
    worst = f"; worst by the rule is the {_named(found.worst)}" if found.worst and made else ""
    says = f"{all_of}: of 100 builds, {found.by_rule:.0f} go together if all is made by the rule{so}{worst}"
    short = found.from_work < ENOUGH and not found.lost
    severity: Severity = "caution" if short else "note"
    return Finding(CHECK, severity, (), says, found.from_work, ENOUGH, "%", SOURCE)


def _proofs(found: Survey) -> Iterator[Proof]:
    for what, loops in (
        ("fits of joints made closely enough, by the rule or from the work", False),
        ("closed loops of parts that close, by the rule or from the work", True),
    ):
        every_one, lost = (
            sum(len(a.chains) for a in some if (a.first.kind in LOOPS) is loops) for some in (found.all, found.lost)
        )
        yield Proof(what, every_one, every_one - lost)


def _parts(some: Sequence[Alike]) -> tuple[str, ...]:
    return tuple(sorted({name for alike in some for chain in alike.chains for name in chain.parts}))


def _marked(some: Sequence[Alike]) -> tuple[str, ...]:
    """The parts that are made from the work."""
    return tuple(sorted({chain.marked for alike in some for chain in alike.chains}))


def _named(chain: Chain) -> str:
    if len(chain.parts) <= 2:
        return f"{chain.kind} of {' and '.join(chain.parts)}"
    return f"{chain.kind} from {chain.parts[0]} to {chain.parts[-1]}"


def _kinds(some: Sequence[Alike]) -> str:
    """The kinds of joints or loops, and how many chains there are of them."""
    kinds = dict.fromkeys(alike.first.kind.partition(",")[0] for alike in some)
    count = sum(len(alike.chains) for alike in some)
    return ", ".join(kinds) + (f", {count} in all" if count > 1 else "")


def _few(names: Sequence[str]) -> str:
    """The first few of many."""
    return listed(names, _FEW + 1)
