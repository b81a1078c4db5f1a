"""A price down to what is paid."""

from __future__ import annotations

from rodbook.money import ClientPrice
from rodbook.papers.common.shared import Json
from rodbook.papers.numbers import Numbers

__all__ = ["sums_of"]


def sums_of(price: ClientPrice, write: Numbers) -> Json:
    """Net, each tax on what it is charged on, and the whole; one line where no tax is charged."""
    if not price.taxes:
        return [["To pay", write.money(price.gross)]]
    rows = [["Net of tax", write.money(price.net)]]
    for tax in price.taxes:
        percent = write.in_hundred(tax.percent)
        on = "" if tax.on == price.net else f" on {write.money(tax.on)}"
        rows.append([f"{tax.name}, {percent}{on}", write.money(tax.amount)])
    return [*rows, ["To pay", write.money(price.gross)]]
