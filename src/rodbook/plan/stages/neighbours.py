"""Fronts next to each other: the last leaf of one and the first of the next, over a pier, a wall or an edge that they share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from rodbook.job import Book, Job
from rodbook.plan.model import Note, OpeningPlan
from rodbook.plan.stages.side_by_side import LeafPair, pair_of
from rodbook.plan.stages.swings import WANTED_DEG, leaf_names, leaves_of, path_of
from rodbook.setout import family_of

__all__ = ["neighbour_notes", "neighbours"]


def neighbours(openings: Sequence[OpeningPlan], job: Job, book: Book) -> tuple[tuple[str, LeafPair], ...]:
    """What has to be known of leaves on either side of a pier or of a shared edge, with the mark of the left opening.

    Parameters
    ----------
    openings : sequence of OpeningPlan
    job : Job
        For its runs: which openings stand next to each other, and what wall is between them.
    book : Book

    Returns
    -------
    tuple of (str, LeafPair)
        Those worth saying, in the order of the runs, then of the openings.
    """
    entries = {entry.opening.mark: entry for entry in openings}
    results: list[tuple[str, LeafPair]] = []
    for run in job.runs:
        for pier, a, b in zip(run.piers, run.openings[:-1], run.openings[1:], strict=True):
            if a in entries and b in entries and (pair := _over_pier(entries[a], entries[b], pier, book)):
                results.append((a, pair))
    results += [(entry.opening.mark, pair) for entry in openings if (pair := _over_shared_edge(entry, book))]
    return tuple((mark, pair) for mark, pair in results if pair.worth_saying)


def neighbour_notes(openings: Sequence[OpeningPlan], job: Job, book: Book) -> list[Note]:
    """The same as notes."""
    return [Note(mark, "plain.text", text=str(pair)) for mark, pair in neighbours(openings, job, book)]


def _width(entry: OpeningPlan) -> float:
    """From side to side of an opening, as it stands or as it is framed. [mm]"""
    assert entry.set_out is not None
    if entry.rectangle is not None:
        return entry.rectangle.width.value
    return entry.framed.width.value if entry.framed is not None else entry.set_out.outer_width.value


def _over_pier(a: OpeningPlan, b: OpeningPlan, pier_mm: float, book: Book) -> LeafPair | None:
    if a.set_out is None or b.set_out is None:
        return None
    left = leaves_of(a, from_left_mm=(_width(a) - a.set_out.outer_width.value) / 2)
    beyond = _width(a) + pier_mm + (_width(b) - b.set_out.outer_width.value) / 2
    right = leaves_of(b, from_left_mm=beyond)
    if not left or not right:
        return None
    names = (f"{leaf_names(len(left))[-1]} of {a.opening.mark}", f"{leaf_names(len(right))[0]} of {b.opening.mark}")
    if (left[-1].hand, right[0].hand) != ("right", "left"):
        return None  # over a pier only hinge edges come near each other
    return pair_of(left[-1], right[0], names, paths=(path_of(a, book), path_of(b, book)), wanted_deg=WANTED_DEG)


def _over_shared_edge(entry: OpeningPlan, book: Book) -> LeafPair | None:
    """A front that laps half an edge at its sides has another like it on the other half, a meeting gap away."""
    build_up = book.build_up(entry.build_up)
    if entry.set_out is None or not family_of(build_up).shares_edge(build_up):
        return None
    leaves, path = leaves_of(entry, from_left_mm=0.0), path_of(entry, book)
    beside, gap = "a leaf that hangs beside it over the shared edge", build_up.meeting_gap
    if leaves and leaves[0].hand == "left":
        own = leaves[0]
        pair = (replace(own, hand="right", at=(own.at[0] - gap, own.at[1])), own)
        names = (beside, leaf_names(len(leaves))[0])
    elif leaves and leaves[-1].hand == "right":
        own = leaves[-1]
        pair = (own, replace(own, hand="left", at=(own.at[0] + gap, own.at[1])))
        names = (leaf_names(len(leaves))[-1], beside)
    else:
        return None
    return pair_of(*pair, names, paths=(path, path), wanted_deg=WANTED_DEG)
