"""Attacks on a desk of one's own, and what they do to it: each sub-command prints a table.

    python benchmarks/desk_attacks.py kills [--number N]
    python benchmarks/desk_attacks.py bytes [--number N]
    python benchmarks/desk_attacks.py writers [--each N]
    python benchmarks/desk_attacks.py stranger [--tries N]
    python benchmarks/desk_attacks.py backup [--jobs N] [--megabytes N]

Everything happens in folders of their own that are thrown away, over 127.0.0.1 alone, bounded in number and time; nothing is
left running. The exit status is 1 where something was lost, false or unsound.
"""

from __future__ import annotations

import argparse
import contextlib
import http.client
import json
import os
import random
import re
import shutil
import signal
import socket
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlencode

from running import how_busy, median_and_p95, resident_mb

MARKS = [f"C{n}" for n in range(1, 15)]
LONGEST = 120.0
"""No request is waited for longer. [s]"""


class Person:
    """Somebody with a browser, by the cookies that they have."""

    def __init__(
        self, place: str, cookies: dict[str, str] | None = None, token: str = "", *, at: str = "127.0.0.1"
    ) -> None:
        self.at = at
        self.place, self.cookies, self.token = place, dict(cookies or {}), token

    def ask(self, path: str, form: dict[str, object] | None = None) -> tuple[int, str, str]:
        """Status, where it leads, and the page."""
        headers = {"Cookie": "; ".join(f"{k}={v}" for k, v in self.cookies.items())}
        body = None
        if form is not None:
            headers["Content-Type"] = "application/x-www-form-urlencoded"
            body = urlencode(form | {"csrfmiddlewaretoken": self.token})
        with contextlib.closing(
            http.client.HTTPConnection(self.place, timeout=LONGEST, source_address=(self.at, 0))
        ) as line:
            line.request("GET" if body is None else "POST", path, body, headers)
            reply = line.getresponse()
            page = reply.read().decode("utf-8", "replace")
        for cookie in reply.headers.get_all("Set-Cookie") or ():
            name, _, value = cookie.split(";")[0].partition("=")
            self.cookies[name] = value
        if result := re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page):
            self.token = result[1]
        return reply.status, reply.headers.get("Location", ""), page


class Desk:
    """A desk in a process of its own."""

    def __init__(self, home: Path, *more: str) -> None:
        home.mkdir(parents=True, exist_ok=True)
        log = home.parent / f"{home.name}-said"
        command = [sys.executable, "-m", "rodbook", "desk", "--home", str(home), "--port", "0", *more]
        with log.open("w") as out:
            self.process = subprocess.Popen(command, stdout=out, stderr=subprocess.STDOUT)
        self.home, self.link, self.place = home, "", ""
        for _ in range(2400):
            answer = log.read_text("utf-8")
            if result := re.search(r"http://(127\.0\.0\.1:\d+)(/enter/\S+)?", answer):
                self.place, self.link = result[1], result[2] or ""
                if self.link or more:
                    return
            if self.process.poll() is not None:
                break
            time.sleep(0.05)
        self.end()
        raise SystemExit(f"the desk did not start: {log.read_text('utf-8')}")

    def owner(self) -> Person:
        """Whoever came in with the link."""
        person = Person(self.place)
        person.ask(self.link)
        person.ask("/begin/")  # a form, for its token
        return self._begun(person)

    @staticmethod
    def _begun(person: Person) -> Person:
        """With the sample's book where there is none yet."""
        person.ask("/begin/", {"sample": "1"})
        person.ask("/jobs/new/")
        return person

    def kill(self) -> None:
        """Kill it amid whatever it does."""
        os.kill(self.process.pid, signal.SIGKILL)
        self.process.wait(timeout=20)

    def end(self) -> None:
        """End it as its owner does."""
        self.process.terminate()
        try:
            self.process.wait(timeout=20)
        except subprocess.TimeoutExpired:
            self.kill()


@contextlib.contextmanager
def scratch() -> Iterator[Path]:
    """A folder that is thrown away."""
    folder = Path(tempfile.mkdtemp(prefix="rodbook-attacked-"))
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


@contextlib.contextmanager
def running(home: Path, *more: str) -> Iterator[Desk]:
    """A desk that is ended whatever happens."""
    desk = Desk(home, *more)
    try:
        yield desk
    finally:
        desk.end()


def sample_job(owner: Person) -> str:
    """Begin the sample with fourteen openings; its address."""
    status, where, page = owner.ask("/jobs/sample/", {"sample": "converted-store"})
    if not where:
        raise SystemExit(f"the desk did not begin a sample: {status} {page[:200]}")
    return where


def base_of(page: str) -> str:
    """The revision that a form was filled in on."""
    return re.search(r'name="base" value="(\d+)"', page)[1]


def note(person: Person, job: str, mark: str, text: str) -> tuple[int, float]:
    """Write a note of an opening as somebody does on site: status, and seconds that the save took."""
    pk = job.split("/")[2]
    page = person.ask(f"{job}measure/{mark}/")[2]
    about = {"base": base_of(page), "leaves": "1", "hand": "left", "note": text, "reading": "widths-0"}
    began = time.monotonic()
    status, where, _ = person.ask(f"/jobs/{pk}/measure-about/{mark}/", about)
    return (status if where else -status), time.monotonic() - began


def rows(home: Path, statement: str) -> list[tuple]:
    """What stands in a desk's database."""
    with contextlib.closing(sqlite3.connect(home / "desk.sqlite3", timeout=20)) as database:
        return database.execute(statement).fetchall()


def is_sound(home: Path) -> bool:
    """Whether the database, each seal in it and each picture are whole."""
    from rodbook.desk.platform.soundness import check_home, forget_pages

    forget_pages(home)
    result = check_home(home)
    for damage in result:
        print(f"  {damage}")
    return not result


def notes_kept(home: Path, pk: int) -> dict[str, list[str]]:
    """Notes of each opening in the order in which they were saved."""
    results: dict[str, list[str]] = {mark: [] for mark in MARKS}
    for (text,) in rows(home, f"SELECT document FROM desk_revision WHERE folder_id = {pk} ORDER BY number"):
        for opening in json.loads(text)["openings"]:
            answer, mine = opening.get("note", ""), results.setdefault(opening["mark"], [])
            if answer.startswith("n ") and (not mine or mine[-1] != answer):
                mine.append(answer)
    return results


# --- kills --------------------------------------------------------------------------------------------------------


def _write_on(person: Person, job: str, mark: str, lines: dict[str, list[str]], stop: threading.Event) -> None:
    for n in range(100_000):
        text = f"n {n} {time.monotonic_ns()}"
        try:
            status, _ = note(person, job, mark, text)
        except (OSError, http.client.HTTPException, TypeError):
            return
        if status == 302:
            lines[mark].append(text)
        if stop.is_set():
            return


def _rodbook(*words: str) -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        [sys.executable, "-m", "rodbook", *words], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )


def _killed(process: subprocess.Popen[bytes], after: float) -> bool:
    """Kill a process after a while; whether it was still at work."""
    with contextlib.suppress(subprocess.TimeoutExpired):
        process.wait(timeout=after)
        return False
    process.kill()
    process.wait(timeout=20)
    return True


def _kill_saves(home: Path, draw: random.Random, known: dict[str, object]) -> tuple[int, int]:
    """Kill a desk amid saves: how many were acknowledged, and how many of them are lost."""
    desk = Desk(home)
    owner = desk.owner()
    known.setdefault("job", None)
    job = known["job"] = known["job"] or sample_job(owner)
    values: dict[str, list[str]] = {mark: [] for mark in MARKS[:4]}
    stop = threading.Event()
    people = [
        threading.Thread(
            target=_write_on,
            args=(Person(desk.place, owner.cookies, owner.token), job, mark, values, stop),
            daemon=True,
        )
        for mark in values
    ]
    for one in people:
        one.start()
    began = time.monotonic()
    while not any(values.values()) and time.monotonic() - began < LONGEST:
        time.sleep(0.01)
    time.sleep(draw.uniform(0, 2.0))
    desk.kill()
    stop.set()
    for one in people:
        one.join(timeout=LONGEST)
    kept = notes_kept(home, int(str(job).split("/")[2]))
    return sum(map(len, values.values())), sum(
        answer not in kept[mark] for mark, listed in values.items() for answer in listed
    )


def _revisions(home: Path) -> list[tuple]:
    return rows(home, "SELECT folder_id, number, document, who FROM desk_revision ORDER BY id")


def kills(asked: argparse.Namespace) -> int:
    """Kill -9 amid saves, backups, restores and upgrades."""
    draw, bad = random.Random(asked.seed), 0
    count: Counter[str] = Counter()
    with scratch() as folder:
        home, store = folder / "home", folder / "backups"
        store.mkdir()
        known: dict[str, object] = {}
        for n in range(asked.number):
            what = ("saves", "backup", "restore", "upgrade")[n % 4]
            if what == "saves" or (n < 4 and not (home / "desk.sqlite3").exists()):
                acknowledged, lost = _kill_saves(home, draw, known)
                count["acknowledged"] += acknowledged
                count["lost"] += lost
                at_work, sound = True, is_sound(home)
            else:
                before = _revisions(home)
                at_work = KILLS[what](home, store, draw)
                sound = is_sound(home)
                lost = 0 if _revisions(home)[: len(before)] == before else len(before)
                count["lost"] += lost
            count[f"{what}: {'killed at work' if at_work else 'was quicker'}"] += 1
            count["unsound"] += not sound
            bad += lost + (not sound)
    print(f"kill -9, {asked.number} times; {how_busy()}")
    for name in sorted(count):
        print(f"{name:32}{count[name]:8}")
    return 1 if bad else 0


def _kill_backup(home: Path, store: Path, draw: random.Random) -> bool:
    from rodbook.desk.keeping.backups import rehearse

    at_work = _killed(_rodbook("backup", "--home", str(home), "--to", str(store)), draw.uniform(0.5, 6.0))
    for path in store.glob("*.backup"):
        rehearse(path)  # one that is there is whole
    return at_work


def _kill_restore(home: Path, store: Path, draw: random.Random) -> bool:
    from rodbook.desk.keeping.backups import make_backup

    path = store / "whole"
    make_backup(home, path)
    return _killed(_rodbook("restore", str(path), "--home", str(home)), draw.uniform(0.5, 6.0))


def _kill_upgrade(home: Path, _store: Path, draw: random.Random) -> bool:
    back = (
        "import sys; from pathlib import Path; from rodbook.desk.serve import prepare; home = Path(sys.argv[1]); prepare(home);"
        "from django.core.management import call_command; call_command('migrate', 'desk', '0007', verbosity=0)"
    )
    subprocess.run([sys.executable, "-c", back, str(home)], check=True, timeout=600, stdout=subprocess.DEVNULL)
    up = "import sys; from pathlib import Path; from rodbook.desk.serve import prepare; prepare(Path(sys.argv[1]))"
    process = subprocess.Popen(
        [sys.executable, "-c", up, str(home)], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    at_work = _killed(process, draw.uniform(0.5, 8.0))
    subprocess.run([sys.executable, "-c", up, str(home)], check=True, timeout=600, stdout=subprocess.DEVNULL)
    return at_work


KILLS = {"backup": _kill_backup, "restore": _kill_restore, "upgrade": _kill_upgrade}


# --- bytes --------------------------------------------------------------------------------------------------------


def bytes_(asked: argparse.Namespace) -> int:
    """Bytes of a real desk's database changed at random, at rest and after a kill; a backup brings all back."""
    from rodbook.desk.keeping.backups import make_backup, restore
    from rodbook.desk.keeping.backups.contents import same_rows
    from rodbook.desk.platform.soundness import DamageKind, check_home, forget_pages

    draw, count = random.Random(asked.seed), Counter()
    with scratch() as folder:
        home = folder / "home"
        with running(home) as desk:
            owner = desk.owner()
            job = sample_job(owner)
            for n in range(asked.revisions):
                note(owner, job, MARKS[n % len(MARKS)], f"n {n}")
        backup = make_backup(home, folder / "backup").path
        good = (home / "desk.sqlite3").read_bytes()
        (folder / "good.sqlite3").write_bytes(good)
        pages = (home / "pages-at-rest").read_bytes()
        began = time.monotonic()
        for _ in range(asked.number):
            data = bytearray(good)
            start, length = draw.randrange(len(data)), draw.choice((1, 1, 8, 64, 600))
            for at in range(start, min(len(data), start + length)):
                data[at] ^= draw.randrange(1, 256)
            (home / "desk.sqlite3").write_bytes(data)
            (home / "pages-at-rest").write_bytes(pages)
            count["at rest: noticed"] += bool(check_home(home))
            forget_pages(home)
            result = check_home(home)
            named = any(damage.kind is not DamageKind.PAGES_CHANGED for damage in result)
            count["after a kill, without hashes of pages: named"] += named
            if not named:
                # nothing false is said where each revision is still what was saved, or was in a free page
                with contextlib.closing(sqlite3.connect(folder / "good.sqlite3")) as whole:
                    kept = whole.execute("SELECT folder_id, number, document, who, seal FROM desk_revision").fetchall()
                now = rows(home, "SELECT folder_id, number, document, who, seal FROM desk_revision")
                count["not named, and every revision is what was saved"] += sorted(now) == sorted(kept)
                count["not named, and a revision is another"] += sorted(now) != sorted(kept)
        restored = restore(backup, home)
        same = same_rows(folder / "good.sqlite3", home / "desk.sqlite3")
    seconds = time.monotonic() - began
    print(f"damaged {asked.number} times, a database of {len(good) / 1e6:.1f} MB, in {seconds:.0f} s; {how_busy()}")
    for name in sorted(count):
        print(f"{name:56}{count[name]:8}")
    print(f"{'restored revisions; tables that differ':56}{restored.contents.revisions:8} {same}")
    missed = asked.number - count["at rest: noticed"] + count["not named, and a revision is another"]
    return 1 if missed or same else 0


# --- writers ------------------------------------------------------------------------------------------------------


def writers(asked: argparse.Namespace) -> int:
    """Eight who save one job at once, each their own opening: lost, false clashes, and how long a save takes."""
    count: Counter[str] = Counter()
    took: list[float] = []
    with scratch() as folder, running(folder / "home") as desk:
        owner = desk.owner()
        job = sample_job(owner)
        values: dict[str, list[str]] = {mark: [] for mark in MARKS[: asked.writers]}

        def write(mark: str) -> None:
            person = Person(desk.place, owner.cookies, owner.token)
            for n in range(asked.each):
                status, seconds = note(person, job, mark, f"n {n}")
                took.append(seconds)
                count["saved" if status == 302 else "clashes" if status == -409 else f"answer {abs(status)}"] += 1
                if status == 302:
                    values[mark].append(f"n {n}")

        threads = [threading.Thread(target=write, args=(mark,), daemon=True) for mark in values]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        kept = notes_kept(desk.home, int(job.split("/")[2]))
        lost = sum(answer not in kept[mark] for mark, listed in values.items() for answer in listed)
        sound = is_sound(desk.home)
    middle, high = median_and_p95(took)
    print(f"{asked.writers} writers, {asked.each} saves each, of one job; {how_busy()}")
    for name in sorted(count):
        print(f"{name:32}{count[name]:8}")
    print(f"{'lost':32}{lost:8}\n{'false clashes':32}{count['clashes']:8}\n{'sound':32}{sound!s:>8}")
    print(f"{'a save, middle and p95, in ms':32}{1000 * middle:8.0f}{1000 * high:8.0f}")
    return 1 if lost or count["clashes"] or not sound else 0


# --- stranger -----------------------------------------------------------------------------------------------------

PASSWORD = "seven larch boards"

MOST_WAIT = 1.0
"""Nobody else may wait longer for a page, whatever a stranger does. [s]"""

STRANGER = "127.0.0.2"
"""Address that the stranger comes from: of this machine too, and another than the owner's."""


def stranger(asked: argparse.Namespace) -> int:
    """Sign-ins at once, connections left half open, and many tries: how long others wait, and whether the owner gets in."""
    waits: dict[str, list[float]] = {}
    most, failed = [0.0], [0]
    with scratch() as folder:
        home = folder / "home"
        make = (
            "import sys; from pathlib import Path; from rodbook.desk.serve import prepare; prepare(Path(sys.argv[1]));"
            "from rodbook.desk.entrance import people; people.add_person('berta', 'owner', sys.argv[2])"
        )
        subprocess.run([sys.executable, "-c", make, str(home), PASSWORD], check=True, timeout=300)
        with running(home, "--share", "--host", "127.0.0.1") as desk:
            known = Person(desk.place)  # the owner's browser, known from before
            known.ask("/login/")
            assert known.ask("/login/", {"username": "berta", "password": PASSWORD})[0] == 302
            over = threading.Event()

            def watch(phase: list[str]) -> None:
                while not over.is_set():
                    began = time.monotonic()
                    try:
                        known.ask("/")
                    except (OSError, http.client.HTTPException):
                        failed[0] += 1
                    waits.setdefault(phase[0], []).append(time.monotonic() - began)
                    most[0] = max(most[0], resident_mb(desk.process.pid))
                    time.sleep(0.1)

            phase = ["before"]
            watcher = threading.Thread(target=watch, args=(phase,), daemon=True)
            watcher.start()
            time.sleep(3)
            phase[0] = "64 sign-ins at once"
            answers = _tries(desk.place, 64, 64)
            phase[0] = "500 connections half open"
            lines = _half_open(desk.place, 500)
            time.sleep(8)
            for line in lines:
                line.close()
            phase[0] = f"{asked.tries} tries"
            answers += _tries(desk.place, asked.tries, 16)
            phase[0] = "after"
            back = Person(desk.place, {k: v for k, v in known.cookies.items() if "session" not in k})
            back.ask("/login/")
            owner_in = back.ask("/login/", {"username": "berta", "password": PASSWORD})[0] == 302
            time.sleep(1)
            over.set()
            watcher.join(timeout=LONGEST)
    print(f"a stranger at 127.0.0.1; {how_busy()}")
    print(f"{'':32}{'asked':>8}{'middle':>10}{'p95':>10}{'longest':>10}")
    for name, taken in waits.items():
        middle, high = median_and_p95(taken)
        print(f"{name:32}{len(taken):8}{middle:9.2f}s{high:9.2f}s{max(taken):9.2f}s")
    print(f"pages that the owner asked for and did not get: {failed[0]}")
    print(f"answers to the stranger: {dict(sorted(answers.items()))}")
    print(f"memory of the desk, most: {most[0]:.0f} MB; the owner's own browser gets in: {owner_in}")
    longest = max(max(taken) for taken in waits.values())
    print(f"longest wait of the owner: {longest:.2f} s, at most {MOST_WAIT:g} s asked for")
    return 0 if owner_in and most[0] < 500 and not failed[0] and longest < MOST_WAIT else 1


def _tries(place: str, number: int, at_once: int) -> Counter[str]:
    """Wrong passwords, so many at once."""
    answers: Counter[str] = Counter()
    numbers = iter(range(number))
    lock = threading.Lock()

    def run() -> None:
        person = Person(place, at=STRANGER)
        with contextlib.suppress(OSError, http.client.HTTPException):
            person.ask("/login/")
        while True:
            with lock:
                if (n := next(numbers, None)) is None:
                    return
            try:
                answers[str(person.ask("/login/", {"username": "berta", "password": f"wrong {n}"})[0])] += 1
            except (OSError, http.client.HTTPException) as error:
                answers[type(error).__name__] += 1

    threads = [threading.Thread(target=run, daemon=True) for _ in range(at_once)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(timeout=900)
    return answers


def _half_open(place: str, number: int) -> list[socket.socket]:
    """Connections that begin a request and never end it."""
    host, _, port = place.partition(":")
    results = []
    for _ in range(number):
        with contextlib.suppress(OSError):
            line = socket.create_connection((host, int(port)), timeout=5, source_address=(STRANGER, 0))
            line.sendall(b"POST /login/ HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 1000\r\n")
            results.append(line)
    return results


# --- backup -------------------------------------------------------------------------------------------------------


def backup(asked: argparse.Namespace) -> int:
    """A backup of many jobs and photographs: how long it takes, how the desk goes on meanwhile, whether all comes back."""
    import hashlib

    from rodbook.desk.keeping.backups import make_backup, restore
    from rodbook.desk.keeping.backups.contents import same_rows

    size = 2_000_000
    with scratch() as folder:
        home = folder / "home"
        with running(home) as desk:
            sample_job(desk.owner())
        fill = FILL.format(jobs=asked.jobs)
        subprocess.run([sys.executable, "-c", fill, str(home)], check=True, timeout=1800)
        names = []
        (home / "photos").mkdir(exist_ok=True)
        for _ in range(asked.megabytes * 1_000_000 // size):
            data = os.urandom(size)
            names.append(hashlib.sha256(data).hexdigest())
            (home / "photos" / names[-1]).write_bytes(data)
        with contextlib.closing(sqlite3.connect(home / "desk.sqlite3")) as database:
            columns = [row[1] for row in database.execute("PRAGMA table_info(desk_photo)")]
            given = {"folder_id": 2, "kind": "image/jpeg", "who": "Ann", "when": "2031-04-02 10:00:00", "mark": "C1"}
            for name in names:
                row = {c: given.get(c, 0) for c in columns if c != "id"} | {"sha256": name}
                marks = ", ".join("?" * len(row))
                listed = ", ".join(f'"{c}"' for c in row)
                database.execute(f"INSERT INTO desk_photo ({listed}) VALUES ({marks})", list(row.values()))
            database.commit()
        with running(home) as desk:
            owner, waits, done = desk.owner(), list[float](), threading.Event()

            def look() -> None:
                while not done.is_set():
                    began = time.monotonic()
                    status, _ = note(owner, "/jobs/2/", "C1", f"n {time.monotonic_ns()}")
                    waits.append(time.monotonic() - began if status == 302 else LONGEST)
                    time.sleep(0.2)

            looker = threading.Thread(target=look, daemon=True)
            looker.start()
            began = time.monotonic()
            made = make_backup(home, folder / "backup")
            seconds = time.monotonic() - began
            done.set()
            looker.join(timeout=LONGEST)
        began = time.monotonic()
        back = restore(folder / "backup", folder / "another")
        restored = time.monotonic() - began
        again = folder / "again"
        make_backup(folder / "another", folder / "second")
        restore(folder / "second", again)
        same = same_rows(folder / "another" / "desk.sqlite3", again / "desk.sqlite3")
        pictures = sum(
            (folder / "another" / "photos" / name).read_bytes() == (home / "photos" / name).read_bytes()
            for name in names
        )
        sound = is_sound(folder / "another")
        large = made.path.stat().st_size / 1e6
    middle, high = median_and_p95(waits)
    print(f"{back.contents} in {large:.0f} MB; {how_busy()}")
    print(f"{'backup, seconds':44}{seconds:8.1f}\n{'restore with all checks, seconds':44}{restored:8.1f}")
    print(f"{'opening and saving meanwhile, middle and p95':44}{middle:8.2f}{high:8.2f} s, {len(waits)} times")
    print(f"{'pictures equal':44}{pictures:8} of {len(names)}; tables that differ {same}; sound {sound}")
    return 0 if sound and not same and pictures == len(names) else 1


FILL = """
import sys
from pathlib import Path
from rodbook.desk.serve import prepare
prepare(Path(sys.argv[1]))
from django.db import transaction
from rodbook.desk.models import Folder, Kind
from rodbook.desk.platform import store
job = store.job_now(Folder.objects.filter(kind=Kind.JOB).first())[1]
with transaction.atomic():
    for n in range({jobs} - 1):
        header = job.job.model_copy(update={{"name": f"Job {{n}}"}})
        store.new_folder(Kind.JOB, f"Job {{n}}", job.model_copy(update={{"job": header}}), who="Ann", said="begun")
"""


def main() -> int:
    """Run one attack."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--seed", type=int, default=1)
    kinds = parser.add_subparsers(required=True)
    for name, run, numbers in (
        ("kills", kills, {"number": 500}),
        ("bytes", bytes_, {"number": 200, "revisions": 60}),
        ("writers", writers, {"writers": 8, "each": 200}),
        ("stranger", stranger, {"tries": 10_000}),
        ("backup", backup, {"jobs": 1000, "megabytes": 1000}),
    ):
        one = kinds.add_parser(name, help=run.__doc__)
        one.set_defaults(run=run)
        for number, default in numbers.items():
            one.add_argument(f"--{number}", type=int, default=default)
    asked = parser.parse_args()
    return asked.run(asked)


if __name__ == "__main__":
    sys.exit(main())
