"""Cuts on their sheet: each between the parts, none through one."""

from dataclasses import replace

import pytest

from rodbook.boards import Saw, cut_list
from rodbook.errors import RenderError
from rodbook.papers.pictures.cut_places import cut_places


def layouts(plan):
    saw = Saw(kerf=plan.book.saw.kerf, edge_trim=plan.book.saw.edge_trim)
    return [(layout, saw) for m in plan.materials if m.sheets for layout in m.sheets.layouts]


@pytest.mark.parametrize("name", ["converted-store", "timber-house", "stair"])
def test_no_cut_goes_through_a_part(plan_of, name):
    for layout, saw in layouts(plan_of(name)):
        for place in cut_places(layout, cut_list(layout, saw), saw):
            half = saw.kerf / 2
            for part in (*layout.placed, *layout.offcuts):
                low, high = (
                    (part.y, part.y + part.width) if place.direction == "along" else (part.x, part.x + part.length)
                )
                start, end = (
                    (part.x, part.x + part.length) if place.direction == "along" else (part.y, part.y + part.width)
                )
                beside = place.end <= start + 0.01 or end <= place.start + 0.01
                assert beside or place.at + half <= low + 0.01 or place.at - half >= high - 0.01


@pytest.mark.parametrize("name", ["converted-store", "timber-house"])
def test_every_part_has_a_cut_or_the_trim_at_each_side(plan_of, name):
    for layout, saw in layouts(plan_of(name)):
        places = cut_places(layout, cut_list(layout, saw), saw)
        half = saw.kerf / 2
        edges = {
            d: {round(p.at + s * half, 2) for p in places if p.direction == d for s in (-1, 1)}
            for d in ("along", "across")
        }
        for part in layout.placed:
            assert round(part.y, 2) in edges["along"]
            assert round(part.x, 2) in edges["across"]


def test_numbers_are_those_of_the_list(plan_of):
    for layout, saw in layouts(plan_of("timber-house")):
        cuts = cut_list(layout, saw)
        assert [p.number for p in cut_places(layout, cuts, saw)] == [s.number for s in cuts.steps]
        assert [p.direction for p in cut_places(layout, cuts, saw)] == [s.direction for s in cuts.steps]


def test_without_edge_trim_there_are_no_trim_cuts():
    from decimal import Decimal

    from rodbook.boards import Piece, Sheet, lay_out

    saw = Saw(kerf=3.2, edge_trim=0.0)
    plan = lay_out([Piece("D1", 600, 300, 3)], [Sheet("s", 1300, 700, Decimal(1))], saw, seconds=1)
    for layout in plan.layouts:
        assert not [p for p in cut_places(layout, cut_list(layout, saw), saw) if p.trim]


def test_a_list_of_another_layout_is_refused(plan_of):
    (layout, saw), (other, _) = [x for x in layouts(plan_of("timber-house")) if len(x[0].placed) > 5][:2]
    with pytest.raises(RenderError, match=r"does not fit its layout: \d+ cuts told, \d+ drawn"):
        cut_places(layout, cut_list(other, saw), saw)


def test_a_list_with_a_wrong_direction_is_refused(plan_of):
    layout, saw = layouts(plan_of("timber-house"))[0]
    cuts = cut_list(layout, saw)
    wrong = replace(cuts, steps=(replace(cuts.steps[0], direction="across"), *cuts.steps[1:]))
    with pytest.raises(RenderError):
        cut_places(layout, wrong, saw)
