"""Make or buy: costed both ways for the owner, chosen by kind, worked out by a worker that can be watched and stopped."""

import pytest

from rodbook.desk.models import Folder
from rodbook.desk.platform import store
from rodbook.desk.platform.job_page import job_page
from rodbook.desk.platform.planning import planner
from rodbook.job.models import Making
from rodbook.money import points_in_words
from rodbook.plan import make_plan

from ..finished import known


@pytest.fixture
def whole(store_job):
    """The converted store, with its layouts and costs put where the planner keeps them."""
    return known(store_job)


def _job(pk):
    return store.job_now(Folder.objects.get(pk=pk))[1]


def test_without_costs_a_button_works_them_out(inside, store_job):
    planner._works.clear()
    page = inside.get(f"/jobs/{store_job}/make-or-buy/").content.decode()
    assert "Work it out" in page
    assert f'action="/jobs/{store_job}/work/start/"' in page
    assert "door" in page


def test_each_kind_is_costed_both_ways_with_its_reason(inside, whole):
    page = inside.get(f"/jobs/{whole}/make-or-buy/").content.decode().replace("&#x27;", "'")
    plan = job_page(whole).whole
    for choice in plan.money.kinds:
        assert choice.reason in page.replace("&#x27;", "'")
    for turning in plan.turnings:
        assert turning.sentence in page
    assert f"€{plan.money.totals.decided:,}" in page
    assert all(f'<th scope="row">{cost.mark}</th>' in page for cost in plan.money.openings)


def test_a_choice_is_saved_and_everything_follows(inside, whole):
    choice = {"base": 1, "door": "site-made", "lining-leg": "cheaper", "trim-leg": "bought-in"}
    reply = inside.post(f"/jobs/{whole}/make-or-buy/choose/", choice)
    assert reply.headers["Location"] == f"/jobs/{whole}/make-or-buy/"
    assert _job(whole).making == {"door": Making.SITE, "trim leg": Making.BOUGHT}
    known(whole)
    plan = job_page(whole).whole
    assert plan.money.totals == make_plan(plan.job, plan.book).money.totals
    page = inside.get(f"/jobs/{whole}/make-or-buy/").content.decode()
    assert "Made on site, as the job asks" in page
    assert 'name="door" value="site-made" checked' in page


def test_a_kind_goes_back_to_the_cheaper_way(inside, whole):
    inside.post(f"/jobs/{whole}/make-or-buy/choose/", {"base": 1, "door": "site-made"})
    inside.post(f"/jobs/{whole}/make-or-buy/choose/", {"base": 2, "door": "cheaper"})
    assert _job(whole).making == {}


def test_a_word_that_is_no_maker_is_said_beside_its_kind(inside, whole):
    reply = inside.post(f"/jobs/{whole}/make-or-buy/choose/", {"base": 1, "lining-leg": "somebody"})
    page = reply.content.decode()
    assert reply.status_code == 422
    assert 'id="fault-lining-leg"' in page
    assert "is not known here" in page
    assert _job(whole).making == {}


def test_what_no_workshop_makes_can_not_be_chosen(inside, store_job):
    folder, revision, book = store.book_now()
    raw = store.as_document(book)
    del raw["workshops"][0]["rates"][0]["board_m2"]["22 mm MDF"]
    store.save(folder, revision.number, lambda _: store.read_document("book", raw), who="Ann")
    known(store_job)
    reply = inside.post(f"/jobs/{store_job}/make-or-buy/choose/", {"base": 1, "door": "bought-in"})
    page = reply.content.decode()
    assert reply.status_code == 422
    assert "it can&#x27;t be bought in" in page
    assert 'aria-invalid="true"' in page
    assert 'value="bought-in" checked' in page


def test_two_people_who_choose_differently_are_told(inside, whole):
    inside.post(f"/jobs/{whole}/make-or-buy/choose/", {"base": 1, "door": "site-made"})
    reply = inside.post(f"/jobs/{whole}/make-or-buy/choose/", {"base": 1, "door": "bought-in"})
    assert reply.status_code == 409
    inside.post(f"/jobs/{whole}/make-or-buy/choose/", {"base": 1, "trim-leg": "site-made"})
    assert _job(whole).making == {"door": Making.SITE, "trim leg": Making.SITE}


def test_work_is_begun_watched_and_done(inside, store_job):
    planner._works.clear()
    htmx = {"HX-Request": "true"}
    reply = inside.post(f"/jobs/{store_job}/work/start/", {"after": "orders"}, headers=htmx)
    page = reply.content.decode()
    assert "<html" not in page
    assert f'hx-get="/jobs/{store_job}/work/?after=orders"' in page
    assert "<progress" in page
    known(store_job)
    reply = inside.get(f"/jobs/{store_job}/work/?after=orders", headers=htmx)
    assert reply.headers["HX-Redirect"] == f"/jobs/{store_job}/orders/"
    # Somebody types there: the page stays, with a link to the answer.
    reply = inside.get(f"/jobs/{store_job}/work/?after=orders", headers=htmx | {"X-Rodbook-Typing": "yes"})
    assert "HX-Redirect" not in reply.headers
    assert f'<a href="/jobs/{store_job}/orders/">Show them</a>' in reply.content.decode()
    assert "hx-trigger" not in reply.content.decode()


def test_without_scripts_the_work_leads_back_to_its_page(inside, store_job):
    assert inside.post(f"/jobs/{store_job}/work/start/", {"after": "papers"}).headers["Location"].endswith("/papers/")
    assert inside.get(f"/jobs/{store_job}/work/?after=//evil.example").headers["Location"].endswith("/make-or-buy/")


def test_work_can_be_stopped_and_begun_again(inside, store_job):
    planner._works.clear()
    inside.post(f"/jobs/{store_job}/work/start/")
    reply = inside.post(f"/jobs/{store_job}/work/stop/", headers={"HX-Request": "true"})
    page = job_page(store_job)
    assert page.work.state in ("stopped", "done")
    assert ("Work it out" in reply.content.decode()) == (page.work.state == "stopped")
    known(store_job)


@pytest.mark.parametrize("address", ["make-or-buy/choose", "work/start", "work/stop"])
def test_changes_are_posted(inside, store_job, address):
    assert inside.get(f"/jobs/{store_job}/{address}/").status_code == 405


@pytest.mark.parametrize("address", ["make-or-buy", "orders", "papers", "work", "papers/parts.csv", "papers/pack"])
def test_a_job_that_is_not_there_is_not_found(inside, address):
    assert inside.get(f"/jobs/999/{address}/").status_code == 404


def test_ways_with_what_varies_their_chances_and_their_pictures(inside, whole):
    page = inside.get(f"/jobs/{whole}/make-or-buy/").content.decode().replace("&#x27;", "'")
    outlook = job_page(whole).whole.outlook
    assert f"€{outlook.decided.cost.nine_in_ten:,}" in page
    for entry in outlook.kinds:
        for sentence in points_in_words(entry.turning, "EUR", kind=entry.kind):
            assert sentence in page
        for likely in entry.chances.ways:
            assert f"€{likely.cost.mean:,}" in page
    assert page.count('class="drawing sways"') == 1 + len(outlook.kinds)
    assert "Buying is cheaper in" in page


def test_what_sizes_cost_stands_with_the_money(inside, whole):
    page = inside.get(f"/jobs/{whole}/make-or-buy/").content.decode()
    fewest, _, own = job_page(whole).whole.outlook.sizes
    assert (
        f"{fewest.sizes} sizes instead of {own.sizes} save €{own.set_ups - fewest.set_ups:,} in set-ups alone." in page
    )
