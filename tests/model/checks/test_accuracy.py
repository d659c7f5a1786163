"""Accuracy: planted fits the shop can't hold, and nothing else accused; what is left to the rule and what is not."""

import copy
import math
from dataclasses import replace

import cadquery as cq
import pytest

from model.checks.accuracy import LOOPS, accuracy, all_chains
from model.checks.chains.builds import every, share, together
from model.checks.chains.made_sizes import Maker
from model.checks.chains.marking import ENOUGH, survey
from model.checks.chains.rows import ROUND
from model.checks.finding import Answer
from model.cuts.dovetails import Pins
from model.cuts.edges import EdgeGroove
from model.cuts.laps import Slot
from model.cuts.mortises import Mortise
from model.joints.joint import Contact, Joint
from model.order_sections import Accuracy, Shop
from model.parameters import Parameters
from model.piece import Piece
from model.pieces import design_names
from model.placement import Placement, place
from tests.model.checks.cases import case, case_with_drawer, frame, mitered
from tests.model.checks.planted import BENCH, BOOKCASE, EXAMPLES, sound
from tests.model.checks.whole_piece import carried, mirrored, shuffled
from tests.model.pieces.orders import orders, pieces_of

CHEST, CUPBOARD, STOOL, TABLE = "refuge-chest", "refuge-cupboard", "refuge-stool", "refuge-table"


def chains(piece, shop=None):
    return list(all_chains(piece, Maker(piece, shop or Shop())))


def cautions(answer):
    return [f for f in answer.findings if f.severity == "caution"]


def coarse(by):
    """A shop so many times less exact than the usual one."""
    usual = Accuracy()
    sizes = ("sawn", "planed", "routed", "drilled", "cnc", "angle", "scribed", "fitted")
    return Shop(accuracy=Accuracy(**{size: by * getattr(usual, size) for size in sizes}))


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_examples_have_a_few_notes_and_no_cautions(name):
    answer = accuracy(sound(name))
    assert {f.severity for f in answer.findings} == {"note"}
    assert len(answer.findings) <= 7
    assert all(p.checked == p.held > 0 for p in answer.proofs)
    assert answer.figures["builds_that_go_together"] >= ENOUGH
    assert answer.figures["builds_that_go_together_by_the_rule"] < ENOUGH


@pytest.mark.parametrize("name", EXAMPLES)
def test_what_is_told_is_what_the_builds_show(name):
    """Built once more, chain by chain: the notes' parts made from the work, all else by the rule."""
    piece = sound(name)
    found = survey(chains(piece))
    marked = {c.name for alike in found.marked for c in alike.chains}
    by_rule = every(together(c) for c in chains(piece))
    from_work = every(together(c.from_the_work if c.name in marked else c) for c in chains(piece))
    assert (share(by_rule), share(from_work)) == (found.by_rule, found.from_work)
    assert found.by_rule < ENOUGH <= found.from_work
    told = {n for f in accuracy(piece).findings for n in f.parts}
    assert told == {c.marked for alike in found.marked for c in alike.chains}


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_is_marked_that_need_not_be(name):
    """With one kind less made from the work, too few builds go together."""
    found = survey(chains(sound(name)))
    left = (*found.marked[-1:], *found.ruled)
    builds = every((*(a.from_work for a in found.marked[:-1]), *(a.by_rule for a in left)))
    assert share(builds) < ENOUGH


@pytest.mark.parametrize("name", design_names())
def test_random_orders_have_loops_that_close_as_drawn_and_few_notes(name):
    for piece in [p for p in pieces_of(orders(name, 6)) if len(p.parts) < 100]:
        found = chains(piece)
        assert len({c.name for c in found}) == len(found)
        for c in found:
            if c.kind in LOOPS and c.kind != ROUND:
                assert sum(link.times * link.size.drawn for link in c.links) == pytest.approx(c.room, abs=1e-3), c
        answer = accuracy(piece)
        assert {f.severity for f in answer.findings} == {"note"}
        assert len(answer.findings) <= 7


def planted(name, first, second, kind=object, **sizes):
    """The example with one joint's cuts in its second part made otherwise; a number is added to what was drawn."""
    piece = copy.copy(sound(name))

    def made(joint):
        if (joint.first, joint.second) != (first, second):
            return joint
        cuts = tuple(
            replace(c, **{what: getattr(c, what) + by for what, by in sizes.items()}) if isinstance(c, kind) else c
            for c in joint.second_cuts
        )
        return replace(joint, second_cuts=cuts)

    piece.joints = [made(j) for j in piece.joints]
    assert piece.joints != sound(name).joints
    return piece


@pytest.mark.parametrize(
    ("name", "first", "second", "kind", "sizes"),
    [
        (BOOKCASE, "shelf 1", "left side", object, {"width": -0.4}),
        (BOOKCASE, "top", "right side", object, {"width": -1.0}),
        (BOOKCASE, "back board 2", "back board 3", EdgeGroove, {"width": -2.0}),
        (BOOKCASE, "back board 4", "back board 5", EdgeGroove, {"depth": -2.2}),
        (BENCH, "seat", "left side", object, {"width": -0.5}),
        (BENCH, "back board 2", "back board 1", EdgeGroove, {"depth": -4.0}),
        (CUPBOARD, "floor", "left side", object, {"width": -2.0}),
        (CUPBOARD, "hanging rail", "right side", Mortise, {"width": -0.6}),
        (TABLE, "stretcher", "left post", Mortise, {"length": -1.0}),
        (STOOL, "second frame", "first frame", Slot, {"width": -0.6}),
    ],
)
def test_a_fit_drawn_too_tight_is_the_one_accused(name, first, second, kind, sizes):
    if name == STOOL:
        first, second = next((j.first, j.second) for j in sound(name).joints if j.kind == "slotted")
    answer = accuracy(planted(name, first, second, kind, **sizes))
    found = cautions(answer)
    assert [set(f.parts) for f in found] == [{first, second}]
    assert found[0].value < ENOUGH
    assert sum(p.checked - p.held for p in answer.proofs) >= 1
    assert not any(f.severity == "fault" for f in answer.findings)


def test_sockets_sawn_too_narrow_for_their_tails():
    piece = copy.copy(sound(CHEST))
    joint = next(j for j in piece.joints if j.kind == "dovetail")
    pins = next(c for c in joint.second_cuts if isinstance(c, Pins))
    x0, _, x1, _ = pins.sockets[0].bounds
    narrow = tuple((x - 1.0 if x > (x0 + x1) / 2.0 else x, y) for x, y in pins.sockets[0].corners)
    sockets = (replace(pins.sockets[0], corners=narrow), *pins.sockets[1:])
    sawn = replace(joint, second_cuts=(replace(pins, sockets=sockets),))
    piece.joints = [sawn if j is joint else j for j in piece.joints]
    assert [set(f.parts) for f in cautions(accuracy(piece))] == [{joint.first, joint.second}]


def test_a_drawer_without_play_is_accused_and_one_with_play_is_not():
    assert cautions(accuracy(case_with_drawer(0.8))) == []
    (found,) = cautions(accuracy(case_with_drawer(0.0)))
    assert found.message.startswith("play in the opening")
    assert {"drawer front", "left side", "right side"} <= set(found.parts)
    (found,) = cautions(accuracy(case_with_drawer(0.8, top_play=0.0)))
    assert {"shelf 1", "shelf 2"} <= set(found.parts)
    assert "left side" not in found.parts


def test_a_little_too_little_play_is_planed_and_said_so():
    answer = accuracy(case_with_drawer(0.25))
    assert cautions(answer) == []
    note = next(f for f in answer.findings if "plane to its opening" in f.message)
    assert set(note.parts) <= {"drawer front", "left drawer side", "right drawer side"}


def test_a_saw_off_by_millimetres_has_lengths_marked_from_the_work():
    """The dado loops of the usual shop are left to its stop; this one's are not."""
    piece = case(4)
    usual, worse = (accuracy(piece, Shop(accuracy=Accuracy(sawn=sawn))) for sawn in (0.5, 3.0))
    assert not any("room left" in f.message for f in usual.findings)
    note = next(f for f in worse.findings if "room left" in f.message)
    shelves = {"shelf 2", "shelf 3", "shelf 4"}
    assert shelves <= set(note.parts) <= shelves | {"right side"}, "the first is cut by the rule, the rest by it"
    assert cautions(worse) == []


def test_twelve_shelves_in_tight_dados_are_all_planed_to_them():
    answer = accuracy(case(12))
    assert answer.figures["builds_that_go_together_by_the_rule"] < 35.0
    assert answer.figures["builds_that_go_together"] >= ENOUGH
    note = next(f for f in answer.findings if "plane to its groove" in f.message)
    assert set(note.parts) == {f"shelf {n}" for n in range(1, 13)}
    assert cautions(answer) == []


def test_one_cutter_for_all_dados_spares_most_of_the_bad_builds():
    """24 dados by one setting fail together; if each were set anew, hardly a build would have all 24 right."""
    one, each = (
        accuracy(case(12), Shop(accuracy=Accuracy(again_pct=again))).figures["builds_that_go_together_by_the_rule"]
        for again in (10, 100)
    )
    assert float(one) > 10.0 * float(each)


def test_a_knife_that_strays_can_not_close_a_frame():
    shop = Shop(accuracy=Accuracy(scribed=2.0, sawn=2.0))
    found = cautions(accuracy(frame(), shop))
    assert found
    assert all("closed loop" in f.message for f in found)


def test_a_miter_saw_out_of_angle_opens_every_miter_twice_as_far():
    fine, off = (accuracy(mitered(), Shop(accuracy=Accuracy(angle=angle))) for angle in (0.03, 0.5))
    assert not any("shooting board" in f.message for f in fine.findings)
    note = next(f for f in off.findings if "shooting board" in f.message)
    assert set(note.parts) == {"bottom", "right", "top", "left"}


def test_what_the_cnc_cuts_is_left_to_it():
    by_saw, by_cnc = (accuracy(sound(STOOL), shop) for shop in (Shop(), Shop(bandsaw_throat=0, jigsaw_depth=0)))
    rule = "builds_that_go_together_by_the_rule"
    assert float(by_cnc.figures[rule]) > 5.0 * float(by_saw.figures[rule])


def test_a_finer_shop_leaves_everything_to_the_rule():
    answer = accuracy(sound(BOOKCASE), coarse(0.1))
    assert [f.parts for f in answer.findings] == [()]
    assert answer.figures["builds_that_go_together_by_the_rule"] >= ENOUGH


@pytest.mark.parametrize("name", [BOOKCASE, CUPBOARD, STOOL])
def test_more_accuracy_never_lowers_the_share(name):
    shares = [survey(chains(sound(name), coarse(by))).by_rule for by in (2.0, 1.0, 0.5, 0.25, 0.1)]
    assert shares == sorted(shares)
    assert shares[-1] > shares[0]


@pytest.mark.parametrize("name", [BOOKCASE, CUPBOARD, TABLE])
def test_neither_order_nor_place_nor_hand_changes_anything(name):
    piece = sound(name)
    c, s = math.cos(0.7), math.sin(0.7)
    turned = carried(piece, Placement((300.0, -20.0, 7.0), (c, s, 0.0), (-s, c, 0.0)))
    here = accuracy(piece)
    assert here == accuracy(piece)
    assert here == accuracy(shuffled(piece, 3))
    assert here == accuracy(turned)
    assert said(here) == said(accuracy(mirrored(piece)))


def said(answer):
    return [(f.severity, f.parts, f.message, f.value) for f in answer.findings]


def test_a_part_given_as_a_solid_has_no_sizes_to_ask():
    piece = case(3)
    alone = accuracy(piece)
    stone = piece.given("stone", cq.Workplane().box(50, 50, 50), place((300.0, 100.0, 400.0)))
    piece.slide(stone, (0.0, -1.0, 0.0), 100.0)
    lies = Contact(((300.0, 100.0, 375.0),), (0.0, 0.0, 1.0))
    piece.join(Joint("rest", "stone", "shelf 1", (0.0, 0.0, -1.0), (lies,)))
    assert accuracy(piece) == alone


def test_a_piece_without_fits_has_nothing_to_say():
    assert accuracy(Piece("nothing", Parameters())) == Answer()


def test_figures_name_the_worst_chain():
    figures = accuracy(sound(BOOKCASE)).figures
    assert figures["worst_chain"] == "dado of bottom and left side"
    assert 0.0 < float(figures["worst_chain_goes_together"]) < 60.0
