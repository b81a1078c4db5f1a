"""Make or buy with its spread: what each way costs and takes, how likely buying is cheaper, and the best mixture."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from typing import TYPE_CHECKING

from rodbook.errors import Message
from rodbook.job import Book, Workshop
from rodbook.job.models import Making
from rodbook.money.costs.outcome import Rejects
from rodbook.money.costs.usage import MaterialUsage
from rodbook.money.costs.ways import WayCost
from rodbook.money.deciding.simulation import Drawn, Likely
from rodbook.money.deciding.weighing import Weighing, weighing
from rodbook.money.rates.names import PREPARATION, REJECTS, RateName
from rodbook.money.rates.site_rates import Way
from rodbook.setout import PartKind, ScheduleLine

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    type Floats = NDArray[np.float64]

__all__ = ["Chances", "KindChances", "chances"]


@dataclass(frozen=True)
class KindChances:
    """The ways of making one kind, the other kinds being made as in the best mixture.

    Parameters
    ----------
    kind : PartKind
    ways : tuple of Likely
    best : Way
        The one with the least mean cost.
    buying_cheaper : float, optional
        Share of draws in which bought finished costs less than all on site; None where it can't be bought. [1]
    """

    kind: PartKind
    ways: tuple[Likely, ...]
    best: Way
    buying_cheaper: float | None


@dataclass(frozen=True)
class Chances:
    """Make or buy with its spread.

    Parameters
    ----------
    currency : str
    day : date
    draws, seed : int
        Draws taken (a power of two) and where they start.
    varying : tuple of str
        Rates that vary.
    kinds : tuple of KindChances
    best : Likely
        The mixture with the least mean cost of all that there are.
    pure : tuple of Likely
        Everything made one way as far as it can be, the rest on site.
    buying_cheaper : float, optional
        Share of draws in which everything bought finished costs less than everything on site. [1]
    remarks : tuple of Message
        What is not counted, as the book is silent about it.
    """

    currency: str
    day: Date
    draws: int
    seed: int
    varying: tuple[str, ...]
    kinds: tuple[KindChances, ...]
    best: Likely
    pure: tuple[Likely, ...]
    buying_cheaper: float | None
    remarks: tuple[Message, ...]


def chances(
    lines: Sequence[ScheduleLine],
    usage: Iterable[MaterialUsage],
    book: Book,
    day: Date,
    workshop: Workshop | None,
    making: Mapping[str, Making],
    *,
    draws: int = 10_000,
    seed: int = 0,
    rejects: Rejects | None = None,
) -> Chances:
    """What each way of making each kind is likely to cost and to take.

    Parameters
    ----------
    lines, usage, book, day, workshop, making
        As for `make_or_buy`.
    draws : int
        At least so many; rounded up to a power of two.
    seed : int
    rejects : callable, optional
        Share of rejects by kind and way; the book's where it is left out.

    Returns
    -------
    Chances

    Raises
    ------
    InputError
        With every fault in rates or usage.
    """
    weighed = weighing(lines, usage, book, day, workshop, making, rejects=rejects)
    drawn = Drawn(weighed, draws, seed, book.currency)
    best = weighed.best()
    kinds = tuple(_of_kind(drawn, kind, best) for kind in weighed.ways)
    pure = [{k: way if way in ways else _nearest(ways) for k, ways in weighed.ways.items()} for way in Way]
    distinct = [m for n, m in enumerate(pure) if m not in pure[:n]]
    all_site, all_bought = pure[0], pure[-1]
    cheaper = None
    if set(all_bought.values()) == {Way.BOUGHT} and set(all_site.values()) == {Way.SITE}:
        cheaper = _share_below(drawn.cost(all_bought), drawn.cost(all_site))
    return Chances(
        book.currency,
        day,
        drawn.draws,
        seed,
        tuple(weighed.spreads),
        kinds,
        drawn.likely(best),
        tuple(drawn.likely(m) for m in distinct),
        cheaper,
        _remarks(weighed),
    )


def _nearest(ways: Mapping[Way, WayCost]) -> Way:
    return Way.SITE if Way.SITE in ways else next(iter(ways))


def _share_below(a: Floats, b: Floats) -> float:
    return float((a < b).mean())


def _of_kind(drawn: Drawn, kind: PartKind, best: Mapping[PartKind, Way]) -> KindChances:
    others = {k: w for k, w in best.items() if k != kind}
    ways = drawn.weighed.ways[kind]
    likely = tuple(drawn.likely({kind: way}, beside=others) for way in ways)
    means = {way: drawn.weighed.mean_cost({**others, kind: way}) for way in ways}
    cheaper = None
    if Way.SITE in ways and Way.BOUGHT in ways:
        cheaper = _share_below(
            drawn.cost({kind: Way.BOUGHT}, beside=others), drawn.cost({kind: Way.SITE}, beside=others)
        )
    return KindChances(kind, likely, min(means, key=lambda w: means[w]), cheaper)


def _remarks(weighed: Weighing) -> tuple[Message, ...]:
    rates = weighed.setting.rates
    result = [] if weighed.spreads else [Message("money.no_spreads")]
    if rates.other(RateName.INTERRUPTIONS) is None:
        result.append(Message("money.no_interruptions"))
    used = sorted({way for ways in weighed.ways.values() for way in ways}, key=list(Way).index)
    for code, names in (("money.no_rejects", REJECTS), ("money.no_preparation", PREPARATION)):
        silent = [way for way in used if rates.other(names[way]) is None]
        if silent:
            result.append(Message(code, ways=silent))
    return tuple(result)
