"""The way in, and the answer that the desk is well."""

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from rodbook.desk.access import owns_key

__all__ = ["enter", "health"]


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
    return redirect("jobs")


@never_cache
@require_safe
def health(_request: HttpRequest) -> HttpResponse:
    """Say that the server answers; nothing else."""
    return HttpResponse("well\n", content_type="text/plain")
