"""Before a paper leaves the firm it is asked whether the figures hold that it rests on and that nobody has confirmed."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse

from rodbook.desk.platform.access import is_owner
from rodbook.plan import Plan
from rodbook.plan.analyses.unconfirmed import PaperFor, not_confirmed_under

__all__ = ["PAPERS", "WANTED", "asked_first", "asks_first"]

PAPERS = {"price": PaperFor.CLIENT, "change": PaperFor.CLIENT, "order": PaperFor.SUPPLIER, "pack": PaperFor.CLIENT}
"""Papers that leave the firm, by what they are called in an address, and for whom each is."""

WANTED = "paper_wanted"
"""Where a session keeps the address of the paper that was asked for."""


def asks_first(request: HttpRequest, plan: Plan, paper_for: PaperFor) -> bool:
    """Whether somebody is asked before a paper leaves the firm: owners, while it rests on what nobody has confirmed."""
    return is_owner(request) and bool(not_confirmed_under(plan, paper_for))


def asked_first(request: HttpRequest, pk: int, plan: Plan | None, paper: str) -> HttpResponse | None:
    """The page that lists what a paper rests on and nobody has confirmed; None where it may be made.

    Parameters
    ----------
    request : HttpRequest
        With ``anyway`` where somebody has seen the page and wants the paper all the same.
    pk : int
        Of the job.
    plan : Plan, optional
    paper : str
        "price", "change", "order" or "pack".
    """
    if plan is None or "anyway" in request.GET or not asks_first(request, plan, PAPERS[paper]):
        return None
    request.session[WANTED] = request.get_full_path()
    return redirect(f"{reverse('book-confirm')}?job={pk}&paper={paper}")
