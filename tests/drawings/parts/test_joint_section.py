"""Sections of joinery: what one plane shows in one, large enough for its sizes, no hatching through lettering."""

from __future__ import annotations

from drawings.paper.audit import convex_meet
from drawings.paper.hatching import hatch_lines
from drawings.paper.lettering import text_corners
from drawings.paper.sheet import Hatch, LinearDimension, OrdinateDimension, Polyline, Text
from drawings.paper.strokes import strokes
from drawings.parts.broken import clear_of_lettering
from drawings.parts.family import Family, families
from drawings.parts.joint_section import JointSection, joint_sections
from drawings.parts.mouth_view import mouth_views
from drawings.parts.plan import Plan
from drawings.sheets.principal import Lengths
from model.joints.samples import samples
from model.parameters import Parameters
from model.piece import Piece

SAMPLES = {sample.name: sample for sample in samples()}


def family_of(sample: str, part: str, form: Lengths) -> Family:
    piece = Piece(sample, Parameters())
    piece.parts.update({placed.name: placed for placed in SAMPLES[sample].parts})
    return next(f for f in families(piece, form) if part in f.names)


def sections_of(sample: str, part: str, form: Lengths | None = None) -> list[JointSection]:
    chosen = form or Lengths()
    return joint_sections(Plan(family_of(sample, part, chosen), chosen))


def test_twin_mortises_are_told_in_one_section_their_depth_once() -> None:
    (section,) = sections_of("twin tenon", "leg")
    texts = [m.text for m in section.marks((0.0, 0.0)) if isinstance(m, LinearDimension)]

    assert section.places == ("A",)
    assert sorted(texts) == ["16.5", "34.5", "35.5", "9", "9"]


def test_sizes_that_would_crowd_make_a_section_larger() -> None:
    (plain,) = sections_of("splined miter", "first member")
    (inches,) = sections_of("splined miter", "first member", Lengths("in"))

    assert plain.scale == 2.0
    assert inches.scale > 1.0
    assert all("×" not in m.text for m in plain.marks((0.0, 0.0)) if isinstance(m, LinearDimension))


def test_a_leaning_mortise_is_marked_out_on_a_view_of_its_edge() -> None:
    (view,) = mouth_views(Plan(family_of("leaning tenon", "leg", Lengths()), Lengths()))
    heights = [m.value_mm for m in view.marks((0.0, 0.0)) if isinstance(m, OrdinateDimension)]
    corners = sorted({round(p[2], 3) for _, box in view.mouths for p in box.mouth})

    assert view.edge == "near edge"
    assert [round(h, 3) for h in sorted(heights)] == [0.0, *corners]


def test_hatching_breaks_off_round_lettering_and_only_there() -> None:
    wood = Polyline(((0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (0.0, 40.0)), closed=True)
    text = Text((20.0, 15.0), "31.5", 2.5, angle=20.0)
    plain = Hatch((wood,))
    hatch, *_ = clear_of_lettering([plain, text])
    assert isinstance(hatch, Hatch)
    box = text_corners(text)

    assert any(convex_meet(box, (line.p, line.q)) for line in hatch_lines(plain))
    assert not any(convex_meet(box, (line.p, line.q)) for line in hatch_lines(hatch))
    assert clear_of_lettering([plain, Text((80.0, 15.0), "9")])[0] == plain


def test_no_hatching_runs_through_a_size_of_any_sample() -> None:
    for sample in ("leaning tenon", "keyed miter", "draw-bored tenon"):
        for part in SAMPLES[sample].parts:
            for section in sections_of(sample, part.name):
                marks = section.marks((0.0, 0.0))
                lines = [(x.p, x.q) for m in marks if isinstance(m, Hatch) for x in hatch_lines(m)]
                texts = [t for m in marks for t in strokes(m) if isinstance(t, Text)]
                assert not any(convex_meet(text_corners(t), line) for t in texts for line in lines), sample
