"""Every joint of the vocabulary has its chains, or is said to need none; their sizes add up to the room drawn."""

from dataclasses import replace

import pytest

from model.checks.chains.chain import CLOSED
from model.checks.chains.made_sizes import Maker
from model.checks.chains.of_joints import FAMILIES, WITH_HARDWARE, WITHOUT_FIT, chains_of
from model.joints.samples import samples
from model.order_sections import Accuracy, Shop
from tests.model.checks.planted import EXAMPLES, sound

SAMPLES = samples()

#: Fits whose sizes, as drawn, are the room: both walls of a groove against what goes in.
ADDED_UP = ("dado", "groove", "tongue and groove", "spline", "loose tongue", "mortise and tenon", "corner bridle")


def made(sample, shop=None):
    """The chains of each joint of a sample."""
    maker = Maker({p.name: p for p in sample.parts}, shop or Shop())  # type: ignore[arg-type]
    return {n: list(chains_of(joint, maker)) for n, joint in enumerate(sample.joints)}


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda s: s.name)
def test_every_joint_has_its_chains_or_is_said_to_need_none(sample):
    for n, chains in made(sample).items():
        kind = sample.joints[n].kind
        assert bool(chains) != (kind in WITHOUT_FIT), kind


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda s: s.name)
def test_a_chain_is_told_by_its_name_and_names_its_parts(sample):
    chains = [c for some in made(sample).values() for c in some]
    assert len({c.name for c in chains}) == len(chains)
    names = {p.name for p in sample.parts}
    for c in chains:
        assert set(c.parts) <= names
        assert c.marked in c.parts
        assert c.links
        assert c.spread > 0.0
        assert c.window.least < c.window.most


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda s: s.name)
def test_every_joint_drawn_by_the_rule_goes_together_from_the_work(sample):
    for c in (c for some in made(sample).values() for c in some):
        assert max(c.share, c.from_the_work.share) > 99.0, c


def test_the_sizes_of_a_fit_add_up_to_its_room():
    sums = [
        (sum(link.times * link.size.drawn for link in c.links), c)
        for sample in SAMPLES
        for n, chains in made(sample).items()
        for c in chains
        if c.kind == sample.joints[n].kind in ADDED_UP and all(link.size.drawn for link in c.links)
    ]
    assert {c.kind for _, c in sums} == set(ADDED_UP)
    for total, c in sums:
        assert total == pytest.approx(c.room, abs=1e-4), c


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_joint_of_the_examples_has_its_chains_or_is_said_to_need_none(name):
    piece = sound(name)
    for joint in piece.joints:
        assert any(chains_of(joint, Maker(piece, Shop()))) != (joint.kind in WITHOUT_FIT), joint.kind


def test_every_family_is_that_of_some_sample():
    joints = [joint for sample in SAMPLES for joint in sample.joints]
    used = {next((f for f in FAMILIES if f.holds(joint)), None) for joint in joints}
    assert used >= set(FAMILIES)
    assert {j.kind for j in joints} >= set(WITHOUT_FIT) - {"glued"}, "gluing face to face is no joint to show"
    assert {h.kind for j in joints for h in j.hardware} >= set(WITH_HARDWARE)


def test_a_finer_shop_makes_every_fit_more_closely():
    coarse = Shop(accuracy=Accuracy(sawn=1, planed=0.4, routed=0.4, drilled=1, angle=0.2))
    for sample in SAMPLES:
        for rough, fine in zip(made(sample, coarse).values(), made(sample).values(), strict=True):
            for a, b in zip(rough, fine, strict=True):
                assert b.spread < a.spread
                if b.window.least <= b.room <= b.window.most:
                    assert b.share >= a.share - 1e-9


def test_a_lap_too_narrow_for_what_crosses_is_drawn_too_tight():
    sample = next(s for s in SAMPLES if s.name == "cross half lap")
    joint = sample.joints[0]
    lap = joint.second_cuts[0]
    near = replace(lap.shoulders[0], at=(lap.shoulders[0].at[0] + 0.6, 0.0))
    tight = replace(sample, joints=(replace(joint, second_cuts=(replace(lap, shoulders=(near, *lap.shoulders[1:])),)),))
    rooms = [c.room for c in made(tight)[0] if c.kind.endswith("shoulders")]
    assert sorted(rooms) == pytest.approx([-0.6, 0.0], abs=1e-6)


def test_what_the_cnc_makes_is_made_to_its_accuracy():
    by_hand, on_cnc = Shop(), Shop(bandsaw_throat=0, jigsaw_depth=0)
    slot = next(s for s in SAMPLES if s.name == "slotted, relieved")
    for rough, fine in zip(made(slot, by_hand)[0], made(slot, on_cnc)[0], strict=True):
        assert fine.spread < rough.spread
    sawn = {link.size.off for c in made(slot, on_cnc)[0] for link in c.links if "width of slot" in link.size.name}
    assert sawn == {on_cnc.accuracy.cnc}


def test_what_is_laid_out_by_hand_shares_nothing_and_what_a_fence_sets_does():
    dowels = next(s for s in SAMPLES if s.name == "dowelled edge")
    assert all(not any(c.shared.values()) for c in made(dowels)[0])
    fingers = next(s for s in SAMPLES if s.name == "box joint")
    settings = {name for c in made(fingers)[0] for name in c.shared}
    assert len(settings) == 1
    one = made(fingers)[0][0]
    assert one.shared[settings.pop()] == pytest.approx(2.0 * one.links[0].size.set_off)
    assert one.window != CLOSED
