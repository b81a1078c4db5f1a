"""Working without signal: what the browser needs to keep pages, and where readings come in that were kept on a phone."""

from __future__ import annotations

import json
from typing import cast

from django.contrib.staticfiles.storage import staticfiles_storage
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.shortcuts import render
from django.templatetags.static import static
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.models import Photo, Role
from rodbook.desk.openings.measuring import place_named
from rodbook.desk.openings.measuring_views import marks_of, read_note
from rodbook.desk.openings.receiving import receive
from rodbook.desk.platform.access import keep_mark, who
from rodbook.desk.platform.asking_first import asks_first
from rodbook.desk.platform.job_page import job_page
from rodbook.desk.platform.rendering import papers_for

__all__ = ["along", "manifest", "no_signal", "outbox", "reading_in", "worker"]

FILES = (
    "desk/desk.css",
    "desk/desk.js",
    "desk/offline.js",
    "desk/touch.js",
    "desk/mark.svg",
    "desk/icon-192.png",
    "django_htmx/htmx-2.min.js",
    "fonts/Barlow-Regular.ttf",
    "fonts/Barlow-SemiBold.ttf",
    "fonts/Barlow-Italic.ttf",
)
"""Static files that the measuring pages need."""


@never_cache
@require_safe
def worker(request: HttpRequest) -> HttpResponse:
    """The service worker, from the root so that every page is its own; it changes when the files that it keeps change."""
    values = {
        "files": [static(name) for name in FILES],
        "static": staticfiles_storage.base_url,
        "away": reverse("no-signal"),
    }
    text = f"const KEPT = {json.dumps(values)};\n"
    reply = render(request, "desk/sw.js", content_type="text/javascript; charset=utf-8")
    reply.content = text.encode() + reply.content
    return cast("HttpResponse", reply)


@require_safe
def manifest(_request: HttpRequest) -> HttpResponse:
    """What a phone needs to put the desk on its home screen."""
    icons = [
        {
            "src": static(f"desk/icon-{size}.png"),
            "sizes": f"{size}x{size}",
            "type": "image/png",
            "purpose": "any maskable",
        }
        for size in (192, 512)
    ]
    values = {
        "name": "Rodbook",
        "short_name": "Rodbook",
        "start_url": "/",
        "scope": "/",
        "display": "standalone",
        "background_color": "#faf7f0",
        "theme_color": "#e9dfc9",
        "icons": icons,
    }
    return JsonResponse(values, content_type="application/manifest+json")


@require_safe
def no_signal(request: HttpRequest) -> HttpResponse:
    """What is shown for a page that is not kept on the phone; it says nothing of any job."""
    return render(request, "desk/no_signal.html")


@never_cache
@require_safe
def outbox(request: HttpRequest) -> HttpResponse:
    """Who is signed in, and the token that sending needs; it shows that the desk can be reached."""
    return JsonResponse({"who": who(request), "mark": keep_mark(request), "token": get_token(request)})


@require_safe
def along(request: HttpRequest, pk: int) -> HttpResponse:
    """Addresses of everything of a job that a phone takes along: pages to measure on, pictures, papers without prices."""
    page = job_page(pk)
    pages = [reverse(name, kwargs={"pk": pk}) for name in ("job", "measure-list", "papers")]
    pages += [reverse("measure", kwargs={"pk": pk, "mark": mark}) for mark in marks_of(page)]
    papers = [
        reverse("paper", kwargs={"pk": pk, "name": paper.file})
        for paper in papers_for(Role.READER)
        if (plan := page.whole if paper.whole else page.plan) is not None
        and not (paper.leaves_to and asks_first(request, plan, paper.leaves_to))  # a phone can't answer
    ]
    photos = Photo.objects.filter(folder=page.folder).values_list("sha256", flat=True).distinct()
    pictures = [reverse("photo", kwargs={"pk": pk, "sha256": sha256}) for sha256 in sorted(set(photos))]
    left = sum(paper.whole for paper in papers_for(Role.READER)) if page.whole is None else 0
    return JsonResponse({"pages": pages, "papers": papers, "pictures": pictures, "left": left})


@never_cache
@require_POST
def reading_in(request: HttpRequest, pk: int, mark: str) -> HttpResponse:
    """One reading that a phone kept; the answer says what became of it."""
    page = job_page(pk)
    place = place_named(request.POST.get("reading", ""))
    if mark not in marks_of(page):
        text = _("%(mark)s is not in the job any more.") % {"mark": mark}
        return JsonResponse({"state": "refused", "said": text, "offers": []})
    if place is None or (note := read_note(request, mark, place)) is None:
        raise Http404
    answer = receive(page.folder, page.revision, page.job, page.book, note, who=who(request))
    return JsonResponse({"state": answer.state, "said": answer.said, "offers": list(answer.offers)})
