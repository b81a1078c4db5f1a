"""Who gets in. Alone on one machine: whoever opened the one-time link. Shared: people with accounts.

Every page but the way in, static files and the health answer asks for it: the rule is here, not in the views, so that no page
can forget it.
"""

from __future__ import annotations

import hmac
import os
import secrets
import time
from collections.abc import Callable
from functools import wraps
from pathlib import Path

from django.conf import settings
from django.contrib.auth import logout
from django.contrib.auth.models import AbstractUser
from django.contrib.auth.signals import user_logged_in
from django.dispatch import receiver
from django.http import HttpRequest, HttpResponse, HttpResponseForbidden
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.crypto import salted_hmac
from django.utils.translation import gettext as _

from rodbook.desk.models import Person, Role
from rodbook.desk.platform.phone_words import words
from rodbook.desk.platform.roles import may_see

__all__ = [
    "BEGAN",
    "Gate",
    "Limit",
    "can_change",
    "is_owner",
    "keep_mark",
    "needs_owner",
    "new_key",
    "owns_key",
    "role_of",
    "sees_prices",
    "who",
    "who_is_asking",
]

OPEN_PAGES = frozenset({"enter", "login", "login-code", "health", "worker", "manifest", "no-signal"})
"""Names of the pages that a stranger may ask for."""

OWN_PAGES = frozenset({"logout", "own-password", "own-second"})
"""Names of the pages where even a reader changes something: what is theirs alone."""

READ_ONLY = frozenset({"GET", "HEAD", "OPTIONS"})

BEGAN = "began"
"""Where a session keeps when somebody came in, in seconds since 1970."""


def _key_file() -> Path:
    return Path(settings.HOME) / "entry-key"


def new_key() -> str:
    """Make a one-time key for the link that is printed; it replaces any earlier one."""
    key = secrets.token_urlsafe(24)
    path = _key_file()
    path.unlink(missing_ok=True)
    with os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="ascii") as out:
        out.write(key)
    return key


def owns_key(key: str) -> bool:
    """Whether this is the one-time key; if so it is used up, by one of all that bring it at once."""
    try:
        kept = _key_file().read_text("ascii")
    except OSError:
        return False
    if not kept or not hmac.compare_digest(kept.encode(), key.encode("utf-8", "replace")):
        return False
    try:
        _key_file().unlink()  # only one can take it away
    except FileNotFoundError:
        return False
    return True


def role_of(request: HttpRequest) -> str:
    """Role of whoever asks: alone on a machine one is the owner."""
    if not settings.SHARED:
        return Role.OWNER
    person = _person(request)
    return person.role if person else Role.READER


def _person(request: HttpRequest) -> Person | None:
    """Whoever asks; looked up once for a request and account."""
    if not request.user.is_authenticated:
        return None
    known: tuple[int, Person | None] | None = getattr(request, "rodbook_person", None)
    if known is None or known[0] != request.user.pk:
        known = (request.user.pk, Person.objects.filter(user=request.user).first())
        request.rodbook_person = known  # type: ignore[attr-defined]
    return known[1]


def who(request: HttpRequest) -> str:
    """Name for the revisions."""
    if settings.SHARED and isinstance(request.user, AbstractUser):
        return request.user.get_full_name() or request.user.get_username()
    return "this desk"


def can_change(request: HttpRequest) -> bool:
    """Owners and makers change jobs."""
    return role_of(request) in (Role.OWNER, Role.MAKER)


PRICES = ("job.price", "plan.money", "plan.materials.cost", "book.boards.sheets.prices", "actuals.invoices", "quotes")
"""What pages mean by prices, by the paths of the table of roles."""


def sees_prices(request: HttpRequest) -> bool:
    """Whether whoever asks may see prices, by the table of roles."""
    return may_see(role_of(request), *PRICES)


def is_owner(request: HttpRequest) -> bool:
    """Whether the book, people and prices are theirs."""
    return role_of(request) == Role.OWNER


def needs_owner[**P](view: Callable[P, HttpResponse]) -> Callable[P, HttpResponse]:
    """Let only owners into a view."""

    @wraps(view)
    def guarded(*args: P.args, **kwargs: P.kwargs) -> HttpResponse:
        request = args[0]
        assert isinstance(request, HttpRequest)
        if not is_owner(request):
            return refuse(request, _("Only the owner may do this: it shows or changes prices, people or the book."))
        return view(*args, **kwargs)

    return guarded


def refuse(request: HttpRequest, sentence: str) -> HttpResponse:
    """Say in a sentence why not."""
    return render(request, "desk/refused.html", {"sentence": sentence}, status=403)


class Limit:
    """Answers with a sentence where a page sends more than anything here may have, before any of it is read."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        """Take what comes after."""
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass the request on where it is small enough."""
        answer = request.META.get("CONTENT_LENGTH") or "0"
        if not answer.isdecimal() or int(answer) <= settings.MOST_SENT:
            return self.get_response(request)
        from rodbook.desk.platform.errors import bare

        most = settings.MOST_SENT // (1024 * 1024)
        sentence = _(
            "That is larger than %(most)s MB, so nothing of it was kept. Go back and choose a smaller file: "
            "a list or a picture may have 10 MB."
        )
        return bare(_("Too large"), sentence % {"most": most}, 413)


class Gate:
    """Lets nobody past who has not come in."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        """Take what comes after."""
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass the request on, and say with the answer under which mark a phone may keep it."""
        response = self.get_response(request)
        response["X-Rodbook-Keep"] = keep_mark(request)
        if "no-store" in response.get("Cache-Control", ""):
            response["X-Rodbook-Barred"] = "prices"  # a view that says so itself is not for a phone to keep either
        elif not response.has_header("Cache-Control"):
            response["Cache-Control"] = "no-store" if sees_prices(request) else "private, no-cache"
        return response

    def process_view(self, request: HttpRequest, _view: object, _args: object, _kwargs: object) -> HttpResponse | None:
        """Stop strangers before any view runs, and readers before any change."""
        match = request.resolver_match
        if match is not None and match.url_name in OPEN_PAGES:
            return None
        if _ran_out(request):
            logout(request)
        if settings.SHARED:
            if not request.user.is_authenticated:
                if request.headers.get("HX-Request"):
                    return HttpResponseForbidden("Your time here ran out: open the page again and sign in.")
                return redirect(f"{settings.LOGIN_URL}")
            if (match is None or match.url_name not in OWN_PAGES) and (person := _person(request)) and person.given:
                return _to_own_password(request)
        elif not request.session.get("came_in"):
            return render(request, "desk/stranger.html", status=403)
        if (
            request.method not in READ_ONLY
            and not can_change(request)
            and (match is None or match.url_name not in OWN_PAGES)
        ):
            return refuse(request, _("You may look at everything here but prices, and change nothing. Ask the owner."))
        return None


def _to_own_password(request: HttpRequest) -> HttpResponse:
    """Lead whoever has a password that somebody else thought of to where they choose their own."""
    if request.headers.get("HX-Request"):
        reply = HttpResponse(status=204)
        reply["HX-Redirect"] = reverse("own-password")
        return reply
    return redirect("own-password")


@receiver(user_logged_in)
def _note_begin(request: HttpRequest, **_: object) -> None:
    """Note when somebody signed in."""
    request.session[BEGAN] = int(time.time())


def _ran_out(request: HttpRequest) -> bool:
    """Whether a session is older than any may be, however much it was used; one that does not say is taken to be."""
    if not (request.user.is_authenticated or request.session.get("came_in")):
        return False
    began = request.session.get(BEGAN)
    return not isinstance(began, int) or not 0 <= time.time() - began <= settings.SESSION_LONGEST


def keep_mark(request: HttpRequest) -> str:
    """Mark under which a phone keeps pages; another person, session or role has another, and then they are thrown away."""
    inside = request.user.is_authenticated if settings.SHARED else request.session.get("came_in")
    if not inside:
        return "none"
    text = f"{request.user.pk}:{role_of(request)}:{request.session.session_key}"
    return salted_hmac("rodbook.kept-pages", text, algorithm="sha256").hexdigest()[:32]


def who_is_asking(request: HttpRequest) -> dict[str, object]:
    """What every template may know of whoever asks."""
    return {
        "shared": settings.SHARED,
        "may_change": can_change(request),
        "sees_prices": sees_prices(request),
        "is_owner": is_owner(request),
        "who": who(request),
        "inside": keep_mark(request) != "none",
        "phone_words": words,
    }
