"""A change of a job: for the client what changes and what it comes to, no cost, no margin, no rate; for the firm what it does."""

from __future__ import annotations

from pathlib import Path

from rodbook.money import ChangeOrder, for_client
from rodbook.papers.common.shared import Json, Sheetful, frame, writer
from rodbook.papers.common.sums import sums_of
from rodbook.papers.numbers import Numbers
from rodbook.plan import ChangeEffect, Plan
from rodbook.plan.analyses.unconfirmed import PaperFor, not_confirmed_under

__all__ = ["change_content", "effect_said"]


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
    rests = not_confirmed_under(plan, PaperFor.CLIENT)
    content: dict[str, Json] = {
        "frame": frame(plan, "Change", title="A change of the job", reasons=False, rests=rests),
        "firm_contact": plan.book.firm.contact,
        "what": order.what,
        "parts": [
            [
                str(line.kind),
                str(line.added) if line.added else "",
                str(line.dropped) if line.dropped else "",
                str(line.stays) if line.stays else "",
                "made or ordered already" if line.made and line.dropped else "",
            ]
            for line in order.lines
        ],
        "lines": [[name, write.money(net)] for name, net in price.lines],
        "sums": sums_of(price, write),
        "less": price.gross < 0,
        "tax_notes": [tax.note for tax in price.taxes if tax.note],
        "valid_until": write.date(price.valid_until),
    }
    return Sheetful(Path(__file__).with_name("change.typ"), content, {})


def effect_said(effect: ChangeEffect, write: Numbers) -> tuple[str, ...]:
    """What a change does to the job, in sentences for the firm's own eyes."""
    texts = [
        f"The job is {write.money(effect.net_before)} without it and {write.money(effect.net_after)} with it, net of tax."
    ]
    shares = (effect.margin_before, effect.margin_after, effect.margin_unpaid)
    if None not in shares:
        before, priced, unpaid = (write.percent(share, 1) for share in shares if share is not None)
        texts.append(
            f"Of the price {before} is left without it, {priced} with it as priced, and {unpaid} if the price stays as it is."
        )
    if effect.crew_hours:
        more = "more" if effect.crew_hours > 0 else "less"
        texts.append(f"The crew works {write.hours(abs(effect.crew_hours))} {more}.")
    if effect.made_anew:
        more = "more" if effect.made_anew > 0 else "less"
        texts.append(
            f"Parts made anew come to {write.money(abs(effect.made_anew))} {more} on average; that is not in it."
        )
    return tuple(texts)
