"""Jobs and books read from their TOML documents, or from plain values, with everything that is wrong in one go."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from pydantic import BaseModel, ValidationError

from rodbook.errors import Fault, InputError
from rodbook.job.aside import GROUPS, Aside, Group, asides_of, broken_runs, in_order, numbered_as
from rodbook.job.book import Book
from rodbook.job.checks import check_book, check_book_parts, check_job, check_job_parts
from rodbook.job.faults import MOST_FAULTS, faults_of, loose_faults
from rodbook.job.files.salvage import book_parts, job_parts, marks_in, name_in
from rodbook.job.files.store import FilePath, read_bytes, text_of
from rodbook.job.files.syntax import MOST_BYTES, read_values
from rodbook.job.files.versions import BOOK_CURRENT, BOOK_STEPS, CURRENT, JOB_STEPS, Raw, Step, upgrade
from rodbook.job.models import Job

__all__ = [
    "make_job",
    "parse_book",
    "parse_job",
    "parse_job_apart",
    "parse_job_bytes",
    "read_book",
    "read_job",
    "read_job_apart",
    "text_in",
]


def text_in(path: FilePath) -> str:
    """The text of a job's or a book's file.

    Raises
    ------
    StoreError
        If the file can't be read.
    InputError
        If it is no text, or larger than any real one.
    """
    return text_of(read_bytes(path, most=MOST_BYTES))


def read_job(path: FilePath, book: Book | None = None) -> Job:
    """Read a job from its file.

    Parameters
    ----------
    path : str or path
        Where it lies.
    book : Book, optional
        The firm's book; with it the names in the job are checked too.

    Raises
    ------
    StoreError
        If the file can't be read.
    InputError
        If anything in it is wrong; carries every fault, each with its place.
    """
    return parse_job(text_in(path), book)


def read_job_apart(path: FilePath, book: Book) -> tuple[Job, tuple[Aside, ...]]:
    """Read as much of a job as is sound from its file; see `parse_job_apart`.

    Raises
    ------
    StoreError
        If the file can't be read.
    InputError
        As in `parse_job_apart`.
    """
    return parse_job_apart(text_in(path), book)


def make_job(values: Mapping[str, object], book: Book | None = None) -> Job:
    """Make a job from plain values, checked as a file is.

    Parameters
    ----------
    values : mapping
        What the job's file would say: strings, numbers, dates, and lists and mappings of them. `format` may be left out.
    book : Book, optional
        The firm's book; with it the names in the job are checked too.

    Returns
    -------
    Job

    Raises
    ------
    InputError
        If anything in it is wrong; carries every fault, each with its place.

    Examples
    --------
    >>> import datetime
    >>> opening = {"mark": "C1", "leaves": 2, "widths": [842, 843, 843], "heights": (2030, 2030, 2030)}
    >>> header = {"name": "Cupboard", "date": datetime.date(2026, 11, 2), "build_up": "inset, painted"}
    >>> make_job({"job": header, "openings": [opening]})
    <Job 'Cupboard': 1 opening, 0 panels>
    """
    raw = {"format": CURRENT} | {name: _plain(value) for name, value in values.items()}
    return _limited(lambda: _job_in(raw, book))


def _plain(value: object) -> object:
    """A value as a file would give it: mappings as dicts, tuples as lists."""
    if isinstance(value, Mapping):
        return {name: _plain(inner) for name, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(inner) for inner in value]
    return value


def read_book(path: FilePath) -> Book:
    """Read a book from its file.

    Raises
    ------
    StoreError
        If the file can't be read.
    InputError
        If anything in it is wrong; carries every fault, each with its place.
    """
    return parse_book(text_in(path))


def parse_job(text: str, book: Book | None = None, where: str = "") -> Job:
    """Read a job from text.

    Parameters
    ----------
    text : str
        The document.
    book : Book, optional
        The firm's book; with it the names in the job are checked too.
    where : str
        What to put before every place, such as the name of the file.

    Raises
    ------
    InputError
        If anything in it is wrong; carries every fault, each with its place.
    """

    with _within(where):
        return _limited(lambda: _job_in(read_values(text), book))


def parse_job_apart(text: str, book: Book) -> tuple[Job, tuple[Aside, ...]]:
    """Read as much of a job as is sound: an opening, a panel or a run at fault stands aside, and the job is without it.

    Parameters
    ----------
    text : str
        The document.
    book : Book

    Returns
    -------
    tuple
        The job, and what stands aside, numbered as in the document.

    Raises
    ------
    InputError
        With every fault, if one is of the whole job or if nothing is left.
    """
    raw, gone = read_values(text), tuple[Aside, ...]()
    while True:
        try:
            return _job_in(raw, book), gone
        except InputError as error:
            raw, new = _raw_without(raw, error)
            gone = in_order((*gone, *numbered_as(new, gone)))
            if not raw.get("openings") and not raw.get("panels"):
                faults = [fault for one in gone for fault in one.faults]
                raise InputError(_not_too_many(faults)) from None


def _raw_without(raw: Raw, error: InputError) -> tuple[Raw, tuple[Aside, ...]]:
    """A document without the entries at fault, and those; a run goes with its openings."""
    lists = {group: raw[group] if isinstance(raw.get(group), list) else [] for group in GROUPS}
    names: dict[Group, list[str]] = {
        group: [name_in(entry, "name" if group == "runs" else "mark") for entry in lists[group]] for group in GROUPS
    }
    aside = asides_of(error.faults, names)
    aside = (
        *aside,
        *broken_runs(aside, [(name, marks_in(run)) for name, run in zip(names["runs"], lists["runs"], strict=True)]),
    )
    gone = {(one.group, one.number) for one in aside}
    left: Raw = {g: [e for n, e in enumerate(lists[g], 1) if (g, n) not in gone] for g in GROUPS if g in raw}
    return {**raw, **left}, aside


def _job_in(raw: Raw, book: Book | None) -> Job:
    def sound(job: Job) -> list[Fault]:
        return check_job(job, book)

    def unsound(raw: Raw) -> list[Fault]:
        return check_job_parts(job_parts(raw), book)

    return _parsed(Job, raw, sound=sound, unsound=unsound, steps=JOB_STEPS, current=CURRENT)


def parse_book(text: str, where: str = "") -> Book:
    """Read a book from text.

    Parameters
    ----------
    text : str
        The document.
    where : str
        What to put before every place, such as the name of the file.

    Raises
    ------
    InputError
        If anything in it is wrong; carries every fault, each with its place.
    """

    def unsound(raw: Raw) -> list[Fault]:
        return check_book_parts(book_parts(raw))

    with _within(where):
        return _limited(
            lambda: _parsed(
                Book, read_values(text), sound=check_book, unsound=unsound, steps=BOOK_STEPS, current=BOOK_CURRENT
            )
        )


def parse_job_bytes(data: bytes, book: Book | None = None, where: str = "", *, western: bool = False) -> Job:
    """Read a job from the bytes of its file, as `parse_job` reads it from text and `text_of` the text from bytes.

    Raises
    ------
    InputError
        If they are no text, or anything in it is wrong; carries every fault, each with its place.
    """
    with _within(where):
        return parse_job(text_of(data, western=western), book)


@contextlib.contextmanager
def _within(where: str) -> Iterator[None]:
    """Put the name of the document before every place."""
    try:
        yield
    except InputError as error:
        if not where:
            raise
        raise InputError(fault.moved(fault.at.within(where)) for fault in error.faults) from None


def _parsed[T: (Job, Book)](
    model: type[T],
    raw: Raw,
    *,
    sound: Callable[[T], list[Fault]],
    unsound: Callable[[Raw], list[Fault]],
    steps: Mapping[int, Step],
    current: int,
) -> T:
    _refuse_other_kind(model, raw)
    raw, faults = _upgraded(raw, steps, current)
    loose = loose_faults(model, raw)
    try:
        document = model.model_validate(raw)
    except ValidationError as error:
        faults += _unless_at(loose, faults_of(error, model, raw)) + loose
        faults += _unless_at(faults, unsound(raw))
        raise InputError(_in_order(faults, raw)) from None
    faults += loose + sound(document)
    if faults:
        raise InputError(_in_order(faults, raw))
    return document


def _limited[T](read: Callable[[], T]) -> T:
    """What is read, or its faults where they are not too many."""
    try:
        return read()
    except InputError as error:
        raise InputError(_not_too_many(error.faults)) from None


def _not_too_many(faults: Sequence[Fault]) -> list[Fault]:
    if len(faults) <= MOST_FAULTS:
        return list(faults)
    more = Fault("file", "file.more_faults", faults=len(faults) - MOST_FAULTS)
    return [*faults[:MOST_FAULTS], more]


def _unless_at(taken: list[Fault], faults: list[Fault]) -> list[Fault]:
    """Those faults whose places are not taken by others: what follows from a fault is not told as another."""
    places = {fault.at for fault in taken}
    return [fault for fault in faults if fault.at not in places]


def _refuse_other_kind(model: type[BaseModel], raw: Raw) -> None:
    looks_like_book = "job" not in raw and ("boards" in raw or "build_ups" in raw)
    if model is Job and looks_like_book:
        raise InputError.at("file", "file.book_for_job")
    if model is Book and "job" in raw and "boards" not in raw:
        raise InputError.at("file", "file.job_for_book")


def _upgraded(raw: Raw, steps: Mapping[int, Step], current: int) -> tuple[Raw, list[Fault]]:
    """The document in the current format; one that does not say its format is read as if it were current."""
    try:
        return upgrade(raw, steps=steps, current=current), []
    except InputError as error:
        known = raw.get("format")
        if isinstance(known, int) and not isinstance(known, bool):
            raise
        return {"format": current, **{k: v for k, v in raw.items() if k != "format"}}, list(error.faults)


# --- the faults in the order of the document ------------------------------------------------------------------------


def _in_order(faults: Iterable[Fault], raw: Raw) -> list[Fault]:
    """Each fault once, where its place stands in the document; places that are missing go last."""
    return sorted(dict.fromkeys(faults), key=lambda fault: _position(fault.at.path, raw))


def _position(path: Sequence[str | int], raw: Raw) -> tuple[int, int, int]:
    match path:
        case (str(top), int(number), *rest):
            value = raw.get(top)
            entry = value[number] if isinstance(value, list) and number < len(value) else value
            return _rank(top, raw), number + 1, _first_name(rest, entry)
        case (str(top), *rest):
            return _rank(top, raw), 0, _first_name(rest, raw.get(top))
    return len(raw), 0, 0


def _first_name(rest: Sequence[str | int], entry: object) -> int:
    return _rank(rest[0], entry) if rest and isinstance(rest[0], str) else -1


def _rank(name: str, group: object) -> int:
    names = list(group) if isinstance(group, dict) else []
    return names.index(name) if name in names else len(names)
