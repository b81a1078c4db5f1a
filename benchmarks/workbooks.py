"""What nasty workbooks take: seconds of work and MB at most, each read in a process of its own.

``python benchmarks/workbooks.py`` makes them as the tests do and prints a line for each.
"""

from __future__ import annotations

import importlib.util
import sys
import tempfile
from pathlib import Path

TESTS = Path(__file__).parents[1] / "tests" / "job" / "files" / "test_workbooks.py"


def main() -> None:
    """Print a line for each."""
    spec = importlib.util.spec_from_file_location("nasty", TESTS)
    assert spec is not None
    assert spec.loader is not None
    nasty = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(nasty)
    for name, (part, change, _) in nasty.NASTY.items():
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "table.xlsx"
            path.write_bytes(nasty.changed(nasty.workbook(("first", nasty.ROWS)), part, change))
            answer, seconds, memory = nasty.taken(path)
            size = path.stat().st_size / 1e6
        sys.stdout.write(f"{name:12} {size:5.1f} MB  {seconds:5.1f} s  {memory:4.0f} MB  {answer}\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
