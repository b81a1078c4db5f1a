"""The plumb cut at the foot: what is drawn stands where the assembly has it, whatever gives way at the plinth."""

import pytest

from rodbook.papers.pictures.foot import draw_foot
from rodbook.papers.pictures.part import draw_whole_part
from rodbook.papers.pictures.plain import draw_plain_part
from rodbook.setout import PartKind

INSET, PLAIN = "inset, painted", "lay-on without trim, run of cupboards"


def test_without_a_plinth_there_is_none(front):
    _build_up, result = front(INSET, 827, 2022, 2)
    assert draw_foot(result, "x") is None


@pytest.mark.parametrize(("name", "kind", "deep"), [(INSET, "hinge lining", 36.0), (PLAIN, "division", 58.0)])
def test_the_upright_is_cut_out_as_far_as_the_back_of_the_plinth(front, read_svg, name, kind, deep):
    _build_up, result = front(name, 827, 2022, 2, plinth=100.0, plinth_set_back=40.0)
    drawing = draw_foot(result, "x")
    svg = read_svg(drawing)
    (upright,) = svg.tagged("polygon", kind)
    points = [(drawing.scale * x, drawing.scale * y) for x, y in svg.points(upright)]
    (plinth,) = svg.tagged("polygon", "plinth")
    cut = [(drawing.scale * x, drawing.scale * y) for x, y in svg.points(plinth)]
    back, front_of_it = min(x for x, _ in cut), max(x for x, _ in cut)
    assert front_of_it - back == pytest.approx(18, abs=0.2)
    assert max(y for _, y in cut) - min(y for _, y in cut) == pytest.approx(100, abs=0.2)
    face = max(x for x, _ in points)
    foot = max(y for _, y in points)
    at_foot = max(x for x, y in points if abs(y - foot) < 0.2)
    assert face - at_foot == pytest.approx(deep, abs=0.2)
    assert at_foot == pytest.approx(back, abs=0.2)
    assert "set back 40" in svg.texts()
    assert "plinth 100" in svg.texts()


@pytest.mark.parametrize("way", ["notched", "stood on", "bays"])
def test_the_foot_says_what_gives_way(front, read_svg, way):
    _build_up, result = front(PLAIN, 1400, 2022, 3, plinth=100.0, plinth_set_back=40.0, at_plinth=way)
    drawing = draw_foot(result, "x")
    svg = read_svg(drawing)
    (upright,) = svg.tagged("polygon", "division")
    corners = svg.points(upright)
    floor = svg.points(svg.tagged("polygon", "plinth")[0])
    reaches = max(y for _, y in corners) * drawing.scale
    low = max(y for _, y in floor) * drawing.scale
    assert reaches == pytest.approx(low - (100 if way == "stood on" else 0), abs=0.2)
    assert len(set(corners)) >= (6 if way == "notched" else 4)


def test_a_notched_part_is_drawn_with_its_notch(front, read_svg):
    _, result = front(INSET, 827, 2022, 2, plinth=100.0, plinth_set_back=40.0)
    for placed in (p for p in result.parts if p.part.kind is PartKind.HINGE_LINING):
        part = placed.part
        drawing = draw_whole_part(part, "K1")
        svg = read_svg(drawing)
        points = [(drawing.scale * x, drawing.scale * y) for x, y in svg.points(svg.tagged("polygon", "outline")[0])]
        left, right, foot = min(x for x, _ in points), max(x for x, _ in points), max(y for _, y in points)
        at_foot = [x for x, y in points if abs(y - foot) < 0.5]
        whole = (left, right - 36) if part.hand == "right" else (left + 36, right)
        assert (min(at_foot), max(at_foot)) == pytest.approx(whole, abs=0.3)
        assert {"36", "100"} <= set(svg.texts())


def test_a_notched_part_without_holes_too(front, read_svg):
    _, result = front(PLAIN, 1000, 2022, 2, plinth=100.0, plinth_set_back=40.0)
    (division,) = [p.part for p in result.parts if p.part.kind is PartKind.DIVISION]
    drawing = draw_plain_part(division, "V1")
    svg = read_svg(drawing)
    assert len(svg.points(svg.tagged("polygon", "outline")[0])) == 6
    assert {"58", "100"} <= set(svg.texts())


def test_lettering_is_large_enough_and_clear_of_other_lettering(front, sound):
    for name, leaves, width in ((INSET, 2, 827), (PLAIN, 1, 500), (PLAIN, 3, 1400), (PLAIN, 4, 1800)):
        for way in ("notched", "stood on", "bays"):
            for back, high in ((0.0, 60.0), (40.0, 100.0), (60.0, 150.0)):
                _build_up, result = front(name, width, 2022, leaves, plinth=high, plinth_set_back=back, at_plinth=way)
                sound(draw_foot(result, "x"))
                for placed in result.parts:
                    if placed.part.notch is not None:
                        sound((draw_whole_part if placed.part.borings else draw_plain_part)(placed.part, "K1"))
