"""How does a 3-D viewer read the piece? Writes a GLB: glTF 2.0 in one file, metres, Y up, the front towards +Z.

    node "piece" ── node per part (its name, its matrix, its group) ──► mesh, shared by equal parts

The format is the Khronos glTF 2.0 specification (ISO/IEC 12113). It is written by hand because a mesh must be stored
once for all its parts, keep the parts' names, and come out the same byte for byte.
"""

import json
import struct
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from drawings.preview.grain import ACROSS, ALONG, linear, wood_grain

if TYPE_CHECKING:
    from drawings.preview.meshes import PartMesh, PlacedMesh

Floats = NDArray[np.float64]

METRES = 0.001
Y_UP = np.array([[1.0, 0, 0, 0], [0, 0, 1, 0], [0, -1, 0, 0], [0, 0, 0, 1]])

#: End grain drinks more finish and scatters light: it looks this much darker than the face. Common practice.
END_GRAIN_SHADE = 0.72
END_GRAIN_SLOPE = np.radians(28.0)

FLOAT, UNSIGNED_INT, UNSIGNED_BYTE = 5126, 5125, 5121
VERTEX_DATA, INDEX_DATA = 34962, 34963
REPEAT, LINEAR, MIPMAPS = 10497, 9729, 9987


def write_glb(placed: "Sequence[PlacedMesh]", path: Path) -> None:
    """Write the placed meshes as one GLB file.

    placed: meshes in mm, Z up; each node takes its part's name, and the names should differ.
    The same input gives the same bytes. Raises ValueError if there is nothing to write.
    """
    if not placed:
        raise ValueError("there is nothing to write: the piece has no parts")
    Path(path).write_bytes(_Glb(placed).packed())


class _Glb:
    """The JSON and the binary part of one file, growing together."""

    def __init__(self, placed: "Sequence[PlacedMesh]") -> None:
        self._binary = bytearray()
        self._views: list[dict[str, Any]] = []
        self._accessors: list[dict[str, Any]] = []
        self._materials: list[dict[str, Any]] = []
        self._meshes: list[dict[str, Any]] = []
        self._nodes: list[dict[str, Any]] = [{"name": "piece", "children": []}]
        self._seen: dict[tuple[Any, ...], int] = {}
        self._picture = self._view(wood_grain().png)
        for item in placed:
            self._place(item)

    def packed(self) -> bytes:
        text = json.dumps(self._document(), separators=(",", ":"), ensure_ascii=False).encode()
        text += b" " * (-len(text) % 4)
        chunks = struct.pack("<I4s", len(text), b"JSON") + text
        chunks += struct.pack("<I4s", len(self._binary), b"BIN\0") + bytes(self._binary)
        return struct.pack("<4sII", b"glTF", 2, 12 + len(chunks)) + chunks

    def _document(self) -> dict[str, Any]:
        return {
            "asset": {"version": "2.0", "generator": "dryfit"},
            "scene": 0,
            "scenes": [{"nodes": [0]}],
            "nodes": self._nodes,
            "meshes": self._meshes,
            "materials": self._materials,
            "textures": [{"source": 0, "sampler": 0}],
            "images": [{"name": "wood grain", "bufferView": self._picture, "mimeType": "image/png"}],
            "samplers": [{"magFilter": LINEAR, "minFilter": MIPMAPS, "wrapS": REPEAT, "wrapT": REPEAT}],
            "accessors": self._accessors,
            "bufferViews": self._views,
            "buffers": [{"byteLength": len(self._binary)}],
        }

    def _place(self, item: "PlacedMesh") -> None:
        matrix = np.eye(4)
        matrix[:3] = np.asarray(item.matrix, dtype=float)[:3]
        matrix[:3, 3] *= METRES
        node = {
            "name": item.name,
            "mesh": self._mesh(item),
            "matrix": [round(x, 12) + 0.0 for x in (Y_UP @ matrix).T.ravel().tolist()],
            "extras": {"group": item.group, "species": item.species, "kind": item.kind},
        }
        self._nodes[0]["children"].append(len(self._nodes))
        self._nodes.append(node)

    def _mesh(self, item: "PlacedMesh") -> int:
        material = self._material(item)
        key = ("mesh", id(item.mesh), material)
        if key not in self._seen:
            geometry = self._geometry(item.mesh)
            self._meshes.append({"name": item.name, "primitives": [geometry | {"material": material}]})
            self._seen[key] = len(self._meshes) - 1
        return self._seen[key]

    def _material(self, item: "PlacedMesh") -> int:
        key = ("material", item.species, item.colour, item.kind)
        if key not in self._seen:
            make = _metal if item.kind == "hardware" else _wood
            self._materials.append(make(item.species or item.kind, item.colour))
            self._seen[key] = len(self._materials) - 1
        return self._seen[key]

    def _geometry(self, mesh: "PartMesh") -> dict[str, Any]:
        key = ("geometry", id(mesh))
        if key not in self._seen:
            self._seen[key] = len(self._accessors)
            self._store(mesh, shift=len(self._meshes))
        first = self._seen[key]
        names = ("POSITION", "NORMAL", "TEXCOORD_0", "COLOR_0")
        return {"attributes": {name: first + n for n, name in enumerate(names)}, "indices": first + 4}

    def _store(self, mesh: "PartMesh", shift: int) -> None:
        axis, vertex, triangles = _box_sides(mesh)
        points = mesh.vertices[vertex]
        positions = (points * METRES).astype("<f4")
        limits = {"min": positions.min(axis=0).tolist(), "max": positions.max(axis=0).tolist()}
        shade = np.where(axis == 0, round(255 * END_GRAIN_SHADE), 255)[:, None].repeat(4, axis=1)
        shade[:, 3] = 255
        self._accessor(positions, FLOAT, "VEC3", **limits)
        self._accessor(mesh.normals[vertex].astype("<f4"), FLOAT, "VEC3")
        self._accessor(_grain_places(points, axis, shift).astype("<f4"), FLOAT, "VEC2")
        self._accessor(shade.astype("u1"), UNSIGNED_BYTE, "VEC4", normalized=True)
        self._accessor(triangles.ravel().astype("<u4"), UNSIGNED_INT, "SCALAR", target=INDEX_DATA)

    def _accessor(self, data: NDArray[Any], number: int, kind: str, target: int = VERTEX_DATA, **more: Any) -> None:
        view = self._view(data.tobytes(), target=target)
        entry = {"bufferView": view, "componentType": number, "count": len(data), "type": kind}
        self._accessors.append(entry | more)

    def _view(self, data: bytes, **more: int) -> int:
        self._views.append({"buffer": 0, "byteOffset": len(self._binary), "byteLength": len(data)} | more)
        self._binary += data + b"\0" * (-len(data) % 4)
        return len(self._views) - 1


def _wood(name: str, colour: tuple[float, float, float]) -> dict[str, Any]:
    factor = np.minimum(linear(np.array(colour)) / wood_grain().mean, 1.0)
    look = {"baseColorTexture": {"index": 0}, "metallicFactor": 0.0, "roughnessFactor": 0.62}
    return _material(name, factor, look)


def _metal(name: str, colour: tuple[float, float, float]) -> dict[str, Any]:
    return _material(name, linear(np.array(colour)), {"metallicFactor": 0.85, "roughnessFactor": 0.42})


def _material(name: str, factor: Floats, look: dict[str, Any]) -> dict[str, Any]:
    base = [*(round(x, 6) for x in factor.tolist()), 1.0]
    return {"name": name, "pbrMetallicRoughness": {"baseColorFactor": base} | look}


def _box_sides(mesh: "PartMesh") -> tuple[NDArray[Any], NDArray[Any], NDArray[Any]]:
    """Each triangle looks along the axis it faces most; a vertex is repeated for each axis it is seen along.

    Returns the axis (0, 1, 2) of each new vertex, the old vertex it repeats, and the triangles of new vertices.
    """
    a, b, c = (mesh.vertices[mesh.triangles[:, corner]] for corner in range(3))
    facing = np.abs(np.cross(b - a, c - a)).round(9).argmax(axis=1)
    used, triangles = np.unique(mesh.triangles * 3 + facing[:, None], return_inverse=True)
    return used % 3, used // 3, triangles.reshape(-1, 3)


def _grain_places(points: Floats, axis: NDArray[Any], shift: int) -> Floats:
    """Where each vertex lies in the grain picture: along the grain on faces and edges, on a slope on end grain.

    shift: different numbers cut different boards out of the picture.
    """
    x, y, z = points.T
    slope = np.cos(END_GRAIN_SLOPE) * y + np.sin(END_GRAIN_SLOPE) * z
    u = np.where(axis == 0, 0.0, x / ALONG)
    v = np.select([axis == 0, axis == 1], [slope, z], y) / ACROSS
    return np.column_stack([u + (shift * 0.618034) % 1.0, v + (shift * 0.754878) % 1.0])
