"""What of a book a job's plan can rest on: everything else may change and leaves the plan as it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from rodbook.job import Book, Job

__all__ = ["NAMED", "rests_on"]

NAMED = ("boards", "sections", "hinges", "fittings", "build_ups")
"""Lists of a book of which a plan sees those alone that are named, by the job or by something that is itself seen."""

BESIDES = frozenset({"firm", "dates", "taxes", "workshops"})
"""What no plan rests on: papers, dates and the price are made from a plan and the book as it stands; workshops are put apart."""


def rests_on(job: Job, book: Book) -> dict[str, object]:
    """What of a book a job's parts, layouts and costs can rest on, as plain values.

    Parameters
    ----------
    job : Job
    book : Book

    Returns
    -------
    dict of str to object
        The book without its firm, dates and taxes; without boards, sections, hinges, fittings and build-ups that nothing names
        which the plan sees; and of workshops the one that is asked alone, without its address and its charges for such boards.
        A name that is met by chance, in a note say, counts as naming.
    """
    raw = book.model_dump(mode="json", exclude=set(BESIDES))
    names = set(_words(job.model_dump(mode="json", exclude={"price", "dates"})))
    lists: dict[str, list[dict[str, object]]] = {group: raw[group] for group in NAMED}
    seen: dict[str, list[dict[str, object]]] = {}
    while True:
        results = {group: [one for one in entries if one["name"] in names] for group, entries in lists.items()}
        if results == seen:
            break
        seen = results
        names.update(word for entries in results.values() for word in _words(entries))
    named = (shop for shop in book.workshops if job.job.workshop in (None, shop.name))
    workshop = next(named, None)
    asked = None if workshop is None else workshop.model_dump(mode="json", exclude={"contact"})
    for rates in asked["rates"] if asked else ():
        for charges in ("board_m2", "section_m"):
            rates[charges] = {name: charge for name, charge in rates[charges].items() if name in names}
    # An offcut that this job used up is taken to lie there unless something in the shop bears its label now.
    labels: list[str] = []
    for board in book.boards if job.offcuts else ():
        labels += [offcut.label for offcut in board.offcuts] + [piece.label for piece in board.wanted]
    return {name: _unmarked(value) for name, value in {**raw, **seen, "workshop": asked, "labels": labels}.items()}


def _unmarked(value: object) -> object:
    """Plain values without the marks of what nobody has confirmed: a figure is the same one before and after."""
    if isinstance(value, Mapping):
        return {name: _unmarked(inner) for name, inner in value.items() if name != "confirmed"}
    return [_unmarked(inner) for inner in value] if isinstance(value, list | tuple) else value


def _words(value: object) -> Iterator[str]:
    """Every text in plain values, names of fields left out."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for inner in value.values():
            yield from _words(inner)
    elif isinstance(value, Sequence):
        for inner in value:
            yield from _words(inner)
