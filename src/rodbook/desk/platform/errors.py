"""What a page says where there is none to show: a sentence and a way on, never a bare answer."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template.loader import render_to_string
from django.utils.translation import gettext as _

__all__ = ["bare", "broken", "not_found", "not_so", "not_understood", "too_old"]


def bare(title: str, sentence: str, status: int) -> HttpResponse:
    """Answer without anything that may itself be at fault: no database, nobody's name, no script."""
    page = render_to_string("desk/bare.html", {"title": title, "sentence": sentence})
    return HttpResponse(page, status=status)


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:  # noqa: ARG001 - handed over by name
    """Say that there is nothing at this address."""
    sentence = _("There is nothing here: the address is wrong, or what stood here was taken out or renamed.")
    return render(request, "desk/refused.html", {"title": _("Not here"), "sentence": sentence}, status=404)


def not_so(_request: HttpRequest, exception: Exception) -> HttpResponse:  # noqa: ARG001 - handed over by name
    """Say that this may not be done."""
    return bare(_("Not for you"), _("This may not be done here."), 403)


def too_old(_request: HttpRequest, **_said: object) -> HttpResponse:
    """Say that a form came from elsewhere, or from before somebody came in anew."""
    sentence = _(
        "Nothing was saved: this page is from before you came in, or the browser keeps no cookies. "
        "Go back, load the page anew and enter it again."
    )
    return bare(_("This page is too old"), sentence, 403)


def not_understood(_request: HttpRequest, exception: Exception) -> HttpResponse:  # noqa: ARG001 - handed over by name
    """Say that a request made no sense."""
    sentence = _("The browser sent something that can't be read here, so nothing was done.")
    return bare(_("Not understood"), sentence, 400)


def broken(_request: HttpRequest) -> HttpResponse:
    """Say that the desk itself is at fault."""
    sentence = _(
        "The desk itself is at fault, not you. What was saved before stands; what you just did is not saved. "
        "Go back and try again; if it comes again, the file desk.log in the desk's folder says what happened."
    )
    return bare(_("Something broke"), sentence, 500)
