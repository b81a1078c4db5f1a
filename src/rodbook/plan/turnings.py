"""For each kind of part, the quantity at which the cheaper way of making it changes."""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.job import Book, Job
from rodbook.money import Turning, most_frequent, parts_in_rows, turning_quantity, whole_sheets
from rodbook.setout import Part, PartKind, ScheduleLine

__all__ = ["turnings_of"]


LIMIT = 100
"""Quantities looked at: no small firm's job has more of one part (house assumption)."""


def turnings_of(lines: Sequence[ScheduleLine], book: Book, job: Job) -> tuple[Turning, ...]:
    """Count up each kind's most frequent part, cut in plain rows from the size of its board or section that wastes least.

    Parameters
    ----------
    lines : sequence of ScheduleLine
    book, job
        For sizes, rates, and the workshop that is asked.
    """
    workshop = book.workshop(job.job.workshop)
    found: list[Turning] = []
    for kind in PartKind:
        members = [line for line in lines if line.part.kind is kind]
        if not members:
            continue
        name, in_rows = _least_wasteful(most_frequent(members).part, book)
        if in_rows:
            found.append(
                turning_quantity(members, whole_sheets(in_rows), book, job.job.date, workshop, size=name, limit=LIMIT)
            )
    return tuple(found)


def _least_wasteful(part: Part, book: Book) -> tuple[str, int]:
    """The size that gives most of this part for its area, and how many."""
    offered = (
        [(s.name, s.length, part.width.value) for s in book.section(part.stock).lengths]
        if part.sectional
        else [(s.name, s.length, s.width) for s in book.board(part.stock).sheets]
    )
    counts = [
        (
            name,
            parts_in_rows(
                part,
                length,
                width,
                kerf_mm=book.saw.kerf,
                edge_trim_mm=book.saw.edge_trim,
                end_trim_mm=book.saw.end_trim,
            ),
            length * width,
        )
        for name, length, width in offered
    ]
    best = max(counts, key=lambda row: (row[1] / row[2], row[1]))
    return best[0], best[1]
