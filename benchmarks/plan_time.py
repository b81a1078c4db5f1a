"""Time and memory of whole plans: each in a process of its own, nothing kept from an earlier one.

Prints a table; nothing here passes or fails. ``python benchmarks/plan_time.py [runs]``.
"""

from __future__ import annotations

import json
import resource
import statistics
import subprocess
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

WIDTHS = (20, 7, 8, 8, 8, 9, 11, 16)
CASES = ("converted-store", "timber-house", "stair", "generated 50", "generated 200")


def one(case: str, *, papers: bool) -> None:
    """Run one case in this process and print its figures."""
    started = time.perf_counter()
    from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
    from rodbook.plan import make_plan

    book = parse_book(sample_book_text())
    if case.startswith("generated"):
        from generated import generated_job

        job = generated_job(int(case.split()[1]))
    else:
        job = parse_job(sample_text(case), book)
    loaded = time.perf_counter()
    plan = make_plan(job, book)
    planned = time.perf_counter()
    proven = [a.proven for m in plan.materials if (a := m.sheets or m.lengths)]
    figures = {
        "load": loaded - started,
        "plan": planned - loaded,
        "parts": sum(line.quantity for line in plan.schedule),
        "distinct": len(plan.schedule),
        "sizes": len(plan.sizes.sizes) if plan.sizes else 0,
        "layouts": len(proven),
        "proven": sum(proven),
    }
    figures["plan_mb"] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    if papers:
        import tempfile

        from rodbook.papers import write_papers

        with tempfile.TemporaryDirectory() as folder:
            write_papers(plan, Path(folder))
        figures["papers"] = time.perf_counter() - planned
    figures["peak_mb"] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print("FIGURES " + json.dumps(figures))


def main() -> None:
    """Run every case several times and print medians."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 3
    print(f"Median of {runs} runs, each in a fresh process; seconds and MB.")
    heads = ("parts", "sizes", "load", "plan", "papers", "plan MB", "papers MB", "layouts proven")
    print(f"{'job':<18}" + "".join(f"{h:>{w}}" for h, w in zip(heads, WIDTHS, strict=True)))
    for case in CASES:
        rows = []
        for _ in range(runs):
            done = subprocess.run(
                [sys.executable, __file__, "--one", case], capture_output=True, text=True, check=True, timeout=600
            )
            rows.append(json.loads(next(x for x in done.stdout.splitlines() if x.startswith("FIGURES "))[8:]))
        median = {key: statistics.median(row[key] for row in rows) for key in rows[0]}
        parts = f"{median['parts']:.0f} ({median['distinct']:.0f} distinct)"
        cells = (
            parts,
            f"{median['sizes']:.0f}",
            f"{median['load']:.2f}",
            f"{median['plan']:.2f}",
            f"{median['papers']:.2f}",
            f"{median['plan_mb']:.0f}",
            f"{median['peak_mb']:.0f}",
            f"{median['proven']:.0f} of {median['layouts']:.0f}",
        )
        print(f"{case:<18}" + "".join(f"{c:>{w}}" for c, w in zip(cells, WIDTHS, strict=True)))


if __name__ == "__main__":
    if "--one" in sys.argv:
        one(sys.argv[sys.argv.index("--one") + 1], papers=True)
    else:
        main()
