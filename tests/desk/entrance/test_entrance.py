"""Coming in: the link works once, wrong tries wait, sessions end, an answer to HEAD has no body, no page is kept."""

import threading
import time
from http.client import HTTPConnection

import pytest
from django.contrib.sessions.models import Session
from django.test import Client

from rodbook.desk.entrance import people
from rodbook.desk.keeping.server import MOST_FROM_ONE, make_server
from rodbook.desk.platform.access import BEGAN, new_key, owns_key
from rodbook.desk.platform.turnstile import MOST_TRIES

GOOD = "plinth walnut teapot"


@pytest.fixture
def shared(settings, db):
    settings.SHARED = True
    people.add_person("ada", "owner", GOOD)
    return Client()


def _sign_in(client, password=GOOD, name="ada", address="192.0.2.1"):
    return client.post("/login/", {"username": name, "password": password}, REMOTE_ADDR=address)


def test_a_link_opened_by_thirty_at_once_lets_one_in():
    for _ in range(10):
        key, found, begin = new_key(), [], threading.Barrier(30)

        def bring(key=key, found=found, begin=begin):
            begin.wait()
            found.append(owns_key(key))

        threads = [threading.Thread(target=bring) for _ in range(30)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert sum(found) == 1


def test_names_sprayed_from_one_address_are_throttled_and_nobody_else_is(shared):
    for n in range(MOST_TRIES):
        assert _sign_in(shared, name=f"name{n}").status_code == 200
    reply = _sign_in(shared, name="another")
    assert reply.status_code == 429
    assert 0 < int(reply["Retry-After"]) <= 900
    assert b"15 minutes" in reply.content
    assert _sign_in(Client(), address="192.0.2.2").status_code == 302


def test_an_owner_known_to_the_browser_is_not_kept_out_by_a_stranger_at_the_same_address(shared):
    owner = Client()
    assert _sign_in(owner).status_code == 302
    owner.post("/logout/")
    for n in range(MOST_TRIES + 5):
        _sign_in(shared, "wrong", name="ada" if n % 2 else f"name{n}")
    assert _sign_in(Client()).status_code in (429, 403)  # a new browser at that address waits
    assert _sign_in(owner).status_code == 302
    # the cookie is good for the one name
    assert _sign_in(owner, name="someone").status_code == 429


def test_a_session_ends_however_much_it_is_used(shared, settings):
    assert _sign_in(shared).status_code == 302
    assert shared.get("/people/").status_code == 200
    session = shared.session
    session[BEGAN] = int(time.time()) - settings.SESSION_LONGEST - 5
    session.save()
    assert shared.get("/").headers["Location"].startswith("/login")


def test_a_reopened_account_asks_again(shared):
    people.add_person("ben", "maker", "nine kettles under oak")
    ben = Client()
    assert _sign_in(ben, "nine kettles under oak", "ben").status_code == 302
    person = people.everybody().get(user__username="ben")
    people.set_active(person, active=False)
    people.set_active(person, active=True)
    assert ben.get("/").headers["Location"].startswith("/login")
    assert Session.objects.count() == 0


def test_the_old_password_is_throttled_too(shared):
    _sign_in(shared)
    replies = [shared.post("/password/", {"old": f"wrong {n}", "password": "zwölf Türen im Flur"}) for n in range(8)]
    assert [reply.status_code for reply in replies][-2:] == [429, 429]
    assert shared.post("/password/", {"old": GOOD, "password": "zwölf Türen im Flur"}).status_code == 429


def test_pages_with_prices_are_kept_by_no_browser_and_forgotten_at_sign_out(shared):
    _sign_in(shared)
    assert shared.get("/").headers["Cache-Control"] == "no-store"
    assert shared.get("/book/").headers["Cache-Control"] == "no-store"
    assert shared.post("/logout/").headers["Clear-Site-Data"] == '"cache"'


@pytest.mark.parametrize("number", ["9223372036854775807", "9223372036854775808", "9" * 40, "1" * 16])
@pytest.mark.parametrize(
    "page", ["/jobs/{}/", "/jobs/{}/parts/", "/people/{}/role/", "/book/boards/{}/", "/documents/{}/settle/"]
)
def test_a_number_that_no_database_holds_is_no_page(inside, page, number):
    assert inside.get(page.format(number)).status_code == 404


@pytest.fixture
def running():
    """The desk's own server around an application that knows nothing of a database."""

    def application(environ, start_response):
        start_response("200 OK", [("Content-Type", "text/plain"), ("Content-Length", "5")])
        return [b"hello"]

    server = make_server(application, host="127.0.0.1", port=0, proxy=None)
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    yield server
    server.close()


def _answer(connection):
    connection.request("GET", "/")
    return connection.getresponse().read()


def test_an_answer_to_head_has_no_body(running):
    connection = HTTPConnection("127.0.0.1", running.effective_port, timeout=10)
    for method, expected in (("HEAD", b""), ("GET", b"hello"), ("HEAD", b""), ("GET", b"hello")):
        connection.request(method, "/")
        reply = connection.getresponse()
        assert (reply.status, reply.headers["Content-Length"], reply.read()) == (200, "5", expected)
    connection.request("HEAD", "/")
    raw = b""
    while b"\r\n\r\n" not in raw:
        raw += connection.sock.recv(4096)
    connection.sock.settimeout(0.5)
    with pytest.raises(TimeoutError):
        raw += connection.sock.recv(4096)
    assert raw.endswith(b"\r\n\r\n")
    connection.close()


def test_one_address_does_not_take_all_connections(running):
    held = []
    for _ in range(MOST_FROM_ONE):
        connection = HTTPConnection("127.0.0.1", running.effective_port, timeout=10)
        connection.connect()
        connection.sock.sendall(b"GET / HTTP/1.1\r\n")  # and no more
        held.append(connection)
    deadline = time.monotonic() + 10
    while len(running.active_channels) < MOST_FROM_ONE and time.monotonic() < deadline:
        time.sleep(0.05)
    late = HTTPConnection("127.0.0.1", running.effective_port, timeout=10)
    with pytest.raises(ConnectionError):
        _answer(late)
    held.pop().close()
    while len(running.active_channels) >= MOST_FROM_ONE and time.monotonic() < deadline:
        time.sleep(0.05)
    again = HTTPConnection("127.0.0.1", running.effective_port, timeout=10)
    assert _answer(again) == b"hello"
    for connection in (*held, again, late):
        connection.close()
