"""Runs of openings against the openings and build-ups that they name."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping

from rodbook.errors import Fault
from rodbook.job.book import AnyBuildUp
from rodbook.job.faults import nearest, one_line
from rodbook.job.models import Opening, Run

__all__ = ["run_faults"]


def run_faults(
    runs: Mapping[int, Run], openings: Mapping[str, Opening], build_ups: Mapping[str, AnyBuildUp], own: str | None,
    unread: Collection[str] = (),
) -> Iterator[Fault]:  # fmt: skip
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
        where, name = f"runs[{number}]", f" ({one_line(run.name, 40)})"
        if len(run.piers) != len(run.openings) - 1:
            need = len(run.openings) - 1
            said = (
                f"{len(run.openings)} openings have {need} pier{'s' * (need != 1)} between them, not {len(run.piers)}"
            )
            yield Fault(f"{where}.piers{name}", "job.text_2", said=said)
        for mark in dict.fromkeys(mark for mark in run.openings if mark in openings or mark not in unread):
            yield from (
                Fault(f"{where}.openings{name}", "plain.text", text=what)
                for what in _of_one(mark, run, openings, build_ups, own)
            )
            if taken[mark] > 1:
                yield Fault(f"{where}.openings{name}", "job.stands_in_another_run_too", mark=mark)
        used = {openings[m].build_up or own for m in run.openings if m in openings}
        if len(used) > 1:
            listed = ", ".join(sorted(str(u) for u in used))
            yield Fault(f"{where}.openings{name}", "job.their_build_ups_differ", listed=listed)


def _of_one(
    mark: str, run: Run, openings: Mapping[str, Opening], build_ups: Mapping[str, AnyBuildUp], own: str | None
) -> Iterator[str]:
    if run.openings.count(mark) > 1:
        yield f"{mark!r} stands in it twice; name each opening once, from the left"
    opening = openings.get(mark)
    if opening is None:
        yield f"there is no opening {mark!r}{nearest(mark, list(openings))}"
        return
    if opening.head == "raked":
        yield f"the head of {mark!r} is raked; a trim runs on over level heads only"
    if opening.sill:
        yield f"{mark!r} has a sill, so its trim goes all round and can't run on"
    build_up = build_ups.get(opening.build_up or own or "")
    if build_up is not None and build_up.trim is None and not build_up.plinth:
        yield f"{mark!r} is built as {build_up.name!r}, which has neither trim nor plinth that could run on"
