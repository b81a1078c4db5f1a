"""Page times of a running desk and its memory, printed as a table. ``python benchmarks/desk_time.py [requests]``.

A real desk runs in a process of its own; each page is asked for over HTTP, one request at a time, with parts, layouts and
costs worked out and kept. The first request of each page is not counted, but printed apart.
"""

from __future__ import annotations

import re
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from generated import generated_job
from running import Visitor, children_of, how_busy, median_and_p95, resident_mb, started

from rodbook.job.files import write_job

__all__ = ["NOT_TIMED", "PAGES", "main"]

PAGES = {
    "jobs": "/",
    "job-new": "/jobs/new/",
    "job": "/jobs/{job}/",
    "openings": "/jobs/{job}/openings/",
    "bring-in": "/jobs/{job}/openings/bring-in/",
    "measure-list": "/jobs/{job}/measure/",
    "measure": "/jobs/{job}/measure/{mark}/",
    "sizes": "/jobs/{job}/sizes/",
    "parts": "/jobs/{job}/parts/",
    "boards": "/jobs/{job}/boards/",
    "board-sheet": "/jobs/{job}/boards/1/",
    "make-or-buy": "/jobs/{job}/make-or-buy/",
    "orders": "/jobs/{job}/orders/",
    "papers": "/jobs/{job}/papers/",
    "dates": "/jobs/{job}/dates/",
    "all-dates": "/dates/",
    "history": "/jobs/{job}/history/",
    "history-compare": "/jobs/{job}/history/compare/?from=1&to=1",
    "book": "/book/",
    "book-rates": "/book/rates/",
    "book-boards": "/book/boards/",
    "book-prices": "/book/prices/",
    "book-workshops": "/book/workshops/",
    "book-workshop": "/book/workshops/1/",
    "book-build-ups": "/book/build-ups/",
    "book-build-up": "/book/build-ups/1/",
    "book-history": "/book/history/",
    "book-wanted": "/book/wanted/",
    "book-confirm": "/book/not-confirmed/",
    "boards-wanted": "/jobs/{job}/boards/wanted/",
    "book-hinges": "/book/hinges/",
    "book-entry-new": "/book/boards/new/",
    "book-entry": "/book/boards/1/",
    "book-workshop-new": "/book/workshops/new/",
    "part": "/jobs/{job}/parts/part/{part}/",
    "no-signal": "/no-signal/",
    "leaves-of": "/jobs/{job}/leaves/{mark}/",
    "shape": "/jobs/{job}/shape/{mark}/",
    "book-price-list": "/book/boards/price-list/",
    "price": "/jobs/{job}/price/",
    "hours": "/jobs/{job}/hours/",
    "account": "/jobs/{job}/account/",
    "book-learned": "/book/rates/learned/",
    "re-price": "/jobs/{job}/re-price/",
    "change": "/jobs/{job}/change/",
    "weeks": "/weeks/",
    "quotes": "/jobs/{job}/quotes/",
    "quote-add": "/jobs/{job}/quotes/add/",
}
"""Every page, by its name on the site map."""

NOT_TIMED = {
    "the way in and out, or only where the desk is shared": {
        "enter",
        "login",
        "health",
        "people",
        "people-add",
        "people-role",
        "people-active",
        "people-password",
        "own-password",
        "own-second",
        "login-code",
        "people-second-off",
        "begin",
    },
    "what the desk did and its backups: looked at now and then": {"backups", "deeds"},
    "shows how far the layouts are, and leads back": {"work", "dates-work", "all-dates-work"},
    "leads to the first opening's": {"leaves", "shapes"},
    "takes as long as it says on the page that it is asked for": {"sizes-trade-off", "sizes-frame-ahead"},
    "a file": {
        "account-paper",
        "change-paper",
        "job-file",
        "outbox",
        "papers-pack",
        "paper",
        "price-paper",
        "photo",
        "worker",
        "manifest",
        "along",
        "book-blank-list",
        "quotes-paper",
        "weeks-paper",
        "book-prices-paper",
        "re-price-paper",
        "dates-file",
        "all-dates-file",
    },
}
"""What else can be looked at, and why it is not timed here; a tried margin is, by desk_live.py."""


def _timed(visitor: Visitor, path: str, times: int) -> tuple[float, list[float]]:
    """The first request, and the others. [ms]"""
    taken = []
    for _ in range(times + 1):
        began = time.perf_counter()
        visitor.get(path)
        taken.append((time.perf_counter() - began) * 1000)
    return taken[0], taken[1:]


def _laid_out(visitor: Visitor, address: str) -> float:
    """Have layouts and costs worked out, and wait for them. [s]"""
    began = time.perf_counter()
    visitor.post(f"{address}work/start/", {"after": "boards"})
    while "Step through" not in visitor.get(f"{address}boards/")[0]:
        if time.perf_counter() - began > 300:
            raise SystemExit("the layouts were not worked out within five minutes")
        time.sleep(0.2)
    return time.perf_counter() - began


def _dated(visitor: Visitor, address: str) -> float:
    """Have the dates worked out, and wait for them. [s]"""
    began = time.perf_counter()
    visitor.post(f"{address}dates/start/", {})
    while "Day by day" not in visitor.get(f"{address}dates/")[0]:
        if time.perf_counter() - began > 300:
            raise SystemExit("the dates were not worked out within five minutes")
        time.sleep(0.2)
    return time.perf_counter() - began


def main() -> None:
    """Start a desk, make two jobs, and time every page."""
    times = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    with tempfile.TemporaryDirectory() as folder:
        print(how_busy())
        process, link = started(Path(folder))
        try:
            visitor = Visitor(link)
            time.sleep(8)
            idle, workers = resident_mb(process.pid), sum(map(resident_mb, children_of(process.pid)))
            print(f"Idle memory: {idle:.0f} MB the desk, {workers:.0f} MB the processes it started.")
            jobs = {
                "14 openings": visitor.post("/jobs/sample/", {"sample": "converted-store"}),
                "200 openings": visitor.post("/jobs/new/", {}, ("job.toml", write_job(generated_job(200)))),
            }
            jobs = {name: re.match(r"/jobs/\d+/", address)[0] for name, address in jobs.items()}
            for name, address in jobs.items():
                print(f"Layouts and costs of {name}: {_laid_out(visitor, address):.1f} s.")
                print(f"Dates of {name}: {_dated(visitor, address):.1f} s.")
            visitor.post("/dates/start/", {})
            print(f"{times} requests of each page after the first, one at a time; ms at a client on the same machine.")
            print(f"{'page':<16}" + "".join(f"{name:>22}{'p95':>6}{'first':>7}" for name in jobs))
            given = {}
            for address, mark in zip(jobs.values(), ("C1", "N1"), strict=True):
                part = re.search(r'id="part-([^"]+)"', visitor.get(f"{address}parts/")[0])[1]
                given[address] = {"job": address.split("/")[2], "mark": mark, "part": part}
            for page, path in PAGES.items():
                cells = ""
                for address in jobs.values():
                    asked = path.format(**given[address])
                    first, taken = _timed(visitor, asked, times)
                    median, p95 = median_and_p95(taken)
                    cells += f"{median:>22.0f}{p95:>6.0f}{first:>7.0f}"
                print(f"{page:<16}{cells}", flush=True)
            after, workers = resident_mb(process.pid), sum(map(resident_mb, children_of(process.pid)))
            print(f"Memory after that: {after:.0f} MB the desk, {workers:.0f} MB the processes it started.")
        finally:
            process.terminate()
            process.wait(timeout=20)


if __name__ == "__main__":
    main()
