"""Openings through survey, sizes and set-out; every opening's faults are gathered before any is raised."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Literal

from rodbook.errors import Fault, Infeasible, InputError, Message, Place
from rodbook.job import AnyBuildUp, Book, Hand, Job, Opening
from rodbook.plan.model import Note, OpeningPlan
from rodbook.plan.stages.bored import unmakeable
from rodbook.plan.stages.packing import foot_stations, out_of_range, packers_of, wall_fit
from rodbook.plan.stages.raked import raked_fit
from rodbook.plan.stages.runs import trims_run_on
from rodbook.plan.stages.surveying import rectangle_of, survey_of
from rodbook.setout import (
    DimensionName,
    Frame,
    RakedFrame,
    SetOut,
    Stock,
    Wanted,
    family_of,
    given,
    outer_size_wanted,
    set_out,
    trim_cover,
    trim_wanted,
)
from rodbook.sizes import (
    FramedSize,
    Offer,
    PackerRange,
    Packers,
    SizeChoice,
    StandardSize,
    fewest_sizes,
    framed_size,
    heights_alike,
    sizes_in_number,
)
from rodbook.survey import UprightRectangle
from rodbook.working import Measure

__all__ = ["plan_openings", "stock_of"]

SIZE_STEP_MM = 1.0
"""Standard sizes are whole millimetres (house assumption): what a rule and a saw's stop can be set to by eye."""

TRIM_COVER_MM = 5.0
"""A trim is to reach at least this far beyond the widest packer onto the wall (house assumption)."""


def stock_of(build_up: AnyBuildUp, book: Book) -> Stock:
    """What a build-up is made from, looked up in the book."""
    return Stock(
        book.board(build_up.leaf_board),
        book.board(build_up.lining_board),
        book.section(build_up.trim) if build_up.trim else None,
        book.hinge(build_up.hinge),
        book.hinge_counts,
        book.fitting(build_up.handle),
        book.fitting(build_up.catch),
        book.section(build_up.cover_strip) if build_up.cover_strip else None,
        book.fitting(build_up.drawer_fixing),
        book.fitting(build_up.apron_fixing),
        book.fitting(build_up.flap_stay),
        book.board(build_up.end_panel_board or build_up.leaf_board),
    )


class _Gathered:
    """Faults and notes met on the way."""

    def __init__(self, job: Job) -> None:
        self.faults: list[Fault] = []
        self.not_worked_out: list[Note] = []
        self.remarks: list[Note] = []
        self.place = {o.mark: Place(("openings", n), o.mark) for n, o in enumerate(job.openings)}

    def fault(self, opening: Opening, code: str | Message, **parameters: object) -> None:
        self.faults.append(Fault(self.place[opening.mark], code, **parameters))


def plan_openings(
    job: Job, book: Book
) -> tuple[tuple[OpeningPlan, ...], SizeChoice | None, tuple[Note, ...], tuple[Note, ...], tuple[Note, ...]]:
    """Plan every opening.

    Parameters
    ----------
    job, book
        Checked against each other.

    Returns
    -------
    tuple
        Openings in the job's order; the choice of standard sizes, if any opening stands; what is not worked out; remarks;
        trims that run on.

    Raises
    ------
    InputError
        With a fault for each opening that can't be built as asked.
    """
    gathered = _Gathered(job)
    surveyed = [_survey(opening, job, book, gathered) for opening in job.openings]
    choice = _standard_sizes(surveyed, job, book, gathered)
    numbers = {size: n for n, size in enumerate(choice.sizes, 1)} if choice else {}
    offers = {p.opening.mark: p.rectangle for p in surveyed if p.rectangle}
    cache: dict[tuple[object, ...], SetOut] = {}
    outers: dict[StandardSize, tuple[Measure, Measure]] = {}
    planned: list[OpeningPlan] = []
    for entry in surveyed:
        build_up = book.build_up(entry.build_up)
        if entry.raked is not None:
            set_out_entry = _set_out(entry, build_up, book, entry.raked.frame, cache, gathered)
            planned.append(_into_the_wall(set_out_entry, build_up, gathered))
            continue
        if entry.rectangle is not None and choice is not None:
            size = next((s for s in choice.sizes if entry.opening.mark in s.openings), None)
            if size is None:
                planned.append(entry)
                continue
            if size not in outers:
                outers[size] = _standard_outer(size, offers, build_up)
            outer = outers[size]
            entry = replace(entry, size=numbers[size], packers=_packers(entry, *outer))
        elif entry.opening.state == "planned" and entry.opening.head == "level":
            outer = outer_size_wanted(
                build_up,
                stock_of(build_up, book),
                leaves=entry.opening.leaves,
                sill=entry.opening.sill,
                leaf_mm=entry.opening.leaf,
                clear_mm=entry.opening.clear,
            )
            entry = replace(entry, framed=_framed(build_up, outer, book, entry.opening))
        else:
            planned.append(entry)
            continue
        set_out_entry = _set_out(entry, build_up, book, _frame(entry.opening, outer), cache, gathered)
        planned.append(_into_the_wall(set_out_entry, build_up, gathered))
    if gathered.faults:
        raise InputError(gathered.faults)
    result, running, refused = trims_run_on(planned, job, book)
    return result, choice, tuple(gathered.not_worked_out), (*gathered.remarks, *refused), running


def _survey(opening: Opening, job: Job, book: Book, gathered: _Gathered) -> OpeningPlan:
    entry = OpeningPlan(opening, job.build_up_of(opening))
    if opening.state == "planned":
        if opening.head == "raked":
            gathered.not_worked_out.append(Note(opening.mark, "plan.head_raked"))
        return entry
    try:
        survey = survey_of(opening, book, job.job.age)
        if not survey.is_settled:
            gathered.not_worked_out += [Note(opening.mark, one.message) for one in survey.suspects]
            return replace(entry, survey=survey)
        gathered.remarks += [Note(opening.mark, one.message) for one in survey.suspects]
        rectangle = rectangle_of(opening, survey)
        raked = None
        if opening.head == "raked":
            raked = raked_fit(opening, rectangle, survey.shape, book.build_up(entry.build_up), step=SIZE_STEP_MM)
    except (InputError, Infeasible) as error:
        result = error.faults if isinstance(error, InputError) else (Fault("readings", error.message),)
        gathered.faults += [f.moved(gathered.place[opening.mark] / f.at) for f in result]
        return entry
    gathered.remarks += [Note(opening.mark, remark) for remark in rectangle.remarks]
    if opening.depth is None:
        gathered.remarks.append(Note(opening.mark, "plan.no_depth_read"))
    if raked is not None:
        gathered.remarks += [Note(opening.mark, remark) for remark in raked.remarks]
        return replace(entry, raked=raked, packers=raked.packers, survey=survey)
    return replace(entry, rectangle=rectangle, survey=survey)


def _packers(entry: OpeningPlan, width: Measure, height: Measure) -> Packers | None:
    """The packers of a lining of this outer size, by the shape that it stands in."""
    assert entry.rectangle is not None
    assert entry.survey is not None
    side = ((entry.rectangle.width - width) / 2).named("packer at each side")
    head = (entry.rectangle.height - height).named("packer over the head")
    return packers_of(entry.survey.shape, width, height.value, side=side, head=head)


def _into_the_wall(entry: OpeningPlan, build_up: AnyBuildUp, gathered: _Gathered) -> OpeningPlan:
    """The lining in the opening's shape; where the structure is in its way, and where no packer of the book fills, is told."""
    if entry.survey is None or entry.set_out is None:
        return entry
    width = entry.set_out.outer_width.value
    height: float | tuple[float, float] = entry.set_out.outer_height.value
    if entry.raked is not None:
        height = entry.raked.frame.left.value, entry.raked.frame.right.value
    wall = wall_fit(entry.survey.shape, width, height, foot=foot_stations(entry.set_out, width))
    if wall is None:
        return entry
    gathered.remarks += [Note(entry.opening.mark, cut.message) for cut in wall.cut_backs]
    gathered.remarks += [
        Note(entry.opening.mark, "plain.text", text=one.sentence) for one in out_of_range(wall, build_up)
    ]
    return replace(entry, wall=wall)


def packer_range(build_up: AnyBuildUp) -> PackerRange:
    """How thin and how thick packers may be in a build-up. [mm]"""
    return PackerRange(
        build_up.packer_least, build_up.packer_most, build_up.head_packer_least, build_up.head_packer_most
    )


def offers_by_build_up(openings: Sequence[OpeningPlan], *, planned: bool = False) -> dict[str, tuple[Offer, ...]]:
    """What openings that stand offer to a lining; only those with as many leaves and alike at the foot share a size.

    Parameters
    ----------
    openings : sequence of OpeningPlan
    planned : bool
        Whether only those are asked that have got a size.

    Returns
    -------
    dict of str to tuple of Offer
        By build-up, each with its own range of packers.
    """
    results: dict[str, list[Offer]] = defaultdict(list)
    for entry in openings:
        rectangle = entry.rectangle
        if rectangle is not None and not (planned and entry.size is None):
            group = (entry.build_up, entry.opening.leaves, "sill" if entry.opening.sill else "no sill")
            results[entry.build_up].append(
                Offer(entry.opening.mark, rectangle.width.value, rectangle.height.value, group)
            )
    return {name: tuple(offers) for name, offers in results.items()}


def _standard_sizes(surveyed: Sequence[OpeningPlan], job: Job, book: Book, gathered: _Gathered) -> SizeChoice | None:
    """Sizes by build-up, as each has its own range of packers; leaf counts and sills never share a size."""
    by_build_up = offers_by_build_up(surveyed)
    if not by_build_up:
        return None
    opening_of = {entry.opening.mark: entry.opening for entry in surveyed}
    sizes: list[StandardSize] = []
    packing, fewest = 0.0, 0
    for name, offers in by_build_up.items():
        wanted = job.sizes.get(name)
        try:
            choice = _sizes_chosen(offers, packer_range(book.build_up(name)), wanted)
        except Infeasible as error:
            for mark in error.items:
                gathered.fault(opening_of[mark], "plan.no_size_to_pack")
            continue
        sizes += choice.sizes
        packing += choice.packing_mm
        fewest += choice.fewest
        if wanted is not None and wanted != len(choice.sizes):
            code = "plan.more_sizes_needed" if wanted < len(choice.sizes) else "plan.fewer_sizes_do"
            asked = Message("plan.sizes_asked_for", wanted=wanted, build_up=name)
            gathered.remarks.append(Note("", code, asked=asked, number=len(choice.sizes)))
    return SizeChoice(tuple(sizes), packing, fewest)


@lru_cache(maxsize=64)
def _sizes_chosen(offers: tuple[Offer, ...], packers: PackerRange, wanted: int | None) -> SizeChoice:
    """The fewest sizes, or as many as are wanted; heads in one line unless that would make two of the sizes the same."""
    if wanted is None:
        return heights_alike(fewest_sizes(offers, packers, step=SIZE_STEP_MM), offers, packers)
    choice = sizes_in_number(offers, packers, wanted, step=SIZE_STEP_MM)
    alike = heights_alike(choice, offers, packers)
    distinct = {(size.group, size.width, size.height) for size in alike.sizes}
    return alike if len(distinct) == len(alike.sizes) else choice


def _standard_outer(
    size: StandardSize, offers: dict[str, UprightRectangle], build_up: AnyBuildUp
) -> tuple[Measure, Measure]:
    """Outer size of the lining as a Measure that says which opening sets it."""
    width = offers[size.narrowest].width.named(f"upright width of {size.narrowest}")
    height = offers[size.lowest].height.named(f"height of {size.lowest}")
    packer = given(build_up, build_up.packer_least, "least packer")
    over = given(build_up, build_up.head_packer_least, "least packer over the head")
    outer = (width - 2 * packer).named("lining width").rounded_down(SIZE_STEP_MM)
    return outer, (height - over).named("lining height").rounded_down(SIZE_STEP_MM)


def _framed(build_up: AnyBuildUp, outer: tuple[Measure, Measure], book: Book, opening: Opening) -> FramedSize:
    panel = stock_of(build_up, book).end_panel
    free = {"none": 0, "both": 2}.get(opening.end_panels, 1)
    return framed_size(
        *outer,
        packer=given(build_up, build_up.packer_wanted, "packer"),
        head_packer=given(build_up, build_up.head_packer_wanted, "packer over the head"),
        reveal_board=given(build_up, build_up.reveal_board, "reveal board"),
        floor_to_come=given(build_up, build_up.floor_to_come, "floor to come"),
        sill=opening.sill,
        free=free,
        end_panel=Measure(panel.thickness, "end panel", source=f"book: {panel.name}") if panel else None,
    )


def _frame(opening: Opening, outer: tuple[Measure, Measure]) -> Frame:
    hand: Literal["left", "right"] = "left" if opening.hand is Hand.LEFT else "right"
    wanted = Wanted(opening.leaf_widths or (), opening.leaf_shares or ())
    return Frame(
        *outer,
        leaves=opening.leaves,
        hand=hand,
        sill=opening.sill,
        wanted=wanted,
        floor_finish=opening.floor_finish,
        rows=opening.rows,
        end_panels=opening.end_panels,
    )


def _set_out(
    entry: OpeningPlan,
    build_up: AnyBuildUp,
    book: Book,
    frame: Frame | RakedFrame,
    cache: dict[tuple[object, ...], SetOut],
    gathered: _Gathered,
) -> OpeningPlan:
    opening = entry.opening
    key = (build_up.name, *(value.working() if isinstance(value, Measure) else value for value in vars(frame).values()))
    if key not in cache:
        try:
            cache[key] = set_out(build_up, stock_of(build_up, book), frame)
        except (Infeasible, InputError) as error:
            answer = [error.message] if isinstance(error, Infeasible) else error.faults
            for one in answer:
                gathered.fault(opening, one)
            return entry
    result = cache[key]
    if faults := unmakeable(result):
        for one in faults:
            gathered.fault(opening, one)
        return entry
    gathered.remarks += [Note("", remark) for remark in result.remarks]
    if entry.packers is not None and build_up.trim is not None:
        lining = book.board(build_up.lining_board).thickness
        gathered.remarks += _uncovered(entry, build_up, result, book.section(build_up.trim).width, lining)
    return replace(entry, set_out=result)


def _uncovered(
    entry: OpeningPlan, build_up: AnyBuildUp, result: SetOut, trim_mm: float, lining_mm: float
) -> list[Note]:
    """A note where the trim does not cover the packing on its worst side, with the width that would."""
    assert entry.packers is not None
    at_side = result.dimension(DimensionName.BEARING).value
    at_head = family_of(build_up).head_bearing(build_up, at_side, lining_mm)
    places = {
        "plan.trim_short_at_left": (at_side, max(entry.packers.left_mm)),
        "plan.trim_short_at_right": (at_side, max(entry.packers.right_mm)),
        "plan.trim_short_over_head": (at_head, max(entry.packers.head_mm)),
    }
    worst = min(places, key=lambda place: trim_cover(trim_mm, *places[place]))
    bearing, packer = places[worst]
    cover = trim_cover(trim_mm, bearing, packer)
    if cover >= TRIM_COVER_MM:
        return []
    wide = trim_wanted(bearing, packer, TRIM_COVER_MM)
    return [Note(entry.opening.mark, worst, cover_mm=cover, packer_mm=packer, width_mm=wide)]
