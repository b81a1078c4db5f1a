"""A workshop's list of prices, read into the lines of a quote: rows with numbers in, lines and faults out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

from rodbook.errors import Fault, InputError, Message, Place
from rodbook.job.marks import spoken
from rodbook.money.suppliers.list_rows import Rows, amount_said, cell_of, columns_of, whole_of
from rodbook.money.suppliers.quotes import QuoteLine

__all__ = ["QUOTE_HEADINGS", "quote_lines"]

QUOTE_HEADINGS: dict[str, tuple[str, ...]] = {
    "mark": ("mark", "part", "item"),
    "quantity": ("how many", "quantity", "number", "pieces"),
    "amount": ("amount", "total", "for all", "sum"),
    "each": ("each", "price", "unit price", "price each"),
    "stock": ("made from", "board", "material"),
    "currency": ("currency",),
}
"""What may stand over the columns, in small letters; either an amount for all or a price for each is needed."""

HEADING_ROWS = 20
"""The headings stand in one of so many rows from the top."""

MOST_LINES = 5_000
"""No quote is longer."""


def _quantity(cell: object) -> int | None:
    result = whole_of(cell)
    return result if result is not None and result >= 1 else None


def quote_lines(rows: Rows, wanted: Mapping[str, int], currency: str, locale: str) -> tuple[QuoteLine, ...]:
    """Read the lines of a quote.

    Parameters
    ----------
    rows : sequence of (int, sequence)
        Rows with their numbers; one of the first has headings, see `QUOTE_HEADINGS`.
    wanted : mapping of str to int
        Marks of the order and how many are ordered, for lists that do not say how many.
    currency, locale : str
        The book's; a list in another one is refused.

    Returns
    -------
    tuple of QuoteLine
        Rows without a mark, or with neither price nor amount, are left out.

    Raises
    ------
    InputError
        With every fault: no headings, a price that can't be read for certain or is below zero, no whole number of parts,
        another currency, a mark twice.

    Examples
    --------
    >>> rows = [(1, ["Mark", "How many", "Each"]), (2, ["1-door-left", "2", "40,50"]), (3, ["2 Door", 1, 30])]
    >>> [(x.mark, x.quantity, str(x.amount)) for x in quote_lines(rows, {"1-door-left": 2, "2-door": 4}, "EUR", "en")]
    [('1-door-left', 2, '81.00'), ('2-door', 1, '30')]
    """
    head, columns = columns_of(rows, QUOTE_HEADINGS, (("mark",), ("amount", "each")), within=HEADING_ROWS)
    if len(rows) - head > MOST_LINES:
        raise InputError.at("list", "money.quote_too_long", most=MOST_LINES)
    names = {spoken(mark): mark for mark in wanted}
    faults: list[Fault] = []
    results: dict[str, tuple[int, QuoteLine]] = {}
    for number, row in rows[head + 1 :]:
        shown = " ".join(str(cell_of(row, columns["mark"]) or "").split())
        all_of_it, each = cell_of(row, columns.get("amount")), cell_of(row, columns.get("each"))
        if not shown or all(cell is None or not str(cell).strip() for cell in (all_of_it, each)):
            continue
        mark = names.get(spoken(shown), shown)
        line = _line(row, columns, mark, wanted.get(mark), currency, locale)
        at = Place(("rows", number - 1), mark[:40])
        if isinstance(line, Message):
            faults.append(Fault(at, line))
        elif mark in results:
            faults.append(Fault(at, "money.row_has_it_already", row=results[mark][0]))
        else:
            results[mark] = number, line
    if not results and not faults:
        faults.append(Fault("list", "money.no_line_in_list"))
    if faults:
        raise InputError(faults)
    return tuple(line for _, line in results.values())


def _line(
    row: Sequence[object], columns: Mapping[str, int], mark: str, ordered: int | None, currency: str, locale: str
) -> QuoteLine | Message:
    """One line, or what is wrong with it."""
    cells = {what: cell_of(row, columns.get(what)) for what in QUOTE_HEADINGS}
    text = str(cells["quantity"] if cells["quantity"] is not None else "").strip()
    quantity = _quantity(cells["quantity"]) if text else (ordered or 1)
    if quantity is None:
        return Message("money.not_a_number_of_parts", typed=text)
    whole = cells["amount"] is not None and str(cells["amount"]).strip()
    price = amount_said(cells["amount"] if whole else cells["each"], cells["currency"], currency, locale)
    if isinstance(price, Message):
        return price
    return QuoteLine(mark, quantity, price if whole else price * Decimal(quantity), str(cells["stock"] or "").strip())
