"""Runs the layout engine over whole sets of jobs and counts what fails, what is not valid and what breaks off.

``python benchmarks/to_the_end.py sheets --data FOLDER [--set ortmann2010] [--effort 1]``
``python benchmarks/to_the_end.py lengths --data FOLDER [--set scholl-1] [--effort 0.5]``
``python benchmarks/to_the_end.py generated [--jobs 5000] [--first 0] [--effort 0.3]``

FOLDER holds the published instances with their reader ``load.py``; the environment variable BENCH_DATA may name it. Each plan
is checked by the independent checker, once more from outside. `effort` is counted work, so that a table comes again.
Generated jobs hold very thin, very many and very unlike pieces; the seed of each is its number. A job that fails is named.
"""

from __future__ import annotations

import argparse
import random
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from decimal import Decimal
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from layouts import _reader

from rodbook.boards import (
    Bar,
    Piece,
    Saw,
    Sheet,
    Stick,
    check_bar_plan,
    check_sheet_plan,
    cut_lengths,
    lay_out,
)

LONGEST_S = 3600.0


class Table:
    """Counts by set; prints one line for each."""

    def __init__(self) -> None:
        """Start with nothing."""
        self.counts: dict[str, Counter[str]] = {}
        self.seconds: dict[str, float] = {}

    def add(self, name: str, job: str, do: Callable[[], tuple[list[str], bool]]) -> None:
        """Run one job and take note of how it ended."""
        count = self.counts.setdefault(name, Counter())
        began = time.process_time()
        try:
            faults, broken = do()
        except Exception as error:
            count["failed"] += 1
            print(f"  {name} {job} failed: {type(error).__name__}: {error}", flush=True)
        else:
            count["not valid"] += bool(faults)
            count["broken off"] += broken
            if faults or broken:
                print(f"  {name} {job}: {'; '.join(faults[:2]) or 'a step broke off'}", flush=True)
        count["jobs"] += 1
        self.seconds[name] = self.seconds.get(name, 0.0) + time.process_time() - began

    def show(self) -> None:
        """Print the table."""
        print(f"{'set':<28}{'jobs':>6}{'failed':>8}{'not valid':>11}{'step broke off':>16}{'CPU s':>9}")
        for name, count in self.counts.items():
            print(
                f"{name:<28}{count['jobs']:>6}{count['failed']:>8}{count['not valid']:>11}{count['broken off']:>16}"
                f"{self.seconds[name]:>9.0f}"
            )


def _laid(pieces: list[Piece], sheets: list[Sheet], saw: Saw, effort: float) -> tuple[list[str], bool]:
    plan = lay_out(pieces, sheets, saw, seconds=LONGEST_S, effort=effort)
    return check_sheet_plan(plan, pieces, sheets, saw), bool(plan.broken_off)


def sheets(options: argparse.Namespace) -> Table:
    """All published sets of sheets, oriented and rotated."""
    load, table = _reader(options.data), Table()
    for file in ("sheets-stock", "sheets-2bp", "sheets-knapsack"):
        for i in load.instances(file):
            name = i.get("set", "500 classics") + (", one sheet" if file == "sheets-knapsack" else "")
            if options.set and not name.startswith(options.set):
                continue
            raw = i["sheets"] if "sheets" in i else [i["sheet"]]
            stock = [
                Sheet(f"{n}", float(s[0]), float(s[1]), Decimal(s[0] * s[1]), s[2] if len(s) > 2 else None)
                for n, s in enumerate(raw)
            ]
            for turns in (False, True):
                pieces = [
                    Piece(f"{n}", float(item[0]), float(item[1]), item[-1], may_turn=turns)
                    for n, item in enumerate(i["items"])
                ]
                table.add(
                    f"{name}, {'rotated' if turns else 'oriented'}",
                    i["name"],
                    lambda p=pieces, s=stock: _laid(p, s, Saw(0, 0), options.effort),
                )
    return table


def lengths(options: argparse.Namespace) -> Table:
    """All published sets of lengths."""
    load, table = _reader(options.data), Table()
    for i in load.instances("lengths-1d"):
        if options.set and i["set"] != options.set:
            continue
        sticks = [Stick(f"{n}", a / 100, q) for n, (a, q) in enumerate(i["items"])]
        bars = [Bar("b", i["stock"] / 100, Decimal(1))]

        def cut(s: list[Stick] = sticks, b: list[Bar] = bars) -> tuple[list[str], bool]:
            plan = cut_lengths(s, b, kerf=0, seconds=LONGEST_S, effort=options.effort)
            return check_bar_plan(plan, s, b, 0), bool(plan.broken_off)

        table.add(i["set"], i["name"], cut)
    return table


def _thin(draw: random.Random) -> Iterator[Piece]:
    for n in range(draw.randint(1, 6)):
        wide, long = draw.choice((0.1, 0.5, 1, 1, 2, 3)), draw.uniform(20, 1200)
        size = (long, wide) if draw.random() < 0.5 else (wide, long)
        yield Piece(f"thin {n}", *size, draw.choice((1, 5, 40, 400, 1500)), may_turn=draw.random() < 0.4)


def _many(draw: random.Random) -> Iterator[Piece]:
    for n in range(draw.randint(1, 3)):
        yield Piece(
            f"many {n}",
            draw.uniform(30, 200),
            draw.uniform(20, 150),
            draw.randint(300, 3000),
            may_turn=draw.random() < 0.5,
        )


def _unlike(draw: random.Random) -> Iterator[Piece]:
    for n in range(draw.randint(20, 150)):
        size = (10 ** draw.uniform(-0.5, 3.3), 10 ** draw.uniform(-0.5, 3.05))
        yield Piece(f"unlike {n}", *size, draw.randint(1, 3), may_turn=draw.random() < 0.5)


def generated_job(seed: int) -> tuple[str, list[Piece], list[Sheet], Saw]:
    """Draw one job: thin, many or unlike pieces, or all of them."""
    draw = random.Random(f"to the end {seed}")
    kind = ("thin", "many", "unlike", "all three")[seed % 4]
    makers = {"thin": (_thin,), "many": (_many,), "unlike": (_unlike,), "all three": (_thin, _many, _unlike)}[kind]
    pieces = [piece for make in makers for piece in make(draw)]
    stock = [
        Sheet(
            f"s{n}",
            round(draw.uniform(600, 3100), 1),
            round(draw.uniform(300, 2100), 1),
            Decimal(draw.randint(5, 90)),
            draw.choice((None, None, 1, 4)),
        )
        for n in range(draw.randint(1, 4))
    ]
    stock += [
        Sheet(f"offcut {n}", draw.uniform(5, 900), draw.uniform(5, 500), Decimal(0), 1)
        for n in range(draw.choice((0, 2, 30)))
    ]
    saw = Saw(draw.choice((0.0, 0.1, 3.2)), draw.choice((0.0, 0.0, 2.0)), draw.choice((None, None, None, 1, 2, 4)))
    # what is thinner than the kerf is refused with a sentence, which is tested elsewhere
    pieces = [p for p in pieces if min(p.length, p.width) >= saw.kerf] or [Piece("one", 40.0, 30.0)]
    return kind, pieces, stock, saw


def generated(options: argparse.Namespace) -> Table:
    """Jobs made up."""
    table = Table()
    for seed in range(options.first, options.first + options.jobs):
        kind, pieces, stock, saw = generated_job(seed)
        table.add(f"generated, {kind}", f"{seed}", lambda p=pieces, s=stock, w=saw: _laid(p, s, w, options.effort))
    return table


def main() -> None:
    """Read the command line."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("what", choices=("sheets", "lengths", "generated"))
    parser.add_argument("--data")
    parser.add_argument("--set")
    parser.add_argument("--jobs", type=int, default=5000)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--effort", type=float, default=1.0)
    options = parser.parse_args()
    {"sheets": sheets, "lengths": lengths, "generated": generated}[options.what](options).show()


if __name__ == "__main__":
    main()
