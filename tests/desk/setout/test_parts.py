"""The page of parts: schedule, fronts, workings, and margins and gaps tried out and kept."""

import re

import pytest

from rodbook.desk.models import Folder
from rodbook.desk.platform import store
from rodbook.desk.platform.planning import planner
from rodbook.desk.setout.fronts import figures_of, front_views, part_rows
from rodbook.papers.parts_schedule.content import fronts_of

HTMX = {"HX-Request": "true"}


def _plan(pk):
    _, job = store.job_now(Folder.objects.get(pk=pk))
    return planner.parts(job, store.book_now()[2])


def _form(inside, pk):
    """The form of margins and gaps as a browser would send it back unchanged."""
    page = inside.get(f"/jobs/{pk}/parts/").content.decode()
    form = page[page.index('<form id="figures"') : page.index("</form>", page.index('<form id="figures"'))]
    return dict(re.findall(r'name="(base|build_up|front)" value="([^"]*)"', form)) | dict(
        re.findall(r'id="f-\w+" name="(\w+)" value="([^"]*)"', form)
    )


def test_the_schedule_shows_every_part_with_the_working_of_its_size(inside, store_job):
    page = inside.get(f"/jobs/{store_job}/parts/").content.decode()
    plan = _plan(store_job)
    assert page.count('<details id="part-') == len(plan.schedule)
    for row in part_rows(plan):
        assert f'<th scope="row"><a href="/jobs/{store_job}/parts/part/{row.mark}/">{row.mark}</a></th>' in page
        assert row.openings in page
    leaf = "leaf width = (clear width 791.0 − 2 × margin 3.0 − 1 × meeting gap 3.0) ÷ 2 = 391.0"
    assert page.count(leaf) >= 2  # with its front and with its door


def test_every_front_is_drawn_from_the_room_and_cut_through(inside, store_job):
    page = inside.get(f"/jobs/{store_job}/parts/").content.decode()
    plan = _plan(store_job)
    for front in fronts_of(plan):
        assert f"Level section of {front.name}" in page
    assert page.count('class="drawing elevation"') == 4  # the single leaf hangs left in some openings, right in others
    assert not re.search(r"<style|\sstyle=|<script(?![^>]*src=)", page)


def test_each_size_of_a_front_carries_all_the_lines_behind_it(inside, store_job):
    plan = _plan(store_job)
    (view, *_) = front_views(plan)
    set_out = fronts_of(plan)[0].set_out
    by_words = {size.words: size for size in view.sizes}
    assert by_words["leaf width"].lines == set_out.leaf_width.trail()
    assert by_words["meeting gap"].lines == set_out.dimension("meeting gap").trail()
    assert {gap.name for gap in set_out.gaps} <= set(by_words)


def test_a_changed_margin_shows_what_it_does_and_is_not_kept(inside, store_job):
    form = _form(inside, store_job) | {"margin": "4,5"}
    reply = inside.post(f"/jobs/{store_job}/parts/try/", form, headers=HTMX)
    fragment = reply.content.decode()
    assert reply.status_code == 200
    assert fragment.lstrip().startswith('<div id="set-out">')
    assert "Tried out, not kept" in fragment
    # By hand: (791 - 2 x 4.5 - 3) / 2 = 389.5
    assert "<small>was 391</small> 389.5" in fragment
    assert "changed" in fragment
    assert "<html" not in fragment
    assert store.book_now()[1].number == 1


def test_the_same_without_scripts_is_a_whole_page(inside, store_job):
    page = inside.post(f"/jobs/{store_job}/parts/try/", _form(inside, store_job) | {"margin": "4.5"}).content.decode()
    assert "<html" in page
    assert "<small>was 391</small> 389.5" in page
    assert 'id="f-margin" name="margin" value="4.5"' in page
    linked = inside.get(f"/jobs/{store_job}/parts/", {"build_up": "inset, painted", "margin": "4.5"}).content.decode()
    assert "<small>was 391</small> 389.5" in linked


def test_figures_as_in_the_book_are_no_trial(inside, store_job):
    fragment = inside.post(f"/jobs/{store_job}/parts/try/", _form(inside, store_job), headers=HTMX).content.decode()
    assert "Tried out" not in fragment


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [("wide", "is not a length"), ("", "a length is missing here"), ("-2", "has to be at least 0")],
)
def test_a_fault_stands_beside_its_field_and_what_was_typed_is_kept(inside, store_job, typed, sentence):
    form = _form(inside, store_job) | {"meeting_gap": typed}
    for address in ("try", "keep"):
        reply = inside.post(f"/jobs/{store_job}/parts/{address}/", form)
        page = reply.content.decode()
        assert reply.status_code == 422
        assert sentence in page[page.index('id="fault-meeting_gap"') :][:200]
        assert re.search(rf'name="meeting_gap" value="{typed}"[^>]*aria-describedby="fault-meeting_gap"', page)
    assert store.book_now()[1].number == 1
    reply = inside.post(f"/jobs/{store_job}/parts/try/", form, headers=HTMX)
    assert reply.status_code == 422
    assert reply.headers["HX-Retarget"] == "#figures"
    assert reply.content.decode().count("<form") == 1


def test_when_a_fault_is_put_right_the_form_comes_with_the_drawings(inside, store_job):
    form = _form(inside, store_job) | {"had_fault": "1"}
    fragment = inside.post(f"/jobs/{store_job}/parts/try/", form, headers=HTMX).content.decode()
    assert 'hx-swap-oob="true"' in fragment
    form.pop("had_fault")
    fragment = inside.post(f"/jobs/{store_job}/parts/try/", form, headers=HTMX).content.decode()
    assert "<form" not in fragment


def test_what_can_not_be_built_is_said(inside, store_job):
    form = _form(inside, store_job) | {"margin": "180"}
    reply = inside.post(f"/jobs/{store_job}/parts/try/", form)
    assert reply.status_code == 422
    assert "C3: a leaf would be 112.0 mm wide" in reply.content.decode()
    assert 'name="margin" value="180"' in reply.content.decode()


def test_kept_figures_are_a_revision_of_the_book(inside, store_job):
    form = _form(inside, store_job) | {"margin": "4"}
    assert inside.post(f"/jobs/{store_job}/parts/keep/", form).status_code == 302
    _, revision, book = store.book_now()
    assert revision.number == 2
    assert revision.said == "inset, painted: margin 3 → 4"
    assert book.build_up("inset, painted").margin == 4
    page = inside.get(f"/jobs/{store_job}/parts/").content.decode()
    assert "in the book 4" in page
    assert "Tried out" not in page


def test_two_who_change_different_figures_both_keep_theirs_and_one_figure_is_told(inside, store_job):
    mine = _form(inside, store_job) | {"margin": "4"}
    theirs = _form(inside, store_job) | {"meeting_gap": "2.5"}
    again = _form(inside, store_job) | {"margin": "5"}
    assert inside.post(f"/jobs/{store_job}/parts/keep/", theirs).status_code == 302
    assert inside.post(f"/jobs/{store_job}/parts/keep/", mine).status_code == 302
    figures = store.book_now()[2].build_up("inset, painted")
    assert (figures.margin, figures.meeting_gap) == (4, 2.5)
    assert inside.post(f"/jobs/{store_job}/parts/keep/", again).status_code == 409
    assert store.book_now()[2].build_up("inset, painted").margin == 4


def test_only_the_owner_keeps_figures(inside, store_job, monkeypatch):
    form = _form(inside, store_job) | {"margin": "4"}
    monkeypatch.setattr("rodbook.desk.platform.access.role_of", lambda _request: "maker")
    page = inside.get(f"/jobs/{store_job}/parts/").content.decode()
    assert "Keep in the book" not in page
    assert inside.post(f"/jobs/{store_job}/parts/try/", form, headers=HTMX).status_code == 200
    assert inside.post(f"/jobs/{store_job}/parts/keep/", form).status_code == 403
    assert store.book_now()[1].number == 1


def test_nothing_but_margins_and_gaps_is_taken(inside, store_job):
    form = _form(inside, store_job) | {"margin": "4", "leaf_board": "18 mm MDF", "name": "mine", "build_up": "no such"}
    assert inside.post(f"/jobs/{store_job}/parts/keep/", form).status_code == 302
    figures = store.book_now()[2].build_up("inset, painted")
    assert (figures.leaf_board, figures.margin) == ("22 mm MDF", 4)


def test_of_many_fronts_one_is_drawn(inside, store_job, monkeypatch):
    monkeypatch.setattr("rodbook.desk.setout.part_views.ALL_AT_ONCE", 2)
    page = inside.get(f"/jobs/{store_job}/parts/", {"front": "2"}).content.decode()
    assert page.count('<section class="front"') == 1
    assert 'id="front-2"' in page
    assert page.count('aria-current="true"') == 1
    fragment = inside.post(f"/jobs/{store_job}/parts/try/", _form(inside, store_job) | {"front": "3"}, headers=HTMX)
    assert 'id="front-3"' in fragment.content.decode()
    for odd in ("0", "99", "x", "-1", "²"):
        assert 'id="front-1"' in inside.get(f"/jobs/{store_job}/parts/", {"front": odd}).content.decode()


def test_a_lay_on_build_up_has_its_laps(inside):
    reply = inside.post("/jobs/sample/", {"sample": "timber-house"})
    pk = int(reply.headers["Location"].split("/")[2])
    names = [f.name for figures in figures_of(_plan(pk)).values() for f in figures]
    assert {"margin", "lap", "lap_top", "meeting_gap", "floor_clearance"} <= set(names)
    assert inside.get(f"/jobs/{pk}/parts/").status_code == 200


def test_a_job_of_panels_has_a_schedule_and_no_front(inside):
    reply = inside.post("/jobs/sample/", {"sample": "stair"})
    pk = int(reply.headers["Location"].split("/")[2])
    folder = Folder.objects.get(pk=pk)
    revision, job = store.job_now(folder)
    store.save(folder, revision.number, lambda _: job.model_copy(update={"openings": ()}), who="tester")
    page = inside.get(f"/jobs/{pk}/parts/").content.decode()
    assert "panel length = 505.0 (job)" in page
    assert '<form id="figures"' not in page
    assert inside.post(f"/jobs/{pk}/parts/try/", {"margin": "4"}).status_code == 302
    assert inside.post(f"/jobs/{pk}/parts/keep/", {"margin": "4", "base": "1"}).status_code == 302


def test_changes_are_posted_and_a_missing_job_is_not_found(inside, store_job):
    for address in ("try", "keep"):
        assert inside.get(f"/jobs/{store_job}/parts/{address}/").status_code == 405
        assert inside.post(f"/jobs/999/parts/{address}/", {"base": "1"}).status_code == 404
    assert inside.get("/jobs/999/parts/").status_code == 404
    assert inside.post(f"/jobs/{store_job}/parts/keep/", {"margin": "4"}).status_code == 404
