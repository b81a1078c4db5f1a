"""A new firm: its own name is asked for before anything else, or the sample's firm is looked at."""

from __future__ import annotations

from collections.abc import Callable

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from rodbook.desk.platform import store
from rodbook.desk.platform.access import OPEN_PAGES, OWN_PAGES, is_owner, needs_owner, refuse, who
from rodbook.desk.platform.book_page import renamed, typed_of
from rodbook.desk.platform.faults import Form
from rodbook.errors import InputError, Place
from rodbook.job.files import new_book_text, parse_book

__all__ = ["AskFirst", "begin"]

FIELDS = ("name", "contact", "person", "currency", "locale", "holidays")
_PLACES = {
    Place(("firm", "name")): "name",
    Place(("firm", "contact")): "contact",
    Place(("dates", "crew", 0, "name")): "person",
    Place(("dates", "holidays")): "holidays",
}
_WITHOUT_BOOK = {
    "begin",
    "job-sample",
    "outbox",
    "people",
    "people-add",
    "people-role",
    "people-active",
    "people-password",
    "people-second-off",
    "own-second",
    "deeds",
    "backups",
    "backup-make",
    "backup-schedule",
}
_BEFORE = OPEN_PAGES | OWN_PAGES | _WITHOUT_BOOK
"""Pages that may be asked for before there is a book."""


class AskFirst:
    """Leads to the page that asks for the firm's name while the desk has no book."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        """Take what comes after."""
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass the request on."""
        return self.get_response(request)

    def process_view(self, request: HttpRequest, _view: object, _args: object, _kwargs: object) -> HttpResponse | None:
        """Ask for the name before any page that works with the book."""
        match = request.resolver_match
        if match is None or match.url_name in _BEFORE or store.has_book():
            return None
        if not is_owner(request):
            return refuse(request, _("The firm's book is not begun yet; the owner gives it the firm's name first."))
        return redirect("begin")


@require_http_methods(["GET", "HEAD", "POST"])
@needs_owner
def begin(request: HttpRequest) -> HttpResponse:
    """Ask for the firm's name and begin its book: an empty shop, nothing wanted, one person; or begin with the sample."""
    if store.has_book():
        return redirect("jobs")
    if request.method != "POST":
        return render(request, "desk/begin.html", {"form": Form({"currency": "EUR", "locale": "en"})})
    if "sample" in request.POST:
        store.the_book_folder()
        messages.info(request, _("This is the sample's firm: its name, people, shop and prices are invented."))
        return redirect("jobs")
    typed = typed_of(request, FIELDS)
    typed["currency"] = typed["currency"].upper()
    try:
        if not typed["name"]:
            raise InputError.at(("firm", "name"), "form.no_firm_name")
        text = new_book_text(
            typed["name"],
            contact=typed["contact"],
            person=typed["person"],
            currency=typed["currency"],
            locale=typed["locale"],
            holidays=typed["holidays"].upper(),
        )
    except InputError as error:
        faults = renamed(error.faults, _PLACES)
        return render(request, "desk/begin.html", {"form": Form(typed, faults)}, status=422)
    store.begin_book(parse_book(text), who=who(request))
    return redirect("jobs")
