"""A change of a job, for the client: what changes and what it comes to. No cost, no margin and no rate stands on it."""

from __future__ import annotations

from rodbook.money import ChangeOrder, for_client
from rodbook.papers.content.price import sums_of
from rodbook.papers.content.shared import Json, Sheetful, frame, writer
from rodbook.plan import Plan

__all__ = ["change_content"]


def change_content(plan: Plan, order: ChangeOrder) -> Sheetful:
    """What stands on the client's paper of a change.

    Parameters
    ----------
    plan : Plan
        After the change.
    order : ChangeOrder
        Only what `for_client` lets through and the numbers of parts are used.
    """
    write, price = writer(plan), for_client(order.price)
    content: dict[str, Json] = {
        "frame": frame(plan, "Change", title="A change of the job"),
        "firm_contact": plan.book.firm.contact,
        "what": order.what,
        "parts": [
            [str(line.kind), str(line.added) if line.added else "", str(line.dropped) if line.dropped else "",
             str(line.stays) if line.stays else "", "made or ordered already" if line.made and line.dropped else ""]
            for line in order.lines
        ],
        "lines": [[name, write.money(net)] for name, net in price.lines],
        "sums": sums_of(price, write),
        "less": price.gross < 0,
        "tax_notes": [tax.note for tax in price.taxes if tax.note],
        "valid_until": write.date(price.valid_until),
    }  # fmt: skip
    return Sheetful("change.typ", content, {})
