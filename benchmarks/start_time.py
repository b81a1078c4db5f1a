"""CPU time of commands, each in a process of its own with its bytecode and compiled loops kept, beside what they may take.

Prints a table; nothing here passes or fails. ``python benchmarks/start_time.py [runs]``: the best of so many after one that
warms up; user and system time of the process and of what it started.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
from pathlib import Path

COMMANDS = {
    "--version": 0.3,
    "--help": 0.3,
    "check book.toml": 0.5,
    "check job.toml": 0.5,
    "plan job.toml": 1.5,
    "papers job.toml --out papers": 3.0,
}
"""Words of the command, and the seconds that are aimed at. The job is the converted store, 14 openings."""


def main() -> None:
    from rodbook.job.files import sample_book_text, sample_text

    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    with tempfile.TemporaryDirectory() as folder:
        Path(folder, "job.toml").write_text(sample_text("converted-store"), "utf-8")
        Path(folder, "book.toml").write_text(sample_book_text(), "utf-8")
        print(f"{'command':<32}{'CPU [s]':>9}{'aim [s]':>9}")
        for command, aim in COMMANDS.items():
            _used(command, folder)
            best = min(_used(command, folder) for _ in range(runs))
            print(f"{'rodbook ' + command:<32}{best:>9.2f}{aim:>9.1f}")


def _used(command: str, folder: str) -> float:
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(
        [sys.executable, "-m", "rodbook", *command.split()], check=True, cwd=folder, env=kept, stdout=subprocess.DEVNULL
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


if __name__ == "__main__":
    main()
