"""A desk that is killed while several people save: whatever was said to be saved is there when it starts again."""

import contextlib
import http.client
import json
import os
import re
import signal
import sqlite3
import subprocess
import sys
import threading
import time
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import urlencode, urlparse

import pytest

SAVES_AT_LEAST = 12
"""So many saves are made before the desk is killed."""


class _Header(HTMLParser):
    """The job's header as its form stands."""

    def __init__(self, page):
        super().__init__()
        self.values, self._list, self._inside = {}, "", False
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        found = dict(attrs)
        if tag == "form":
            self._inside = found.get("action", "").endswith("/header/")
        elif self._inside and tag == "input":
            self.values[found["name"]] = found.get("value", "")
        elif self._inside and tag == "select":
            self._list = found["name"]

    def handle_data(self, data):
        if self._inside and self.get_starttag_text().startswith("<option selected"):
            self.values.setdefault(self._list, data)


class _Person:
    """Somebody with a browser of their own, in by the cookies that the link gave."""

    def __init__(self, place, cookies=""):
        self.place, self.cookies = place, cookies

    def ask(self, path, form=None):
        """Status, address that is led to, and page."""
        headers = {"Cookie": self.cookies, "Content-Type": "application/x-www-form-urlencoded"}
        # Closed even where the desk is killed amid the answer: what is left open is a fault of its own here.
        with contextlib.closing(http.client.HTTPConnection(self.place, timeout=60)) as line:
            line.request("POST" if form else "GET", path, urlencode(form) if form else None, headers)
            with contextlib.closing(line.getresponse()) as reply:
                return reply, reply.read().decode()

    def come_in(self, path):
        reply, _ = self.ask(path)
        self.cookies = "; ".join(c.split(";")[0] for c in reply.headers.get_all("Set-Cookie"))
        reply, page = self.ask("/begin/")  # the first page with a form
        if reply.status == 302:  # the firm has its book already
            reply, page = self.ask("/jobs/new/")
        self.cookies += "; " + "; ".join(c.split(";")[0] for c in reply.headers.get_all("Set-Cookie") or ())
        return re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page)[1]


def _started(home):
    log = home / "said"
    with log.open("w") as out:
        process = subprocess.Popen(
            [sys.executable, "-m", "rodbook", "desk", "--home", str(home), "--port", "0"],
            stdout=out,
            stderr=out,
        )
    for _ in range(600):
        if found := re.search(r"http://\S+/enter/\S+", log.read_text("utf-8")):
            link = urlparse(found[0])
            return process, link.netloc, link.path
        assert process.poll() is None, log.read_text("utf-8")
        time.sleep(0.05)
    raise AssertionError("the desk did not start")


def _children(pid):
    found = [t.read_text("ascii").split() for t in Path("/proc").glob(f"{pid}/task/*/children")]
    return [int(child) for listed in found for child in listed]


def _runs(pid):
    try:
        return Path(f"/proc/{pid}/stat").read_text("ascii").rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


def _save_on_and_on(place, cookies, job, field, acknowledged, odd):
    """Change one field of a job again and again; note each value that the desk said it saved."""
    person = _Person(place, cookies)
    for number in range(10_000):
        value = f"{field} {number}"
        try:
            form = _Header(person.ask(job)[1]).values | {field: value}
            reply, _ = person.ask(job + "header/", form)
        except (OSError, http.client.HTTPException):
            return
        if reply.status == 302:
            acknowledged[job, field].append(value)
        else:
            odd.append((reply.status, value))


@pytest.fixture
def desks():
    """Processes that are ended whatever happens."""
    found = []
    yield found
    for process in found:
        process.kill()
        process.wait(timeout=10)


def test_a_desk_killed_amid_saves_has_every_saved_revision_when_it_starts_again(tmp_path, desks):
    process, place, way_in = _started(tmp_path)
    desks.append(process)
    first = _Person(place)
    token = first.come_in(way_in)
    jobs = [
        first.ask("/jobs/sample/", {"sample": "converted-store", "csrfmiddlewaretoken": token})[0].headers["Location"]
        for _ in range(2)
    ]
    acknowledged, odd = {(job, field): [] for job in jobs for field in ("note", "client")}, []
    people = [
        threading.Thread(target=_save_on_and_on, args=(place, first.cookies, *whose, acknowledged, odd))
        for whose in acknowledged
    ]
    for person in people:
        person.start()
    began = time.monotonic()
    while any(len(saved) < SAVES_AT_LEAST // 4 for saved in acknowledged.values()):
        assert time.monotonic() - began < 90, acknowledged
        time.sleep(0.01)
    workers = _children(process.pid)
    os.kill(process.pid, signal.SIGKILL)
    process.wait(timeout=10)
    for person in people:
        person.join(timeout=90)
    assert odd == []

    again, place, way_in = _started(tmp_path)
    desks.append(again)
    with sqlite3.connect(tmp_path / "desk.sqlite3") as database:
        assert database.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert database.execute("PRAGMA foreign_key_check").fetchall() == []
        for (job, field), saved in acknowledged.items():
            pk = int(job.split("/")[2])
            kept = database.execute(
                "SELECT number, document FROM desk_revision WHERE folder_id = ? ORDER BY number", (pk,)
            ).fetchall()
            assert [number for number, _ in kept] == list(range(1, len(kept) + 1))
            assert database.execute("SELECT head FROM desk_folder WHERE id = ?", (pk,)).fetchone() == (len(kept),)
            values = list(dict.fromkeys(json.loads(document)["job"].get(field) for _, document in kept))[1:]
            assert saved == values[: len(saved)]
            assert len(values) - len(saved) <= 1  # one may have been saved while its answer was on the way
    database.close()
    person = _Person(place)
    person.come_in(way_in)
    for (job, field), saved in acknowledged.items():
        stands = _Header(person.ask(job)[1]).values[field]
        assert int(stands.split()[-1]) in (len(saved) - 1, len(saved))
    for _ in range(200):
        if not any(map(_runs, workers)):
            break
        time.sleep(0.05)
    assert not any(map(_runs, workers)), "a worker outlived its desk"
