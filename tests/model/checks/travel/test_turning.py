"""Turning solids against the plane geometry of a rectangle: where its corner goes, and what is left beside it."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from model.checks.travel.turning import Skin, first_stop, least_gap, pin_frame

CORNERS = np.array([(x, y, z) for x in (0, 1) for y in (0, 1) for z in (0, 1)], dtype=float)
SIDES = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
TRIANGLES = [t for a, b, c, d in SIDES for t in ((a, b, c), (a, c, d))]


def block(low, high):
    corners = np.array(low) + CORNERS * (np.array(high) - np.array(low))
    return Skin(np.array([[corners[n] for n in t] for t in TRIANGLES]), np.zeros(12))


def channel(width):
    """Two walls either side of the pin, long and high."""
    half = width / 2.0
    return [block((half, -900, -50), (half + 20, 900, 50)), block((-half - 20, -900, -50), (-half, 900, 50))]


@given(st.floats(20, 300), st.floats(10, 120), st.floats(-30, 30))
def test_a_rectangle_turns_in_a_channel_wider_than_its_diagonal(length, across, room):
    radius = math.hypot(length, across) / 2.0
    assume(abs(room) > 0.05 and 2.0 * radius + room > max(across, 1.0) + 0.1)
    lies = block((-across / 2, -length / 2, -10), (across / 2, length / 2, 10))
    walls = channel(2.0 * radius + room)
    stops = [s for w in walls if (s := first_stop(lies, w, math.pi)) is not None]
    if room > 0.0:
        assert stops == []
        return
    # its corner stands at `lean` from the wall's normal when it starts, and comes to the wall at acos(half / radius)
    lean = math.pi / 2.0 - math.atan2(across, length)
    half = radius + room / 2.0 + 0.005
    expected = lean - math.acos(min(half / radius, 1.0))
    assert min(s.angle for s in stops) == pytest.approx(
        expected, abs=0.02 / max(1.0, radius * math.sin(lean - expected))
    )


@given(st.floats(20, 300), st.floats(10, 120), st.floats(0.1, 40), st.floats(0, 180))
def test_the_gap_beside_a_turning_corner(length, across, room, degrees):
    radius = math.hypot(length, across) / 2.0
    lies = block((-across / 2, -length / 2, -10), (across / 2, length / 2, 10))
    right, _ = channel(2.0 * radius + room)
    angle = math.radians(degrees)
    reach = abs(math.cos(angle)) * across / 2 + abs(math.sin(angle)) * length / 2
    assert least_gap(lies, right, angle, 1000.0) == pytest.approx(radius + room / 2 - reach, abs=1e-6)


@pytest.mark.parametrize(("out", "turns"), [(2.0, True), (-2.0, False)])
def test_a_leaf_turns_when_its_pin_stands_clear_of_the_gap(out, turns):
    """A leaf 20 thick, 1 mm off a post: its inner corner clears the post only if the pin stands out past the faces."""
    leaf, post = block((0.5, -20 - out, -300), (400, -out, 300)), block((-60, -20 - out, -300), (-0.5, -out, 300))
    stop = first_stop(leaf, post, math.radians(90))
    assert (stop is None) == turns


def test_what_rests_when_shut_is_no_stop_and_what_lies_behind_the_pin_is():
    lid, rest = block((0, -300, 0), (500, 0, 20)), block((0, -280, -20), (500, -200, 0))
    frame = pin_frame((0, 0, 21), (-1, 0, 0))

    def seen(skin):
        rows = np.array([frame.x, frame.y, frame.z])
        return Skin((skin.corners - frame.origin) @ rows.T, skin.stray)

    assert first_stop(seen(lid), seen(rest), math.radians(95)) is None
    behind = block((0, 0, -20), (500, 40, 20))
    assert first_stop(seen(lid), seen(behind), math.radians(95)) is None
    under = block((0, -15, -20), (500, 40, 0))
    frame = pin_frame((0, -10, 21), (-1, 0, 0))
    assert first_stop(seen(lid), seen(under), math.radians(95)).angle < math.radians(1)


@given(st.floats(0, 6.28), st.floats(-200, 200), st.floats(-200, 200), st.floats(-80, 80))
def test_a_stop_depends_on_no_frame(turn, x, y, z):
    leaf, post = block((0.5, -20, -300), (400, 0, 300)), block((-60, 30, -250), (-10, 300, 280))
    still = first_stop(leaf, post, 3.0)
    c, s = math.cos(turn), math.sin(turn)
    about = np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]])
    turned = [Skin(k.corners @ about + (0, 0, z), k.stray) for k in (leaf, post)]
    assert first_stop(*turned, 3.0).angle == pytest.approx(still.angle, abs=1e-5)
