"""What a kind of part costs when the firm makes it with its own hands: material, crew time, paint and waste.

Times are the book's middles, with its learning over repeats; remakes, interruptions and the spread are for `chances`.
Carrying, breaking down and cleaning up go by sheets; lengths are carried in one bundle and cut to length while they are
sized, so no time of that sort is counted for them (house assumption).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from rodbook.errors import InputError
from rodbook.money.costs.lines import CostLine, CostName, by_kind, quantity, total_of
from rodbook.money.costs.usage import MaterialUsage, StockShare, shared_usage
from rodbook.money.rates.learning import learned_units, learning_exponent
from rodbook.money.rates.lifting import people_to_lift
from rodbook.money.rates.names import RateName
from rodbook.money.rates.rounding import counted, figure, measured, rounded
from rodbook.money.rates.site_rates import SiteRate, SiteRates
from rodbook.setout import PartKind, ScheduleLine
from rodbook.working import percent

__all__ = ["SiteCost", "site_cost", "site_costs"]

MINUTES_AN_HOUR = 60


@dataclass(frozen=True)
class SiteCost:
    """What a kind of part costs made on site.

    Parameters
    ----------
    kind : PartKind
    parts : int
    lines : tuple of CostLine
    material, labour, paint, waste : Decimal
        The amount by what it is spent on; they add up to it. [currency]
    amount : Decimal
        Sum of the lines. [currency]
    minutes : Decimal
        Crew time. [minutes]
    crew_hours : Decimal
        The same, to a hundredth. [h]
    """

    kind: PartKind
    parts: int
    lines: tuple[CostLine, ...]
    material: Decimal
    labour: Decimal
    paint: Decimal
    waste: Decimal
    amount: Decimal
    minutes: Decimal
    crew_hours: Decimal


def _per(rate: SiteRate, currency: str) -> str:
    return rate.unit.replace("currency", currency)


def _time(
    name: str,
    amount: Decimal,
    unit: str,
    rate: SiteRate,
    rates: SiteRates,
    goes_by: str,
    *,
    stock: str = "",
    note: str = "",
    people: int = 1,
) -> CostLine:
    """A line of crew time, in minutes and in money."""
    minutes = amount * people * rate.value
    counts = counted(amount, unit)
    if rate.learning is not None and amount:
        units = measured(learned_units(float(amount), float(rate.learning)))
        minutes = units * people * rate.value
        counts += (
            f" as {figure(units)} first ones (each doubling takes {percent(round(100 * rate.learning, 1))} of the time, "
            f"exponent {learning_exponent(float(rate.learning)):.3f})"
        )
    by_two = f" × {people} people" if people > 1 else ""
    money = rounded(minutes * rates.crew_hour.value / MINUTES_AN_HOUR, rates.currency)
    working = (
        f"{name}: {counts} × {figure(rate.value)} {rate.unit}{by_two} = {figure(minutes, 1)} minutes, "
        f"at {figure(rates.crew_hour.value)} {_per(rates.crew_hour, rates.currency)} {money} {rates.currency}{note}"
    )
    source = f"{rate.provenance()}; {rates.crew_hour.provenance()}"
    return CostLine(
        name, amount, unit, rate.value, rate.unit, minutes, money, working, source, goes_by, stock, rate.name
    )


def _money(
    name: str, amount: Decimal, unit: str, rate: SiteRate, currency: str, goes_by: str, *, stock: str = ""
) -> CostLine:
    """A line of money only."""
    money = rounded(amount * rate.value, currency)
    per = _per(rate, currency)
    working = f"{name}: {counted(amount, unit)} × {figure(rate.value)} {per} = {money} {currency}"
    zero = Decimal(0)
    return CostLine(
        name, amount, unit, rate.value, per, zero, money, working, rate.provenance(), goes_by, stock, rate.name
    )


def _sheets(share: StockShare) -> Decimal:
    """The kind's share of the sheets or lengths."""
    return measured(sum(t.count for t in share.usage.taken) * share.of_area)


def _material(share: StockShare, currency: str) -> CostLine:
    """Whole sheets or lengths, by the kind's share of them."""
    usage = share.usage
    noun = "length" if usage.sectional else "sheet"
    count = _sheets(share)
    bought = " + ".join(f"{t.count} × {t.name} at {t.price}" for t in usage.taken)
    working = f"material, {usage.stock}: {bought} = {share.all_amount} {currency}"
    if share.of_area != 1:
        working += (
            f", of which {percent(round(100 * share.of_area, 1))} by area of the parts = {share.amount} {currency}"
        )
    prices = {t.price for t in usage.taken}
    rate = prices.pop() if len(prices) == 1 else None
    return CostLine(
        "material",
        count,
        noun,
        rate,
        f"{currency}/{noun}",
        Decimal(0),
        share.amount,
        working,
        "book: the prices that hold on the day",
        "area",
        usage.stock,
    )


def _carriers(share: StockShare, rates: SiteRates) -> tuple[int, str]:
    """How many carry a sheet, by the heaviest of them and what the book says one carries alone; and a remark."""
    alone, usage = rates.other(RateName.LIFT_ALONE), share.usage
    heaviest = max((t.length_mm * t.width_mm for t in usage.taken), default=0.0)
    mass_kg = heaviest * usage.thickness_mm * 1e-9 * usage.density_kg_per_m3
    if alone is None or not alone.value:
        return 1, ""
    people, remark = people_to_lift(mass_kg, float(alone.value))
    return people, f" ({remark})" if remark else ""


def _stock_lines(share: StockShare, rates: SiteRates) -> Iterator[CostLine]:
    """Everything that goes by one board or section."""
    usage = share.usage
    yield _material(share, rates.currency)
    if (batch := rates.other(RateName.BATCH_SET_UP)) is not None:
        yield _time("set up the batch", Decimal(1), "batch", batch, rates, "parts", stock=usage.stock)
    if not usage.sectional:
        people, remark = _carriers(share, rates)
        sheets = _sheets(share)
        note = " (metres estimated from perimeters)" if share.estimated else ""
        yield _time(
            "carry sheets",
            sheets,
            "sheet",
            rates.carry_a_sheet,
            rates,
            "area",
            stock=usage.stock,
            people=people,
            note=remark,
        )
        yield _time("break down", share.cut_m, "m", rates.break_down, rates, "cuts", stock=usage.stock, note=note)
        yield _time("clean up", sheets, "sheet", rates.clean_up, rates, "area", stock=usage.stock)
    waste_kg = measured(Decimal(repr(usage.waste_kg)) * share.of_area)
    yield _money("waste away", waste_kg, "kg", rates.waste_away, rates.currency, "area", stock=usage.stock)


def _part_lines(lines: Sequence[ScheduleLine], rates: SiteRates) -> Iterator[CostLine]:
    """Everything that goes by the parts themselves."""
    for name, unit, rate, goes_by in (
        ("set up", "distinct part", rates.set_up, "distinct parts"),
        ("size parts", "part", rates.size_a_part, "parts"),
        ("prepare edges", "m", rates.prepare_edges, "edges"),
        ("bore cups", "cup", rates.bore_a_cup, "cups"),
        ("bore plates", "plate", rates.bore_a_plate, "plates"),
        ("apply coats", "m2 of coats", rates.apply_a_coat, "coats"),
    ):
        yield _time(name, quantity(goes_by, lines), unit, rate, rates, goes_by)
    yield _money("paint", quantity("coats", lines), "m2 of coats", rates.paint, rates.currency, "coats")


def site_cost(lines: Sequence[ScheduleLine], shares: Sequence[StockShare], rates: SiteRates) -> SiteCost:
    """Cost of making all the parts of one kind on site.

    Parameters
    ----------
    lines : sequence of ScheduleLine
        All of one kind, at least one.
    shares : sequence of StockShare
        What that kind takes of each board and section.
    rates : SiteRates

    Returns
    -------
    SiteCost
        Lines of zero are left out. A cup is bored with its pilots; a plate is two holes.

    Raises
    ------
    InputError
        If there are no lines, or lines of several kinds.
    """
    kinds = {line.part.kind for line in lines}
    if len(kinds) != 1:
        raise InputError.at("site cost", "money.several_kinds_at_once", kinds=len(kinds))
    made = [*(line for share in shares for line in _stock_lines(share, rates)), *_part_lines(lines, rates)]
    kept = tuple(line for line in made if line.quantity)
    currency = rates.currency
    minutes = sum((line.minutes for line in kept), Decimal(0))
    return SiteCost(
        kind=kinds.pop(),
        parts=sum(line.quantity for line in lines),
        lines=kept,
        material=total_of((x for x in kept if x.name == CostName.MATERIAL), currency),
        labour=total_of((x for x in kept if x.minutes), currency),
        paint=total_of((x for x in kept if x.name == CostName.PAINT), currency),
        waste=total_of((x for x in kept if x.name == CostName.WASTE_AWAY), currency),
        amount=total_of(kept, currency),
        minutes=minutes,
        crew_hours=(minutes / MINUTES_AN_HOUR).quantize(Decimal("0.01")),
    )


def site_costs(
    lines: Sequence[ScheduleLine], usage: Iterable[MaterialUsage], rates: SiteRates
) -> dict[PartKind, SiteCost]:
    """Cost of making every kind of part on site, each with its share of the sheets they are cut from.

    Parameters
    ----------
    lines : sequence of ScheduleLine
        Every part that `usage` was laid out for.
    usage : iterable of MaterialUsage
        One for each board and section.
    rates : SiteRates

    Raises
    ------
    InputError
        With every fault in `usage`.
    """
    shares = shared_usage(lines, usage, rates.currency)
    return {kind: site_cost(members, shares[kind], rates) for kind, members in by_kind(lines).items()}
