"""Pictures of an opening: taken on site, looked at on the desk."""

from __future__ import annotations

from django.contrib import messages
from django.http import FileResponse, Http404, HttpRequest, HttpResponse, JsonResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk import photos, store
from rodbook.desk.access import who
from rodbook.desk.models import Draft, Folder, Kind, Photo
from rodbook.desk.throwing_away import throw_photo_away
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
    fault = ""
    if upload is None:
        fault = "No picture was chosen."
    elif upload.size is None or upload.size > photos.MOST_BYTES:
        fault = "The picture is larger than 10 MB, so it was not kept; take it at a smaller size."
    else:
        data = upload.read()
        try:
            sha256, kind = photos.put(data)
        except InputError as error:
            fault = f"{error.faults[0].what[:1].upper()}{error.faults[0].what[1:]}."
        else:
            Photo.objects.get_or_create(
                folder=folder, mark=mark, sha256=sha256, defaults={"kind": kind, "who": who(request)}
            )
            photos.put(data)  # again, as somebody may have thrown the same picture away meanwhile
    if answers:  # a phone sends what it kept
        return JsonResponse({"state": "refused" if fault else "kept", "said": fault})
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
