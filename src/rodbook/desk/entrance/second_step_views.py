"""One's own second step of signing in: switched on with a proof, codes for paper, switched off."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.models import AbstractUser
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from rodbook.desk.entrance.people_views import shared_only
from rodbook.desk.entrance.second_step import Begun, begin, begun, has_second, prove, switch_off, write_recovery
from rodbook.desk.entrance.views import code_checked, turnstile, wait
from rodbook.desk.platform.deeds import Doing, note
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.turnstile import Refused
from rodbook.errors import Fault

__all__ = ["own"]


def _page(
    request: HttpRequest, user: AbstractUser, form: Form, *, waits: Begun | None = None, codes: list[str] | None = None
) -> HttpResponse:
    """The page; secret and codes are shown in the answer in which they are made, and never again."""
    context = {"form": form, "on": has_second(user), "waits": waits, "codes": codes or ()}
    reply = render(request, "desk/second.html", context, status=422 if form.faults else 200)
    reply["Cache-Control"] = "no-store"
    return reply


@sensitive_post_parameters("password", "code")
@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
@shared_only
def own(request: HttpRequest) -> HttpResponse:
    """Show how it stands, or take one of its steps."""
    user = request.user
    assert isinstance(user, AbstractUser), "the gate lets nobody else in"
    if request.method != "POST":
        return _page(request, user, Form({}))
    step = {"begin": _begin, "prove": _prove, "anew": _with_code, "off": _with_code}.get(request.POST.get("do", ""))
    if step is None:
        return redirect("own-second")
    try:
        return step(request, user)
    except Refused as refused:
        return wait(request, refused)


def _begin(request: HttpRequest, user: AbstractUser) -> HttpResponse:
    """Draw a secret for whoever types their password again."""
    if has_second(user):
        return redirect("own-second")
    place = f"own password of {user.pk}"
    with turnstile.passed(place, known=True):
        right = user.check_password(request.POST.get("password", ""))
    (turnstile.right if right else turnstile.wrong)(place)
    if not right:
        note(request, Doing.WRONG_PASSWORD)
        return _page(
            request,
            user,
            Form({"password": ""}, (Fault("password", "form.not_the_password"),)),
        )
    return _page(request, user, Form({}), waits=begin(user))


def _prove(request: HttpRequest, user: AbstractUser) -> HttpResponse:
    """Switch it on by a code."""
    if has_second(user) or not hasattr(user, "second"):
        return redirect("own-second")
    place = f"code of {user.pk}"
    with turnstile.passed(place, known=True):
        codes = prove(user, request.POST.get("code", ""))
    (turnstile.wrong if codes is None else turnstile.right)(place)
    if codes is None:
        fault = Fault("code", "form.not_the_code_now")
        return _page(request, user, Form({"code": ""}, (fault,)), waits=begun(user))
    note(request, Doing.SECOND_ON)
    messages.success(request, _("From now on you sign in with your password and a code."))
    return _page(request, user, Form({}), codes=codes)


def _with_code(request: HttpRequest, user: AbstractUser) -> HttpResponse:
    """Make codes for paper anew, or switch it off: each by a code."""
    field = request.POST["do"]
    if not has_second(user):
        return redirect("own-second")
    if code_checked(request, user, request.POST.get("code", "")) is None:
        fault = Fault(f"{field}-code", "form.code_not_right")
        return _page(request, user, Form({f"{field}-code": ""}, (fault,)))
    if field == "anew":
        note(request, Doing.RECOVERY_MADE)
        return _page(request, user, Form({}), codes=write_recovery(user))
    switch_off(user)
    note(request, Doing.SECOND_OFF, person=user.get_username())
    messages.success(request, _("You sign in with your password alone now."))
    return redirect("own-second")
