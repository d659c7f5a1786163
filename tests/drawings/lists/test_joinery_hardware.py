"""Joinery's hardware in the list: kinds, sizes, how many and where."""

from __future__ import annotations

from drawings.lists.columns import Speech
from drawings.lists.hardware import hardware_columns, hardware_lines
from drawings.preview.scene import colour, scene
from model.joints.samples import Sample, samples
from model.parameters import Parameters
from model.piece import Piece

ALL = {s.name: s for s in samples()}


def piece_of(sample: Sample) -> Piece:
    piece = Piece(sample.name, Parameters())
    piece.parts = {p.name: p for p in sample.parts}
    piece.fit(*sample.hardware)
    return piece


def rows(name: str) -> list[dict[str, str]]:
    columns = hardware_columns(Speech("mm", 16))
    return [{c.header: c.cell(line) for c in columns} for line in hardware_lines(piece_of(ALL[name]))]


def test_each_kind_is_listed_with_its_sizes_and_where_it_goes() -> None:
    (dowels,) = rows("dowelled end")
    (wedges,) = rows("wedged tenon")
    (spline,) = rows("loose spline")
    (keys,) = rows("keyed miter")
    hinges, screws = rows("butt hinges")

    assert (dowels["item"], dowels["quantity"], dowels["size"]) == ("dowel", "2", "6.35 x 47.6 mm")
    assert (wedges["item"], wedges["quantity"], wedges["thickness, exact mm"]) == ("wedge", "2", "3.175")
    assert (spline["diameter or width, exact mm"], spline["thickness, exact mm"]) == ("38", "6.333")
    assert (keys["quantity"], keys["thickness, exact mm"]) == ("3", "3.2")
    assert (hinges["item"], hinges["quantity"], hinges["thickness, exact mm"]) == ("butt hinge", "2", "")
    assert (screws["item"], screws["quantity"]) == ("hinge screw", "8")
    assert "door with stile: 2" in hinges["where used: how many"]


def test_every_kind_that_a_joint_brings_has_a_note() -> None:
    assert all(row["note"] for name in ALL for row in rows(name))


def test_wooden_hardware_takes_the_colour_of_the_wood_and_metal_does_not() -> None:
    for name, kind, wooden in (
        ("wedged tenon", "wedge", True),
        ("keyed miter", "key", True),
        ("butt hinges", "butt hinge", False),
    ):
        sample = ALL[name]
        wood = sample.parts[0].wood.stock.species or ""
        items = [m for m in scene(piece_of(sample)) if m.name.startswith(kind)]
        assert items
        assert all((m.colour == colour(wood)) is wooden for m in items)


def test_sizes_are_listed_in_the_order_s_units_but_a_screw_s_gauge_is_none() -> None:
    lines = hardware_lines(piece_of(ALL["butt hinges"]))
    screw = next(line for line in lines if line.kind == "hinge screw")
    metric, inches = screw.said_size("mm"), screw.said_size("in")

    assert metric == screw.size
    assert metric.endswith(" mm")
    assert inches.startswith(metric.partition(" x ")[0])
    assert inches.endswith(" in")
    assert "mm" not in inches
    assert inches.says == metric.says
