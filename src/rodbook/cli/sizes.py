"""Standard sizes against packing, on a terminal."""

from __future__ import annotations

from pathlib import Path

import click
from rich.console import Console

from rodbook.cli.console import paper_wide
from rodbook.cli.reading import book_for
from rodbook.cli.terminal import table
from rodbook.cli.working_out import say_aside
from rodbook.job.files import read_job
from rodbook.papers.numbers import Numbers
from rodbook.plan import plan_parts
from rodbook.plan.analyses.trade_off import SizesTraded, sizes_traded

__all__ = ["sizes"]


def print_trade_off(results: tuple[SizesTraded, ...], write: Numbers, console: Console) -> None:
    """Print, for each number of sizes, the least packing that so many can do with.

    Parameters
    ----------
    results : tuple of SizesTraded
    write : Numbers
        How the book writes figures.
    console : Console
    """
    if not results:
        console.print("No opening of this job stands yet: sizes come of the readings of openings that do.")
    for one in results:
        console.print(f"{one.build_up}, {len(one.openings)} {'opening' if len(one.openings) == 1 else 'openings'}")
        figures = ("all packing, mm", "less by", "thickest at a side", "thickest over a head")
        rows = table("sizes", *figures, "", right=figures)
        for trade, saved in zip(one.trades, one.saved_mm, strict=True):
            rows.add_row(
                str(trade.number),
                write.tenth(trade.choice.packing_mm),
                "" if saved is None else write.tenth(saved),
                write.tenth(trade.side_mm),
                write.tenth(trade.head_mm),
                "as many as this job" if trade.number == one.now else "",
            )
        console.print(rows)
        if one.spoilers and one.fewest > 1:
            would = "size" if one.fewest == 2 else "sizes"
            names = ", ".join(spoiler.opening for spoiler in one.spoilers)
            console.print(f"Without any one of these, {one.fewest - 1} {would} would do: {names}.")
        console.print()
    if results:
        console.print(
            "Each is the least packing that so many sizes can do with; the job itself may pack a little more over some heads, "
            "as it keeps heads in line. Fewer sizes are fewer set-ups; how many the job has is said in its file, under sizes."
        )


@click.command("sizes")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--book", type=click.Path(path_type=Path), help="The firm's book; else book.toml beside the job.")
def sizes(job: Path, book: Path | None) -> None:
    """Weigh how many standard sizes the openings get against how thick the packers are."""
    the_book, whose = book_for(job, book)
    plan = plan_parts(read_job(job, the_book), the_book)
    print_trade_off(sizes_traded(plan), Numbers.of(the_book, plan.job), paper_wide(the_book))
    click.echo(f"Book: {whose}")
    say_aside(plan)
