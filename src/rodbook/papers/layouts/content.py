"""The layouts: every sheet and length with its cuts in order, and how good the answer is known to be."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from pathlib import Path

from rodbook.boards import BarPattern, CutList, CutStep, Layout, Offcut, Saw, cut_list
from rodbook.job.models import Making
from rodbook.papers.common.cautions import BLADES, DUST, heaviest_sheet, lifting
from rodbook.papers.common.proofs import proof_in_words
from rodbook.papers.common.shared import Json, Pictures, Sheetful, caution_rows, frame, writer
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.layout import draw_length, draw_sheet
from rodbook.plan import Material, Plan, from_waste, kept_offcuts, saw_of

__all__ = ["elsewhere_in_words", "layouts_content", "rest_in_words", "saw_in_words"]

_SITE = "made on site"
_WORKSHOP = "bought in; drawn for comparison, as the workshop lays them out for its own saw"


def layouts_content(plan: Plan) -> Sheetful:
    """What stands on the layouts."""
    write = writer(plan)
    pictures = Pictures(write)
    saw = saw_of(plan.book)
    boards = [plan.book.board(m.stock) for m in plan.materials if m.sheets is not None]
    keeps = kept_offcuts(plan)
    labels = {kept.layout: kept.label for kept in keeps}
    content: dict[str, Json] = {
        "frame": frame(plan, "Layouts", title="Layouts", landscape=True),
        "saw": saw_in_words(
            saw, write, end_trim=plan.book.saw.end_trim if any(m.lengths for m in plan.materials) else 0.0
        ),
        "overview": [[m.stock, _for_whom(m), proof_in_words(plan, m, write)] for m in plan.materials],
        "not_worked_out": [[note.where, note.sentence] for note in plan.not_worked_out],
        "offcuts": [
            [kept.label, kept.stock, write.short_size(kept.length, kept.width), str(kept.layout)] for kept in keeps
        ],
        "from_waste": [
            [
                piece.name,
                str(piece.number),
                piece.stock,
                write.short_size(piece.length, piece.width),
                ", ".join(str(number) for number, _ in piece.layouts),
                piece.purpose,
            ]
            for piece in from_waste(plan)
        ],
        "sheets": [
            _sheet(plan, material, layout, saw, write, pictures, number, labels.get(number, ""))
            for number, material, layout in plan.layouts()
        ],
        "lengths": [_lengths(plan, material, write, pictures) for material in plan.materials if material.lengths],
        "cautions": caution_rows([DUST, BLADES, *lifting(write, sheet=heaviest_sheet(boards))]),
    }
    return Sheetful(Path(__file__).with_name("layouts.typ"), content, pictures.files)


def saw_in_words(saw: Saw, write: Numbers, *, end_trim: float = 0.0) -> str:
    """What the saw takes off sheets and lengths and, where that is limited, how often the cutting direction turns."""
    taken = f"Kerf {write.short(saw.kerf)} mm, {write.short(saw.edge_trim)} mm off each raw edge."
    if end_trim:
        taken = f"{taken[:-1]}, {write.short(end_trim)} mm off each end of a length as sold, to square it."
    if saw.max_turns is None:
        return taken
    often = "once" if saw.max_turns == 1 else f"{saw.max_turns} times"
    return f"{taken} The cutting direction turns at most {often} on the way to a part."


def _for_whom(material: Material) -> str:
    return _SITE if material.maker is Making.SITE else _WORKSHOP


def _sheet(
    plan: Plan, material: Material, layout: Layout, saw: Saw, write: Numbers, pictures: Pictures, number: int, keep: str
) -> Json:
    cuts = cut_list(layout, saw)
    kept = layout.kept_offcut(plan.book.saw.keep_from)
    grain, wanted = plan.book.board(material.stock).grain, material.wanted_names
    return {
        "number": number,
        "stock": material.stock,
        "sheet": layout.sheet,
        "size": write.short_size(layout.length, layout.width),
        "count": layout.count,
        "for": _for_whom(material),
        "proof": proof_in_words(plan, material, write),
        "picture": pictures.add(draw_sheet(layout, cuts, saw, grain=grain, keep=keep if kept else None, wanted=wanted)),
        "cuts": [_cut(step, write) for step in cuts.steps],
        "sum": _sum(cuts, kept, write, keep) + elsewhere_in_words(layout, wanted),
    }


def elsewhere_in_words(layout: Layout, wanted: Collection[str]) -> str:
    """What of a layout is wanted elsewhere, in a sentence; empty where nothing is."""
    counts = Counter(placed.name for placed in layout.placed if placed.name in wanted)
    if not counts:
        return ""
    return f" For elsewhere: {', '.join(f'{count} × {name}' for name, count in sorted(counts.items()))}."


def _sum(cuts: CutList, keep: Offcut | None, write: Numbers, label: str) -> str:
    name = f" as {label}" if label else ""
    kept = (
        f" Keep the offcut {write.short_size(keep.length, keep.width)}{name}."
        if keep
        else " No offcut is worth keeping."
    )
    return f"{len(cuts.steps)} cuts, {write.metres(cuts.metres)}, {cuts.handlings} times to the fence.{kept}"


_YIELDS = {"trim": "a clean edge", "part": "board {}", "piece": "{}", "offcut": "offcut {}"}


def _cut(step: CutStep, write: Numbers) -> Json:
    """Number, what is on the saw and how it is cut, fence, what it yields."""
    way = "along" if step.direction == "along" else "across"
    return [str(step.number), f"{step.board}, {way}", write.mm(step.fence), _YIELDS[step.use].format(step.yields)]


def _lengths(plan: Plan, material: Material, write: Numbers, pictures: Pictures) -> Json:
    assert material.lengths is not None
    return {
        "stock": material.stock,
        "for": _for_whom(material),
        "proof": proof_in_words(plan, material, write),
        "patterns": [
            {
                "count": pattern.count,
                "bar": pattern.bar,
                "length": write.short(pattern.length),
                "stops": ", ".join(f"{cut.name} {write.mm(cut.length)}" for cut in pattern.cuts),
                "rest": rest_in_words(pattern, write),
                "picture": pictures.add(draw_length(pattern)),
            }
            for pattern in material.lengths.patterns
        ],
    }


def rest_in_words(pattern: BarPattern, write: Numbers) -> str:
    """What is left of a length: sawn square at one end, and raw at the other, which is not counted.

    >>> from decimal import Decimal
    >>> rest_in_words(BarPattern("4.4 m", 4400, Decimal(1), 1, (), 812.5, 10, 10), Numbers("en", "EUR"))
    '812.5, square at the sawn end; the raw 10 mm beyond it are not counted'
    """
    if not pattern.remainder:
        return "nothing"
    rest = write.mm(pattern.remainder)
    if not pattern.end:
        return rest
    return f"{rest}, square at the sawn end; the raw {write.short(pattern.end)} mm beyond it are not counted"
