"""The kernel as witness of a joint: what its two parts share, where they touch, whether they draw apart."""

from __future__ import annotations

from collections.abc import Sequence

import cadquery as cq
from OCP.BRepClass3d import BRepClass3d_SolidClassifier
from OCP.gp import gp_Pnt
from OCP.TopAbs import TopAbs_IN

from model.joints.joint import Joint
from model.part import Part
from model.piece import Placed
from model.placement import Placement, Vector, added, scaled
from model.solids import placed, solid
from model.stock import Stock
from model.tolerance import CONTACT

#: Less shared wood than this is the booleans' own noise, mm3.
NOISE = 1e-3


def stood(name: str, stock: Stock, at: Placement) -> Placed:
    """A part on its own, of 19 mm pine unless its stock says otherwise."""
    return Placed(name, Part(stock.of(19.0, "eastern white pine")), at)


def home(first: Placed, second: Placed, *joints: Joint) -> None:
    """Makes the joints' cuts in the two parts."""
    parts = {first.name: first, second.name: second}
    for joint in joints:
        parts[joint.first].cut(*joint.first_cuts)
        parts[joint.second].cut(*joint.second_cuts)


def shape(part: Placed, shift: Vector = (0.0, 0.0, 0.0)) -> cq.Shape:
    """The part's solid where it stands, shifted."""
    # a copy, as the booleans may loosen the tolerances of what they are given
    return placed(solid(part.part), part.at.moved(*shift)).copy()


def shared(first: Placed, second: Placed, shift: Vector = (0.0, 0.0, 0.0)) -> float:
    """Volume both claim, mm3, the first one shifted."""
    return shape(first, shift).intersect(shape(second)).Volume()


def assert_sound(first: Placed, second: Placed, joint: Joint, reach: float = 60.0, stations: int = 4) -> None:
    """One valid solid each, no shared wood at home nor on the way there, and touching where the joint says."""
    for part in (first, second):
        whole = solid(part.part)
        assert whole.isValid(), f"{part.name} is not a valid solid"
        assert whole.Volume() > 0.0
    for n in range(stations + 1):
        away = scaled(joint.closes, -reach * n / stations)
        assert shared(first, second, away) < NOISE, (
            f"{first.name} meets {second.name} {reach * n / stations:g} mm from home"
        )
    for contact in joint.contacts:
        assert_touching(first, second, contact.points, contact.toward, contact.gap)


def assert_touching(first: Placed, second: Placed, points: Sequence[Vector], toward: Vector, gap: float = 0.0) -> None:
    """At each point the first part's wood begins within the gap one way, the second's within it the other way."""
    reach = gap + CONTACT + 0.02
    a, b = shape(first), shape(second)
    for p in points:
        assert inside(a, added(p, scaled(toward, reach))), f"no wood of {first.name} at {p}"
        assert inside(b, added(p, scaled(toward, -reach))), f"no wood of {second.name} at {p}"


def inside(of: cq.Shape, p: Vector) -> bool:
    """Whether there is wood at a point."""
    return BRepClass3d_SolidClassifier(of.wrapped, gp_Pnt(*p), 1e-7).State() == TopAbs_IN


def contact_area(first: Placed, second: Placed) -> float:
    """Area over which the two parts' surfaces lie on each other, mm2: half of what the faces of both lose when the
    two are made one."""
    a, b = shape(first), shape(second)
    return (a.Area() + b.Area() - a.fuse(b).Area()) / 2.0


def taken_away(part: Placed) -> float:
    """Volume of the stock less that of the part, mm3."""
    stock = part.wood.stock
    return stock.length * stock.width * stock.thick - solid(part.part).Volume()


def assert_mirror_images(left: Placed, right: Placed) -> None:
    """Same volume; centroid and second moments reflected in the part's own y."""
    a, b = solid(left.part), solid(right.part)
    width = left.wood.stock.width
    assert abs(a.Volume() - b.Volume()) < 1e-4 * a.Volume() ** (2.0 / 3.0)
    ca, cb = a.Center(), b.Center()
    assert (abs(ca.x - cb.x), abs(ca.y - (width - cb.y)), abs(ca.z - cb.z)) < (1e-3, 1e-3, 1e-3)
    ma, mb = cq.Shape.matrixOfInertia(a), cq.Shape.matrixOfInertia(b)
    for i in range(3):
        for j in range(3):
            sign = -1.0 if (i == 1) != (j == 1) else 1.0
            assert abs(ma[i][j] - sign * mb[i][j]) <= 1e-5 * (abs(ma[0][0]) + abs(ma[1][1]) + abs(ma[2][2]))
