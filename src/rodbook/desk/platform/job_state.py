"""Where a job stands and what needs attention, in words. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from babel.dates import format_date
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from rodbook.dates import NINE_IN_TEN, Programme, hundred
from rodbook.desk.models import Role
from rodbook.desk.platform.faults import spot_of, told
from rodbook.desk.platform.history_lines import field_of
from rodbook.desk.platform.planning import Work
from rodbook.desk.platform.roles import may_see
from rodbook.errors import Fault
from rodbook.job import Job
from rodbook.plan import Plan

__all__ = ["Need", "Standing", "need_of", "standing_of"]


@dataclass(frozen=True)
class Standing:
    """Where a job stands.

    Parameters
    ----------
    sentence : str
        How far it is.
    needs : tuple of Need
        What needs attention.
    """

    sentence: str
    needs: tuple[Need, ...]


@dataclass(frozen=True)
class Need:
    """One thing that needs attention.

    Parameters
    ----------
    stage : str
        Where it is put right.
    sentence : str
    spot : str
        The place on that page; the page as a whole where it is empty.
    only_owner : bool
        Whether it tells what not everybody may see.
    """

    stage: str
    sentence: str
    spot: str = ""
    only_owner: bool = False


def _told(one: str, many: str, marks: Sequence[str]) -> str:
    """A sentence on some openings, all of them named; `many` and `one` are translated already."""
    return (one if len(marks) == 1 else many) % {"count": len(marks), "marks": ", ".join(marks)}


def need_of(fault: Fault) -> Need:
    """A fault, with the row of the page of openings where it stands."""
    hidden = not may_see(Role.READER, f"job.{field_of(fault)}")
    return Need("price" if hidden else "openings", f"{told(fault)}.", spot_of(fault), only_owner=hidden)


def _aside(plan: Plan) -> list[Need]:
    """Everything that stands aside, each fault at its own place."""
    text = _("Stands aside, and nothing here has any of it: %(fault)s.")
    return [
        Need("openings", text % {"fault": told(fault)}, spot_of(fault)) for one in plan.aside for fault in one.faults
    ]


def _orders(programme: Programme, today: Date, locale: str) -> list[Need]:
    """By when to order what comes first, and whether a hand-over is later than it was wanted."""
    results: list[Need] = []
    open_orders = [order for order in programme.orders if order.ordered is None]
    for order in programme.orders:
        if order.promised is not None and order.promised < today:
            late = {"supplier": order.supplier, "day": format_date(order.promised, "d MMMM", locale=locale)}
            results.append(Need("dates", _("%(supplier)s promised %(day)s, and it has not come.") % late))
    for order in open_orders[:2]:
        values = {"supplier": order.supplier, "day": format_date(order.latest, "d MMMM", locale=locale)}
        if order.latest >= today:
            results.append(Need("dates", _("Order from %(supplier)s by %(day)s.") % values))
        else:
            text = _(
                "The last day to order from %(supplier)s was %(day)s: if it is not ordered yet, choose a later start."
            )
            results.append(Need("dates", text % values))
    for likely in programme.chance.jobs.values():
        days = {"nine": format_date(likely.nine_in_ten, "d MMMM", locale=locale)}
        if likely.wanted is None:
            results.append(Need("dates", _("Hand-over: nine in ten by %(nine)s.") % days))
        elif likely.wanted_holds < NINE_IN_TEN:
            days["wanted"] = format_date(likely.wanted, "d MMMM", locale=locale)
            days["cases"] = str(hundred(likely.wanted_holds))
            text = _(
                "The hand-over is wanted by %(wanted)s, which holds in %(cases)s cases of 100; nine in ten by %(nine)s."
            )
            results.append(Need("dates", text % days))
    return results


def standing_of(
    job: Job,
    plan: Plan | None,
    faults: Sequence[Fault],
    work: Work | None,
    programme: Programme | None = None,
    *,
    today: Date | None = None,
    locale: str = "en",
) -> Standing:
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
            _("Nothing is measured yet."), (Need("openings", _("Add the first opening, or paste a list of them.")),)
        )
    needs = [need_of(fault) for fault in faults]
    if plan is not None:
        needs += _aside(work.plan if work and work.plan else plan)
    standing = [o for o in job.openings if o.state == "standing"]
    no_depth = [o.mark for o in standing if o.depth is None]
    no_diagonals = [o.mark for o in standing if o.diagonals is None and o.head == "level"]
    if no_depth:
        needs.append(
            Need(
                "openings",
                _told(
                    _("1 opening has no depth: %(marks)s."), _("%(count)s openings have no depth: %(marks)s."), no_depth
                ),
            )
        )
    if no_diagonals:
        needs.append(
            Need(
                "openings",
                _told(
                    _("1 opening has no diagonals, so nothing checks that the sides are plumb: %(marks)s."),
                    _("%(count)s openings have no diagonals, so nothing checks that the sides are plumb: %(marks)s."),
                    no_diagonals,
                ),
            )
        )
    if plan is not None:
        stopped = list(dict.fromkeys(note.at.mark for note in plan.not_worked_out))
        if stopped:
            needs.append(
                Need(
                    "parts",
                    _told(
                        _("1 opening is not set out, and its page says why: %(marks)s."),
                        _("%(count)s openings are not set out, and their pages say why: %(marks)s."),
                        stopped,
                    ),
                )
            )
        needs += [Need("parts", str(note)) for note in plan.remarks if note.code not in _TOLD_ABOVE]
    if programme is not None and today is not None:
        needs = [*_orders(programme, today, locale), *needs]
    return Standing(_how_far(job, plan, faults, work), tuple(needs))


_TOLD_ABOVE = frozenset({"plan.no_depth_read", "survey.no_diagonals"})
"""Codes of remarks that are counted up over all openings already."""


def _how_far(job: Job, plan: Plan | None, faults: Sequence[Fault], work: Work | None) -> str:
    openings = len(job.openings)
    count = ngettext("%(n)s opening", "%(n)s openings", openings) % {"n": openings}
    if plan is None:
        bad = ngettext("%(n)s fault", "%(n)s faults", len(faults)) % {"n": len(faults)}
        return _("%(openings)s; %(faults)s to put right before it can be set out.") % {"openings": count, "faults": bad}
    parts = sum(line.quantity for line in plan.schedule)
    told_by = work.plan if work and work.plan else plan
    if aside := sum(one.group == "openings" for one in told_by.aside):
        left = openings - aside
        count = _("%(left)s of %(openings)s") % {"left": left, "openings": count}
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
