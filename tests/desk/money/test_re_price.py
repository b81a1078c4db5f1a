"""A job as it was priced against another day's book, on its page and as a paper; the owner's alone."""

import time
from datetime import timedelta

import pytest
from django.contrib.auth import get_user_model
from django.test import Client

from rodbook.desk.entrance import people
from rodbook.desk.models import Folder
from rodbook.desk.platform import store
from rodbook.desk.platform.book_page import date_now
from rodbook.desk.platform.job_page import job_page
from rodbook.desk.platform.planning import planner

LATER = str(date_now() + timedelta(days=30))


@pytest.fixture
def made(inside):
    """The stair, all of it made on site, worked out, and a dearer crew hour to come."""
    reply = inside.post("/jobs/sample/", {"sample": "stair"})
    pk = int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1])
    kinds = ("door", "lining-leg", "lining-head", "hinge-lining", "trim-leg", "trim-head", "panel")
    inside.post(f"/jobs/{pk}/make-or-buy/choose/", {"base": 1} | dict.fromkeys(kinds, "site-made"))
    rate = {"base": 1, "name": "crew hour", "value": "41", "since": LATER, "source": "own records"}
    assert inside.post("/book/rates/put/", rate).status_code == 302
    page = job_page(pk, start=True)
    while not page.work.over:
        time.sleep(0.05)
    assert page.work.plan is not None, page.work
    return pk


def test_what_moved_and_what_to_ask_for(inside, made):
    page = inside.get(f"/jobs/{made}/re-price/?on={LATER}").content.decode()
    assert "The job costs 56.94 EUR more than it was priced at." in page
    assert '<th scope="row">crew hour</th>' in page
    assert "+€56.94" in page
    assert "<svg" in page
    assert store.head(Folder.objects.get(pk=made)).number == 2  # nothing is saved by looking


def test_today_is_asked_for_where_no_day_is(inside, made):
    assert "Nothing has moved" in inside.get(f"/jobs/{made}/re-price/").content.decode()


def test_a_day_that_is_none_and_a_day_before_the_book_knew_prices(inside, made):
    reply = inside.get(f"/jobs/{made}/re-price/?on=soon")
    page = reply.content.decode()
    assert reply.status_code == 422
    assert "is not a day; write it as" in page[page.index('id="fault-on"') :][:200]
    assert page.count("autofocus") == 1
    page = inside.get(f"/jobs/{made}/re-price/?on=2020-01-01").content.decode()
    assert "held against that day" in page
    assert "holds on 2020-01-01" in page


def test_it_is_a_paper_too(inside, made):
    reply = inside.get(f"/jobs/{made}/re-price/paper/?on={LATER}")
    assert reply.content.startswith(b"%PDF")
    assert reply["Cache-Control"] == "no-store"
    for wrong in ("soon", "2020-01-01"):
        assert inside.get(f"/jobs/{made}/re-price/paper/?on={wrong}").status_code == 302


def test_without_costs_it_offers_to_work_them_out(inside, store_job):
    planner._works.clear()
    assert "Work it out" in inside.get(f"/jobs/{store_job}/re-price/").content.decode()
    assert inside.get(f"/jobs/{store_job}/re-price/paper/").status_code == 302


def test_makers_have_none_of_it(made, settings):
    settings.SHARED = True
    people.add_person("mo", "maker", "seven larch boards")
    client = Client()
    client.force_login(get_user_model().objects.get(username="mo"))
    for address in ("re-price/", "re-price/paper/"):
        assert client.get(f"/jobs/{made}/{address}").status_code == 403
