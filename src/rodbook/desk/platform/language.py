"""Which language pages are in: what the desk is set to, else that of the firm's book, else English."""

from __future__ import annotations

from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.utils import translation
from django.utils.functional import SimpleLazyObject

from rodbook.desk.models import Kind, Revision
from rodbook.desk.platform import store
from rodbook.papers.numbers import Numbers

__all__ = ["Language", "book_numbers", "chosen"]


def chosen() -> str:
    """Language of the pages: one that there is a catalogue of.

    The book's `locale` says how numbers and money are written, as in ``de_AT``; its language is taken for the words too.
    """
    wanted = settings.DESK_LANGUAGE
    if not wanted and len(settings.LANGUAGES) > 1:
        newest = Revision.objects.filter(folder__kind=Kind.BOOK).order_by("-number")
        wanted = newest.values_list("document__locale", flat=True).first() or ""
    try:
        return str(translation.get_supported_language_variant(wanted.replace("_", "-").lower()))
    except LookupError:
        return str(settings.LANGUAGE_CODE)


def book_numbers(_request: HttpRequest) -> dict[str, object]:
    """How the firm's book writes numbers, for every template; looked up where one asks for it."""

    def found() -> Numbers:
        try:
            return Numbers.of(store.book_now()[2]) if store.has_book() else Numbers("en", "EUR")
        except store.Unreadable:  # the page that says so has numbers too
            return Numbers("en", "EUR")

    return {"written": SimpleLazyObject(found)}


class Language:
    """Puts every page into the desk's language."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        """Take what comes after."""
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass the request on with the language set, and say with the answer which it is."""
        with translation.override(language := chosen()):
            response = self.get_response(request)
        response["Content-Language"] = language
        return response
