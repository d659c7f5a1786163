"""A piece seen at every stage of its growing is seen as if each stage stood alone."""

import cadquery as cq
import pytest
from shapely import LineString, union_all

from drawings.views.curves import FRONT, PICTORIAL, Segment
from drawings.views.growing import project_growing
from drawings.views.project import project_views


def block(x, y, z, *size):
    return cq.Workplane().box(*size, centered=False).translate((x, y, z)).val()


#: Two posts, a rail let into both, a board before them all, and a block that none of the others hides.
POSTS = [block(x, 0, 0, 40, 40, 300).cut(block(x + (20 if x == 0 else 0), 10, 200, 20, 20, 50)) for x in (0.0, 260.0)]
BATCHES = [
    POSTS,
    [block(20, 10, 200, 260, 20, 50)],
    [block(-20, -20, 100, 340, 20, 60)],
    [block(400, 0, 0, 30, 30, 30)],
]


def lines(view):
    return union_all([LineString([c.p, c.q]) for c in view.visible if isinstance(c, Segment)])


@pytest.mark.parametrize("spec", [FRONT, PICTORIAL], ids=lambda spec: spec.name)
def test_every_stage_is_what_a_pass_of_its_own_shows(spec):
    grown = project_growing(BATCHES, spec)
    assert sorted(grown) == [0, 1, 2, 3]
    for n, stage in grown.items():
        alone = lines(project_views([shape for batch in BATCHES[: n + 1] for shape in batch], [spec])[spec.name])
        together = lines(stage.there).union(lines(stage.new))
        assert together.difference(alone.buffer(1e-3)).length < 0.01
        assert alone.difference(together.buffer(1e-3)).length < 0.01


def test_only_the_stages_asked_for_are_shown():
    assert list(project_growing(BATCHES, FRONT, [2])) == [2]


def test_what_is_added_hides_what_stood_there():
    grown = project_growing(BATCHES, FRONT)
    assert lines(grown[2].there).length < lines(grown[1].there).length + lines(grown[1].new).length - 100.0
    assert lines(grown[3].there).length == pytest.approx(lines(grown[2].there).length + lines(grown[2].new).length)
