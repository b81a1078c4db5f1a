"""A command loads what it uses: libraries that take long are not there after a command that has no need of them."""

import subprocess
import sys

import pytest

from rodbook.job.files import sample_book_text, sample_text

LARGE = (
    "PIL",
    "argon2",
    "cryptography",
    "django",
    "highspy",
    "holidays",
    "icalendar",
    "numba",
    "numpy",
    "openpyxl",
    "ortools",
    "pydantic",
    "rich",
    "scipy.linalg",
    "scipy.special",
    "scipy.stats",
    "shapely",
    "tomlkit",
    "typst",
)

RUN = """
import contextlib, io, sys
from rodbook.cli import main
sys.argv = ["rodbook", *sys.argv[1:]]
try:
    with contextlib.redirect_stdout(io.StringIO()):
        main()
except SystemExit as left:
    assert not left.code, left.code
print(" ".join(sys.modules))
"""


@pytest.fixture
def loaded(tmp_path):
    """Names of the large libraries that a command of the sample job leaves loaded in a process of its own."""
    (tmp_path / "job.toml").write_text(sample_text("converted-store"), "utf-8")
    (tmp_path / "book.toml").write_text(sample_book_text(), "utf-8")

    def run(*words):
        done = subprocess.run(
            [sys.executable, "-c", RUN, *words], capture_output=True, text=True, check=True, timeout=300, cwd=tmp_path
        )
        return {name for name in LARGE if name in done.stdout.split()}

    return run


@pytest.mark.parametrize(
    ("words", "used"),
    [
        (["--version"], set()),
        (["check", "book.toml"], {"pydantic"}),
        (["check", "job.toml"], {"numpy", "pydantic"}),
        (["plan", "job.toml"], {"highspy", "numba", "numpy", "pydantic", "rich", "shapely"}),
    ],
)
def test_a_command_loads_what_it_uses(loaded, words, used):
    assert loaded(*words) <= used


def test_what_has_to_be_there_is_seen(loaded):
    """What the test above looks at is really what is loaded."""
    assert loaded("check", "job.toml") == {"numpy", "pydantic"}
    assert {"typst", "highspy"} <= loaded("papers", "job.toml", "--out", "papers")
