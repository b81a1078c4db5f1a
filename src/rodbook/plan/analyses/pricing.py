"""A job's price: what its plan is likely to cost, with what else the client pays for, by the book's rules and the job's own."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from html import escape

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.job.models import Making, PriceExtra, PriceTerms
from rodbook.money import (
    CostItem,
    MakeOrBuy,
    Option,
    Price,
    PriceRules,
    contingency,
    make_price,
    mark_up_of_margin,
    price_rules,
    share_under,
    site_rates,
)
from rodbook.money.costs.outcome import HOURS_A_DAY
from rodbook.money.rates.names import RateName
from rodbook.plan.analyses.left_out import LeftOut, left_out_of
from rodbook.plan.model import Plan

__all__ = ["PARTS_NAME", "Pricing", "job_rules", "price_job", "rules_of"]

PARTS_NAME = "Doors, linings and trim, made and finished"
"""What the parts are called on the client's paper where the job says nothing (house assumption)."""


CONFIDENCES = (Decimal("0.5"), Decimal("0.8"), Decimal("0.9"), Decimal("0.95"))
"""Confidences that are shown beside the one that is priced at."""


@dataclass(frozen=True, repr=False)
class Pricing:
    """A job's price and how it came about.

    Parameters
    ----------
    price : Price
    rules : PriceRules
        The book's, with what the job has of its own.
    parts_cost : Decimal
        Of all parts as decided, on average. [currency]
    crew_hours : Decimal
        That carry overhead: of the parts and of what is done besides. [h]
    contingency : Decimal
        For the confidence wanted. [currency]
    nine_in_ten : Decimal
        What the parts of nine such jobs in ten stay under. [currency]
    not_losing : Decimal
        Share of such jobs in which the net price covers parts, extras and overhead, to a hundredth; only the parts' cost
        varies (house assumption). [1]
    at_confidence : tuple of (Decimal, Decimal, Decimal)
        Other confidences, the contingency for each, and the net price that it would come to. [1, currency, currency]
    left_out : LeftOut
        What the price of the parts leaves out.
    """

    price: Price
    rules: PriceRules
    parts_cost: Decimal
    crew_hours: Decimal
    contingency: Decimal
    nine_in_ten: Decimal
    not_losing: Decimal
    at_confidence: tuple[tuple[Decimal, Decimal, Decimal], ...]
    left_out: LeftOut

    def __repr__(self) -> str:
        """The price on one line."""
        price, hours = self.price, self.left_out.hours
        out = f"; {hours} h of work planned besides are not in it" if hours else ""
        return f"<Pricing {price.gross} {price.currency} gross, {price.net} net{out}>"

    def _repr_html_(self) -> str:
        """Its lines as a table, for a notebook; what each costs the firm is for the firm's own eyes."""
        heads = "".join(f"<th>{head}</th>" for head in ("line", "costs the firm", "net", "tax", "gross"))
        rows = "".join(
            f"<tr><td>{escape(line.name)}</td>"
            + "".join(f"<td>{figure}</td>" for figure in (line.cost, line.net, line.tax, line.gross))
            + "</tr>"
            for line in self.price.lines
        )
        return f"<p>{escape(repr(self))}</p><table><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>"


def job_rules(terms: PriceTerms, rules: PriceRules) -> PriceRules:
    """The book's rules, with what the job says for itself."""
    own = rules
    if terms.margin is not None:
        own = replace(own, mark_up=mark_up_of_margin(terms.margin))
    if terms.mark_up is not None:
        own = replace(own, mark_up=terms.mark_up)
    if terms.confidence is not None:
        own = replace(own, confidence=terms.confidence)
    if terms.holds_days is not None:
        own = replace(own, holds_days=terms.holds_days)
    return own


def rules_of(plan: Plan) -> PriceRules:
    """The rules by which a plan's job is priced: the book's on its day, with what the job says for itself."""
    job = plan.job
    return job_rules(job.price, price_rules(plan.book, job.job.date, job.price.taxes))


def price_job(plan: Plan) -> Pricing:
    """Make a job's price.

    Parameters
    ----------
    plan : Plan
        With its outlook.

    Returns
    -------
    Pricing

    Raises
    ------
    InputError
        If the plan has no parts or no outlook, or with every fault in the rules.
    """
    if plan.money is None or plan.outlook is None:
        raise InputError.at("price", "plan.not_costed_to_price")
    job, book, terms = plan.job, plan.book, plan.job.price
    rules = rules_of(plan)
    cost = plan.outlook.decided.cost
    hour = site_rates(book, job.job.date).crew_hour.value
    hours = plan.outlook.decided.crew_days.mean * _hours_a_day(book, plan)
    wanted = Decimal(0) if rules.confidence is None else contingency(cost, rules.confidence, book.currency)
    items = _parts(plan, plan.money, cost.mean, hours)
    items += [_extra(extra, hour) for extra in terms.extras if not extra.option]
    options = [Option(extra.name, (_extra(extra, hour),)) for extra in terms.extras if extra.option]

    def made(contingent: Decimal) -> Price:
        return make_price(
            items, rules, currency=book.currency, day=job.job.date, contingency=contingent, options=options
        )

    price = made(wanted)
    all_hours = sum((item.crew_hours for item in items), Decimal(0))
    other = tuple((level, result := contingency(cost, level, book.currency), made(result).net) for level in CONFIDENCES)
    covered = price.net - (price.cost - cost.mean) - price.overhead
    return Pricing(
        price,
        rules,
        cost.mean,
        all_hours,
        wanted,
        cost.nine_in_ten,
        share_under(cost, covered),
        other,
        left_out_of(plan),
    )


def _hours_a_day(book: Book, plan: Plan) -> Decimal:
    day = site_rates(book, plan.job.job.date).other(RateName.WORKING_DAY)
    return Decimal(repr(HOURS_A_DAY)) if day is None else day.value


def _extra(extra: PriceExtra, hour: Decimal) -> CostItem:
    return CostItem(extra.name, extra.cost + extra.hours * hour, extra.hours, extra.group)


def _parts(plan: Plan, money: MakeOrBuy, mean: Decimal, hours: Decimal) -> list[CostItem]:
    """The parts as lines of the price: their mean cost and hours, shared as the plan's own costs and hours lie."""
    terms = plan.job.price
    if terms.lines == "one sum":
        return [CostItem(terms.parts or PARTS_NAME, mean, hours, terms.group)]
    names, costs, own_hours = _by_kind(money) if terms.lines == "by kind of part" else _by_opening(plan, money)
    whole, whole_hours = sum(costs, Decimal(0)), sum(own_hours, Decimal(0))
    return [
        CostItem(
            name,
            mean * cost / whole if whole else mean / len(costs),
            hours * own / whole_hours if whole_hours else Decimal(0),
            terms.group,
        )
        for name, cost, own in zip(names, costs, own_hours, strict=True)
    ]


type _Shared = tuple[list[str], Sequence[Decimal], Sequence[Decimal]]


def _by_kind(money: MakeOrBuy) -> _Shared:
    names, costs, hours = [], [], []
    for choice in money.kinds:
        made = choice.decision is Making.SITE
        amount = choice.site_amount if made else choice.bought_amount
        names.append(f"{choice.kind}, {choice.parts}")
        costs.append(amount or Decimal(0))
        hours.append(choice.site.crew_hours if made else Decimal(0))
    return names, costs, hours


def _by_opening(plan: Plan, money: MakeOrBuy) -> _Shared:
    """Openings and then panels, in the job's order; each name once, as marks are. What takes the same parts costs the same."""
    hours: dict[str, Decimal] = defaultdict(Decimal)
    for choice in money.kinds:
        if choice.decision is Making.SITE and choice.site_amount:
            for share in choice.openings:
                hours[share.mark] += choice.site.crew_hours * share.site / choice.site_amount
    costs = {cost.mark: cost.decided for cost in money.openings}
    for alike in _alike(plan):
        for amounts in (costs, hours):
            even = sum((amounts[mark] for mark in alike), Decimal(0)) / len(alike)
            amounts.update(dict.fromkeys(alike, even))
    every = [(o.mark, o.room) for o in plan.job.openings] + [(p.mark, p.room) for p in plan.job.panels]
    rooms = [(mark, room) for mark, room in every if mark in costs]
    names = [f"{mark}, {room}" if room else mark for mark, room in rooms]
    return names, [costs[mark] for mark, _ in rooms], [hours[mark] for mark, _ in rooms]


def _alike(plan: Plan) -> list[list[str]]:
    """Marks of openings and panels that take the same parts, and as many of each."""
    parts: dict[str, list[tuple[str, int]]] = defaultdict(list)
    for line in plan.schedule:
        for mark, count in line.openings:
            parts[mark].append((line.mark, count))
    groups: dict[tuple[tuple[str, int], ...], list[str]] = defaultdict(list)
    for mark, taken in parts.items():
        groups[tuple(sorted(taken))].append(mark)
    return list(groups.values())
