"""The crew's weeks on the desk: laid down, decided over all jobs, with what a day is worth; faults beside their fields."""

import html

import pytest

from rodbook.desk.models import Record
from rodbook.desk.platform import store
from rodbook.desk.platform.planning import planner

from ..finished import known


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
    store.save(folder, revision.number, lambda _: book.model_copy(update={"dates": dates}), who="Ann")


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
        ("start", "soon", "is not a day"),
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


ON_TOP = {"more-name-1": "Dora", "more-days-1": "5", "more-cost-1": "260", "more-whole-1": "yes"}


def test_hired_hands_are_said_to_be_worth_it_or_not(inside, two):
    inside.post("/weeks/put/", _typed(two, **ON_TOP))
    page = _page(inside)
    assert "Dora: not worth having. " in page
    assert 'value="Dora"' in page
    assert 'name="more-name-2"' in page
    none = {f"days-{n}": "0" for n in range(1, 7)}
    inside.post("/weeks/put/", _typed(two, **(ON_TOP | none | {"more-days-1": "40"})))
    page = _page(inside)
    assert "Dora: needed. " in page
    assert "without them what is promised can't be done." in page
    inside.post("/weeks/put/", _typed(two))
    assert "Dora" not in _page(inside)


def test_a_span_that_is_over_is_said_and_does_not_stop_the_rest(inside, two):
    inside.post("/weeks/put/", _typed(two, **ON_TOP, **{"more-from-1": "2026-01-05", "more-to-1": "2026-01-09"}))
    page = _page(inside)
    assert "Not counted: Dora: from 2026-01-05 to 2026-01-09 the firm works on no day of these weeks" in page
    assert "That is proven" in page


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("more-days-1", "0", "is no number of days; write more than zero"),
        ("more-days-1", "", "nothing is no number of days"),
        ("more-days-1", "1e400", "is no number of days"),
        ("more-cost-1", "-260", "is no price of a day"),
        ("more-cost-1", "", "nothing is no price of a day"),
        ("more-cost-1", "260 USD", "is in USD and the book in EUR; write it in EUR"),
        ("more-from-1", "soon", "is not a day; write it as"),
        ("more-to-1", "2026-11-01", "this day is before the first; write 2026-12-07 or later"),
        ("more-name-1", "x" * 41, "longer than 40 letters"),
        ("more-name-2", "Dora", "another line has this name"),
    ],
)
def test_what_is_wrong_on_top_is_said_beside_its_field(inside, store_job, field, value, sentence):
    second = {"more-days-2": "1", "more-cost-2": "200"} if field.endswith("2") else {}
    typed = _typed([store_job], **(ON_TOP | {"more-from-1": "2026-12-07"} | second | {field: value}))
    reply = inside.post("/weeks/put/", typed)
    page = html.unescape(reply.content.decode())
    assert reply.status_code == 422
    assert f'id="fault-{field}"' in page
    assert sentence in page
    assert page.count("autofocus") == 1
    assert not Record.objects.exists()


def test_what_is_decided_is_taken_away_as_a_paper(inside, two):
    inside.post("/weeks/put/", _typed(two))
    page = _page(inside)
    assert "/weeks/paper/" in page
    assert "fitting " in page[page.index("Done in it, in crew days") :]
    reply = inside.get("/weeks/paper/")
    assert reply.content.startswith(b"%PDF")
    assert (reply["Content-Disposition"], reply["Cache-Control"]) == ('attachment; filename="weeks.pdf"', "no-store")
    inside.post("/weeks/put/", _typed(two, **{f"days-{n}": "0" for n in range(1, 7)}))
    told = html.unescape(inside.get("/weeks/paper/", follow=True).content.decode())
    assert "There is no paper of it: what is promised can't be done" in told
    assert "/weeks/paper/" not in told


def test_without_jobs_there_is_no_paper(inside):
    assert "There is no job on the desk." in _page(inside)
    told = inside.get("/weeks/paper/", follow=True).content.decode()
    assert "no job has its layouts and costs yet" in told
