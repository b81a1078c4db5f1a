"""Requests are worked on few at a time and in order; so are transactions; what waits for something else steps aside."""

import threading
import time
from types import SimpleNamespace

import pytest
from django.db import connections, transaction

from rodbook.desk.keeping.server import _Waiting
from rodbook.desk.models import Folder, Kind, Revision
from rodbook.desk.platform import store
from rodbook.desk.platform.planning import planner
from rodbook.desk.platform.turns import AT_WORK, ByPlace, InTurn, Turns, aside, turns
from rodbook.job.files import parse_job, sample_text

SECONDS = 20.0


def _together(run, number):
    threads = [threading.Thread(target=run, args=(n,), daemon=True) for n in range(number)]
    for thread in threads:
        thread.start()
    return threads


def _until(condition):
    end = time.monotonic() + SECONDS
    while not condition():
        assert time.monotonic() < end
        time.sleep(0.005)


def test_who_comes_first_is_let_through_first():
    line, order = Turns(1), []
    assert line.take()

    def run(n):
        assert line.take(SECONDS)
        order.append(n)
        line.give_back()

    threads = []
    for n in range(5):
        threads += [threading.Thread(target=run, args=(n,), daemon=True)]
        threads[-1].start()
        _until(lambda n=n: len(line._waiting) == n + 1)
    line.give_back()
    for thread in threads:
        thread.join(SECONDS)
    assert order == [0, 1, 2, 3, 4]
    assert line.take(0), "and it is free again"


def test_who_gave_up_waiting_takes_no_turn_away():
    line = Turns(1)
    assert line.take()
    assert not line.take(0.01)
    line.give_back()
    assert line.take(0)


def test_few_requests_are_worked_on_at_once_and_those_aside_are_not_counted():
    working, most, go, waits = [0], [0], threading.Event(), threading.Event()
    lock = threading.Lock()

    def application(environ, _start):
        if environ["waits"]:
            with aside():
                assert waits.wait(SECONDS)
        with lock:
            working[0] += 1
            most[0] = max(most[0], working[0])
        assert environ["waits"] or go.wait(SECONDS)
        with lock:
            working[0] -= 1
        return ()

    answer = InTurn(application)
    slow = _together(lambda _: answer({"waits": True}, None), 3 * AT_WORK)  # as many sign-ins as wait for a password
    quick = _together(lambda _: answer({"waits": False}, None), 3 * AT_WORK)
    _until(lambda: working[0] == AT_WORK)
    time.sleep(0.05)
    assert most[0] == AT_WORK
    go.set()
    for thread in quick:
        thread.join(SECONDS)
        assert not thread.is_alive(), "nobody waits for those who stepped aside"
    waits.set()
    for thread in slow:
        thread.join(SECONDS)
    assert turns._free == AT_WORK


def test_who_asks_from_elsewhere_does_not_wait_behind_a_crowd():
    line, order = Turns(1), []
    assert line.take()

    def run(place):
        assert line.take(SECONDS, place=place)
        order.append(place)
        line.give_back()

    threads = []
    for n, place in enumerate(["crowd"] * 12 + ["owner"]):
        threads += [threading.Thread(target=run, args=(place,), daemon=True)]
        threads[-1].start()
        _until(lambda n=n: len(line._waiting) == n + 1)
    line.give_back()
    for thread in threads:
        thread.join(SECONDS)
    assert order.index("owner") == 1


def test_a_save_goes_before_looks_and_looks_come_all_the_same():
    line = ByPlace()
    for n in range(4):
        line.append("here", f"look {n}")
    for n in range(8):
        line.append("here", f"save {n}", sent=True)
    line.remove("here", "save 7")
    order = [line.pop() for _ in range(len(line))]
    assert order[:4] == ["save 0", "save 1", "save 2", "look 0"]
    assert [one for one in order if one.startswith("save")] == [f"save {n}" for n in range(7)]
    assert [one for one in order if one.startswith("look")] == [f"look {n}" for n in range(4)]
    assert len(line) == 0


def test_a_server_takes_connections_of_each_address_in_turn():
    def asked(place, forwarded=None):
        headers = {"X_FORWARDED_FOR": forwarded} if forwarded else {}
        return SimpleNamespace(
            addr=(place, 1), server=SimpleNamespace(many={"10.0.0.9"}), requests=[SimpleNamespace(headers=headers)]
        )

    waiting = _Waiting()
    crowd = [asked("10.0.0.2", "10.0.0.1") for _ in range(3)]  # what somebody says who is no proxy is not believed
    told = [asked("10.0.0.9", "10.0.0.5"), asked("10.0.0.9", "10.0.0.5"), asked("10.0.0.9", "10.0.0.6")]
    for one in (*crowd, *told):
        waiting.append(one)
    assert len(waiting) == 6
    assert [waiting.popleft() for _ in range(len(waiting))] == [crowd[0], told[0], told[2], crowd[1], told[1], crowd[2]]


def test_a_fault_gives_the_turn_back():
    def application(_environ, _start):
        with aside():
            raise LookupError

    for _ in range(2 * AT_WORK):
        with pytest.raises(LookupError):
            InTurn(application)({}, None)
    assert turns._free == AT_WORK


def test_aside_without_a_turn_changes_nothing():
    with aside():
        assert turns._free == AT_WORK


@pytest.mark.django_db(transaction=True)
def test_transactions_begin_in_the_order_in_which_they_were_asked_for():
    order, inside, leave = [], threading.Event(), threading.Event()

    def first():
        with transaction.atomic():
            inside.set()
            leave.wait(SECONDS)
        connections.close_all()

    def run(n):
        with transaction.atomic():
            order.append(n)
            time.sleep(0.02)
        connections.close_all()

    threads = [threading.Thread(target=first, daemon=True)]
    threads[0].start()
    assert inside.wait(SECONDS)
    for n in range(6):
        threads += [threading.Thread(target=run, args=(n,), daemon=True)]
        threads[-1].start()
        time.sleep(0.15)  # by then the database alone would let it look again only seldom
    leave.set()
    for thread in threads:
        thread.join(SECONDS)
        assert not thread.is_alive()
    assert order == list(range(6))


@pytest.mark.django_db(transaction=True)
def test_a_transaction_that_fails_keeps_nobody_waiting():
    for _ in range(3):
        with pytest.raises(LookupError), transaction.atomic():
            raise LookupError
    done = []

    def run(n):
        with transaction.atomic():
            done.append(n)
        connections.close_all()

    for thread in _together(run, 2):
        thread.join(SECONDS)
    assert len(done) == 2


# --- a save does no more than it has to ---


ABOUT = {"leaves": "1", "hand": "left", "note": "damp at the foot", "reading": "widths-0"}


@pytest.mark.parametrize(
    ("address", "form"),
    [
        ("measure-about/C1/", ABOUT),
        ("measure/C1/", {"reading": "widths-0", "value": "851"}),
        ("header/", None),
        ("history/2/undo/", {}),
    ],
)
def test_a_save_that_leads_to_another_page_plans_nothing(inside, store_job, monkeypatch, address, form):
    assert (
        inside.post(f"/jobs/{store_job}/measure-about/C1/", {"base": "1", **ABOUT, "note": "first"}).status_code == 302
    )

    if form is None:  # the header as it stands, for another client
        header = store.job_now(Folder.objects.get(pk=store_job))[1].job
        form = {**header.model_dump(mode="json", exclude_defaults=True), "client": "Nobody"}

    def planned(*_):
        raise AssertionError("it planned")

    monkeypatch.setattr(planner, "parts", planned)
    monkeypatch.setattr(planner, "whole", planned)
    reply = inside.post(f"/jobs/{store_job}/{address}", {"base": "2", **form})
    assert reply.status_code == 302
    assert Folder.objects.get(pk=store_job).head == 3, "and it is saved"
    assert inside.get(f"/jobs/{store_job}/measure/C1/").status_code == 200, (
        "nor does a page that shows nothing of a plan"
    )


@pytest.mark.django_db(transaction=True)
def test_a_save_holds_the_lock_for_no_merging_unless_others_are_always_quicker(monkeypatch):
    book = store.book_now()[2]
    job = parse_job(sample_text("converted-store"), book)
    folder = store.new_folder(Kind.JOB, "one", job, who="Ann", said="begun")
    merges, real = [], store.merged
    monkeypatch.setattr(
        store, "merged", lambda *told: (merges.append(transaction.get_connection().in_atomic_block), real(*told))[1]
    )
    quicker, head, n = [9], store.head, [0]

    def overtaken(of):
        found = head(of)
        if quicker[0] and not transaction.get_connection().in_atomic_block:
            quicker[0] -= 1
            n[0] += 1
            with transaction.atomic():  # somebody saves just after this was looked at
                locked = Folder.objects.get(pk=folder.pk)
                newest = locked.revisions.latest("number")
                changed = {**newest.document, "job": {**newest.document["job"], "note": f"n {n[0]}"}}
                store.add_revision(locked, newest, changed, "Ben")
        return found

    monkeypatch.setattr(store, "head", overtaken)

    def mark(began):
        began["openings"][0]["note"] = "mine"
        return began

    saved = store.save(folder, 1, mark, who="Ann", book=book)
    assert saved.revision.document["openings"][0]["note"] == "mine"
    assert saved.revision.document["job"]["note"] == f"n {n[0]}", "what others saved stands"
    assert saved.meanwhile is not None
    assert merges[-1], "in the end it held the lock"
    assert not any(merges[:-1])
    assert n[0] == store.UNLOCKED_TRIES
    numbers = list(Revision.objects.filter(folder=folder).order_by("number").values_list("number", flat=True))
    assert numbers == list(range(1, len(numbers) + 1))
