"""A job's price: how it comes about, what may be changed on it, that it was given, and the client's paper."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.money.price_forms import ExtraRows, PriceForm, extras_as_typed, plain_terms, terms_as_typed
from rodbook.desk.platform import store
from rodbook.desk.platform.access import needs_owner
from rodbook.desk.platform.asking_first import asked_first
from rodbook.desk.platform.book_page import date_now
from rodbook.desk.platform.changes import Value
from rodbook.desk.platform.job_page import JobPage, job_page, read_base
from rodbook.desk.platform.saving import saved_or_told
from rodbook.desk.platform.turns import aside
from rodbook.desk.platform.typed_forms import TypedFormSet
from rodbook.errors import Fault, InputError, RenderError
from rodbook.papers import price_pdf
from rodbook.papers.numbers import Numbers
from rodbook.plan import Plan, Pricing, left_out_in_words, price_job

__all__ = ["given", "paper", "put", "show"]

SUREST = Decimal("0.99")
"""No share of jobs is told more finely than this."""


def _found(plan: Plan | None) -> tuple[Pricing | None, tuple[Fault, ...]]:
    """The price, or why there is none."""
    if plan is None:
        return None, ()
    try:
        return price_job(plan), ()
    except InputError as error:
        return None, error.faults


def _lines(pricing: Pricing, write: Numbers) -> list[tuple[str, ...]]:
    """Each line with its name and amounts; the last is of all of them together."""
    price = pricing.price
    every = [(line.name, (line.cost, line.overhead, line.contingency, line.earned, line.net)) for line in price.lines]
    every.append(("", (price.cost, price.overhead, price.contingency, price.earned, price.net)))
    return [(name, *map(write.money, amounts)) for name, amounts in every]


def _sums(pricing: Pricing, write: Numbers) -> list[tuple[str, str]]:
    price = pricing.price
    if not price.taxes:
        return []
    rows = [(_("Net"), write.money(price.net))]
    for tax in price.taxes:
        text = _("%(name)s, %(percent)s on %(on)s") % {
            "name": tax.name,
            "percent": write.in_hundred(tax.percent),
            "on": write.money(tax.on),
        }
        rows.append((text, write.money(tax.amount)))
    return [*rows, (_("To pay"), write.money(price.gross))]


def _sureness(pricing: Pricing, write: Numbers) -> list[tuple[str, str, str]]:
    return [
        (_("%(share)s of 100 jobs") % {"share": f"{100 * level:.0f}"}, write.money(spare), write.money(net))
        for level, spare, net in pricing.at_confidence
    ]


def _forms(page: JobPage, posted: QueryDict | None = None) -> tuple[PriceForm, TypedFormSet]:
    """The form of the price and its lines: as the job has them, or as they were sent."""
    terms, locale = page.job.price, page.book.locale
    profiles = tuple(dict.fromkeys(profile.name for profile in page.book.taxes))
    own = {"currency": page.book.currency, "locale": locale}
    if posted is not None:
        return (
            PriceForm(posted, profiles=profiles, locale=locale),
            ExtraRows(posted, prefix="extra", form_kwargs=own),
        )
    return (
        PriceForm(initial=terms_as_typed(terms, locale), profiles=profiles, locale=locale),
        ExtraRows(prefix="extra", initial=extras_as_typed(terms, locale), form_kwargs=own),
    )


def _render(
    request: HttpRequest, page: JobPage, form: PriceForm, extras: TypedFormSet, *, base: int | None = None
) -> HttpResponse:
    write = Numbers.of(page.book)
    pricing, why_not = _found(page.shown)
    context = page.context(
        "price",
        pricing=pricing,
        why_not=why_not,
        form=form,
        extras=extras,
        first=form.first or extras.first,
        base=page.revision.number if base is None else base,
        after="price",
        given=page.job.price.given,
        **(_figures(pricing, page, write) if pricing else {}),
    )
    return render(request, "desk/price.html", context, status=422 if form.is_bound else 200)


def _figures(pricing: Pricing, page: JobPage, write: Numbers) -> Mapping[str, object]:
    price, terms = pricing.price, page.job.price  # older lines may stand under terms that changed since
    lines = _lines(pricing, write)
    given = terms.given
    return {
        "left_out": left_out_in_words(pricing.left_out, write.hours),
        "lines": lines[:-1],
        "together": lines[-1],
        "sums": _sums(pricing, write),
        "margin": None if price.margin is None else write.percent(price.margin, 1),
        "mark_up": None if price.mark_up is None else write.percent(price.mark_up, 1),
        "earned": write.money(price.earned),
        "rounding": write.money(price.rounding) if price.rounding else "",
        "all_cost": write.money(price.cost + price.overhead + price.contingency),
        "net": write.money(price.net),
        "gross": write.money(price.gross),
        "until": write.date(price.valid_until),
        "parts_cost": write.money(pricing.parts_cost),
        "nine_in_ten": write.money(pricing.nine_in_ten),
        "contingency": write.money(pricing.contingency),
        "confidence": None if pricing.rules.confidence is None else f"{100 * pricing.rules.confidence:.0f}",
        "not_losing": f"{100 * pricing.not_losing:.0f}",
        "surely": pricing.not_losing >= SUREST,
        "no_hours": not pricing.crew_hours,
        "sureness": _sureness(pricing, write),
        "options": [(option.name, write.money(option.net), write.money(option.gross)) for option in price.options],
        "taxed": bool(price.taxes),
        "given_said": None
        if given is None
        else (write.date(given.on), write.money(given.net), write.money(given.gross)),
        "given_moved": given is not None and (given.net, given.gross) != (price.net, price.gross),
    }


@require_safe
@needs_owner
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """How the price comes about."""
    page = job_page(pk)
    return _render(request, page, *_forms(page))


@require_POST
@needs_owner
def put(request: HttpRequest, pk: int) -> HttpResponse:
    """Save how the job is priced."""
    page = job_page(pk)
    base = read_base(request)
    form, extras = _forms(page, request.POST)
    if not all([form.is_valid(), extras.is_valid()]):
        return _render(request, page, form, extras, base=base)

    def priced(began: store.Document) -> store.Kept:
        before = store.read_job_document(began, page.book).price
        terms = dict(plain_terms(form, extras))
        if before.given is not None:
            terms["given"] = before.given.model_dump(mode="json")
        return store.read_job_document({**began, "price": terms}, page.book)

    try:
        answer = saved_or_told(request, page.folder, base, priced, page.book)
    except InputError as error:
        form.add_faults(error.faults)
        return _render(request, page, form, extras, base=base)
    return answer or redirect("price", pk=pk)


@require_POST
@needs_owner
def given(request: HttpRequest, pk: int) -> HttpResponse:
    """Write down that the price as it stands was given to the client today; pricing again starts from it."""
    page = job_page(pk)
    base = read_base(request)
    pricing, why_not = _found(page.whole)
    if pricing is None or base != page.revision.number:
        why = "; ".join(str(fault) for fault in why_not)
        messages.error(request, why or _("The job changed meanwhile; look at the price as it stands now."))
        return redirect("price", pk=pk)
    price = pricing.price
    values: dict[str, Value] = {
        "on": date_now().isoformat(),
        "net": str(price.net),
        "gross": str(price.gross),
        "cost": str(price.cost + price.overhead),
    }

    def given_now(began: store.Document) -> store.Document:
        return {**began, "price": {**store.group_of(began, "price"), "given": values}}

    return saved_or_told(request, page.folder, base, given_now, page.book) or redirect("price", pk=pk)


@require_safe
@needs_owner
@aside()
def paper(request: HttpRequest, pk: int) -> HttpResponse:
    """The client's paper: what they get, what it comes to and until when; no cost and no margin is on it."""
    page = job_page(pk)
    plan = page.whole
    pricing, why_not = _found(plan)
    if pricing is not None and (asked := asked_first(request, pk, plan, "price")) is not None:
        return asked
    why = "; ".join(str(fault) for fault in why_not) or _(
        "the price needs layouts and costs; have them worked out first"
    )
    content = b""
    if plan is not None and pricing is not None:
        try:
            content = price_pdf(plan, pricing)
        except RenderError as error:
            why = str(error)
    if not content:
        messages.error(request, f"{why[0].upper()}{why[1:]}.")
        return redirect("price", pk=pk)
    stem = slugify(f"{page.job.job.name[:60]} {page.job.job.revision[:10]}") or "job"
    reply = HttpResponse(content, content_type="application/pdf")
    reply["Content-Disposition"] = f'attachment; filename="{stem}-price.pdf"'
    reply["Cache-Control"] = "no-store"
    return reply
