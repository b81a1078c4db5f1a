"""A desk that several people share: accounts, roles, throttled sign-in, sessions that end."""

import html
import re

import pytest
from django.contrib.auth import get_user_model
from django.test import Client
from django.urls import get_resolver, reverse

from rodbook.desk.entrance import people
from rodbook.desk.models import Folder, Kind, Person, Role
from rodbook.desk.platform import store
from rodbook.desk.platform.access import OPEN_PAGES
from rodbook.desk.platform.job_page import job_page
from rodbook.errors import InputError
from rodbook.job.files import parse_job, sample_text

PASSWORD = "seven larch boards"
ARGUMENTS = {"pk": 1, "number": 1, "key": "x", "mark": "C1", "name": "x", "kind": "x", "sha256": "0" * 64, "index": 0}
PRICE_PAGES = [
    "book/",
    "book/rates/",
    "book/boards/",
    "book/boards/price-list/",
    "book/boards/price-list/charges.csv",
    "book/prices/",
    "book/workshops/",
    "book/build-ups/",
    "book/history/",
    "people/",
    "weeks/",
]


@pytest.fixture(autouse=True)
def _shared(settings, db):
    settings.SHARED = True


@pytest.fixture
def come():
    """Make an account of a role and sign it in, by the form that everybody uses."""

    def signed_in(role, name=""):
        name = name or f"{role}-of-it"
        store.the_book_folder()
        people.add_person(name, role, PASSWORD)
        client = Client()
        reply = client.post("/login/", {"username": name, "password": PASSWORD})
        assert reply.status_code == 302, reply.content
        return client

    return signed_in


@pytest.fixture
def job():
    book = store.book_now()[2]
    job = parse_job(sample_text("converted-store"), book)
    return store.new_folder(Kind.JOB, job.job.name, job, who="Ann", said="Begun").pk


def _work_out(pk):
    import time

    page = job_page(pk, start=True)
    while not page.work.over:
        time.sleep(0.05)


def _addresses():
    for pattern in get_resolver().url_patterns:
        if pattern.name and pattern.name not in OPEN_PAGES:
            yield pattern.name, reverse(pattern.name, kwargs={k: ARGUMENTS[k] for k in pattern.pattern.converters})


def test_a_stranger_is_led_to_sign_in_from_every_page(client):
    for name, address in _addresses():
        for method in ("get", "post"):
            reply = getattr(client, method)(address)
            assert (reply.status_code, reply.headers["Location"]) == (302, "/login/"), name
    assert client.get("/jobs/1/work/", headers={"HX-Request": "true"}).status_code == 403


def test_a_one_time_link_lets_nobody_in(client):
    from rodbook.desk.platform.access import new_key

    assert client.get(f"/enter/{new_key()}/").headers["Location"] == "/login/"
    assert client.get("/").status_code == 302


def test_after_six_tries_even_the_right_password_waits(come):
    people.add_person("ann", "owner", PASSWORD)
    client = Client()
    for _ in range(5):
        assert client.post("/login/", {"username": "ann", "password": "wrong"}).status_code == 200
    assert client.post("/login/", {"username": "ann", "password": "wrong"}).status_code == 429
    assert client.post("/login/", {"username": "ann", "password": PASSWORD}).status_code == 429
    page = client.post("/login/", {"username": "ann", "password": PASSWORD}).content.decode()
    assert "try again in 15 minutes" in page
    assert "6 times" in page
    assert 'class="top"' in page
    assert "style=" not in page
    assert client.get("/").status_code == 302
    come("maker")


def test_sessions_end(settings, come):
    client = come("owner")
    assert settings.SESSION_COOKIE_SAMESITE == "Strict"
    cookie = client.cookies[settings.SESSION_COOKIE_NAME]
    assert cookie["httponly"]
    assert 0 < int(cookie["max-age"]) <= settings.SESSION_COOKIE_AGE
    assert client.post("/logout/").headers["Location"] == "/login/"
    assert client.get("/").headers["Location"] == "/login/"


def test_a_reader_looks_and_changes_nothing(come, job):
    client = come("reader")
    for address in ("", f"jobs/{job}/", f"jobs/{job}/make-or-buy/", f"jobs/{job}/orders/", f"jobs/{job}/papers/"):
        assert client.get(f"/{address}").status_code == 200, address
    for name, address in _addresses():
        if name not in ("logout", "own-password", "own-second"):  # what is theirs alone
            assert client.post(address).status_code == 403, name
    assert store.head(Folder.objects.get(pk=job)).number == 1


def test_a_maker_sees_no_price_anywhere(come, job):
    _work_out(job)
    client = come("maker")
    for address in ("make-or-buy", "orders", "papers", "hours", "account", "history", ""):
        page = client.get(f"/jobs/{job}/{address}/" if address else f"/jobs/{job}/").content.decode()
        assert "€" not in page, address
        assert "EUR" not in page, address
    for address in (*PRICE_PAGES, "weeks/paper/", "book/prices/paper/"):
        assert client.get(f"/{address}").status_code == 403, address
        assert client.post(f"/{address}").status_code in (403, 405), address
    for address in (
        "price",
        "price/paper",
        "price/put",
        "price/given",
        "quotes",
        "quotes/add",
        "quotes/paper",
        "quotes/bring-in",
        "quotes/1/out",
    ):
        assert client.get(f"/jobs/{job}/{address}/").status_code in (403, 405), address
        assert client.post(f"/jobs/{job}/{address}/", {"base": 1}).status_code in (403, 405), address
    assert f'/jobs/{job}/price/"' not in client.get(f"/jobs/{job}/").content.decode()
    assert client.get(f"/jobs/{job}/papers/summary.pdf/").status_code == 403
    assert client.get(f"/jobs/{job}/papers/layouts.pdf/").status_code == 403
    assert client.get(f"/jobs/{job}/papers/workshop-order.pdf/").content.startswith(b"%PDF")
    page = client.get(f"/jobs/{job}/papers/").content.decode()
    assert "summary.pdf" not in page
    assert client.post(f"/jobs/{job}/make-or-buy/choose/", {"base": 1, "door": "site-made"}).status_code == 403


def test_how_a_job_is_priced_reaches_a_maker_nowhere(come, job):
    owner, maker = come("owner"), come("maker")
    folder = Folder.objects.get(pk=job)
    terms = {
        "base": 1,
        "earn_how": "mark_up",
        "earn": "31.25",
        "extra-0-name": "Fitting",
        "extra-0-cost": "777.70",
        "extra-TOTAL_FORMS": 1,
        "extra-INITIAL_FORMS": 0,
    }
    assert owner.post(f"/jobs/{job}/price/put/", terms).status_code == 302
    for address in ("", "history/", "history/compare/?from=1&to=2", "file/", "papers/parts-schedule.pdf/"):
        page = maker.get(f"/jobs/{job}/{address}").content
        for hidden in (b"0.3125", b"31.25", b"777.7"):
            assert hidden not in page, address
    assert "how the job is priced" in maker.get(f"/jobs/{job}/history/").content.decode()
    assert "mark up nothing → 0.3125" in owner.get(f"/jobs/{job}/history/").content.decode()
    assert "777.7" in owner.get(f"/jobs/{job}/file/").content.decode()
    # a maker who saves keeps the price, and takes none back
    header = {"name": "Store", "date": "2026-11-02", "revision": "C", "build_up": "inset, painted"}
    told = maker.post(f"/jobs/{job}/header/", {"base": 1, **header}, follow=True).content.decode()
    assert "how the job is priced" in told
    assert "0.3125" not in told
    assert maker.post(f"/jobs/{job}/history/2/undo/").status_code == 403
    terms["earn"] = "40"
    assert owner.post(f"/jobs/{job}/price/put/", {**terms, "base": 3}).status_code == 302
    reply = maker.post(f"/jobs/{job}/header/", {"base": 1, **header, "name": "Other"})
    assert reply.status_code == 409
    assert "777.7" not in reply.content.decode()
    typed = html.unescape(re.search(r'name="document" value="([^"]*)"', reply.content.decode())[1])
    assert maker.post(f"/documents/{folder.pk}/settle/", {"base": 4, "document": typed}).status_code == 302
    now = store.job_now(folder)[1]
    assert (now.job.name, str(now.price.mark_up)) == ("Other", "0.4")


def test_a_maker_changes_jobs_and_signs_with_their_name(come, job):
    client = come("maker", "mo")
    folder = Folder.objects.get(pk=job)
    header = {"base": 1, "name": "Store", "date": "2026-11-02", "revision": "C", "build_up": "inset, painted"}
    assert client.post(f"/jobs/{job}/header/", header).status_code == 302
    assert store.head(folder).who == "mo"


def test_an_owner_does_all(come, job):
    _work_out(job)
    client = come("owner")
    for address in PRICE_PAGES:
        assert client.get(f"/{address}").status_code == 200, address
    assert "€" in client.get(f"/jobs/{job}/make-or-buy/").content.decode()
    assert client.get(f"/jobs/{job}/papers/summary.pdf/").content.startswith(b"%PDF")


def test_somebody_is_let_in_by_an_owner(come):
    client = come("owner")
    new = {"name": "jo", "role": "maker", "password": PASSWORD}
    assert client.post("/people/add/", new).headers["Location"] == "/people/"
    assert Person.objects.get(user__username="jo").role == "maker"
    assert "jo" in client.get("/people/").content.decode()


@pytest.mark.parametrize(
    ("wrong", "field"),
    [
        ({"name": ""}, "name"),
        ({"name": "jo jo"}, "name"),
        ({"name": "OWNER-of-it"}, "name"),
        ({"role": "boss"}, "role"),
        ({"password": "short"}, "password"),
        ({"password": "password1234"}, "password"),
        ({"name": "x" * 90}, "name"),
    ],
)
def test_a_wrong_account_is_said_beside_its_field(come, wrong, field):
    client = come("owner")
    reply = client.post("/people/add/", {"name": "jo", "role": "maker", "password": PASSWORD} | wrong)
    page = reply.content.decode()
    assert reply.status_code == 422
    assert f'id="fault-{field}"' in page
    assert PASSWORD not in page
    assert Person.objects.count() == 1


def test_roles_change_and_accounts_are_shut_at_once(come):
    owner, maker = come("owner"), come("maker")
    person = Person.objects.get(role="maker")
    owner.post(f"/people/{person.pk}/role/", {"role": "reader"})
    assert maker.post("/jobs/sample/", {"sample": "stair"}).status_code == 403
    owner.post(f"/people/{person.pk}/active/", {"active": "0"})
    assert maker.get("/").headers["Location"] == "/login/"
    owner.post(f"/people/{person.pk}/active/", {"active": "1"})
    assert Client().post("/login/", {"username": "maker-of-it", "password": PASSWORD}).headers["Location"] == "/"


def test_the_last_owner_stays(come):
    owner = come("owner")
    person = Person.objects.get(role="owner")
    for address, sent in (("role", {"role": "maker"}), ("active", {"active": "0"})):
        page = owner.post(f"/people/{person.pk}/{address}/", sent, follow=True).content.decode()
        assert "is the only owner" in page
    person.refresh_from_db()
    assert person.role == "owner"
    assert person.user.is_active
    with pytest.raises(InputError, match="choose owner, maker or reader"):
        people.set_role(person, "boss")


def test_an_account_without_a_role_may_only_look(come):
    store.the_book_folder()
    get_user_model().objects.create_user("stray", password=PASSWORD)
    client = Client()
    client.post("/login/", {"username": "stray", "password": PASSWORD})
    assert client.get("/").status_code == 200
    assert client.get("/book/").status_code == 403
    assert client.post("/jobs/sample/", {"sample": "stair"}).status_code == 403


def test_everybody_changes_their_own_password(come):
    client, elsewhere = come("reader"), Client()
    elsewhere.post("/login/", {"username": "reader-of-it", "password": PASSWORD})
    wrong = client.post("/password/", {"old": "no", "password": "nine oak dowels in"})
    assert wrong.status_code == 422
    assert 'id="fault-old"' in wrong.content.decode()
    weak = client.post("/password/", {"old": PASSWORD, "password": "short"})
    assert 'id="fault-password"' in weak.content.decode()
    assert client.post("/password/", {"old": PASSWORD, "password": "nine oak dowels in"}).status_code == 302
    assert client.get("/").status_code == 200
    assert elsewhere.get("/").headers["Location"] == "/login/"


def test_an_owner_gives_a_forgotten_password_anew(come):
    owner, maker = come("owner"), come("maker")
    person = Person.objects.get(role="maker")
    assert "too short" in owner.post(f"/people/{person.pk}/password/", {"password": "x"}, follow=True).content.decode()
    owner.post(f"/people/{person.pk}/password/", {"password": "nine oak dowels in"})
    assert maker.get("/").status_code == 302
    again = {"username": "maker-of-it", "password": "nine oak dowels in"}
    assert Client().post("/login/", again).headers["Location"] == "/"


OWN = "seven oak dowels out"


def test_a_password_that_an_owner_thought_of_opens_nothing_but_the_page_to_change_it(come, job):
    owner = come("owner")
    first = "nine oak dowels in"
    assert owner.post("/people/add/", {"name": "ann", "role": "maker", "password": first}).status_code == 302
    ann = Client()
    assert ann.post("/login/", {"username": "ann", "password": first}).status_code == 302
    for address in ("/", "/jobs/new/", f"/jobs/{job}/", "/outbox/"):
        assert ann.get(address).headers["Location"] == "/password/", address
    assert ann.post("/jobs/new/", {"name": "x"}).headers["Location"] == "/password/"
    piece = ann.get("/", headers={"HX-Request": "true"})
    assert (piece.status_code, piece.headers["HX-Redirect"]) == (204, "/password/")
    assert "Somebody else thought of your password" in ann.get("/password/").content.decode()
    again = ann.post("/password/", {"old": first, "password": first})
    assert again.status_code == 422
    assert "that you were given" in again.content.decode()
    assert ann.post("/password/", {"old": first, "password": OWN}).status_code == 302
    assert ann.get("/").status_code == 200
    person = Person.objects.get(user__username="ann")
    owner.post(f"/people/{person.pk}/password/", {"password": first})  # forgotten, and given anew
    back = Client()
    assert back.post("/login/", {"username": "ann", "password": first}).status_code == 302
    assert back.get("/").headers["Location"] == "/password/"
    assert owner.get("/").status_code == 200
    own = Person.objects.get(role="owner", user__username="owner-of-it")
    owner.post(f"/people/{own.pk}/password/", {"password": OWN})
    fresh = Client()
    fresh.post("/login/", {"username": "owner-of-it", "password": OWN})
    assert fresh.get("/").status_code == 200, "nobody else thought of this one"


def test_everybody_sees_where_they_are_signed_in_and_ends_it(come):
    here, ben = come("maker"), come("reader")
    there = Client()
    there.post("/login/", {"username": "maker-of-it", "password": PASSWORD})
    page = here.get("/password/").content.decode()
    assert page.count("since ") == 2
    assert page.count("<small>here</small>") == 1
    assert there.get("/").status_code == 200
    assert here.post("/password/", {"end": "1"}, follow=True).content.decode().count("since ") == 1
    assert there.get("/").status_code == 302
    assert here.get("/").status_code == ben.get("/").status_code == 200
    assert 'name="end"' not in here.get("/password/").content.decode()


def test_passwords_are_kept_as_argon2():
    people.add_person("ann", "owner", PASSWORD)
    assert get_user_model().objects.get(username="ann").password.startswith("argon2")


def test_a_password_takes_one_core_and_one_of_eight_lanes_is_made_anew(come, passwords_at_their_cost):
    from django.contrib.auth.hashers import Argon2PasswordHasher

    come("owner")
    user = get_user_model().objects.get(username="owner-of-it")
    assert "p=1" in user.password, "eight lanes would take all cores of a small machine from the pages"
    assert "m=102400,t=2" in user.password
    user.password = Argon2PasswordHasher().encode(PASSWORD, "a" * 22)
    user.save()
    assert "p=8" in user.password
    assert Client().post("/login/", {"username": "owner-of-it", "password": PASSWORD}).headers["Location"] == "/"
    user.refresh_from_db()
    assert "m=102400,t=2,p=1" in user.password


def test_a_desk_of_ones_own_has_no_people(settings, client):
    settings.SHARED = False
    from rodbook.desk.platform.access import new_key

    client.get(f"/enter/{new_key()}/")
    for address in ("people/", "password/"):
        assert client.get(f"/{address}").status_code == 404
    assert client.post("/people/add/", {"name": "jo"}).status_code == 404


def test_what_a_phone_keeps_ends_with_the_role_and_the_session(come, job):
    client = come("owner", "ann")
    come("owner", "bea")
    mark = client.get("/")["X-Rodbook-Keep"]
    assert mark == client.get(f"/jobs/{job}/measure/C1/")["X-Rodbook-Keep"]
    people.set_role(Person.objects.get(user__username="ann"), "reader")
    changed = client.get("/")["X-Rodbook-Keep"]
    assert changed not in (mark, "none")
    client.post("/logout/")
    assert client.get("/login/")["X-Rodbook-Keep"] == "none"


def test_papers_with_prices_are_never_kept_on_a_phone(come, job):
    from rodbook.desk.platform.rendering import is_priced, papers_for

    _work_out(job)
    client = come("owner")
    for paper in papers_for(Role.OWNER):
        reply = client.get(f"/jobs/{job}/papers/{paper.file}/")
        assert ("X-Rodbook-Barred" in reply) == is_priced(paper), paper.file
        assert reply["Cache-Control"] == "no-store"
    pack = client.get(f"/jobs/{job}/papers/pack/?anyway=yes")
    assert pack["Cache-Control"] == "no-store"
    assert "X-Rodbook-Barred" in pack
