"""A workshop's list of prices, read into the lines of a quote: rows with numbers in, lines and faults out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

from rodbook.errors import Fault, InputError
from rodbook.money.price_lists import Rows, money_of
from rodbook.money.quotes import QuoteLine

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


def _word(cell: object) -> str:
    return " ".join(str(cell).split()).casefold() if cell is not None else ""


def _columns(rows: Rows) -> tuple[int, dict[str, int]]:
    for at, (_, row) in enumerate(rows[:HEADING_ROWS]):
        words = [_word(cell) for cell in row]
        found = {
            what: next(n for n, word in enumerate(words) if word in known)
            for what, known in QUOTE_HEADINGS.items()
            if any(word in known for word in words)
        }
        if "mark" in found and ("amount" in found or "each" in found):
            return at, found
    raise InputError.at(
        "the list", "no row has headings for mark and amount; write 'mark', 'how many' and 'amount' over them"
    )


def _cell(row: Sequence[object], column: int | None) -> object:
    return row[column] if column is not None and column < len(row) else None


def _quantity(cell: object) -> int | None:
    found = money_of(cell)
    return int(found) if found is not None and found == found.to_integral_value() and found >= 1 else None


def quote_lines(rows: Rows, wanted: Mapping[str, int], currency: str) -> tuple[QuoteLine, ...]:
    """Read the lines of a quote.

    Parameters
    ----------
    rows : sequence of (int, sequence)
        Rows with their numbers; one of the first has headings, see `QUOTE_HEADINGS`.
    wanted : mapping of str to int
        Marks of the order and how many are ordered, for lists that do not say how many.
    currency : str
        The book's; a list in another one is refused.

    Returns
    -------
    tuple of QuoteLine
        Rows without a mark, or with neither price nor amount, are left out.

    Raises
    ------
    InputError
        With every fault: no headings, a price that can't be read for certain or is below nought, no whole number of parts,
        another currency, a mark twice.

    Examples
    --------
    >>> rows = [(1, ["Mark", "How many", "Each"]), (2, ["D1-left", "2", "40,50"]), (3, ["d2", 1, 30])]
    >>> [(line.mark, line.quantity, str(line.amount)) for line in quote_lines(rows, {"D1-left": 2, "D2": 4}, "EUR")]
    [('D1-left', 2, '81.00'), ('D2', 1, '30')]
    """
    at, columns = _columns(rows)
    if len(rows) - at > MOST_LINES:
        raise InputError.at("the list", f"it has more than {MOST_LINES} rows; no quote is so long")
    names = {_word(mark): mark for mark in wanted}
    faults: list[Fault] = []
    found: dict[str, tuple[int, QuoteLine]] = {}
    for number, row in rows[at + 1 :]:
        shown = " ".join(str(_cell(row, columns["mark"]) or "").split())
        all_of_it, each = _cell(row, columns.get("amount")), _cell(row, columns.get("each"))
        if not shown or all(cell is None or not str(cell).strip() for cell in (all_of_it, each)):
            continue
        mark = names.get(_word(shown), shown)
        line = _line(row, columns, mark, wanted.get(mark), currency)
        if isinstance(line, str):
            faults.append(Fault(f"row {number} ({mark[:40]})", line))
        elif mark in found:
            faults.append(
                Fault(f"row {number} ({mark[:40]})", f"row {found[mark][0]} has it already; keep one of them")
            )
        else:
            found[mark] = number, line
    if not found and not faults:
        faults.append(Fault("the list", "no row has a mark and an amount"))
    if faults:
        raise InputError(faults)
    return tuple(line for _, line in found.values())


def _line(
    row: Sequence[object], columns: Mapping[str, int], mark: str, ordered: int | None, currency: str
) -> QuoteLine | str:
    """One line, or what is wrong with it."""
    cells = {what: _cell(row, columns.get(what)) for what in QUOTE_HEADINGS}
    other = str(cells["currency"] or currency).strip().upper()
    if other != currency:
        return f"it is in {other} and the book in {currency}; ask for it in {currency}"
    said = str(cells["quantity"] if cells["quantity"] is not None else "").strip()
    quantity = _quantity(cells["quantity"]) if said else (ordered or 1)
    if quantity is None:
        return f"{said!r} is no number of parts; write a whole number from 1 up"
    whole = cells["amount"] is not None and str(cells["amount"]).strip()
    cell = cells["amount"] if whole else cells["each"]
    price = money_of(cell)
    if price is None:
        return f"{str(cell)!r} can't be read as a price for certain; write it like 48.00"
    if price < 0:
        return f"a price of {price} is below nought"
    return QuoteLine(mark, quantity, price if whole else price * Decimal(quantity), str(cells["stock"] or "").strip())
