"""Workshops' quotes held against an order and each other: each in words, line by line, and who gets what. For the firm alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from pathlib import Path

from rodbook.money import SHUT_OUT, ComparedQuote, Quote, QuotesHeld
from rodbook.money.suppliers.quote_choice import shut_out_by
from rodbook.papers.common.shared import Json, Sheetful, frame, writer
from rodbook.papers.numbers import Numbers
from rodbook.plan import Plan
from rodbook.setout import ScheduleLine

__all__ = ["QuoteCell", "quote_cells", "quotes_content"]

ABREAST = 5
"""Quotes beside each other in the table of lines; more of them go into further tables."""

LOWEST = "*"
"""Behind the lowest price of a line, so that it is known without colour and weight."""


@dataclass(frozen=True)
class QuoteCell:
    """A quote's price for a line of the order.

    Parameters
    ----------
    workshop, text : str
    lowest : bool
        Whether it is the lowest of those that can be taken, where there are several.
    """

    workshop: str
    text: str
    lowest: bool


def quote_cells(
    order: Sequence[ScheduleLine], results: Sequence[ComparedQuote], write: Numbers
) -> list[tuple[ScheduleLine, list[QuoteCell]]]:
    """Each line of an order with every quote's price for the ordered number of it.

    Parameters
    ----------
    order : sequence of ScheduleLine
    results : sequence of ComparedQuote
    write : Numbers
    """
    own = [(each.quote, dict(each.by_line)) for each in results]
    shut = [any(finding.kind in SHUT_OUT for finding in each.findings) for each in results]
    rows = []
    for line in order:
        prices = [by_line.get(line.mark) for _, by_line in own]
        known = [price for price, out in zip(prices, shut, strict=True) if price is not None and not out]
        lowest = min(known, default=None) if len(set(known)) > 1 else None
        cells = [
            QuoteCell(
                quote.workshop,
                _said(quote, line.mark, price, write),
                not out and lowest is not None and price == lowest,
            )
            for (quote, _), price, out in zip(own, prices, shut, strict=True)
        ]
        rows.append((line, cells))
    return rows


def _said(quote: Quote, mark: str, price: Decimal | None, write: Numbers) -> str:
    if price is not None:
        return write.money(price)
    if any(mark in lump.marks for lump in quote.lumps):
        return "in a sum"
    return "other board" if any(line.mark == mark for line in quote.lines) else "–"


def _until(day: Date, write: Numbers) -> str:
    return "not said" if day == Date.max else write.date(day)


def _called(quote: Quote) -> str:
    return f"{quote.workshop}, {quote.reference}" if quote.reference else quote.workshop


def quotes_content(plan: Plan, held: QuotesHeld) -> Sheetful:
    """What stands on the paper.

    Parameters
    ----------
    plan : Plan
    held : QuotesHeld
    """
    write = writer(plan)
    verdicts = dict(zip(map(id, held.compared), held.verdicts, strict=True))
    content: dict[str, Json] = {
        "frame": frame(plan, "Quotes", title="Quotes compared", landscape=True),
        "about": _about(held, write),
        "sentence": held.sentence,
        "shares": _shares(held, write),
        "quotes": [_quote_row(each, write) for each in held.compared],
        "why": [_words(each, verdicts[id(each)].sentence) for each in held.compared],
        "tables": _tables(held, write),
        "rests": _rests(held, write),
    }
    return Sheetful(Path(__file__).with_name("quotes.typ"), content, {})


def _about(held: QuotesHeld, write: Numbers) -> Json:
    rows = [["Compared on", write.date(held.day)]]
    if held.needed_days is not None:
        rows.append(["Needed in", f"{held.needed_days} working days"])
    return rows


def _shares(held: QuotesHeld, write: Numbers) -> Json:
    if held.split is None or len(held.split.orders) < 2:
        return []
    return [
        [
            one.workshop,
            ", ".join(one.marks),
            write.money(one.parts_amount),
            write.money(one.delivery),
            write.money(one.top_up),
            write.money(one.amount),
        ]
        for one in held.split.orders
    ]


def _quote_row(each: ComparedQuote, write: Numbers) -> list[str]:
    quote = each.quote
    return [
        _called(quote),
        write.date(quote.day),
        _until(quote.valid_until, write),
        str(quote.lead_days),
        write.money(quote.delivery),
        write.money(quote.least_order) if quote.least_order else "none",
        write.money(each.as_quoted),
        "can’t be said" if each.comparable is None else write.money(each.comparable),
    ]


def _words(each: ComparedQuote, verdict: str) -> Json:
    """A quote in words: whether it is taken, and every way in which it is not as ordered."""
    texts = [f.sentence for f in each.findings if f is not shut_out_by(each)]
    texts = texts if each.findings else ["It is as ordered."]
    if each.filled and each.comparable is not None:
        texts.append(f"Filled in at the best price of another: {', '.join(each.filled)}.")
    if each.quote.whole_only:
        texts.append("It holds only for all of it.")
    return {"name": _called(each.quote), "verdict": verdict, "said": texts}


def _tables(held: QuotesHeld, write: Numbers) -> Json:
    """The lines against so many quotes at a time as stand beside each other."""
    rows = quote_cells(held.order, held.compared, write)
    tables: list[Json] = []
    for at in range(0, len(held.compared), ABREAST):
        some = slice(at, at + ABREAST)
        tables.append(
            {
                "names": [each.quote.workshop for each in held.compared[some]],
                "rows": [
                    [
                        line.mark,
                        str(line.part.kind),
                        line.part.stock,
                        str(line.quantity),
                        *(f"{cell.text} {LOWEST}" if cell.lowest else cell.text for cell in cells[some]),
                    ]
                    for line, cells in rows
                ],
            }
        )
    return tables


def _rests(held: QuotesHeld, write: Numbers) -> Json:
    prices = (
        "Prices are net of tax, for the number that is ordered. What a quote lacks, or has in another board, is filled in at "
        "the best price that another has for it, without that other’s delivery; who gets what counts every delivery and every "
        "least charge."
    )
    results = [prices, f"Whether a quote is still valid is looked at as of {write.date(held.day)}."]
    if held.trouble:
        trouble = write.money(held.trouble)
        results.append(
            f"Each workshop besides the first counts as {trouble} of trouble, taken off what splitting saves."
        )
    return results
