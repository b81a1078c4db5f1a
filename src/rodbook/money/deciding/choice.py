"""What the answer to make or buy consists of: for each kind of part, for each opening, and for the job."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import Message
from rodbook.job.models import Making
from rodbook.money.costs.bought import BoughtCost, Order
from rodbook.money.costs.site import SiteCost
from rodbook.setout import PartKind

__all__ = ["KindChoice", "MakeOrBuy", "OpeningCost", "OpeningShare", "Totals"]


@dataclass(frozen=True)
class OpeningShare:
    """What one opening's parts of one kind cost each way.

    Parameters
    ----------
    mark : str
    parts : int
    site : Decimal
        [currency]
    bought : Decimal, optional
        None where the kind can't be bought. [currency]
    """

    mark: str
    parts: int
    site: Decimal
    bought: Decimal | None


@dataclass(frozen=True)
class KindChoice:
    """Make or buy for one kind of part.

    Parameters
    ----------
    kind : PartKind
    parts : int
    site : SiteCost
    bought : BoughtCost
        Before what the order is charged on top.
    top_up, delivery : Decimal
        Of a kind that is bought in, its share of the order's; of one that is made on site, what the order would be
        charged more (or less) if it were added to it. [currency]
    site_amount : Decimal
        [currency]
    bought_amount : Decimal, optional
        With top-up and delivery; None where it can't be bought. [currency]
    difference : Decimal, optional
        `site_amount` less `bought_amount`: above zero, bought in looks cheaper. [currency]
    site_per_part, bought_per_part : Decimal, optional
        Mean over the parts, rounded. [currency]
    crew_hours_saved : Decimal
        By buying it in. [h]
    asked : Making
        What the job says; CHEAPER where it says nothing.
    decision : Making
        SITE or BOUGHT.
    other_way : Decimal, optional
        What the whole job would cost more on average, with remakes and all that varies, if this kind alone were made the
        other way; less than zero where the job's own wish costs money. None where there is no other way. [currency]
    reason : str
        One sentence.
    openings : tuple of OpeningShare
        They add up to `site_amount` and `bought_amount` exactly.
    """

    kind: PartKind
    parts: int
    site: SiteCost
    bought: BoughtCost
    top_up: Decimal
    delivery: Decimal
    site_amount: Decimal
    bought_amount: Decimal | None
    difference: Decimal | None
    site_per_part: Decimal
    bought_per_part: Decimal | None
    crew_hours_saved: Decimal
    asked: Making
    decision: Making
    other_way: Decimal | None
    reason: str
    openings: tuple[OpeningShare, ...]


@dataclass(frozen=True)
class OpeningCost:
    """What the parts of one opening (or panel) cost.

    Parameters
    ----------
    mark : str
    parts : int
    site : Decimal
        All of them made on site. [currency]
    bought : Decimal, optional
        Sum of the kinds' `bought_amount` shares; None where one of them can't be bought. [currency]
    decided : Decimal
        Each the way that was decided. [currency]
    """

    mark: str
    parts: int
    site: Decimal
    bought: Decimal | None
    decided: Decimal


@dataclass(frozen=True)
class Totals:
    """The job's cost of parts.

    Parameters
    ----------
    all_site : Decimal
        Everything made on site. [currency]
    all_bought : Decimal, optional
        Everything in one order; None where something can't be bought. [currency]
    site_made : Decimal
        What is made on site. [currency]
    bought_in : Decimal
        The order, top-up and delivery included. [currency]
    decided : Decimal
        Both together. [currency]
    crew_hours : Decimal
        For what is made on site. [h]
    crew_hours_saved : Decimal
        By what is bought in. [h]
    """

    all_site: Decimal
    all_bought: Decimal | None
    site_made: Decimal
    bought_in: Decimal
    decided: Decimal
    crew_hours: Decimal
    crew_hours_saved: Decimal


@dataclass(frozen=True)
class MakeOrBuy:
    """Make or buy for every kind of part of a job.

    Parameters
    ----------
    currency : str
        ISO 4217 code of every amount.
    day : date
        Day whose prices and rates were taken.
    workshop : str
        Empty where the book has none.
    kinds : tuple of KindChoice
        In the order in which kinds are listed.
    openings : tuple of OpeningCost
        In the order in which the schedule names them; they add up to the kinds exactly.
    order : Order
        What is bought in.
    totals : Totals
    remarks : tuple of Message
    """

    currency: str
    day: Date
    workshop: str
    kinds: tuple[KindChoice, ...]
    openings: tuple[OpeningCost, ...]
    order: Order
    totals: Totals
    remarks: tuple[Message, ...] = ()

    def choice_of(self, kind: PartKind) -> KindChoice:
        """The choice for a kind.

        Raises
        ------
        KeyError
            If the job has no part of that kind.
        """
        for choice in self.kinds:
            if choice.kind == kind:
                return choice
        raise KeyError(kind)

    def maker_of(self, kind: PartKind) -> Making:
        """Who makes a kind: SITE or BOUGHT; KeyError where the job has no part of it."""
        return self.choice_of(kind).decision
