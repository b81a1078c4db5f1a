"""The parts schedule: every distinct part, and for each sort of front its set-out and the working of its sizes."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from pathlib import Path

from rodbook.job.models import Opening
from rodbook.papers.common.cautions import BLADES, DUST
from rodbook.papers.common.shared import (
    Json,
    Pictures,
    Sheetful,
    caution_rows,
    common_finish,
    edges_in_words,
    finish_in_words,
    frame,
    hinges_in_words,
    leaf_in_words,
    lining_in_words,
    masses_in_words,
    openings_in_words,
    parts_in_words,
    rows_in_words,
    writer,
)
from rodbook.papers.common.working import working_of
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.foot import draw_foot
from rodbook.papers.pictures.front import HUNG_KEY, draw_front
from rodbook.papers.pictures.section import draw_section
from rodbook.plan import OpeningPlan, Plan
from rodbook.setout import Part, PartKind, ScheduleLine, SeenGap, SetOut, cut_brief
from rodbook.working import Measure

__all__ = ["Front", "fronts_of", "parts_content"]


_PAGE_MM = 170.0
"""Elevations stand beside each other where they fit this width. [mm]"""


_ALONE_MM = 104.0
"""A single elevation up to this width has the sizes beside it, a wider one below. [mm]"""


@dataclass(frozen=True)
class Front:
    """Openings whose fronts are of one size and build-up, whichever side a leaf hangs on."""

    name: str
    entries: tuple[OpeningPlan, ...]

    @property
    def set_out(self) -> SetOut:
        """Of the first opening."""
        result = self.entries[0].set_out
        assert result is not None
        return result


def _running_on(set_out: SetOut) -> tuple[object, ...]:
    """What tells fronts of one size apart where trim or plinth runs on: the sides, and the pieces that begin there."""
    if not set_out.trim_runs and not set_out.plinth_runs:
        return ()
    lengths = (p.part.length.value for p in set_out.parts if p.part.kind.facts.runs_on)
    return (set_out.trim_runs, set_out.plinth_runs, *lengths)


_OF_THE_HOLE = frozenset(
    {
        "mark",
        "room",
        "state",
        "hand",
        "build_up",
        "head",
        "widths",
        "heights",
        "diagonals",
        "depth",
        "readings",
        "read_by",
        "leaf",
        "clear",
        "obstacles",
        "ceiling",
        "note",
    }
)
"""What an opening says of itself and of its surroundings; all else says how its front is to be divided and closed."""


def _asked(opening: Opening) -> tuple[object, ...]:
    """What is asked of a front beside its size and build-up: whatever field there is that is not of the hole."""
    return tuple(value for name, value in opening if name not in _OF_THE_HOLE)


def fronts_of(plan: Plan) -> tuple[Front, ...]:
    """Bring like fronts together, in the order in which they are met."""
    groups: dict[tuple[object, ...], list[OpeningPlan]] = defaultdict(list)
    for entry in plan.openings:
        if entry.set_out is not None:
            low = entry.set_out.outer_low
            size = entry.set_out.outer_width.value, entry.set_out.outer_height.value, low.value if low else None
            groups[
                (
                    entry.build_up,
                    size,
                    entry.set_out.falls_to,
                    _asked(entry.opening),
                    _running_on(entry.set_out),
                )
            ].append(entry)
    results: list[Front] = []
    for number, entries in enumerate(groups.values(), 1):
        sizes = sorted({entry.size for entry in entries if entry.size is not None})
        name = f"Size {', '.join(map(str, sizes))}" if sizes else f"Front {number}"
        if entries[0].set_out is not None and entries[0].set_out.trim_runs:
            name = f"{name}, trim running on"
        if entries[0].set_out is not None and entries[0].set_out.plinth_runs:
            name = f"{name}, plinth running on"
        results.append(Front(name, tuple(entries)))
    return tuple(results)


def parts_content(plan: Plan) -> Sheetful:
    """What stands on the parts schedule."""
    write, shared = writer(plan), common_finish(plan.schedule)
    pictures = Pictures(write)
    made = any(_made(line, shared) for line in plan.schedule)
    content: dict[str, Json] = {
        "frame": frame(plan, "Parts schedule", title="Parts schedule"),
        "rows": [_row(line, write, shared, made=made) for line in plan.schedule],
        "made": made,
        "finish": shared,
        "total": parts_in_words(plan.schedule),
        "not_worked_out": [[note.where, note.sentence] for note in plan.not_worked_out],
        "fronts": [_front(plan, front, write, pictures) for front in fronts_of(plan)],
        "panels": [_panel(line, write) for line in plan.schedule if line.part.kind is PartKind.PANEL],
        "hung_key": HUNG_KEY,
        "cautions": caution_rows([DUST, BLADES]),
    }
    return Sheetful(Path(__file__).with_name("parts-schedule.typ"), content, pictures.files)


def _made(line: ScheduleLine, shared: str) -> str:
    """How the ends are cut, and the finish where it is not the same for all."""
    finish = "" if shared else finish_in_words(line.part)
    cuts, notch = cut_brief(line.part.cuts), line.part.notch
    brief = "; ".join(filter(None, (cuts, notch.words if notch else ""))) if cuts else line.part.ends
    return "; ".join(words for words in (brief, finish) if words)


def _row(line: ScheduleLine, write: Numbers, shared: str, *, made: bool) -> Json:
    part = line.part
    return [
        line.mark,
        str(part.kind),
        str(line.quantity),
        write.mm(part.length.value),
        write.mm(part.width.value),
        write.short(part.thickness.value),
        part.stock,
        edges_in_words(part),
        *([_made(line, shared)] if made else []),
        openings_in_words(line),
    ]


def _panel(line: ScheduleLine, write: Numbers) -> Json:
    """A panel is made to the size that was given: its working is where that came from."""
    return [line.mark, "; ".join(write.in_working(m.working()) for m in (line.part.length, line.part.width))]


def _packers(front: Front, plan: Plan, write: Numbers) -> tuple[float, str]:
    """Packing to draw in the section, and what to write there."""
    sides = [mm for e in front.entries if e.packers for mm in (*e.packers.left_mm, *e.packers.right_mm)]
    if sides:
        return sum(sides) / len(sides), f"packer {write.span(sides)}"
    wanted = plan.book.build_up(front.set_out.build_up).packer_wanted
    return wanted, f"packer {write.short(wanted)}"


def _front(plan: Plan, front: Front, write: Numbers, pictures: Pictures) -> Json:
    set_out, build_up = front.set_out, plan.book.build_up(front.set_out.build_up)
    by_hand: dict[str, list[OpeningPlan]] = defaultdict(list)
    for entry in front.entries:
        hung = f"hung {entry.opening.hand.value}" if entry.opening.leaves == 1 else ""
        if entry.opening.leaves == 3:
            hung = f"middle leaf hung {entry.opening.hand.value}"
        by_hand[hung].append(entry)
    elevations: list[Json] = []
    wide = 0.0
    for hung, entries in by_hand.items():
        marks = ", ".join(entry.opening.mark for entry in entries)
        assert entries[0].set_out is not None
        drawing = draw_front(entries[0].set_out, marks)
        wide += drawing.width
        elevations.append({"openings": marks, "hung": hung, "picture": pictures.add(drawing)})
    drawn, words = _packers(front, plan, write)
    foot = draw_foot(set_out, front.name)
    section = draw_section(set_out, build_up, front.name, packer_mm=drawn, packer_words=words)
    leaves = f"{set_out.leaves} leaves" if set_out.leaves > 1 else "one leaf"
    if set_out.rows:
        leaves = f"from the floor up {rows_in_words(set_out, write)}"
    return {
        "name": front.name,
        "words": f"lining {lining_in_words(set_out, write)}, {leaves}",
        "build_up": f"{set_out.build_up} ({set_out.family})",
        "elevations": elevations,
        "alone": len(elevations) == 1 and wide <= _ALONE_MM,
        "beside": wide + 6.0 * (len(elevations) - 1) <= _PAGE_MM,
        "section": pictures.add(section),
        "foot": pictures.add(foot) if foot is not None else "",
        "facts": _facts(set_out, write),
        "working": working_of(_measures(set_out), _marks(plan, front), write),
    }


def _facts(set_out: SetOut, write: Numbers) -> Json:
    rows = [
        ["lining, outside", lining_in_words(set_out, write)],
        ["clear inside the lining", write.size(set_out.clear_width.value, set_out.clear_height.value)],
        *([["rows, from the floor up", rows_in_words(set_out, write)]] if set_out.rows else []),
        *([["leaf", leaf_in_words(set_out, write)]] if set_out.leaves else []),
        *([gap.name, _gap(gap, write)] for gap in set_out.seen),
        *([measure.name, write.mm(measure.value)] for measure in set_out.dimensions),
        *(
            [["hinges a leaf", hinges_in_words(set_out)], ["mass of a leaf", masses_in_words(set_out, write)]]
            if set_out.leaves
            else []
        ),
        *(
            [f"mass of the {row.kind}, {write.short(row.height.value)} high", write.kilograms(row.mass)]
            for row in set_out.rows
            if row.mass
        ),
        *(
            [f"moment of the flap, {write.short(row.height.value)} high", f"{write.tenth(row.moment_nm)} N m"]
            for row in set_out.rows
            if row.kind == "flap"
        ),
    ]
    return [list(row) for row in rows]


def _gap(gap: SeenGap, write: Numbers) -> str:
    """A gap as the parts make it, and what was asked for and what will be seen where that is another."""
    answer = write.mm(gap.made.value)
    if gap.asked is not None and abs(gap.asked.value - gap.made.value) > 1e-6:
        answer += f", {write.mm(gap.asked.value)} asked for"
    if abs(gap.seen.value - gap.made.value) > 1e-6:
        answer += f", {write.mm(gap.seen.value)} seen when finished"
    return answer


def _measures(set_out: SetOut) -> list[Measure]:
    results = [
        set_out.outer_width,
        set_out.outer_height,
        set_out.clear_width,
        set_out.clear_height,
        set_out.leaf_width,
        set_out.leaf_height,
        *set_out.gaps,
        *(gap.seen for gap in set_out.seen if gap.seen is not gap.made),
        *set_out.dimensions,
    ]
    results += [m for size in set_out.leaf_sizes if size.sloping for m in (size.left, size.right)]
    for placed in set_out.parts:
        results += [placed.part.length, placed.part.width]
    return results


def _marks(plan: Plan, front: Front) -> dict[str, str]:
    """Marks of the parts that a line of working gives length or width of."""
    own = {entry.opening.mark for entry in front.entries}
    results: dict[str, list[str]] = defaultdict(list)
    for placed in front.set_out.parts:
        for line in plan.schedule:
            if _same(line.part, placed.part) and own & {mark for mark, _ in line.openings}:
                shape = line.mark.partition("-")[0]
                for measure in (placed.part.length, placed.part.width):
                    if shape not in results[measure.working()]:
                        results[measure.working()].append(shape)
    return {line: ", ".join(marks) for line, marks in results.items()}


def _same(a: Part, b: Part) -> bool:
    return (a.kind, a.stock, str(a.length), str(a.width)) == (b.kind, b.stock, str(b.length), str(b.width))
