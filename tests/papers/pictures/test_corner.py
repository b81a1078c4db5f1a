"""The top hinge, enlarged."""

import pytest

from rodbook.papers.pictures.corner import draw_corner
from rodbook.papers.pictures.part_faces import first_hinge, holes, leading_edge


def bored(made):
    return [p.part for p in made[1].parts if p.part.borings]


def test_what_is_set_at_the_drill_is_written(front, read_svg):
    door, _, carrier, _ = bored(front("inset, painted", 827, 2022, 2))
    svg = read_svg(draw_corner(door, "1-door-left"))
    assert {"22.5", "32", "77.5", "100", "122.5", "13", "22", "5", "35"} <= set(svg.texts("figure"))
    assert svg.texts("note") == ["pilot Ø2.5", "8 deep", "cup Ø35", "13 deep", "bored face"]
    svg = read_svg(draw_corner(carrier, "1-sub-left"))
    assert {"37", "87", "119", "12", "18"} <= set(svg.texts("figure"))
    assert "plate Ø5" in svg.texts("note")


def test_holes_keep_their_distance_from_the_leading_edge(many_fronts, read_svg):
    for made in many_fronts:
        for part in bored(made):
            drawing = draw_corner(part, "x")
            svg, n = read_svg(drawing), drawing.scale
            (outline,) = svg.tagged("path", "outline")
            points = [tuple(map(float, p.lstrip("M").split())) for p in outline.get("d").split(" L")]
            edge, top = points[1]
            for hole in first_hinge(holes(part)):
                x, y, _ = svg.circle(f"hole {hole.number}")
                inward = hole.boring.x.value if leading_edge(part) == "left" else part.width.value - hole.boring.x.value
                assert abs(x - edge) * n == pytest.approx(inward, abs=0.002 * n)
                assert (y - top) * n == pytest.approx(hole.boring.y.value, abs=0.002 * n)


def test_the_section_shows_depth_and_what_is_left(front, read_svg):
    drawing = draw_corner(bored(front("inset, painted", 827, 2022, 2))[0], "x")
    svg = read_svg(drawing)
    points = svg.points(svg.tagged("polygon", "section")[0])
    top, foot = min(y for _, y in points), max(y for _, y in points)
    bottom = points[2][1]
    assert (foot - top) * drawing.scale == pytest.approx(22)
    assert (bottom - top) * drawing.scale == pytest.approx(13)
    assert abs(points[1][0] - points[0][0]) * drawing.scale == pytest.approx(5)


def test_every_drawing_is_sound(many_fronts, sound, read_svg):
    for made in many_fronts:
        for part in bored(made):
            drawing = draw_corner(part, "D1")
            sound(drawing)
            assert len(read_svg(drawing).tagged("polygon", "scale bar")) == 4
            assert drawing.width < 85
