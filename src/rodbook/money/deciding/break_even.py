"""Where the decision shown turns: what a price or a time has to become for make or buy to be decided otherwise.

Found on the decision itself: one thing is moved until `Deciding.decide` answers otherwise. The mean cost of a mixture is a
straight line in what is moved, so a mixture that is best at both ends of a stretch is best all along it, and halving finds
the point.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from rodbook.money.costs.outcome import HOURS_A_DAY
from rodbook.money.deciding.decision import Deciding, Mover, WhatIf
from rodbook.money.rates.names import RateName
from rodbook.money.rates.rounding import measured, rounded
from rodbook.money.rates.site_rates import Way
from rodbook.setout import PartKind
from rodbook.working import percent

__all__ = ["LEAST", "MOST", "TurningPoint", "TurningPoints", "points_in_words", "turning_points"]

LEAST, MOST = 0.05, 10.0
"""How far a price or a time is moved: to a twentieth and to ten times (house assumption). [1]"""

NEAR = 1e-7
"""Between two factors so near to each other nothing is looked for any more. [1]"""

type Mixture = Mapping[PartKind, Way]


@dataclass(frozen=True)
class TurningPoint:
    """A point at which the decision changes, everything else staying.

    Parameters
    ----------
    mover : Mover
        What is moved.
    factor : Decimal
        What it has to be multiplied with; below 1 it falls. [1]
    day_value : Decimal, optional
        For the crew day, what it then costs. [currency/day]
    before, beyond : tuple of PartKind and Way
        Who makes each kind on this side of it, seen from today, and on the other.
    """

    mover: Mover
    factor: Decimal
    day_value: Decimal | None
    before: tuple[tuple[PartKind, Way], ...]
    beyond: tuple[tuple[PartKind, Way], ...]

    @property
    def turned(self) -> tuple[tuple[PartKind, Way], ...]:
        """The kinds that are made otherwise beyond it, and how."""
        known = dict(self.before)
        return tuple((kind, way) for kind, way in self.beyond if known[kind] is not way)


@dataclass(frozen=True)
class TurningPoints:
    """Where the decision on a job, or on one kind of it, turns.

    Parameters
    ----------
    decided : tuple of PartKind and Way
        The decision as it is.
    free : bool
        Whether there is anything to decide: a kind that can be made either way and is not settled by the job.
    day_now : Decimal
        What a crew day costs by the book, on average. [currency/day]
    points : tuple of TurningPoint
        The nearest below and above, of whatever can be moved.
    """

    decided: tuple[tuple[PartKind, Way], ...]
    free: bool
    day_now: Decimal
    points: tuple[TurningPoint, ...]


def _day_cost(deciding: Deciding) -> float:
    """What a crew day costs on average. [currency/day]"""
    setting, spread = deciding.weighed.setting, deciding.weighed.spreads.get(RateName.CREW_HOUR)
    hour = setting.rate(RateName.CREW_HOUR) * (spread.mean if spread else 1.0)
    return hour * setting.rate(RateName.WORKING_DAY, HOURS_A_DAY)


def _steps(deciding: Deciding, mover: Mover, end: float) -> Iterator[tuple[float, Mixture, Mixture]]:
    """Every factor from 1 to `end` at which the decision changes, and the decisions on its two sides."""

    def at(factor: float) -> Mixture:
        return deciding.decide(WhatIf.by(mover, factor))

    here, now = 1.0, at(1.0)
    last = at(end)
    while now != last:
        near, far, beyond = here, end, last
        while abs(far - near) > NEAR * max(near, far):
            middle = (near + far) / 2
            result = at(middle)
            if result == now:
                near = middle
            else:
                far, beyond = middle, result
        yield far, now, beyond
        here, now = far, beyond


def _point(
    deciding: Deciding, mover: Mover, factor: float, before: Mixture, beyond: Mixture, currency: str
) -> TurningPoint:
    day = rounded(measured(_day_cost(deciding) * factor), currency) if mover is Mover.CREW_DAY else None
    return TurningPoint(
        mover, measured(factor).quantize(Decimal("0.0001")), day, tuple(before.items()), tuple(beyond.items())
    )


def turning_points(deciding: Deciding, *, currency: str) -> tuple[TurningPoints, Mapping[PartKind, TurningPoints]]:
    """Find where the decision on a whole job turns, and that on each of its kinds.

    Parameters
    ----------
    deciding : Deciding
        What was decided between.
    currency : str

    Returns
    -------
    tuple
        For the job the nearest points at which anything is decided otherwise; for each kind those at which it itself is.
    """
    decided = tuple(deciding.decide().items())
    day_now = rounded(measured(_day_cost(deciding)), currency)
    free = deciding.free
    of_job: list[TurningPoint] = []
    of_kind: dict[PartKind, list[TurningPoint]] = {kind: [] for kind, _ in decided}
    known = dict(decided)
    for mover in Mover if free else ():
        for end in (LEAST, MOST):
            seen: set[PartKind] = set()
            for number, (factor, before, beyond) in enumerate(_steps(deciding, mover, end)):
                point = _point(deciding, mover, factor, before, beyond, currency)
                if not number:
                    of_job.append(point)
                turned = [kind for kind in free if beyond[kind] is not known[kind] and kind not in seen]
                seen.update(turned)
                for kind in turned:
                    of_kind[kind].append(point)
    whole = TurningPoints(decided, bool(free), day_now, tuple(of_job))
    kinds = {k: TurningPoints(decided, k in free, day_now, tuple(points)) for k, points in of_kind.items()}
    return whole, kinds


_NEVER: Mapping[Mover, str] = {
    Mover.CREW_DAY: "No cost of a crew day",
    Mover.CREW_TIME: "No time of the crew",
    Mover.WORKSHOP: "No charge of the workshop",
    Mover.BOARDS: "No price of boards and lengths",
}
_NAMES: Mapping[Mover, str] = {
    Mover.CREW_TIME: "the crew's times",
    Mover.WORKSHOP: "the workshop's charges",
    Mover.BOARDS: "boards and lengths",
}
_WAYS: Mapping[Way, str] = {Way.SITE: "made on site", Way.BOUGHT: "bought in"}


def _listed(turned: Sequence[tuple[PartKind, Way]]) -> str:
    """What is made otherwise beyond a point, by the way it is then made."""
    lines = []
    for way, word in _WAYS.items():
        kinds = [str(kind) for kind, made in turned if made is way]
        if kinds:
            lines.append(f"{', '.join(kinds)} {'is' if len(kinds) == 1 else 'are'} {word}")
    return " and ".join(lines)


def points_in_words(result: TurningPoints, currency: str, *, kind: PartKind | None = None) -> tuple[str, ...]:
    """Where a decision turns, in sentences.

    Parameters
    ----------
    result : TurningPoints
    currency : str
    kind : PartKind, optional
        The one that it is about; None for the whole job.
    """
    if not result.free:
        whose = "It" if kind else "The job"
        return (f"{whose} leaves nothing to decide between, so no price turns it.",)
    lines: list[str] = []
    for mover in Mover:
        points = [point for point in result.points if point.mover is mover]
        for point in points:
            turned = point.turned if kind is None else ((kind, dict(point.beyond)[kind]),)
            lines.append(f"The decision turns when {_moved(point, result, currency)}: then {_listed(turned)}.")
        if not points:
            lines.append(f"{_NEVER[mover]} from a twentieth to ten times what it is turns the decision.")
    return tuple(lines)


def _moved(point: TurningPoint, result: TurningPoints, currency: str) -> str:
    if point.mover is Mover.CREW_DAY:
        return f"a crew day costs {point.day_value} {currency} (it costs {result.day_now} now)"
    move = percent(abs(100 * (point.factor - 1)), 1)
    return f"{_NAMES[point.mover]} {'rise' if point.factor >= 1 else 'fall'} by {move}"
