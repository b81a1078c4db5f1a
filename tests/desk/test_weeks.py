"""The crew's weeks on the desk: laid down, decided over all jobs, with what a day is worth; faults beside their fields."""

import html

import pytest

from rodbook.desk import store
from rodbook.desk.models import Record
from rodbook.desk.planning import planner

from .test_money import known


@pytest.fixture
def two(inside, store_job):
    """Two jobs with their layouts and costs."""
    reply = inside.post("/jobs/sample/", {"sample": "stair"})
    stair = int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1])
    return known(store_job), known(stair)


@pytest.fixture
def nobody_named(inside):
    """A book that names nobody who works."""
    folder, revision, book = store.book_now()
    dates = book.dates.model_copy(update={"crew": ()})
    store.save(folder, revision.number, book.model_copy(update={"dates": dates}), who="Ann")


def _typed(pks, **more):
    base = {"start": "2026-11-25", "count": "6", "crew": "2"}
    for pk in pks:
        base |= {f"counts-{pk}": "yes", f"promised-{pk}": "yes", f"first-{pk}": "1", f"last-{pk}": "6"}
    return base | more


def _page(browser):
    return html.unescape(browser.get("/weeks/").content.decode())


def test_without_layouts_they_are_offered(inside, store_job):
    planner._works.clear()
    assert "Some jobs have no layouts and costs yet" in _page(inside)
    assert inside.post("/weeks/start/").headers["Location"] == "/weeks/"
    known(store_job)
    assert "Some jobs have no layouts" not in _page(inside)


def test_every_kind_of_every_job_is_decided_with_its_reason(inside, two):
    assert inside.post("/weeks/put/", _typed(two)).headers["Location"] == "/weeks/"
    page = _page(inside)
    assert "That is proven: no other choice earns more." in page
    assert "Week 6" in page
    assert "23 November 2026" in page
    for name in ("Old seed store, first-floor corridor", "fitting: by the crew, the only way there is."):
        assert name in page
    assert page.count("<meter") == 6


def test_scarce_days_are_worth_money_and_plenty_are_not(inside, nobody_named, two):
    inside.post("/weeks/put/", _typed(two, crew="40"))
    plenty = _page(inside)
    assert "which are not short" in plenty
    assert "<small>200</small>" in plenty
    scarce = {f"days-{n}": "2.2" for n in range(1, 7)}
    inside.post("/weeks/put/", _typed(two, **scarce))
    page = _page(inside)
    assert "days" in page
    assert plenty != page


def test_what_can_not_be_done_names_the_weeks_that_are_short(inside, two):
    none = {f"days-{n}": "0" for n in range(1, 7)}
    inside.post("/weeks/put/", _typed(two, **none))
    assert "crew days are missing" in _page(inside)


def test_a_job_that_does_not_count_is_left_out(inside, two):
    typed = _typed(two)
    del typed[f"counts-{two[0]}"]
    inside.post("/weeks/put/", typed)
    assert "<h3>Old seed store" not in _page(inside)


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("crew", "0", "a crew of nobody makes nothing"),
        ("crew", "-1", "write a whole number from 1 to 99"),
        ("count", "500", "write a whole number from 1 to 26"),
        ("start", "soon", "is no day"),
        ("days-2", "-3", "is no number of days"),
        ("first-{}", "9", "write a whole number from 1 to 6"),
        ("last-{}", "0", "write a whole number from 1 to 6"),
        ("besides-{}", "much", "is no number of days"),
    ],
)
def test_what_is_wrong_is_said_beside_its_field(inside, nobody_named, store_job, field, value, sentence):
    field = field.format(store_job)
    reply = inside.post("/weeks/put/", _typed([store_job], **{field: value}))
    page = reply.content.decode()
    assert reply.status_code == 422
    assert f'id="fault-{field}"' in page
    assert sentence in page
    assert page.count("autofocus") == 1
    assert not Record.objects.exists()


def test_days_are_those_of_the_books_crew_and_a_jobs_weeks_its_own(inside, two):
    book = store.book_now()[2]
    names = ", ".join(one.name for one in book.dates.crew)
    page = _page(inside)
    assert f"as the book has {names}, without holidays and days off" in page
    assert 'name="crew"' not in page
    assert f"<small>{5 * len(book.dates.crew)}</small>" in page


def test_a_job_can_not_end_before_it_begins(inside, store_job):
    typed = _typed([store_job], **{f"first-{store_job}": "4", f"last-{store_job}": "2"})
    assert "it is before the first; write week 4 or later" in inside.post("/weeks/put/", typed).content.decode()
