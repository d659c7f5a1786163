"""Parts made solid by the CAD kernel: all cuts of a part in one boolean, equal parts one solid."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import Any

import cadquery as cq
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakeWire
from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism, BRepPrimAPI_MakeRevol
from OCP.GC import GC_MakeArcOfCircle
from OCP.gp import gp_Ax1, gp_Ax3, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS_Shape
from OCP.TopTools import TopTools_ListOfShape

from model.cuts.cut import Cut
from model.cuts.edges import EdgeCut
from model.cuts.removal import Block, Leaving, Prism, Removal, Turning
from model.cuts.through import Profile
from model.errors import DesignError
from model.layout.outline import Edge, Outline
from model.part import GivenPart, Part
from model.piece import Piece
from model.placement import Placement
from model.solid_blocks import block
from model.tolerance import SAME_FACE


def solid(part: Part | GivenPart) -> cq.Shape:
    """The part's solid in its own frame. Equal parts give the very same object, so that it is stored once.

    Raises DesignError if the cuts leave no single valid solid.
    """
    return part.shape() if isinstance(part, GivenPart) else _cut_solid(part)


def placed(shape: cq.Shape, at: Placement) -> cq.Shape:
    """The same shape moved to its place, sharing its geometry."""
    return shape.moved(location(at))


def location(at: Placement) -> cq.Location:
    """The placement as the kernel has it."""
    return cq.Location(TopLoc_Location(_motion(at)))


def standing(piece: Piece) -> dict[str, cq.Shape]:
    """Every part's solid where it stands, by name; the part's name is put before any error."""
    shapes = {}
    for part in piece:
        try:
            shapes[part.name] = placed(solid(part.part), part.at)
        except DesignError as error:
            raise type(error)(f"{part.name}: {error}") from None
    return shapes


def bring(solids: Mapping[Part, cq.Shape]) -> None:
    """Solids made by another process, for `solid` to give out where it would make them."""
    _brought.update(solids)


def part_of(geometry: Any) -> Part | None:
    """The part that a solid's geometry, its TShape, was made from here; None if it was not."""
    return _made_from.get(geometry)


#: The parts of the solids made, by their geometry, and solids that were brought and not asked for yet.
_made_from: dict[Any, Part] = {}
_brought: dict[Part, cq.Shape] = {}


@lru_cache(maxsize=4096)
def _cut_solid(part: Part) -> cq.Shape:
    made = _brought.pop(part, None) or _whole_solid(part)
    _made_from[made.wrapped.TShape()] = part
    return made


def _whole_solid(part: Part) -> cq.Shape:
    run, others = _split(part)
    base = _base(part, run)
    tools = [_tool(r, part) for c in others for r in c.removals(part.blank)]
    result = cq.Shape.cast(_minus(base, tools) if tools else base)
    solids = result.Solids()
    if len(solids) == 1 and not solids[0].isValid():
        raise DesignError(
            f"the cuts leave no sound solid of a part {part.stock.length:.1f} by {part.stock.width:.1f} mm; "
            "an outline may cross itself, so make a cut smaller or move it"
        )
    if len(solids) != 1:
        raise DesignError(
            f"the cuts leave {len(solids)} pieces of a part {part.stock.length:.1f} by {part.stock.width:.1f} mm; "
            "one whole piece must remain, so make a cut smaller or move it"
        )
    return solids[0]


def _split(part: Part) -> tuple[list[EdgeCut], list[Cut]]:
    """Cuts that run right along a long edge of a plain board can be made in its section; the others need a tool."""
    shaped = any(isinstance(c, Profile) for c in part.cuts)
    run: list[EdgeCut] = []
    others: list[Cut] = []
    for cut in part.cuts:
        whole = isinstance(cut, EdgeCut) and cut.full and cut.edge in ("near", "far") and not shaped
        if whole and isinstance(cut, EdgeCut):
            run.append(cut)
        else:
            others.append(cut)
    return run, others


def _base(part: Part, run: Iterable[EdgeCut]) -> TopoDS_Shape:
    if any(isinstance(c, Profile) for c in part.cuts):
        return _prism(Prism(Placement(), part.outline, part.thickness))
    section = _section(part, run)
    if part.bend is None:
        return BRepPrimAPI_MakePrism(section, gp_Vec(part.stock.length, 0.0, 0.0)).Shape()
    return _bent_base(part, section)


def _section(part: Part, run: Iterable[EdgeCut]) -> TopoDS_Shape:
    """The board's cross-section at its left end, in the plane x = 0."""
    width, thickness = part.stock.width, part.thickness
    across = Placement((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
    whole = Outline(((0.0, 0.0), (width, 0.0), (width, thickness), (0.0, thickness)))
    taken = [
        _face(outline if cut.edge == "near" else _facing(outline, width), across)
        for cut in run
        for outline in cut.sections(thickness)
    ]
    face = _face(whole, across)
    return _minus(face, taken) if taken else face


def _facing(section: Outline, width: float) -> Outline:
    """A section drawn for the near edge, turned to face the far one."""
    corners = tuple((width - u, v) for u, v in section.corners)
    return Outline(corners[:1] + corners[:0:-1], tuple(reversed(section.bulges)))


def _bent_base(part: Part, section: TopoDS_Shape) -> TopoDS_Shape:
    assert part.bend is not None
    bend, length, thickness = part.bend, part.stock.length, part.thickness
    start = _moved(section, bend.placement(0.0, length, thickness))
    axis_z = -bend.radius if bend.hollow == "back" else thickness + bend.radius
    towards = 1.0 if bend.hollow == "back" else -1.0
    axis = gp_Ax1(gp_Pnt(length / 2.0, 0.0, axis_z), gp_Dir(0.0, towards, 0.0))
    return BRepPrimAPI_MakeRevol(start, axis, length / bend.neutral_radius(thickness)).Shape()


def _tool(removal: Removal, part: Part) -> TopoDS_Shape:
    shape = _taken(removal)
    if part.bend is None:
        return shape
    if not isinstance(removal, Prism | Turning):
        raise DesignError("a bent part takes cuts along its edges, bores and slots only; joint it before bending")
    station = removal.frame.origin[0]
    return _moved(shape, part.bend.placement(station, part.stock.length, part.thickness))


def _taken(removal: Removal) -> TopoDS_Shape:
    match removal:
        case Prism():
            return _prism(removal)
        case Turning():
            return _turning(removal)
        case Block():
            return block(removal)
        case Leaving():
            return _minus(_taken(removal.taken), [_taken(left) for left in removal.left])


def _prism(p: Prism) -> TopoDS_Shape:
    z = p.frame.z
    up = gp_Vec(z[0] * p.height, z[1] * p.height, z[2] * p.height)
    return BRepPrimAPI_MakePrism(_face(p.outline, p.frame), up).Shape()


def _turning(t: Turning) -> TopoDS_Shape:
    toward = math.copysign(1.0, t.arm)
    y = t.frame.y
    axis = gp_Ax1(gp_Pnt(*t.frame.point((t.arm, 0.0, 0.0))), gp_Dir(toward * y[0], toward * y[1], toward * y[2]))
    return BRepPrimAPI_MakeRevol(_face(t.outline, t.frame), axis, t.sweep).Shape()


def _face(outline: Outline, frame: Placement) -> TopoDS_Shape:
    wire = BRepBuilderAPI_MakeWire()
    for e in outline.edges:
        wire.Add(_edge(e, frame))
    return BRepBuilderAPI_MakeFace(wire.Wire(), True).Face()


def _edge(e: Edge, frame: Placement) -> Any:
    def at(p: tuple[float, float]) -> gp_Pnt:
        return gp_Pnt(*frame.point((p[0], p[1], 0.0)))

    if e.straight:
        return BRepBuilderAPI_MakeEdge(at(e.start), at(e.end)).Edge()
    arc = GC_MakeArcOfCircle(at(e.start), at(e.point(0.5)), at(e.end)).Value()
    return BRepBuilderAPI_MakeEdge(arc).Edge()


def _minus(base: TopoDS_Shape, tools: Iterable[TopoDS_Shape]) -> TopoDS_Shape:
    arguments, takers = TopTools_ListOfShape(), TopTools_ListOfShape()
    arguments.Append(base)
    for tool in tools:
        takers.Append(tool)
    cut = BRepAlgoAPI_Cut()
    cut.SetArguments(arguments)
    cut.SetTools(takers)
    cut.SetFuzzyValue(SAME_FACE)
    cut.Build()
    return cut.Shape()


def _moved(shape: TopoDS_Shape, at: Placement) -> TopoDS_Shape:
    return shape.Moved(TopLoc_Location(_motion(at)))


def _motion(at: Placement) -> gp_Trsf:
    motion = gp_Trsf()
    frame = gp_Ax3(gp_Pnt(*at.origin), gp_Dir(*at.z), gp_Dir(*at.x))
    motion.SetTransformation(frame, gp_Ax3())
    return motion
