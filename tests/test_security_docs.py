"""What docs/security.md and docs/asvs.md say is held by tests that exist, and no point of level 1 is left out."""

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PAGES = {name: (ROOT / "docs" / f"{name}.md").read_text("utf-8") for name in ("security", "asvs")}

LEVEL_1 = """
2.1.1-12 2.2.1-3 2.3.1 2.5.1-6 2.7.1-4 2.8.1 3.1.1 3.2.1-3 3.3.1-2 3.4.1-5 3.7.1 4.1.1-3 4.1.5 4.2.1-2 4.3.1-2 5.1.1-5 5.2.1-8
5.3.1-10 5.5.1-4 6.2.1 7.1.1-2 7.4.1 8.2.1-3 8.3.1-4 9.1.1-3 10.3.1-3 11.1.1-5 12.1.1 12.3.1-5 12.4.1-2 12.5.1-2 12.6.1
13.1.1 13.1.3 13.2.1-3 13.3.1 14.2.1-3 14.3.2-3 14.4.1-7 14.5.1-3
"""
"""Numbers that ASVS 4.0.3 marks for level 1 and has not struck out, from the project's own table of it."""

STATES = {"met", "with TLS", "part", "not met", "does not apply"}


def _numbers():
    for run in LEVEL_1.split():
        head, _, last = run.partition("-")
        stem, first = head.rsplit(".", 1)
        yield from (f"{stem}.{n}" for n in range(int(first), int(last or first) + 1))


def _named(text):
    return set(re.findall(r"`?(tests/[\w/]+\.py)::(\w+)`?", text))


def _exists(file, name):
    path = ROOT / file
    if not path.is_file():
        return False
    return any(isinstance(n, ast.FunctionDef) and n.name == name for n in ast.parse(path.read_text("utf-8")).body)


def _rows():
    level_1 = PAGES["asvs"].split("## Of level 2")[0]
    return [row.groups() for row in re.finditer(r"^\| ([\d.]+) \| (.+?) \| (.+?) \| (.+) \|$", level_1, re.MULTILINE)]


@pytest.mark.parametrize("page", PAGES)
def test_every_test_that_is_named_exists(page):
    named = _named(PAGES[page])
    assert len(named) > 15
    assert PAGES[page].count("::") == len(re.findall(r"tests/[\w/]+\.py::\w+", PAGES[page]))
    assert sorted(f"{file}::{name}" for file, name in named if not _exists(file, name)) == []


def test_the_search_finds_what_does_not_exist():
    assert not _exists("tests/test_security_docs.py", "test_of_nothing")
    assert not _exists("tests/no_such_file.py", "test_of_nothing")
    assert _exists("tests/test_security_docs.py", "test_every_test_that_is_named_exists")


def test_every_point_of_level_1_is_there_once_with_a_state_and_a_reason():
    rows = _rows()
    assert [row[0] for row in rows] == list(_numbers())
    for number, words, state, held in rows:
        assert state in STATES, number
        assert len(words) > 4, number
        assert _named(held) or len(held) > 7, number
        if state in ("part", "not met", "does not apply"):
            assert re.sub(r"`[^`]*`", "", held).strip(" ,."), f"{number}: a reason is missing"


def test_what_the_page_counts_is_what_stands_in_it():
    counts = {state: sum(row[2] == state for row in _rows()) for state in STATES}
    said = re.search(
        r"Of the (\d+) points of level 1, (\d+) are met and (\d+) with TLS, (\d+) in part, (\d+) are not met, "
        r"and (\d+) do not apply",
        PAGES["asvs"],
    )
    order = ("met", "with TLS", "part", "not met", "does not apply")
    assert [int(n) for n in said.groups()] == [len(_rows()), *(counts[state] for state in order)]


def test_modules_that_are_named_exist():
    rows = re.findall(r"^\| .+ \| (`(?:desk|job|scripts)/[^|]*) \| `tests", PAGES["security"], re.MULTILINE)
    named = [name for row in rows for name in re.findall(r"`([a-z_/.]+)`", row)]
    assert len(named) > 20
    for name in named:
        assert (ROOT / name if name.startswith("scripts/") else ROOT / "src" / "rodbook" / name).exists(), name


def test_what_opens_a_sealed_backup_without_rodbook_does(tmp_path, monkeypatch):
    """The lines of docs/backup.md as they stand there, on a backup of three pieces."""
    import io
    import os
    import sys
    import tarfile

    from rodbook.desk.keeping.backups.sealed import PIECE, Sealed

    (lines,) = re.findall(r"```python\n(.*?)```", (ROOT / "docs" / "backup.md").read_text("utf-8"), re.DOTALL)
    content = os.urandom(2 * PIECE + 5)
    archive = io.BytesIO()
    with tarfile.open(fileobj=archive, mode="w") as made:
        info = tarfile.TarInfo("photos/x")
        info.size = len(content)
        made.addfile(info, io.BytesIO(content))
    with (tmp_path / "x.backup").open("wb") as out:
        sealed = Sealed(out, "four words on paper")
        sealed.write(archive.getvalue())
        sealed.close()
        out.write(b"sha256 " + b"0" * 64 + b"\n")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys, "argv", ["open", "x.backup", "four words on paper"])
    exec(compile(lines, "docs/backup.md", "exec"), {})
    with tarfile.open(tmp_path / "backup.tar") as opened:
        assert opened.extractfile("photos/x").read() == content
