"""Prices through time on the desk: nothing without jobs, the index with its working, a paper; the owner's alone."""

import html

import pytest

from rodbook.desk.platform import store
from rodbook.desk.platform.planning import planner

from ..finished import known

SHOP = "Quarry Lane Workshop"


def _page(browser, query="", code=200):
    reply = browser.get(f"/book/prices/{query}")
    assert reply.status_code == code
    return html.unescape(reply.content.decode())


@pytest.fixture
def dearer(inside):
    """Set-up dearer from a day on."""
    folder, revision, book = store.book_now()
    shop = book.workshops[0]
    new = shop.rates[0].model_copy(
        update={"since": shop.rates[0].since.replace(month=9), "set_up": 2 * shop.rates[0].set_up}
    )
    changed = shop.model_copy(update={"rates": (*shop.rates, new)})
    store.save(folder, revision.number, lambda _: book.model_copy(update={"workshops": (changed,)}), who="Ann")


def test_without_jobs_it_says_so(inside):
    page = _page(inside)
    assert "There is no job on the desk, so nothing is bought" in page
    assert "<table" not in page
    assert "Between which days" not in page
    told = inside.get("/book/prices/paper/", follow=True).content.decode()
    assert "There is no paper of it: no job has its layouts and costs yet." in told
    assert '"/book/prices/"' in inside.get("/book/").content.decode()


def test_without_layouts_they_are_offered(inside, store_job):
    planner._works.clear()
    assert "Some jobs have no layouts and costs yet" in _page(inside)
    assert inside.post("/book/prices/start/").headers["Location"] == "/book/prices/"
    known(store_job)
    page = _page(inside)
    assert "Some jobs have no layouts" not in page
    assert "What the one job takes costs" in page


def test_the_index_and_how_it_comes_about(inside, dearer, store_job):
    known(store_job)
    page = _page(inside, "?until=2026-12-01")
    for said in (
        "more than on 2 March 2026",
        f"{SHOP}: set-up",
        "2 September 2026",
        "<svg",
        "the basket",
        "Old seed store",
    ):
        assert said in page, said
    assert page.count("The index is 100 × ") == 1
    later = _page(inside, "?until=2026-12-01&base=2026-10-01")
    assert "costs as much as on 1 October 2026" in later
    assert store.book_now()[1].number == 2, "nothing is saved by looking"


@pytest.mark.parametrize(
    ("query", "field", "said"),
    [
        ("?base=soon", "base", "is not a day; write it as"),
        ("?until=2026-02-31", "until", "is not a day; write it as"),
        ("?base=2027-01-01&until=2026-12-01", "base", "is after the last day"),
        ("?base=2019-01-01", "base", "nothing in the basket has a price on 2019-01-01"),
        ("?until=2019-01-01", "until", "nothing in the basket has a price on 2019-01-01"),
    ],
)
def test_a_day_that_does_not_do_is_said_beside_its_field(inside, store_job, query, field, said):
    known(store_job)
    page = _page(inside, query, 422)
    assert said in page[page.index(f'id="fault-{field}"') :][:200]
    assert page.count("autofocus") == 1
    told = html.unescape(inside.get(f"/book/prices/paper/{query}", follow=True).content.decode())
    assert "There is no paper of it: " in told
    assert said in told


def test_it_is_a_paper_too(inside, store_job):
    known(store_job)
    page = _page(inside, "?until=2026-12-01")
    link = html.unescape(page[page.index("/book/prices/paper/") :].split('"')[0])
    assert link == "/book/prices/paper/?base=&until=2026-12-01&hours="
    reply = inside.get(link)
    assert reply.content.startswith(b"%PDF")
    assert (reply["Content-Disposition"], reply["Cache-Control"]) == ('attachment; filename="prices.pdf"', "no-store")


def test_a_job_with_faults_or_without_parts_is_named(inside, store_job):
    sent = {"name": "Nothing yet", "date": "2026-11-02", "build_up": "inset, painted"}
    assert inside.post("/jobs/new/", sent).status_code == 302
    known(store_job)
    page = _page(inside)
    assert "Not counted, as they have faults or no parts:" in page
    assert "Nothing yet" in page
