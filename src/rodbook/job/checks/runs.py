"""Runs of openings against the openings and build-ups that they name."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping

from rodbook.errors import Fault, Message, Place
from rodbook.job.book import AnyBuildUp
from rodbook.job.faults import nearest
from rodbook.job.models import Opening, Run

__all__ = ["run_faults"]


def run_faults(
    runs: Mapping[int, Run],
    openings: Mapping[str, Opening],
    build_ups: Mapping[str, AnyBuildUp],
    own: str | None,
    unread: Collection[str] = (),
) -> Iterator[Fault]:
    """Every fault of the runs of a job.

    Parameters
    ----------
    runs : mapping
        By their number from 1.
    openings : mapping
        By mark.
    build_ups : mapping
        By name; empty where there is no book to look in.
    own : str, optional
        The job's own build-up.
    unread : collection of str
        Marks of openings that are there and could not be read: that is no fault of the run.
    """
    taken = Counter(mark for run in runs.values() for mark in set(run.openings))
    for number, run in runs.items():
        at = Place(("runs", number - 1)).marked(run.name)
        if len(run.piers) != len(run.openings) - 1:
            need = len(run.openings) - 1
            yield Fault(
                at / "piers", "run.piers_do_not_fit", openings=len(run.openings), needed=need, piers=len(run.piers)
            )
        for mark in dict.fromkeys(mark for mark in run.openings if mark in openings or mark not in unread):
            yield from (Fault(at / "openings", what) for what in _of_one(mark, run, openings, build_ups, own))
            if taken[mark] > 1:
                yield Fault(at / "openings", "run.opening_in_another", mark=mark)
        used = {openings[m].build_up or own for m in run.openings if m in openings}
        if len(used) > 1:
            yield Fault(at / "openings", "run.build_ups_differ", build_ups=sorted(str(u) for u in used))


def _of_one(
    mark: str, run: Run, openings: Mapping[str, Opening], build_ups: Mapping[str, AnyBuildUp], own: str | None
) -> Iterator[Message]:
    if run.openings.count(mark) > 1:
        yield Message("run.opening_twice", mark=mark)
    opening = openings.get(mark)
    if opening is None:
        yield Message("run.no_such_opening", mark=mark, hint=nearest(mark, list(openings)))
        return
    if opening.head == "raked":
        yield Message("run.raked_head", mark=mark)
    if opening.sill:
        yield Message("run.sill", mark=mark)
    build_up = build_ups.get(opening.build_up or own or "")
    if build_up is not None and build_up.trim is None and not build_up.plinth:
        yield Message("run.nothing_runs_on", mark=mark, build_up=build_up.name)
