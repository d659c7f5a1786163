"""The GLB read by trimesh (https://trimesh.org), a program that did not write it.

Meshes are chords of the true curves, so a mesh's volume is a little off its solid's: 0.2 % is what issue 2 allows.
"""

from pathlib import Path

import cadquery as cq
import numpy as np
import pytest
import trimesh

from drawings.preview.glb import write_glb
from drawings.preview.meshes import PlacedMesh, tessellate

PINE = (0.86, 0.7, 0.48)
VOLUME_SHARE = 0.002
CUBIC_METRES = 1e-9


def drilled() -> cq.Shape:
    return cq.Workplane().box(400, 140, 19, centered=False).faces(">Z").workplane().rarray(60, 40, 5, 3).hole(8).val()


def bent() -> cq.Shape:
    outline = cq.Workplane("XZ").threePointArc((700, 100), (1400, 0)).lineTo(1411, 16)
    return outline.threePointArc((700, 119), (-11, 16)).close().extrude(140).val()


def shaped() -> cq.Shape:
    profile = cq.Workplane().lineTo(1300, 0).lineTo(1300, 150).spline([(1000, 200), (700, 340)], includeCurrent=True)
    side = profile.lineTo(600, 420).lineTo(0, 420).close().extrude(19).edges(">Z").chamfer(2)
    return side.cut(cq.Workplane().box(19, 400, 9, centered=False).translate((416, 0, 10))).val()


def tilted() -> cq.Shape:
    board = cq.Workplane().box(500, 90, 19).edges("|X and >Z").fillet(4).val()
    return board.moved(cq.Location(cq.Vector(10.1, 20.2, 30.3), cq.Vector(1, 2, 3), 33.3))


SOLIDS = {"drilled": drilled, "bent": bent, "shaped": shaped, "tilted": tilted}


def read(items: list[PlacedMesh], folder: Path) -> trimesh.Scene:
    write_glb(items, folder / "model.glb")
    return trimesh.load_scene(folder / "model.glb")


def merged(mesh: trimesh.Trimesh) -> trimesh.Trimesh:
    mesh = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    mesh.merge_vertices()
    return mesh


@pytest.mark.parametrize("name", SOLIDS)
def test_mesh_is_closed_and_has_the_solids_volume(name: str, tmp_path: Path) -> None:
    solid = SOLIDS[name]()
    scene = read([PlacedMesh(name, tessellate(solid), np.eye(4), PINE)], tmp_path)
    mesh = merged(scene.geometry[name])
    assert mesh.is_watertight
    assert mesh.is_winding_consistent
    assert mesh.volume == pytest.approx(solid.Volume() * CUBIC_METRES, rel=VOLUME_SHARE)


def test_names_places_and_sharing_survive(tmp_path: Path) -> None:
    board = tessellate(cq.Workplane().box(1000, 200, 19, centered=False).val())
    lifted = np.eye(4)
    lifted[:3, 3] = 0, 300, 435
    items = [PlacedMesh(name, board, at, PINE) for name, at in (("floor", np.eye(4)), ("seat", lifted))]
    scene = read(items, tmp_path)
    assert set(scene.graph.nodes_geometry) == {"floor", "seat"}
    assert list(scene.geometry) == ["floor"]
    assert scene.bounds == pytest.approx(np.array([[0, 0, -0.5], [1.0, 0.454, 0]]), abs=1e-6)


def test_a_mirrored_part_keeps_its_volume_and_side(tmp_path: Path) -> None:
    solid = shaped()
    mirror = np.diag([1.0, 1.0, -1.0, 1.0])
    scene = read([PlacedMesh("left", tessellate(solid), mirror, PINE)], tmp_path)
    assert scene.bounds[0][1] == pytest.approx(-0.019)
    assert abs(merged(scene.to_geometry()).volume) == pytest.approx(solid.Volume() * CUBIC_METRES, rel=VOLUME_SHARE)


def test_material_carries_the_picture_and_every_vertex_its_place_in_it(tmp_path: Path) -> None:
    scene = read([PlacedMesh("bent", tessellate(bent()), np.eye(4), PINE, "pine")], tmp_path)
    visual = scene.geometry["bent"].visual
    assert visual.material.name == "pine"
    assert visual.material.baseColorTexture.size == (512, 512)
    assert visual.uv.shape == (len(scene.geometry["bent"].vertices), 2)
