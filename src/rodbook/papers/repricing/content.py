"""A job as it was priced against another day's prices and times: what moved, and what to ask for. For the firm's own eyes."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from rodbook.papers.common.shared import Json, Pictures, Sheetful, frame, writer
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.index import draw_index
from rodbook.plan import JobRepriced, Plan

__all__ = ["RepricingRows", "repricing_content", "repricing_rows"]


@dataclass(frozen=True)
class RepricingRows:
    """A job on another day written out, for page, paper and terminal alike.

    Parameters
    ----------
    moved : list of tuple
        What, then, now, and the difference.
    sums : list of (str, str, str)
        What, then, now.
    index : list of (str, str, str)
        Day, index, and what moved it most since the first day, in points.
    remarks : list of str
    """

    moved: list[tuple[str, str, str, str]]
    sums: list[tuple[str, str, str]]
    index: list[tuple[str, str, str]]
    remarks: list[str]


def repricing_rows(result: JobRepriced, write: Numbers) -> RepricingRows:
    """Write a job on another day out."""
    job = result.repriced
    moved = [(m.what, write.money(m.then), write.money(m.now), _signed(m.more, write.money(m.more))) for m in job.moved]
    sums = [
        ("Cost", write.money(job.cost_then), write.money(job.cost_now)),
        ("Price, net of tax", write.money(job.net), write.money(job.net)),
        ("What is left of it", write.percent(job.margin_then, 1), write.percent(job.margin_now, 1)),
        ("Price that leaves as much of it", write.money(job.net), write.money(job.keep_margin)),
    ]
    index = [
        (
            write.date(point.day),
            write.short(float(point.index)),
            "; ".join(f"{name} {_signed(points, write.short(float(points)))}" for name, points in point.by_item[:3]),
        )
        for point in result.index
    ]
    remarks = [
        "The price is the one that was given."
        if result.given
        else "No price was given yet: this is what the plan comes to.",
        "Overhead and contingency are not in these costs; what is bought besides parts is taken as unmoved.",
    ]
    return RepricingRows(moved, sums, index, remarks)


def _signed(value: Decimal, written: str) -> str:
    return f"+{written}" if value > 0 else written


def repricing_content(plan: Plan, result: JobRepriced) -> Sheetful:
    """What stands on the paper of a job on another day.

    Parameters
    ----------
    plan : Plan
    result : JobRepriced
    """
    write = writer(plan)
    rows, pictures = repricing_rows(result, write), Pictures(write)
    content: dict[str, Json] = {
        "frame": frame(plan, "Re-priced", title="Priced again"),
        "then": write.date(result.repriced.then),
        "now": write.date(result.repriced.now),
        "sentences": list(result.repriced.sentences),
        "moved": [list(row) for row in rows.moved],
        "sums": [list(row) for row in rows.sums],
        "index": [list(row) for row in rows.index],
        "picture": pictures.add(draw_index(result.index, write)) if len(result.index) > 1 else None,
        "remarks": rows.remarks,
    }
    return Sheetful(Path(__file__).with_name("repricing.typ"), content, pictures.files)
