"""Answers kept between runs: asked once, never stale, never trusted when damaged, and of no effect on what is said."""

import json
import multiprocessing
import sqlite3
from dataclasses import dataclass

import cadquery as cq
import pytest

from model.checks import dry_fit as dry_fit_module
from model.checks.closing import closing
from model.checks.dry_fit import dry_fit
from model.checks.finding import Answer
from model.checks.memory import remembered as module
from model.checks.memory.digest import digest
from model.checks.memory.remembered import FILE, folder, keep_all, remembered
from model.checks.memory.solid_digest import key_of
from model.checks.overlap import overlap
from model.checks.solids import pairs as pairs_module
from model.checks.solids.pairs import forget_pairs
from model.checks.solids.stood_solid import stood_solids
from model.checks.travel import ways as ways_module
from model.checks.travel.closing_order import Build
from model.checks.travel.ways import Ways, forget_ways
from model.cuts.faces import Bore
from model.order import read_order
from model.order_sections import Shop
from model.pieces import design
from model.placement import place
from tests.model.checks.planted import BOOKCASE, longer, moved, shapes, sound


@pytest.fixture
def store(tmp_path, monkeypatch):
    monkeypatch.setenv("DRYFIT_CACHE", str(tmp_path / "kept"))
    return tmp_path / "kept" / FILE


def ask(keys, log=None):
    """Doubles of the keys' lengths, and which were asked."""
    log = [] if log is None else log

    def work(numbers):
        log.extend(numbers)
        return [2 * len(keys[n] or "") for n in numbers]

    return remembered(keys, work, int, int), log


def test_what_was_answered_is_not_asked_again(store):
    assert ask(["a", "bb", None]) == ([2, 4, 0], [0, 1, 2])
    assert ask(["bb", "ccc", "a", None]) == ([4, 6, 2, 0], [1, 3])


def test_set_empty_it_keeps_nothing(tmp_path, monkeypatch):
    monkeypatch.setenv("DRYFIT_CACHE", "")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    assert ask(["a"])[1] == ask(["a"])[1] == [0]
    assert list(tmp_path.iterdir()) == []


def test_left_unset_it_is_the_users_own_cache(tmp_path, monkeypatch):
    monkeypatch.delenv("DRYFIT_CACHE")
    monkeypatch.setattr(module.sys, "platform", "linux")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    assert folder() == tmp_path / "dryfit"
    monkeypatch.setattr(module.sys, "platform", "win32")
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path / "local"))
    assert folder() == tmp_path / "local" / "dryfit"


@pytest.mark.parametrize("spoilt", [b"", b"not a database at all" * 100, b"SQLite format 3\0" + b"\xff" * 5000])
def test_a_spoilt_file_only_costs_time(store, spoilt):
    store.parent.mkdir()
    store.write_bytes(spoilt)
    assert ask(["a", "bb"]) == ([2, 4], [0, 1])
    assert ask(["a", "bb"])[0] == [2, 4]


def test_half_a_file_only_costs_time(store):
    ask([f"{n:064}" for n in range(400)])
    whole = store.read_bytes()
    store.write_bytes(whole[: len(whole) // 2])
    keys = [f"{n:064}" for n in range(400)]
    assert ask(keys)[0] == [128] * 400


def test_another_programs_file_is_left_alone(store):
    store.parent.mkdir()
    with sqlite3.connect(store) as file:
        file.execute("CREATE TABLE recipes (soup TEXT)")
    file.close()
    before = store.read_bytes()
    assert ask(["a"]) == ([2], [0])
    assert store.read_bytes() == before


@pytest.mark.parametrize(
    "change", ["SET answer = '7'", "SET answer = 'x'", "SET seal = NULL", "SET answer = x'00ff'", "SET key = 'bb'"]
)
def test_a_changed_row_is_not_believed(store, change):
    ask(["a"])
    with sqlite3.connect(store) as file:
        file.execute(f"UPDATE answers {change}")
    file.close()
    assert ask(["a", "bb"])[0] == [2, 4]


def test_an_answer_that_can_not_be_read_is_asked_again(store):
    remembered(["a"], lambda _: ["soup"], str, str)
    assert ask(["a"]) == ([2], [0])


def test_it_does_not_grow_without_end(store, monkeypatch):
    monkeypatch.setattr(module, "MOST_KEPT", 50)
    for n in range(20):
        ask([f"{n} {m}" for m in range(10)])
    with sqlite3.connect(store) as file:
        (count,) = file.execute("SELECT count(*) FROM answers").fetchone()
    file.close()
    assert 40 <= count <= 50
    assert ask(["19 9", "0 0"])[1] == [1]


def _asks_for_itself(path, start):
    import os

    os.environ["DRYFIT_CACHE"] = path
    for n in range(20):
        assert ask([f"{start + n}", f"shared {n}"])[0] == [2 * len(str(start + n)), 2 * len(f"shared {n}")]


def test_two_processes_at_once(store):
    context = multiprocessing.get_context("fork")
    running = [context.Process(target=_asks_for_itself, args=(str(store.parent), s)) for s in (100, 500)]
    for process in running:
        process.start()
    for process in running:
        process.join()
    assert [p.exitcode for p in running] == [0, 0]
    assert ask(["100", "519", "shared 7"])[1] == []


@dataclass(frozen=True)
class OutsidesOwn:
    across: float


def test_a_digest_tells_all_apart():
    bores = [Bore(0.0, 0.0, across, 5.0) for across in (6.0, 6.0 + 1e-15)]
    values = [1, 1.0, True, "1", (1,), [1], ((1,), 2), (1, (2,)), *bores, place(), None, {"a": 1}, {"a": 1.0}]
    assert len({digest(v) for v in values}) == len(values)
    assert digest(1, 2) != digest((1, 2))
    assert digest(Bore(0.0, 0.0, 6.0, 5.0)) == digest(Bore(0.0, 0.0, 6.0, 5.0))


@pytest.mark.parametrize("unknown", [OutsidesOwn(1.0), {1, 2}, object(), len])
def test_what_it_can_not_vouch_for_has_no_digest(unknown):
    with pytest.raises(TypeError, match="no digest"):
        digest((1, unknown))


def test_every_part_of_the_examples_has_a_key_and_equal_ones_the_same():
    solids = {s.name: s for s in stood_solids(shapes(sound(BOOKCASE)))}
    keys = {name: key_of("what", [s]) for name, s in solids.items()}
    assert None not in keys.values()
    assert keys["shelf 1"] == keys["shelf 2"]
    assert len(set(keys.values())) == len({s.geometry for s in solids.values()})


def test_a_given_solid_is_told_by_its_shape():
    one, same, other = (stood_solids({"box": cq.Workplane().box(10, 10, size).val()})[0] for size in (5, 5, 5.000001))
    assert key_of("what", [one]) == key_of("what", [same]) != key_of("what", [other])


@pytest.fixture
def looked_at(monkeypatch):
    """Pairs that were really worked out."""
    log = []
    usual = pairs_module._shared

    def counted(pair):
        log.append({pair.first.name, pair.second.name})
        return usual(pair)

    monkeypatch.setattr(pairs_module, "_shared", counted)
    monkeypatch.setattr(pairs_module, "WORTH_SHARING", 10_000)
    return log


def told(piece):
    """The answer of a new run."""
    forget_pairs()
    answer = overlap(piece, shapes(piece))
    return json.dumps([f.as_dict() for f in answer.findings] + [vars(p) for p in answer.proofs])


def test_a_second_run_asks_nothing_and_says_the_same(store, looked_at, monkeypatch):
    piece = moved(sound(BOOKCASE), "shelf 2", 0.5, 0.0, 0.5)
    first = told(piece)
    asked = len(looked_at)
    assert asked > 10
    assert told(piece) == first
    assert len(looked_at) == asked
    monkeypatch.setenv("DRYFIT_CACHE", "")
    assert told(piece) == first
    assert len(looked_at) == 2 * asked


def test_a_part_changed_asks_only_about_its_own_pairs(store, looked_at):
    told(sound(BOOKCASE))
    looked_at.clear()
    told(moved(sound(BOOKCASE), "shelf 2", 0.0, 0.0, 0.5))
    assert looked_at
    assert all("shelf 2" in pair for pair in looked_at)
    looked_at.clear()
    assert '"severity": "fault"' in told(longer(sound(BOOKCASE), "shelf 1", 0.5))
    assert looked_at
    assert all("shelf 1" in pair for pair in looked_at)


def test_a_parameter_changed_asks_only_what_it_changes(store, looked_at):
    def made(**size):
        order = read_order(BOOKCASE)
        order.size.update(size)
        drawn = design(order.piece)
        return drawn.make(order.parameters(drawn.parameters))

    told(made())
    before = len(looked_at)
    looked_at.clear()
    told(made(shelves=4))
    between = len(looked_at)
    assert 0 < between < before  # the back boards and the plinth stand as they stood
    looked_at.clear()
    told(made(shelves=4))
    told(made())
    assert looked_at == []


def test_another_line_of_code_is_another_key(monkeypatch):
    before = digest("what", 1)
    monkeypatch.setattr("model.checks.memory.digest.foundation", lambda: "other")
    assert digest("what", 1) != before


def test_a_wider_fault_is_not_taken_for_a_narrower(store):
    piece = sound(BOOKCASE)
    depths = []
    for by in (0.5, 0.7, 0.5):
        forget_pairs()
        other = longer(piece, "shelf 1", by)
        depths.append(overlap(other, shapes(other)).findings[0].value)
    assert depths == [pytest.approx(d, abs=1e-3) for d in (0.5, 0.7, 0.5)]


@pytest.mark.parametrize("example", ["refuge-stool", "refuge-bookcase"])
def test_the_whole_dry_fit_says_the_same_whether_it_remembers_or_not(example, store, monkeypatch):
    def said():
        forget_pairs()
        forget_ways()
        answer = dry_fit(piece, stood)
        return json.dumps([[f.as_dict() for f in answer.findings], [vars(p) for p in answer.proofs], answer.figures])

    piece = sound(example)
    stood = shapes(piece)
    first = said()
    asked = []
    monkeypatch.setattr(dry_fit_module, "contact", lambda *_: asked.append("contact"))
    monkeypatch.setattr(dry_fit_module, "closing", lambda *_: asked.append("closing"))
    assert said() == first
    assert asked == []
    monkeypatch.undo()
    monkeypatch.setenv("DRYFIT_CACHE", "")
    assert said() == first


def test_another_shop_is_asked_anew(store, monkeypatch):
    piece = sound("refuge-stool")
    stood = shapes(piece)
    dry_fit(piece, stood)
    asked = []
    monkeypatch.setattr(dry_fit_module, "shop_can", lambda *_: asked.append("shop") or Answer())
    dry_fit(piece, stood)
    assert asked == []
    dry_fit(piece, stood, shop=Shop(least_wood=4.0))
    assert asked == ["shop"]


def test_ways_home_are_remembered(store, monkeypatch):
    piece = sound(BOOKCASE)
    stood = shapes(piece)
    forget_ways()
    first = closing(Build(piece, Ways(stood)))
    keep_all()
    forget_ways()
    monkeypatch.setattr(ways_module, "_asked", lambda *_: pytest.fail("asked again"))
    assert closing(Build(piece, Ways(stood))) == first
