"""Layouts of sheets and lengths."""

from decimal import Decimal

import pytest

from rodbook.boards import BarPattern, Piece, Saw, Sheet, StickCut, cut_list, lay_out
from rodbook.papers.pictures.layout import draw_length, draw_sheet

SAW = Saw(kerf=3.2, edge_trim=10.0)


def sheets(plan):
    return [layout for m in plan.materials if m.sheets for layout in m.sheets.layouts]


def drawn(layout, *, grain=False):
    return draw_sheet(layout, cut_list(layout, SAW), SAW, grain=grain)


def size_of(svg, element):
    xs, ys = zip(*svg.points(element), strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


@pytest.mark.parametrize("name", ["converted-store", "timber-house", "stair"])
def test_parts_lie_to_scale_with_mark_and_size(plan_of, read_svg, name):
    for layout in sheets(plan_of(name)):
        drawing = drawn(layout)
        svg, n = read_svg(drawing), drawing.scale
        pieces = svg.tagged("polygon", "piece")
        assert len(pieces) == len(layout.placed)
        for element, placed in zip(pieces, layout.placed, strict=True):
            wide, high = size_of(svg, element)
            assert wide * n == pytest.approx(placed.length, abs=0.003 * n)
            assert high * n == pytest.approx(placed.width, abs=0.003 * n)
        words = " ".join(svg.texts("piece"))
        for placed in layout.placed:
            assert placed.name in words


def test_cuts_are_numbered_in_order_and_every_number_is_there_once(plan_of, read_svg):
    for layout in sheets(plan_of("converted-store")):
        svg = read_svg(drawn(layout))
        count = len(cut_list(layout, SAW).steps)
        numbers = [t.text for t in svg.tagged("text") if (t.get("data-role") or "").startswith("cut ")]
        assert sorted(map(int, numbers)) == list(range(1, count + 1))
        lines = [p.get("data-role") for p in svg.tagged("path") if (p.get("data-role") or "").startswith("cut line")]
        assert len(lines) == count


def test_offcuts_are_hatched_and_the_largest_says_keep(plan_of, read_svg):
    for layout in sheets(plan_of("timber-house")):
        svg = read_svg(drawn(layout))
        assert len(svg.tagged("polygon", "offcut")) == len(layout.offcuts)
        assert svg.tagged("path", "hatch")
        if layout.largest_offcut:
            assert any(text.startswith("offcut, keep") for text in svg.texts("offcut"))


def test_the_offcut_that_is_kept_says_its_label(plan_of, read_svg):
    layout = next(x for x in sheets(plan_of("converted-store")) if x.largest_offcut and x.largest_offcut.width > 300)
    svg = read_svg(draw_sheet(layout, cut_list(layout, SAW), SAW, grain=False, keep="O-18 to O-19"))
    assert any(text.startswith("keep O-18 to O-19") for text in svg.texts("offcut"))


@pytest.mark.parametrize("name", ["converted-store", "timber-house", "stair"])
def test_every_drawing_is_sound(plan_of, sound, read_svg, name):
    for layout in sheets(plan_of(name)):
        drawing = drawn(layout)
        sound(drawing)
        assert drawing.width <= 257
        assert drawing.height <= 146
        assert len(read_svg(drawing).tagged("polygon", "scale bar")) == 4


@pytest.fixture(scope="module")
def small():
    pieces = [Piece("tiny", 30, 12, 4), Piece("slip", 400, 22, 3), Piece("D1", 700, 400, 2)]
    return lay_out(pieces, [Sheet("s", 1300, 700, Decimal(1))], SAW, seconds=1).layouts[0]


def test_parts_too_small_for_lettering_are_named_outside(small, read_svg):
    drawing = drawn(small)
    svg = read_svg(drawing)
    assert sum("tiny" in text for text in svg.texts("piece")) == 4
    assert len(svg.tagged("circle", "pointer")) >= 4


def test_grain_runs_along_the_sheet(small, read_svg):
    assert read_svg(drawn(small, grain=True)).texts("grain") == ["grain"]
    assert read_svg(drawn(small)).texts("grain") == []


def test_a_turned_part_says_so(read_svg):
    plan = lay_out([Piece("1-head", 600, 200, 1, may_turn=True)], [Sheet("s", 340, 700, Decimal(1))], SAW, seconds=1)
    assert plan.layouts[0].placed[0].turned
    assert any("turned" in text for text in read_svg(drawn(plan.layouts[0])).texts("piece"))


PATTERN = BarPattern(
    "70 x 22",
    4400.0,
    Decimal(1),
    3,
    (StickCut("1-trim", 0.0, 2114.0), StickCut("3-cross", 2117.2, 1046.0), StickCut("b", 3166.4, 40.0)),
    1190.4,
)


def test_a_length_is_to_scale_along_it(read_svg, sound):
    drawing = draw_length(PATTERN)
    sound(drawing)
    svg, n = read_svg(drawing), drawing.scale
    lengths = [size_of(svg, e)[0] * n for e in svg.tagged("polygon", "piece")]
    assert lengths == pytest.approx([2114, 1046, 40], abs=0.003 * n)
    (rest,) = svg.tagged("polygon", "offcut")
    assert size_of(svg, rest)[0] * n == pytest.approx(1190.4, abs=0.003 * n)
    assert svg.texts("offcut") == ["rest 1190.4"]
    assert [t.text for t in svg.tagged("text") if (t.get("data-role") or "").startswith("cut ")] == ["1", "2", "3"]


def test_a_length_used_to_its_end_has_one_cut_less(read_svg):
    pattern = BarPattern("b", 2003.2, Decimal(1), 1, (StickCut("a", 0.0, 1000.0), StickCut("b", 1003.2, 1000.0)), 0.0)
    svg = read_svg(draw_length(pattern))
    assert [t.text for t in svg.tagged("text") if (t.get("data-role") or "").startswith("cut ")] == ["1"]
    assert not svg.tagged("polygon", "offcut")


@pytest.mark.parametrize("name", ["converted-store", "timber-house"])
def test_lengths_of_the_samples_are_sound(plan_of, sound, name):
    patterns = [p for m in plan_of(name).materials if m.lengths for p in m.lengths.patterns]
    assert patterns
    for pattern in patterns:
        sound(draw_length(pattern))


def test_what_is_wanted_elsewhere_has_a_second_outline_within_its_own(plan_of, sound, read_svg):
    found = 0
    for _, material, layout in plan_of("galley").layouts():
        names = material.wanted_names
        drawing = draw_sheet(layout, cut_list(layout, SAW), SAW, grain=False, wanted=names)
        sound(drawing)
        svg = read_svg(drawing)
        own, more = svg.tagged("polygon", "piece"), svg.tagged("polygon", "wanted")
        assert len(own) == sum(p.name not in names for p in layout.placed)
        inner = svg.tagged("polygon", "wanted elsewhere")
        assert len(more) == len(inner) == sum(p.name in names for p in layout.placed)
        assert all(frame.get("stroke-dasharray") for frame in inner)
        for outer, frame in zip(more, inner, strict=True):
            (wide, high), (less_wide, less_high) = size_of(svg, outer), size_of(svg, frame)
            assert 0.3 < wide - less_wide < 2
            assert 0.3 < high - less_high < 2
        words = svg.texts("wanted")
        assert all(any(name in word for word in words) for name in {p.name for p in layout.placed} & names)
        found += len(more)
        if more:
            assert f"{len(more)} pieces wanted elsewhere" in drawing.title
    assert found > 3


def test_no_offcut_says_keep_where_none_is_kept(plan_of, read_svg):
    layout = next(x for x in sheets(plan_of("timber-house")) if x.largest_offcut)
    svg = read_svg(draw_sheet(layout, cut_list(layout, SAW), SAW, grain=False, keep=None))
    assert not any("keep" in text for text in svg.texts("offcut"))
