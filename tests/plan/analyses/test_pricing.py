"""A job's price line by line: equal openings cost the client the same, and nothing is lost."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.plan import make_plan, price_job


@pytest.fixture(scope="module")
def store():
    book = parse_book(sample_book_text())
    return make_plan(parse_job(sample_text("converted-store"), book), book, seconds=1, outlook=True)


def _priced(plan, **terms):
    job = plan.job.model_copy(update={"price": plan.job.price.model_copy(update=terms)})
    return price_job(replace(plan, job=job))


def _taken(plan):
    """By mark, the parts that an opening takes."""
    found = {}
    for line in plan.schedule:
        for mark, count in line.openings:
            found.setdefault(mark, {})[line.mark] = count
    return found


@pytest.mark.parametrize("more", [{}, {"margin": Decimal("0.317")}, {"confidence": Decimal("0.95")}])
def test_equal_openings_have_equal_lines(store, more):
    pricing = _priced(store, lines="by opening", **more)
    nets = {line.name.partition(",")[0]: line.net for line in pricing.price.lines}
    taken = _taken(store)
    assert set(nets) == set(taken)
    groups = {}
    for mark, parts in taken.items():
        groups.setdefault(tuple(sorted(parts.items())), set()).add(nets[mark])
    assert all(len(amounts) == 1 for amounts in groups.values())
    assert len(groups) < len(nets), "some are alike"


@pytest.mark.parametrize("lines", ["one sum", "by opening", "by kind of part"])
def test_lines_add_up_however_they_are_cut(store, lines):
    pricing = _priced(store, lines=lines)
    whole, price = _priced(store, lines="one sum"), pricing.price
    assert sum(line.net for line in price.lines) == price.net
    assert (price.cost, price.contingency) == (whole.price.cost, whole.price.contingency)
    assert price.cost == pricing.parts_cost
    assert abs(price.net - whole.price.net) <= Decimal("0.01") * len(price.lines)
    assert abs(price.rounding) <= Decimal("0.01") * (len(price.lines) // 2)
