"""The command line: plan a job, write its papers, check a file, begin a new one."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import date, datetime
from pathlib import Path
from typing import NoReturn

import click
from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn

from rodbook import __version__
from rodbook.cli.ahead import print_ahead
from rodbook.cli.console import paper_wide
from rodbook.cli.price import print_price
from rodbook.cli.terminal import print_summary, put_paper
from rodbook.errors import Fault, InputError, RodbookError, StoreError
from rodbook.job import Book, Job
from rodbook.job.aside import Aside
from rodbook.job.confirming import FigureKind
from rodbook.job.files import (
    book_schema,
    job_schema,
    new_book_text,
    new_job,
    parse_book,
    parse_job,
    read_book,
    read_job,
    read_job_apart,
    read_openings,
    sample_book_text,
    sample_names,
    sample_text,
    text_in,
)
from rodbook.job.proposals import opening_with_leaves
from rodbook.job.units import parse_length
from rodbook.papers.content.unconfirmed import figures_in_words
from rodbook.plan import LESS_MM, MORE_MM, Plan, frame_ahead, make_plan, plan_json, plan_parts, price_job
from rodbook.plan.analyses.unconfirmed import PaperFor, not_confirmed_under

__all__ = ["book_for", "main", "read_jobs", "rodbook", "say_unconfirmed", "work_out"]

EXIT_FAILED, EXIT_INPUT, EXIT_ASIDE = 1, 2, 3
"""Broke off; what was given is wrong, so nothing was done; done, but without what stands aside."""


@contextmanager
def _only_ours_on_stdout() -> Iterator[None]:
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
def _progress() -> Iterator[Callable[[str, int, int], None]]:
    """A bar on stderr, where somebody is looking; it goes when the work is done."""
    console = Console(stderr=True)
    bar = Progress(
        TextColumn("{task.description}"), BarColumn(bar_width=30), console=console, transient=True,
        disable=not console.is_terminal,
    )  # fmt: skip
    with bar:
        task = bar.add_task("reading", total=1)

        def tell(what: str, done: int, total: int) -> None:
            bar.update(task, description=what, completed=done, total=total)

        yield tell


def book_for(job_path: Path, book_path: Path | None) -> tuple[Book, str]:
    """The book that was named, else `book.toml` beside the job, else the sample book."""
    if book_path is not None:
        return read_book(book_path), str(book_path)
    beside = job_path.parent / "book.toml"
    if beside.exists():
        return read_book(beside), str(beside)
    return parse_book(sample_book_text()), "the sample book (invented prices; put your own book.toml beside the job)"


def read_jobs(paths: Sequence[Path], book: Book) -> list[Job]:
    """Several job files; each fault says in which of them it stands.

    Raises
    ------
    InputError
        With the faults of all files.
    """
    found: list[Job] = []
    faults: list[Fault] = []
    for path in paths:
        try:
            found.append(read_job(path, book))
        except InputError as error:
            faults += [
                Fault(f"{path}, {fault.where}" if fault.where else str(path), fault.what) for fault in error.faults
            ]
    if faults:
        raise InputError(faults)
    return found


def work_out(job: Job, book: Book, seconds: float, seed: int) -> Plan:
    """Plan a job, with a bar where somebody is looking.

    Raises
    ------
    InputError
        With every fault, also where only some openings are at fault: for what makes no sense with a part of the job.
    """
    found = _worked_out(job, book, seconds, seed)
    if found.aside:
        raise InputError(fault for one in found.aside for fault in one.faults)
    return found


def _worked_out(job: Job, book: Book, seconds: float, seed: int, aside: Sequence[Aside] = ()) -> Plan:
    with _progress() as tell, _only_ours_on_stdout():
        return make_plan(job, book, seconds=seconds, seed=seed, on_stage=tell, outlook=True, aside=aside)


def _work_out_apart(path: Path, book: Book, seconds: float, seed: int) -> Plan:
    """Plan what is sound of a job in a file; the rest stands aside."""
    job, aside = read_job_apart(path, book)
    return _worked_out(job, book, seconds, seed, aside)


def _say_aside(plan: Plan) -> None:
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


def _options[F: Callable[..., object]](command: F) -> F:
    for option in (
        click.option("--seed", default=0, show_default=True, help="Where the search for layouts starts."),
        click.option(
            "--seconds", type=click.FloatRange(min=0.1, max=600), default=10.0, show_default=True,
            help="About how long the layouts of one board are searched for; counted work ends it, not the clock.",
        ),
        click.option("--book", type=click.Path(path_type=Path), help="The firm's book; else book.toml beside the job."),
        click.argument("job", type=click.Path(path_type=Path)),
    ):  # fmt: skip
        command = option(command)
    return command


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, message="Rodbook %(version)s")
def rodbook() -> None:
    """Set out once: openings become sizes, parts, borings, layouts, costs and papers.

    A job is a text file that you can read and write; the book is another, with your boards, rates and build-ups. Begin
    with `rodbook new`, look with `rodbook check`, then `rodbook plan` and `rodbook papers`.
    """


@rodbook.command()
@_options
@click.option("--json", "as_json", is_flag=True, help="Print the whole plan as JSON, each size with its working.")
@click.option("--working", is_flag=True, help="Print how each part's size came about.")
def plan(job: Path, book: Path | None, seconds: float, seed: int, *, as_json: bool, working: bool) -> None:
    """Work a job out and print its summary.

    Sizes, parts, boards, and what to make or to buy. Nothing is written. An opening, panel or run that can't be built
    stands aside with its sentence and the others go on; the code that comes back is then 3.
    """
    the_book, whose = book_for(job, book)
    the_plan = _work_out_apart(job, the_book, seconds, seed)
    if as_json:
        click.echo(json.dumps(plan_json(the_plan), indent=1, ensure_ascii=False))
        _say_aside(the_plan)
        return
    print_summary(the_plan, paper_wide(the_plan.book), working=working)
    say_unconfirmed(the_plan, PaperFor.CLIENT)
    click.echo(f"Book: {whose}")
    _say_aside(the_plan)


@rodbook.command()
@_options
@click.option(
    "--out", type=click.Path(path_type=Path, file_okay=False), default=Path("papers"), show_default=True,
    help="Folder to write to; made where there is none.",
)  # fmt: skip
def papers(job: Path, book: Path | None, seconds: float, seed: int, out: Path) -> None:
    """Write the papers of a job: survey sheets, openings, packers, parts, order, layouts, summary, lists for a spreadsheet.

    An opening, panel or run that can't be built stands aside, and each paper says what is not in it; the code that comes
    back is then 3.
    """
    the_book, whose = book_for(job, book)
    the_plan = _work_out_apart(job, the_book, seconds, seed)
    _write(the_plan, out)
    say_unconfirmed(the_plan, PaperFor.CLIENT)
    click.echo(f"Book: {whose}")
    _say_aside(the_plan)


def _write(the_plan: Plan, out: Path) -> None:
    from rodbook.papers import write_papers

    with _progress() as tell:
        written = write_papers(the_plan, out, on_progress=tell)
    click.echo(f"Papers in {out}:")
    for path in written:
        click.echo(f"  {path.name}")


@rodbook.command()
@_options
@click.option("--paper", type=click.Path(path_type=Path, dir_okay=False), help="Write the client's price as a PDF.")
def price(job: Path, book: Path | None, seconds: float, seed: int, paper: Path | None) -> None:
    """Make a job's price and print how it comes about; the client's paper shows none of that.

    An opening or panel that can't be built stands aside, and the price and the paper say that it is not in it; the code
    that comes back is then 3.
    """
    the_book, whose = book_for(job, book)
    the_plan = _work_out_apart(job, the_book, seconds, seed)
    found = price_job(the_plan)
    print_price(the_plan, found, paper_wide(the_book))
    say_unconfirmed(the_plan, PaperFor.CLIENT)
    if paper is not None:
        from rodbook.papers import price_pdf

        put_paper(paper, price_pdf(the_plan, found))
    click.echo(f"Book: {whose}")
    _say_aside(the_plan)


def _length(option: str, text: str) -> float:
    """A length from an option, with a decimal comma or point."""
    try:
        return parse_length(text)
    except ValueError as error:
        raise InputError.at(option, str(error)) from None


@rodbook.command("frame-ahead")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--less", default=f"{LESS_MM:g}", show_default=True, help="A leaf may be so much smaller, mm.")
@click.option("--more", default=f"{MORE_MM:g}", show_default=True, help="A leaf may be so much larger, mm.")
@click.option("--book", type=click.Path(path_type=Path), help="The firm's book; else book.toml beside the job.")
def ahead(job: Path, less: str, more: str, book: Path | None) -> None:
    """Look for leaves near the wanted ones that waste less board, for openings still to be framed."""
    the_book, whose = book_for(job, book)
    the_job = read_job(job, the_book)
    if aside := plan_parts(the_job, the_book).aside:
        raise InputError(fault for one in aside for fault in one.faults)
    with _progress() as tell, _only_ours_on_stdout():
        found = frame_ahead(
            the_job,
            the_book,
            less=_length("--less", less),
            more=_length("--more", more),
            on_try=lambda done, of: tell("leaves tried", done, of),
        )
    print_ahead(found, the_book, paper_wide(the_book))
    click.echo(f"Book: {whose}")


@rodbook.command()
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--book", type=click.Path(path_type=Path), help="The book that jobs are checked against.")
def check(files: tuple[Path, ...], book: Path | None) -> None:
    """Check job files, books and lists of openings; every fault is named with its place.

    A job is worked out as far as its parts, so that what is called sound here is not refused by `rodbook plan`.
    """
    faults = 0
    for path in files:
        try:
            click.echo(f"{path}: {_check_one(path, book)}")
        except InputError as error:
            faults += len(error.faults)
            for fault in error.faults:
                click.echo(f"{path}: {fault}", err=True)
    if faults:
        click.echo(f"{faults} {'fault' if faults == 1 else 'faults'} to put right.", err=True)
        sys.exit(EXIT_INPUT)


def _check_one(path: Path, book: Path | None) -> str:
    if path.suffix.lower() in (".csv", ".tsv", ".xlsx", ".xlsm"):
        return f"{_count(len(read_openings(path)), 'opening')}, sound."
    if _is_book(path):
        the_book = read_book(path)
        return (
            f"a book: {_count(len(the_book.build_ups), 'build-up')}, {_count(len(the_book.boards), 'board')}, "
            f"{_count(len(the_book.rates), 'rate')}, sound."
        )
    the_book, _ = book_for(path, book)
    job = read_job(path, the_book)
    found = plan_parts(job, the_book)
    faults = [fault for one in found.aside for fault in one.faults]
    faults += [Fault(note.where, note.sentence.removesuffix(".")) for note in found.not_worked_out]
    if faults:
        raise InputError(faults)
    return f"a job: {_count(len(job.openings), 'opening')}, {_count(len(job.panels), 'panel')}, sound."


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def _is_book(path: Path) -> bool:
    try:
        return "[firm]" in text_in(path)
    except RodbookError:  # whoever reads it says what is wrong
        return False


@rodbook.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--sample", metavar="NAME", help="Begin with a sample job instead of an empty one.")
@click.option("--name", default="New job", help="What the job is called.")
@click.option("--openings", type=click.Path(path_type=Path), help="CSV or XLSX list of openings to begin with.")
@click.option(
    "--with-book",
    is_flag=True,
    help="Write a book beside it too: the sample's with a sample job, else one for your firm, with an empty shop.",
)
@click.option(
    "--firm", help="The firm's name, as on every paper; asked for where a book is written and it is left out."
)
@click.option("--person", default="", help="Who works; the firm's name where left out.")
@click.option("--locale", default="", help="How numbers and money are written, such as en or de_AT.")
@click.option("--currency", default="", help="Of every price, three letters.")
@click.option("--holidays", default="", help="Whose public holidays are kept, such as AT or DE-BY.")
def new(
    file: Path, sample: str | None, name: str, openings: Path | None, firm: str | None, person: str, locale: str,
    currency: str, holidays: str, *, with_book: bool,
) -> None:  # fmt: skip
    """Begin a new job file, with its figures explained."""
    if sample is not None and openings is not None:
        raise InputError.at("--sample", "a job begins with a sample or with a list of openings, not with both")
    targets = {file: _first_text(sample, name, openings)}
    if with_book and sample is not None:
        targets[file.parent / "book.toml"] = sample_book_text()
    elif with_book:
        targets[file.parent / "book.toml"] = new_book_text(
            firm if firm is not None else click.prompt("The firm's name, as on every paper"),
            person=person, locale=locale, currency=currency.upper(), holidays=holidays,
        )  # fmt: skip
    standing = [path for path in targets if path.exists()]
    if standing:
        raise StoreError(f"{standing[0]} is there already; choose another name, nothing was written.")
    for path, text in targets.items():
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            with path.open("x", encoding="utf-8") as out:
                out.write(text)
        except OSError as error:
            raise StoreError(f"{path} can't be written: {error.strerror or error}.") from None
        click.echo(f"Wrote {path}")


def _today() -> date:
    return datetime.now().astimezone().date()


def _first_text(sample: str | None, name: str, openings: Path | None) -> str:
    if sample is None:
        first = parse_book(sample_book_text()).build_ups[0].name
        found = tuple(map(opening_with_leaves, read_openings(openings))) if openings else ()
        return new_job(name, date=_today(), build_up=first, openings=found)
    if sample not in sample_names():
        raise InputError.at("--sample", f"there is no sample {sample!r}; there are {', '.join(sample_names())}")
    return sample_text(sample)


@rodbook.command()
@click.argument("what", type=click.Choice(["job", "book"]))
def schema(what: str) -> None:
    """Print the JSON Schema of a job or a book."""
    click.echo(json.dumps(job_schema() if what == "job" else book_schema(), indent=2, ensure_ascii=False))


@rodbook.command()
@click.option(
    "--out", type=click.Path(path_type=Path, file_okay=False), default=Path("out/demo"), show_default=True,
    help="Folder to write the papers to.",
)  # fmt: skip
@click.option("--sample", default="converted-store", show_default=True, help="Which sample job.")
def demo(out: Path, sample: str) -> None:
    """Plan a sample job, print its summary and write its papers."""
    if sample not in sample_names():
        raise InputError.at("--sample", f"there is no sample {sample!r}; there are {', '.join(sample_names())}")
    book = parse_book(sample_book_text())
    the_plan = work_out(parse_job(sample_text(sample), book), book, 10.0, 0)
    print_summary(the_plan, paper_wide(the_plan.book), working=False)
    _write(the_plan, out)


@rodbook.command()
@click.option(
    "--home", type=click.Path(path_type=Path, file_okay=False), default=None,
    help="Folder for the desk's database and photos; ~/.rodbook where left out.",
)  # fmt: skip
@click.option("--port", type=click.IntRange(0, 65535), default=8765, show_default=True, help="0 takes any free one.")
@click.option("--share", is_flag=True, help="Let people with accounts in over the firm's own network.")
@click.option(
    "--host",
    default="127.0.0.1",
    show_default=True,
    help="With --share: address of this machine to listen on; 0.0.0.0 for all of them.",
)
@click.option(
    "--name", "names", multiple=True,
    help="With --share: name by which people ask for the desk, once for each; by itself the address and `hostname`.",
)  # fmt: skip
@click.option("--tls", is_flag=True, help="With --share: something in front of the desk speaks TLS.")
@click.option(
    "--proxy", default="127.0.0.1", show_default=True, help="With --tls: address of what stands in front of the desk."
)
def desk(
    home: Path | None, port: int, host: str, names: tuple[str, ...], proxy: str, *, share: bool, tls: bool
) -> None:
    """Open the desk: the job in a browser on this machine, by a link that works once."""
    if proxy != "127.0.0.1" and not tls:
        raise InputError.at("--proxy", "there is no proxy in front of the desk unless --tls is given")
    if not share and (tls or names or host != "127.0.0.1"):
        option = "--tls" if tls else "--name" if names else "--host"
        raise InputError.at(option, "the desk listens on this machine alone unless --share is given")
    from rodbook.desk.serve import serve

    where = (home or Path.home() / ".rodbook").resolve()
    serve(where, port=port, host=host, names=names, share=share, tls=tls, proxy=proxy, say=click.echo)


def _fail(error: RodbookError) -> NoReturn:
    lines = [str(fault) for fault in error.faults] if isinstance(error, InputError) else [str(error)]
    for line in lines:
        click.echo(line, err=True)
    if len(lines) > 1:
        click.echo(f"{len(lines)} faults to put right; nothing was written.", err=True)
    sys.exit(EXIT_INPUT if isinstance(error, InputError) else EXIT_FAILED)


def main() -> None:
    """Run the command line; errors become one sentence each and an exit code."""
    try:
        rodbook()
    except RodbookError as error:
        _fail(error)
    except Exception as error:
        if os.environ.get("RODBOOK_TRACEBACK"):
            raise
        click.echo(f"Rodbook met something that it did not expect ({type(error).__name__}: {error}).", err=True)
        click.echo("Nothing more was written. Please report it with the file that you gave it.", err=True)
        sys.exit(EXIT_FAILED)
