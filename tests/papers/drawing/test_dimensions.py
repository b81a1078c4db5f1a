"""Dimension lines."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.papers.drawing.dimensions import Reading, Span, chain, datum, dimension, leader, running
from rodbook.papers.drawing.model import Circle, Drawing, Line, Text, box_of, boxes_of_text


def figures(marks):
    return [mark.content for mark in marks if isinstance(mark, Text)]


def covered(marks):
    boxes = boxes_of_text(marks)
    return [(a, b) for n, (a, x) in enumerate(boxes) for b, y in boxes[n + 1 :] if x.overlaps(y, slack=1e-3)]


widths = st.lists(st.floats(0.1, 60), min_size=1, max_size=9)


@given(widths, st.sampled_from("xy"), st.sampled_from([-7.0, 7.0]))
def test_figures_of_a_chain_never_cover_each_other(sizes, axis, line):
    at, spans = 0.0, []
    for size in sizes:
        spans.append(Span(at, at + size, f"{size:.1f}"))
        at += size
    marks = chain(axis, spans, line=line, feature=0.0)
    assert sorted(figures(marks)) == sorted(span.figure for span in spans)
    assert covered(marks) == []


@given(st.lists(st.floats(1, 220), min_size=1, max_size=24, unique=True), st.booleans())
def test_running_figures_never_cover_each_other(places, holes):
    readings = [Reading(p, f"{p * 10:.1f}", str(n) if holes else "") for n, p in enumerate(sorted(places), 1)]
    marks = running("y", 0.0, readings, line=8.0, feature=0.0)
    wanted = ["0", *(r.figure for r in readings), *(r.hole for r in readings if r.hole)]
    assert sorted(figures(marks)) == sorted(wanted)
    rings = [mark for mark in marks if isinstance(mark, Circle) and mark.role == "hole number"]
    assert covered(marks) == []
    assert all(b.y - a.y >= a.radius + b.radius - 1e-6 for a, b in pairwise(rings))


def test_a_figure_stands_beside_the_middle_of_its_stretch():
    (figure,) = [m for m in dimension("x", Span(10, 60, "500"), line=20, feature=10) if isinstance(m, Text)]
    assert (figure.x, figure.y > 20) == (35, True)


def test_ticks_stand_at_the_ends():
    marks = dimension("y", Span(10, 60, "500"), line=20, feature=10)
    slants = [
        m.points
        for m in marks
        if isinstance(m, Line) and m.points[0][0] < m.points[1][0] and m.points[0][1] > m.points[1][1]
    ]
    assert [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in slants] == [(20, 10), (20, 60)]


def test_extension_lines_start_clear_of_the_part():
    marks = dimension("x", Span(10, 60, "500"), line=20, feature=10)
    extensions = [m.points for m in marks if isinstance(m, Line) and m.points[0][0] == m.points[1][0]]
    assert [(a[0], a[1]) for a, _ in extensions] == [(10, 11), (60, 11)]


@pytest.mark.parametrize(("axis", "zero", "far"), [("y", 0.0, 50.0), ("x", 40.0, 5.0)])
def test_running_starts_at_a_ring_on_the_datum(axis, zero, far):
    marks = running(axis, zero, [Reading(far, "100")], line=-6.0, feature=0.0)
    (ring,) = [m for m in marks if isinstance(m, Circle) and m.role == "origin"]
    assert (ring.x, ring.y) == ((zero, -6.0) if axis == "x" else (-6.0, zero))
    line = next(m for m in marks if isinstance(m, Line))
    assert {p["xy".index(axis)] for p in line.points} == {zero, far}


def test_the_datum_says_so(read_svg):
    svg = read_svg(Drawing.around(datum(0, 0), title="d", scale=1))
    assert svg.texts("datum") == ["datum"]
    assert len(svg.tagged("polygon", "datum")) == 2


@pytest.mark.parametrize("toward", ["left", "right"])
def test_a_leader_has_its_words_on_the_side_it_points_from(toward):
    marks = leader((0, 0), (5 if toward == "right" else -5, 0), ("cup Ø35", "13 deep"), toward=toward)
    box = box_of([m for m in marks if isinstance(m, Text)])
    assert box.left > 5 if toward == "right" else box.right < -5
    assert covered(marks) == []
