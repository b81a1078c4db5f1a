"""What stands aside: an opening, a panel or a run of a job that can't be read or built as asked, while the others go on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from rodbook.errors import Fault, InputError, Place
from rodbook.job.models import Job

__all__ = [
    "GROUPS",
    "Aside",
    "Group",
    "asides_of",
    "broken_runs",
    "can_stand_aside",
    "entry_of",
    "in_order",
    "numbered_as",
    "set_aside",
    "without",
]

type Group = Literal["openings", "panels", "runs"]

GROUPS: tuple[Group, ...] = ("openings", "panels", "runs")
_NOUNS: dict[Group, str] = {"openings": "opening", "panels": "panel", "runs": "run"}


@dataclass(frozen=True)
class Aside:
    """One entry of a job that stands aside.

    Parameters
    ----------
    group : str
        ``openings``, ``panels`` or ``runs``.
    number : int
        Its place in that list of the job's document, from 1.
    mark : str
        Its mark or name; empty where that could not be read.
    faults : tuple of Fault
        Why, each at its own place.
    """

    group: Group
    number: int
    mark: str
    faults: tuple[Fault, ...]

    @property
    def noun(self) -> str:
        """What it is: an opening, a panel or a run."""
        return _NOUNS[self.group]

    @property
    def name(self) -> str:
        """Its mark, or where it stands if it has none."""
        return self.mark or f"{self.noun} {self.number}"

    @property
    def why(self) -> tuple[str, ...]:
        """Why, one sentence for each fault, without the place."""
        return tuple(fault.what for fault in self.faults)


def entry_of(fault: Fault) -> tuple[Group, int] | None:
    """The entry in which a fault stands, by its place; None where it is one of the whole job.

    Examples
    --------
    >>> entry_of(Fault(("openings", 2, "widths"), "field.empty"))
    ('openings', 3)
    >>> entry_of(Fault(("job", "build_up"), "field.empty")) is None
    True
    """
    match fault.at.path:
        case (str(name), int(number), *_):
            return next(((group, number + 1) for group in GROUPS if group == name), None)
    return None


def can_stand_aside(fault: Fault) -> bool:
    """Whether a fault leaves its entry one that can be kept and stand aside: any but in what tells it from the others.

    Examples
    --------
    >>> [can_stand_aside(Fault(("openings", 2, name), "field.empty")) for name in ("widths", "mark")]
    [True, False]
    """
    return entry_of(fault) is not None and fault.at.path[2:] not in (("mark",), ("name",))


def _names(job: Job) -> dict[Group, list[str]]:
    return {
        "openings": [opening.mark for opening in job.openings],
        "panels": [panel.mark for panel in job.panels],
        "runs": [run.name for run in job.runs],
    }


def asides_of(faults: Iterable[Fault], names: dict[Group, list[str]] | Job) -> tuple[Aside, ...]:
    """The entries that stand aside for these faults, in the order of the document.

    Parameters
    ----------
    faults : iterable of Fault
        Each with its place.
    names : mapping or Job
        Marks and names of all entries, by list.

    Raises
    ------
    InputError
        With all of them, if one does not stand in a single entry: then the whole job waits for it.
    """
    listed = list(faults)
    known = _names(names) if isinstance(names, Job) else names
    by_entry: dict[tuple[Group, int], list[Fault]] = defaultdict(list)
    for fault in listed:
        entry = entry_of(fault)
        if entry is None:
            raise InputError(listed)
        by_entry[entry].append(fault)
    ordered = sorted(by_entry, key=lambda entry: (GROUPS.index(entry[0]), entry[1]))
    return tuple(
        Aside(group, n, known[group][n - 1] if n <= len(known[group]) else "", tuple(dict.fromkeys(by_entry[group, n])))
        for group, n in ordered
    )


def without(job: Job, aside: Sequence[Aside]) -> tuple[Job, tuple[Aside, ...]]:
    """A job without what stands aside; a run that has an opening among that stands aside with it.

    Parameters
    ----------
    job : Job
    aside : sequence of Aside
        Numbered as the entries of this job are.

    Returns
    -------
    tuple
        The job that is left; and everything that stands aside of it.
    """
    every = (*aside, *broken_runs(aside, [(run.name, run.openings) for run in job.runs]))
    gone = {(one.group, one.number) for one in every}
    left: dict[str, object] = {
        group: tuple(entry for n, entry in enumerate(getattr(job, group), 1) if (group, n) not in gone)
        for group in GROUPS
    }
    return job.model_copy(update=left), every


def broken_runs(aside: Sequence[Aside], runs: Iterable[tuple[str, Sequence[str]]]) -> tuple[Aside, ...]:
    """The runs that stand aside because some of their openings do.

    Parameters
    ----------
    aside : sequence of Aside
    runs : iterable
        Each run's name, and the marks of its openings.
    """
    gone = {one.number for one in aside if one.group == "runs"}
    marks = {one.mark for one in aside if one.group == "openings" and one.mark}
    return tuple(
        Aside(
            "runs", number, name, (Fault(Place(("runs", number - 1), name), "run.opening_stands_aside", marks=missing),)
        )
        for number, (name, openings) in enumerate(runs, 1)
        if number not in gone and (missing := [mark for mark in openings if mark in marks])
    )


def numbered_as(aside: Iterable[Aside], earlier: Sequence[Aside]) -> tuple[Aside, ...]:
    """Entries of a job that is without `earlier`, numbered as they are in the whole of it.

    Examples
    --------
    >>> second = Aside("openings", 2, "C2", ())
    >>> found, = numbered_as([Aside("openings", 2, "C3", (Fault(("openings", 1), "opening.aprons_alone"),))], [second])
    >>> found.number, found.faults[0].where
    (3, 'openings[3]')
    """
    results: list[Aside] = []
    for one in aside:
        number = one.number
        for taken in sorted(other.number for other in earlier if other.group == one.group):
            number += taken <= number
        faults = tuple(_renumbered(fault, one.group, number) for fault in one.faults)
        results.append(Aside(one.group, number, one.mark, faults))
    return tuple(results)


def _renumbered(fault: Fault, group: Group, number: int) -> Fault:
    return fault.moved(replace(fault.at, path=(group, number - 1, *fault.at.path[2:])))


def set_aside(job: Job, faults: Iterable[Fault], earlier: Sequence[Aside]) -> tuple[Job, tuple[Aside, ...]]:
    """Take what is at fault out of a job that is without `earlier` already.

    Parameters
    ----------
    job : Job
    faults : iterable of Fault
        Places as they are in this job.
    earlier : sequence of Aside
        What stands aside already, numbered as in the whole job.

    Returns
    -------
    tuple
        The job that is left; and everything that stands aside now, in the order of the whole job.

    Raises
    ------
    InputError
        With all faults, if one is not of a single entry, or if nothing is left.
    """
    listed = list(faults)
    left, new = without(job, asides_of(listed, job))
    every = (*earlier, *numbered_as(new, earlier))
    if not left.openings and not left.panels:
        raise InputError([fault for one in in_order(every) for fault in one.faults])
    return left, in_order(every)


def in_order(aside: Iterable[Aside]) -> tuple[Aside, ...]:
    """In the order of the job's document."""
    return tuple(sorted(aside, key=lambda one: (GROUPS.index(one.group), one.number)))
