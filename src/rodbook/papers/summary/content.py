"""The summary: the whole job on one page, for the firm's own use."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path

from rodbook.boards import SheetPlan
from rodbook.job.models import Making
from rodbook.money import ASSUMED, Likely, MakeOrBuy, Turning
from rodbook.papers.common.cautions import FIRE, STRUCTURE, heaviest_leaf, heaviest_sheet, lifting
from rodbook.papers.common.proofs import proof_in_words
from rodbook.papers.common.shared import Json, Sheetful, caution_rows, frame, leaves_in_words, writer
from rodbook.papers.numbers import Numbers
from rodbook.plan import Material, OpeningPlan, Plan, from_waste, left_out_in_words, left_out_of

__all__ = ["summary_content"]


def summary_content(plan: Plan) -> Sheetful:
    """What stands on the summary."""
    write = writer(plan)
    job = plan.job.job
    build_ups = sorted({entry.build_up for entry in plan.openings} or {job.build_up})
    boards = [plan.book.board(m.stock) for m in plan.materials if m.sheets is not None]
    workshop = plan.money.workshop if plan.money else ""
    content: dict[str, Json] = {
        "frame": frame(plan, "Summary", title="Summary of the job"),
        "about": [
            ["Client", job.client],
            ["Site", job.site],
            ["Build-up", "; ".join(build_ups)],
            ["Workshop asked", workshop],
            ["Note", job.note],
        ],
        "figures": _figures(plan),
        "not_worked_out": [[note.where, note.sentence] for note in plan.not_worked_out],
        "sizes": _sizes(plan, write),
        "sizes_proof": _sizes_proof(plan),
        "framed": _framed(plan, write),
        "stock": [_stock_row(plan, material, write) for material in plan.materials],
        "from_waste": _from_waste(plan),
        "bounds": any(not (a.proven) for m in plan.materials if (a := m.sheets or m.lengths)),
        "money": _money(plan, write) if plan.money else None,
        "left_out": left_out_in_words(left_out_of(plan), write.hours) if plan.money else "",
        "likely": _likely(plan, write),
        "remarks": [[note.where, note.sentence] for note in plan.remarks],
        "cautions": caution_rows(
            [*lifting(write, leaf=heaviest_leaf(plan), sheet=heaviest_sheet(boards)), STRUCTURE, FIRE]
        ),
    }
    return Sheetful(Path(__file__).with_name("summary.typ"), content, {})


def _figures(plan: Plan) -> Json:
    """The counts at the top."""
    leaves = sum(entry.set_out.leaves if entry.set_out else entry.opening.leaves for entry in plan.openings)
    parts = sum(line.quantity for line in plan.schedule)
    results = [
        (len(plan.openings), "opening"),
        (leaves, "leaf"),
        (len(plan.panels), "panel"),
        (len(plan.sizes.sizes) if plan.sizes else 0, "standard size"),
        (parts, "part"),
        (len(plan.schedule), "distinct part"),
    ]
    plural = {"leaf": "leaves"}
    return [[str(n), word if n == 1 else plural.get(word, f"{word}s")] for n, word in results if n or word == "part"]


def _entries(plan: Plan, marks: Sequence[str]) -> list[OpeningPlan]:
    return [entry for entry in plan.openings if entry.opening.mark in marks]


def _sizes(plan: Plan, write: Numbers) -> Json:
    rows: list[Json] = []
    for number, size in enumerate(plan.sizes.sizes if plan.sizes else (), 1):
        entries = _entries(plan, size.openings)
        packers = [entry.packers for entry in entries if entry.packers]
        sides = [mm for p in packers for mm in (*p.left_mm, *p.right_mm)]
        heads = [mm for p in packers for mm in p.head_mm]
        set_out = next((entry.set_out for entry in entries if entry.set_out), None)
        rows.append(
            [
                str(number),
                write.size(size.width, size.height),
                leaves_in_words(set_out, write) if set_out else "",
                ", ".join(size.openings),
                write.span(sides) if sides else "",
                write.span(heads) if heads else "",
            ]
        )
    return rows


def _sizes_proof(plan: Plan) -> str:
    if plan.sizes is None:
        return ""
    count = len(plan.sizes.sizes)
    if not plan.sizes.proven:
        return f"{count} sizes, as many as were asked for; {plan.sizes.fewest} would do with thicker packers."
    return "One size serves them all." if count == 1 else f"{count} sizes; fewer are impossible with these packers."


def _framed(plan: Plan, write: Numbers) -> Json:
    groups: dict[tuple[float, float, float, float], list[OpeningPlan]] = defaultdict(list)
    for entry in plan.openings:
        if entry.framed and entry.set_out:
            lining = entry.set_out.outer_width.value, entry.set_out.outer_height.value
            groups[(entry.framed.width.value, entry.framed.height.value, *lining)].append(entry)
    rows: list[Json] = []
    for (width, height, outer_width, outer_height), entries in groups.items():
        set_out = entries[0].set_out
        assert set_out is not None
        rows.append(
            [
                write.size(width, height),
                write.size(outer_width, outer_height),
                leaves_in_words(set_out, write),
                ", ".join(entry.opening.mark for entry in entries),
            ]
        )
    return rows


def _stock_row(plan: Plan, material: Material, write: Numbers) -> Json:
    answer = material.sheets or material.lengths
    assert answer is not None
    counts: Counter[str] = Counter()
    offcuts = () if material.sheets is None else tuple(o.label for o in plan.book.board(material.stock).offcuts)
    if isinstance(answer, SheetPlan):
        for layout in answer.layouts:
            counts[layout.sheet] += layout.count
    else:
        for pattern in answer.patterns:
            counts[pattern.bar] += pattern.count
    return [
        material.stock,
        "made on site" if material.maker is Making.SITE else "bought in",
        [_wanted(name, count, offcuts) for name, count in counts.items()],
        proof_in_words(plan, material, write),
    ]


def _from_waste(plan: Plan) -> str:
    """Pieces wanted elsewhere that come out of waste, in a sentence; empty where none do."""
    result = from_waste(plan)
    if not result:
        return ""
    listed = ", ".join(f"{piece.number} × {piece.name}" for piece in result)
    return f"Wanted elsewhere and cut from what would be waste, at no cost to this job: {listed}."


def _wanted(name: str, count: int, offcuts: Sequence[str]) -> str:
    return f"offcut {name}" if name in offcuts else f"{count} of {name}"


def _money(plan: Plan, write: Numbers) -> Json:
    money = plan.money
    assert money is not None
    turns = {turning.kind: turning for turning in plan.turnings}
    rows: list[Json] = [
        [
            str(choice.kind),
            str(choice.parts),
            write.money(choice.site_amount),
            write.money(choice.bought_amount) if choice.bought_amount is not None else "can't be bought",
            _decision(choice.decision, choice.asked),
            write.hours(choice.crew_hours_saved),
            _turn(turns.get(choice.kind)),
        ]
        for choice in money.kinds
    ]
    return {
        "rows": rows,
        "totals": _totals(money, write),
        "day": write.date(money.day),
        "workshop": money.workshop,
        "assumed": ASSUMED,
        "remarks": [*map(str, money.remarks)],
    }


def _turn(turning: Turning | None) -> str:
    """At how many of it the kind would be made otherwise."""
    if turning is None or not turning.free:
        return ""
    numbers = [str(n) for n in (turning.fewer, turning.more) if n is not None]
    if not numbers:
        return f"no number of {turning.mark}"
    return f"{' and '.join(numbers)} × {turning.mark}"


def _likely(plan: Plan, write: Numbers) -> Json:
    """What each way of making the whole job is likely to come to; nothing where that was not worked out."""
    if plan.outlook is None:
        return None
    decided, result = plan.outlook.decided, plan.outlook.chances
    rows = [("as decided", decided)]
    rows += [(_mixture_in_words(likely), likely) for likely in (result.best, *result.pure)]
    seen: set[object] = set()
    texts: list[Json] = []
    for name, likely in rows:
        if likely.mixture not in seen:
            seen.add(likely.mixture)
            texts.append(
                [
                    name,
                    write.money(likely.cost.mean),
                    write.money(likely.cost.nine_in_ten),
                    write.days(likely.crew_days.mean),
                    write.days(likely.days.nine_in_ten),
                ]
            )
    chance = result.buying_cheaper
    text = "" if chance is None else f"Buying everything is cheaper than making it in {write.percent(chance)} of cases."
    return {"rows": texts, "chance": text, "remarks": [*map(str, result.remarks)]}


def _mixture_in_words(likely: Likely) -> str:
    """Everything one way, or so many kinds each way."""
    counts = Counter(way for _, way in likely.mixture)
    if len(counts) == 1:
        return f"everything {next(iter(counts))}"
    return "; ".join(f"{n} kind{'s' if n != 1 else ''} {way}" for way, n in counts.items())


_VERBS = {Making.SITE: "make", Making.BOUGHT: "buy", Making.CHEAPER: "either"}


def _decision(decision: Making, asked: Making) -> str:
    words = _VERBS[decision]
    return words if asked is Making.CHEAPER else f"{words}, as asked"


def _totals(money: MakeOrBuy, write: Numbers) -> Json:
    totals = money.totals
    all_bought = write.money(totals.all_bought) if totals.all_bought is not None else "not possible"
    rows = [
        ["all made on site", write.money(totals.all_site)],
        ["all bought in, in one order", all_bought],
        ["as decided", write.money(totals.decided)],
    ]
    if totals.site_made and totals.bought_in:
        rows.append(["of that, made on site", write.money(totals.site_made)])
        rows.append(["of that, the order with delivery", write.money(totals.bought_in)])
    if totals.crew_hours > Decimal(0):
        rows.append(["crew hours for what is made", write.hours(totals.crew_hours)])
    if totals.crew_hours_saved > Decimal(0):
        rows.append(["crew hours saved by buying", write.hours(totals.crew_hours_saved)])
    return [list(row) for row in rows]
