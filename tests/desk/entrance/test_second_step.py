"""The second step: switched on with a proof, asked for, used up, throttled, switched off."""

import base64
import re
from types import SimpleNamespace

import pyotp
import pytest
from django.test import Client

from rodbook.desk.entrance import people
from rodbook.desk.entrance import second_step as second
from rodbook.desk.models import Deed, Person, Second
from rodbook.desk.platform import store

GOOD = "plinth walnut teapot"


@pytest.fixture
def clock(monkeypatch):
    """A clock that stands until it is moved."""

    class Clock:
        now = 2_000_000_000.0

    monkeypatch.setattr(second, "time", SimpleNamespace(time=lambda: Clock.now))
    return Clock


@pytest.fixture
def ada(settings, db):
    settings.SHARED = True
    store.the_book_folder()
    people.add_person("ada", "owner", GOOD)
    people.add_person("ben", "reader", GOOD)
    return _in("ada")


def _in(name, client=None):
    client = client or Client()
    client.post("/login/", {"username": name, "password": GOOD})
    return client


def _code(name, clock, steps=0):
    return pyotp.TOTP(Second.objects.get(user__username=name).secret).generate_otp(int(clock.now) // 30 + steps)


def _switched_on(client, name, clock):
    page = client.post("/password/second/", {"do": "begin", "password": GOOD}).content.decode()
    assert "data:image/svg+xml" in page
    reply = client.post("/password/second/", {"do": "prove", "code": _code(name, clock)})
    assert "no-store" in reply["Cache-Control"]
    clock.now += 90
    return re.findall(r"<code>([A-Z2-7-]{19})</code>", reply.content.decode())


def test_codes_are_those_of_the_standard(monkeypatch, settings, db):
    """RFC 6238, appendix B: the secret "12345678901234567890" gives 94287082 at 59 s; its last six digits are the code."""
    settings.SHARED = True
    user = people.add_person("ada", "owner", GOOD).user
    Second.objects.create(user=user, secret=base64.b32encode(b"12345678901234567890").decode())
    monkeypatch.setattr(second, "time", SimpleNamespace(time=lambda: 59.0))
    assert second.prove(user, "287083") is None
    assert second.prove(user, "287 082") is not None


def test_it_is_asked_for_only_once_it_is_proved(ada, clock):
    ada.post("/password/second/", {"do": "begin", "password": "wrong"})
    assert not Second.objects.exists()
    ada.post("/password/second/", {"do": "begin", "password": GOOD})
    wrong = ada.post("/password/second/", {"do": "prove", "code": "12"})
    assert wrong.status_code == 422
    assert 'id="fault-code"' in wrong.content.decode()
    assert _in("ada").get("/").status_code == 200  # not proved: the password alone
    codes = _switched_on(ada, "ada", clock)
    assert len(codes) == second.RECOVERY_CODES
    secret = Second.objects.get().secret
    assert secret not in ada.get("/password/second/").content.decode().replace(" ", "")
    assert not any(code.replace("-", "") in str(Second.objects.values()) for code in codes)


def test_the_password_alone_lets_nobody_in(ada, clock):
    _switched_on(ada, "ada", clock)
    client = Client()
    reply = client.post("/login/", {"username": "ada", "password": GOOD, "next": "/people/"})
    assert reply.headers["Location"] == "/login/code/"
    assert "rodbook_known" not in client.cookies
    for address in ("/", "/people/", "/password/", "/password/second/", "/deeds/"):
        assert client.get(address).headers["Location"] == "/login/"
    assert client.get("/login/code/").status_code == 200
    before = client.cookies["rodbook_session"].value
    reply = client.post("/login/code/", {"code": _code("ada", clock)})
    assert reply.headers["Location"] == "/people/"
    assert client.cookies["rodbook_session"].value != before
    assert client.get("/people/").status_code == 200


@pytest.mark.parametrize("steps", [-1, 0, 1])
def test_a_code_is_taken_once_and_none_before_it(ada, clock, steps):
    _switched_on(ada, "ada", clock)
    user = Person.objects.get(user__username="ada").user
    code, earlier = _code("ada", clock, steps), _code("ada", clock, -1)
    assert second.accept(user, code)
    assert second.accept(user, code) is None
    assert second.accept(user, earlier) is None
    client = _in("ada")
    assert client.post("/login/code/", {"code": code}).status_code == 422


@pytest.mark.parametrize("steps", [-3, -2, 2, 3])
def test_codes_of_other_times_are_refused(ada, clock, steps):
    _switched_on(ada, "ada", clock)
    user = Person.objects.get(user__username="ada").user
    assert second.accept(user, _code("ada", clock, steps)) is None


@pytest.mark.parametrize("code", ["", " ", "000", "é" * 6, "\ud800", "1" * 5000, "A" * 16])
def test_what_is_no_code_is_refused(ada, clock, code):
    _switched_on(ada, "ada", clock)
    assert second.accept(Person.objects.get(user__username="ada").user, code) is None


def test_each_code_from_paper_opens_once(ada, clock):
    codes = _switched_on(ada, "ada", clock)
    client = _in("ada")
    assert client.post("/login/code/", {"code": codes[0].lower()}).status_code == 302
    again = _in("ada")
    assert again.post("/login/code/", {"code": codes[0]}).status_code == 422
    assert again.post("/login/code/", {"code": codes[1].replace("-", " ")}).status_code == 302
    used = Deed.objects.filter(doing="recovery-used").order_by("pk")
    assert [d.parameters["left"] for d in used] == [9, 8]
    anew = ada.post("/password/second/", {"do": "anew", "code": _code("ada", clock)}).content.decode()
    fresh = re.findall(r"<code>([A-Z2-7-]{19})</code>", anew)
    assert len(fresh) == 10
    assert not set(fresh) & set(codes)
    assert second.accept(Person.objects.get(user__username="ada").user, codes[2]) is None


def test_wrong_codes_wait_and_keep_only_that_account_out(ada, clock):
    _switched_on(ada, "ada", clock)
    client = _in("ada")
    replies = [client.post("/login/code/", {"code": f"{n:06}"}).status_code for n in range(8)]
    assert replies == [422] * 6 + [429] * 2
    assert client.post("/login/code/", {"code": _code("ada", clock)}).status_code == 429
    assert _in("ben").get("/").status_code == 200
    assert Deed.objects.get(doing="wrong-code").times == 6
    assert ada.get("/").status_code == 200  # whoever is in stays in


def test_who_is_half_in_has_a_few_minutes_and_loses_it_with_the_password(ada, clock):
    _switched_on(ada, "ada", clock)
    client, other = _in("ada"), _in("ada")
    people.set_password(Person.objects.get(user__username="ada").user, "nine kettles under oak")
    assert client.post("/login/code/", {"code": _code("ada", clock)}).headers["Location"] == "/login/"
    people.set_password(Person.objects.get(user__username="ada").user, GOOD)
    late = _in("ada", Client())
    session = late.session
    session["half_in"] = {**session["half_in"], "at": session["half_in"]["at"] - 301}
    session.save()
    assert late.post("/login/code/", {"code": _code("ada", clock)}).headers["Location"] == "/login/"
    assert other.get("/login/code/").headers["Location"] == "/login/"


def test_an_owner_switches_it_off_for_whoever_lost_the_phone(ada, clock):
    ben = _in("ben")
    _switched_on(ben, "ben", clock)
    person = Person.objects.get(user__username="ben")
    assert "Lost the phone" in ada.get("/people/").content.decode()
    assert ben.post(f"/people/{person.pk}/second-off/").status_code == 403
    ada.post(f"/people/{person.pk}/second-off/")
    assert ben.get("/").headers["Location"] == "/login/"  # the phone that is lost is out
    assert _in("ben").get("/").status_code == 200
    last = Deed.objects.get(doing="second-off")
    assert (last.who, last.parameters) == ("ada", {"person": "ben"})
    again = ada.post(f"/people/{person.pk}/second-off/", follow=True).content.decode()
    assert "has no second step" in again


def test_it_is_switched_off_by_a_code_alone(ada, clock):
    _switched_on(ada, "ada", clock)
    assert ada.post("/password/second/", {"do": "off", "code": "123456"}).status_code == 422
    assert Second.objects.exists()
    assert ada.post("/password/second/", {"do": "begin", "password": GOOD}).status_code == 302
    assert ada.post("/password/second/", {"do": "off", "code": _code("ada", clock)}).status_code == 302
    assert not Second.objects.exists()
    assert ada.post("/password/second/", {"do": "off", "code": "1"}).status_code == 302
    assert ada.post("/password/second/", {"do": "nothing"}).status_code == 302
    assert [d.doing for d in Deed.objects.filter(doing__startswith="second").order_by("pk")] == [
        "second-on",
        "second-off",
    ]


def test_the_command_line_lets_an_owner_back_in(ada, clock, monkeypatch):
    from click.testing import CliRunner

    from rodbook.cli import people as commands
    from rodbook.errors import InputError

    _switched_on(ada, "ada", clock)
    monkeypatch.setattr(commands, "_prepare", lambda home: None)
    done = CliRunner().invoke(commands.desk_second_off, ["ada"])
    assert done.output == "ada signs in with the password alone now, and is signed out everywhere.\n"
    assert _in("ada").get("/").status_code == 200
    missing = CliRunner().invoke(commands.desk_second_off, ["nobody"])
    assert isinstance(missing.exception, InputError)
    assert Deed.objects.get(doing="second-off").who == "the command line"


def test_a_desk_of_ones_own_has_none(settings, inside):
    assert inside.get("/password/second/").status_code == 404
