"""Part sheets of every joint of the vocabulary: legible, nothing left to words, every number true, parts rebuilt."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from drawings.lists.distinct import distinct_parts
from drawings.paper.audit import audit
from drawings.paper.sheet import Sheet
from drawings.parts import part_sheets
from drawings.parts.joint_section import joint_sections
from drawings.parts.notes_of_part import notes
from drawings.parts.plan import Plan
from drawings.players.dxf import write_dxf
from drawings.proof.held import half_place
from drawings.proof.readings import readings
from drawings.proof.rebuilt import IncompleteError, rebuilt
from drawings.sheets.principal import Lengths
from model.joints.samples import Sample, samples
from model.order import read_order
from model.parameters import Parameters
from model.piece import Piece

SAMPLES = {sample.name: sample for sample in samples()}


def piece_of(sample: Sample) -> Piece:
    piece = Piece(sample.name, Parameters())
    piece.parts.update({placed.name: placed for placed in sample.parts})
    return piece


@cache
def sheets_of(name: str) -> list[Sheet]:
    return part_sheets(piece_of(SAMPLES[name]), read_order("refuge-bench"))


@pytest.mark.parametrize("name", SAMPLES)
def test_its_sheets_are_legible(name: str) -> None:
    assert [(sheet.name, blemish) for sheet in sheets_of(name) for blemish in audit(sheet)] == []


@pytest.mark.parametrize("name", SAMPLES)
def test_nothing_is_left_to_words(name: str) -> None:
    from drawings.parts.family import families

    piece, form = piece_of(SAMPLES[name]), Lengths()
    told = [note for family in families(piece, form) for note in notes(family, piece, form) if "irror" not in note]
    assert told == []


@pytest.mark.parametrize("name", SAMPLES)
def test_its_parts_come_back_from_their_numbers(name: str, tmp_path: Path) -> None:
    piece, order, found = piece_of(SAMPLES[name]), read_order("refuge-bench"), []
    for sheet in sheets_of(name):
        write_dxf(sheet, tmp_path / f"{sheet.name}.dxf")
        found += readings(tmp_path / f"{sheet.name}.dxf")
    missed = []
    for kind in (k for k in distinct_parts(piece) if k.wood):
        try:
            rebuilt(kind.names[0], replace(kind.wood, bend=None), found, order.units, half_place(order))
        except IncompleteError as missing:
            missed.append(str(missing))
    assert missed == []


def test_one_section_stands_for_both_ends_worked_alike() -> None:
    from drawings.parts.family import families
    from tests.conftest import made

    rail = next(f for f in families(made("refuge-cupboard"), Lengths()) if "drawer rail" in f.names)
    (section,) = joint_sections(Plan(rail, Lengths()))

    assert section.places == ("tenon at left end", "right end")
