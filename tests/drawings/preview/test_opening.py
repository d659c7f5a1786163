"""What opens in the preview: each lid, door and drawer once, with all that goes along."""

import math

import pytest

from drawings.preview.opening import openings
from drawings.preview.scene import scene
from tests.model.checks.planted import sound


@pytest.mark.parametrize(("example", "count"), [("bench", 1), ("chest", 1), ("cupboard", 2), ("bookcase", 0)])
def test_every_part_that_opens_is_one_of_the_scene(example, count):
    piece = sound(f"refuge-{example}")
    found = openings(piece)
    names = {mesh.name for mesh in scene(piece)}
    assert len(found) == count
    for opening in found:
        assert set(opening["parts"]) <= names
        assert math.hypot(*opening["along"]) == pytest.approx(1.0)
        assert opening["opens"] > 0.0


def test_a_door_takes_its_frame_panel_and_knob_along_but_not_the_case():
    door, drawer = openings(sound("refuge-cupboard"))
    assert {"pin"} == set(door) - set(drawer)
    assert any("panel" in name for name in door["parts"])
    assert any("knob" in name for name in door["parts"])
    assert not any("side" in name and "drawer" not in name for name in (*door["parts"], *drawer["parts"]))
