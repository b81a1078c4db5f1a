"""Who may see what: canaries in every priced field, looked for in all that a role can get; history goes by path, not by text."""

import io
import json
import re
import time
import zipfile
from decimal import Decimal

import pytest
from django.test import Client
from django.urls import get_resolver, reverse
from pypdf import PdfReader

from rodbook.desk.entrance import people
from rodbook.desk.models import Folder, Kind, Record, Revision, Role
from rodbook.desk.platform import actuals, store
from rodbook.desk.platform.access import OPEN_PAGES
from rodbook.desk.platform.changes import changed
from rodbook.desk.platform.history_lines import faults_for, lines_between, lines_for
from rodbook.desk.platform.job_page import job_page
from rodbook.desk.platform.roles import TABLE, least_role, may_see, seen_part, with_hidden_of
from rodbook.errors import Fault
from rodbook.job import Book, Job
from rodbook.job.actuals import Actuals
from rodbook.job.files import parse_job, sample_text
from rodbook.papers.registry import file_names

PASSWORD = "seven larch boards"
NUMBERS = ("7391.37", "8464.83")
WORDS = ("Kanari", "Zeisig")
CURRENCY = "XTS"
NAMES = {"mark", "name", "label", "since", "unit", "stock", "board", "lines", "currency", "day", "on", "task", "person"}
"""Fields that canaries leave alone, as something else is found by them or read from them."""


class _Planter:
    """Puts the canaries into what a document has of fields that only the owner sees, each in turn."""

    def __init__(self):
        self.put = 0

    def numbers(self):
        self.put += 1
        return NUMBERS[self.put % 2]

    def words(self):
        self.put += 1
        return f"{WORDS[self.put % 2]} told so"

    def plant(self, value, path):
        name = path.rsplit(".", 1)[-1]
        if isinstance(value, dict):
            if path == "book.rates" and not str(value.get("unit", "")).startswith("currency"):
                return {**value, "source": self.words()}  # hours and shares stay what they are
            return {k: self.plant(v, f"{path}.{k}") if k not in NAMES or k == "lines" else v for k, v in value.items()}
        if isinstance(value, list):
            return [self.plant(entry, path) for entry in value]
        if least_role(path) != Role.OWNER or isinstance(value, bool) or name in ("percent", "lead_days", "valid_until"):
            return value
        if isinstance(value, int):
            return value
        if isinstance(value, str) and not re.fullmatch(r"-?\d+(\.\d+)?", value):
            return self.words()
        return type(value)(self.numbers())


def _priced(job):
    """A job with something in every field of its price."""
    raw = store.as_document(job)
    extra = {"name": "x", "cost": "1", "hours": "2", "group": "g"}
    raw["price"] = {
        "lines": "by opening",
        "parts": f"{WORDS[0]} parts",
        "group": f"{WORDS[1]} group",
        "words": f"{WORDS[0]} words",
        "taxes": "with tax",
        "extras": [
            {**extra, "name": "Carrying up", "cost": NUMBERS[0]},
            {**extra, "name": f"{WORDS[0]} option", "cost": NUMBERS[1], "option": True},
        ],
        "given": {"on": "2026-11-02", "net": NUMBERS[0], "gross": NUMBERS[1], "cost": NUMBERS[0]},
    }
    return raw


@pytest.fixture
def planted(settings, db):
    """A job, a book, actuals and a quote with canaries; laid out, changed a few times, and a change taken back."""
    settings.SHARED = True
    planter = _Planter()
    folder, head, book = store.book_now()
    raw = {name: planter.plant(part, f"book.{name}") for name, part in store.as_document(book).items()}
    raw["currency"] = CURRENCY
    book = store.read_document(Kind.BOOK, raw)
    store.save(folder, head.number, lambda _: book, who="Ann")
    job = parse_job(sample_text("stair"), book)
    job_folder = store.new_folder(Kind.JOB, job.job.name, job, who="Ann", said="Begun")
    store.save(job_folder, 1, lambda _: store.read_job_document(_priced(job), book), who="Ann", book=book)
    again = store.as_document(store.job_now(job_folder)[1])
    again["price"]["words"] = f"{WORDS[1]} words"
    again["job"]["note"] = "two lines\nprice: of nothing"
    store.save(job_folder, 2, lambda _: store.read_job_document(again, book), who="Ann", book=book)
    store.undo(job_folder, 3, who="Ann", book=book)
    bill = {
        "mark": "",
        "supplier": f"{WORDS[0]} mill",
        "number": f"{WORDS[1]} 7",
        "day": "2026-11-20",
        "currency": CURRENCY,
        "lines": [{"what": f"{WORDS[0]} boards", "amount": NUMBERS[1]}],
    }
    actuals.put_invoice(
        job_folder, Actuals.model_validate({"invoices": [bill]}).invoices[0], currency=CURRENCY, who="Ann"
    )
    page = job_page(job_folder.pk, start=True)
    while not page.work.over:
        time.sleep(0.05)
    page = job_page(job_folder.pk)
    assert page.whole is not None, page.work.faults
    quote = {
        "workshop": f"{WORDS[0]} works",
        "reference": f"{WORDS[1]} 12",
        "day": "2026-11-10",
        "valid_until": "2027-11-10",
        "currency": CURRENCY,
        "lead_days": 10,
        "delivery": NUMBERS[0],
        "least_order": "0",
        "whole_only": False,
        "lines": [[line.mark, line.quantity, NUMBERS[1], ""] for line in page.plan.schedule[:2]],
        "lumps": [],
    }
    Record.objects.create(folder=job_folder, kind="quote", content=quote, who="Ann")
    return job_folder.pk


def _addresses(pk, plan):
    """Every page, file and paper of the site map, with something real in each place."""
    kwargs = {
        "pk": [pk],
        "number": [1, 2],
        "mark": [plan.openings[0].opening.mark],
        "key": ["x"],
        "sha256": ["0" * 64],
        "index": [0],
        "kind": ["boards"],
        "name": ["charges"],
    }
    for pattern in get_resolver().url_patterns:
        if not pattern.name or pattern.name in (*OPEN_PAGES, "logout"):
            continue
        given = {name: kwargs[name] for name in pattern.pattern.converters}
        if pattern.name == "paper":
            given["name"] = list(file_names())
        if pattern.name == "part":
            given["mark"] = [line.mark for line in plan.schedule[:3]]
        if pattern.name == "book-blank-list":
            given["kind"] = ["csv"]
        ways = [{}]
        for name, values in given.items():
            ways = [{**way, name: value} for way in ways for value in values]
        for way in ways:
            yield reverse(pattern.name, kwargs=way)
    yield reverse("history-compare", kwargs={"pk": pk}) + "?from=1&to=2"
    yield reverse("papers-pack", kwargs={"pk": pk}) + "?anyway=yes"
    yield reverse("history-compare", kwargs={"pk": pk}) + "?from=2&to=3"


def _read(reply, name=""):
    """All text of an answer, whatever kind of file it is."""
    content = b"".join(reply.streaming_content) if getattr(reply, "streaming", False) else reply.content
    return _text(content, name)


def _text(content, name):
    if content.startswith(b"%PDF"):
        return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(content)).pages)
    if content.startswith(b"PK"):
        with zipfile.ZipFile(io.BytesIO(content)) as pack:
            return " ".join(_text(pack.read(entry), entry) for entry in pack.namelist())
    return content.decode("utf-8", "replace")


def _found(text):
    """The canaries in a text, however numbers are grouped in it."""
    plain = re.sub(r"(?<=\d)[,\u00a0\u202f '](?=\d{3})", "", text)
    return {canary for canary in (*NUMBERS, *WORDS, CURRENCY) if canary in plain}


def _signed_in(role):
    people.add_person(f"{role}-of-it", role, PASSWORD)
    client = Client()
    assert client.post("/login/", {"username": f"{role}-of-it", "password": PASSWORD}).status_code == 302
    return client


def test_no_page_paper_file_or_copy_gives_a_maker_or_a_reader_a_price(planted):
    plan = job_page(planted).whole
    addresses = list(_addresses(planted, plan))
    clients = {role: _signed_in(role) for role in (Role.OWNER, Role.MAKER, Role.READER)}
    seen = {role: {} for role in clients}
    for role, client in clients.items():
        for address in addresses:
            reply = client.get(address)
            if reply.status_code in (200, 403, 409, 422):
                seen[role][address] = _found(_read(reply))
    of_owner = set().union(*seen[Role.OWNER].values())
    assert of_owner == {*NUMBERS, *WORDS, CURRENCY}, (
        "the canaries are not even where they belong, so this test says nothing"
    )
    places = {address for address, found in seen[Role.OWNER].items() if found}
    for must in (
        "/price/",
        "/quotes/",
        "/account/",
        "/history/",
        "/file/",
        "summary.pdf",
        "layouts.pdf",
        "/pack/",
        "/book/boards/",
        "/book/rates/",
        "/book/workshops/",
        "/compare/",
    ):
        assert any(must in address for address in places), must
    for role in (Role.MAKER, Role.READER):
        leaks = {address: found for address, found in seen[role].items() if found}
        assert leaks == {}, role
        along = clients[role].get(reverse("along", kwargs={"pk": planted})).json()
        for address in (*along["pages"], *along["papers"], *along["pictures"]):
            if address in seen[role]:
                continue  # looked at above, without a leak
            reply = clients[role].get(address)
            assert _found(_read(reply)) == set(), address
    of_owner = clients[Role.OWNER].get(reverse("along", kwargs={"pk": planted})).json()
    for address in (*of_owner["papers"], *of_owner["pictures"]):
        known = seen[Role.OWNER].get(address)
        found = _found(_read(clients[Role.OWNER].get(address))) if known is None else known
        assert found == set(), address


def test_what_a_maker_is_told_on_saving_over_others_has_no_price(planted):
    client = _signed_in(Role.MAKER)
    base = store.head(Folder.objects.get(pk=planted)).number
    about = {
        "name": "Stair",
        "revision": "A",
        "date": "2026-11-02",
        "build_up": "inset, painted",
        "building": "heated throughout",
    }
    told = client.post(f"/jobs/{planted}/header/", {**about, "base": str(1), "note": "mine"}, follow=True)
    assert _found(told.content.decode()) == set()
    store_job = Folder.objects.get(pk=planted)
    assert store.head(store_job).number >= base


def test_an_opening_called_price_keeps_its_history_for_everybody():
    old = {"openings": [{"mark": "price", "depth": 300}]}
    new = {"openings": [{"mark": "price", "depth": 310}]}
    for role in Role:
        assert lines_between(role, Kind.JOB, old, new) == ["price: depth 300 → 310"]


def test_a_line_break_in_a_price_lets_nothing_through():
    old = {"price": {"words": "a"}, "job": {"note": ""}}
    new = {"price": {"words": "a\nC1: 12 % margin"}, "job": {"note": "one\nprice: not hidden"}}
    assert lines_between(Role.MAKER, Kind.JOB, old, new) == [
        "note nothing → one price: not hidden",
        "how the job is priced",
    ]
    assert lines_between(Role.OWNER, Kind.JOB, old, new) == [
        "price: words a → a C1: 12 % margin",
        "note nothing → one price: not hidden",
    ]


def test_revisions_kept_as_text_alone_are_compared_anew(planted):
    folder = Folder.objects.get(pk=planted)
    Revision.objects.filter(folder=folder).update(changes=None, text="price: words told as they were")
    second = folder.revisions.get(number=2)
    assert lines_for(Role.MAKER, second) == ["how the job is priced"]
    assert any(WORDS[0] in line for line in lines_for(Role.OWNER, second))


def test_a_fault_in_the_price_is_not_told_to_a_maker():
    fault = Fault("price.taxes", "plain.text", text="the book has no tax profile 'Kanari'")
    assert faults_for(Role.OWNER, Kind.JOB, [fault]) == [str(fault)]
    assert faults_for(Role.MAKER, Kind.JOB, [fault, fault]) == [
        "something that only the owner sees is at fault; ask the owner"
    ]
    own = Fault("openings[1].widths (price)", "plain.text", text="read it again")
    assert faults_for(Role.MAKER, Kind.JOB, [own]) == [str(own)]


def test_what_a_maker_sends_keeps_the_price_as_it_is():
    now = {"job": {"name": "x"}, "price": {"margin": "0.2"}}
    sent = {"job": {"name": "y"}, "price": {"margin": "0.9"}}
    assert with_hidden_of(Role.MAKER, Kind.JOB, sent, now) == {"job": {"name": "y"}, "price": {"margin": "0.2"}}
    assert with_hidden_of(Role.MAKER, Kind.JOB, sent, {"job": {}}) == {"job": {"name": "y"}}
    assert with_hidden_of(Role.OWNER, Kind.JOB, sent, now) == sent
    assert seen_part(Role.READER, Kind.JOB, now) == {"job": {"name": "x"}}


def _fields(model, path):
    """Every field of a model by its path, and its annotation."""
    from rodbook.job.faults import _models_in

    for name, field in model.model_fields.items():
        yield f"{path}.{name}", field
        for inner in _models_in(field.annotation):
            yield from _fields(inner, f"{path}.{name}")


def test_every_amount_of_money_is_in_the_table_as_the_owners():
    """A field of money that somebody adds tomorrow is the owner's, or the table says otherwise in its own line."""
    money = [
        path
        for model, kind in ((Job, Kind.JOB), (Book, Kind.BOOK), (Actuals, Kind.ACTUALS))
        for path, field in _fields(model, str(kind))
        if "Decimal" in str(field.annotation) or any("Decimal" in str(m) for m in field.metadata)
    ]
    assert len(money) > 15
    others = sorted({path for path in money if may_see(Role.MAKER, path)})
    assert others == ["actuals.hours.done", "actuals.hours.hours"]


def test_the_table_names_only_fields_that_there_are():
    known = {
        path
        for model, kind in ((Job, Kind.JOB), (Book, Kind.BOOK), (Actuals, Kind.ACTUALS))
        for path, _ in _fields(model, str(kind))
    }
    named = {path for path in TABLE if path.split(".")[0] in ("job", "book", "actuals") and "." in path}
    assert named <= known


def test_changes_are_kept_as_plain_values(planted):
    folder = Folder.objects.get(pk=planted)
    second = folder.revisions.get(number=2)
    assert json.loads(json.dumps(second.changes)) == second.changes
    documents = [folder.revisions.get(number=n).document for n in (1, 2)]
    assert second.changed() == changed(*documents)
    assert Decimal(NUMBERS[0]) > 0
