"""What the pages of the firm's book share: the book as it stands, its chapters, and saving a change of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext_lazy as lazy

from rodbook.desk.models import Folder, Revision
from rodbook.desk.platform import store
from rodbook.desk.platform.book_edits import Raw
from rodbook.desk.platform.job_page import date_now, read_base
from rodbook.desk.platform.saving import saved_or_told
from rodbook.desk.platform.typed_numbers import in_book
from rodbook.errors import Fault, InputError, Place
from rodbook.job import Book
from rodbook.job.faults import loose_faults
from rodbook.papers.numbers import Numbers

__all__ = ["BookPage", "Change", "book_page", "date_now", "renamed", "save_book", "today", "typed_of"]

CHAPTERS = (
    ("book", lazy("firm")),
    ("book-rates", lazy("rates")),
    ("book-boards", lazy("boards")),
    ("book-prices", lazy("prices")),
    ("book-wanted", lazy("wanted pieces")),
    ("book-hinges", lazy("hinges")),
    ("book-workshops", lazy("workshops")),
    ("book-build-ups", lazy("build-ups")),
    ("book-confirm", lazy("not confirmed")),
    ("book-history", lazy("history")),
)
"""Pages of the book: the name of the address and the word on the rod."""

type Change = Callable[[Raw], tuple[Raw, Place]]
"""Puts what was typed into the book; gives back where it stands, for its faults."""


@dataclass(frozen=True)
class BookPage:
    """What every page of the book knows: the folder, the newest revision, and the book as it stands."""

    folder: Folder
    revision: Revision
    book: Book

    @property
    def write(self) -> Numbers:
        """How the book writes numbers."""
        return Numbers.of(self.book)

    def plain(
        self, typed: Mapping[str, str], *, money: Iterable[str] = (), numbers: Iterable[str] = ()
    ) -> dict[str, str]:
        """What was typed, its amounts and numbers read as the book writes them; see `in_book`."""
        return in_book(typed, self.book.currency, self.book.locale, money=money, numbers=numbers)

    def context(self, chapter: str, **more: object) -> dict[str, object]:
        """What the templates need."""
        base = self.revision.number
        return {"page": self, "book": self.book, "chapter": chapter, "chapters": CHAPTERS, "base": base, **more}


def book_page() -> BookPage:
    """Gather what every page of the book knows."""
    return BookPage(*store.book_now())


def today() -> str:
    """Today as a form writes it."""
    return date_now().isoformat()


def typed_of(request: HttpRequest, names: tuple[str, ...]) -> dict[str, str]:
    """What was typed in the fields of these names."""
    return {name: request.POST.get(name, "").strip() for name in names}


def save_book(
    request: HttpRequest, page: BookPage, change: Change
) -> tuple[HttpResponse | None, InputError | None, Place]:
    """Put a change into the book as it was when the form was opened, and save it.

    Returns
    -------
    tuple
        A page that says what happened, where there is one; the faults, where there are any; and where the change stands.
    """
    where = Place()

    def changed(began: Raw) -> Raw:
        nonlocal where
        raw, where = change(began)
        if loose := loose_faults(Book, raw):
            raise InputError(loose)
        return raw

    try:
        return saved_or_told(request, page.folder, read_base(request), changed, None), None, where
    except InputError as error:
        return None, error, where


def renamed(faults: Sequence[Fault], names: Mapping[Place, str]) -> list[Fault]:
    """Faults with the field of a form as their place, where `names` knows the place in the document."""
    by_path = {place.path: field for place, field in names.items()}
    return [fault.moved(by_path[fault.at.path]) if fault.at.path in by_path else fault for fault in faults]
