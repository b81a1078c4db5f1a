"""The whole of a bored part: every hole where it belongs, in real millimetres read back from the paper."""

import pytest

from rodbook.papers.pictures.part import draw_whole_part
from rodbook.papers.pictures.part_faces import holes, short


def bored(made):
    return [p.part for p in made[1].parts if p.part.borings]


def test_every_hole_is_in_its_place_and_of_its_size(many_fronts, read_svg):
    seen = 0
    for made in many_fronts:
        for part in bored(made):
            drawing = draw_whole_part(part, "D1")
            svg, n = read_svg(drawing), drawing.scale
            left, top, right, foot = svg.box("outline")
            assert (right - left) * n == pytest.approx(part.width.value, abs=0.05 * n / 10)
            assert (foot - top) * n == pytest.approx(part.length.value, abs=0.05 * n / 10)
            for hole in holes(part):
                x, y, r = svg.circle(f"hole {hole.number}")
                assert (x - left) * n == pytest.approx(hole.boring.x.value, abs=0.002 * n)
                assert (y - top) * n == pytest.approx(hole.boring.y.value, abs=0.002 * n)
                assert 2 * r * n == pytest.approx(hole.boring.diameter, abs=0.002 * n)
                seen += 1
    assert seen > 150


def test_running_figures_are_the_heights_from_the_datum(many_fronts, read_svg):
    for made in many_fronts:
        for part in bored(made):
            svg = read_svg(draw_whole_part(part, "D1"))
            found = holes(part)
            wanted = ["0", *(short(h.boring.y.value) for h in found), short(part.length.value), short(part.width.value)]
            if part.notch is not None:
                wanted += [short(part.notch.deep.value), short(part.notch.high.value)]
            assert sorted(svg.texts("figure")) == sorted(wanted)
            assert svg.texts("hole number") == [str(h.number) for h in found]
            assert svg.texts("datum") == ["datum"]


def test_the_datum_is_the_top_left_corner(front, read_svg):
    for part in bored(front("inset, painted", 827, 2022, 2)):
        svg = read_svg(draw_whole_part(part, "D1"))
        left, top, _, _ = svg.box("outline")
        assert svg.circle("datum")[:2] == (left, top)


def test_left_and_right_are_mirror_images(front, read_svg):
    made = front("inset, painted", 827, 2022, 2)
    (left, right) = (p for p in bored(made) if p.kind == "door")
    pictures = [read_svg(draw_whole_part(part, "D1")) for part in (left, right)]
    (a, _, a_end, _), (b, _, b_end, _) = (svg.box("outline") for svg in pictures)
    for n in range(1, len(left.borings) + 1):
        assert pictures[0].circle(f"hole {n}")[0] - a == pytest.approx(
            b_end - pictures[1].circle(f"hole {n}")[0], abs=1e-3
        )
    assert a_end - a == pytest.approx(b_end - b)


def test_every_drawing_is_sound_and_carries_its_scale_bar(many_fronts, read_svg, sound):
    for made in many_fronts:
        for part in bored(made):
            drawing = draw_whole_part(part, "12-door-right")
            sound(drawing)
            assert len(read_svg(drawing).tagged("polygon", "scale bar")) == 4


def test_seen_edges_are_marked_on_their_edges(front, read_svg):
    made = front("inset, painted", 827, 2022, 2)
    door, carrier = bored(made)[0], bored(made)[2]
    assert carrier.edges == ("front",)
    drawn = [read_svg(draw_whole_part(part, "x")) for part in (door, carrier)]
    left, _, right, _ = drawn[1].box("outline")
    moves = [m.split()[0].lstrip("M") for p in drawn[1].tagged("path", "seen edge") for m in p.get("d").split("M")[1:]]
    assert {float(x) < left for x in moves} == {True}
    assert right > left
    assert len(drawn[0].tagged("path", "seen edge")) >= 1


def test_the_leading_edge_is_named(front, read_svg):
    made = front("inset, painted", 827, 2022, 2)
    names = [read_svg(draw_whole_part(part, "x")).texts("edge name") for part in bored(made)]
    assert names == [["hinge edge"], ["hinge edge"], ["front edge"], ["front edge"]]


def test_grain_has_its_arrow_and_its_word(front, read_svg, book):
    from dataclasses import replace

    part = bored(front("inset, painted", 827, 2022, 2))[0]
    assert read_svg(draw_whole_part(part, "x")).texts("grain") == []
    assert read_svg(draw_whole_part(replace(part, grain=True), "x")).texts("grain") == ["grain"]


def test_a_housing_is_a_hidden_line(front, read_svg):
    made = front("lay-on within trim, painted", 914, 2118, 2, head_joint="housed", housing=6.0)
    leg = next(p for p in bored(made) if p.kind == "lining leg")
    assert len(read_svg(draw_whole_part(leg, "x")).tagged("path", "housing")) == 1


def test_the_title_says_what_is_drawn(front):
    part = bored(front("inset, painted", 827, 2022, 2))[0]
    assert draw_whole_part(part, "3-door-left").title == (
        "door 3-door-left, 1993 by 391 by 22 mm, 12 holes, seen from the back, the bored face"
    )


def test_less_room_gives_a_smaller_scale(front):
    part = bored(front("inset, painted", 827, 2022, 2))[0]
    assert draw_whole_part(part, "x").scale == 10
    assert draw_whole_part(part, "x", room=(30.0, 222.0)).scale == 20
