"""The fewest sizes, against brute force that shares no code with the search."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import Infeasible, InputError
from rodbook.sizes import Offer, PackerRange, fewest_sizes

RANGE = PackerRange(4, 16, 4, 20)


def _serves(offer: Offer, width: float, height: float, packers: PackerRange) -> bool:
    side, over = (offer.width - width) / 2, offer.height - height
    return (
        packers.side_least - 1e-9 <= side <= packers.side_most + 1e-9
        and packers.head_least - 1e-9 <= over <= packers.head_most + 1e-9
    )


def _brute(offers: list[Offer], packers: PackerRange) -> tuple[int, float]:
    """Least number of sizes and, at that, least packing: every whole-millimetre size, every set of them."""
    widths = range(int(min(o.width for o in offers)) - 40, int(max(o.width for o in offers)) + 1)
    heights = range(int(min(o.height for o in offers)) - 40, int(max(o.height for o in offers)) + 1)
    best_of: dict[frozenset[int], tuple[float, float]] = {}
    for w, h in itertools.product(widths, heights):
        served = frozenset(i for i, o in enumerate(offers) if _serves(o, w, h, packers))
        for size in range(1, len(served) + 1):
            for group in itertools.combinations(sorted(served), size):
                known = best_of.get(frozenset(group))
                if known is None or w + h > sum(known):
                    best_of[frozenset(group)] = (w, h)

    def packing(group: frozenset[int]) -> float:
        w, h = best_of[group]
        return sum(offers[i].width - w + offers[i].height - h for i in group)

    def partitions(rest: list[int]):
        if not rest:
            yield []
            return
        for size in range(1, len(rest) + 1):
            for others in itertools.combinations(rest[1:], size - 1):
                group = frozenset((rest[0], *others))
                if group in best_of:
                    for tail in partitions([i for i in rest if i not in group]):
                        yield [group, *tail]

    return min((len(p), sum(packing(g) for g in p)) for p in partitions(list(range(len(offers)))))


def test_like_openings_share_a_size_and_the_smallest_sets_it():
    choice = fewest_sizes([Offer("C1", 842, 2030), Offer("C2", 845, 2034), Offer("C3", 840, 2036)], RANGE)
    (size,) = choice.sizes
    # By hand: narrowest 840 - 2 x 4 = 832; lowest 2030 - 4 = 2026.
    assert (size.width, size.height, size.narrowest, size.lowest) == (832, 2026, "C3", "C1")
    assert choice.proven
    # By hand: C1 10 + 4, C2 13 + 8, C3 8 + 10.
    assert choice.packing_mm == pytest.approx(14 + 21 + 18)


def test_groups_never_share_a_size():
    choice = fewest_sizes([Offer("C1", 842, 2030, (1,)), Offer("C2", 842, 2030, (2,))], RANGE)
    assert [s.openings for s in choice.sizes] == [("C1",), ("C2",)]


def test_a_chain_of_openings_is_cut_in_the_right_places():
    # By hand: packing of 4 to 16 a side lets widths up to 24 mm apart share; a and c are 30 apart, b and d 40.
    offers = [Offer(name, w, 2030) for name, w in (("a", 800), ("b", 812), ("c", 830), ("d", 852))]
    assert {s.openings for s in fewest_sizes(offers, RANGE).sizes} == {("a", "b"), ("c", "d")}


def test_the_least_packing_is_chosen_among_the_fewest():
    offers = [Offer(name, w, 2030) for name, w in (("a", 800), ("b", 812), ("c", 815), ("d", 836))]
    choice = fewest_sizes(offers, RANGE)
    assert (len(choice.sizes), choice.packing_mm) == _brute(offers, RANGE)


whole = st.integers(0, 60)


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(whole, st.integers(0, 30)), min_size=1, max_size=5))
def test_it_agrees_with_brute_force(rows):
    offers = [Offer(str(i), 800 + w, 2030 + h) for i, (w, h) in enumerate(rows)]
    choice = fewest_sizes(offers, RANGE)
    number, packing = _brute(offers, RANGE)
    assert len(choice.sizes) == number
    assert choice.packing_mm == pytest.approx(packing)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(500, 900), min_size=1, max_size=40))
def test_in_one_dimension_greedy_stabbing_gives_the_same_number(widths):
    """Openings of one height: going up from the narrowest and starting anew when the range is left is exact."""
    packers = PackerRange(4, 16, 4, 20)
    intervals = sorted((math.ceil(w - 32 - 1e-9), math.floor(w - 8 + 1e-9)) for w in widths)
    stabs, end = 0, -math.inf
    for low, high in sorted(intervals, key=lambda i: i[1]):
        if low > end:
            stabs, end = stabs + 1, high
    choice = fewest_sizes([Offer(str(i), w, 2030) for i, w in enumerate(widths)], packers)
    assert len(choice.sizes) == stabs


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.floats(400, 1100), st.floats(1900, 2100), st.integers(1, 3)), min_size=1, max_size=40))
def test_every_opening_is_served_once_and_can_be_packed(rows):
    offers = [Offer(str(i), w, h, (n,)) for i, (w, h, n) in enumerate(rows)]
    choice = fewest_sizes(offers, RANGE)
    served = [name for size in choice.sizes for name in size.openings]
    assert sorted(served) == sorted(o.name for o in offers)
    for offer in offers:
        size = choice.size_of(offer.name)
        assert size.group == offer.group
        assert RANGE.serves(offer, size.width, size.height)
        assert size.width == int(size.width)


def test_a_range_narrower_than_the_step_is_said_with_the_opening():
    with pytest.raises(Infeasible, match="packed into C1") as caught:
        fewest_sizes([Offer("C1", 842.5, 2030)], PackerRange(4, 4, 4, 20))
    assert caught.value.items == ("C1",)


@pytest.mark.parametrize("step", [0, -1, math.nan])
def test_a_step_above_zero_is_asked_for(step):
    with pytest.raises(InputError, match="step"):
        fewest_sizes([Offer("C1", 842, 2030)], RANGE, step=step)


def test_names_are_distinct():
    with pytest.raises(InputError, match="same name"):
        fewest_sizes([Offer("C1", 842, 2030), Offer("C1", 842, 2030)], RANGE)


def test_a_range_upside_down_is_refused():
    with pytest.raises(InputError, match="least packing"):
        PackerRange(16, 4, 4, 20)
