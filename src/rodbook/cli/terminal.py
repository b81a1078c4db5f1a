"""A plan's summary on a terminal."""

from __future__ import annotations

from pathlib import Path

import click
from babel.numbers import format_currency
from rich import box
from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from rodbook.errors import StoreError
from rodbook.job.models import Making
from rodbook.money import ASSUMED, points_in_words
from rodbook.papers.numbers import Numbers
from rodbook.plan import Material, Outlook, Plan, from_waste
from rodbook.plan.analyses.offers import offered
from rodbook.setout import SetOut
from rodbook.survey.assuming import in_words
from rodbook.working import Measure, number, percent

__all__ = ["print_aside", "print_summary", "put_paper", "short_size", "table"]

_FOLDED = frozenset(
    {
        "assumed where too little was read",
        "read next",
        "openings",
        "takes",
        "spacers, mm",
        "for",
        "done in it",
        "bought",
        "moved most since the first day, in points",
    }
)
"""Columns that may run over several lines."""

MADE_BY = {Making.SITE: "on site", Making.BOUGHT: "bought in"}


def short_size(*sizes: Measure | float) -> str:
    """Sizes in a row, whole millimetres without their zero: ``827 × 2022``."""
    return " × ".join(number(float(size)).removesuffix(".0") for size in sizes)


def put_paper(path: Path, content: bytes) -> None:
    """Write a paper and say so.

    Raises
    ------
    StoreError
        If it can't be written.
    """
    try:
        path.write_bytes(content)
    except OSError as error:
        raise StoreError("file.cant_be_written", path=path, reason=error.strerror or str(error)) from None
    click.echo(f"Wrote {path}")


def table(*columns: str, right: tuple[str, ...] = ()) -> Table:
    """A table with these columns, the ones in `right` set to the right."""
    made = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False)
    for column in columns:
        made.add_column(
            column, justify="right" if column in right else "left", overflow="fold", no_wrap=column not in _FOLDED
        )
    return made


def print_summary(plan: Plan, console: Console, *, working: bool) -> None:
    """Print what a joiner wants to see first, and each size's working where it is asked for.

    Parameters
    ----------
    plan : Plan
    console : Console
    working : bool
        Whether to print the trail of each part's length and width.
    """
    header = plan.job.job
    console.print(
        Text(header.name, style="bold"), f"revision {header.revision}, {Numbers.of(plan.book).date(header.date)}"
    )
    print_aside(plan, console)
    _sizes(plan, console)
    _parts(plan, console)
    _materials(plan, console)
    _money(plan, console)
    if working:
        _workings(plan, console)
    for title, notes in (
        ("What runs on", plan.runs),
        ("Not worked out yet", plan.not_worked_out),
        ("To know before it is made", plan.remarks),
    ):
        if notes:
            console.print(Text(title, style="bold"))
            for note in notes:
                console.print(Padding(Text(str(note)), (0, 0, 0, 2)))


def print_aside(plan: Plan, console: Console) -> None:
    """Print what stands aside, before anything that does not have it in it.

    Parameters
    ----------
    plan : Plan
    console : Console
    """
    if plan.aside:
        console.print(Text("Standing aside: nothing below has any of it", style="bold"))
        for one in plan.aside:
            console.print(Padding(Text(f"{one.name}: {'; '.join(one.why)}."), (0, 0, 0, 2)))
        console.print()


def _leaves(front: SetOut) -> str:
    sizes = [short_size(leaf.width, max(leaf.left, leaf.right, key=float)) for leaf in front.leaf_sizes]
    size = " + ".join(sizes) if len(set(sizes)) > 1 else short_size(front.leaf_width, front.leaf_height)
    several = size if len(set(sizes)) > 1 else f"{front.leaves} of {size}"
    if front.rows:
        return "; ".join(
            several if row.kind == "leaves" else f"{row.kind} {short_size(row.width, row.height)}" for row in front.rows
        )
    return size if front.leaves == 1 else several


def _range(values: list[float]) -> str:
    low, high = min(values), max(values)
    return f"{low:.1f}" if round(low, 1) == round(high, 1) else f"{low:.1f} to {high:.1f}"


def _sizes(plan: Plan, console: Console) -> None:
    if plan.sizes is not None:
        rows = table("size", "lining, mm", "leaf, mm", "openings", "packer a side", "over the head")
        for size_number, size in enumerate(plan.sizes.sizes, 1):
            members = [o for o in plan.openings if o.size == size_number]
            sides = [v for o in members if o.packers for v in (*o.packers.left_mm, *o.packers.right_mm)]
            heads = [v for o in members if o.packers for v in o.packers.head_mm]
            front = next(o.set_out for o in members if o.set_out)
            rows.add_row(
                str(size_number),
                short_size(size.width, size.height),
                _leaves(front),
                ", ".join(size.openings),
                _range(sides),
                _range(heads),
            )
        console.print(rows)
        count = len(plan.sizes.sizes)
        served = sum(len(size.openings) for size in plan.sizes.sizes)
        fewest = plan.sizes.fewest
        fewer = "fewer can't serve them all" if plan.sizes.proven else f"as many as were asked for, {fewest} would do"
        console.print(
            f"{count} standard {'size serves' if count == 1 else 'sizes serve'} {served} openings; {fewer}.\n"
        )
    _offers(plan, console)
    framed = [o for o in plan.openings if o.framed and o.set_out]
    if framed:
        rows = table("opening", "frame to, mm", "spacers, mm", "lining, mm", "leaf, mm")
        for entry in framed:
            assert entry.framed is not None
            assert entry.set_out is not None
            front = entry.set_out
            rows.add_row(
                entry.opening.mark,
                short_size(entry.framed.width, entry.framed.height),
                ", ".join(short_size(spacer) for spacer in entry.framed.spacers),
                short_size(front.outer_width, front.outer_height),
                _leaves(front),
            )
        console.print(rows, "")


def _offers(plan: Plan, console: Console) -> None:
    """What openings that stand offer, how sure that is, what it rests on, and which reading would help most."""
    results = [(entry, offer) for entry in plan.openings if (offer := offered(entry, plan.book)) is not None]
    if not results:
        return
    rows = table("opening", "offers, mm", "within", "assumed where too little was read", "read next", right=("within",))
    for entry, offer in results:
        rows.add_row(
            entry.opening.mark,
            f"{offer.width_mm:.0f} × {offer.height_mm:.0f}",
            f"± {offer.width_within_mm:.1f} × {offer.height_within_mm:.1f}",
            in_words(offer.assumed) or "nothing",
            f"{offer.helps.name} (−{percent(100 * offer.helps.gain, 0)})" if offer.helps else "",
        )
    console.print(rows)
    console.print(
        "95 times in 100 an opening is within what follows the ±, in width and in height; read next: what would take most off "
        f"it.\nThe building is taken as {plan.job.job.age}: what was not read may be as far out as in buildings of that age.\n"
    )


def _parts(plan: Plan, console: Console) -> None:
    if not plan.schedule:
        console.print("There are no parts yet.\n")
        return
    rows = table("part", "what", "number", "size, mm", "from", "made", right=("number",))
    for line in plan.schedule:
        part = line.part
        made = MADE_BY[plan.money.maker_of(part.kind)] if plan.money else ""
        rows.add_row(
            line.mark,
            part.kind.value,
            str(line.quantity),
            short_size(part.length, part.width, part.thickness),
            part.stock,
            made,
        )
    console.print(rows)
    console.print(f"{sum(line.quantity for line in plan.schedule)} parts, {len(plan.schedule)} of them distinct.\n")


def _counts(material: Material) -> str:
    counts: dict[str, int] = {}
    for name, count in (
        [(layout.sheet, layout.count) for layout in material.sheets.layouts]
        if material.sheets
        else [(pattern.bar, pattern.count) for pattern in material.lengths.patterns]
        if material.lengths
        else []
    ):
        counts[name] = counts.get(name, 0) + count
    return ", ".join(f"{count} of {name}" for name, count in counts.items())


def _materials(plan: Plan, console: Console) -> None:
    if not plan.materials:
        return
    rows = table("board or length", "cut", "takes", "cost", "least possible", right=("cost", "least possible"))
    for material in plan.materials:
        answer = material.sheets or material.lengths
        assert answer is not None
        rows.add_row(
            material.stock,
            MADE_BY[material.maker],
            _counts(material),
            _money_text(answer.cost, plan),
            _money_text(answer.bound, plan) + (" (proven)" if answer.proven else ""),
        )
    console.print(rows, "")
    _from_waste(plan, console)


def _from_waste(plan: Plan, console: Console) -> None:
    """Wanted pieces that come out of the waste of what is cut on site."""
    result = from_waste(plan)
    if not result:
        return
    rows = table("from waste", "number", "size, mm", "board", "layouts", "worth", "for", right=("number", "worth"))
    for piece in result:
        rows.add_row(
            piece.label,
            f"{piece.number} of {piece.wanted}",
            short_size(piece.length, piece.width),
            piece.stock,
            ", ".join(str(number) for number, _ in piece.layouts),
            _money_text(piece.worth_of_all, plan) if piece.worth else "",
            piece.purpose,
        )
    console.print(rows)
    console.print(
        "Wanted elsewhere, and cut from what would be waste: no sheet more, and nothing of it in the costs.\n"
    )


def _money_text(amount: object, plan: Plan) -> str:
    return str(format_currency(amount, plan.book.currency, locale=plan.book.locale))  # type: ignore[arg-type]


def _money(plan: Plan, console: Console) -> None:
    if plan.money is None:
        return
    columns = ("make or buy", "parts", "on site", "bought in", "hours saved", "decided", "turns at *")
    rows = table(*columns, right=("parts", "on site", "bought in", "hours saved"))
    turns = {turning.kind: turning for turning in plan.turnings}
    for choice in plan.money.kinds:
        turning = turns.get(choice.kind)
        bought = "no rate" if choice.bought_amount is None else _money_text(choice.bought_amount, plan)
        numbers = [] if turning is None else [str(n) for n in (turning.fewer, turning.more) if n is not None]
        at = f"{' and '.join(numbers)} of {turning.mark}" if turning and numbers else "none"
        rows.add_row(
            choice.kind.value,
            str(choice.parts),
            _money_text(choice.site_amount, plan),
            bought,
            f"{choice.crew_hours_saved:.1f}",
            MADE_BY[choice.decision],
            at,
        )
    console.print(rows)
    console.print(f"* How many of the part there would have to be for its kind to be made otherwise. {ASSUMED}")
    totals = plan.money.totals
    console.print(
        f"Decided: {_money_text(totals.decided, plan)}, of it {_money_text(totals.bought_in, plan)} bought in with delivery; "
        f"{totals.crew_hours:.1f} crew hours on site, {totals.crew_hours_saved:.1f} saved. "
        f"All on site would be {_money_text(totals.all_site, plan)}."
    )
    for remark in plan.money.remarks:
        console.print(str(remark))
    if plan.outlook is not None:
        _outlook(plan.outlook, plan, console)
    console.print()


def _outlook(outlook: Outlook, plan: Plan, console: Console) -> None:
    """What the decision comes to with everything that varies, and how sure it is."""
    cost, chance = outlook.decided.cost, outlook.chances.buying_cheaper
    console.print(
        f"With what varies: {_money_text(cost.mean, plan)} on average, nine in ten under "
        f"{_money_text(cost.nine_in_ten, plan)}."
        + ("" if chance is None else f" Buying everything is cheaper in {100 * chance:.0f} of 100 cases.")
    )
    console.print(" ".join(points_in_words(outlook.turning, plan.book.currency)))
    for remark in outlook.chances.remarks:
        console.print(str(remark))


def _workings(plan: Plan, console: Console) -> None:
    console.print(Text("Working", style="bold"))
    for line in plan.schedule:
        console.print(Padding(Text(f"{line.mark}, {line.part.kind}"), (0, 0, 0, 2)))
        lines = dict.fromkeys((*line.part.length.trail(), *line.part.width.trail()))
        for entry in lines:
            console.print(Padding(Text(entry), (0, 0, 0, 6)))
