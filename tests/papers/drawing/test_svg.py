"""Drawings as SVG."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.papers.drawing.model import Circle, Drawing, Fill, Line, Pen, Shape, Text
from rodbook.papers.drawing.svg import ACCENT, INK, TINT, to_svg


def test_size_and_marks(read_svg):
    marks = (
        Shape(((0, 0), (10, 0), (10, 5)), Pen.OUTLINE, Fill.TINT, "outline"),
        Circle(3, 4, 1.5, role="hole 1"),
        Text(5, 5, "417"),
    )
    svg = read_svg(Drawing(20, 10.5, marks, "A part", 10))
    assert (svg.width, svg.height) == (20, 10.5)
    assert svg.root.get("viewBox") == "0 0 20 10.5"
    assert svg.texts() == ["417"]
    assert svg.circle("hole 1") == (3, 4, 1.5)
    assert svg.points(svg.tagged("polygon", "outline")[0]) == [(0, 0), (10, 0), (10, 5)]
    assert svg.tagged("title")[0].text == "A part"


def test_all_lettering_is_in_the_papers_font(read_svg):
    svg = read_svg(Drawing(20, 10, (Text(5, 5, "417"), Text(5, 9, "a", bold=True, upright=True)), "t", 1))
    assert {text.get("font-family") for text in svg.tagged("text")} == {"Barlow"}
    assert svg.tagged("text")[1].get("font-weight") == "600"


def test_capitals_are_as_high_as_asked(read_svg):
    (text,) = read_svg(Drawing(20, 10, (Text(5, 5, "H", height=3.5),), "t", 1)).tagged("text")
    assert float(text.get("font-size")) == pytest.approx(5.0)
    assert float(text.get("y")) == pytest.approx(6.75)


@given(st.text(max_size=40))
def test_any_text_stays_text(content):
    from defusedxml import ElementTree

    root = ElementTree.fromstring(to_svg(Drawing(20, 10, (Text(5, 5, content, role=content),), content, 1)))
    (text,) = [e for e in root.iter() if e.tag.endswith("}text")]
    kept = re.sub("[^\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]", " ", content)
    assert (text.text or "") == kept
    assert len(text) == 0


def test_lines_that_follow_on_each_other_become_one_path_and_keep_their_order(read_svg):
    lines = [Line(((n, 0), (n, 5)), Pen.HATCH, "hatch") for n in range(30)]
    svg = read_svg(Drawing(40, 10, (*lines, Circle(1, 1, 1), lines[0]), "t", 1))
    paths = svg.tagged("path", "hatch")
    assert [path.get("d").count("M") for path in paths] == [30, 1]


def test_lines_of_other_pens_stay_apart(read_svg):
    marks = (Line(((0, 0), (1, 1)), Pen.CUT), Line(((0, 0), (1, 1)), Pen.HIDDEN))
    paths = read_svg(Drawing(5, 5, marks, "t", 1)).tagged("path")
    assert [path.get("stroke-dasharray") for path in paths] == [None, "1.6 0.9"]


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2."""
    channels = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("ink", [INK, ACCENT])
@pytest.mark.parametrize("ground", ["#ffffff", TINT])
def test_ink_and_accent_are_legible_on_every_ground(ink, ground):
    assert (luminance(ground) + 0.05) / (luminance(ink) + 0.05) >= 7.0 - (ground == TINT and ink == ACCENT)
