"""Meeting edges, handles and catches: by hand, both hands alike, and off the board said all at once."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodbook.errors import Infeasible
from rodbook.job.checks import check_book
from rodbook.setout import Frame, PartKind, RakedFrame, set_out
from rodbook.working import Measure

quiet = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


def _frame(width=827, height=2024, leaves=2, hand="left", *, sill=False):
    return Frame(Measure(width, "lining width"), Measure(height, "lining height"), leaves, hand, sill)


def _doors(result):
    return {p.part.hand: p.part for p in result.parts if p.part.kind is PartKind.DOOR}


def _fit(book, stock, build_up, **changes):
    found = stock(build_up)
    names = {"handle": "bar handle, 128", "catch": "push-to-open, bored in"}
    return replace(found, **{n: book.fitting(names[n]).model_copy(update=changes.get(n, {})) for n in changes})


def _of(part, kind):
    return [(b.x.value, b.y.value, b.diameter, b.depth) for b in part.borings if b.kind == kind]


def test_a_handle_by_hand(inset, stock, book):
    """Leaves 391 x 1995; handle 1050 up, 40 in: y 945, holes 64 above and below, right through.

    Seen from the back a left-hung leaf closes on the left of the drawing: x = 40; a right-hung one at 391 - 40.
    """
    result = set_out(inset, _fit(book, stock, inset, handle={}), _frame())
    doors = _doors(result)
    assert _of(doors["left"], "handle") == [(40, 881, 5, "through"), (40, 1009, 5, "through")]
    assert _of(doors["right"], "handle") == [(351, 881, 5, "through"), (351, 1009, 5, "through")]


def test_a_catch_is_bored_into_the_head_over_each_closing_edge(inset, stock, book):
    """Lining 827, head between legs: clear 791, leaves 391, margin 3: closing edges 394 and 397 from the head's left end.

    40 in from the closing edge: 354 and 437 along; 20 behind a leaf of 22: 42 from the front, 140 - 42 = 98 from the left
    """
    result = set_out(inset, _fit(book, stock, inset, catch={"diameter": 8.0, "depth": 2.0}), _frame())
    head = next(p.part for p in result.parts if p.part.kind is PartKind.LINING_HEAD)
    assert _of(head, "catch") == [(98, 354, 10, 15), (98, 437, 10, 15)]
    assert head.bored_face == "inner"
    assert _of(_doors(result)["left"], "catch") == [(40, 20, 8, 2)]


def test_rebated_edges_by_hand(inset, stock, book):
    """Gap 3, rebate 12: tongue 15 on the leaf that opens second; half of 22 deep. The hinges' holes stay where they were."""
    rebated = inset.model_copy(update={"meeting": "rebated", "meeting_rebate": 12.0})
    doors = _doors(set_out(rebated, stock(rebated), _frame()))
    assert (doors["left"].width.value, doors["right"].width.value) == (391, 406)
    assert doors["left"].ends == "closing edge rebated 15.0 × 11 mm on the back"
    assert doors["right"].ends == "closing edge rebated 15.0 × 11 mm on the front, 15.0 mm of tongue in its width"
    assert {b.x.value for b in doors["right"].borings if b.kind == "cup"} == {22.5}
    other = _doors(set_out(rebated, stock(rebated), _frame(hand="right")))
    assert (other["left"].width.value, other["right"].width.value) == (406, 391)
    assert {b.x.value for b in other["left"].borings if b.kind == "cup"} == {406 - 22.5}


def test_of_four_leaves_each_pair_is_rebated_and_of_three_the_two_that_meet(inset, stock):
    rebated = inset.model_copy(update={"meeting": "rebated", "meeting_rebate": 12.0})
    for leaves, tongues in ((4, 2), (3, 1), (1, 0)):
        result = set_out(rebated, stock(rebated), _frame(450 * leaves, leaves=leaves))
        doors = [p for p in result.parts if p.part.kind is PartKind.DOOR]
        assert sum(p.quantity for p in doors) == leaves
        assert sum(p.quantity for p in doors if "tongue" in p.part.ends) == tongues


def test_a_cover_strip_laps_both_leaves(inset, stock, book):
    covered = inset.model_copy(update={"meeting": "cover strip", "cover_strip": "58 x 18 softwood trim"})
    found = replace(stock(covered), strip=book.section("58 x 18 softwood trim"))
    result = set_out(covered, found, _frame())
    (strip,) = [p.part for p in result.parts if p.part.kind is PartKind.STRIP]
    assert (strip.length.value, strip.width.value, strip.hand) == (1995, 58, "left")
    assert result.dimension("lap of the strip over each leaf").value == (58 - 3) / 2
    narrow = replace(found, strip=found.strip.model_copy(update={"width": 12.0}))
    with pytest.raises(Infeasible, match=r"laps each leaf by 4\.5 mm"):
        set_out(covered, narrow, _frame())


def test_holes_off_the_board_are_said_all_at_once(inset, stock, book):
    off = _fit(
        book, stock, inset, handle={"place": 2100.0}, catch={"diameter": 8.0, "from_edge": 395.0, "head_diameter": 0.0}
    )
    with pytest.raises(Infeasible) as said:
        set_out(inset, off, _frame())
    assert "the handle would be bored" in str(said.value)
    assert "the catch would be bored 395.0 mm across" in str(said.value)


def test_under_a_slope_the_handle_keeps_its_height_and_the_catch_is_said(inset, stock, book):
    fittings = _fit(book, stock, inset, handle={}, catch={"diameter": 8.0})
    frame = RakedFrame(Measure(636, "w"), Measure(2000, "l"), Measure(1523, "r"), 1, "left", sill=False)
    result = set_out(inset, fittings, frame)
    door = _doors(result)["left"]
    assert [door.length.value - y for _, y, _, _ in _of(door, "handle")] == pytest.approx([1114, 986])
    ((x, y, _, _),) = _of(door, "catch")
    assert (x, y) == pytest.approx((40, 445.5 - 40 * 0.75 + 20))
    assert any("Catches under a raked head" in str(remark) for remark in result.remarks)


@quiet
@given(
    st.sampled_from([0, 1, 2]),
    st.floats(500, 1900).map(round),
    st.integers(1, 4),
    st.sampled_from(["left", "right"]),
    st.booleans(),
    st.sampled_from(["plain", "rebated"]),
)
def test_mirrored_openings_have_mirrored_fittings_in_every_family(
    book, stock, family, width, leaves, hand, sill, meeting
):
    build_up = book.build_ups[family].model_copy(
        update={"meeting": meeting, "meeting_rebate": 10.0 if meeting == "rebated" else 0.0}
    )
    swap = {"left": "right", "right": "left", "": ""}
    fittings = _fit(book, stock, build_up, handle={"place": 600.0}, catch={"diameter": 6.0})

    def made(side):
        try:
            return set_out(build_up, fittings, _frame(width, 1600, leaves, side, sill=sill))
        except Infeasible:
            return None

    one, other = made(hand), made(swap[hand])
    assert (one is None) == (other is None)
    if one is None:
        return

    def holes(result, *, mirror):
        found = []
        for placed in result.parts:
            part = placed.part
            for b in part.borings:
                x, y = b.x.value, b.y.value
                if mirror and part.kind is PartKind.LINING_HEAD:
                    y = part.length.value - y
                elif mirror:
                    x = part.width.value - x
                hand_of = swap[part.hand] if mirror else part.hand
                found.append(
                    (part.kind.value, hand_of, placed.quantity, b.kind, part.width.value, round(x, 6), round(y, 6))
                )
        return sorted(found)

    assert holes(one, mirror=True) == holes(other, mirror=False)


def test_what_is_wrong_with_fittings_in_the_book_is_said(book):
    wrong = book.build_ups[0].model_copy(
        update={
            "handle": "push-to-open, bored in",
            "catch": "none such",
            "meeting": "rebated",
            "cover_strip": "no strip",
        }
    )
    said = [str(f) for f in check_book(book.model_copy(update={"build_ups": (wrong, *book.build_ups[1:])}))]
    assert len(said) == 5
    assert said[-2].startswith("build_ups[1].handle (inset, painted): 'push-to-open, bored in' is a push-to-open")
    assert "the book has no fitting 'none such'" in said[-1]
