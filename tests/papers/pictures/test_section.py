"""Level sections of both families, with and without hinge lining."""

import pytest

from rodbook.papers.pictures.across import across, meeting
from rodbook.papers.pictures.part_faces import short
from rodbook.papers.pictures.section import draw_section
from rodbook.setout import DimensionName, PartKind, with_run
from rodbook.working import Measure


def section(made, packer=8.0):
    build_up, set_out = made
    return draw_section(set_out, build_up, "C1", packer_mm=packer, packer_words=f"packer {short(packer)}")


def figures(made, read_svg):
    return read_svg(section(made)).texts("figure")


def test_inset_with_hinge_lining(front, read_svg):
    made = front("inset, painted", 827, 2022, 2)
    assert figures(made, read_svg) == ["bearing 12", "set back 6", "margin 3", "lap 15", "packer 8", "meeting gap 3"]


def test_inset_without_hinge_lining(front, read_svg):
    made = front("inset, painted", 509, 2022, 1, hinge_lining=False)
    assert figures(made, read_svg) == ["bearing 12", "set back 6", "margin 3", "packer 8"]


def test_lay_on(front, read_svg):
    made = front("lay-on within trim, painted", 914, 2118, 2)
    assert figures(made, read_svg) == ["bearing 4", "margin 4", "lap 10", "packer 8", "meeting gap 4"]
    with_lining = front("lay-on within trim, painted", 914, 2118, 2, hinge_lining=True)
    assert figures(with_lining, read_svg)[:3] == ["bearing 22", "margin 4", "lap 10"]


def test_laps_and_bearings_are_those_of_the_set_out(many_fronts):
    names = {
        "margin": ("margin at each side", "margin to the trim"),
        "bearing": ("bearing of the trim on the lining",),
        "lap": ("lap of the leaf over the hinge lining", "lap over each leg"),
    }
    checked = 0
    for build_up, set_out in many_fronts:
        told = {m.name: m.value for m in (*set_out.gaps, *set_out.dimensions)}
        for start, end, what, measure in across(set_out, build_up).stops:
            assert abs((end - start) - measure.value) < 1e-6
            values = [told[name] for name in names.get(what, ()) if name in told]
            for value in values:
                assert end - start == pytest.approx(value)
                checked += 1
    assert checked > 25


def test_boards_are_drawn_to_scale(many_fronts, read_svg):
    for made in many_fronts:
        set_out, drawing = made[1], section(made)
        svg, n = read_svg(drawing), drawing.scale
        trim = next((p.part for p in set_out.parts if p.part.kind is PartKind.TRIM_LEG), None)
        if trim is not None:
            points = svg.points(svg.tagged("polygon", "trim")[0])
            wide = max(x for x, _ in points) - min(x for x, _ in points)
            high = max(y for _, y in points) - min(y for _, y in points)
            assert (wide * n, high * n) == (
                pytest.approx(trim.width.value, abs=0.01),
                pytest.approx(trim.thickness.value, abs=0.01),
            )
        assert n == 2


def test_parts_are_named_with_their_sizes(front, read_svg):
    names = read_svg(section(front("inset, painted", 827, 2022, 2))).texts("part name")
    assert set(names) == {"wall or frame", "lining 18 × 140", "hinge lining 18 × 80", "trim 58 × 18", "leaf 22"}


def test_three_leaves_show_the_division(front, read_svg):
    svg = read_svg(section(front("lay-on within trim, painted", 1365, 2118, 3)))
    assert "division 18 × 120" in svg.texts("part name")


def test_a_deep_lining_is_broken_off(front, read_svg):
    deep = read_svg(section(front("inset, painted", 827, 2022, 2, lining_depth=600.0)))
    assert "lining 18 × 600" in deep.texts("part name")
    assert deep.height < 120


def test_no_packer_is_no_packer(front, read_svg):
    svg = read_svg(section(front("inset, painted", 827, 2022, 2), packer=0.0))
    assert not svg.tagged("polygon", "packer")
    assert not [text for text in svg.texts("figure") if text.startswith("packer")]


def test_room_and_inside_are_named(front, read_svg):
    assert set(read_svg(section(front("inset, painted", 827, 2022, 2))).texts("place")) == {"room", "inside"}


def test_every_drawing_is_sound(many_fronts, sound, read_svg):
    for made in many_fronts:
        drawing = section(made)
        sound(drawing)
        assert drawing.width <= 174
        assert len(read_svg(drawing).tagged("polygon", "scale bar")) == 4


@pytest.mark.parametrize("leaves", [3, 4])
def test_the_division_s_place_is_dimensioned_as_on_the_elevation(front, read_svg, leaves):
    made = front("inset, painted", 1600, 2022, leaves)
    place = made[1].divisions[0].value
    notes = read_svg(section(made)).texts("note")
    assert notes == [f"left face {short(place)}", "from the left leg"]
    assert read_svg(section(front("inset, painted", 827, 2022, 2))).texts("note") == []


@pytest.mark.parametrize(("leaves", "hand"), [(3, "left"), (3, "right"), (4, "left")])
def test_leaves_are_shown_meeting_over_their_division(front, leaves, hand):
    """The middle of three hangs on the division at its left or at its right, and two pairs meet over theirs."""
    _, set_out = front("inset, painted", 1600, 2022, leaves, hand)
    met = meeting(set_out)
    ends = met.divisions[0].near, met.divisions[-1].far
    assert sum(ends) == pytest.approx(0, abs=0.01)
    gap = met.leaves[1].face[0] - met.leaves[0].face[2]
    assert gap == pytest.approx(set_out.dimension(DimensionName.MEETING_GAP).value)


def test_a_rebated_meeting_is_drawn_as_the_parts_are_made(front, read_svg):
    """A tongue of 8 and the gap of 3 stands behind the first leaf, half as deep as the leaves."""
    for first in ("left", "right"):
        svg = read_svg(section(front("inset, painted", 827, 2022, 2, first, meeting="rebated", meeting_rebate=8.0)))
        assert "meeting gap 3" in svg.texts("figure")


def test_each_side_is_cut_for_itself(front):
    """Where the trim runs on at the right its leg there is ripped, and that of the left is not."""
    build_up, set_out = front("inset, painted", 509, 2022, 1)
    run = with_run(set_out, [], legs={"right": Measure(40, "half the pier")})
    widths = {side: across(run, build_up, side).boards[PartKind.TRIM_LEG].width.value for side in ("left", "right")}
    assert widths == {"left": 58, "right": 40}
