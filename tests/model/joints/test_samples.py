"""The samples show the whole vocabulary, each sample a joint that fits."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Callable, Iterator
from typing import Any

import pytest

import model.joints
from model.cuts.cut import Cut
from model.joints.samples import Sample, caption, samples
from model.placement import dot
from model.solids import placed, solid

#: Joints that make no cut and need no picture, and what joins only as part of another that is shown.
NOT_SHOWN = {"rests", "rests_at", "glued", "panel_in_frame", "first_tail"}

ALL = {s.name: s for s in samples()}


def joining() -> Iterator[tuple[str, Callable[..., Any]]]:
    """Every public function of the joints' modules that gives a joint."""
    for found in pkgutil.iter_modules(model.joints.__path__):
        module = importlib.import_module(f"model.joints.{found.name}")
        for name, f in inspect.getmembers(module, inspect.isfunction):
            public = f.__module__ == module.__name__ and not name.startswith("_")
            if public and str(f.__annotations__.get("return")) in ("Joint", "Hinged", "tuple[Joint, ...]"):
                yield name, f


def test_every_joint_is_shown() -> None:
    shown = {s.caption for s in ALL.values()}

    assert [name for name, f in joining() if name not in NOT_SHOWN and caption(f) not in shown] == []


def test_names_are_their_own_and_captions_can_be_said() -> None:
    assert len(ALL) == len(samples()) > 35
    for sample in ALL.values():
        assert sample.caption[0].isupper()
        assert "`" not in sample.caption
        assert " the the " not in sample.caption


def test_every_joint_names_a_source() -> None:
    assert all(len(s.source) > 20 for s in ALL.values())


@pytest.mark.parametrize("sample", ALL.values(), ids=lambda s: s.name)
def test_a_sample_fits(sample: Sample, shared_volume: Any, distance: Any) -> None:
    shapes = {p.name: placed(solid(p.part), p.at) for p in sample.parts}
    names = list(shapes)

    for n, a in enumerate(names):
        assert shapes[a].isValid()
        for b in names[n + 1 :]:
            assert shared_volume(shapes[a], shapes[b]) < 1.0, (a, b)
    for joint in sample.joints:
        for contact in joint.contacts:
            for p in contact.points:
                assert max(distance(shapes[part], p) for part in (joint.first, joint.second)) < contact.gap + 0.06


def test_parts_are_drawn_back_the_way_they_came() -> None:
    for sample in ALL.values():
        if len(sample.joints) > 1:
            continue
        (joint,) = sample.joints
        moved = {p.name: way for p, way in zip(sample.parts, sample.back, strict=True)}
        assert dot(moved[joint.first], joint.closes) <= 1e-9, sample.name


def test_the_samples_hold_most_kinds_of_cut() -> None:
    kinds = {type(c) for s in ALL.values() for p in s.parts for c in p.wood.cuts}

    assert len(kinds) > 20
    assert all(issubclass(k, Cut) for k in kinds)
