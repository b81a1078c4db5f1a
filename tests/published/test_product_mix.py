"""The capacity programme on two known examples: a knapsack and a product mix.

*From memory*: knapsack P01 of a public collection of data sets (capacity 165, optimum 309); the product mix of three plants
in Hillier and Lieberman, *Introduction to Operations Research* (optimum 36, shadow prices 0, 3/2 and 1).
"""

from __future__ import annotations

from decimal import Decimal

from rodbook.money import JobWanted, Offered, TaskWanted, WeekDays, capacity

D = Decimal


def job(name: str, income: int, days: dict[int, float]) -> JobWanted:
    """A job that may be left and takes so many days in each of some weeks."""
    tasks = tuple(TaskWanted(f"week {w}", (Offered("by the crew", D(0), d),), w, w) for w, d in days.items())
    return JobWanted(name, D(income), tasks, promised=False)


def test_knapsack() -> None:
    weights = (23, 31, 29, 44, 53, 38, 63, 85, 89, 82)
    profits = (92, 57, 49, 68, 60, 43, 67, 84, 87, 72)
    jobs = [job(f"J{n}", p, {1: w}) for n, (w, p) in enumerate(zip(weights, profits, strict=True), 1)]
    answer = capacity(jobs, [WeekDays(165)], currency="EUR", gap=0.0)
    assert answer.earned == 309
    assert [d.job for d in answer.decisions if d.task] == ["J1", "J2", "J3", "J4", "J6"]
    assert answer.weeks[0].used == 165


def test_product_mix() -> None:
    # three plants as three weeks: one product takes 1 hour of the first and 3 of the third and earns 3, the other
    # 2 of the second and 2 of the third and earns 5; there are 4, 12 and 18 hours
    jobs = [job(f"A{n}", 3, {1: 1, 3: 3}) for n in range(6)] + [job(f"B{n}", 5, {2: 2, 3: 2}) for n in range(9)]
    answer = capacity(jobs, [WeekDays(4), WeekDays(12), WeekDays(18)], currency="EUR", gap=0.0)
    assert answer.earned == 36
    taken = [d.job[0] for d in answer.decisions if d.task == "week 3"]
    assert (taken.count("A"), taken.count("B")) == (2, 6)
    assert [w.dual for w in answer.weeks] == [D("0.00"), D("1.50"), D("1.00")]
