"""The price for the client: what they get, what it comes to and until when. No cost, no margin and no rate stands on it."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from rodbook.money import for_client
from rodbook.papers.common.shared import Json, Sheetful, frame, leaf_in_words, rows_in_words, writer
from rodbook.papers.common.sums import sums_of
from rodbook.papers.numbers import Numbers
from rodbook.plan import Plan, Pricing, left_out_in_words
from rodbook.plan.analyses.unconfirmed import PaperFor, not_confirmed_under
from rodbook.setout import SetOut

__all__ = ["price_content"]


def price_content(plan: Plan, pricing: Pricing) -> Sheetful:
    """What stands on the client's price.

    Parameters
    ----------
    plan : Plan
    pricing : Pricing
        Only what `for_client` lets through is used.
    """
    write, price = writer(plan), for_client(pricing.price)
    content: dict[str, Json] = {
        "frame": frame(plan, "Price", title="Price", reasons=False, rests=not_confirmed_under(plan, PaperFor.CLIENT)),
        "left_out": left_out_in_words(pricing.left_out, write.hours, for_client=True),
        "firm_contact": plan.book.firm.contact,
        "fronts": _fronts(plan, write),
        "panels": [
            [panel.mark, panel.room, str(panel.quantity), write.short_size(panel.length, panel.width)]
            for panel in plan.panels
        ],
        "lines": [[name, write.money(net)] for name, net in price.lines],
        "sums": sums_of(price, write),
        "tax_notes": [tax.note for tax in price.taxes if tax.note],
        "options": [[name, write.money(net), write.money(gross)] for name, net, gross in price.options],
        "taxed": bool(price.taxes),
        "valid_until": write.date(price.valid_until),
        "words": plan.job.price.words,
    }
    return Sheetful(Path(__file__).with_name("price.typ"), content, {})


def _counted(set_out: SetOut) -> str:
    """How many of what a front has."""
    counts = Counter(row.kind for row in set_out.rows if row.kind != "leaves")
    results = [f"{n} {kind}{'s' if n != 1 else ''}" for kind, n in counts.items()]
    if set_out.leaves:
        results.append(f"{set_out.leaves} {'leaf' if set_out.leaves == 1 else 'leaves'}")
    return ", ".join(results)


def _fronts(plan: Plan, write: Numbers) -> Json:
    """Every opening as the client knows it: where, what goes into it, and how it is finished."""
    rows: list[Json] = []
    for entry in plan.openings:
        if entry.set_out is None:
            continue
        build_up = plan.book.build_up(entry.build_up)
        front = entry.set_out
        rows.append(
            [
                entry.opening.mark,
                entry.opening.room,
                _counted(front),
                rows_in_words(front, write) if front.rows else leaf_in_words(front, write),
                build_up.finish or "bare",
            ]
        )
    return rows
