"""Draws of everything that varies in a job, kept, so that every mixture is put together from the same ones."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from rodbook.money.costs.outcome import Outcome, outcome
from rodbook.money.deciding.weighing import Mixture, Weighing
from rodbook.money.rates.even import even_draws, normal_quantiles
from rodbook.money.rates.names import RateName
from rodbook.money.rates.rounding import measured, rounded
from rodbook.money.rates.site_rates import Way
from rodbook.setout import PartKind

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    type Floats = NDArray[np.float64]

__all__ = ["CashOut", "Drawn", "Figures", "Likely"]


@dataclass(frozen=True)
class Figures:
    """A quantity that varies.

    Parameters
    ----------
    mean : Decimal
        Worked out in closed form where there is one; days of several kinds and days of payment have none, and there it is
        the draws' own. [`unit`]
    drawn_mean : Decimal
        Of the draws: a check on the other. [`unit`]
    one_in_ten, middle, nine_in_ten : Decimal
        What one, five and nine in ten stay under, by the draws. [`unit`]
    unit : str
    hundredths : tuple of Decimal
        For money, what 1, 2 ... 99 in a hundred stay under, by the draws. [`unit`]
    """

    mean: Decimal
    drawn_mean: Decimal
    one_in_ten: Decimal
    middle: Decimal
    nine_in_ten: Decimal
    unit: str
    hundredths: tuple[Decimal, ...] = ()


@dataclass(frozen=True)
class CashOut:
    """Money that goes out.

    Parameters
    ----------
    what : str
    amount : Decimal
        On average. [currency]
    day, late_day : Decimal
        Working days after the order, on average and what nine in ten stay under. [days]
    """

    what: str
    amount: Decimal
    day: Decimal
    late_day: Decimal


@dataclass(frozen=True)
class Likely:
    """What a way of making, of one kind or of a whole job, is likely to come to.

    Parameters
    ----------
    mixture : tuple
        The way for each kind.
    cost : Figures
        Its order's least charge and deliveries included. [currency]
    crew_days, days, painter_hours, remakes : Figures
        Crew days; working days until all is there; hours of a painter's preparation; parts made anew.
    cash : tuple of CashOut
        In the order in which it goes out.
    """

    mixture: Mixture
    cost: Figures
    crew_days: Figures
    days: Figures
    painter_hours: Figures
    remakes: Figures
    cash: tuple[CashOut, ...]


class Drawn:
    """The draws: factors once for the whole job, remakes once for each kind and way, all kept."""

    def __init__(self, weighed: Weighing, draws: int, seed: int, currency: str) -> None:
        """Take the draws."""
        self.weighed, self.currency = weighed, currency
        varying = [(k, w) for k, ways in weighed.ways.items() for w in ways if weighed.rejects(k, w)]
        names = list(weighed.spreads)
        points = even_draws(max(1, len(names) + len(varying)), draws, seed)
        self.draws = len(points)
        self._factors = {
            name: _exp(weighed.spreads[name].sigma * normal_quantiles(points[:, n])) for n, name in enumerate(names)
        }
        columns = {pair: points[:, len(names) + n] for n, pair in enumerate(varying)}
        self._outcomes: dict[tuple[PartKind, Way], Outcome] = {}
        for kind, ways in weighed.ways.items():
            for way, cost in ways.items():
                remakes: Floats | float = 0.0
                remade: Floats | float = 0.0
                if (kind, way) in columns:
                    remakes = _remakes(columns[kind, way], cost.parts, weighed.rejects(kind, way))
                    remade = (remakes > 0).astype(float)
                self._outcomes[kind, way] = outcome(cost, weighed.setting, self._factors, remakes, remade)

    def full(self, values: Floats | float) -> Floats:
        """One value for each draw, also where nothing varies."""
        import numpy as np

        return np.broadcast_to(np.asarray(values, dtype=float), (self.draws,))

    def cost(self, mixture: Mapping[PartKind, Way], beside: Mapping[PartKind, Way] | None = None) -> Floats:
        """Cost of a mixture with what its order is charged, or adds to the charges of what is ordered beside it."""
        others = dict(beside or {})
        charges = self.weighed.charges({**others, **mixture}) - self.weighed.charges(others)
        total: Floats | float = charges
        for pair in mixture.items():
            total = total + self._outcomes[pair].cost
        return self.full(total)

    def figures(self, mean: float | None, values: Floats | float, unit: str) -> Figures:
        """Mean in closed form, the draws' own where there is none, and quantiles of the draws."""
        import numpy as np

        drawn = self.full(values)
        curve = np.quantile(drawn, np.arange(1, 100) / 100)
        if mean is None:
            mean = float(drawn.mean())

        def written(value: float) -> Decimal:
            exact = measured(float(value))
            return rounded(exact, self.currency) if unit == self.currency else exact.quantize(Decimal("0.01"))

        low, middle, high = (written(curve[n - 1]) for n in (10, 50, 90))
        hundredths = tuple(written(value) for value in curve) if unit == self.currency else ()
        return Figures(written(mean), written(float(drawn.mean())), low, middle, high, unit, hundredths)

    def likely(self, mixture: Mapping[PartKind, Way], beside: Mapping[PartKind, Way] | None = None) -> Likely:
        """Everything about a mixture."""
        others = dict(beside or {})
        charges = self.weighed.charges({**others, **mixture}) - self.weighed.charges(others)
        drawn = [self._outcomes[pair] for pair in mixture.items()]
        means = [self.weighed.mean(*pair) for pair in mixture.items()]
        return Likely(
            tuple(mixture.items()),
            self.figures(charges + sum(float(m.cost) for m in means), self.cost(mixture, others), self.currency),
            self.figures(sum(float(m.crew_days) for m in means), _total(d.crew_days for d in drawn), "crew days"),
            self.figures(float(means[0].days) if len(means) == 1 else None, _end(drawn), "working days"),
            self.figures(sum(float(m.painter_hours) for m in means), _total(d.painter_hours for d in drawn), "hours"),
            self.figures(sum(float(m.remakes) for m in means), _total(d.remakes for d in drawn), "parts"),
            self._cash(means, drawn, charges),
        )

    def _cash(self, means: Sequence[Outcome], drawn: Sequence[Outcome], charges: float) -> tuple[CashOut, ...]:
        setting = self.weighed.setting
        merchant, workshop = setting.rate(RateName.PAY_THE_MERCHANT), setting.rate(RateName.PAY_THE_WORKSHOP)
        arrives: Floats | float = 0.0
        for each in drawn:
            arrives = _larger(arrives, each.days - each.crew_days)
        end = _end(drawn)
        rows = (
            (
                "boards, lengths, paint and waste",
                sum(float(m.material + m.sundries) for m in means),
                0.0,
                merchant,
            ),
            ("the workshop", charges + sum(float(m.bought) for m in means), arrives, workshop),
            ("wages", sum(float(m.wages) for m in means), end, 0.0),
            ("the painter's preparation", sum(float(m.painter) for m in means), end, 0.0),
        )
        results: list[CashOut] = []
        for what, amount, days, terms in rows:
            if amount > 0:
                figures = self.figures(None, days + terms, "days")
                results.append(
                    CashOut(what, rounded(measured(amount), self.currency), figures.mean, figures.nine_in_ten)
                )
        return tuple(sorted(results, key=lambda c: c.day))


def _total(values: Iterable[Floats | float]) -> Floats | float:
    total: Floats | float = 0.0
    for value in values:
        total = total + value
    return total


def _larger(a: Floats | float, b: Floats | float) -> Floats | float:
    import numpy as np

    result: Floats = np.maximum(a, b)
    return result if result.ndim else float(result)


def _end(outcomes: Sequence[Outcome]) -> Floats | float:
    """Working days until all is there: one crew does its work in turn while the workshop does its own."""
    end = _total(o.crew_days for o in outcomes)
    for each in outcomes:
        end = _larger(end, each.days)
    return end


def _exp(values: Floats) -> Floats:
    import numpy as np

    result: Floats = np.exp(values)
    return result


def _remakes(points: Floats, parts: int, share: float) -> Floats:
    """Rejects before so many parts are right, by the inverse of the negative binomial distribution.

    Parameters
    ----------
    points : array of float
        Each above 0 and below 1. [1]
    parts : int
        Wanted right, >= 1.
    share : float
        Of what is made that is rejected, from 0, below 1. [1]

    Notes
    -----
    k rejects among parts + k made, the last of them right, have the chance C(parts + k - 1, k) (1 - share)^parts share^k;
    common knowledge of statistics. Summed until less than a billionth is left.
    """
    import numpy as np

    log_share = math.log(share) if share else -math.inf
    log_right = parts * math.log1p(-share)
    within = 0.0
    sums: list[float] = []
    while within < 1 - 1e-9 or not sums:
        k = len(sums)
        log_ways = math.lgamma(parts + k) - math.lgamma(parts) - math.lgamma(k + 1)
        within += math.exp(log_ways + log_right + (k * log_share if k else 0.0))
        sums.append(within)
    result: Floats = np.searchsorted(sums, points).astype(float)
    return result
