"""Tables for the layout engine, printed beside published figures and beside peers. Nothing here passes or fails.

``python benchmarks/layouts.py small-firm [--jobs 60] [--seconds 5] [--first 0] [--peers]``
``python benchmarks/layouts.py growth``
``python benchmarks/layouts.py classics --data FOLDER [--oriented] [--sample 50 | --all] [--pieces 20] [--seconds 10] [--peers]``
``python benchmarks/layouts.py several --data FOLDER --set ortmann2010|cintra2008 [--sample 20] [--seconds 10]``
``python benchmarks/layouts.py knapsack --data FOLDER``
``python benchmarks/layouts.py lengths --data FOLDER [--sample 6 | --all] [--seconds 10]``

FOLDER holds the published instances with their reader ``load.py``; the environment variable BENCH_DATA may name it.
Times are wall times of one process. ``--cpu`` counts the process's own CPU time instead, for a machine that others use
too; what the linear solver takes is still limited by the wall clock then, so figures are rather too low than too high.
"""

from __future__ import annotations

import argparse
import importlib.util
import os
import random
import statistics
import sys
import time
from collections import Counter
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from types import ModuleType

sys.path.insert(0, str(Path(__file__).parent))

from small_firm import small_firm_job

from rodbook.boards import Bar, Piece, Saw, Sheet, Stick, cut_lengths, lay_out, layout
from rodbook.boards import lengths as lengths_face
from rodbook.boards.asked.task import task_of
from rodbook.boards.values.dearest import Dearest
from rodbook.boards.values.limited import Limited, most_worth
from rodbook.boards.warm import warm


def _reader(folder: str | None):
    folder = folder or os.environ.get("BENCH_DATA")
    if not folder:
        raise SystemExit("layouts: say where the instances are: --data FOLDER, or BENCH_DATA in the environment")
    spec = importlib.util.spec_from_file_location("load", Path(folder) / "load.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def _drawn(items: list, options: argparse.Namespace) -> list:
    if options.all or options.sample >= len(items):
        return items
    return random.Random(f"sample {options.seed}").sample(items, options.sample)


def small_firm(options: argparse.Namespace) -> None:
    """Jobs like a small firm's."""
    print(
        f"Jobs like a small firm's, seeds {options.first} to {options.first + options.jobs - 1}, {options.seconds:g} s each."
    )
    rows, times, peers = [], [], []
    for seed in range(options.first, options.first + options.jobs):
        pieces, sheets, saw = small_firm_job(seed)
        began = time.perf_counter()
        plan = lay_out(pieces, sheets, saw, seconds=options.seconds)
        times.append(time.perf_counter() - began)
        rows.append((plan.proven, float((plan.cost - plan.bound) / plan.cost) if plan.cost else 0.0))
        if not plan.proven:
            print(f"  seed {seed}: {plan.cost} against {plan.bound}, {times[-1]:.1f} s")
        if options.peers:
            from peers import by_packingsolver

            cost, bound = by_packingsolver(pieces, sheets, saw, options.seconds)
            peers.append((float(plan.cost), cost, bound))
    gaps = [gap for _, gap in rows]
    print(f"{'':<16}{'proven':>12}{'mean gap':>12}{'median s':>12}{'longest s':>12}")
    print(
        f"{'rodbook':<16}{sum(p for p, _ in rows):>6} of {len(rows):<2}{100 * statistics.mean(gaps):>11.2f}%"
        f"{statistics.median(times):>12.2f}{max(times):>12.2f}"
    )
    if peers:
        whole = [(own, cost, bound) for own, cost, bound in peers if cost is not None]
        tight = sum(cost - bound < 0.005 for _, cost, bound in whole)
        gap = statistics.mean((cost - bound) / cost if cost else 0.0 for _, cost, bound in whole)
        print(f"{'packingsolver':<16}{tight:>6} of {len(peers):<2}{100 * gap:>11.2f}%")
        print(
            f"packingsolver gave {len(whole)} whole plans of {len(peers)}; cheaper than rodbook's in"
            f" {sum(cost < own - 0.005 for own, cost, _ in whole)}, alike in"
            f" {sum(abs(cost - own) <= 0.005 for own, cost, _ in whole)}, dearer in"
            f" {sum(cost > own + 0.005 for own, cost, _ in whole)}, on average by"
            f" {100 * statistics.mean((cost - own) / own if own else 0.0 for own, cost, _ in whole):.2f}%."
        )


GROWTH_SIZES = ((764, 397), (1980, 560), (560, 420), (900, 560), (1210, 310), (396, 284), (640, 95), (455, 505))


def growth(options: argparse.Namespace) -> None:
    """More and more pieces of eight sizes."""
    print(f"{'pieces':>8}{'sheets':>8}{'bound':>8}{'gap':>9}{'seconds':>9}")
    for number in (10, 100, 1000, 10_000):
        draw = random.Random(f"growth {number}")
        shares = [draw.random() + 0.3 for _ in GROWTH_SIZES]
        counts = [max(1, round(number * share / sum(shares))) for share in shares]
        pieces = [Piece(f"p{n}", a, b, q) for n, ((a, b), q) in enumerate(zip(GROWTH_SIZES, counts, strict=True))]
        began = time.perf_counter()
        plan = lay_out(pieces, [Sheet("board", 2440, 1220, Decimal(1))], Saw(), seconds=options.seconds)
        taken = time.perf_counter() - began
        gap = float((plan.cost - plan.bound) / plan.cost)
        print(f"{sum(counts):>8}{plan.cost:>8.0f}{plan.bound:>8.0f}{100 * gap:>8.2f}%{taken:>9.2f}")


def classics(options: argparse.Namespace) -> None:
    """The 500 instances of Berkey & Wang and Martello & Vigo."""
    load = _reader(options.data)
    instances = [i for i in load.instances("sheets-2bp") if options.pieces is None or i["n"] <= options.pieces]
    drawn = _drawn(instances, options)
    way, key, free = ("o", "o_3nh", "o_free") if options.oriented else ("r", "r_3nh", "r_free")
    kind = "oriented" if options.oriented else "rotated"
    least = f" of those with no more than {options.pieces} pieces" if options.pieces else ""
    print(f"{len(drawn)} instances{least}, {kind} (drawn with seed {options.seed}), {options.seconds:g} s each.")
    sums: Counter[str] = Counter()
    runs = {"rodbook": Run()}
    began_all = time.perf_counter()
    for instance in drawn:
        length, width = instance["sheet"]
        pieces = [
            Piece(f"{n}", float(a), float(b), q, may_turn=not options.oriented)
            for n, (a, b, q) in enumerate(instance["items"])
        ]
        sheet, saw = Sheet("s", float(length), float(width), Decimal(1)), Saw(0, 0)
        began = time.perf_counter()
        plan = lay_out(pieces, [sheet], saw, seconds=options.seconds)
        runs["rodbook"].note(float(plan.cost), float(plan.bound), time.perf_counter() - began)
        sums["best known, three stages"] += instance["best"][key]
        sums["best known, free cuts"] += instance["best"][free]
        sums["published bound"] += instance["lb"][way]
        if plan.cost > instance["best"][key]:
            print(f"  {instance['name']}: {plan.cost} against {instance['best'][key]}", flush=True)
        if options.peers:
            for name, peer in _peers(options).items():
                began = time.perf_counter()
                cost, bound = peer(pieces, sheet, saw)
                runs.setdefault(name, Run()).note(cost, bound, time.perf_counter() - began)
    print(f"{'':<26}{'sheets':>8}{'bound':>8}{'proven':>8}{'no plan':>9}{'median s':>10}{'longest s':>10}")
    for name, run in runs.items():
        print(f"{name:<26}{run}")
    for name, total in sums.items():
        print(f"{name:<26}{total:>8}")
    print(f"all {time.perf_counter() - began_all:.0f} s")


class Run:
    """What one program made of the instances."""

    def __init__(self) -> None:
        self.sheets = self.bound = 0.0
        self.proven = self.missed = 0
        self.times: list[float] = []

    def note(self, cost: float | None, bound: float | None, seconds: float) -> None:
        """Count one instance; without a plan its sheets are left out, and said."""
        self.times.append(seconds)
        self.bound += bound or 0.0
        if cost is None:
            self.missed += 1
            return
        self.sheets += cost
        self.proven += bound is not None and cost - bound < 0.5

    def __str__(self) -> str:
        return (
            f"{self.sheets:>8.0f}{self.bound:>8.0f}{self.proven:>8}{self.missed:>9}"
            f"{statistics.median(self.times):>10.2f}{max(self.times):>10.2f}"
        )


def _peers(options: argparse.Namespace) -> dict[str, Callable[..., tuple[float | None, float | None]]]:
    """Peers, by the wall clock; CP-SAT for small instances only, as its model grows with pieces times sheets."""
    from peers import by_cp_sat, by_packingsolver, by_rectpack

    seconds = options.seconds
    results: dict[str, Callable[..., tuple[float | None, float | None]]] = {
        "packingsolver": lambda pieces, sheet, saw: by_packingsolver(pieces, [sheet], saw, seconds),
        "rectpack, best setting": lambda pieces, sheet, saw: (by_rectpack(pieces, sheet, saw), None),
    }
    if options.pieces and options.pieces <= 40:
        results["CP-SAT, free cuts"] = lambda pieces, sheet, saw: by_cp_sat(pieces, sheet, saw, seconds)
    return results


def several(options: argparse.Namespace) -> None:
    """Several sorts of sheet: price is area."""
    load = _reader(options.data)
    drawn = _drawn(list(load.instances("sheets-stock", set=options.set)), options)
    print(
        f"{len(drawn)} instances of {options.set}, {'rotated' if options.rotated else 'oriented'}, {options.seconds:g} s."
    )
    used, whole, best, bounds, best_all = 0, [], 0, 0, True
    for instance in drawn:
        pieces = [
            Piece(f"{n}", float(a), float(b), q, may_turn=options.rotated)
            for n, (a, b, q) in enumerate(instance["items"])
        ]
        sheets = [
            Sheet(f"{n}", float(s[0]), float(s[1]), Decimal(s[0] * s[1]), s[2] if len(s) > 2 else None)
            for n, s in enumerate(instance["sheets"])
        ]
        plan = lay_out(pieces, sheets, Saw(0, 0), seconds=options.seconds)
        area = sum(a * b * q for a, b, q in instance["items"])
        used, bounds = used + int(plan.cost), bounds + int(plan.bound)
        whole.append(area / float(plan.cost) if not plan.unplaced else 0.0)
        known = instance.get("best", {}).get("r_2nh" if options.rotated else "o_2nh")
        best_all &= known is not None
        best += known or 0
        print(
            f"  {instance['name']}: {plan.cost} bound {plan.bound} best known {known} use {100 * whole[-1]:.2f}%",
            flush=True,
        )
    print(f"area of sheets {used}, bounds {bounds}" + (f", best known {best}" if best_all else ""))
    print(f"mean utilisation {100 * statistics.mean(whole):.2f}%; gap to own bound {100 * (used - bounds) / used:.2f}%")


def lengths(options: argparse.Namespace) -> None:
    """One-dimensional classics; lengths in hundredths of a mm."""
    load = _reader(options.data)
    sets: dict[str, list] = {}
    for instance in load.instances("lengths-1d"):
        sets.setdefault(instance["set"], []).append(instance)
    print(f"{'set':<16}{'instances':>10}{'optimum':>9}{'proven':>8}{'median s':>10}{'longest s':>10}")
    for name, instances in sets.items():
        optimum = proven = 0
        times = []
        drawn = _drawn(instances, options)
        for instance in drawn:
            sticks = [Stick(f"{n}", a / 100, q) for n, (a, q) in enumerate(instance["items"])]
            began = time.perf_counter()
            plan = cut_lengths(sticks, [Bar("b", instance["stock"] / 100, Decimal(1))], kerf=0, seconds=options.seconds)
            times.append(time.perf_counter() - began)
            optimum += plan.cost == instance["best"]
            proven += plan.proven
        print(
            f"{name:<16}{len(drawn):>10}{optimum:>9}{proven:>8}{statistics.median(times):>10.2f}{max(times):>10.2f}",
            flush=True,
        )


def knapsack(options: argparse.Namespace) -> None:
    """The filling of one sheet worth most: what prices patterns, and what fills offcuts with pieces wanted elsewhere."""
    load = _reader(options.data)
    print("each part as often as it fits:")
    _knapsacks(load, {"oriented": "u_o", "rotated": "u_r"}, _unlimited)
    print("no part more often than it is there:")
    _knapsacks(load, {"oriented": "c_o", "rotated": "c_r"}, most_worth)


def _unlimited(dearest: Dearest, values: list[int], _: list[int]) -> Limited:
    ((worth, shape),) = dearest.fillings(values)
    return Limited(shape, worth, worth)


def _knapsacks(load: ModuleType, keys: dict[str, str], fill: Callable[..., Limited]) -> None:
    heads = ("instances", "optimum", "proven", "mean short", "worst", "mean gap", "median s", "longest s")
    print(f"{'':<10}" + "".join(f"{head:>12}" for head in heads), flush=True)
    for way, key in keys.items():
        times, shares, gaps, left_out = [], [], [], 0
        for instance in load.instances("sheets-knapsack"):
            best = instance["best"].get(key)
            if best is None:
                continue
            assert key in instance["proven"]
            length, width = instance["sheet"]
            # each part of gcut1-13 is there once, as the literature on them takes it; None is as often as it fits
            pieces = [
                Piece(f"{n}", float(a), float(b), (most or 10_000) if key[0] == "c" else 10_000, may_turn=key[2] == "r")
                for n, (a, b, _, most) in enumerate(instance["items"])
            ]
            sheet = Sheet("s", float(length), float(width), Decimal(1))
            task = task_of(pieces, [sheet], Saw(0, 0))
            if key[0] == "c" and any(len({instance["items"][n][2] for n in kind.pieces}) > 1 for kind in task.kinds):
                left_out += 1  # a kind is a size here, and these have parts of one size worth unlike amounts
                continue
            # pieces of one size are one kind, worth what the best of them is
            values = [max(instance["items"][n][2] for n in kind.pieces) for kind in task.kinds]
            wanted = [kind.quantity for kind in task.kinds]
            began = time.perf_counter()
            result = fill(Dearest(task, wanted, most_work=10**11), values, wanted)
            times.append(time.perf_counter() - began)
            assert result.worth <= best <= result.bound, f"{instance['name']}: {result.worth}, {best}, {result.bound}"
            shares.append(1 - result.worth / best)
            gaps.append(1 - result.worth / result.bound)
        print(
            f"{way:<10}{len(times):>12}{shares.count(0.0):>12}{gaps.count(0.0):>12}{100 * statistics.mean(shares):>11.2f}%"
            f"{100 * max(shares):>11.2f}%{100 * statistics.mean(gaps):>11.2f}%"
            f"{statistics.median(times):>12.4f}{max(times):>12.2f}"
            + (f"  ({left_out} left out: parts of one size are worth unlike amounts)" if left_out else ""),
            flush=True,
        )


def main() -> None:
    """Run one table."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("table", choices=("small-firm", "growth", "classics", "several", "lengths", "knapsack"))
    parser.add_argument("--data")
    parser.add_argument("--set", default="ortmann2010")
    parser.add_argument("--seconds", type=float)
    parser.add_argument("--sample", type=int)
    parser.add_argument("--seed", type=int, default=2)
    parser.add_argument("--pieces", type=int, help="only instances with no more than so many pieces")
    parser.add_argument("--jobs", type=int, default=60)
    parser.add_argument("--first", type=int, default=0)
    for flag in ("all", "oriented", "rotated", "peers", "cpu"):
        parser.add_argument(f"--{flag}", action="store_true")
    options = parser.parse_args()
    options.seconds = options.seconds or (5.0 if options.table == "small-firm" else 10.0)
    options.sample = options.sample or {"lengths": 6, "several": 20}.get(options.table, 50)
    if options.cpu:
        layout.monotonic = lengths_face.monotonic = time.perf_counter = time.process_time
        print("Seconds are CPU seconds of the process.")
    warm()
    {
        "small-firm": small_firm,
        "growth": growth,
        "classics": classics,
        "several": several,
        "lengths": lengths,
        "knapsack": knapsack,
    }[options.table](options)


if __name__ == "__main__":
    main()
