"""Elevations: leaves, gaps and the side a leaf hangs on, read back in real millimetres."""

from itertools import pairwise

import pytest

from rodbook.papers.drawing.model import Circle, Line, Shape, Text, View
from rodbook.papers.pictures.front import HUNG_KEY, draw_front, front_marks
from rodbook.papers.pictures.part_faces import short
from rodbook.setout import PartKind


def leaves(set_out):
    return [e for e in set_out.elements if e.kind is PartKind.DOOR]


def rectangles(svg, role):
    return [
        (min(x for x, _ in p), min(y for _, y in p), max(x for x, _ in p), max(y for _, y in p))
        for p in (svg.points(e) for e in svg.tagged("polygon", role))
    ]


def test_leaves_are_drawn_to_scale_and_in_their_places(many_fronts, read_svg):
    for _build_up, set_out in many_fronts:
        drawing = draw_front(set_out, "C1")
        svg, n = read_svg(drawing), drawing.scale
        drawn = rectangles(svg, "door")
        assert len(drawn) == set_out.leaves
        for (left, top, right, foot), size in zip(drawn, set_out.leaf_sizes, strict=True):
            assert (right - left) * n == pytest.approx(size.width.value, abs=0.003 * n)
            assert (foot - top) * n == pytest.approx(set_out.leaf_height.value, abs=0.003 * n)
        for a, b in pairwise(drawn):
            assert (b[0] - a[2]) * n == pytest.approx(set_out.dimension("meeting gap").value, abs=0.003 * n)


def test_what_is_seen_is_written(many_fronts, read_svg):
    for build_up, set_out in many_fronts:
        figures = read_svg(draw_front(set_out, "C1")).texts("figure")
        sides = {"inset": "margin at each side", "lay-on within trim": "margin to the trim"}
        side = sides.get(build_up.family, "reveal at each side")
        wanted = [short(size.width.value) for size in set_out.leaf_sizes]
        if set_out.dimension(side).value:
            wanted += [short(set_out.dimension(side).value)] * 2
        if set_out.leaves > 1:
            wanted += [short(set_out.dimension("meeting gap").value)] * (set_out.leaves - 1)
        left = list(figures)
        for figure in (*wanted, short(set_out.leaf_height.value), short(set_out.dimension("gap under the leaf").value)):
            left.remove(figure)
        assert f"lining {short(set_out.outer_width.value)}" in left
        assert f"lining {short(set_out.outer_height.value)}" in left


def test_broken_lines_meet_at_the_side_that_the_leaf_hangs_on(many_fronts, read_svg):
    for _build_up, set_out in many_fronts:
        marks = front_marks(set_out, View(1, up=True))
        lines = [m for m in marks if isinstance(m, Line) and m.role == "swing"]
        for leaf, line in zip(leaves(set_out), lines, strict=True):
            near = leaf.x if leaf.hinge_side == "left" else leaf.x + leaf.width
            far = leaf.x + leaf.width if leaf.hinge_side == "left" else leaf.x
            assert [x for x, _ in line.points] == [far, near, far]
        hinges = [m for m in marks if m.role == "hinge"]
        assert len(hinges) == sum(len(leaf.hinge_ys) for leaf in leaves(set_out))


def test_the_side_is_said_in_words_too(front, read_svg):
    _build_up, set_out = front("inset, painted", 509, 2022, 1, "right")
    svg = read_svg(draw_front(set_out, "C6"))
    assert svg.texts("leaf") == ["leaf 1", "hung right"]
    assert "meet at the side a leaf hangs on" in HUNG_KEY


def test_a_small_front_leaves_its_words_out_rather_than_cover_them(front):
    _build_up, set_out = front("inset, painted", 430, 420, 3, trim=None)
    assert not [m for m in front_marks(set_out, View(50, up=True)) if isinstance(m, Text)]


@pytest.mark.parametrize("sill", [False, True])
def test_mitred_trim_is_drawn_mitred(front, read_svg, sill):
    _build_up, set_out = front("lay-on within trim, painted", 914, 2118, 2, trim_joint="mitred", sill=sill)
    drawing = draw_front(set_out, "C1")
    svg = read_svg(drawing)
    pieces = [svg.points(e) for role in ("trim leg", "trim head") for e in svg.tagged("polygon", role)]
    assert len(pieces) == (4 if sill else 3)
    slants = [
        (a, b)
        for piece in pieces
        for a, b in zip(piece, (*piece[1:], piece[0]), strict=True)
        if abs(a[0] - b[0]) > 0.01 and abs(a[1] - b[1]) > 0.01
    ]
    assert len(slants) == (8 if sill else 4)
    for a, b in slants:
        assert abs(a[0] - b[0]) == pytest.approx(abs(a[1] - b[1]), abs=0.005)
        assert abs(a[0] - b[0]) * drawing.scale == pytest.approx(70, abs=0.1)


def test_there_is_a_floor_where_there_is_no_sill(front, read_svg):
    for sill in (False, True):
        _build_up, set_out = front("lay-on within trim, painted", 612, 1466, 1, sill=sill)
        assert bool(read_svg(draw_front(set_out, "L2")).tagged("path", "floor")) is not sill


def test_every_drawing_is_sound(many_fronts, sound, read_svg):
    for _build_up, set_out in many_fronts:
        drawing = draw_front(set_out, "C1")
        sound(drawing)
        assert len(read_svg(drawing).tagged("polygon", "scale bar")) == 4
        assert drawing.width <= 174
        assert drawing.height <= 175


@pytest.mark.parametrize("first", ["left", "right"])
def test_cups_stand_in_from_the_hinge_edge_whichever_leaf_has_the_tongue(front, read_svg, first):
    """The second leaf is wider by its tongue, which lies behind the first: its cups stay 22.5 from its hinge edge."""
    _, set_out = front("inset, painted", 827, 2022, 2, first, meeting="rebated", meeting_rebate=8.0)
    edges = [(body.side, body.face) for body in set_out.assembly.of(PartKind.DOOR)]
    drawing = draw_front(set_out, "C1")
    cups = [m for m in drawing.marks if isinstance(m, Circle) and m.role == "boring cup"]
    zero = min(m.points[0][0] for m in drawing.marks if isinstance(m, Shape) and m.role == "lining leg")
    places = {round((cup.x - zero) * drawing.scale, 1) for cup in cups}
    assert places == {round(face[0] + 22.5 if side == "left" else face[2] - 22.5, 1) for side, face in edges}
