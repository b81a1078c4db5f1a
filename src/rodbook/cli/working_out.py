"""What commands share: the book of a job, plans with a bar where somebody is looking, and what is said of them at the end."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

import click
from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn

from rodbook.cli.exits import EXIT_ASIDE
from rodbook.errors import InputError
from rodbook.job import Book, Job
from rodbook.job.aside import Aside
from rodbook.job.confirming import FigureKind
from rodbook.job.files import (
    read_job_apart,
)
from rodbook.papers.common.unconfirmed import figures_in_words
from rodbook.plan import Plan, make_plan
from rodbook.plan.analyses.unconfirmed import PaperFor, not_confirmed_under

__all__ = [
    "only_ours_on_stdout",
    "plan_options",
    "progress",
    "say_aside",
    "say_unconfirmed",
    "work_out",
    "work_out_apart",
]


@contextmanager
def only_ours_on_stdout() -> Iterator[None]:
    """Send to stderr whatever a library writes straight to the standard output while a plan is worked out."""
    sys.stdout.flush()
    try:
        kept = os.dup(1)
    except OSError:
        yield
        return
    try:
        with Path(os.devnull).open("w") as nowhere:
            os.dup2(nowhere.fileno(), 1)
            yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)


@contextmanager
def progress() -> Iterator[Callable[[str, int, int], None]]:
    """A bar on stderr, where somebody is looking; it goes when the work is done."""
    console = Console(stderr=True)
    bar = Progress(
        TextColumn("{task.description}"),
        BarColumn(bar_width=30),
        console=console,
        transient=True,
        disable=not console.is_terminal,
    )
    with bar:
        task = bar.add_task("reading", total=1)

        def tell(what: str, done: int, total: int) -> None:
            bar.update(task, description=what, completed=done, total=total)

        yield tell


def work_out(job: Job, book: Book, seconds: float, seed: int) -> Plan:
    """Plan a job, with a bar where somebody is looking.

    Raises
    ------
    InputError
        With every fault, also where only some openings are at fault: for what makes no sense with a part of the job.
    """
    result = _worked_out(job, book, seconds, seed)
    if result.aside:
        raise InputError(fault for one in result.aside for fault in one.faults)
    return result


def _worked_out(job: Job, book: Book, seconds: float, seed: int, aside: Sequence[Aside] = ()) -> Plan:
    with progress() as tell, only_ours_on_stdout():
        return make_plan(job, book, seconds=seconds, seed=seed, on_stage=tell, outlook=True, aside=aside)


def work_out_apart(path: Path, book: Book, seconds: float, seed: int) -> Plan:
    """Plan what is sound of a job in a file; the rest stands aside."""
    job, aside = read_job_apart(path, book)
    return _worked_out(job, book, seconds, seed, aside)


def say_aside(plan: Plan) -> None:
    """Say what stands aside, where somebody looks for faults, and leave with the code for it."""
    if not plan.aside:
        return
    for one in plan.aside:
        for fault in one.faults:
            click.echo(str(fault), err=True)
    names = ", ".join(one.name for one in plan.aside)
    stand = "stands" if len(plan.aside) == 1 else "stand"
    click.echo(f"{names} {stand} aside until that is put right; nothing above has any of it.", err=True)
    sys.exit(EXIT_ASIDE)


def say_unconfirmed(plan: Plan, paper_for: PaperFor, *, err: bool = False) -> None:
    """Say in a sentence what was just printed or written rests on that nobody has confirmed."""
    figures = not_confirmed_under(plan, paper_for)
    if not figures:
        return
    named = ", the firm's name among them" if any(figure.kind is FigureKind.FIRM for figure in figures) else ""
    click.echo(
        f"It rests on {figures_in_words(figures)} that nobody has confirmed{named}; papers that leave the firm say so. "
        "`rodbook confirm BOOK` lists them, and takes them as they are with --all.",
        err=err,
    )


def plan_options[F: Callable[..., object]](command: F) -> F:
    """The options of every command that plans one job."""
    for option in (
        click.option("--seed", default=0, show_default=True, help="Where the search for layouts starts."),
        click.option(
            "--seconds",
            type=click.FloatRange(min=0.1, max=600),
            default=10.0,
            show_default=True,
            help="About how long the layouts of one board are searched for; counted work ends it, not the clock.",
        ),
        click.option("--book", type=click.Path(path_type=Path), help="The firm's book; else book.toml beside the job."),
        click.argument("job", type=click.Path(path_type=Path)),
    ):
        command = option(command)
    return command
