"""How many standard sizes against how thick the packers get, for the openings of each build-up that stand."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from rodbook.plan.model import Plan
from rodbook.plan.stages.openings import offers_by_build_up, packer_range
from rodbook.sizes import Offer, PackerRange, Spoiler, Trade, spoilers, trade_off

__all__ = ["MOST_MORE", "SizesTraded", "sizes_traded"]

MOST_MORE = 13
"""So many numbers of sizes above the fewest are looked at; nobody keeps more sizes in stock (house assumption)."""


@dataclass(frozen=True)
class SizesTraded:
    """The trade-off for the openings of one build-up.

    Parameters
    ----------
    build_up : str
        Its name in the book.
    openings : tuple of str
        Marks of the openings that stand in it.
    trades : tuple of Trade
        From the fewest sizes upwards; each next one packs less in all.
    now : int
        How many sizes the plan has.
    asked : int, optional
        How many the job asks for; None where the fewest are taken.
    spoilers : tuple of Spoiler
        Openings without each of which fewer sizes would do.
    """

    build_up: str
    openings: tuple[str, ...]
    trades: tuple[Trade, ...]
    now: int
    asked: int | None
    spoilers: tuple[Spoiler, ...]

    @property
    def fewest(self) -> int:
        """The least number of sizes that serves every opening."""
        return self.trades[0].number

    @property
    def saved_mm(self) -> tuple[float | None, ...]:
        """By how much each number of sizes packs less than the one before; None of the fewest. [mm]"""
        packing = [trade.choice.packing_mm for trade in self.trades]
        return (None, *(before - now for before, now in pairwise(packing)))


@lru_cache(maxsize=32)
def _weighed(offers: tuple[Offer, ...], packers: PackerRange) -> tuple[Trade, ...]:
    """Kept by what was asked."""
    return trade_off(offers, packers, more=MOST_MORE)


@lru_cache(maxsize=32)
def _spoiling(offers: tuple[Offer, ...], packers: PackerRange) -> tuple[Spoiler, ...]:
    """Kept by what was asked."""
    return spoilers(offers, packers)


def sizes_traded(plan: Plan) -> tuple[SizesTraded, ...]:
    """Weigh the number of sizes against the packing.

    Parameters
    ----------
    plan : Plan
        As far as its parts at least.

    Returns
    -------
    tuple of SizesTraded
        One for each build-up that an opening stands in; none where every opening is still to be framed.
    """
    sizes = plan.sizes.sizes if plan.sizes else ()
    results: list[SizesTraded] = []
    for build_up, offers in offers_by_build_up(plan.openings, planned=True).items():
        packers = packer_range(plan.book.build_up(build_up))
        results.append(
            SizesTraded(
                build_up,
                tuple(offer.name for offer in offers),
                _weighed(offers, packers),
                sum(1 for size in sizes if size.group[0] == build_up),
                plan.job.sizes.get(build_up),
                _spoiling(offers, packers),
            )
        )
    return tuple(results)
