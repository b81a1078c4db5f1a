"""Widths asked for, four leaves, and leaves that lie on without trim: by hand and by property."""

from itertools import pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from rodbook.errors import Infeasible, Place
from rodbook.job import Opening
from rodbook.job.checks import check_opening
from rodbook.setout import Frame, PartKind, Wanted, outer_size_wanted, set_out
from rodbook.working import Measure

quiet = settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@pytest.fixture(scope="session")
def plain(book):
    return book.build_up("lay-on without trim, run of cupboards")


def _frame(width, height, leaves, hand="left", *, sill=False, **wanted):
    return Frame(Measure(width, "lining width"), Measure(height, "lining height"), leaves, hand, sill, Wanted(**wanted))


def _parts(result, kind):
    return [(p.part, p.quantity) for p in result.parts if p.part.kind is kind]


def test_a_pair_without_trim_by_hand(plain, stock):
    """Lining 900 x 2022 of 18 mm, reveal 2: full lap 16; clear 864; leaves (864 + 32 - 3) / 2 = 446.5.

    height  2022 - 18 + 16 - 10 = 2010; plates on the legs, 37 in; on the leg's top end 18 - 16 = 2 more
    division behind the pair: 2004 x 350, lapped (18 - 3) / 2 = 7.5 by each; nothing hangs on it
    """
    result = set_out(plain, stock(plain), _frame(900, 2022, 2))
    assert (result.leaf_width.value, result.leaf_height.value) == (446.5, 2010)
    assert result.dimension("lap over each leg").value == 16
    assert result.dimension("lap of the leaf over the division").value == 7.5
    assert [(g.name, g.made.value, g.asked.value) for g in result.seen] == [
        ("reveal at each side", 2, 2),
        ("reveal over the leaf", 2, 2),
        ("gap under the leaf", 10, 10),
        ("meeting gap", 3, 3),
    ]
    ((division, number),) = _parts(result, PartKind.DIVISION)
    assert (division.length.value, division.width.value, number, division.borings) == (2004, 350, 1, ())
    legs = {part.hand: part for part, _ in _parts(result, PartKind.LINING_LEG)}
    assert [b.y.value for b in legs["left"].borings][:2] == [100 + 2 - 16, 100 + 2 + 16]
    assert not _parts(result, PartKind.TRIM_LEG)


def test_half_laps_leave_the_other_half_to_the_next_front(plain, stock):
    """Half lap (18 - 3) / 2 = 7.5: two such linings that share a leg have a meeting gap of 3 between their fronts."""
    half = plain.model_copy(update={"side_lap": "half"})
    result = set_out(half, stock(half), _frame(500, 1500, 1))
    assert result.leaf_width.value == 500 - 36 + 15
    assert 18 - 2 * result.dimension("lap over each leg").value == half.meeting_gap
    assert result.seen[0].asked is None


def test_four_leaves_hang_two_on_the_linings_and_two_back_to_back(inset, stock):
    """Lining 1840: clear 1804; leaves (1804 - 6 - 9) / 4 = 447.25, to 447. Two boards in the middle, lapped (36 - 3) / 2."""
    result = set_out(inset, stock(inset), _frame(1840, 2024, 4))
    assert [s.side for s in result.leaf_sizes] == ["left", "right", "left", "right"]
    assert result.leaf_width.value == 447
    assert [(p.hand, n, bool(p.borings)) for p, n in _parts(result, PartKind.DIVISION)] == [
        ("right", 1, True),
        ("left", 1, True),
    ]
    assert result.dimension("lap of the leaf over the division").value == 16.5
    boards = [e for e in result.elements if e.kind is PartKind.DIVISION]
    assert [e.x for e in boards] == [902, 920]
    assert [n for _, n in _parts(result, PartKind.DOOR)] == [2, 2]


def test_widths_asked_for_by_hand(inset, stock):
    """Lining 1240: clear 1204, room 1198 less two gaps of 3 = 1192; 300 and 450 leave 442."""
    result = set_out(inset, stock(inset), _frame(1240, 2024, 3, widths=(300, 0, 450)))
    assert [s.width.value for s in result.leaf_sizes] == [300, 442, 450]
    assert result.leaf_sizes[1].width.working() == (
        "width of leaf 2 = width for the leaves 1192.0 − width of leaf 1 300.0 − width of leaf 3 450.0 = 442.0"
    )
    assert len(_parts(result, PartKind.DOOR)) == 3
    shares = set_out(inset, stock(inset), _frame(1240, 2024, 3, shares=(1, 2, 1)))
    assert [s.width.value for s in shares.leaf_sizes] == [298, 596, 298]


@pytest.mark.parametrize(
    ("widths", "sentence"),
    [
        ((700, 0, 600), r"\(700, 0, 600\) leave nothing of the 1192.0 mm there are for the leaves; make them narrower"),
        ((300, 400, 300), "come to 1000.0 mm, but there are 1192.0 mm for the leaves; leave one of them 0"),
        ((600, 0, 500), "a leaf would be 92.0 mm wide, less than the least"),
    ],
)
def test_widths_that_do_not_go_are_said(inset, stock, widths, sentence):
    with pytest.raises(Infeasible, match=sentence):
        set_out(inset, stock(inset), _frame(1240, 2024, 3, widths=widths))


def test_what_is_wrong_with_widths_asked_for_is_said_all_at_once():
    opening = Opening.model_validate(
        {
            "mark": "C1",
            "state": "planned",
            "leaves": 2,
            "leaf": (400, 2000),
            "leaf_widths": (90, 0, 0),
            "leaf_shares": (1, 2),
        }
    )
    said = [str(fault) for fault in check_opening(opening, Place(("openings", 0)))]
    assert said == [
        "openings[1].leaf_shares: widths are asked for in millimetres and in shares; keep one of the two",
        "openings[1].leaf_widths: 3 widths for 2 leaves; give one for each",
        "openings[1].leaf_widths: a wanted leaf is one of equal leaves; give the clear size that is wanted instead",
        "openings[1].leaf_shares: a wanted leaf is one of equal leaves; give the clear size that is wanted instead",
        "openings[1].leaf_widths: 90 mm is less than the least leaf, 120 mm; write 0 for what is left over",
    ]


def test_a_lap_that_is_used_up_is_said(plain, stock):
    wide = plain.model_copy(update={"reveal": 18.0})
    with pytest.raises(Infeasible, match=r"a full lap of 0\.0 mm is left on an edge 18.0 mm thick"):
        set_out(wide, stock(wide), _frame(900, 2022, 2))


shares = st.lists(st.floats(1, 3).map(lambda v: round(v, 2)), min_size=1, max_size=4).map(tuple)
sizes = st.tuples(st.floats(500, 2300).map(round), st.floats(700, 2100).map(round))
families = st.sampled_from([0, 1, 2])


def _made(book, stock, family, size, asked, hand, sill, half):
    build_up = book.build_ups[family]
    if family == 2 and half:
        build_up = build_up.model_copy(update={"side_lap": "half"})
    try:
        return build_up, set_out(build_up, stock(build_up), _frame(*size, len(asked), hand, sill=sill, shares=asked))
    except Infeasible:
        return build_up, None


@quiet
@given(families, sizes, shares, st.sampled_from(["left", "right"]), st.booleans(), st.booleans())
def test_leaves_and_gaps_add_up_whatever_is_asked(book, stock, family, size, asked, hand, sill, half):
    build_up, result = _made(book, stock, family, size, asked, hand, sill, half)
    if result is None:
        return
    doors = [e for e in result.elements if e.kind is PartKind.DOOR]
    for one, other in pairwise(doors):
        assert other.x - one.x - one.width == pytest.approx(build_up.meeting_gap)
    assert doors[0].x == pytest.approx(size[0] - doors[-1].x - doors[-1].width)
    widths = [s.width.value for s in result.leaf_sizes]
    total = sum(widths)
    for width, share in zip(widths, asked, strict=True):
        assert width == pytest.approx(total * share / sum(asked), abs=len(asked) * build_up.step)
    beside = {0: "margin at each side", 1: "margin to the trim", 2: "reveal at each side"}[family]
    edge = next(g.made.value for g in result.seen if g.name == beside)
    room = {0: result.clear_width.value, 2: size[0]}.get(family) or result.dimension("trim sight width").value
    assert 2 * edge + total + (len(asked) - 1) * build_up.meeting_gap == pytest.approx(room)
    for element in result.elements:
        if not element.kind.value.startswith("trim"):
            assert element.x >= -1e-9
            assert element.x + element.width <= size[0] + 1e-9
            assert element.y + element.height <= size[1] + 1e-9


@quiet
@given(families, sizes, shares, st.sampled_from(["left", "right"]), st.booleans(), st.booleans())
def test_mirrored_openings_have_mirrored_borings_in_every_family(book, stock, family, size, asked, hand, sill, half):
    assume(len(asked) != 2 or hand == "left")
    swap = {"left": "right", "right": "left", "": ""}
    _, one = _made(book, stock, family, size, asked, hand, sill, half)
    _, other = _made(book, stock, family, size, asked[::-1], swap[hand], sill, half)
    assert (one is None) == (other is None)
    if one is None:
        return

    def holes(result, *, mirror):
        return sorted(
            (
                p.part.kind.value,
                swap[p.part.hand] if mirror else p.part.hand,
                p.quantity,
                b.kind,
                p.part.width.value,
                round(p.part.width.value - b.x.value if mirror else b.x.value, 6),
                round(b.y.value, 6),
            )
            for p in result.parts
            for b in p.part.borings
        )

    assert holes(one, mirror=True) == holes(other, mirror=False)


@quiet
@given(families, sizes, shares, st.sampled_from(["left", "right"]), st.booleans(), st.booleans())
def test_every_leaf_meets_the_plates_of_what_carries_it(book, stock, family, size, asked, hand, sill, half):
    _, result = _made(book, stock, family, size, asked, hand, sill, half)
    if result is None:
        return
    doors = [e for e in result.elements if e.kind is PartKind.DOOR]
    ends = {PartKind.LINING_LEG: size[1], PartKind.HINGE_LINING: size[1] - 18, PartKind.DIVISION: size[1] - 18}
    carried = []
    for placed in result.parts:
        plates = sorted(b.y.value for b in placed.part.borings if b.kind == "plate")
        if plates:
            centres = [(a + b) / 2 for a, b in zip(plates[::2], plates[1::2], strict=True)]
            heights = sorted(round(ends[placed.part.kind] - y, 6) for y in centres)
            carried.append((placed.part.hand, heights))
    hung = [(door.hinge_side, sorted(round(y, 6) for y in door.hinge_ys)) for door in doors]
    assert sorted(carried) == sorted(hung)


@quiet
@given(st.floats(200, 500).map(round), st.floats(700, 2100).map(round), st.integers(1, 4), st.booleans(), st.booleans())
def test_the_wanted_leaf_comes_back_without_trim(book, plain, stock, width, height, leaves, sill, half):
    build_up = plain.model_copy(update={"side_lap": "half" if half else "full"})
    outer = outer_size_wanted(
        build_up, stock(build_up), leaves=leaves, sill=sill, leaf_mm=(width, height), clear_mm=None
    )
    try:
        result = set_out(build_up, stock(build_up), Frame(*outer, leaves=leaves, hand="left", sill=sill))
    except Infeasible:
        return
    assert (result.leaf_width.value, result.leaf_height.value) == pytest.approx((width, height))
