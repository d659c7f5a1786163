"""The cutting files as another program reads them: GDAL's DXF driver, by way of fiona, which did not write them.

GDAL breaks arcs into chords. A step of 0.1 degrees (its option OGR_ARC_STEPSIZE) leaves out a share (0.1 deg)^2 / 6 =
5e-7 of an arc's sector, which for long arcs is many times the part: 0.01 % of the part is asked for.
"""

import fiona
import pytest
from shapely.geometry import Polygon, shape

from drawings.cutting.files import cut_from_stock, write_cutting
from drawings.cutting.layers import OUTLINE, traces

ARC_AREA = 1e-4


@pytest.fixture(scope="module", params=["bench", "bookcase"])
def read(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> list[tuple]:
    """For each file: the part, and GDAL's (layer, geometry) of every entity."""
    folder = tmp_path_factory.mktemp("cutting")
    piece = request.getfixturevalue(request.param)
    write_cutting(piece, folder)
    found = []
    for file, (_, part) in cut_from_stock(piece).items():
        with fiona.Env(OGR_ARC_STEPSIZE="0.1"), fiona.open(folder / file) as entities:
            found.append((part, [(e.properties["Layer"], shape(e.geometry)) for e in entities]))
    return found


def test_layers_and_counts_are_those_of_the_cuts(read):
    for part, entities in read:
        assert sorted(layer for layer, _ in entities) == sorted(t.layer for t in traces(part))


def test_every_shape_is_a_closed_ring_that_does_not_cross_itself(read):
    for _, entities in read:
        for _, ring in entities:
            assert ring.is_closed
            assert Polygon(ring.coords).is_valid


def test_outlines_have_the_area_of_the_part_and_lie_at_its_place_in_mm(read):
    for part, entities in read:
        wanted = next(t for t in traces(part) if t.layer == OUTLINE).outline
        ring = next(geometry for layer, geometry in entities if layer == OUTLINE)

        assert Polygon(ring.coords).area == pytest.approx(wanted.area, rel=ARC_AREA)
        assert ring.bounds == pytest.approx(wanted.bounds, abs=0.01), "crowns of arcs fall between chords"
        assert ring.bounds[2] - ring.bounds[0] == pytest.approx(part.stock.length, abs=1e-5)


def test_pockets_and_holes_have_their_areas_layer_by_layer(read):
    for part, entities in read:
        for layer in {t.layer for t in traces(part)}:
            wanted = sum(t.outline.area for t in traces(part) if t.layer == layer)
            found = sum(Polygon(ring.coords).area for name, ring in entities if name == layer)

            assert found == pytest.approx(wanted, rel=ARC_AREA), layer
