"""The way in and out, and the answer that the desk is well."""

from __future__ import annotations

import time

from django.conf import settings
from django.contrib.auth import get_user_model, login
from django.contrib.auth.forms import AuthenticationForm
from django.contrib.auth.models import AbstractUser
from django.contrib.auth.views import LoginView, LogoutView
from django.core import signing
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.crypto import constant_time_compare, salted_hmac
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_safe

from rodbook.desk.entrance.second_step import Proof, accept, has_second
from rodbook.desk.platform.access import BEGAN, owns_key
from rodbook.desk.platform.deeds import Doing, note
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.turnstile import Refused, Turnstile, place_of
from rodbook.errors import Fault

__all__ = ["SignIn", "SignOut", "code_checked", "enter", "health", "is_known", "second_step", "turnstile", "wait"]

turnstile = Turnstile()
"""The one that all passwords go through."""

KNOWN = "rodbook_known"
"""Cookie of a browser that somebody signed in from: signed, and good for that name alone."""

KNOWN_SECONDS = 90 * 24 * 3600

HALF_IN = "half_in"
"""Where a session keeps who knew the password and has the second step before them."""

HALF_IN_SECONDS = 300
"""How long they have for it. House assumption. [s]"""


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
    note(request, Doing.MADE_TO_WAIT)
    minutes = -(-refused.seconds // 60)
    reply = render(request, "desk/wait.html", {"minutes": minutes, "seconds": refused.seconds}, status=429)
    reply["Retry-After"] = str(refused.seconds)
    return reply


def _known_from_now(reply: HttpResponse, user: AbstractUser) -> HttpResponse:
    """Know this browser again."""
    kept = signing.dumps(user.get_username().casefold(), salt=KNOWN)
    reply.set_cookie(
        KNOWN, kept, max_age=KNOWN_SECONDS, httponly=True, samesite="Strict", secure=settings.SESSION_COOKIE_SECURE
    )
    return reply


class SignIn(LoginView):  # type: ignore[misc]
    """Name and password, through the turnstile."""

    template_name = "desk/login.html"
    http_method_names = ("get", "head", "post", "options")  # the framework's own takes PUT for POST

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
        """Let somebody in, or half in where a second step is asked for: then nobody is signed in yet."""
        user = form.get_user()
        assert isinstance(user, get_user_model())
        assert isinstance(user, AbstractUser)
        if not has_second(user):
            return _known_from_now(super().form_valid(form), user)
        self.request.session.flush()
        self.request.session[HALF_IN] = {
            "user": user.pk,
            "hash": user.get_session_auth_hash(),
            "backend": user.backend,
            "at": time.time(),
            "next": self.get_success_url(),
        }
        return redirect("login-code")


def _half_in(request: HttpRequest) -> AbstractUser | None:
    """Whoever knew the password a short while ago, where it is theirs still."""
    kept = request.session.get(HALF_IN)
    if not isinstance(kept, dict) or not 0 <= time.time() - kept["at"] <= HALF_IN_SECONDS:
        return None
    user = get_user_model().objects.filter(pk=kept["user"], is_active=True).first()
    if user is None or not constant_time_compare(kept["hash"], user.get_session_auth_hash()):
        return None
    return user


def code_checked(request: HttpRequest, user: AbstractUser, code: str) -> Proof | None:
    """Check a code of the second step, through the turnstile; what came of it is noted.

    Raises
    ------
    Refused
        If too many wrong codes came for this account.
    """
    place = f"code of {user.pk}"
    with turnstile.passed(place, known=True):
        proof = accept(user, code)
        if proof is None:
            turnstile.wrong(place)
            note(request, Doing.WRONG_CODE, name=user.get_username())
            return None
    turnstile.right(place)
    if proof.paper:
        note(request, Doing.RECOVERY_USED, name=user.get_username(), left=proof.left)
    return proof


@sensitive_post_parameters("code")
@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def second_step(request: HttpRequest) -> HttpResponse:
    """Ask whoever knew the password for the code of their phone, or one from paper."""
    user = _half_in(request)
    if user is None:
        request.session.pop(HALF_IN, None)
        return redirect("login")
    form = Form({"code": ""})
    if request.method == "POST":
        try:
            proof = code_checked(request, user, request.POST.get("code", ""))
        except Refused as refused:
            return wait(request, refused)
        if proof is not None:
            kept = request.session.pop(HALF_IN)
            login(request, user, backend=kept["backend"])
            return _known_from_now(redirect(kept["next"]), user)
        form = Form(
            {"code": ""},
            (Fault("code", "form.code_not_right"),),
        )
    return render(request, "desk/login_code.html", {"form": form}, status=422 if form.faults else 200)


class SignOut(LogoutView):  # type: ignore[misc]
    """Out again; the browser forgets what it kept of pages, but no reading that waits to be sent."""

    next_page = "login"

    def post(self, request: HttpRequest, *args: object, **kwargs: object) -> HttpResponse:
        """Sign out."""
        if request.user.is_authenticated:
            note(request, Doing.SIGNED_OUT)
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
    note(request, Doing.LINK_OPENED)
    return redirect("jobs")


@never_cache
@require_safe
def health(_request: HttpRequest) -> HttpResponse:
    """Say that the server answers; nothing else."""
    return HttpResponse("well\n", content_type="text/plain; charset=utf-8")
