"""Who did what, for the owner."""

from __future__ import annotations

from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from rodbook.desk.entrance.deeds_in_words import by_whom, from_where, said
from rodbook.desk.models import Deed
from rodbook.desk.platform.access import needs_owner
from rodbook.desk.platform.deeds import KEPT, OF_STRANGERS

__all__ = ["show"]

ON_A_PAGE = 100

WRONG = frozenset(doing.value for doing in OF_STRANGERS)


@require_safe
@needs_owner
def show(request: HttpRequest) -> HttpResponse:
    """Newest first; of one person, or of wrong tries and refusals alone, where that is asked for."""
    result = Deed.objects.all()
    who, only = request.GET.get("who", "")[:150], request.GET.get("only", "")
    if who:
        result = result.filter(who=who)
    if only == "wrong":
        result = result.filter(doing__in=WRONG)
    pages = Paginator(result, ON_A_PAGE)
    page = pages.get_page(request.GET.get("page"))
    lines = [
        {
            "when": deed.when,
            "who": by_whom(deed),
            "place": from_where(deed),
            "said": said(deed),
            "times": deed.times,
            "wrong": deed.doing in WRONG,
        }
        for deed in page.object_list
    ]
    names = [name for name in Deed.objects.order_by("who").values_list("who", flat=True).distinct() if name]
    context = {"lines": lines, "page": page, "names": names, "chosen": who, "only": only, "days": KEPT.days}
    return render(request, "desk/deeds.html", context)
