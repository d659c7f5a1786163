"""Plain marks written by us are, byte for byte, what ezdxf writes of them; and the same in every process."""

import io
import os
import subprocess
import sys
from pathlib import Path

import pytest
from ezdxf.enums import TextEntityAlignment
from hypothesis import given, settings
from hypothesis import strategies as st

from drawings.paper.lettering import anchor
from drawings.paper.sheet import Arc, Circle, Line, Pen, Polyline, Text
from drawings.players.dxf import APPLICATION, fixed_metadata, new_document
from drawings.players.dxf_plain import add_plain, text_style

lengths = st.floats(-500.0, 500.0) | st.integers(-500, 500)
points = st.tuples(lengths, lengths)
sizes = st.floats(0.001, 300.0)
pens = st.sampled_from(list(Pen))

marks = st.one_of(
    st.builds(Line, points, points, pens),
    st.builds(Circle, points, sizes, pens),
    st.builds(Arc, points, sizes, st.floats(0.0, 360.0), st.floats(0.0, 720.0), pens),
    st.lists(points, min_size=2, max_size=5).flatmap(
        lambda corners: st.builds(
            Polyline,
            st.just(tuple(corners)),
            st.just(()) | st.tuples(*[st.sampled_from([0.0, 0.3, -1.0]) for _ in corners]),
            closed=st.booleans(),
            pen=pens,
        )
    ),
    st.builds(
        Text,
        points,
        st.text(st.characters(codec="utf-8", exclude_categories=["C"]), min_size=1),
        sizes,
        st.sampled_from(["left", "centre", "right"]),
        angle=st.sampled_from([0.0, 90.0, -12.5]),
        bold=st.booleans(),
    ),
)


def by_ezdxf(mark, space):
    on = {"layer": mark.pen.value}
    match mark:
        case Line():
            return space.add_line(mark.p, mark.q, on)
        case Circle():
            return space.add_circle(mark.centre, mark.radius, on)
        case Arc():
            return space.add_arc(mark.centre, mark.radius, mark.start, mark.end, dxfattribs=on)
        case Polyline():
            bulges = mark.bulges or (0.0,) * len(mark.points)
            corners = [(x, y, bulge) for (x, y), bulge in zip(mark.points, bulges, strict=True)]
            return space.add_lwpolyline(corners, format="xyb", close=mark.closed, dxfattribs=on)
        case Text():
            attribs = {**on, "style": text_style(mark.bold), "rotation": mark.angle}
            align = {"left": "LEFT", "centre": "CENTER", "right": "RIGHT"}[mark.align]
            text = space.add_text(mark.text, height=mark.height, dxfattribs=attribs)
            return text.set_placement(anchor(mark), align=TextEntityAlignment[align])


def written(fill):
    with fixed_metadata():
        doc = new_document()
        fill(doc.modelspace())
        stream = io.StringIO()
        doc.write(stream)
    return stream.getvalue()


@settings(max_examples=40)
@given(st.lists(marks, min_size=1, max_size=8))
def test_marks_are_written_as_ezdxf_writes_them(some):
    ours = written(lambda space: [add_plain(mark, space) for mark in some])
    assert ours == written(lambda space: [by_ezdxf(mark, space) for mark in some])


def test_extended_data_is_written_as_ezdxf_writes_it():
    mark, told = Text((1, 2), "340", 2.5), [(1000, "length"), (1010, (1.0, 0.0, 0.5)), (1040, 3.0)]
    ours = written(lambda space: add_plain(mark, space, [(1001, APPLICATION), *told]))
    assert ours == written(lambda space: by_ezdxf(mark, space).set_xdata(APPLICATION, told))


def test_what_is_no_plain_mark_is_refused():
    with pytest.raises(TypeError, match="str is not a plain mark"):
        add_plain("a line", new_document().modelspace())


def test_the_same_bytes_in_every_process(tmp_path):
    program = (
        "import sys; from pathlib import Path; from drawings.paper.page import paper;"
        "from drawings.paper.sheet import Line, Sheet;"
        "from drawings.players.dxf import write_dxf;"
        "write_dxf(Sheet('a', 'A', paper('A4'), (Line((1, 1), (9, 9)),)), Path(sys.argv[1]))"
    )
    files = []
    for seed in ("1", "4"):
        files.append(tmp_path / f"{seed}.dxf")
        env = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(Path(__file__).parents[3])}
        subprocess.run([sys.executable, "-c", program, files[-1]], env=env, check=True, timeout=120)
    assert len({file.read_bytes() for file in files}) == 1
