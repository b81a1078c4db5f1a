"""How good layouts are known to be, in words."""

from __future__ import annotations

from rodbook.boards import BarPlan, SheetPlan
from rodbook.papers.numbers import Numbers
from rodbook.plan import Material, Plan

__all__ = ["proof_in_words"]


def proof_in_words(plan: Plan, material: Material, write: Numbers) -> str:
    """How good the layout is known to be.

    Parameters
    ----------
    plan : Plan
    material : Material
    write : Numbers

    Returns
    -------
    str
        In sheets or lengths where there is a single size on offer; else in cost, which is what was made least.
    """
    answer: SheetPlan | BarPlan | None = material.sheets or material.lengths
    assert answer is not None
    thing = "sheet" if material.sheets is not None else "length"
    if not answer.cost:
        return "from offcuts alone; nothing to buy"
    if _one_size(plan, material):
        rows = answer.layouts if isinstance(answer, SheetPlan) else answer.patterns
        priced = [(row.price, row.count) for row in rows if row.price]
        count = sum(n for _, n in priced)
        whole, rest = divmod(answer.bound, priced[0][0])
        least = whole + 1 if rest else whole
        words = f"{count} {thing}{'s' if count != 1 else ''}"
        if answer.proven and count == 1:
            return f"{words}; it takes one"
        if answer.proven:
            return f"{words}; {count - 1} is impossible"
        return f"{words}; the bound is {least}"
    cost = write.money(answer.cost)
    if answer.proven:
        return f"{cost} of {thing}s; less is impossible"
    return f"{cost} of {thing}s; the bound is {write.money(answer.bound)}"


def _one_size(plan: Plan, material: Material) -> bool:
    """Whether there is a single size on offer, so that cost counts sheets."""
    if material.sheets is not None:
        return len(plan.book.board(material.stock).sheets) == 1
    return len(plan.book.section(material.stock).lengths) == 1
