"""A margin is kept for this job alone or in the book, and both histories say so."""

import pytest

from rodbook.desk.models import Folder
from rodbook.desk.platform import store
from rodbook.desk.platform.job_page import job_page

PAINTED = "inset, painted"


def _keep(client, pk, where, **gaps):
    page = job_page(pk)
    form = {
        "base": page.book_revision.number,
        "job_base": page.revision.number,
        "build_up": PAINTED,
        "for": where,
        **gaps,
    }
    return client.post(f"/jobs/{pk}/parts/keep/", form, follow=True)


def _leaf(pk):
    plan = job_page(pk).plan
    return next(o.set_out.leaf_width.value for o in plan.openings if o.set_out)


def _margin(pk):
    page = job_page(pk)
    return page.book.build_up(PAINTED).margin, page.plan.book.build_up(PAINTED).margin


def test_kept_for_this_job_it_moves_this_job_alone(inside, store_job):
    other = int(
        inside.post("/jobs/sample/", {"sample": "converted-store"}).headers["Location"].rstrip("/").rsplit("/", 1)[1]
    )
    before = _leaf(store_job)
    page = _keep(inside, store_job, "job", margin="4").content.decode()
    assert _margin(store_job) == (3, 4)
    assert _leaf(store_job) == pytest.approx(before - 1)
    assert _leaf(other) == before
    assert "The job: inset, painted: margin nothing → 4." in page
    assert "in the book 3, in this job 4" in page
    assert "margin nothing → 4" in inside.get(f"/jobs/{store_job}/history/").content.decode()
    _keep(inside, store_job, "job", margin="3")
    assert job_page(store_job).job.gaps == {}, "what is as the book has it is none of the job's own"


def test_kept_in_the_book_both_histories_say_so(inside, store_job):
    _keep(inside, store_job, "job", margin="4", meeting_gap="3.5")
    page = _keep(inside, store_job, "book", margin="5").content.decode()
    assert _margin(store_job) == (5, 5)
    assert job_page(store_job).job.gaps == {PAINTED: {"meeting_gap": 3.5}}
    assert "The book: inset, painted: margin 3.0 → 5." in page or "The book: inset, painted: margin 3 → 5." in page
    assert "margin 3 → 5" in inside.get("/book/history/").content.decode()
    history = inside.get(f"/jobs/{store_job}/history/").content.decode()
    assert "In the firm&#x27;s book, revision 2: inset, painted: margin 3 → 5" in history
    assert "inset, painted: margin 4 → nothing" in history


@pytest.mark.parametrize(
    ("gaps", "sentence"),
    [
        ({PAINTED: {"margin": 201}}, "200"),
        ({"no such": {"margin": 3}}, "there is no build-up"),
        ({PAINTED: {"lap": 3}}, "has no such gap"),
        ({PAINTED: {"step": 1}}, "step"),
    ],
)
def test_a_gap_that_can_not_be_is_told_at_its_place(inside, store_job, gaps, sentence):
    folder = Folder.objects.get(pk=store_job)
    raw = {**store.as_document(store.job_now(folder)[1]), "gaps": gaps}
    with pytest.raises(Exception, match=sentence) as refused:
        store.read_document("job", raw, store.book_now()[2])
    assert all(fault.where.startswith("gaps") for fault in refused.value.faults)


def test_a_job_file_keeps_its_own_gaps(inside, store_job):
    from rodbook.job.files import parse_job

    _keep(inside, store_job, "job", margin="4.5")
    text = inside.get(f"/jobs/{store_job}/file/").content.decode()
    assert parse_job(text, store.book_now()[2]).gaps == {PAINTED: {"margin": 4.5}}


def test_a_maker_keeps_for_the_job_and_not_in_the_book(inside, store_job, monkeypatch):
    monkeypatch.setattr("rodbook.desk.platform.access.role_of", lambda _request: "maker")
    assert _keep(inside, store_job, "book", margin="4").status_code == 403
    assert _keep(inside, store_job, "job", margin="4").status_code == 200
    assert _margin(store_job) == (3, 4)
