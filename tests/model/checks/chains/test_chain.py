"""Chains and their builds against closed forms: the normal law, sums of shared errors, two fits of one setting."""

import math
from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.checks.chains.builds import BUILDS, every, rooms, share, together
from model.checks.chains.chain import (
    CLOSED,
    EASE,
    EASED,
    GOES_IN,
    OPEN,
    SLIDES,
    Chain,
    Link,
    Remedy,
    Size,
    Window,
    held,
)

lengths = st.floats(0.01, 2.0)


def own(name, off):
    """A size that is set for it alone."""
    return Size(name, name, off, off)


def chain(links, room=0.0, window=GOES_IN, off=0.05):
    return Chain("fit", ("a", "b"), room, tuple(links), window, Remedy("plane it", off), "a")


def within(share_of_100):
    """Four standard deviations of a share counted in so many builds, in 100."""
    p = share_of_100 / 100.0
    return 400.0 * math.sqrt(p * (1.0 - p) / BUILDS) + 0.05


@pytest.mark.parametrize("offs", [(0.2,), (0.2, 0.5), (0.1, 0.2, 0.3, 0.4)])
@pytest.mark.parametrize("room", [0.0, 0.15, 0.4])
@pytest.mark.parametrize("window", [GOES_IN, SLIDES, CLOSED, Window(-0.3, 0.1), Window(most=0.25)])
def test_builds_follow_the_normal_law_of_a_linear_chain(offs, room, window):
    made = chain([Link(own(f"{n} of {len(offs)}", off), -1.0) for n, off in enumerate(offs)], room, window)
    law = NormalDist(room, math.sqrt(sum((off / 2.0) ** 2 for off in offs)))
    expected = 100.0 * (law.cdf(window.most) - law.cdf(window.least))
    assert made.spread == pytest.approx(law.stdev)
    assert made.share == pytest.approx(expected, abs=1e-9)
    assert rooms(made).std() == pytest.approx(law.stdev, rel=0.04)
    assert share(together(made)) == pytest.approx(expected, abs=within(expected))


@pytest.mark.parametrize("again", [0.0, 0.1, 0.3, 0.5])
@pytest.mark.parametrize("signs", [(1.0, 1.0), (1.0, -1.0), (1.0, 1.0, 1.0, -1.0), (2.0, -1.0, 0.5)])
def test_sizes_of_one_setting_err_together(again, signs):
    """Var = (sum of times x setting)^2 + sum of (times x scatter)^2; one size has the accuracy stated."""
    sizes = [Size(f"cut {n} again {again}", f"fence again {again}", 0.5, again) for n in range(len(signs))]
    scatter, setting = again / 2.0, math.sqrt(0.5**2 - again**2) / 2.0
    expected = math.hypot(sum(signs) * setting, *(s * scatter for s in signs))
    made = chain(Link(size, sign) for size, sign in zip(sizes, signs, strict=True))
    assert made.spread == pytest.approx(expected)
    assert rooms(made).std() == pytest.approx(expected, rel=0.04, abs=1e-6)
    assert chain([Link(sizes[0])]).spread == pytest.approx(0.25)


@pytest.mark.parametrize("again", [0.1, 0.25, 0.4])
def test_two_fits_of_one_setting_go_together_more_often_than_by_chance(again):
    """Both above their mean: 1/4 + asin(correlation) / 2 pi (Sheppard 1899)."""
    one, other = (
        chain([Link(Size(f"groove {n}, {again}", f"cutter {again}", 0.5, again))], window=SLIDES) for n in (1, 2)
    )
    correlation = 1.0 - (again / 0.5) ** 2
    expected = 100.0 * (0.25 + math.asin(correlation) / (2.0 * math.pi))
    both = share(every((together(one), together(other))))
    assert both == pytest.approx(expected, abs=within(expected))
    assert both > 25.0 + within(25.0)


def test_a_size_shared_with_itself_cancels():
    size = Size("one", "fence", 0.5, 0.1)
    made = chain([Link(size), Link(size, -1.0)], 0.3)
    assert made.spread == 0.0
    assert made.share == 100.0
    assert np.ptp(rooms(made)) == 0.0


def test_the_same_name_errs_alike_whatever_else_is_built():
    made = chain([Link(own("groove", 0.2)), Link(own("board", 0.3), -1.0)], 0.1)
    before = rooms(made)
    together(chain([Link(own("other", 0.2))], 0.1, CLOSED))
    assert np.array_equal(before, rooms(made))


def test_names_err_apart():
    """A thousand pairs: correlations scatter as those of independent errors do, by 1 / root of the builds."""
    errors = np.array([rooms(chain([Link(own(f"size {n}", 2.0))])) for n in range(46)])
    found = np.corrcoef(errors)[np.triu_indices(len(errors), 1)]
    assert found.std() == pytest.approx(1.0 / math.sqrt(BUILDS), rel=0.1)
    assert abs(found).max() < 5.0 / math.sqrt(BUILDS)
    assert errors.std() == pytest.approx(1.0, rel=0.01)
    assert abs(errors.mean(axis=1)).max() < 5.0 / math.sqrt(BUILDS)


@given(st.lists(lengths, min_size=1, max_size=5), st.floats(-1.0, 1.0), st.floats(0.05, 0.95))
def test_more_accuracy_never_lowers_a_share_that_was_drawn_to_fit(offs, place, finer):
    window = Window(-0.4, 0.4)
    coarse = chain([Link(own(f"{n}", off)) for n, off in enumerate(offs)], 0.4 * place, window)
    fine = chain([Link(own(f"{n}", finer * off)) for n, off in enumerate(offs)], 0.4 * place, window)
    assert fine.share >= coarse.share - 1e-9


@given(st.floats(-1.0, 1.0), lengths, st.sampled_from([GOES_IN, SLIDES, CLOSED, held(True, 0.0), Window(0.4)]))
def test_from_the_work_only_a_few_shavings_are_taken_off(room, off, window):
    made = chain([Link(own("groove", 0.5))], room, window, off)
    work = made.from_the_work
    assert abs(work.room - room) <= EASED + 1e-12
    assert work.spread == pytest.approx(off / 2.0)
    if window.least + 2.0 * off <= room <= window.most - 2.0 * off:
        assert work.room == room


def test_a_tight_fit_goes_together_from_the_work_and_one_drawn_wrong_does_not():
    tight, wrong = (chain([Link(own("groove", 0.2))], room, held(True, room)) for room in (0.0, -0.5))
    assert tight.share < 80.0 < 99.0 < tight.from_the_work.share
    assert wrong.from_the_work.share < 1.0


@pytest.mark.parametrize("room", [-0.1, 0.0, 0.1, 0.4])
def test_glue_fills_what_is_drawn_and_a_little_more(room):
    assert held(True, room) == Window(-EASE, max(room, 0.0) + OPEN)
    assert held(False, room) == SLIDES


def test_what_is_certain_is_never_seen_to_fail():
    sure = chain([Link(own("depth", 0.2))], 0.8)
    assert sure.certain
    assert (rooms(sure) >= sure.window.least).all()
    assert not chain([Link(own("depth", 0.2))], 0.4).certain
