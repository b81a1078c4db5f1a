"""Parts without holes."""

import pytest

from rodbook.job.models import Panel
from rodbook.papers.pictures.plain import draw_plain_part
from rodbook.setout import panel_part


def plain(made):
    return [p.part for p in made[1].parts if not p.part.borings]


@pytest.fixture(scope="module")
def panel(book):
    given = Panel(mark="P1", board="18 mm birch plywood", length=1505, width=620)
    return panel_part(given, book.board("18 mm birch plywood"), finish="primed", coats=2)


def test_length_is_to_scale(many_fronts, read_svg):
    for made in many_fronts:
        for part in plain(made):
            drawing = draw_plain_part(part, "x")
            left, top, right, foot = read_svg(drawing).box("outline")
            assert (right - left) * drawing.scale == pytest.approx(part.length.value, abs=0.002 * drawing.scale)
            assert (foot - top) * drawing.scale == pytest.approx(part.width.value, abs=0.002 * drawing.scale)


def test_a_mitre_runs_back_by_the_width_along_the_inner_edge(front, read_svg):
    made = front("inset, painted", 827, 2022, 2)
    legs = [p for p in plain(made) if p.kind == "trim leg"]
    (head,) = [p for p in plain(made) if p.kind == "trim head"]
    assert {leg.hand for leg in legs} == {"left", "right"}
    for part in (*legs, head):
        drawing = draw_plain_part(part, "x")
        svg = read_svg(drawing)
        upper, upper_end, lower_end, lower = svg.points(svg.tagged("polygon", "outline")[0])
        outer_up = part.hand != "left"
        outer, inner = (
            ((upper, upper_end), (lower, lower_end)) if outer_up else ((lower, lower_end), (upper, upper_end))
        )
        cut = part.width.value / drawing.scale
        assert inner[0][0] - outer[0][0] == pytest.approx(cut, abs=0.002)
        assert outer[1][0] - inner[1][0] == pytest.approx(cut if part is head else 0.0, abs=0.002)
        words = svg.texts("edge name")
        assert words == [f"outer edge, to the long point{'s' if part is head else ''}", "inner edge"]


def test_square_parts_are_square(front, read_svg):
    made = front("lay-on within trim, painted", 914, 2118, 2)
    for part in plain(made):
        svg = read_svg(draw_plain_part(part, "x"))
        assert len({x for x, _ in svg.points(svg.tagged("polygon", "outline")[0])}) == 2


def test_length_width_and_thickness_are_written(many_fronts, panel, read_svg):
    from rodbook.papers.pictures.part_faces import short

    parts = [part for made in many_fronts for part in plain(made)]
    for part in (*parts, panel):
        figures = read_svg(draw_plain_part(part, "x")).texts("figure")
        assert sorted(figures) == sorted(short(m.value) for m in (part.length, part.width, part.thickness))


def test_every_drawing_is_sound(many_fronts, panel, sound, read_svg):
    parts = [part for made in many_fronts for part in plain(made)]
    assert len(parts) > 40
    for part in (*parts, panel):
        drawing = draw_plain_part(part, "12-cross")
        sound(drawing)
        assert drawing.width <= 174
        assert len(read_svg(drawing).tagged("polygon", "scale bar")) == 4


def test_a_panel_shows_its_grain(panel, read_svg):
    assert read_svg(draw_plain_part(panel, "P1")).texts("grain") == ["grain"]
