"""What figures of a drawing say when they are asked: the size that they show, and nothing of it on paper."""

import re
from dataclasses import replace

from rodbook.papers.drawing.model import Asked, Circle, Text, moved
from rodbook.papers.drawing.svg import to_svg
from rodbook.papers.pictures.corner import draw_corner
from rodbook.papers.pictures.front import draw_front
from rodbook.papers.pictures.part import draw_whole_part
from rodbook.papers.pictures.plain import draw_plain_part
from rodbook.papers.pictures.section import draw_section
from rodbook.setout import PartKind
from rodbook.working import Measure


def _drawings(build_up, set_out):
    packer = Measure(5.0, "packer")
    yield draw_front(set_out, "it")
    yield draw_section(set_out, build_up, "it", packer_mm=5.0, packer_words="packer 5", packer_asks=Asked((packer,)))
    for placed in set_out.parts:
        if placed.part.borings:
            yield draw_whole_part(placed.part, "it")
            yield draw_corner(placed.part, "it")
        else:
            yield draw_plain_part(placed.part, "it")


def test_every_figure_says_the_size_that_it_shows(many_fronts):
    for build_up, set_out in many_fronts:
        for drawing in _drawings(build_up, set_out):
            figures = [m for m in drawing.marks if isinstance(m, Text) and m.role == "figure" and m.content != "0"]
            assert figures
            for figure in figures:
                assert figure.asks is not None, (drawing.title, figure.content)
                (measure,) = figure.asks.measures
                shown = float(re.search(r"[\d.]+$", figure.content)[0])
                assert abs(shown - measure.value) <= 0.0051, (drawing.title, figure.content, measure.working())


def test_a_dimension_is_as_long_as_the_size_that_it_says(many_fronts):
    for _build_up, set_out in many_fronts:
        drawing = draw_front(set_out, "it")
        for mark in drawing.marks:
            if isinstance(mark, Text) and mark.asks:
                (x1, y1), (x2, y2) = mark.asks.ends
                drawn = (abs(x2 - x1) + abs(y2 - y1)) * drawing.scale
                assert abs(drawn - mark.asks.measures[0].value) < 0.02


def test_paper_is_the_same_whether_it_could_be_asked_or_not(many_fronts):
    for build_up, set_out in many_fronts:
        for drawing in _drawings(build_up, set_out):
            mute = tuple(replace(m, asks=None) if isinstance(m, Text | Circle) else m for m in drawing.marks)
            assert to_svg(drawing) == to_svg(replace(drawing, marks=mute))
            assert "<a " not in to_svg(drawing)


def test_the_elevation_carries_the_holes_of_its_leaves_where_they_are(many_fronts):
    for _build_up, set_out in many_fronts:
        drawing = draw_front(set_out, "it")
        cups = [m for m in drawing.marks if isinstance(m, Circle) and m.role == "boring cup"]
        leaves = [e for e in set_out.elements if e.kind is PartKind.DOOR]
        counts = [len(leaf.hinge_ys) for leaf in leaves]
        assert len(cups) == sum(counts)
        assert max(counts) == set_out.hinges
        hinge_edges = [leaf.x if leaf.hinge_side == "left" else leaf.x + leaf.width for leaf in leaves]
        inward = cups[0].asks.measures[1].value
        # Holes of a leaf lie on one line; between two such lines stands what stands between the leaves' hinge edges.
        signs = [1 if leaf.hinge_side == "left" else -1 for leaf in leaves]
        wanted = [edge + sign * inward for edge, sign in zip(hinge_edges, signs, strict=True)]
        lines = [cups[sum(counts[:n])].x * drawing.scale for n in range(set_out.leaves)]
        for a, b in zip(lines[1:], wanted[1:], strict=True):
            assert abs((a - lines[0]) - (b - wanted[0])) < 0.01


def test_a_mark_that_is_moved_takes_along_what_it_measures():
    text = Text(1.0, 2.0, "8", asks=Asked((Measure(8.0, "gap"),), ends=((0.0, 1.0), (8.0, 1.0))))
    (shifted,) = moved([text], 10.0, 20.0)
    assert shifted.asks.ends == ((10.0, 21.0), (18.0, 21.0))
