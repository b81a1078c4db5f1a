"""What a job took, kept beside the job with revisions of its own: one short transaction for each thing that is put down.

Nothing here replaces what somebody else put down meanwhile: hours and invoices are added one by one, and taken out by their mark.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from decimal import Decimal

from django.db import IntegrityError, transaction
from pydantic import ValidationError

from rodbook.desk.models import Folder, Kind, Revision
from rodbook.desk.platform import store
from rodbook.errors import Fault, InputError
from rodbook.job.actuals import Actuals, Hours, Invoiced
from rodbook.job.faults import faults_of
from rodbook.job.numerals import as_typed, read_decimal
from rodbook.money.rates.rounding import rounded

__all__ = [
    "actuals_now",
    "all_actuals",
    "folder_of",
    "hours_of",
    "in_hours",
    "invoice_faults",
    "put_hours",
    "put_invoice",
    "say_sure",
    "take_back",
    "take_out",
]


def folder_of(job: Folder) -> Folder:
    """Where what a job took is kept; begun where there is nothing yet."""
    result = Folder.objects.filter(of=job).first()
    if result is not None:
        return result
    try:
        return store.new_folder(Kind.ACTUALS, job.name, Actuals.model_validate({}), who="Rodbook", said="Begun", of=job)
    except IntegrityError:  # two were the first at once
        return Folder.objects.get(of=job)


def actuals_now(job: Folder) -> tuple[Revision | None, Actuals]:
    """What a job took so far; without a revision where nothing was put down yet."""
    folder = Folder.objects.filter(of=job).first()
    if folder is None:
        return None, Actuals.model_validate({})
    revision = store.head(folder)
    return revision, Actuals.model_validate(revision.document)


def all_actuals() -> list[tuple[Folder, Actuals]]:
    """What every job took, each with its job's folder."""
    result = Folder.objects.filter(kind=Kind.ACTUALS, of__isnull=False).select_related("of").order_by("pk")
    kept = []
    for folder in result:
        with suppress(store.Unreadable):
            kept.append((folder.of, Actuals.model_validate(store.head(folder).document)))
    return [(job, actuals) for job, actuals in kept if job]


def in_hours(typed: str, locale: str) -> Decimal | None:
    """Hours as people write them; None where it is no number or could be two.

    Examples
    --------
    >>> [str(in_hours(text, "de")) for text in ("1.5", "1,5", "1:30", "90 min", "1.250", "half")]
    ['1.5', '1.5', '1.5', '1.5', 'None', 'None']
    """
    text = typed.strip().lower().removesuffix("h").strip()
    try:
        if text.endswith("min"):
            return read_decimal(text.removesuffix("min"), locale) / 60
        hours, colon, minutes = text.partition(":")
        if colon:
            return Decimal(hours) + Decimal(minutes) / 60 if hours.isdecimal() and minutes.isdecimal() else None
        return read_decimal(text, locale)
    except ValueError:
        return None


def hours_of(typed: Mapping[str, str], locale: str) -> Hours:
    """What was typed as an entry.

    Raises
    ------
    InputError
        With every fault, its field as its place.
    """
    raw: dict[str, object] = {name: typed[name] for name in ("day", "person", "task", "key") if name in typed}
    hours = in_hours(typed.get("hours", ""), locale)
    raw["hours"] = typed.get("hours", "") if hours is None else round(hours, 4)
    faults: list[Fault] = []
    if done := typed.get("done", ""):
        if (counted := in_hours(done, locale)) is None:
            faults.append(Fault("done", "form.not_a_count", typed=done, example=as_typed(7.5, locale)))
        else:
            raw["done"] = round(counted, 4)
    if not typed.get("task"):
        faults.append(Fault("task", "form.task_not_chosen"))
        raw["task"] = "x"
    if hours is None:
        answer = typed.get("hours", "")
        faults.append(Fault("hours", "form.not_a_time", typed=answer, example=as_typed(1.5, locale)))
        raw["hours"] = 1
    try:
        entry = Hours.model_validate(raw)
    except ValidationError as error:
        raise InputError([*faults, *faults_of(error, Hours, raw)]) from None
    if faults:
        raise InputError(faults)
    return entry


def _changed(job: Folder, who: str, change: Callable[[Actuals, str], tuple[Actuals, str]]) -> Revision:
    """Change what stands there now; `change` is given a mark that nothing has yet, and gives back the words too."""
    folder = folder_of(job)
    with transaction.atomic():
        locked = Folder.objects.select_for_update().get(pk=folder.pk)
        newest = store.head(locked)
        before = Actuals.model_validate(newest.document)
        after, answer = change(before, str(newest.number + 1))
        if after == before:
            return newest
        return store.add_revision(locked, newest, store.as_document(after), who, text=answer)


def _said(entry: Hours) -> str:
    done = "" if entry.done is None else f", {entry.done.normalize():f} done"
    return f"{entry.person}, {entry.day}: {entry.task}, {round(entry.hours, 2).normalize():f} h{done}"


def put_hours(job: Folder, entry: Hours, *, who: str) -> Revision:
    """Put hours down; what is sent twice with the same key is taken once."""

    def change(now: Actuals, mark: str) -> tuple[Actuals, str]:
        if entry.key and any(known.key == entry.key for known in now.hours):
            return now, ""
        kept = entry.model_copy(update={"mark": f"H{mark}"})
        return now.model_copy(update={"hours": (*now.hours, kept)}), _said(kept)

    return _changed(job, who, change)


def say_sure(job: Folder, mark: str, *, who: str) -> Revision:
    """Say of hours that look wrong that they are right."""

    def change(now: Actuals, _mark: str) -> tuple[Actuals, str]:
        hours = tuple(e.model_copy(update={"sure": True}) if e.mark == mark else e for e in now.hours)
        answer = next((_said(e) for e in now.hours if e.mark == mark), "")
        return now.model_copy(update={"hours": hours}), f"{answer}: said to be right"

    return _changed(job, who, change)


def take_out(job: Folder, mark: str, *, who: str) -> Revision:
    """Take hours or an invoice out by its mark; nothing happens where it is gone already."""

    def change(now: Actuals, _mark: str) -> tuple[Actuals, str]:
        texts = [_said(e) for e in now.hours if e.mark == mark]
        texts += [f"invoice {bill.number} of {bill.supplier}" for bill in now.invoices if bill.mark == mark]
        hours = tuple(e for e in now.hours if e.mark != mark)
        invoices = tuple(bill for bill in now.invoices if bill.mark != mark)
        return now.model_copy(update={"hours": hours, "invoices": invoices}), f"taken out: {'; '.join(texts)}"

    return _changed(job, who, change)


def take_back(job: Folder, number: int, *, who: str) -> Revision:
    """Take one revision back: what it put down goes, what it took out comes again; all else stays as it is now.

    Raises
    ------
    Revision.DoesNotExist
        If there is none of that number, or none before it.
    """
    folder = folder_of(job)
    after, before = (Actuals.model_validate(folder.revisions.get(number=n).document) for n in (number, number - 1))
    answer = folder.revisions.get(number=number).said

    def change(now: Actuals, _mark: str) -> tuple[Actuals, str]:
        hours = _without(now.hours, before.hours, after.hours)
        invoices = _without(now.invoices, before.invoices, after.invoices)
        return now.model_copy(update={"hours": hours, "invoices": invoices}), f"taken back: {answer}"

    return _changed(job, who, change)


def _without[E: Hours | Invoiced](now: tuple[E, ...], before: tuple[E, ...], after: tuple[E, ...]) -> tuple[E, ...]:
    """Entries as they stand now, but for what went from `before` to `after`."""
    was, became = {e.mark: e for e in before}, {e.mark: e for e in after}
    kept = tuple(
        was[e.mark] if e.mark in was and became.get(e.mark) != was[e.mark] else e
        for e in now
        if e.mark in was or e.mark not in became
    )
    standing = {e.mark for e in kept}
    return (*kept, *(e for e in before if e.mark not in became and e.mark not in standing))


def invoice_faults(now: Actuals, bill: Invoiced, currency: str) -> list[Fault]:
    """What speaks against an invoice: another currency than the book's, one that is there already, amounts that are none."""
    faults: list[Fault] = []
    if bill.currency != currency:
        faults.append(Fault("currency", "form.invoice_in_other_currency", currency=bill.currency, own=currency))
    if any((known.supplier, known.number) == (bill.supplier, bill.number) for known in now.invoices):
        faults.append(Fault("number", "desk.invoice_there_already", number=bill.number, supplier=bill.supplier))
    faults += [
        Fault(("lines", number, "amount"), "form.amount_not_of_currency", amount=line.amount, currency=currency)
        for number, line in enumerate(bill.lines)
        if line.amount != rounded(line.amount, currency)
    ]
    return faults


def put_invoice(job: Folder, bill: Invoiced, *, currency: str, who: str) -> Revision:
    """Put an invoice down.

    Raises
    ------
    InputError
        With every one of `invoice_faults`, at its place in the invoice.
    """

    def change(now: Actuals, mark: str) -> tuple[Actuals, str]:
        if faults := invoice_faults(now, bill, currency):
            raise InputError(faults)
        kept = bill.model_copy(update={"mark": f"I{mark}"})
        total = sum((line.amount for line in bill.lines), Decimal(0))
        text = f"invoice {bill.number} of {bill.supplier}, {bill.day}: {total} {bill.currency}"
        return now.model_copy(update={"invoices": (*now.invoices, kept)}), text

    return _changed(job, who, change)
