"""The cheapest purchase against trying every one."""

from itertools import product
from math import gcd

from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.boards.proof import cover
from rodbook.boards.proof.cover import Condition, Offer, cheapest_cover

offers_in = st.lists(st.builds(Offer, st.integers(0, 40), st.none() | st.integers(0, 3)), min_size=1, max_size=3)


@st.composite
def purchases(draw):
    offers = draw(offers_in)
    worths = st.tuples(*[st.integers(0, 20)] * len(offers))
    return offers, draw(st.lists(st.builds(Condition, worths, st.integers(0, 60)), min_size=1, max_size=3))


def by_trying(offers, conditions):
    # no demand is above 60 and no worth below 1, so more than 60 of one sort are never needed
    ranges = [range((60 if o.quantity is None else o.quantity) + 1) for o in offers]
    return min(
        (
            sum(o.price * n for o, n in zip(offers, numbers, strict=True))
            for numbers in product(*ranges)
            if all(sum(w * n for w, n in zip(c.worth, numbers, strict=True)) >= c.demand for c in conditions)
        ),
        default=None,
    )


@settings(max_examples=100, deadline=None)
@given(purchases().filter(lambda job: sum(offer.quantity is None for offer in job[0]) <= 2))
def test_the_answer_is_that_of_trying_all(job):
    offers, conditions = job
    step = gcd(*(offer.price for offer in offers))
    assert cheapest_cover(offers, conditions, step) == by_trying(offers, conditions)


def test_a_long_search_falls_back_to_a_weaker_truth(monkeypatch):
    # 7 for a worth of 3, 10 for a worth of 4, demand 11: one of the first and two of the second make 27. Relaxed, the
    # first alone costs 11 × 7 / 3 = 25.67, so no purchase costs less than 26.
    offers, conditions = [Offer(7, None), Offer(10, None)], [Condition((3, 4), 11)]
    assert cheapest_cover(offers, conditions, 1) == 27
    monkeypatch.setattr(cover, "MOST_STEPS", 2)
    assert cheapest_cover(offers, conditions, 1) == 26


def test_the_weaker_truth_counts_what_there_is(monkeypatch):
    # one cheap sheet of worth 3, the other 6 of 9 from the dear ones: 1 + 6 × 10 / 3 = 21
    monkeypatch.setattr(cover, "MOST_STEPS", 0)
    assert cheapest_cover([Offer(1, 1), Offer(10, None)], [Condition((3, 3), 9)], 1) == 21


def test_the_step_rounds_up():
    # 3 sheets of 12 and 18 come to multiples of 6
    assert cheapest_cover([Offer(12, None)], [Condition((5,), 11)], 12) == 36


def test_nothing_to_buy():
    assert cheapest_cover([Offer(5, None)], [Condition((1,), 0)], 5) == 0
    assert cheapest_cover([], [Condition((), 1)], 0) is None
