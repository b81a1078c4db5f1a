"""Fronts made at random: build-ups of all families with everything in them varied, level and raked, alone and in runs."""

from __future__ import annotations

import random
from dataclasses import dataclass

from rodbook.errors import Infeasible, InputError
from rodbook.job import Book, Job
from rodbook.job.models import FrontRow
from rodbook.setout import Frame, RakedFrame, Stock, Wanted, set_out
from rodbook.working import Measure

__all__ = ["Made", "random_front", "random_run"]

FAMILIES = (0, 1, 2)
"""The sample book's build-ups, one of each family: inset, lay-on within trim, lay-on without trim."""


@dataclass(frozen=True)
class Made:
    """A front, and what it was made to."""

    front: object
    build_up: object
    sort: str


def stock_for(book: Book, build_up) -> Stock:
    return Stock(
        book.board(build_up.leaf_board),
        book.board(build_up.lining_board),
        book.section(build_up.trim) if build_up.trim else None,
        book.hinge(build_up.hinge),
        book.hinge_counts,
        strip=book.section(build_up.cover_strip) if build_up.cover_strip else None,
    )


def _build_up(rng: random.Random, book: Book, *, plinth: bool | None = None):
    """A build-up with its figures drawn anew; not every one can be built."""
    base = book.build_ups[rng.choice(FAMILIES)]
    boards = [b.name for b in book.boards if b.thickness >= 12]
    sections = [s.name for s in book.sections if s.width >= 40]
    change: dict[str, object] = {
        "leaf_board": rng.choice([b for b in boards if book.board(b).thickness >= 15] or boards),
        "lining_board": rng.choice(boards),
        "lining_depth": float(rng.randrange(90, 600, 5)),
        "head_joint": rng.choice(["between", "over", "housed"]),
        "housing": float(rng.choice([4, 6, 9])),
        "trim_joint": rng.choice(["mitred", "butted"]),
        "meeting_gap": rng.choice([2.0, 3.0, 4.5]),
        "floor_clearance": float(rng.choice([0, 3, 8, 15])),
        "step": rng.choice([0.1, 0.5, 1.0]),
        "meeting": rng.choice(["plain", "plain", "rebated", "cover strip"]),
        "meeting_rebate": float(rng.choice([8, 12])),
        "row_rails": rng.random() < 0.5,
        "apron_top": float(rng.choice([0, 0, 0, 60])),
        "apron_bottom": float(rng.choice([0, 0, 0, 80])),
        "end_panel_scribe": float(rng.choice([0, 15])),
    }
    if change["meeting"] == "cover strip":
        change["cover_strip"] = rng.choice([s.name for s in book.sections])
    if plinth if plinth is not None else rng.random() < 0.6:
        change |= {
            "plinth": float(rng.choice([60, 80, 100, 150])),
            "plinth_set_back": float(rng.choice([0, 4, 15, 40, 60])),
        }
        change["at_plinth"] = rng.choice(["notched", "stood on", "bays"])
    if base.family == "inset":
        change |= {
            "margin": rng.choice([2.0, 3.0, 5.0]),
            "margin_top": rng.choice([2.0, 4.0]),
            "margin_bottom": 3.0,
            "hinge_lining": rng.random() < 0.6,
            "hinge_lining_width": rng.choice([None, 45.0, 60.0, 80.0]),
            "trim": rng.choice([None, *sections]),
            "trim_set_back": float(rng.choice([0, 4, 8])),
        }
    elif base.family == "lay-on within trim":
        change |= {
            "lap": float(rng.choice([8, 10, 14])),
            "lap_top": float(rng.choice([6, 10])),
            "lap_bottom": float(rng.choice([6, 10])),
            "margin": rng.choice([3.0, 4.0]),
            "hinge_lining": rng.random() < 0.5,
            "hinge_lining_width": rng.choice([None, 60.0]),
            "trim": rng.choice(sections),
        }
    else:
        change |= {
            "side_lap": rng.choice(["full", "half"]),
            "reveal": rng.choice([0.0, 2.0, 4.0]),
            "middle_division": rng.random() < 0.7,
        }
    return base.model_copy(update=change)


def _rows(rng: random.Random) -> tuple[FrontRow, ...]:
    if rng.random() < 0.55:
        return ()
    kinds = [rng.choice(["drawer", "drawer", "flap"]) for _ in range(rng.randint(1, 3))]
    if rng.random() < 0.75:
        kinds.insert(rng.randint(0, len(kinds)), "leaves")
    open_one = rng.randrange(len(kinds))
    return tuple(
        FrontRow(kind=kind, height=0.0 if n == open_one or kind == "leaves" else float(rng.randrange(160, 420, 5)))
        for n, kind in enumerate(kinds)
    )


def _wanted(rng: random.Random, leaves: int) -> Wanted:
    if leaves == 1 or rng.random() < 0.6:
        return Wanted()
    return Wanted(shares=tuple(rng.choice([1.0, 1.3, 1.6]) for _ in range(leaves)))


def random_front(rng: random.Random, book: Book, *, tries: int = 200) -> Made:
    """The next front that can be built.

    Parameters
    ----------
    rng : random.Random
    book : Book
        The sample book.
    tries : int
        Give up after so many that can't.
    """
    for _ in range(tries):
        build_up = _build_up(rng, book)
        raked = build_up.family != "lay-on without trim" and rng.random() < 0.3
        leaves = rng.randint(1, 2 if raked else 4)
        width = Measure(float(rng.randrange(330, 620)) * leaves + rng.choice([0.0, 0.5]), "lining width")
        high = float(rng.randrange(700, 2300))
        hand, sill = rng.choice(["left", "right"]), rng.random() < 0.35
        finish = 0.0 if sill else float(rng.choice([0, 0, 8, 15]))
        if raked:
            build_up = build_up.model_copy(update={"apron_top": 0.0, "apron_bottom": 0.0})
            low = high - width.value * rng.choice([0.0, 0.05, 0.2, 0.5])
            ends = [Measure(high, "left"), Measure(round(low), "right")]
            if rng.random() < 0.5:
                ends.reverse()
            frame = RakedFrame(width, *ends, leaves, hand, sill, floor_finish=finish)
        else:
            frame = Frame(
                width,
                Measure(high, "lining height"),
                leaves,
                hand,
                sill,
                wanted=_wanted(rng, leaves),
                floor_finish=finish,
                rows=_rows(rng),
                end_panels=rng.choice(["none", "left", "right", "both"]) if not build_up.trim else "none",
            )
        try:
            front = set_out(build_up, stock_for(book, build_up), frame)
        except (Infeasible, InputError):
            continue
        return Made(front, build_up, f"{build_up.family}{', raked' if raked else ''}{', rows' if front.rows else ''}")
    raise AssertionError(f"none of {tries} fronts could be built")


def random_run(rng: random.Random, book: Book, sample: Job, *, tries: int = 100):
    """A plan of the next run of two to four openings that can be built, its build-up and the gaps between its linings."""
    from rodbook.plan import plan_parts

    for _ in range(tries):
        build_up = _build_up(rng, book, plinth=rng.random() < 0.7)
        changed = build_up.model_copy(update={"apron_top": 0.0, "apron_bottom": 0.0})
        own = book.model_copy(
            update={"build_ups": tuple(changed if b.name == changed.name else b for b in book.build_ups)}
        )
        count = rng.randint(2, 4)
        pattern = sample.openings[0]
        openings = tuple(
            pattern.model_copy(
                update={
                    "mark": f"U{n}",
                    "state": "planned",
                    "leaves": (leaves := rng.randint(1, 3)),
                    "build_up": changed.name,
                    "leaf": None,
                    "clear": (float(rng.randrange(340, 560)) * leaves, 1200.0 + changed.floor_clearance),
                    "rows": (),
                    "end_panels": "none",
                    "sill": False,
                    "head": "level",
                    "leaf_widths": None,
                    "leaf_shares": None,
                }
            )
            for n in range(1, count + 1)
        )
        piers = tuple(float(rng.randrange(40, 400)) for _ in range(count - 1))
        run = sample.runs[0].model_copy(update={"openings": tuple(o.mark for o in openings), "piers": piers})
        job = sample.model_copy(update={"openings": openings, "runs": (run,), "panels": (), "sizes": {}})
        try:
            plan = plan_parts(job, own)
        except (Infeasible, InputError):
            continue
        if not plan.runs:
            continue
        fronts = [entry.set_out for entry in plan.openings]
        packed = [
            ((e.framed.width.value - e.set_out.outer_width.value) / 2 if e.framed else e.packers.right_mm[-1])
            for e in plan.openings
        ]
        between = [a + pier + b for a, pier, b in zip(packed[:-1], piers, packed[1:], strict=True)]
        return fronts, changed, between
    raise AssertionError(f"none of {tries} runs could be built")
