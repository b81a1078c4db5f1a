"""Filling one sheet: whatever the rule, what comes out is cut from the sheet and keeps to the limits."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.boards.filling.fill import RULES, fill, largest_rest

sizes = st.tuples(st.integers(5, 60), st.integers(5, 60))


def levels_of(filled):
    """Count, for the deepest node, the runs of cuts in one direction above it."""

    def deepest(node, axis, runs):
        if node not in filled.cuts:
            return runs
        way, *parts = filled.cuts[node]
        runs += way != axis
        return max(deepest(part, way, runs) for part in parts if part >= 0)

    return deepest(0, None, 0)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(sizes, st.booleans(), st.integers(1, 4)), min_size=1, max_size=6),
    st.tuples(st.integers(60, 120), st.integers(60, 120)),
    st.integers(0, 4),
    st.integers(2, 6),
    st.sampled_from(RULES),
)
def test_what_lies_on_the_sheet_is_cut_from_it(kinds, board, kerf, levels, rule):
    ways = tuple(((a, b), (b, a)) if turn and a != b else ((a, b),) for (a, b), turn, _ in kinds)
    left = [number for *_, number in kinds]
    worth = [float(a * b) for (a, b), *_ in kinds]
    filled = fill(board, ways, left, range(len(kinds)), worth, kerf=kerf, levels=levels, rule=rule)
    assert all(filled.held.get(k, 0) <= left[k] for k in range(len(kinds)))
    assert any(filled.held.values())  # each fits the empty sheet
    assert filled.value == sum(worth[k] * number for k, number in filled.held.items())
    assert levels_of(filled) <= levels
    for node, (axis, first, second) in filled.cuts.items():
        x, y, length, width = filled.nodes[node]
        parts = [filled.nodes[part] for part in (first, second) if part >= 0]
        end = (x + length, y + width)[axis]
        assert parts[0][:2] == (x, y)
        assert all(part[3 - axis] == (length, width)[1 - axis] for part in parts)
        assert parts[-1][axis] + parts[-1][2 + axis] + (kerf if second < 0 else 0) >= end
        if second >= 0:
            assert parts[1][axis] == parts[0][axis] + parts[0][2 + axis]
    for node, kind in filled.leaves.items():
        assert filled.nodes[node][2:] in ways[kind]
        assert node not in filled.cuts


def test_the_largest_rest():
    # 100 × 60 with one 40 × 60 cut across: 60 × 60 are left, of which a kerf of 2 goes each way: 58 × 58
    filled = fill((100, 60), (((40, 60),),), [1], [0], [1.0], kerf=2, levels=9, rule=RULES[0])
    assert largest_rest(filled, 2, 10) == 58 * 58
    assert largest_rest(filled, 2, 59) == 0


@pytest.mark.parametrize("rule", RULES)
def test_a_sheet_that_can_be_filled_exactly_is(rule):
    # ten of 20 × 30 on 100 × 60, no kerf
    filled = fill((100, 60), (((20, 30),),), [10], [0], [600.0], kerf=0, levels=9, rule=rule)
    assert filled.held == {0: 10}
    assert filled.area == 6000
