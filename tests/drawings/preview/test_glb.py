import json
import struct
from pathlib import Path
from typing import Any

import cadquery as cq
import numpy as np
import pytest

from drawings.preview.glb import write_glb
from drawings.preview.grain import ACROSS, ALONG, wood_grain
from drawings.preview.meshes import PartMesh, PlacedMesh, tessellate

PINE = (0.86, 0.7, 0.48)
BRASS = (0.72, 0.66, 0.5)


def at(x: float, y: float, z: float) -> np.ndarray:
    matrix = np.eye(4)
    matrix[:3, 3] = x, y, z
    return matrix


def board() -> PartMesh:
    return tessellate(cq.Workplane().box(600, 140, 19, centered=False).val())


def bench() -> list[PlacedMesh]:
    seat = board()
    foot = tessellate(cq.Workplane().box(100, 140, 38, centered=False).val())
    hinge = tessellate(cq.Workplane().cylinder(60, 4).val())
    return [
        PlacedMesh("seat", seat, at(0, 0, 300), PINE, "pine", "top"),
        PlacedMesh("front", seat, at(0, 0, 200), PINE, "pine", "front"),
        PlacedMesh("foot", foot, at(0, 0, 0), PINE, "pine", "frame"),
        PlacedMesh("hinge", hinge, at(0, 0, 319), BRASS, "brass", "top", "hardware"),
    ]


def read(path: Path) -> tuple[dict[str, Any], bytes]:
    data = path.read_bytes()
    magic, version, length = struct.unpack_from("<4sII", data)
    assert (magic, version, length) == (b"glTF", 2, len(data))
    size = struct.unpack_from("<I", data, 12)[0]
    return json.loads(data[20 : 20 + size]), data[28 + size :]


def values(document: dict[str, Any], binary: bytes, accessor: int) -> np.ndarray:
    entry = document["accessors"][accessor]
    width = {"SCALAR": 1, "VEC2": 2, "VEC3": 3, "VEC4": 4}[entry["type"]]
    kind = {5126: "<f4", 5125: "<u4", 5121: "u1"}[entry["componentType"]]
    start = document["bufferViews"][entry["bufferView"]]["byteOffset"]
    return np.frombuffer(binary, kind, entry["count"] * width, start).reshape(-1, width)


@pytest.fixture
def written(tmp_path: Path) -> tuple[dict[str, Any], bytes]:
    write_glb(bench(), tmp_path / "bench.glb")
    return read(tmp_path / "bench.glb")


def test_same_input_gives_the_same_bytes(tmp_path: Path) -> None:
    for name in ("one.glb", "two.glb"):
        tessellate.cache_clear()
        write_glb(bench(), tmp_path / name)
    assert (tmp_path / "one.glb").read_bytes() == (tmp_path / "two.glb").read_bytes()


def test_equal_parts_share_one_mesh(written: tuple[dict[str, Any], bytes]) -> None:
    document, _ = written
    used = {node["name"]: node["mesh"] for node in document["nodes"] if "mesh" in node}
    assert used["seat"] == used["front"]
    assert len(document["meshes"]) == 3


def test_one_shape_in_two_woods_is_stored_once(tmp_path: Path) -> None:
    mesh = board()
    pair = [PlacedMesh("a", mesh, at(0, 0, 0), PINE, "pine"), PlacedMesh("b", mesh, at(0, 0, 50), BRASS, "oak")]
    write_glb(pair, tmp_path / "pair.glb")
    document, _ = read(tmp_path / "pair.glb")
    attributes = [mesh["primitives"][0]["attributes"] for mesh in document["meshes"]]
    assert attributes[0] == attributes[1]
    assert [material["name"] for material in document["materials"]] == ["pine", "oak"]


def test_nodes_say_what_they_are(written: tuple[dict[str, Any], bytes]) -> None:
    document, _ = written
    hinge = next(node for node in document["nodes"] if node["name"] == "hinge")
    assert hinge["extras"] == {"group": "top", "species": "brass", "kind": "hardware"}


def test_up_is_y_and_lengths_are_metres(written: tuple[dict[str, Any], bytes]) -> None:
    document, _ = written
    seat = next(node for node in document["nodes"] if node["name"] == "seat")
    matrix = np.array(seat["matrix"]).reshape(4, 4).T
    back_corner_on_top = matrix @ [0.6, 0.14, 0.019, 1]
    assert back_corner_on_top == pytest.approx([0.6, 0.319, -0.14, 1])


def test_grain_runs_along_the_board_at_its_true_size(written: tuple[dict[str, Any], bytes]) -> None:
    document, binary = written
    primitive = document["meshes"][0]["primitives"][0]["attributes"]
    points = values(document, binary, primitive["POSITION"]) * 1000
    normals = values(document, binary, primitive["NORMAL"])
    places = values(document, binary, primitive["TEXCOORD_0"])
    face, end = np.abs(normals[:, 2]) > 0.9, np.abs(normals[:, 0]) > 0.9
    assert np.ptp(places[face], axis=0) == pytest.approx([600 / ALONG, 140 / ACROSS], rel=1e-4)
    assert np.ptp(points[end][:, 1]) == pytest.approx(140)
    assert np.ptp(places[end][:, 0]) == pytest.approx(0, abs=1e-6)


def test_end_grain_is_darker(written: tuple[dict[str, Any], bytes]) -> None:
    document, binary = written
    primitive = document["meshes"][0]["primitives"][0]["attributes"]
    end = np.abs(values(document, binary, primitive["NORMAL"])[:, 0]) > 0.9
    shade = values(document, binary, primitive["COLOR_0"])[:, 0]
    assert set(shade[~end]) == {255}
    assert shade[end].max() < 200


def test_wood_wears_the_grain_and_metal_does_not(written: tuple[dict[str, Any], bytes]) -> None:
    document, binary = written
    wood, metal = document["materials"]
    assert "baseColorTexture" in wood["pbrMetallicRoughness"]
    assert "baseColorTexture" not in metal["pbrMetallicRoughness"]
    view = document["bufferViews"][document["images"][0]["bufferView"]]
    assert binary[view["byteOffset"] :][: view["byteLength"]] == wood_grain().png


def test_the_grain_picture_is_small_and_has_no_seam() -> None:
    from io import BytesIO

    from PIL import Image

    assert len(wood_grain().png) < 250_000
    pixels = np.asarray(Image.open(BytesIO(wood_grain().png)).convert("L"), dtype=float)
    for axis in (0, 1):
        steps = np.abs(np.diff(pixels, axis=axis)).mean(axis=1 - axis)
        seam = np.abs(pixels.take(0, axis) - pixels.take(-1, axis)).mean()
        assert seam <= steps.max() * 1.05


def test_nothing_to_write_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="no parts"):
        write_glb([], tmp_path / "empty.glb")
    assert not (tmp_path / "empty.glb").exists()


def test_equal_shapes_are_meshed_once() -> None:
    shape = cq.Workplane().box(10, 20, 30).val()
    assert tessellate(shape) is tessellate(shape)
    assert tessellate(shape) is not tessellate(shape.moved(cq.Location((1, 0, 0))))


def test_meshing_leaves_the_shape_alone() -> None:
    shape = cq.Workplane().cylinder(100, 37).val()
    before = shape.BoundingBox(1e-6)
    tessellate(shape, sagitta=2.0, angle=1.0)
    after = shape.BoundingBox(1e-6)
    assert (before.xmin, before.ymax, before.zmax) == (after.xmin, after.ymax, after.zmax)


def test_normals_of_a_round_are_those_of_the_surface() -> None:
    mesh = tessellate(cq.Workplane().circle(20).extrude(50).val())
    side = np.abs(mesh.normals[:, 2]) < 0.5
    assert mesh.normals[side][:, :2] == pytest.approx(mesh.vertices[side][:, :2] / 20, abs=1e-4)


def test_edges_show_corners_but_not_the_run_of_a_round() -> None:
    square = tessellate(cq.Workplane().box(100, 60, 20).val())
    rounded = tessellate(cq.Workplane().box(100, 60, 20).edges("|Z").fillet(8).val())
    assert len(square.edges) == 12
    assert len(rounded.edges) == 16
    assert all(np.ptp(edge[:, 2]) == 0 for edge in rounded.edges)
