"""Drawings of fronts under a raked head: sound, to scale, and dimensioned from the foot."""

import math

import pytest

from rodbook.papers.pictures.corner import draw_corner
from rodbook.papers.pictures.front import draw_front
from rodbook.papers.pictures.packing import draw_packing
from rodbook.papers.pictures.part import draw_whole_part
from rodbook.papers.pictures.part_faces import from_datum, holes
from rodbook.papers.pictures.plain import draw_plain_part
from rodbook.papers.pictures.section import draw_section
from rodbook.setout import PartKind, RakedFrame, Stock, schedule, set_out
from rodbook.working import Measure


def _stock(book, build_up):
    return Stock(
        book.board(build_up.leaf_board),
        book.board(build_up.lining_board),
        book.section(build_up.trim) if build_up.trim else None,
        book.hinge(build_up.hinge),
        book.hinge_counts,
    )


def _fronts(book):
    shapes = [
        (0, (636, 2000, 1523), 1, "left", False, {}),
        (0, (880, 1140, 1800), 2, "left", True, {"trim_joint": "butted"}),
        (0, (500, 1300, 900), 1, "right", False, {"hinge_lining": False, "head_joint": "over", "trim": None}),
        (1, (900, 1900, 1240), 2, "right", False, {}),
        (1, (450, 900, 1400), 1, "left", True, {"trim_joint": "mitred"}),
    ]
    for which, (width, left, right), leaves, hand, sill, changes in shapes:
        build_up = book.build_ups[which].model_copy(update=changes)
        mm = (
            Measure(width, "lining width"),
            Measure(left, "lining height, left"),
            Measure(right, "lining height, right"),
        )
        yield build_up, set_out(build_up, _stock(book, build_up), RakedFrame(*mm, leaves, hand, sill))


def test_every_drawing_of_a_raked_front_is_sound(book, sound):
    for build_up, result in _fronts(book):
        sound(draw_front(result, "S1"))
        sound(draw_section(result, build_up, "S1", packer_mm=6, packer_words="packer 6"))
        for line in schedule(("S1", p.part, p.quantity) for p in result.parts):
            if line.part.borings:
                sound(draw_whole_part(line.part, line.mark))
                sound(draw_corner(line.part, line.mark))
            else:
                sound(draw_plain_part(line.part, line.mark))


def test_packers_of_the_stair_stand_square_to_the_slope(plan_of, sound, read_svg):
    plan = plan_of("stair")
    for entry in plan.openings:
        drawing = draw_packing(entry.set_out, entry.packers, entry.opening.mark)
        sound(drawing)
        assert len(read_svg(drawing).texts("packer figure")) == 9


def test_a_sloping_leaf_is_drawn_to_scale_with_both_heights(plan_of, read_svg):
    door = next(line for line in plan_of("stair").schedule if line.part.kind is PartKind.DOOR)
    drawing = draw_whole_part(door.part, door.mark)
    svg = read_svg(drawing)
    (shape,) = svg.tagged("polygon", "outline")
    points = svg.points(shape)
    heights = sorted(max(y for _, y in points) - y for x, y in points)[-2:]
    assert [h * drawing.scale for h in heights] == pytest.approx([1520, 1925.5], abs=0.02)
    assert {"1925.5", "1520", "555", "36.2°"} <= set(svg.texts())


def test_holes_of_a_sloping_leaf_run_up_from_its_foot(plan_of, read_svg):
    door = next(line for line in plan_of("stair").schedule if line.part.kind is PartKind.DOOR)
    ups = [from_datum(door.part, hole.boring).value for hole in holes(door.part) if hole.boring.kind == "cup"]
    assert ups == sorted(ups, reverse=True)
    assert ups[-1] == 100
    assert "100" in read_svg(draw_whole_part(door.part, door.mark)).texts("figure")
    corner = read_svg(draw_corner(door.part, door.mark))
    assert {"77.5", "100", "122.5", "22.5"} <= set(corner.texts("figure"))
    assert drawing_title(door).startswith("Lowest hinge of door")


def drawing_title(line):
    return draw_corner(line.part, line.mark).title


def test_each_slanting_end_has_the_angle_for_the_saw(plan_of, read_svg):
    plan = plan_of("stair")
    head = next(line for line in plan.schedule if line.part.kind is PartKind.TRIM_HEAD)
    angles = read_svg(draw_plain_part(head.part, head.mark)).texts("angle")
    slope = next(e.set_out for e in plan.openings if e.opening.mark == head.openings[0][0])
    degrees = slope.dimension("slope of the head, in degrees").value
    assert angles == [f"{45 + degrees / 2:.1f}°", f"{45 - degrees / 2:.1f}°"]
    assert math.isclose(sum(c.degrees.value for c in head.part.cuts), 90)
