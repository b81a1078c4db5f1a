"""Heights kept alike: the fewest that will do, and every opening still served."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.sizes import Offer, PackerRange, fewest_sizes, heights_alike

RANGE = PackerRange(4, 16, 4, 20)


def test_one_corridor_gets_one_height():
    # By hand: lowest opening 2028 - 4 = 2024; the highest, 2037, then has 13 over its head, within 20.
    offers = [Offer("C1", 842, 2030, (2,)), Offer("C3", 524, 2028, (1,)), Offer("C7", 1010, 2037, (2,))]
    choice = heights_alike(fewest_sizes(offers, RANGE), offers, RANGE)
    assert {size.height for size in choice.sizes} == {2024}
    assert {size.lowest for size in choice.sizes} == {"C3"}
    assert choice.packing_mm == pytest.approx(3 * 8 + (2030 - 2024) + (2028 - 2024) + (2037 - 2024))


def test_a_head_too_far_above_keeps_its_own_height():
    offers = [Offer("C1", 842, 2030, (2,)), Offer("C3", 524, 2052, (1,))]
    assert [s.height for s in heights_alike(fewest_sizes(offers, RANGE), offers, RANGE).sizes] == [2026, 2048]


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 3), st.integers(0, 70)), min_size=1, max_size=12))
def test_no_fewer_heights_will_do_and_all_are_served(rows):
    offers = [Offer(str(i), 500 + 200 * g, 2000 + h, (g,)) for i, (g, h) in enumerate(rows)]
    before = fewest_sizes(offers, RANGE)
    after = heights_alike(before, offers, RANGE)
    assert [s.openings for s in after.sizes] == [s.openings for s in before.sizes]
    for offer in offers:
        size = after.size_of(offer.name)
        assert RANGE.serves(offer, size.width, size.height)
    # Brute force over the heights that matter: the upper ends of the sizes' intervals.
    by_name = {o.name: o for o in offers}
    intervals = [
        (max(by_name[n].height for n in s.openings) - 20, min(by_name[n].height for n in s.openings) - 4)
        for s in before.sizes
    ]
    ends = sorted({high for _, high in intervals})
    fewest = next(
        k
        for k in range(1, len(ends) + 1)
        if any(
            all(any(lo <= h <= hi for h in chosen) for lo, hi in intervals)
            for chosen in itertools.combinations(ends, k)
        )
    )
    assert len({s.height for s in after.sizes}) == fewest
