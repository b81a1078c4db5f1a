"""Where a job stands and what needs attention, in words. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

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
    return shown if len(marks) <= 4 else f"{shown} and {len(marks) - 4} more"


def _have(marks: Sequence[str]) -> str:
    return "1 opening has" if len(marks) == 1 else f"{len(marks)} openings have"


def standing_of(job: Job, plan: Plan | None, faults: Sequence[Fault], work: Work | None) -> Standing:
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
    """
    if not job.openings and not job.panels:
        return Standing("Nothing is measured yet.", (("openings", "Add the first opening, or paste a list of them."),))
    needs = [("openings", f"{f.where}: {f.what}." if f.where else f"{f.what}.") for f in faults[:3]]
    if len(faults) > 3:
        needs.append(("openings", f"{len(faults) - 3} more faults."))
    standing = [o for o in job.openings if o.state == "standing"]
    no_depth = [o.mark for o in standing if o.depth is None]
    no_diagonals = [o.mark for o in standing if o.diagonals is None and o.head == "level"]
    if no_depth:
        needs.append(("openings", f"{_have(no_depth)} no depth: {_some(no_depth)}."))
    if no_diagonals:
        needs.append(
            (
                "openings",
                f"{_have(no_diagonals)} no diagonals, so nothing checks that the sides are plumb: {_some(no_diagonals)}.",
            )
        )
    if plan is not None:
        raked = [note.where for note in plan.not_worked_out]
        if raked:
            needs.append(("parts", f"{_have(raked)} a raked head, which is not set out yet: {_some(raked)}."))
        needs += [
            ("parts", str(note))
            for note in plan.remarks
            if "No depth" not in note.sentence and "No diagonals" not in note.sentence
        ][:3]
    return Standing(_how_far(job, plan, faults, work), tuple(needs))


def _how_far(job: Job, plan: Plan | None, faults: Sequence[Fault], work: Work | None) -> str:
    count = f"{len(job.openings)} opening{'' if len(job.openings) == 1 else 's'}"
    if plan is None:
        return f"{count}; {len(faults)} fault{'' if len(faults) == 1 else 's'} to put right before it can be set out."
    parts = sum(line.quantity for line in plan.schedule)
    sizes = f", {len(plan.sizes.sizes)} standard size{'' if len(plan.sizes.sizes) == 1 else 's'}" if plan.sizes else ""
    tail = {
        "done": "laid out and costed",
        "running": "layouts under way",
        "waiting": "layouts waiting",
        "stopped": "layouts stopped",
        "failed": "layouts failed",
    }.get(work.state if work else "", "not laid out yet")
    return f"{count}{sizes}, {parts} parts; {tail}."
