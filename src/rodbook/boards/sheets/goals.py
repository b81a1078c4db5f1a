"""Which cheaper purchases are tried next: a few sheets given up, a few others taken instead.

From what is bought at present every purchase is looked at that gives up one sheet or two and takes none, one or two
in their place - two small ones for a large one, and so on. Of those that are cheaper and large enough a few are
chosen that save little, more and most, since nothing tells beforehand how tightly pieces can be laid.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations_with_replacement

from rodbook.boards.asked.task import Stock

__all__ = ["MOST_CAREFUL", "careful", "chosen", "near"]

MOST_CAREFUL = 12
"""Purchases tried for a plan that is nearly as cheap as can be."""

Numbers = tuple[int, ...]

MOST_CHANGES = 20_000
"""Exchanges looked at; beyond, no more than one sheet is given up and one taken."""

SAVINGS = (0.0, 0.04, 0.08, 0.13, 0.2, 0.3, 0.45, 0.65, 1.0)
"""What is to be saved, in parts of what lies between the present cost and the bound. House assumption."""


def near(stocks: Sequence[Stock], bought: Numbers, need: int, bound: int, *, most: int = 2) -> list[Numbers]:
    """List purchases next to the present one that cost less, no less than is possible, and have room for `need`.

    No more than `most` sheets are given up, and no more taken.
    """
    held = [s for s, n in enumerate(bought) if n and stocks[s].price]
    sorts = [s for s, stock in enumerate(stocks) if stock.price]
    deep = (len(held) + 1) ** 2 * (len(sorts) + 1) ** 2 <= 4 * MOST_CHANGES
    most = most if deep else 1
    changes = [list(combinations_with_replacement(of, n)) for of in (held, sorts) for n in range(most + 1)]
    outs = [out for part in changes[1 : most + 1] for out in part]
    ins = [into for part in changes[most + 1 :] for into in part]
    cost = sum(n * stock.price for n, stock in zip(bought, stocks, strict=True))
    room = sum(n * stock.length * stock.width for n, stock in zip(bought, stocks, strict=True))
    results: dict[Numbers, None] = {}
    for out in outs:
        saved = sum(stocks[s].price for s in out)
        given = sum(stocks[s].length * stocks[s].width for s in out)
        for into in ins:
            new = cost - saved + sum(stocks[s].price for s in into)
            if not bound <= new < cost:
                continue
            if room - given + sum(stocks[s].length * stocks[s].width for s in into) < need:
                continue
            numbers = list(bought)
            for s in out:
                numbers[s] -= 1
            for s in into:
                numbers[s] += 1
            if all(
                0 <= n <= (n if stock.quantity is None else stock.quantity)
                for n, stock in zip(numbers, stocks, strict=True)
            ):
                results[tuple(numbers)] = None
    return list(results)


def chosen(stocks: Sequence[Stock], bought: Numbers, purchases: Sequence[Numbers], bound: int) -> list[Numbers]:
    """Choose a few purchases that save from little to most; of equal ones that with most room, then fewest sheets."""

    def cost(numbers: Numbers) -> int:
        return sum(n * stock.price for n, stock in zip(numbers, stocks, strict=True))

    def room(numbers: Numbers) -> int:
        return sum(n * stock.length * stock.width for n, stock in zip(numbers, stocks, strict=True))

    here = cost(bought)
    ranked = sorted(set(purchases), key=lambda numbers: (-cost(numbers), -room(numbers), sum(numbers), numbers))
    results: dict[Numbers, None] = {}
    for share in SAVINGS:
        most = here - max(1, round(share * (here - bound)))
        # the first that saves so much; for all that can be saved the cheapest there is
        fit = next((numbers for numbers in ranked if cost(numbers) <= most), ranked[-1] if ranked else None)
        if fit is not None:
            results[fit] = None
    return list(results)


def careful(stocks: Sequence[Stock], purchases: Sequence[Numbers]) -> list[Numbers]:
    """Choose purchases for a plan that is nearly as cheap as can be: those with most room, which save little."""

    def rank(numbers: Numbers) -> tuple[int, int, Numbers]:
        bought = list(zip(numbers, stocks, strict=True))
        return -sum(n * s.length * s.width for n, s in bought), sum(n * s.price for n, s in bought), numbers

    return sorted(set(purchases), key=rank)[:MOST_CAREFUL]
