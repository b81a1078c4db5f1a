"""The page of boards: layouts with their proof, and each sheet stepped through cut by cut."""

import re
from datetime import date

import pytest
from django.urls import reverse

from rodbook.boards import Saw, cut_list
from rodbook.desk.make.cutting import cut_view, keeps_of, sheet_count, stocks_of
from rodbook.desk.make.offcut_ledger import put_away, tick_off
from rodbook.desk.models import Folder
from rodbook.desk.platform import store
from rodbook.desk.platform.job_page import job_page
from rodbook.desk.platform.pictures import freed_by
from rodbook.desk.platform.planning import Work, content_key, planner, shown_key
from rodbook.errors import Fault, InputError
from rodbook.plan import from_waste, kept_offcuts, make_plan, used_offcuts
from rodbook.plan.analyses.resting import rests_on

HTMX = {"HX-Request": "true"}


def _work(pk):
    """The work of a job, put in the planner's hands."""
    _, job = store.job_now(Folder.objects.get(pk=pk))
    book = store.book_now()[2]
    key = content_key(job, book)
    return job, book, key


@pytest.fixture(scope="module")
def laid_out():
    """Plans worked out once for this module, by content."""
    return {}


@pytest.fixture
def plan(store_job, laid_out, monkeypatch):
    """The converted store with its layouts, as a worker would have handed them in."""
    job, book, key = _work(store_job)
    if key not in laid_out:
        laid_out[key] = make_plan(job, book, seconds=1.0)
    monkeypatch.setitem(planner._works, key, Work(key, "done", plan=laid_out[key]))
    return laid_out[key]


def test_before_they_are_worked_out_there_is_a_button(inside, store_job, monkeypatch):
    _, _, key = _work(store_job)
    monkeypatch.delitem(planner._works, key, raising=False)
    page = inside.get(f"/jobs/{store_job}/boards/").content.decode()
    assert f'action="{reverse("work-start", args=[store_job])}"' in page
    assert '<input type="hidden" name="after" value="boards">' in page
    assert "<svg role" not in page
    assert inside.get(f"/jobs/{store_job}/boards/1/").status_code == 302


def test_progress_and_faults_are_told(inside, store_job, monkeypatch):
    _, _, key = _work(store_job)
    monkeypatch.setitem(planner._works, key, Work(key, "running", "layouts: 22 mm MDF", 2, 6))
    page = inside.get(f"/jobs/{store_job}/boards/").content.decode()
    assert re.search(r'<progress[^>]* max="6" value="2"', page)
    assert f'action="{reverse("work-stop", args=[store_job])}"' in page
    monkeypatch.setitem(
        planner._works, key, Work(key, "failed", faults=(Fault("door of C1", "plain.text", text="it fits no sheet"),))
    )
    page = inside.get(f"/jobs/{store_job}/boards/").content.decode()
    assert "door of C1: it fits no sheet" in page


def test_every_board_and_length_is_drawn_with_its_proof(inside, store_job, plan):
    page = inside.get(f"/jobs/{store_job}/boards/").content.decode()
    stocks = stocks_of(plan, prices=True)
    drawn = sum(len(stock.sheets) + len(stock.lengths) for stock in stocks)
    assert drawn > 2
    assert page.count('class="touch-drawing"') == drawn
    assert [sheet.number for stock in stocks for sheet in stock.sheets] == list(range(1, sheet_count(plan) + 1))
    for stock in stocks:
        assert f">{stock.takes}</td>" in page
        assert f">{stock.proof}</td>" in page
        assert stock.cost in page
    assert not re.search(r"<style|\sstyle=|<script(?![^>]*src=)", page)


def test_every_part_in_a_layout_leads_to_the_working_of_its_size(inside, store_job, plan):
    page = inside.get(f"/jobs/{store_job}/boards/").content.decode()
    links = re.findall(r'<a class="dim" href="#([^"]+)" aria-label="([^"]+)"', page)
    pieces = sum(len(layout.placed) for m in plan.materials if m.sheets for layout in m.sheets.layouts)
    assert len(links) >= pieces
    for ident, said in links:
        (working,) = re.findall(rf'id="{ident}" data-words="([^"]+), length[^"]*"', page)
        assert working in said
    leaf = next(line.part for line in plan.schedule if line.mark == "1-door-left")
    assert leaf.length.trail()[-1] in page


def test_prices_are_the_owners(inside, store_job, plan, monkeypatch):
    amounts = [stock.cost for stock in stocks_of(plan, prices=True)]
    monkeypatch.setattr("rodbook.desk.platform.access.role_of", lambda _request: "maker")
    page = inside.get(f"/jobs/{store_job}/boards/").content.decode()
    assert page.count('class="touch-drawing"')
    assert all(amount not in page for amount in amounts if amount)
    assert not re.search(r"[€£$]\s?\d|\d\s?[€£$]", page)
    assert ">Cost<" not in page
    assert not any(stock.cost for stock in stocks_of(plan, prices=False))


def test_a_sheet_is_stepped_through_from_the_first_cut_to_the_last(inside, store_job, plan):
    layout = next(layout for m in plan.materials if m.sheets for layout in m.sheets.layouts)
    saw = Saw(kerf=plan.book.saw.kerf, edge_trim=plan.book.saw.edge_trim)
    steps = cut_list(layout, saw).steps
    first = " ".join(inside.get(f"/jobs/{store_job}/boards/1/").content.decode().split())
    assert f"cut 1 of {len(steps)}" in first
    assert "The cut before" not in first
    for step in steps:
        reply = inside.get(f"/jobs/{store_job}/boards/1/", {"cut": step.number}, headers=HTMX)
        fragment = " ".join(reply.content.decode().split())
        assert fragment.lstrip().startswith('<div id="cutting">')
        assert f"<strong>{step.number}.</strong>" in fragment
        assert f"<strong>{step.fence:g}</strong> mm" in fragment
        assert fragment.count("<li>") == step.number - 1
        if step.use == "piece":
            assert f"<strong>{step.yields}</strong>" in fragment
    last = " ".join(inside.get(f"/jobs/{store_job}/boards/1/", {"cut": len(steps) + 1}).content.decode().split())
    assert f"all {len(steps)} cuts made" in last
    assert "Next cut" not in last


def test_by_the_last_cut_every_part_of_every_layout_is_free(plan):
    saw = Saw(kerf=plan.book.saw.kerf, edge_trim=plan.book.saw.edge_trim)
    for material in plan.materials:
        for layout in material.sheets.layouts if material.sheets else ():
            freed = freed_by(layout, saw)
            steps = cut_list(layout, saw).steps
            assert len(freed) == len(steps)
            pieces = [b.name for _, free in freed for _, b in free if b.use == "piece"]
            if layout.tree.use == "cut":
                assert sorted(pieces) == sorted(placed.name for placed in layout.placed)
            for step, (_, free) in zip(steps, freed, strict=True):
                if step.use == "trim":
                    assert free == ()
                else:
                    assert step.yields == (free[0][1].name or free[0][0])


def test_the_drawing_shows_what_is_free_and_the_next_cut(plan):
    saw = Saw(kerf=plan.book.saw.kerf, edge_trim=plan.book.saw.edge_trim)
    layout = next(layout for m in plan.materials if m.sheets for layout in m.sheets.layouts)
    freed = freed_by(layout, saw)
    for at in range(1, len(freed) + 2):
        view = cut_view(plan, 1, at)
        pieces = sum(b.use == "piece" for _, free in freed[: at - 1] for _, b in free)
        assert len(re.findall(r'<polygon[^>]*data-role="piece"', view.svg)) >= pieces
        assert ('data-role="next cut"' in view.svg) is (at <= len(freed))
        begun = [board for board, _ in freed[:at]]
        waiting = [label for _, free in freed[: at - 1] for label, b in free if b.use == "cut" and b not in begun]
        assert re.findall(r">board ([\d.]+)</text>", view.svg) == waiting


@pytest.mark.parametrize("odd", ["0", "-3", "x", "²", "99999999", ""])
def test_an_odd_number_in_the_address_is_brought_within_what_there_is(inside, store_job, plan, odd):
    assert inside.get(f"/jobs/{store_job}/boards/1/", {"cut": odd}).status_code == 200


def test_it_is_only_looked_at_and_what_is_missing_is_not_found(inside, store_job, plan):
    assert inside.get("/jobs/999/boards/").status_code == 404
    assert inside.get("/jobs/999/boards/1/").status_code == 404
    assert inside.get(f"/jobs/{store_job}/boards/{sheet_count(plan) + 1}/").status_code == 404
    assert inside.get(f"/jobs/{store_job}/boards/0/").status_code == 404
    assert inside.post(f"/jobs/{store_job}/boards/").status_code == 405
    assert inside.post(f"/jobs/{store_job}/boards/1/").status_code == 405


def test_offcuts_to_keep_have_labels_and_a_worth_for_those_who_see_prices(plan):
    making = {line.part.kind.value: "site-made" for line in plan.schedule}
    job = plan.job.model_validate({**plan.job.model_dump(), "making": making})
    whole = make_plan(job, plan.book, seconds=1.0)
    seen, hidden = keeps_of(whole, prices=True), keeps_of(whole, prices=False)
    assert seen[0].label.startswith("O-18")
    assert all(keep.worth.startswith("€") for keep in seen)
    assert [keep.worth for keep in hidden] == [""] * len(seen)
    shown = next(s for stock in stocks_of(whole, prices=False) for s in stock.sheets if s.number == seen[0].layout)
    assert f"Keep the offcut {seen[0].size} as {seen[0].label}." in shown.sum
    assert keeps_of(plan, prices=True) == ()  # bought in: the workshop keeps its own


@pytest.fixture
def galley(inside, laid_out, monkeypatch):
    """The galley with its layouts, whose boxes are cut on site."""
    reply = inside.post("/jobs/sample/", {"sample": "galley"})
    pk = int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1])
    _lay_out(pk, laid_out, monkeypatch)
    return pk


def _lay_out(pk, laid_out, monkeypatch):
    """The plan of a job as it stands, handed in as by a worker."""
    job, book, key = _work(pk)
    if key not in laid_out:
        laid_out[key] = make_plan(job, book, kept=laid_out.setdefault("kept", {}))
    monkeypatch.setitem(planner._works, key, Work(key, "done", plan=laid_out[key]))
    return laid_out[key]


def laid(pk):
    """The plan of a job as the page shows it."""
    return planner._works[_work(pk)[2]].plan


def test_pieces_wanted_elsewhere_are_listed_and_drawn(inside, galley):
    plan = laid(galley)
    page = inside.get(f"/jobs/{galley}/boards/").content.decode()
    found = from_waste(plan)
    assert found
    for piece in found:
        assert piece.purpose in page
        assert f"{piece.number} of {piece.wanted}" in page
        assert f"€{piece.worth_of_all}" in page
    drawn = sum(p.name in m.wanted_names for _, m, layout in plan.layouts() for p in layout.placed)
    assert page.count('data-role="wanted elsewhere"') == drawn
    number = found[0].layouts[0][0]
    assert f"× {found[0].name}" in page.split(f'id="layout-{number}"')[1].split("<figure")[0]
    cuts = inside.get(f"/jobs/{galley}/boards/{number}/?cut=999", headers=HTMX).content.decode()
    assert f"{found[0].name}, wanted elsewhere" in cuts
    assert 'data-role="wanted elsewhere"' in cuts


def test_what_they_are_worth_is_the_owners(inside, galley, monkeypatch):
    monkeypatch.setattr("rodbook.desk.make.board_views.sees_prices", lambda _request: False)
    monkeypatch.setattr("rodbook.desk.platform.access.sees_prices", lambda _request: False)
    page = inside.get(f"/jobs/{galley}/boards/").content.decode()
    for piece in from_waste(laid(galley)):
        assert f"{piece.number} of {piece.wanted}" in page
        assert f"€{piece.worth_of_all}" not in page


def form_of(inside, pk, what):
    """What a form of the page sends as it stands; None where it is not there."""
    page = inside.get(f"/jobs/{pk}/boards/").content.decode()
    parts = page.split(f'action="/jobs/{pk}/boards/{what}/"')
    if len(parts) == 1:
        return None
    form = parts[1].split("</form>")[0]
    return {
        "base": re.search(r'name="base" value="(\d+)"', form)[1],
        "label": re.findall(r'name="label" value="([^"]*)"', form),
        "number": re.findall(r'name="number" value="([^"]*)"', form),
    }


def sent(inside, pk):
    """The form that ticks off, as it stands on the page."""
    return form_of(inside, pk, "taken")


def wanted_now():
    return {piece.label: piece.number for board in store.book_now()[2].boards for piece in board.wanted}


@pytest.fixture
def started(monkeypatch):
    """What would be worked out in the background."""
    begun = []
    whole = planner.whole

    def noted(job, book, *, start=True):
        if start:
            begun.append(content_key(job, book))
        return whole(job, book, start=False)

    monkeypatch.setattr(planner, "whole", noted)
    return begun


def test_what_is_cut_is_ticked_off_once(inside, galley, started, laid_out, monkeypatch):
    before, form = wanted_now(), sent(inside, galley)
    cut = {piece.label: piece.number for piece in from_waste(laid(galley))}
    assert dict(zip(form["label"], map(int, form["number"]), strict=True)) == cut
    page = inside.post(f"/jobs/{galley}/boards/taken/", form, follow=True).content.decode()
    assert f"{sum(cut.values())} pieces are ticked off" in page
    after = {label: number - cut.get(label, 0) for label, number in before.items()}
    assert wanted_now() == {label: number for label, number in after.items() if number}
    _, job = store.job_now(Folder.objects.get(pk=galley))
    assert {taken.label: taken.number for taken in job.taken} == cut
    assert started == [content_key(job, store.book_now()[2])]
    again = inside.post(f"/jobs/{galley}/boards/taken/", form, follow=True).content.decode()
    assert "none is taken off the list twice" in again
    assert wanted_now() == {label: number for label, number in after.items() if number}
    plan = _lay_out(galley, laid_out, monkeypatch)
    assert {piece.label: piece.number for piece in from_waste(plan)} == cut
    page = inside.get(f"/jobs/{galley}/boards/").content.decode()
    assert "Ticked off as cut" in page
    assert "/boards/taken/" not in page


def test_two_clicks_at_once_take_once(inside, galley, started):
    """The second is sent from the same page, before it could know of the first; and one that looked at the job before it."""
    form, plan = sent(inside, galley), laid(galley)
    folder = Folder.objects.get(pk=galley)
    cut = dict(zip(form["label"], form["number"], strict=True))
    tick_off(folder, int(form["base"]), plan, cut, who="one", day=date(2026, 11, 26))
    after = wanted_now()
    with pytest.raises(InputError, match="twice"):
        tick_off(folder, int(form["base"]), plan, cut, who="two", day=date(2026, 11, 26))
    assert wanted_now() == after


def test_fewer_may_have_been_cut(inside, galley, started):
    form, before = sent(inside, galley), wanted_now()
    form["number"] = ["1", *("0" for _ in form["number"][1:])]
    inside.post(f"/jobs/{galley}/boards/taken/", form)
    first = form["label"][0]
    assert wanted_now() == before | {first: before[first] - 1}
    _, job = store.job_now(Folder.objects.get(pk=galley))
    assert [(taken.label, taken.number) for taken in job.taken] == [(first, 1)]


@pytest.mark.parametrize("number", ["", "-1", "nan", "1e3", "99999", "13", "²", "x" * 500])
def test_a_number_that_is_none_ticks_nothing_off(inside, galley, started, number):
    form, before = sent(inside, galley), wanted_now()
    at = form["label"].index("W-2")
    form["number"][at] = number
    page = inside.post(f"/jobs/{galley}/boards/taken/", form, follow=True).content.decode()
    assert "Nothing is ticked off: W-2" in page
    assert wanted_now() == before
    assert store.job_now(Folder.objects.get(pk=galley))[1].taken == ()


def test_nothing_is_ticked_off_by_an_old_page_or_a_made_up_label(inside, galley, started, laid_out, monkeypatch):
    form, before = sent(inside, galley), wanted_now()
    none = form | {"number": ["0" for _ in form["number"]]}
    assert "nothing was cut" in inside.post(f"/jobs/{galley}/boards/taken/", none, follow=True).content.decode()
    odd = {"base": form["base"], "label": ["W-1' x"], "number": ["1"]}
    assert "not cut from this job" in inside.post(f"/jobs/{galley}/boards/taken/", odd, follow=True).content.decode()
    assert inside.post(f"/jobs/{galley}/boards/taken/", form | {"base": "x"}).status_code == 404
    inside.post("/book/wanted/out/", {"base": store.book_now()[1].number, "label": form["label"][0]})
    assert "have changed since" in inside.post(f"/jobs/{galley}/boards/taken/", form, follow=True).content.decode()
    _lay_out(galley, laid_out, monkeypatch)
    assert wanted_now() == {label: number for label, number in before.items() if label != form["label"][0]}
    assert store.job_now(Folder.objects.get(pk=galley))[1].taken == ()


def test_a_list_that_changed_between_is_left_alone(inside, galley, started):
    """The piece left the book after the layouts were looked at: neither job nor book is saved."""
    form, plan = sent(inside, galley), laid(galley)
    inside.post("/book/wanted/out/", {"base": store.book_now()[1].number, "label": form["label"][0]})
    before, folder = wanted_now(), Folder.objects.get(pk=galley)
    with pytest.raises(InputError, match="not on the list of wanted pieces any more"):
        tick_off(
            folder,
            int(form["base"]),
            plan,
            dict(zip(form["label"], form["number"], strict=True)),
            who="one",
            day=date(2026, 11, 26),
        )
    assert wanted_now() == before
    assert store.job_now(folder)[1].taken == ()


def test_only_owners_tick_off(inside, galley, started, monkeypatch):
    form = sent(inside, galley)
    monkeypatch.setattr("rodbook.desk.platform.access.role_of", lambda _request: "maker")
    assert inside.post(f"/jobs/{galley}/boards/taken/", form).status_code == 403
    page = inside.get(f"/jobs/{galley}/boards/").content.decode()
    assert "/boards/taken/" not in page
    assert "Wanted elsewhere" in page


def test_a_job_that_takes_none_shows_none(inside, galley, started, laid_out, monkeypatch):
    page = inside.get(f"/jobs/{galley}/").content.decode()
    header = {
        name: value
        for name, value in re.findall(r'name="([a-z_]+)" value="([^"]*)"', page)
        if name != "csrfmiddlewaretoken"
    }
    header |= {"build_up": "base cupboards, lay-on", "building": "heated now and then", "take_wanted": "false"}
    assert inside.post(f"/jobs/{galley}/header/", header).status_code == 302
    assert store.job_now(Folder.objects.get(pk=galley))[1].job.take_wanted is False
    assert '<option value="false" selected>' in inside.get(f"/jobs/{galley}/").content.decode()
    assert from_waste(_lay_out(galley, laid_out, monkeypatch)) == ()
    assert "Wanted elsewhere" not in inside.get(f"/jobs/{galley}/boards/").content.decode()
    inside.post(f"/jobs/{galley}/header/", header | {"base": 2, "take_wanted": ""})
    assert store.job_now(Folder.objects.get(pk=galley))[1].job.take_wanted is True


def put_away_form(inside, pk):
    """The form that puts offcuts away, as it stands on the page; none where there is none."""
    return form_of(inside, pk, "offcuts")


def lying_now():
    return {offcut.label: board.name for board in store.book_now()[2].boards for offcut in board.offcuts}


@pytest.fixture
def cut(inside, galley, started, laid_out, monkeypatch):
    """The galley once none of the wanted pieces was cut from it."""
    inside.post(f"/jobs/{galley}/boards/taken/", sent(inside, galley) | {"none": "yes"})
    _lay_out(galley, laid_out, monkeypatch)
    started.clear()
    return galley


def test_offcuts_wait_until_it_is_said_what_was_cut_of_the_wanted(inside, galley, started):
    assert put_away_form(inside, galley) is None
    assert "Once it is said above" in inside.get(f"/jobs/{galley}/boards/").content.decode()
    labels = [keep.labels[0] for keep in kept_offcuts(laid(galley))]
    with pytest.raises(InputError, match="say first which"):
        put_away(Folder.objects.get(pk=galley), 1, laid(galley), labels, who="one", day=date(2026, 11, 26))


def test_none_of_the_wanted_was_cut(inside, cut):
    assert not store.job_now(Folder.objects.get(pk=cut))[1].job.take_wanted
    assert from_waste(laid(cut)) == ()
    assert {piece.label for board in store.book_now()[2].boards for piece in board.wanted} == set(wanted_now())


def test_offcuts_go_into_the_book_and_used_ones_out_of_it_once(inside, cut, started, laid_out, monkeypatch):
    before, form, plan = lying_now(), put_away_form(inside, cut), laid(cut)
    kept = {label: keep.stock for keep in kept_offcuts(plan) for label in keep.labels}
    used = {offcut.label for _board, offcut in used_offcuts(plan)}
    assert kept
    assert sorted(form["label"]) == sorted([*kept, *used])
    page = inside.post(f"/jobs/{cut}/boards/offcuts/", form, follow=True).content.decode()
    assert f"{len(kept)} offcuts are in the book now" in page
    assert lying_now() == {label: board for label, board in before.items() if label not in used} | kept
    _, job = store.job_now(Folder.objects.get(pk=cut))
    assert {moved.label for moved in job.offcuts if moved.went == "in"} == set(kept)
    assert {moved.label for moved in job.offcuts if moved.went == "out"} == used
    assert started == [content_key(job, store.book_now()[2])]
    again = _lay_out(cut, laid_out, monkeypatch)
    assert [x.placed for _, _, x in again.layouts()] == [x.placed for _, _, x in plan.layouts()]
    assert put_away_form(inside, cut) is None
    page = " ".join(inside.get(f"/jobs/{cut}/boards/").content.decode().split())
    assert all(f"{label} lies in the shop" in page for label in kept)
    assert all(re.search(rf"used up:.*<strong>{label}</strong>", page) for label in used)
    page = inside.post(f"/jobs/{cut}/boards/offcuts/", form, follow=True).content.decode()
    assert "The book stays as it was" in page


def test_what_was_spoilt_is_left_out(inside, cut, started):
    form, before = put_away_form(inside, cut), lying_now()
    first = next(label for label in form["label"] if label not in before)
    inside.post(f"/jobs/{cut}/boards/offcuts/", form | {"label": [first]})
    assert lying_now().keys() - before.keys() == {first}
    assert before.keys() - lying_now().keys() == set()


@pytest.mark.parametrize("label", [[], ["O-1' x"], [""], ["W-1"]])
def test_a_label_that_is_none_puts_nothing_away(inside, cut, started, label):
    form, before = put_away_form(inside, cut), lying_now()
    page = inside.post(f"/jobs/{cut}/boards/offcuts/", form | {"label": label}, follow=True).content.decode()
    assert "The book stays as it was" in page
    assert lying_now() == before
    assert store.job_now(Folder.objects.get(pk=cut))[1].offcuts == ()


def test_a_book_or_job_that_changed_between_is_left_alone(inside, cut, started):
    """Another job put an offcut of the same label there, or used one up, after the layouts were looked at."""
    form, plan, folder = put_away_form(inside, cut), laid(cut), Folder.objects.get(pk=cut)
    first = next(label for keep in kept_offcuts(plan) for label in keep.labels)
    inside.post(
        "/book/boards/offcut/",
        {"base": store.book_now()[1].number, "board": "1", "label": first, "length": "500", "width": "300"},
    )
    before = lying_now()
    assert first in before
    with pytest.raises(InputError, match="something else since"):
        put_away(folder, int(form["base"]), plan, form["label"], who="one", day=date(2026, 11, 26))
    with pytest.raises(InputError, match="changed meanwhile"):
        put_away(folder, int(form["base"]) + 1, plan, form["label"], who="one", day=date(2026, 11, 26))
    assert lying_now() == before
    assert store.job_now(folder)[1].offcuts == ()


def test_only_owners_put_offcuts_away(inside, cut, started, monkeypatch):
    form = put_away_form(inside, cut)
    monkeypatch.setattr("rodbook.desk.platform.access.role_of", lambda _request: "maker")
    assert inside.post(f"/jobs/{cut}/boards/offcuts/", form).status_code == 403
    assert put_away_form(inside, cut) is None


def test_a_list_without_all_its_numbers_ticks_nothing_off(inside, galley, started):
    before, form = wanted_now(), sent(inside, galley)
    assert len(form["number"]) > 1
    form["number"] = form["number"][:-1]
    page = inside.post(f"/jobs/{galley}/boards/taken/", form, follow=True).content.decode()
    assert "the list came in without all its numbers" in page
    assert wanted_now() == before


# --- what a change of the book does to what is worked out ---------------------------------------------------------


def _change_book(**fields):
    folder, revision, book = store.book_now()
    store.save(folder, revision.number, lambda _: book.model_copy(update=fields), who="x", book=None)


def test_a_change_of_the_book_that_can_not_move_the_layouts_leaves_them_standing(inside, store_job, plan):
    address = f"/jobs/{store_job}/boards/"
    before = inside.get(address).content.decode()
    book = store.book_now()[2]
    named = {one["name"] for one in rests_on(plan.job, book)["boards"]}
    boards = tuple(
        b if b.name in named else b.model_copy(update={"density_high": b.density_high + 1}) for b in book.boards
    )
    assert boards != book.boards
    shops = tuple(shop.model_copy(update={"contact": "the new desk"}) for shop in book.workshops)
    firm = book.firm.model_copy(update={"contact": "another telephone"})
    _change_book(boards=boards, workshops=shops, firm=firm, taxes=())
    after = inside.get(address).content.decode()
    assert "It takes" in after
    assert after.count("<svg") == before.count("<svg")
    assert "Older:" not in after
    assert job_page(store_job).whole.book.firm.contact == "another telephone", "papers have the firm as it is now"
    assert shown_key(plan.job, book) != shown_key(plan.job, store.book_now()[2])


def test_what_can_move_them_leaves_the_old_ones_to_be_read_marked_as_older(inside, store_job, plan, monkeypatch):
    address = f"/jobs/{store_job}/boards/"
    before = inside.get(address).content.decode()
    assert "Older:" not in before
    book = store.book_now()[2]
    _change_book(saw=book.saw.model_copy(update={"kerf": book.saw.kerf + 1}))
    monkeypatch.setattr(planner, "_see_to", lambda work, asked: None)
    page = inside.get(address).content.decode()
    assert '<p class="older" role="note"><strong>Older:</strong>' in page
    assert "revision 1 of the book" in page
    assert page.count('class="drawing layout"') == before.count('class="drawing layout"') > 0
    assert "work/start/" in page, "the new ones can be begun"
    for form in ("boards/taken/", "boards/offcuts/", "/boards/1/"):
        assert f"/jobs/{store_job}/{form}" not in page, "nothing is done by what is older"
    money = inside.get(f"/jobs/{store_job}/make-or-buy/").content.decode()
    assert "Older:" in money
    assert "Kind by kind" in money
    _job, _book, key = _work(store_job)
    monkeypatch.setitem(planner._works, key, Work(key, "done", plan=plan))
    assert "Older:" not in inside.get(address).content.decode()


def test_price_orders_quotes_and_account_stay_to_be_read_marked_as_older_and_nothing_is_sent_by_them(
    inside, store_job, monkeypatch
):
    job, book, key = _work(store_job)
    priced = make_plan(job, book, seconds=0.5, outlook=True)
    monkeypatch.setitem(planner._works, key, Work(key, "done", plan=priced))
    pages = {name: f"/jobs/{store_job}/{name}/" for name in ("price", "orders", "quotes", "account")}
    before = {name: inside.get(address).content.decode() for name, address in pages.items()}
    assert not any("Older:" in page for page in before.values())
    _change_book(saw=book.saw.model_copy(update={"kerf": book.saw.kerf + 1}))
    monkeypatch.setattr(planner, "_see_to", lambda work, asked: None)
    after = {name: inside.get(address).content.decode() for name, address in pages.items()}
    for name, page in after.items():
        assert '<p class="older" role="note"><strong>Older:</strong>' in page, name
        for link in (
            "price/paper/",
            "price/given/",
            "workshop-order.pdf",
            "quotes/paper/",
            "account/paper/",
            "quotes/add/",
        ):
            assert link not in page, (name, link)
    total = re.search(r'<p class="sum">([^<]+)</p>', before["price"])
    assert total, before["price"][-3000:]
    assert total[1] in after["price"]
    assert after["orders"].count("<tr>") == before["orders"].count("<tr>") > 1
    assert inside.get(f"/jobs/{store_job}/price/paper/").status_code == 302
    assert inside.get(f"/jobs/{store_job}/papers/workshop-order.pdf/").headers["Location"].endswith("/papers/")
    assert inside.post(f"/jobs/{store_job}/price/given/", {"base": 1}).status_code == 302
    assert store.job_now(Folder.objects.get(pk=store_job))[1].price.given is None
