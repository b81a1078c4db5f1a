"""Pictures of an opening: taken on site, looked at on the desk."""

from __future__ import annotations

from django.contrib import messages
from django.db.models import Q
from django.http import FileResponse, Http404, HttpRequest, HttpResponse, JsonResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.models import Draft, Folder, Kind, Photo
from rodbook.desk.platform import photos, store
from rodbook.desk.platform.access import who
from rodbook.desk.platform.faults import in_words
from rodbook.desk.platform.throwing_away import throw_photo_away
from rodbook.errors import InputError

__all__ = ["add", "out", "show"]


@require_POST
def add(request: HttpRequest, pk: int, mark: str) -> HttpResponse:
    """Keep a picture of an opening."""
    folder = get_object_or_404(Folder, pk=pk, kind=Kind.JOB)
    job = store.job_now(folder)[1]
    if all(o.mark != mark for o in job.openings) and not Draft.objects.filter(folder=folder, mark=mark).exists():
        raise Http404
    answers = "json" in request.headers.get("Accept", "")
    upload = request.FILES.get("photo")
    fault, later = "", False
    if upload is None:
        fault = "No picture was chosen."
    elif upload.size is None or upload.size > photos.MOST_BYTES:
        fault = "The picture is larger than 10 MB, so it was not kept; take it at a smaller size."
    else:
        try:
            _take_in(folder, mark, upload.read(), who(request))
        except InputError as error:
            later = isinstance(error, photos.TryLaterError)
            fault = f"{(words := in_words(error.faults[0]))[:1].upper()}{words[1:]}."
    if answers:  # a phone sends what it kept, and sends it again by itself where it is told to
        state = {"state": "refused" if fault else "kept", "said": fault}
        return JsonResponse(state, status=503 if later else 200)
    if fault:
        messages.error(request, fault)
    else:
        messages.success(request, _("The picture is kept."))
    return redirect("measure", pk=pk, mark=mark)


@require_POST
def out(request: HttpRequest, pk: int, mark: str) -> HttpResponse:
    """Take a picture of an opening away, for good."""
    photo = Photo.objects.filter(folder_id=pk, mark=mark, sha256=request.POST.get("sha256", "")).first()
    if photo is None:
        messages.error(request, _("The picture is gone already."))
    else:
        throw_photo_away(photo)
        messages.success(request, _("The picture is taken away."))
    return redirect("measure", pk=pk, mark=mark)


def _take_in(folder: Folder, mark: str, data: bytes, name: str) -> None:
    """Keep a picture of an opening, once however often it is sent.

    Raises
    ------
    InputError
        If it can't be kept.
    """
    sent = photos.hash_of(data)
    same = Q(sent_sha256=sent) | Q(sha256=sent)  # as it was sent before, or as it is kept
    here = Photo.objects.filter(same, folder=folder, mark=mark).first()
    if here is not None and photos.path_of(here.sha256).is_file():
        return
    kept = photos.made_anew(data)
    photos.keep(kept)
    Photo.objects.get_or_create(
        folder=folder, mark=mark, sha256=kept.sha256, defaults={"kind": kept.kind, "who": name, "sent_sha256": sent}
    )
    photos.keep(kept)  # again, as somebody may have thrown the same picture away meanwhile


@require_safe
def show(_request: HttpRequest, pk: int, sha256: str) -> HttpResponseBase:
    """One picture of this job, and nothing else from the folder."""
    photo = Photo.objects.filter(folder_id=pk, sha256=sha256).first()
    if photo is None or photo.kind not in photos.KINDS or not (path := photos.path_of(photo.sha256)).is_file():
        raise Http404
    reply = FileResponse(path.open("rb"), content_type=photo.kind)
    reply["X-Content-Type-Options"] = "nosniff"
    reply["Cache-Control"] = "private, max-age=31536000, immutable"
    return reply
