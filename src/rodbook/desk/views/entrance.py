"""The way in and out, and the answer that the desk is well."""

from __future__ import annotations

import time

from django.conf import settings
from django.contrib.auth import get_user_model
from django.contrib.auth.forms import AuthenticationForm
from django.contrib.auth.models import AbstractUser
from django.contrib.auth.views import LoginView, LogoutView
from django.core import signing
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.crypto import salted_hmac
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from rodbook.desk.access import BEGAN, owns_key
from rodbook.desk.turnstile import Refused, Turnstile, place_of

__all__ = ["SignIn", "SignOut", "enter", "health", "is_known", "turnstile", "wait"]

turnstile = Turnstile()
"""The one that all passwords go through."""

KNOWN = "rodbook_known"
"""Cookie of a browser that somebody signed in from: signed, and good for that name alone."""

KNOWN_SECONDS = 90 * 24 * 3600


def _known_name(request: HttpRequest) -> str:
    """Name that this browser signed in under before; empty where none did."""
    try:
        name = signing.loads(request.COOKIES.get(KNOWN, ""), salt=KNOWN, max_age=KNOWN_SECONDS)
    except signing.BadSignature:
        return ""
    return str(name)


def is_known(request: HttpRequest, credentials: dict[str, str] | None = None) -> bool:
    """Whether this browser signed in under this name before; then a stranger's tries under it do not count here."""
    name = (credentials or {}).get("username") or request.POST.get("username", "")
    return bool(name) and _known_name(request) == name.casefold()


def _place(request: HttpRequest) -> tuple[str, bool]:
    """Where a try comes from: a known browser, or an address."""
    if is_known(request):
        return "browser " + salted_hmac(KNOWN, request.COOKIES[KNOWN], algorithm="sha256").hexdigest(), True
    return place_of(request.META.get("REMOTE_ADDR", "")), False


def wait(request: HttpRequest, refused: Refused) -> HttpResponse:
    """Say how long to wait."""
    minutes = -(-refused.seconds // 60)
    reply = render(request, "desk/wait.html", {"minutes": minutes, "seconds": refused.seconds}, status=429)
    reply["Retry-After"] = str(refused.seconds)
    return reply


class SignIn(LoginView):  # type: ignore[misc]
    """Name and password, through the turnstile."""

    template_name = "desk/login.html"

    def post(self, request: HttpRequest, *args: object, **kwargs: object) -> HttpResponse:
        """Check a password where there is room for it."""
        place, known = _place(request)
        try:
            with turnstile.passed(place, known=known):
                reply: HttpResponse = super().post(request, *args, **kwargs)
        except Refused as refused:
            return wait(request, refused)
        (turnstile.right if reply.status_code == 302 else turnstile.wrong)(place)
        return reply

    def form_valid(self, form: AuthenticationForm) -> HttpResponse:
        """Know this browser again."""
        reply: HttpResponse = super().form_valid(form)
        user = form.get_user()
        assert isinstance(user, get_user_model())
        assert isinstance(user, AbstractUser)
        kept = signing.dumps(user.get_username().casefold(), salt=KNOWN)
        reply.set_cookie(
            KNOWN, kept, max_age=KNOWN_SECONDS, httponly=True, samesite="Strict", secure=settings.SESSION_COOKIE_SECURE
        )
        return reply


class SignOut(LogoutView):  # type: ignore[misc]
    """Out again; the browser forgets what it kept of pages, but no reading that waits to be sent."""

    next_page = "login"

    def post(self, request: HttpRequest, *args: object, **kwargs: object) -> HttpResponse:
        """Sign out."""
        reply: HttpResponse = super().post(request, *args, **kwargs)
        reply["Clear-Site-Data"] = '"cache"'
        return reply


@never_cache
@require_safe
def enter(request: HttpRequest, key: str) -> HttpResponse:
    """Let in whoever brings the one-time key."""
    if settings.SHARED:
        return redirect("login")
    if request.session.get("came_in"):
        return redirect("jobs")
    if not owns_key(key):
        return render(request, "desk/stranger.html", status=403)
    request.session.cycle_key()
    request.session["came_in"] = True
    request.session[BEGAN] = int(time.time())
    return redirect("jobs")


@never_cache
@require_safe
def health(_request: HttpRequest) -> HttpResponse:
    """Say that the server answers; nothing else."""
    return HttpResponse("well\n", content_type="text/plain")
