"""Odd input by the thousand for a desk: forms, addresses, uploads and files that are none, by seed, each told apart.

    python benchmarks/desk_fuzz.py [--number N] [--seed N] [--only N] [--kept FOLDER]

The desk is the real one with its whole middleware, asked within a process of its own by the framework's test client (which sends
what no line over the network would let through, and shows what was raised), shared by an owner, a maker and a reader, with a
stranger outside. Each input begins on the same database, so that any can be had again by its number alone: what one was that
something was amiss with stands in FOLDER. After a form that was taken the page that it leads to and another page of the job are
asked for, so that what should not have been kept shows itself. The exit status is 1 where the desk broke or took too much.
"""

from __future__ import annotations

import argparse
import json
import logging
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from odd_input import Forms, as_body, changed_file, filled_in, odd_number_part, odd_part, odd_value
from running import how_busy

MOST_CPU, MOST_MB, MOST_WALL = 10.0, 300.0, 120
"""What one input may cost: seconds of work, memory beyond what the desk has at rest, and seconds on the clock."""

KINDS = ("address", "form", "upload", "reading", "backup", "file")
WEIGHTS = (25, 38, 18, 8, 4, 7)
ROLES = ("owner", "maker", "reader", "stranger")
PIECE = 500
"""Inputs that one process is given."""

ASKED = (
    "reading",
    "since",
    "of",
    "after",
    "mark",
    "size",
    "old",
    "new",
    "number",
    "at",
    "start",
    "count",
    "weeks",
    "kind",
    "western",
    "day",
    "page",
    "what",
    "who",
    "build_up",
    "next",
)
"""What addresses ask behind their question mark."""

NO_LAYOUTS = ("work-start", "dates-start", "all-dates-start", "book-prices-start", "weeks-start")
"""What sets workers going is asked for seldom: they have bounds of their own (`desk_soak.py`) and take the time of this."""


# --- in the process that has the desk ---


class Faults(logging.Handler):
    """What the desk itself calls a fault."""

    def __init__(self) -> None:
        super().__init__(logging.ERROR)
        self.lines: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Keep it."""
        trace = logging.Formatter().formatException(record.exc_info) if record.exc_info else ""
        self.lines.append(f"{record.getMessage()}\n{trace}")


class Fuzzed:
    """A desk with a job that is measured in part, and everybody who asks for its pages."""

    def __init__(self, home: Path) -> None:
        from rodbook.desk.serve import prepare

        prepare(home, share=True, names=["testserver"])
        from django.conf import settings
        from django.db import connections
        from django.test import Client

        from rodbook.desk.entrance import people
        from rodbook.desk.models import Folder, Kind, Person
        from rodbook.desk.platform import store

        settings.PASSWORD_HASHERS = [
            "django.contrib.auth.hashers.MD5PasswordHasher"
        ]  # else most of the time goes there
        self.home, self.connections, self.faults = home, connections, Faults()
        logging.getLogger().addHandler(self.faults)
        store.the_book_folder()
        self.clients = {role: Client(enforce_csrf_checks=True, raise_request_exception=False) for role in ROLES}
        self.clients["stranger"].get("/health")  # loads what hears of people who come in
        for role in ROLES[:3]:
            people.add_person(f"{role}-of-it", role, "nine oak dowels in")
            user = Person.objects.get(user__username=f"{role}-of-it").user
            self.clients[role].force_login(user, "django.contrib.auth.backends.ModelBackend")
        owner = self.clients["owner"]
        self.tokens = {role: self._token(role) for role in ROLES}
        for sample in ("stair", "galley"):
            reply = owner.post("/jobs/sample/", {"sample": sample, "csrfmiddlewaretoken": self.tokens["owner"]})
            assert reply.headers.get("Location", "").startswith("/jobs/"), (reply, reply.content)
        self.pk = (
            Folder.objects.filter(kind=Kind.JOB, name__icontains="stair")
            .order_by("pk")
            .values_list("pk", flat=True)
            .first()
        )
        self.pk = self.pk or Folder.objects.filter(kind=Kind.JOB).order_by("pk").first().pk
        self.marks = [o.mark for o in store.job_now(Folder.objects.get(pk=self.pk))[1].openings]
        self._prices_and_photos()
        self.files = self._files()
        self.forms = self._forms()
        self.pages = sorted({name for name, _ in self.addresses()})
        self.connections["default"].close()
        shutil.copy(home / "desk.sqlite3", home / "as-it-was")
        self.resting = _memory("VmRSS")

    def _token(self, role: str) -> str:
        from django.middleware.csrf import _get_new_csrf_string

        secret = _get_new_csrf_string()
        self.clients[role].cookies["rodbook_csrf"] = secret
        return secret

    def _prices_and_photos(self) -> None:
        data = _picture("JPEG")
        mark = self.marks[0]
        body, kind = as_body(
            _Even(),
            [("csrfmiddlewaretoken", self.tokens["owner"])],
            [("photo", "a.jpg", "image/jpeg", data)],
            plain=False,
        )
        self.clients["owner"].generic("POST", f"/jobs/{self.pk}/photo-add/{mark}/", body, kind)
        form = {"base": "1", "reading": "widths-0", "value": "851", "csrfmiddlewaretoken": self.tokens["owner"]}
        self.clients["owner"].post(f"/jobs/{self.pk}/measure/{mark}/", form)

    def _files(self) -> dict[str, tuple[str, bytes]]:
        from rodbook.desk.keeping.backups import make_backup
        from rodbook.desk.models import Folder
        from rodbook.desk.platform import store
        from rodbook.job.files import blank_list, sample_book_text, sample_names, sample_text, write_openings_csv
        from rodbook.money import blank_prices

        job = store.job_now(Folder.objects.get(pk=self.pk))[1]
        results: dict[str, tuple[str, bytes]] = {
            f"{n}.toml": ("application/toml", sample_text(n).encode()) for n in sample_names()
        }
        results["book.toml"] = ("application/toml", sample_book_text().encode())
        openings = write_openings_csv(job.openings).encode()
        results["openings.csv"] = ("text/csv", openings)
        rows = [line.split(",") for line in openings.decode().splitlines()]
        sheet = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
        results["openings.xlsx"] = (sheet, blank_list(rows, "xlsx"))
        prices = [[str(cell) or "12.50" for cell in row] for row in blank_prices(store.book_now()[2])]
        results["prices.csv"], results["prices.xlsx"] = (
            ("text/csv", blank_list(prices, "csv")),
            (sheet, blank_list(prices, "xlsx")),
        )
        for name, kind in (("a.jpg", "JPEG"), ("a.png", "PNG"), ("a.webp", "WEBP")):
            results[name] = (f"image/{kind.lower()}", _picture(kind))
        self.connections["default"].close()
        for name, sealed in (("plain.backup", ""), ("sealed.backup", "four words of it")):
            results[name] = ("", make_backup(self.home, self.home / name, passphrase=sealed).path.read_bytes())
            (self.home / name).unlink()
        return results

    def addresses(self) -> list[tuple[str, str]]:
        """Every address of the site map: its name and its route."""
        from rodbook.desk.urls import urlpatterns

        return [(pattern.name, str(pattern.pattern)) for pattern in urlpatterns]

    def address(self, route: str, draw: random.Random, *, odd: bool) -> str:
        """An address by its route, with its parts filled in."""
        import re

        known = {"mark": self.marks[0], "kind": "boards", "name": "parts.csv", "sha256": "0" * 64, "key": "x"}

        def part(result: re.Match[str]) -> str:
            kind, name = result[1], result[2]
            if kind == "number":
                number = self.pk if name == "pk" else 1
                return odd_number_part(draw, number) if odd else str(number)
            return odd_part(draw, known.get(name, "")) if odd else known.get(name, "x")

        return "/" + re.sub(r"<(\w+):(\w+)>", part, route)

    def _forms(self) -> list[tuple[str, list[tuple[str, str, str]]]]:
        """Every form of every page, and those that a script sends."""
        results: dict[tuple[str, str], tuple[str, list[tuple[str, str, str]]]] = {}
        even = random.Random(0)
        for kind in ("boards", "sections", "fittings", "build-ups", "hinges"):
            for route in (f"book/{kind}/1/", f"book/{kind}/new/"):
                self._forms_of("/" + route, results)
        for _, route in self.addresses():
            self._forms_of(self.address(route, even, odd=False), results)
        names = ("key", "device", "at", "base", "reading", "value", "sure", "choice")
        for mark in self.marks[:2]:
            reading = [(name, "", "input") for name in names]
            results[f"/jobs/{self.pk}/reading-in/{mark}/", "script"] = (f"/jobs/{self.pk}/reading-in/{mark}/", reading)
        return [results[key] for key in sorted(results)]

    def _forms_of(self, address: str, results: dict[tuple[str, str], tuple[str, list[tuple[str, str, str]]]]) -> None:
        reply = self.clients["owner"].get(address)
        if reply.status_code != 200 or "html" not in reply.headers.get("Content-Type", "") or reply.streaming:
            return
        parser = Forms()
        parser.feed(reply.content.decode())
        for action, fields in parser.found:
            goes = action or address
            if goes not in ("/logout/", "/backups/make/"):
                results[goes, " ".join(sorted({name for name, _, _ in fields}))] = (goes, fields)

    # --- one input ---

    def run(self, number: int, seed: int) -> dict[str, object]:
        """Give the desk one input; what it was and what came of it."""
        from django.core.signals import got_request_exception

        draw = random.Random(f"{seed}:{number}")
        kind = draw.choices(KINDS, WEIGHTS)[0]
        raised: list[str] = []

        def note(**_: object) -> None:
            import traceback

            raised.append(traceback.format_exc())

        got_request_exception.connect(note)
        self.faults.lines.clear()
        self.told: list[str] = []
        Path("/proc/self/clear_refs").write_text("5")  # memory is counted from here
        before, began = _cpu(), time.monotonic()
        signal.alarm(MOST_WALL)
        try:
            statuses = getattr(self, f"_{kind}")(draw)
        except Exception:
            import traceback

            raised.append(traceback.format_exc())
            statuses = [500]
        signal.alarm(0)
        got_request_exception.disconnect(note)
        cost = {"cpu": _cpu() - before, "wall": time.monotonic() - began, "mb": _memory("VmHWM") - self.resting}
        self._as_it_was()
        return {
            "n": number,
            "kind": kind,
            "statuses": statuses,
            "raised": raised,
            "faults": list(self.faults.lines),
            "told": self.told,
        } | cost

    def _as_it_was(self) -> None:
        self.connections["default"].close()
        for path in self.home.glob("desk.sqlite3*"):
            path.unlink()
        shutil.copy(self.home / "as-it-was", self.home / "desk.sqlite3")
        for path in (self.home / "photos").iterdir():
            if path.name not in self.kept_photos:
                path.unlink()

    @property
    def kept_photos(self) -> set[str]:
        """Pictures that belong to the database as it was."""
        if not hasattr(self, "_kept"):
            self._kept = {path.name for path in (self.home / "photos").iterdir()}
        return self._kept

    def _ask(self, role: str, method: str, address: str, body: bytes = b"", kind: str = "", **headers: str) -> int:
        client = self.clients[role]
        kept = client.cookies.copy()
        path, _, query = address.partition("?")
        from urllib.parse import unquote_to_bytes

        raw = unquote_to_bytes(path).decode("latin-1")  # as a server hands it on
        self.told.append(f"{role} {method} {address} {headers or ''} {kind} {body[:200_000]!r}")
        reply = client.generic(
            method, "/", body, kind or "application/octet-stream", PATH_INFO=raw, QUERY_STRING=query, **headers
        )
        size = sum(map(len, reply.streaming_content)) if reply.streaming else len(reply.content)
        reply.close()
        if not reply.streaming and b"Traceback (most recent call last)" in reply.content:
            self.faults.lines.append(f"a page shows a traceback: {address}")
        client.cookies = kept
        self.told.append(f"-> {reply.status_code} {size} bytes {reply.headers.get('Location', '')}")
        self.leads_to = reply.headers.get("Location", "")
        return reply.status_code

    def _role(self, draw: random.Random) -> str:
        return draw.choices(ROLES, (60, 20, 12, 8))[0]

    def _headers(self, draw: random.Random) -> dict[str, str]:
        results: dict[str, str] = {}
        if draw.random() < 0.25:
            results["HTTP_HX_REQUEST"] = "true"
        if draw.random() < 0.1:
            name = draw.choice(
                (
                    "ACCEPT",
                    "ACCEPT_LANGUAGE",
                    "RANGE",
                    "IF_NONE_MATCH",
                    "IF_MODIFIED_SINCE",
                    "REFERER",
                    "ORIGIN",
                    "HX_TARGET",
                    "HX_CURRENT_URL",
                )
            )
            results[f"HTTP_{name}"] = (
                odd_value(draw)[:500].replace("\r", "").replace("\n", "").encode("utf-8", "replace").decode("latin-1")
            )
        return results

    def _address(self, draw: random.Random) -> list[int]:
        name, route = draw.choice(self.addresses())
        if name in NO_LAYOUTS and draw.random() < 0.9:
            name, route = "work", "jobs/<number:pk>/work/"
        address = self.address(route, draw, odd=True)
        if draw.random() < 0.5:
            keys = (*ASKED, odd_part(draw)[:50])
            pairs = [
                f"{draw.choice(keys)}={odd_part(draw, draw.choice(('1', '2', '842', self.marks[0])))[:3000]}"
                for _ in range(draw.randrange(1, 4))
            ]
            address += "?" + "&".join(pairs)
        method = draw.choices(("GET", "POST", "HEAD", "PUT", "OPTIONS", "DELETE", "BREW"), (80, 8, 5, 2, 2, 2, 1))[0]
        role, headers = self._role(draw), self._headers(draw)
        if method == "POST":
            headers["HTTP_X_CSRFTOKEN"] = self.tokens[role]
        return [self._ask(role, method, address, **headers)]

    def _followed(self, draw: random.Random, role: str, status: int) -> list[int]:
        """What a form that was taken leads to, and another page of the job."""
        if status != 302:
            return [status]
        results = [status]
        if self.leads_to.startswith("/"):
            results.append(self._ask(role, "GET", self.leads_to))
        pages = [(n, r) for n, r in self.addresses() if "<str" not in r and "paper" not in r and "pack" not in r]
        _, route = draw.choice(pages)
        return [*results, self._ask(role, "GET", self.address(route, draw, odd=False))]

    def _form(self, draw: random.Random) -> list[int]:
        address, fields = draw.choice(self.forms)
        if any(part in address for part in ("/start/", "/taken/")) and draw.random() < 0.9:
            address, fields = draw.choice(self.forms)
        role = self._role(draw)
        pairs = filled_in(draw, [f for f in fields if f[2] != "file"], self.tokens[role])
        body, kind = as_body(draw, pairs, [], plain=draw.random() < 0.85)
        return self._followed(draw, role, self._ask(role, "POST", address, body, kind, **self._headers(draw)))

    def _upload(self, draw: random.Random) -> list[int]:
        taking = [(a, f) for a, f in self.forms if any(kind == "file" for _, _, kind in f)]
        address, fields = draw.choice(taking)
        role = draw.choices(ROLES, (75, 15, 5, 5))[0]
        field = next(name for name, _, kind in fields if kind == "file")
        ends = {"file": (".toml",), "photo": (".jpg", ".png", ".webp")}.get(field, (".csv", ".xlsx"))
        fitting = [name for name in self.files if name.endswith(ends)] if draw.random() < 0.93 else list(self.files)
        name = draw.choice(sorted(fitting))
        what, data = self.files[name]
        data = changed_file(draw, name, data)
        text = (
            name
            if draw.random() < 0.9
            else odd_value(draw, name)[:200].replace("\r", "").replace("\n", "").replace('"', "")
        )
        pairs = filled_in(draw, [f for f in fields if f[2] != "file"], self.tokens[role])
        body, kind = as_body(draw, pairs, [(field, text, what, data)], plain=False)
        headers = (
            {"HTTP_ACCEPT": "application/json"} if field == "photo" and draw.random() < 0.5 else self._headers(draw)
        )
        return self._followed(draw, role, self._ask(role, "POST", address, body, kind, **headers))

    def _reading(self, draw: random.Random) -> list[int]:
        """What a phone sends that was without signal, twice over and out of order."""
        import uuid

        role, result = draw.choice(ROLES[:2]), []
        for _ in range(draw.randrange(1, 4)):
            places = (
                "widths-0",
                "widths-1",
                "widths-2",
                "heights-0",
                "heights-1",
                "heights-2",
                "diagonals-0",
                "depth",
                "readings-width-600",
            )
            pairs = {
                "key": str(uuid.UUID(int=draw.getrandbits(128))),
                "device": "p1",
                "at": "2031-04-02T10:00:00Z",
                "base": str(draw.choice((1, 1, 2, 3))),
                "reading": draw.choice(places),
                "value": str(draw.choice((842, 2031, 10, 99999, "842,5"))),
            }
            if draw.random() < 0.3:
                pairs["sure"] = pairs["value"]
            if draw.random() < 0.3:
                pairs["choice"] = draw.choice(("mine", "theirs", odd_value(draw)))
            for name in draw.sample(sorted(pairs), draw.choice((0, 1, 1, 2))):
                pairs[name] = odd_value(draw, pairs[name])
            mark = draw.choice(self.marks) if draw.random() < 0.9 else odd_part(draw)
            body, kind = as_body(
                draw, [*pairs.items(), ("csrfmiddlewaretoken", self.tokens[role])], [], plain=draw.random() < 0.8
            )
            address = f"/jobs/{self.pk}/reading-in/{mark}/"
            result += [self._ask(role, "POST", address, body, kind) for _ in range(draw.choice((1, 1, 2)))]
        return [*result, self._ask(role, "GET", f"/jobs/{self.pk}/measure/{self.marks[0]}/")]

    def _backup(self, draw: random.Random) -> list[int]:
        """A backup that was changed, as the command reads it."""
        from rodbook.desk.keeping.backups import rehearse
        from rodbook.errors import RodbookError

        name = draw.choice(("plain.backup", "sealed.backup"))
        path = self.home / "changed.backup"
        path.write_bytes(changed_file(draw, name, self.files[name][1]))
        passphrase = draw.choice(("four words of it", "four words of it", "", odd_value(draw)))
        self.told.append(f"rehearse {name} with {passphrase!r}")
        try:
            rehearse(path, passphrase=passphrase)
        except RodbookError as error:
            self.told.append(str(error))
            return [422]
        finally:
            path.unlink()
        return [200]

    def _file(self, draw: random.Random) -> list[int]:
        """A file that was changed, as the command line reads it."""
        from rodbook.errors import RodbookError
        from rodbook.job.files import read_book, read_job, read_openings

        name = draw.choice(
            ("stair.toml", "galley.toml", "timber-house.toml", "book.toml", "openings.csv", "openings.xlsx")
        )
        data = changed_file(draw, name, self.files[name][1])
        self.told.append(f"{name}: {data[:200_000]!r}")
        try:
            path = self.home / f"read-{name}"
            path.write_bytes(data)
            {"book.toml": read_book, "openings.csv": read_openings, "openings.xlsx": read_openings}.get(name, read_job)(
                path
            )
        except RodbookError as error:
            self.told.append(str(error)[:2000])
            return [422]
        return [200]


class _Even(random.Random):
    """Changes nothing."""

    def random(self) -> float:
        """Never odd."""
        return 0.99


def _picture(kind: str) -> bytes:
    import io

    from PIL import Image

    out = io.BytesIO()
    Image.radial_gradient("L").convert("RGB").save(out, kind)
    return out.getvalue()


def _memory(name: str) -> float:
    """A line of this process's own count. [MB]"""
    for line in Path("/proc/self/status").read_text().splitlines():
        if line.startswith(name + ":"):
            return int(line.split()[1]) / 1024
    raise LookupError(name)


def _cpu() -> float:
    """Work of this process and of those that it ended. [s]"""
    answer = os.times()
    return answer.user + answer.system + answer.children_user + answer.children_system


def _child(asked: argparse.Namespace) -> int:
    """Give a desk the inputs whose numbers come in, and write what came of each."""
    import resource

    resource.setrlimit(resource.RLIMIT_DATA, (3_000_000_000, 3_000_000_000))
    out = os.fdopen(os.dup(1), "w")
    sys.stdout = sys.stderr
    desk = Fuzzed(Path(asked.home))
    from rodbook.desk.platform.planning import planner

    print(json.dumps({"ready": [len(desk.forms), len(desk.addresses())]}), file=out, flush=True)
    for number in json.loads(sys.stdin.readline()):
        print(json.dumps({"begun": number}), file=out, flush=True)
        print(json.dumps(desk.run(number, asked.seed)), file=out, flush=True)
    planner.close()
    return 0


# --- what gives them out ---


def _amiss(came: dict) -> list[str]:
    """What is wrong with what came of an input."""
    wrong = [f"answered {status}" for status in came["statuses"] if status >= 500]
    wrong += ["raised"] * bool(came["raised"]) + ["a fault in the log"] * bool(came["faults"])
    wrong += [f"{came['cpu']:.1f} s of work"] * (came["cpu"] > MOST_CPU) + [f"{came['mb']:.0f} MB"] * (
        came["mb"] > MOST_MB
    )
    return wrong


def _given(numbers: list[int], asked: argparse.Namespace) -> list[dict]:
    """Give some inputs to a process; what came of each, the one that ended it too."""
    came: list[dict] = []
    with tempfile.TemporaryDirectory(prefix="rodbook-fuzzed-") as folder:
        command = [sys.executable, __file__, "--child", "--home", f"{folder}/home", "--seed", str(asked.seed)]
        with Path(folder, "said").open("w+") as answer:
            process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=answer, text=True)
            process.stdin.write(json.dumps(numbers) + "\n")
            process.stdin.flush()
            begun = None
            for line in process.stdout:
                notes = json.loads(line)
                if "n" in notes:
                    came.append(notes)
                    begun = None
                else:
                    begun = notes.get("begun")
                    asked.ready = notes.get("ready", asked.ready)
            process.wait(timeout=60)
            answer.seek(0)
            ended = answer.read()[-4000:]
    if begun is not None:
        came.append(
            {
                "n": begun,
                "kind": "?",
                "statuses": [500],
                "raised": [f"the process ended: {process.returncode}\n{ended}"],
                "faults": [],
                "told": [],
                "cpu": 0.0,
                "wall": 0.0,
                "mb": 0.0,
            }
        )
    elif not came:
        raise SystemExit(f"the desk did not start:\n{ended}")
    return came


def main() -> int:
    """Give them all, and print the table."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--number", type=int, default=20_000)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", type=int, nargs="+", help="these inputs alone, and tell all that they were")
    parser.add_argument(
        "--kept", type=Path, default=Path("out/fuzz"), help="folder for inputs that something was amiss with"
    )
    parser.add_argument("--child", action="store_true", help=argparse.SUPPRESS)
    parser.add_argument("--home", help=argparse.SUPPRESS)
    asked = parser.parse_args()
    asked.ready = [0, 0]
    if asked.child:
        return _child(asked)
    left = asked.only or list(range(asked.first, asked.first + asked.number))
    count: dict[str, Counter[str]] = {kind: Counter() for kind in (*KINDS, "?")}
    most = {kind: {"cpu": 0.0, "mb": 0.0} for kind in count}
    bad: list[tuple[int, list[str]]] = []
    statuses: Counter[int] = Counter()
    done = 0
    began = time.monotonic()
    while left:
        for came in _given(left[:PIECE], asked):
            done += 1
            left.remove(came["n"])
            mine = count[came["kind"]]
            first = came["statuses"][0]
            mine["inputs"] += 1
            mine["answered" if first < 400 else "refused" if first < 500 else "server errors"] += 1
            mine["requests"] += len(came["statuses"])
            statuses.update(came["statuses"])
            mine["later errors"] += any(status >= 500 for status in came["statuses"][1:])
            mine["tracebacks"] += bool(came["raised"] or came["faults"])
            mine["over the limits"] += came["cpu"] > MOST_CPU or came["mb"] > MOST_MB
            for name in most[came["kind"]]:
                most[came["kind"]][name] = max(most[came["kind"]][name], came[name])
            wrong = _amiss(came)
            if wrong:
                bad.append((came["n"], wrong))
                asked.kept.mkdir(parents=True, exist_ok=True)
                text = "\n".join([", ".join(wrong), *came["raised"], *came["faults"], *came["told"]])
                (asked.kept / f"{asked.seed}-{came['n']}.txt").write_text(text, "utf-8", errors="backslashreplace")
            if asked.only:
                print(
                    json.dumps({k: v for k, v in came.items() if k != "told"}, indent=1),
                    *came["raised"],
                    *(t[:3000] for t in came["told"]),
                    sep="\n",
                )
        print(f"{done} done in {time.monotonic() - began:.0f} s, amiss {len(bad)}", file=sys.stderr, flush=True)
    _table(asked, done, count, most, bad)
    print(f"answers by their codes: {dict(sorted(statuses.items()))}")
    return 1 if bad else 0


def _table(
    asked: argparse.Namespace, done: int, count: dict[str, Counter[str]], most: dict[str, dict[str, float]], bad: list
) -> None:
    print(f"{done} inputs of seed {asked.seed}, {asked.ready[0]} forms, {asked.ready[1]} addresses; {how_busy()}")
    heads = (
        "inputs",
        "requests",
        "answered",
        "refused",
        "server errors",
        "later errors",
        "tracebacks",
        "over the limits",
    )
    print(f"{'':10}" + "".join(f"{head:>16}" for head in heads) + f"{'most work':>12}{'most memory':>13}")
    whole: Counter[str] = Counter()
    for kind, mine in count.items():
        if mine:
            whole.update(mine)
            print(
                f"{kind:10}"
                + "".join(f"{mine[head]:16}" for head in heads)
                + f"{most[kind]['cpu']:10.1f} s{most[kind]['mb']:10.0f} MB"
            )
    top = {name: max(most[kind][name] for kind in most) for name in ("cpu", "mb")}
    print(f"{'all':10}" + "".join(f"{whole[head]:16}" for head in heads) + f"{top['cpu']:10.1f} s{top['mb']:10.0f} MB")
    for number, wrong in bad[:40]:
        print(f"  --seed {asked.seed} --only {number}: {', '.join(wrong)}")


if __name__ == "__main__":
    sys.exit(main())
