"""What a paper of a job rests on that nobody of the firm has confirmed: the entries of the book that it was worked out from."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date as Date  # noqa: N812
from enum import StrEnum

from rodbook.job.book import Price, Rate, TaxProfile, WorkshopRates, valid_on
from rodbook.job.confirming import Figure, FigureKind, unconfirmed
from rodbook.plan.model import Plan

__all__ = ["PaperFor", "not_confirmed_under"]


class PaperFor(StrEnum):
    """Who a paper is for."""

    CLIENT = "client"
    SUPPLIER = "supplier"


def _places[T: (Price, Rate, TaxProfile, WorkshopRates)](
    entries: tuple[T, ...], day: Date, place: str
) -> Iterable[str]:
    """Place of the entry that holds on a day."""
    holds = valid_on(entries, day)
    return () if holds is None else (f"{place}[{entries.index(holds) + 1}]",)


def _costs(plan: Plan) -> set[str]:
    """Places of all that a price is worked out from: what is bought, the times and charges, the workshop's too, and the tax."""
    book, day = plan.book, plan.job.job.date
    stocks = {line.part.stock for line in plan.schedule}
    results: set[str] = set()
    for n, board in enumerate(book.boards, 1):
        for m, sheet in enumerate(board.sheets, 1):
            if board.name in stocks:
                results.update(_places(sheet.prices, day, f"boards[{n}].sheets[{m}].prices"))
        results.update(f"boards[{n}].offcuts[{m}]" for m in range(1, len(board.offcuts) + 1) if board.name in stocks)
    for n, section in enumerate(book.sections, 1):
        for m, length in enumerate(section.lengths, 1):
            if section.name in stocks:
                results.update(_places(length.prices, day, f"sections[{n}].lengths[{m}].prices"))
    for name in {rate.name for rate in book.rates}:
        holds = valid_on(tuple(rate for rate in book.rates if rate.name == name), day)
        results.update(f"rates[{n}]" for n, rate in enumerate(book.rates, 1) if rate is holds)
    profiles = tuple(profile for profile in book.taxes if profile.name == plan.job.price.taxes)
    tax = valid_on(profiles, day)
    results.update(f"taxes[{n}]" for n, profile in enumerate(book.taxes, 1) if profile is tax)
    return results


def _workshop(plan: Plan) -> set[str]:
    """Place of the rates of the workshop that is asked; make or buy is decided by them."""
    shop, day = plan.book.workshop(plan.job.job.workshop), plan.job.job.date
    if shop is None:
        return set()
    return set(_places(shop.rates, day, f"workshops[{plan.book.workshops.index(shop) + 1}].rates"))


def not_confirmed_under(plan: Plan, paper_for: PaperFor) -> tuple[Figure, ...]:
    """Entries of the book that a paper rests on and that nobody has confirmed, in the book's order.

    The price rests on every rate that holds on the job's day, on what each size of its boards and sections costs then, on the
    offcuts of those boards that lie in the shop, on the charges of the workshop that make or buy was decided with, on its tax.
    An order rests on the workshop. Either rests on the firm's name.

    Parameters
    ----------
    plan : Plan
    paper_for : PaperFor
    """
    places = {"firm"} | _workshop(plan) | (_costs(plan) if paper_for is PaperFor.CLIENT else set())
    return tuple(figure for figure in unconfirmed(plan.book) if figure.path in places or figure.kind is FigureKind.FIRM)
