"""What many tests share: the random-example profile, the two example pieces built once, and the kernel as a witness.

The witness functions are fixtures, so that a test takes the ones it needs by name.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, settings

os.environ["DRYFIT_CACHE"] = ""  # nothing is remembered from one run of the tests to the next
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as the command does

settings.register_profile(
    "dryfit",
    deadline=None,
    max_examples=40,
    phases=[
        Phase.explicit,
        Phase.reuse,
        Phase.generate,
        Phase.target,
        Phase.shrink,
    ],  # explaining a solid takes minutes
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
settings.register_profile("ci", settings.get_profile("dryfit"), derandomize=True, print_blob=True)
settings.load_profile("ci" if os.environ.get("CI") else "dryfit")


def made(example: str) -> Any:
    """A shipped example as a piece, without any solid."""
    from model.order import read_order
    from model.pieces import design

    order = read_order(example)
    script = design(order.piece)
    return script.make(order.parameters(script.parameters))


@pytest.fixture(scope="session")
def bench() -> Any:
    """The piece of the shipped order refuge-bench; not to be changed."""
    return made("refuge-bench")


@pytest.fixture(scope="session")
def bookcase() -> Any:
    """The piece of the shipped order refuge-bookcase; not to be changed."""
    return made("refuge-bookcase")


@pytest.fixture(scope="session")
def bench_shapes(bench: Any) -> dict[str, Any]:
    """The bench's solids where they stand, by name."""
    from model.solids import standing

    return standing(bench)


@pytest.fixture(scope="session")
def bookcase_shapes(bookcase: Any) -> dict[str, Any]:
    """The bookcase's solids where they stand, by name."""
    from model.solids import standing

    return standing(bookcase)


@pytest.fixture(scope="session")
def shared_volume() -> Callable[[Any, Any], float]:
    """How much of two shapes is the same wood, mm3, straight from the kernel."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    def volume(a: Any, b: Any) -> float:
        figures = GProp_GProps()
        BRepGProp.VolumeProperties_s(BRepAlgoAPI_Common(a.wrapped, b.wrapped).Shape(), figures)
        return figures.Mass()

    return volume


@pytest.fixture(scope="session")
def distance() -> Callable[[Any, Any], float]:
    """How far a point (x, y, z) lies from a solid's wood, mm; 0 inside and on it."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeVertex
    from OCP.BRepExtrema import BRepExtrema_DistShapeShape
    from OCP.gp import gp_Pnt

    def measure(shape: Any, point: Any) -> float:
        vertex = BRepBuilderAPI_MakeVertex(gp_Pnt(*point)).Vertex()
        return BRepExtrema_DistShapeShape(shape.wrapped, vertex).Value()

    return measure


@pytest.fixture(scope="session")
def overlaps() -> Callable[[dict[str, Any]], list[tuple[str, str, float]]]:
    """Every two shapes that share more than a film of wood, with its mean depth in mm: each pair whose boxes meet."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    def depth(a: Any, b: Any) -> float:
        common = BRepAlgoAPI_Common(a.wrapped, b.wrapped).Shape()
        volume, skin = GProp_GProps(), GProp_GProps()
        BRepGProp.VolumeProperties_s(common, volume)
        BRepGProp.SurfaceProperties_s(common, skin)
        return 2.0 * volume.Mass() / skin.Mass() if skin.Mass() > 0 else 0.0

    def found(shapes: dict[str, Any]) -> list[tuple[str, str, float]]:
        boxes = {name: shape.BoundingBox() for name, shape in shapes.items()}
        names = list(shapes)
        pairs = [(a, b) for n, a in enumerate(names) for b in names[n + 1 :] if _boxes_meet(boxes[a], boxes[b])]
        depths = [(a, b, depth(shapes[a], shapes[b])) for a, b in pairs]
        return [found for found in depths if found[2] > FILM]

    return found


@pytest.fixture(scope="session")
def loose_contacts(distance: Callable[[Any, Any], float]) -> Callable[[Any, dict[str, Any]], list[str]]:
    """Every contact of a piece's joints that lies further from one of its two solids than it may."""
    from model.tolerance import CONTACT

    def found(piece: Any, shapes: dict[str, Any]) -> list[str]:
        return [
            f"{joint.kind}: {joint.first} to {joint.second} at {point}"
            for joint in piece.joints
            for contact in joint.contacts
            for point in contact.points
            if max(distance(shapes[name], point) for name in (joint.first, joint.second)) > contact.gap + CONTACT
        ]

    return found


#: mm: how deep a film the kernel may leave between faces that touch; a tenth of what counts as interference.
FILM = 0.001


def _boxes_meet(a: Any, b: Any) -> bool:
    return all(
        getattr(a, f"{axis}max") - getattr(b, f"{axis}min") > 0.005
        and getattr(b, f"{axis}max") - getattr(a, f"{axis}min") > 0.005
        for axis in "xyz"
    )
