"""What the firm buys, at the prices of its book through time: the index, its working line by line, and what moved it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from pathlib import Path

from rodbook.job import Book
from rodbook.money import BasketKind, FirmIndex
from rodbook.money.rates.rounding import rounded
from rodbook.papers.common.shared import Json, Pictures, Sheetful, firm_frame
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.index import draw_index

__all__ = ["BasketRows", "basket_content", "basket_rows"]

MOST_NAMED = 4
"""Jobs that are named in a paper's head; of more it says how many."""

_UNITS = {"metre": "m", "m²": "m²", "m² and coat": "m² of coats"}
"""Units that stay as they are for any number."""

MOST_MOVES = 3
"""Things that moved the index most, named for each day."""


@dataclass(frozen=True)
class BasketRows:
    """The index of the firm's basket written out, for page, paper and terminal alike.

    Parameters
    ----------
    sentences : list of str
        What it comes to, and how that is reckoned.
    days : list of (str, str, str)
        Day, index, and what moved it most since the first, in points.
    groups : list of (str, str, str, str)
        Sort of thing, its cost on the first and the last day, its own index.
    working : list of tuple
        What, how much, price and cost on the first day, price and cost on the last, and points.
    sum : tuple
        The last line of the working.
    remarks : list of str
    """

    sentences: list[str]
    days: list[tuple[str, str, str]]
    groups: list[tuple[str, str, str, str]]
    working: list[tuple[str, str, str, str, str, str, str]]
    sum: tuple[str, str, str, str, str, str, str]
    remarks: list[str]


def _signed(value: Decimal, written: str) -> str:
    return f"+{written}" if value > 0 else written


def basket_rows(result: FirmIndex, write: Numbers, jobs: int) -> BasketRows:
    """Write the index of a basket out.

    Parameters
    ----------
    result : FirmIndex
    write : Numbers
    jobs : int
        How many there are in the basket.
    """

    def money(value: Decimal) -> str:
        return write.money(rounded(value, write.currency))

    def points(value: Decimal) -> str:
        return _signed(value, write.hundredth(value))

    days = [
        (
            write.date(p.day),
            write.hundredth(p.index),
            "; ".join(f"{name} {points(v)}" for name, v in p.by_item[:MOST_MOVES]),
        )
        for p in result.days
    ]
    groups = [
        (str(one.kind), money(one.cost_before), money(one.cost_after), write.hundredth(one.index))
        for one in result.groups
    ]
    working = [
        (
            line.name,
            f"{_amount(line.quantity, write)} {_units(line.unit, line.quantity)}",
            write.rate(line.before),
            money(line.cost_before),
            write.rate(line.after),
            money(line.cost_after),
            points(line.points),
        )
        for line in result.lines
    ]
    total = (
        "the basket",
        "",
        "",
        money(result.cost_before),
        "",
        money(result.cost_after),
        points(result.index - 100),
    )
    return BasketRows(_sentences(result, write, jobs), days, groups, working, total, _remarks(result, write))


def _amount(quantity: Decimal, write: Numbers) -> str:
    return write.short(float(quantity))


def _units(unit: str, quantity: Decimal) -> str:
    if unit in _UNITS or quantity == 1:
        return _UNITS.get(unit, unit)
    return f"{unit}s"


def _sentences(result: FirmIndex, write: Numbers, jobs: int) -> list[str]:
    before, after = (write.money(rounded(cost, write.currency)) for cost in (result.cost_before, result.cost_after))
    first, last = write.date(result.base), write.date(result.last)
    of = "the one job" if jobs == 1 else f"{jobs} jobs"
    more = result.index - 100
    share = f"{write.in_hundred(abs(more))} {'more' if more > 0 else 'less'} than" if more else "as much as"
    return [
        f"What {of} take{'s' if jobs == 1 else ''} costs {share} on {first}: {after} on {last}, {before} then.",
        f"The index is 100 × {after} / {before} = {write.hundredth(result.index)}: what is taken stays, its prices move.",
    ]


def _remarks(result: FirmIndex, write: Numbers) -> list[str]:
    texts = []
    if result.left_out:
        texts.append(f"No price on {write.date(result.base)}, so left out: {'; '.join(result.left_out)}.")
    texts.append(
        "Sheets and lengths are those that are bought new for what is made on site; charges are those for what is bought in, "
        "one delivery a job. What the book has no price for, such as hinges, is not in it, nor what tops an order up to a least "
        "charge."
    )
    return texts


def basket_content(book: Book, result: FirmIndex, jobs: Sequence[str], *, day: Date) -> Sheetful:
    """What stands on the paper of prices through time.

    Parameters
    ----------
    book : Book
    result : FirmIndex
    jobs : sequence of str
        Names of the jobs in the basket.
    day : date
        On which it is made.
    """
    write = Numbers.of(book)
    pictures, rows = Pictures(write), basket_rows(result, write, len(jobs))
    hours = any(line.kind is BasketKind.HOURS for line in result.lines)
    content: dict[str, Json] = {
        "frame": firm_frame(book, "Prices", title="Prices through time", day=day),
        "about": [
            ["Jobs", ", ".join(jobs) if len(jobs) <= MOST_NAMED else f"{len(jobs)}, named below"],
            ["100 on", write.date(result.base)],
            ["Up to", write.date(result.last)],
            ["Own hours", "counted" if hours else "not counted"],
        ],
        "sentences": rows.sentences,
        "picture": pictures.add(draw_index(result.days, write, "Index of what the firm buys"))
        if len(result.days) > 1
        else None,
        "first": write.date(result.base),
        "last": write.date(result.last),
        "days": [list(row) for row in rows.days],
        "groups": [list(row) for row in rows.groups],
        "working": [list(row) for row in (*rows.working, rows.sum)],
        "remarks": [*rows.remarks, *([f"The jobs: {'; '.join(jobs)}."] if len(jobs) > MOST_NAMED else [])],
    }
    return Sheetful(Path(__file__).with_name("basket.typ"), content, pictures.files)
