"""The wood where a plane cuts a part, worked out from its cuts, against the kernel's own section of the solid."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import cadquery as cq
import pytest

from drawings.lists.distinct import distinct_parts
from drawings.parts.cross_section import CrossSection, Cutting
from model.cuts.edges import EdgeCut
from model.cuts.legs import Station, Turned
from model.part import Part
from model.solids import solid
from model.stock import board
from tests.conftest import made

#: Level directions, and where across the part's reach the plane stands.
PLANES = [((1.0, 0.0, 0.0), 0.31), ((0.0, 1.0, 0.0), 0.013), ((0.0, 1.0, 0.0), 0.47), ((0.6, 0.8, 0.0), 0.5)]


def kernel_area(shape: Any, cutting: Cutting) -> float:
    origin = tuple(v * cutting.at for v in cutting.toward)
    plane = cq.Plane(origin=origin, xDir=cutting.right, normal=cutting.toward)
    face = cq.Face.makeFromWires(cq.Workplane(plane).rect(9000, 9000).vals()[0])
    return float(face.intersect(shape.copy()).Area())


def cutting(part: Part, right: tuple[float, float, float], share: float) -> Cutting:
    toward = (right[1], -right[0])
    low, high = -part.outline.extent((-toward[0], -toward[1]))[1], part.outline.extent(toward)[1]
    return Cutting(right, low + share * (high - low))


def sharp(part: Part) -> Part:
    """Without what is too small to be shown: arrises eased round arcs."""
    cuts = (c for c in part.cuts if not (isinstance(c, EdgeCut) and type(c).__name__ == "Ease"))
    return replace(part, bend=None, cuts=tuple(cuts))


@pytest.mark.parametrize("example", ["table", "cupboard", "chest", "stool"])
def test_it_has_the_area_of_the_solids_section(example: str) -> None:
    for kind in (k for k in distinct_parts(made(f"refuge-{example}")) if k.wood and not k.mirror_of):
        part = sharp(kind.wood)
        shape = solid(part)
        for right, share in PLANES:
            at = cutting(part, right, share)
            area = CrossSection(part, at).wood.area
            assert area == pytest.approx(kernel_area(shape, at), abs=0.02 * area**0.5 + 0.5), (kind.names[0], at)


#: Planes that lean over, by the part's own shares of its middle.
LEANING = [
    Cutting.through((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.6, 0.8)),
    Cutting.through((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.8, 0.0, 0.6)),
    Cutting.through((0.0, 0.0, 0.0), (0.8, -0.6, 0.0), (0.48, 0.64, 0.6)),
]


@pytest.mark.parametrize("example", ["table", "cupboard"])
def test_a_leaning_plane_has_the_area_of_the_solids_section_too(example: str) -> None:
    for kind in (k for k in distinct_parts(made(f"refuge-{example}")) if k.wood and not k.mirror_of):
        part = sharp(kind.wood)
        shape, (x0, y0, x1, y1) = solid(part), part.outline.bounds
        for plane in LEANING:
            spot = (0.53 * (x0 + x1), 0.47 * (y0 + y1), 0.4 * part.thickness)
            at = Cutting.through(spot, plane.right, plane.up)
            area = CrossSection(part, at).wood.area
            assert area == pytest.approx(kernel_area(shape, at), abs=0.02 * area**0.5 + 0.5), (kind.names[0], at)


def test_a_turning_is_cut_lengthways_as_its_profile() -> None:
    leg = Part(board(600.0, 45.0, 45.0, "red oak")).cut(Turned((Station(100.0, 40.0), Station(500.0, 24.0))))
    wood = CrossSection(leg, Cutting((1.0, 0.0, 0.0), -22.5)).wood

    assert wood.area == pytest.approx(200.0 * 45.0 + 400.0 * 32.0, rel=1e-6)


def test_holes_in_the_wood_are_rings_of_their_own() -> None:
    from model.cuts.faces import Bore

    part = Part(board(300.0, 60.0, 30.0, "red oak")).cut(Bore((150.0, 0.0, 15.0), (0.0, 1.0, 0.0), 10.0, 40.0))
    (piece,) = CrossSection(part, Cutting((1.0, 0.0, 0.0), -20.0)).pieces()
    outer, hole = piece

    assert len(outer[0]) == 4
    assert any(hole[1]), "a true arc"
