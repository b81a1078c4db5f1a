"""What a job's price leaves out: work besides the parts, with the hours that the dates plan for it, and ironmongery."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from rodbook.dates import Stage
from rodbook.plan.model import Plan
from rodbook.plan.schedule.tasks import tasks_of

__all__ = ["LeftOut", "Work", "left_out_in_words", "left_out_of"]

QUARTERS_AN_HOUR = 4


class Work(StrEnum):
    """Sorts of work that no cost of parts holds."""

    MEASURING = "measuring"
    ORDERING = "ordering, taking in"
    FITTING = "fitting"
    FINISHING = "touching up, adjusting"
    HANDING_OVER = "handing over"


SORTS: Mapping[Stage, Work | None] = {
    Stage.MEASURE: Work.MEASURING,
    Stage.ORDER: Work.ORDERING,
    Stage.DELIVER: Work.ORDERING,
    Stage.CHECK: Work.ORDERING,
    Stage.MAKE: None,
    Stage.COAT: None,
    Stage.LININGS: Work.FITTING,
    Stage.LEAVES: Work.FITTING,
    Stage.TRIMS: Work.FITTING,
    Stage.PANELS: Work.FITTING,
    Stage.DECORATE: Work.FINISHING,
    Stage.ADJUST: Work.FINISHING,
    Stage.HAND_OVER: Work.HANDING_OVER,
}
"""What each stage of the dates is here; making and coating are in the cost of parts."""


@dataclass(frozen=True)
class LeftOut:
    """What the price of the parts leaves out.

    Parameters
    ----------
    work : tuple of Work and Decimal
        Crew hours that the dates plan for each sort. [h]
    hours : Decimal
        All of them. [h]
    hinges : int
        Hinges that the leaves take; with plates, handles, catches, screws and packers they are bought besides.
    own_lines : int
        Lines that the job's price has besides the parts, options aside: some of the work may be in them.
    own_hours : Decimal
        Crew hours in those lines. [h]
    """

    work: tuple[tuple[Work, Decimal], ...]
    hours: Decimal
    hinges: int
    own_lines: int
    own_hours: Decimal


def left_out_of(plan: Plan) -> LeftOut:
    """What the price of a plan's parts leaves out, by the tasks that its dates are planned from.

    Parameters
    ----------
    plan : Plan
        With its costs.

    Raises
    ------
    InputError
        If it has no parts yet.
    """
    quarters: dict[Work, int] = defaultdict(int)
    for task in tasks_of(plan, key="job", people=max(1, len(plan.book.dates.crew))).tasks:
        work = SORTS[task.stage]
        if work is not None:
            quarters[work] += task.quarters * task.hands
    hours = tuple((work, Decimal(quarters[work]) / QUARTERS_AN_HOUR) for work in Work if quarters[work])
    hinges = sum(line.quantity * sum(b.kind == "cup" for b in line.part.borings) for line in plan.schedule)
    own = [extra for extra in plan.job.price.extras if not extra.option]
    return LeftOut(
        hours, sum((h for _, h in hours), Decimal(0)), hinges, len(own), sum((e.hours for e in own), Decimal(0))
    )


def left_out_in_words(result: LeftOut, hours: Callable[[Decimal], str], *, for_client: bool = False) -> str:
    """What a price leaves out, in one line.

    Parameters
    ----------
    result : LeftOut
    hours : callable
        Writes crew hours in the book's language.
    for_client : bool
        Whether the client reads it; the firm is also told what the price's own lines carry.
    """
    works = [work.value for work, _ in result.work]
    named = f"{', '.join(works[:-1])} and {works[-1]}" if len(works) > 1 else "".join(works)
    beyond = ", beyond the lines that it has besides the parts" if result.own_lines else ""
    worked = f"{named}, for which the dates plan {hours(result.hours)}; nor " if works else ""
    hinges = (
        f"{result.hinges} hinge{'' if result.hinges == 1 else 's'} and other ironmongery"
        if result.hinges
        else "ironmongery"
    )
    text = f"Not in this price{beyond}: {worked}{hinges}, packers and fixings."
    if result.own_hours and not for_client:
        text += f" Those lines carry {hours(result.own_hours)}."
    return text
