"""Runs of openings: their trim in one line over all of them, where their heads stand in one, and their plinth under them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from rodbook.errors import Infeasible, Message
from rodbook.job import Book, Job, Section
from rodbook.job.models import Run
from rodbook.plan.model import Note, OpeningPlan
from rodbook.setout import (
    Bay,
    DimensionName,
    PlinthRun,
    SetOut,
    Side,
    TrimRun,
    between_sights,
    plinth_runs_on,
    run_on,
    with_plinth_run,
    with_run,
)
from rodbook.working import Measure

__all__ = ["trims_run_on"]

IN_LINE_MM = 0.5
"""Heads that differ by no more than this stand in one line (house assumption): a rule laid over them shows no more."""


def trims_run_on(
    planned: Sequence[OpeningPlan], job: Job, book: Book
) -> tuple[tuple[OpeningPlan, ...], tuple[Note, ...], tuple[Note, ...]]:
    """Let the trims of every run run on; where they can't, each opening keeps its own, and a note says why.

    Parameters
    ----------
    planned : sequence of OpeningPlan
        In the job's order.
    job, book
        Checked against each other.

    Returns
    -------
    tuple
        The openings; how each run goes; and which can't run on, and why.
    """
    entries = {entry.opening.mark: entry for entry in planned}
    running: list[Note] = []
    refused: list[Note] = []
    for run in job.runs:
        build_up = book.build_up(entries[run.openings[0]].build_up)
        standing = any(entries[mark].opening.state == "standing" for mark in run.openings)
        alone = standing or build_up.at_plinth == "bays"
        for refusal, asked, join in (
            ("plan.trim_not_running", build_up.trim is not None, _joined),
            ("plan.plinth_not_running", build_up.plinth > 0 and not (alone and build_up.trim), _plinth_joined),
        ):
            if not asked:
                continue
            try:
                result, answer = join(run, [entries[mark] for mark in run.openings], book)
            except Infeasible as error:
                answer = Message(refusal, run=run.name, why=error.message)
                if join is _joined:
                    over = _in_one_place(run, [entries[mark] for mark in run.openings], book)
                    answer = Message(answer, overlap=over)
                refused.append(Note(run.openings[0], answer))
                continue
            entries |= {entry.opening.mark: entry for entry in result}
            running.append(Note(run.openings[0], answer))
    return tuple(entries[entry.opening.mark] for entry in planned), tuple(running), tuple(refused)


def _joined(run: Run, members: Sequence[OpeningPlan], book: Book) -> tuple[list[OpeningPlan], Message]:
    fronts = [_set_out(entry) for entry in members]
    tops = {f.dimension(DimensionName.SIGHT_HEIGHT).value for f in fronts}
    if max(tops) - min(tops) > IN_LINE_MM:
        heights = [
            Message("plan.height_of", mark=e.opening.mark, height=str(f.dimension(DimensionName.SIGHT_HEIGHT)))
            for e, f in zip(members, fronts, strict=True)
        ]
        raise Infeasible("plan.heads_not_in_line", heights_mm=heights)
    bays = [_bay(entry) for entry in members]
    between = [_lining_to_lining(pier, a, b) for pier, a, b in zip(run.piers, members[:-1], members[1:], strict=True)]
    build_up = book.build_up(members[0].build_up)
    assert build_up.trim is not None, "the checks let no run through without a trim"
    over = run_on(build_up, book.section(build_up.trim), bays, between, end_trim=book.saw.end_trim)
    results: list[OpeningPlan] = []
    for n, (entry, front) in enumerate(zip(members, fronts, strict=True)):
        legs: dict[Side, Measure] = {"left": over.legs[n - 1]} if n > 0 else {}
        if n < len(members) - 1:
            legs["right"] = over.legs[n]
        pieces = [part for first, part in over.pieces if first == n]
        results.append(replace(entry, set_out=with_run(front, pieces, legs=legs)))
    return results, _told(run, over, book.section(build_up.trim))


def _in_one_place(run: Run, members: Sequence[OpeningPlan], book: Book) -> Message | None:
    """Where trims that do not run on would lie over each other; None where they do not."""
    build_up = book.build_up(members[0].build_up)
    if build_up.trim is None or any(entry.set_out is None for entry in members):
        return None
    width = book.section(build_up.trim).width
    results: list[Message] = []
    for pier, a, b in zip(run.piers, members[:-1], members[1:], strict=True):
        room = between_sights(_bay(a), _bay(b), _lining_to_lining(pier, a, b))
        if room.value < 2 * width - 1e-9:
            over = 2 * width - room.value
            results.append(Message("plan.overlap_between", over_mm=over, left=a.opening.mark, right=b.opening.mark))
    return Message("plan.trims_overlap", places=results) if results else None


def _bay(entry: OpeningPlan) -> Bay:
    front = _set_out(entry)
    return Bay(entry.opening.mark, front.outer_width, front.dimension(DimensionName.SIGHT_WIDTH))


def _plinth_joined(run: Run, members: Sequence[OpeningPlan], book: Book) -> tuple[list[OpeningPlan], Message]:
    fronts = [_set_out(entry) for entry in members]
    stands = [entry.opening.mark for entry in members if entry.opening.state == "standing"]
    if stands:
        raise Infeasible("plan.plinth_walls_in_the_way", marks=stands)
    build_up = book.build_up(members[0].build_up)
    bays = [Bay(e.opening.mark, f.outer_width, f.clear_width) for e, f in zip(members, fronts, strict=True)]
    between = [_lining_to_lining(pier, a, b) for pier, a, b in zip(run.piers, members[:-1], members[1:], strict=True)]
    board = book.board(build_up.lining_board)
    longest = max(sheet.length for sheet in board.sheets) - 2 * book.saw.edge_trim
    under = plinth_runs_on(build_up, board, bays, between, longest=longest)
    results: list[OpeningPlan] = []
    for n, (entry, front) in enumerate(zip(members, fronts, strict=True)):
        sides: list[Side] = [side for side, on in _SIDES if (n > 0 if on else n < len(members) - 1)]
        results.append(replace(entry, set_out=with_plinth_run(build_up, front, under, n, runs=sides)))
    return results, _plinth_told(run, under)


_SIDES: tuple[tuple[Side, bool], ...] = (("left", True), ("right", False))


def _set_out(entry: OpeningPlan) -> SetOut:
    if entry.set_out is None:
        raise Infeasible("plan.run_not_set_out", mark=entry.opening.mark)
    return entry.set_out


def _lining_to_lining(pier: float, left: OpeningPlan, right: OpeningPlan) -> Measure:
    """From the outside of one lining to that of the next, at the heads. [mm]"""
    wall = Measure(pier, f"pier between {left.opening.mark} and {right.opening.mark}", source="reading")
    beside = _packing(left, "right") + wall + _packing(right, "left")
    return beside.named(f"lining to lining, {left.opening.mark} to {right.opening.mark}")


def _packing(entry: OpeningPlan, side: Side) -> Measure:
    mark = entry.opening.mark
    name = f"packer at the head {side} of {mark}"
    if entry.packers is not None:
        at = entry.packers.right_mm if side == "right" else entry.packers.left_mm
        return Measure(at[-1], name, source="packers")
    assert entry.framed is not None, "what is set out with a level head stands or is framed"
    front, ends = _set_out(entry), entry.opening.end_panels
    if ends in (side, "both"):
        raise Infeasible("plan.end_panel_within_run", mark=mark, side=side)
    over = front.find(DimensionName.OVER_END_PANELS)
    if over is not None:
        return (entry.framed.width - over).named(name)
    return ((entry.framed.width - front.outer_width) / 2).named(name)


def _told(run: Run, over: TrimRun, section: Section) -> Message:
    joints = [
        Message("plan.scarf_between", left=run.openings[bay], right=run.openings[bay + 1], at_mm=at)
        for bay, at in over.joints
    ]
    ripped = [
        Message("plan.leg_between", width_mm=width.value, left=a, right=b)
        for width, a, b in zip(over.legs, run.openings[:-1], run.openings[1:], strict=True)
        if width.value < section.width
    ]
    return Message(
        "plan.trim_runs_on",
        run=run.name,
        first=run.openings[0],
        last=run.openings[-1],
        length_mm=over.total.value,
        pieces=Message("plan.in_pieces", pieces=len(over.pieces)),
        joints=Message("plan.trim_scarfed", joints=joints) if joints else None,
        ripped=Message("plan.trim_ripped", legs=ripped) if ripped else None,
    )


def _plinth_told(run: Run, under: PlinthRun) -> Message:
    joints = [
        Message("plan.butt_between", left=run.openings[bay], right=run.openings[bay + 1]) for bay, _ in under.joints
    ]
    return Message(
        "plan.plinth_runs_on",
        run=run.name,
        first=run.openings[0],
        last=run.openings[-1],
        length_mm=under.total.value,
        pieces=Message("plan.in_pieces", pieces=len(under.pieces)),
        joints=Message("plan.plinth_butted", joints=joints) if joints else None,
        deep_mm=under.deep.value,
    )
