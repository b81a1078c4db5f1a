"""Where a job stands and what needs attention, in words. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from babel.dates import format_date
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from rodbook.dates import NINE_IN_TEN, Programme, hundred
from rodbook.desk.faults import told
from rodbook.desk.planning import Work
from rodbook.errors import Fault
from rodbook.job import Job
from rodbook.plan import Plan

__all__ = ["Standing", "standing_of"]


@dataclass(frozen=True)
class Standing:
    """Where a job stands.

    Parameters
    ----------
    sentence : str
        How far it is.
    needs : tuple of (str, str)
        What needs attention: the stage where it is put right, and a sentence.
    """

    sentence: str
    needs: tuple[tuple[str, str], ...]


def _some(marks: Sequence[str]) -> str:
    shown = ", ".join(marks[:4])
    return shown if len(marks) <= 4 else _("%(shown)s and %(more)s more") % {"shown": shown, "more": len(marks) - 4}


def _told(one: str, many: str, marks: Sequence[str]) -> str:
    """A sentence on some openings; `many` and `one` are translated already."""
    return (one if len(marks) == 1 else many) % {"count": len(marks), "marks": _some(marks)}


def _orders(programme: Programme, today: Date, locale: str) -> list[tuple[str, str]]:
    """By when to order what comes first, and whether a hand-over is later than it was wanted."""
    found: list[tuple[str, str]] = []
    open_orders = [order for order in programme.orders if order.ordered is None]
    for order in programme.orders:
        if order.promised is not None and order.promised < today:
            late = {"supplier": order.supplier, "day": format_date(order.promised, "d MMMM", locale=locale)}
            found.append(("dates", _("%(supplier)s promised %(day)s, and it has not come.") % late))
    for order in open_orders[:2]:
        told = {"supplier": order.supplier, "day": format_date(order.latest, "d MMMM", locale=locale)}
        if order.latest >= today:
            found.append(("dates", _("Order from %(supplier)s by %(day)s.") % told))
        else:
            said = _(
                "The last day to order from %(supplier)s was %(day)s: if it is not ordered yet, choose a later start."
            )
            found.append(("dates", said % told))
    for likely in programme.chance.jobs.values():
        days = {"nine": format_date(likely.nine_in_ten, "d MMMM", locale=locale)}
        if likely.wanted is None:
            found.append(("dates", _("Hand-over: nine in ten by %(nine)s.") % days))
        elif likely.wanted_holds < NINE_IN_TEN:
            days["wanted"] = format_date(likely.wanted, "d MMMM", locale=locale)
            days["cases"] = str(hundred(likely.wanted_holds))
            said = _(
                "The hand-over is wanted by %(wanted)s, which holds in %(cases)s cases of 100; nine in ten by %(nine)s."
            )
            found.append(("dates", said % days))
    return found


def standing_of(
    job: Job, plan: Plan | None, faults: Sequence[Fault], work: Work | None, programme: Programme | None = None, *,
    today: Date | None = None, locale: str = "en",
) -> Standing:  # fmt: skip
    """Say where a job stands.

    Parameters
    ----------
    job : Job
    plan : Plan, optional
        As far as its parts.
    faults : sequence of Fault
        Why there is no plan.
    work : Work, optional
        Layouts and costs.
    programme : Programme, optional
        Its dates, where they are worked out.
    today : date, optional
        Needed for dates.
    locale : str
        How days are written.
    """
    if not job.openings and not job.panels:
        return Standing(
            _("Nothing is measured yet."), (("openings", _("Add the first opening, or paste a list of them.")),)
        )
    needs = [("openings", f"{told(f)}.") for f in faults[:3]]
    if len(faults) > 3:
        needs.append(("openings", _("%(count)s more faults.") % {"count": len(faults) - 3}))
    standing = [o for o in job.openings if o.state == "standing"]
    no_depth = [o.mark for o in standing if o.depth is None]
    no_diagonals = [o.mark for o in standing if o.diagonals is None and o.head == "level"]
    if no_depth:
        needs.append(
            (
                "openings",
                _told(
                    _("1 opening has no depth: %(marks)s."), _("%(count)s openings have no depth: %(marks)s."), no_depth
                ),
            )
        )
    if no_diagonals:
        needs.append(
            (
                "openings",
                _told(
                    _("1 opening has no diagonals, so nothing checks that the sides are plumb: %(marks)s."),
                    _("%(count)s openings have no diagonals, so nothing checks that the sides are plumb: %(marks)s."),
                    no_diagonals,
                ),
            )
        )
    if plan is not None:
        stopped = list(dict.fromkeys(note.where for note in plan.not_worked_out))
        if stopped:
            needs.append(
                (
                    "parts",
                    _told(
                        _("1 opening is not set out, and its page says why: %(marks)s."),
                        _("%(count)s openings are not set out, and their pages say why: %(marks)s."),
                        stopped,
                    ),
                )
            )
        needs += [
            ("parts", str(note))
            for note in plan.remarks
            if "No depth" not in note.sentence and "No diagonals" not in note.sentence
        ][:3]
    if programme is not None and today is not None:
        needs = [*_orders(programme, today, locale), *needs]
    return Standing(_how_far(job, plan, faults, work), tuple(needs))


def _how_far(job: Job, plan: Plan | None, faults: Sequence[Fault], work: Work | None) -> str:
    openings = len(job.openings)
    count = ngettext("%(n)s opening", "%(n)s openings", openings) % {"n": openings}
    if plan is None:
        bad = ngettext("%(n)s fault", "%(n)s faults", len(faults)) % {"n": len(faults)}
        return _("%(openings)s; %(faults)s to put right before it can be set out.") % {"openings": count, "faults": bad}
    parts = sum(line.quantity for line in plan.schedule)
    if plan.sizes:
        sizes = len(plan.sizes.sizes)
        count += ", " + ngettext("%(n)s standard size", "%(n)s standard sizes", sizes) % {"n": sizes}
    tail = {
        "done": _("laid out and costed"),
        "running": _("layouts under way"),
        "waiting": _("layouts waiting"),
        "stopped": _("layouts stopped"),
        "failed": _("layouts failed"),
    }.get(work.state if work else "", _("not laid out yet"))
    return _("%(openings)s, %(parts)s parts; %(state)s.") % {"openings": count, "parts": parts, "state": tail}
