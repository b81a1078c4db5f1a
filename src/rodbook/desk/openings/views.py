"""The openings of a job: a grid to type into and to paste into, and a list from a spreadsheet with a look at it first."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Callable, Collection, Mapping, Sequence
from typing import cast

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import urlencode
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from rodbook.desk.models import Draft, Photo
from rodbook.desk.openings.drafts import not_in
from rodbook.desk.openings.grid_saving import as_they_are_now, put_faults, sound_rows
from rodbook.desk.openings.measuring import place_named
from rodbook.desk.openings.pasting import pasted_openings
from rodbook.desk.platform import store
from rodbook.desk.platform.changes import Value, changed, in_words, sentence
from rodbook.desk.platform.grid import (
    COLUMNS,
    OPENINGS,
    PANELS,
    RUNS,
    Row,
    raw_openings,
    rows_of,
    rows_typed,
    uses_more,
)
from rodbook.desk.platform.grid_rows import drawn_rows
from rodbook.desk.platform.job_page import JobPage, job_page, read_base
from rodbook.desk.platform.renaming import follow
from rodbook.desk.platform.saving import saved_or_told
from rodbook.desk.platform.throwing_away import throw_draft_away
from rodbook.desk.platform.uploads import asks_western, in_western, sent_list
from rodbook.errors import Fault, InputError, RodbookError
from rodbook.job import Opening
from rodbook.job.files import read_openings_apart
from rodbook.job.proposals import with_leaves_proposed

__all__ = ["bring_in", "draft_out", "grid"]


def _kept(document: store.Document, name: str) -> list[dict[str, object]]:
    result = document.get(name, [])
    assert isinstance(result, list)
    return [dict(entry) for entry in result if isinstance(entry, dict)]


@require_http_methods(["GET", "HEAD", "POST"])
def grid(request: HttpRequest, pk: int) -> HttpResponse:
    """Show the openings and the fixed panels, or save what was typed."""
    page = job_page(pk)
    openings, panels, runs = (_kept(store.as_document(page.job), name) for name in ("openings", "panels", "runs"))
    rows, panel_rows, run_rows = (
        rows_of(entries, grid, locale=page.book.locale)
        for entries, grid in ((openings, OPENINGS), (panels, PANELS), (runs, RUNS))
    )
    elsewhere: list[Fault] = []
    base = read_base(request) if request.method == "POST" else page.revision.number
    if request.method == "POST":
        rows = rows_typed(request.POST)
        panel_rows = rows_typed(request.POST, PANELS) if "p0-mark" in request.POST else panel_rows
        run_rows = rows_typed(request.POST, RUNS) if "t0-mark" in request.POST else run_rows
        kept, kept_panels, kept_runs = list[Row](), list[Row](), list[Row]()
        faults: tuple[Fault, ...] = ()

        def as_typed(began: store.Document) -> store.Kept:
            nonlocal kept, kept_panels, kept_runs, faults
            runs_then = _kept(began, "runs")
            raw, kept = raw_openings(rows, _kept(began, "openings"))
            document: store.Document = {**began, "openings": cast("Value", raw)}
            if "p0-mark" in request.POST:
                raw, kept_panels = raw_openings(panel_rows, _kept(began, "panels"), PANELS)
                document["panels"] = cast("Value", raw)
            raw = runs_then
            if "t0-mark" in request.POST:
                raw, kept_runs = raw_openings(run_rows, runs_then, RUNS)
            document["runs"] = cast("Value", _with_new_marks(raw, runs_then, kept))
            try:
                return store.read_job_document(document, page.book)
            except InputError as error:
                faults = error.faults
                then = store.read_job_document(began, page.book)
                job = sound_rows(document, faults, (kept, kept_panels, kept_runs), then, page.book)
                if job is None or job == then:
                    raise
                return job

        saved = True
        try:
            answer = saved_or_told(request, page.folder, base, as_typed, page.book)
        except InputError as error:
            faults, saved, answer = error.faults, False, None
        if saved:
            if answer is not None:
                return answer
            now = store.job_now(page.folder)[1]
            marks = {o.mark for o in now.openings}
            follow(
                page.folder,
                {row.was: row.cells["mark"] for row in kept if row.was and row.cells.get("mark") in marks},
                now,
            )
            if not faults:
                return _saved(request, pk)
            page = job_page(pk)
            if (
                page.revision.number <= base + 1
            ):  # else the rows are older than what others saved, and stay on what they show
                base = page.revision.number
                as_they_are_now((kept, kept_panels, kept_runs), faults)
            messages.info(request, _("The rows at fault are not in it: they stay here as they were typed."))
        elsewhere = put_faults(faults, kept, kept_panels, kept_runs)
    else:
        put_faults(
            [f for one in (page.plan.aside if page.plan else ()) for f in one.faults] or page.faults,
            rows,
            panel_rows,
            run_rows,
        )
    wrong = request.method == "POST"
    names = {"build_ups": [b.name for b in page.book.build_ups], "boards": [b.name for b in page.book.boards]}
    context = page.context(
        "openings",
        unsaved=wrong,
        drawn=drawn_rows(rows, names=names),
        columns=COLUMNS,
        elsewhere=elsewhere,
        begun=_begun(page),
        more=uses_more(rows) or "more" in request.POST,
        panels=drawn_rows(panel_rows, PANELS, names),
        panel_columns=PANELS.columns,
        count=len(page.job.panels),
        panels_open=bool(panels) or any(row.faults or not row.blank for row in panel_rows),
        runs=drawn_rows(run_rows, RUNS),
        run_columns=RUNS.columns,
        run_count=len(page.job.runs),
        runs_open=bool(runs) or any(row.faults or not row.blank for row in run_rows),
        running=page.plan.runs if page.plan else (),
        base=base,
    )
    return render(request, "desk/openings.html", context, status=422 if wrong else 200)


def _saved(request: HttpRequest, pk: int) -> HttpResponse:
    """Back to the grid; the address says which draft kept in the browser is in the job now."""
    draft = request.POST.get("draft", "")
    there = reverse("openings", kwargs={"pk": pk})
    return redirect(f"{there}?{urlencode({'saved': draft})}" if re.fullmatch(r"[0-9a-z]{1,40}", draft) else there)


def _with_new_marks(
    raw: Sequence[dict[str, object]], runs: Sequence[Mapping[str, object]], kept: Sequence[Row]
) -> list[dict[str, object]]:
    """Runs whose openings were typed as they were, with the new marks of those that got one in the same breath."""
    new = {row.was: row.cells["mark"] for row in kept if row.was and row.cells.get("mark", row.was) != row.was}
    before = {str(run.get("name")): run.get("openings") for run in runs}
    results = []
    for run in raw:
        marks = run.get("openings")
        if isinstance(marks, list) and marks == before.get(str(run.get("name"))):
            run = {**run, "openings": [new.get(str(mark), mark) for mark in marks]}
        results.append(run)
    return results


def _begun(page: JobPage) -> list[dict[str, object]]:
    """What was read on site and is not in the job: openings only begun, and readings that wait for others."""
    marks = {o.mark for o in page.job.openings}
    taken = Counter(Photo.objects.filter(folder=page.folder).values_list("mark", flat=True))
    results: list[dict[str, object]] = []
    for draft in Draft.objects.filter(folder=page.folder):
        waiting = not_in(next((o for o in page.job.openings if o.mark == draft.mark), None), draft.readings)
        read = sum(place_named(name) is not None for name in waiting)
        if read or draft.mark not in marks:
            new = draft.mark not in marks
            results.append({"mark": draft.mark, "read": read, "new": new, "pictures": taken[draft.mark] if new else 0})
    return results


@require_POST
def draft_out(request: HttpRequest, pk: int, mark: str) -> HttpResponse:
    """Throw away what was begun on site and is not in the job."""
    page = job_page(pk)
    in_job = any(o.mark == mark for o in page.job.openings)
    if throw_draft_away(page.folder, mark, in_job=in_job):
        what = f"The readings of {mark} that were not in the job are" if in_job else f"The beginning of {mark} is"
        messages.success(request, _("%(what)s thrown away.") % {"what": what})
    else:
        messages.error(request, _("Nothing waits for %(mark)s: it is in the job or gone already.") % {"mark": mark})
    return redirect("openings", pk=pk)


def _sent(request: HttpRequest, known: Collection[str]) -> tuple[list[dict[str, object]], tuple[Fault, ...]]:
    """Openings of the list that was sent or of the block that was pasted, and the faults of rows that stay out.

    Raises
    ------
    RodbookError
        A sentence for whatever is wrong with it.
    """
    if "pasted" in request.POST:
        result, faults = pasted_openings(request.POST["pasted"], request.POST.get("filled", ""))
    else:
        with sent_list(request, too_large="desk.no_job_so_long") as path:
            result, faults = read_openings_apart(path, western=in_western(request))
    if faults and not result:
        raise InputError(faults)
    raws = [opening.model_dump(mode="json", exclude_unset=True) for opening in result]
    return [raw if raw["mark"] in known else with_leaves_proposed(raw) for raw in raws], faults


def _brought_in(listed: Sequence[dict[str, object]]) -> Callable[[store.Document], store.Document]:
    """The change that brings openings of a list in."""

    def brought(began: store.Document) -> store.Document:
        before = {str(o["mark"]): o for o in _kept(began, "openings")}
        merged = {**before, **{str(o["mark"]): _joined(before.get(str(o["mark"]), {}), o) for o in listed}}
        return {**began, "openings": cast("Value", list(merged.values()))}

    return brought


def _why_unread(error: Exception) -> tuple[Fault, ...]:
    return (Fault("", error.message) if isinstance(error, RodbookError) else Fault("", "desk.list_not_looked_at"),)


@require_http_methods(["GET", "HEAD", "POST"])
def bring_in(request: HttpRequest, pk: int) -> HttpResponse:
    """Look at a list, saying row by row what will happen, then bring it in."""
    page = job_page(pk)
    before = {str(o["mark"]): o for o in _kept(store.as_document(page.job), "openings")}
    faults: tuple[Fault, ...] = ()
    status, listed, out = 200, list[dict[str, object]](), tuple[Fault, ...]()
    if request.method == "POST":
        try:
            confirmed = request.POST.get("confirmed")
            if confirmed:
                listed = json.loads(confirmed)
                answer = saved_or_told(request, page.folder, read_base(request), _brought_in(listed), page.book)
                return answer or redirect("openings", pk=pk)
            listed, out = _sent(request, before)
            store.read_job_document(_brought_in(listed)(store.as_document(page.job)), page.book)
        except InputError as error:
            faults, status, listed = error.faults, 422, []
        except (RodbookError, ValueError, TypeError, KeyError, RecursionError) as error:
            faults, status, listed = _why_unread(error), 422, []
    preview = [_what_happens(o, before) for o in listed]
    if listed and not any(row["does"] != "stays as it is" for row in preview):
        messages.info(request, _("Everything in this list is here already."))
    context = page.context(
        "openings",
        preview=preview,
        faults=faults,
        out=out,
        confirmed=json.dumps(listed) if listed else "",
        asks_western=asks_western(faults),
    )
    return render(request, "desk/bring_in.html", context, status=status)


def _joined(old: dict[str, object], given: dict[str, object]) -> dict[str, object]:
    """An opening with what a list says of it; an empty cell there leaves what stands here.

    Readings make a planned opening a standing one, and the size that was wanted goes; a wanted size the other way round.
    A leaf that is wanted takes the place of a clear size, and the other way round.
    """
    now = {**old, **given}
    for wanted, other in (("leaf", "clear"), ("clear", "leaf")):
        if wanted in given and other not in given:
            now.pop(other, None)
    if "state" not in given and "widths" in given and "heights" in given:
        now["state"] = "standing"
    if now.get("state", "standing") != old.get("state", "standing"):
        dropped = (
            ("widths", "heights", "diagonals", "readings", "read_by")
            if now.get("state") == "planned"
            else ("leaf", "clear")
        )
        now = {name: value for name, value in now.items() if name not in dropped or name in given}
    return Opening.model_validate(now).model_dump(mode="json", exclude_defaults=True)


def _what_happens(opening: dict[str, object], before: dict[str, dict[str, object]]) -> dict[str, object]:
    mark = str(opening["mark"])
    if mark not in before:
        fields = {name: value for name, value in _joined({}, opening).items() if name != "mark"}
        texts = tuple(sentence(change, new=True) for change in changed({}, cast("store.Document", fields)))
        return {"mark": mark, "does": "is added", "changes": texts}
    old = before[mark]
    texts = in_words(cast("store.Document", old), cast("store.Document", _joined(old, opening)))
    return {"mark": mark, "does": "is changed" if texts else "stays as it is", "changes": texts}
