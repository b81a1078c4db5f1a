"""How many sizes against how much packing, against brute force that shares no code with the search."""

import time
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import Infeasible, InputError
from rodbook.sizes import Offer, PackerRange, fewest_sizes, sizes_in_number, trade_off

RANGE = PackerRange(4, 16, 4, 20)


def _brute(offers, packers):
    """Least packing for each number of sizes: every way of parting the openings, each part at its largest size."""

    def size(part):
        return min(o.width for o in part) - 2 * packers.side_least, min(o.height for o in part) - packers.head_least

    def fits(part):
        width, height = size(part)
        return all(o.width - width <= 2 * packers.side_most and o.height - height <= packers.head_most for o in part)

    def partings(rest):
        if not rest:
            yield []
            return
        first, *others = rest
        for parting in partings(others):
            yield [[first], *parting]
            for k, part in enumerate(parting):
                yield [*parting[:k], [first, *part], *parting[k + 1 :]]

    best = {}
    for parting in partings(list(offers)):
        if all(fits(part) for part in parting):
            packed = sum(o.width - size(p)[0] + o.height - size(p)[1] for p in parting for o in p)
            best[len(parting)] = min(packed, best.get(len(parting), packed))
    return best


openings = st.lists(st.tuples(st.integers(500, 560), st.integers(2000, 2040)), min_size=1, max_size=6)


@settings(deadline=None, max_examples=60)
@given(openings)
def test_every_number_packs_as_little_as_brute_force_finds(sizes):
    offers = [Offer(f"C{n}", *size) for n, size in enumerate(sizes)]
    best = _brute(offers, RANGE)
    trades = trade_off(offers, RANGE)
    assert trades[0].number == min(best)
    assert {trade.number: trade.choice.packing_mm for trade in trades} == {t.number: best[t.number] for t in trades}
    assert trades[-1].choice.packing_mm == min(best.values())
    totals = [trade.choice.packing_mm for trade in trades]
    assert all(a > b for a, b in pairwise(totals))


@settings(deadline=None, max_examples=30)
@given(openings)
def test_every_choice_serves_every_opening_within_the_range(sizes):
    offers = {f"C{n}": Offer(f"C{n}", *size, (n % 2,)) for n, size in enumerate(sizes)}
    for trade in trade_off(list(offers.values()), RANGE):
        assert len(trade.choice.sizes) == trade.number
        assert sorted(name for size in trade.choice.sizes for name in size.openings) == sorted(offers)
        for size in trade.choice.sizes:
            for name in size.openings:
                assert RANGE.serves(offers[name], size.width, size.height)
                assert offers[name].group == size.group
                assert (offers[name].width - size.width) / 2 <= trade.side_mm
                assert offers[name].height - size.height <= trade.head_mm


def test_it_begins_with_the_fewest_and_ends_where_each_opening_is_packed_least():
    offers = [Offer("C1", 842, 2030), Offer("C2", 845, 2034), Offer("C3", 845, 2034), Offer("C4", 524, 2031)]
    trades = trade_off(offers, RANGE)
    fewest = fewest_sizes(offers, RANGE)
    assert trades[0].choice.packing_mm == fewest.packing_mm
    # C2 and C3 are alike, so three sizes pack all four as thinly as can be: 4 + 4 + 4 mm each.
    assert [t.number for t in trades] == [2, 3]
    assert trades[-1].choice.packing_mm == 4 * 12
    assert (trades[-1].side_mm, trades[-1].head_mm) == (4, 4)


def test_it_stops_where_it_is_told():
    offers = [Offer(f"C{n}", 800 + n, 2030) for n in range(10)]
    assert [t.number for t in trade_off(offers, RANGE, more=3)] == [1, 2, 3, 4]
    assert [t.number for t in trade_off(offers, RANGE)] == list(range(1, 11))


def test_fourteen_openings_take_less_than_a_second():
    offers = [Offer(f"C{n}", 820 + 3 * (n * 5 % 14), 2020 + 2 * (n * 3 % 14)) for n in range(14)]
    start = time.perf_counter()
    assert trade_off(offers, RANGE)[-1].number == 14
    assert time.perf_counter() - start < 1.0


def test_nothing_offered_gives_nothing_to_weigh():
    assert trade_off([], RANGE) == ()


def test_faults_are_sentences():
    with pytest.raises(InputError, match="same name"):
        trade_off([Offer("C1", 500, 2000), Offer("C1", 510, 2000)], RANGE)
    with pytest.raises(InputError, match="step above zero"):
        trade_off([Offer("C1", 500, 2000)], RANGE, step=0)
    with pytest.raises(InputError, match="fewer than the fewest"):
        trade_off([Offer("C1", 500, 2000)], RANGE, more=-1)
    with pytest.raises(Infeasible, match="C1"):
        trade_off([Offer("C1", 500.4, 2000)], PackerRange(4, 4, 4, 4))


@settings(max_examples=30)
@given(
    st.lists(st.tuples(st.integers(800, 830), st.integers(2000, 2020)), min_size=1, max_size=6),
    st.integers(1, 8),
)
def test_sizes_come_in_the_number_that_is_wanted_as_far_as_that_can_be(sizes, number):
    offers = [Offer(f"O{k}", *size) for k, size in enumerate(sizes)]
    least = _brute(offers, RANGE)
    choice = sizes_in_number(offers, RANGE, number)
    assert choice.fewest == min(least)
    count = len(choice.sizes)
    assert count == max(number, min(least)) or count < number  # fewer only where more would gain nothing:
    assert choice.packing_mm == pytest.approx(min(packing for n, packing in least.items() if n <= max(number, count)))
    assert sorted(name for size in choice.sizes for name in size.openings) == sorted(o.name for o in offers)
    assert choice.proven == (count == choice.fewest)


def test_no_size_at_all_is_refused():
    with pytest.raises(InputError, match="0 sizes serve no opening; write one or more"):
        sizes_in_number([Offer("C1", 842, 2030)], RANGE, 0)
