"""On the page of dates: an order is placed and comes with two taps, tasks are ticked off, and what can't be is said."""

import datetime
import html

import pytest
from django.contrib.auth import get_user_model
from django.test import Client

from rodbook.desk.entrance import people
from rodbook.desk.models import Folder
from rodbook.desk.platform import store
from rodbook.desk.platform.job_page import date_now
from rodbook.desk.platform.planning import Work, content_key, planner
from rodbook.plan import make_plan

MILL = "Quarry Lane Workshop"
TODAY = date_now()
DAY = datetime.timedelta(days=1)


@pytest.fixture(scope="module")
def kept():
    return {}


@pytest.fixture
def stair(inside, kept, monkeypatch):
    """The stair with its layouts; nothing is begun by a worker."""
    reply = inside.post("/jobs/sample/", {"sample": "stair"})
    pk = int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1])
    job, book = store.job_now(Folder.objects.get(pk=pk))[1], store.book_now()[2]
    key = content_key(job, book)
    if key not in kept:
        kept[key] = make_plan(job, book, seconds=1.0)
    monkeypatch.setitem(planner._works, key, Work(key, "done", plan=kept[key]))
    monkeypatch.setattr(planner, "_see_to", lambda work, asked: None)
    return pk


def _job(pk):
    return store.job_now(Folder.objects.get(pk=pk))[1]


def _base(pk):
    return str(store.head(Folder.objects.get(pk=pk)).number)


def _page(browser, pk):
    return html.unescape(browser.get(f"/jobs/{pk}/dates/").content.decode())


def _say(browser, pk, act, **days):
    return browser.post(f"/jobs/{pk}/dates/order/", {"base": _base(pk), "supplier": MILL, "act": act, **days})


def _ticked(browser, pk, *names, day=TODAY):
    page = _page(browser, pk)
    fields = {"base": _base(pk), "day": str(day)}
    for name in names:
        at = page.index(f'<span class="task">{name}')
        fields[page[:at].rsplit('name="', 1)[1].split('"')[0]] = "on"
    return browser.post(f"/jobs/{pk}/dates/done/", fields)


def test_it_is_ordered_it_comes_and_both_are_taken_back(inside, stair):
    page = _page(inside, stair)
    assert f"<legend>{MILL}</legend>" in page
    assert f'name="ordered" type="date" value="{TODAY}"' in page
    assert _say(inside, stair, "ordered", ordered=str(TODAY), promised=str(TODAY + 14 * DAY)).status_code == 302
    order = _job(stair).dates.orders[0]
    assert (order.supplier, order.ordered, order.promised) == (MILL, TODAY, TODAY + 14 * DAY)
    page = _page(inside, stair)
    assert "It has come" in page
    assert f'name="came" type="date" value="{TODAY}"' in page
    assert _say(inside, stair, "came", came=str(TODAY)).status_code == 302
    assert _job(stair).dates.orders[0].came == TODAY
    assert "It has not come after all" in _page(inside, stair)
    _say(inside, stair, "back")
    assert _job(stair).dates.orders[0].came is None
    assert _job(stair).dates.orders[0].ordered == TODAY
    _say(inside, stair, "back")
    assert _job(stair).dates.orders == ()
    said = [revision.said for revision in Folder.objects.get(pk=stair).revisions.all()]
    assert any(MILL in one for one in said)


def test_tasks_are_ticked_off_and_their_hours_stay(inside, stair):
    hours = {"base": _base(stair)}
    page = _page(inside, stair)
    at = page.index("<legend>linings, middle</legend>")
    hours[page[at:].split('name="', 1)[1].split('"')[0]] = "3"
    inside.post(f"/jobs/{stair}/dates/tasks/", hours)
    assert _ticked(inside, stair, "linings, middle").status_code == 302
    terms = _job(stair).dates.tasks
    assert [(one.name, one.hours, one.done) for one in terms] == [("linings, middle", 3.0, TODAY)]
    page = _page(inside, stair)
    assert "has to be, as what comes after it is" in page
    inside.post(f"/jobs/{stair}/dates/tasks/", {**hours, "base": _base(stair)})
    assert _job(stair).dates.tasks[0].done == TODAY
    _ticked(inside, stair, "linings, middle", "leaves, middle")
    assert {one.name: one.done for one in _job(stair).dates.tasks} == {
        "linings, middle": TODAY,
        "leaves, middle": TODAY,
    }
    _ticked(inside, stair, "leaves, middle")
    assert {one.name: (one.hours, one.done) for one in _job(stair).dates.tasks} == {
        "linings, middle": (3.0, None),
        "leaves, middle": (None, TODAY),
    }


def test_when_all_is_done_the_page_says_so(inside, stair):
    assert _ticked(inside, stair, "hand over").status_code == 302
    page = _page(inside, stair)
    assert "All of it is done." in page
    assert "could not be worked out" not in page


@pytest.mark.parametrize(
    ("act", "days", "field", "said"),
    [
        ("ordered", {"ordered": "soon"}, "ordered", "'soon' is not a day"),
        ("ordered", {"ordered": ""}, "ordered", "the day of the order is missing"),
        ("ordered", {"ordered": str(TODAY + DAY)}, "ordered", "is still to come"),
        ("ordered", {"ordered": str(TODAY), "promised": str(TODAY - DAY)}, "promised", "is before it was ordered"),
        ("ordered", {"ordered": "1802-01-01"}, "ordered", "is not a day of a job"),
        ("came", {"came": ""}, "came", "the day on which it came is missing"),
        ("came", {"came": str(TODAY - 30 * DAY)}, "came", "is before it was ordered"),
        ("came", {"came": str(TODAY + DAY)}, "came", "is still to come"),
    ],
)
def test_days_that_can_not_be_are_said_beside_their_field(inside, stair, act, days, field, said):
    if act == "came":
        _say(inside, stair, "ordered", ordered=str(TODAY - 7 * DAY))
    before = _base(stair)
    reply = _say(inside, stair, act, **days)
    page = html.unescape(reply.content.decode())
    assert reply.status_code == 422
    assert f'id="fault-{field}-' in page
    assert said in page
    assert page.count("autofocus") == 1
    assert _base(stair) == before


def test_who_nothing_is_ordered_from_and_what_is_no_step(inside, stair):
    url = f"/jobs/{stair}/dates/order/"
    for typed in (
        {"supplier": "Elm Mill", "act": "ordered", "ordered": str(TODAY)},
        {"supplier": MILL, "act": "eaten"},
    ):
        reply = inside.post(url, {"base": _base(stair), **typed})
        assert reply.status_code == 422
        assert "nothing is ordered from there now" in reply.content.decode()


def test_a_task_that_was_done_before_what_comes_first(inside, stair):
    _ticked(inside, stair, "linings, middle")
    reply = _ticked(inside, stair, "linings, middle", "leaves, middle", day=TODAY - DAY)
    page = html.unescape(reply.content.decode())
    assert reply.status_code == 422
    assert "before 'linings, middle', which comes first" in page
    assert _ticked(inside, stair, "linings, middle", "leaves, middle", day="").status_code == 422


def test_a_second_tab_does_not_lose_what_the_first_said(inside, stair):
    old = _base(stair)
    _say(inside, stair, "ordered", ordered=str(TODAY))
    url = f"/jobs/{stair}/dates/order/"
    inside.post(url, {"base": old, "supplier": "the merchant", "act": "ordered", "ordered": str(TODAY)})
    assert {one.supplier for one in _job(stair).dates.orders} == {MILL, "the merchant"}


def test_readers_see_it_and_change_nothing(inside, stair, settings):
    _say(inside, stair, "ordered", ordered=str(TODAY))
    settings.SHARED = True
    people.add_person("rob", "reader", "seven larch boards")
    client = Client()
    client.force_login(get_user_model().objects.get(username="rob"))
    page = _page(client, stair)
    assert f"<legend>{MILL}</legend>" in page
    assert "It has come" not in page
    assert client.post(f"/jobs/{stair}/dates/order/", {"supplier": MILL, "act": "back"}).status_code == 403
    assert client.post(f"/jobs/{stair}/dates/done/", {}).status_code == 403
