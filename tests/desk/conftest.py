"""A desk in a folder of its own for each test process; its database is made anew."""

import os
import re
import tempfile
from pathlib import Path

HOME = Path(tempfile.mkdtemp(prefix="rodbook-desk-"))
(HOME / "static").mkdir()
os.environ["RODBOOK_DESK_HOME"] = str(HOME)
os.environ["DJANGO_SETTINGS_MODULE"] = "rodbook.desk.settings"

import django  # noqa: E402
import pytest  # noqa: E402
from django.conf import settings as desk_settings  # noqa: E402

django.setup()
# A test process that another one started has inherited that one's home and may have read it already: give it its own.
desk_settings.HOME, desk_settings.STATIC_ROOT = HOME, HOME / "static"


@pytest.fixture(scope="session", autouse=True)
def _static_files():
    from django.core.management import call_command

    call_command("collectstatic", verbosity=0, interactive=False)


@pytest.fixture(scope="session", autouse=True)
def _cheap_passwords():
    """Hash passwords with as little work as the method allows: tests sign in some hundred times."""
    from rodbook.desk.entrance.passwords import OneLane

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(OneLane, "time_cost", 1)
        patch.setattr(OneLane, "memory_cost", 8)
        yield


@pytest.fixture
def passwords_at_their_cost(monkeypatch, _cheap_passwords):
    """Hash passwords with the work that a desk puts into them."""
    from rodbook.desk.entrance.passwords import OneLane

    monkeypatch.delattr(OneLane, "time_cost")
    monkeypatch.delattr(OneLane, "memory_cost")


_AS_IT_STANDS = re.compile(r"(<(?:pre|textarea|script|svg)\b.*?</(?:pre|textarea|script|svg)>)", re.DOTALL)


def _in_one_line(page):
    """A page without the breaks of its templates, which nobody sees: none between tags, a space between words."""
    pieces = _AS_IT_STANDS.split(page)
    for number in range(0, len(pieces), 2):
        text = re.sub(r">\s*\n\s*<", "><", pieces[number])
        text = re.sub(r"\s*\n\s*</", "</", re.sub(r"(<(?:button|p|h\d|li|td|th|a)\b[^>]*>)\s*\n\s*", r"\1", text))
        pieces[number] = re.sub(r"\s*\n\s*", " ", text)
    return "".join(pieces)


@pytest.fixture(scope="session", autouse=True)
def _templates_break_where_they_like():
    """What a template breaks over lines is nothing that a test rests on: pages come in one line."""
    from django.test import Client

    asked = Client.request

    def request(self, **about):
        reply = asked(self, **about)
        if not reply.streaming and reply.get("Content-Type", "").startswith("text/html"):
            reply.content = _in_one_line(reply.content.decode()).encode()
        return reply

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Client, "request", request)
        yield


@pytest.fixture(autouse=True)
def _nothing_remembered():
    """What pages showed last is forgotten: the next test has other jobs by the same numbers."""
    from rodbook.desk.platform.planning import planner

    planner._last.clear()


@pytest.fixture
def newcomer(client, db):
    """A browser that came in with the one-time link to a desk that has no book yet."""
    from rodbook.desk.platform.access import new_key

    reply = client.get(f"/enter/{new_key()}/")
    assert reply.status_code == 302
    return client


@pytest.fixture
def inside(newcomer):
    """A browser that came in with the one-time link, to the desk of the sample's firm."""
    from rodbook.desk.platform import store

    store.the_book_folder()
    return newcomer


@pytest.fixture
def store_job(inside):
    """The converted store as a job on the desk."""
    reply = inside.post("/jobs/sample/", {"sample": "converted-store"})
    return int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1])


@pytest.fixture(autouse=True)
def _nobody_tried_yet(monkeypatch):
    """Wrong passwords of one test are not counted in the next."""
    from rodbook.desk.entrance import views as entrance
    from rodbook.desk.platform.turnstile import Turnstile

    fresh = Turnstile()
    for name in ("passed", "wrong", "right"):
        monkeypatch.setattr(entrance.turnstile, name, getattr(fresh, name))
