"""The commands as their user meets them: what is printed, what is written, and which code comes back."""

import json
import os
import subprocess
import sys
from decimal import Decimal
from pathlib import Path
from typing import NamedTuple

import pytest

from rodbook.job.files import sample_book_text, sample_text
from rodbook.papers.registry import file_names


class Done(NamedTuple):
    """What a command left behind."""

    returncode: int
    stdout: str
    stderr: str


@pytest.fixture
def run(rodbook, monkeypatch):
    """Run a command in this process, as the console script does, and look at its output and exit code."""

    def _run(*arguments: object, cwd: Path, code: int = 0) -> Done:
        monkeypatch.chdir(cwd)
        return Done(code, *rodbook(*arguments, code=code))

    return _run


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("jobs")
    (folder / "book.toml").write_text(sample_book_text(), "utf-8")
    for name in ("converted-store", "timber-house", "stair"):
        (folder / f"{name}.toml").write_text(sample_text(name), "utf-8")
    return folder


def test_plan_prints_sizes_parts_boards_and_costs(run, folder):
    out = run("plan", "converted-store.toml", cwd=folder).stdout
    assert "3 standard sizes serve 14 openings; fewer can't serve them all." in out
    assert "827 × 2021" in out
    assert "1-door-left" in out
    assert "Decided: €" in out
    assert "HiGHS" not in out
    assert "Book: book.toml" in out


def test_plan_shows_the_working_where_asked(run, folder):
    out = run("plan", "converted-store.toml", "--working", cwd=folder).stdout
    assert "leaf width = (clear width 791.0 − 2 × margin 3.0 − 1 × meeting gap 3.0) ÷ 2 = 391.0" in out
    assert "left side at " in out
    assert "allowance for what is not sure, on average" in out


def test_json_is_nothing_but_json(folder):
    """In a process of its own, as libraries may write to the standard output behind Python's back."""
    done = subprocess.run(
        [sys.executable, "-m", "rodbook", "plan", "timber-house.toml", "--json"],
        cwd=folder,
        capture_output=True,
        text=True,
        timeout=120,
        check=True,
        env={**os.environ, "PYTHONWARNINGS": "error"},
    )
    assert done.stderr == ""
    plan = json.loads(done.stdout)
    assert plan["job"]["job"]["name"] == "Timber house at the orchard"
    assert plan["openings"][0]["framed"]["width"]["value"] == 959


def test_a_job_that_is_worked_out_in_part_says_so(run, folder):
    text = sample_text("stair").replace(
        "widths = [610, 611, 609]\nheights = [1985, 1762, 1540]", "state = 'planned'\nleaf = [560, 1500]"
    )
    (folder / "planned.toml").write_text(text, "utf-8")
    out = run("plan", "planned.toml", cwd=folder).stdout
    assert "Not worked out yet" in out
    assert "S1: The head is raked" in out


def test_the_stair_is_planned_in_full(run, folder):
    out = run("plan", "stair.toml", cwd=folder).stdout
    assert "Not worked out yet" not in out
    assert "1-door-left" in out


def test_without_a_book_the_sample_book_is_named(run, folder, tmp_path):
    (tmp_path / "job.toml").write_text(sample_text("stair"), "utf-8")
    assert "the sample book (invented prices" in run("plan", "job.toml", cwd=tmp_path).stdout


def test_all_faults_come_at_once_and_nothing_is_written_where_one_is_of_the_whole_job(run, folder, tmp_path):
    text = sample_text("converted-store").replace("widths = [842,", "widths = [84,").replace("leaves = 1", "leaves = 9")
    (tmp_path / "job.toml").write_text(text.replace("build_up = ", "build_up = 'none' #", 1), "utf-8")
    done = run("papers", "job.toml", "--out", "papers", cwd=tmp_path, code=2)
    lines = done.stderr.splitlines()
    assert lines[0].startswith("job.build_up: the book has no build-up 'none'")
    assert lines[1] == "openings[1].widths (C1): 84 mm is less than the smallest opening, 150 mm; did you mean 840?"
    assert lines[2].startswith("openings[3].leaves (C3): 9 won't do")
    assert lines[-1] == "7 faults to put right; nothing was written."
    assert not (tmp_path / "papers").exists()


def test_check_names_each_file_and_counts_the_faults(run, folder, tmp_path):
    bad = tmp_path / "bad.toml"
    bad.write_text("format = 1\n[job]\nname = 'x'\n", "utf-8")
    done = run("check", "converted-store.toml", "book.toml", bad, cwd=folder, code=2)
    assert "converted-store.toml: a job: 14 openings, 0 panels, sound." in done.stdout
    assert "book.toml: a book: 5 build-ups" in done.stdout
    assert f"{bad}: job.date: this is missing" in done.stderr


def test_new_writes_a_job_that_checks_and_never_over_another(run, folder, tmp_path):
    run("new", "mine.toml", "--sample", "timber-house", "--with-book", cwd=tmp_path)
    assert "sound." in run("check", "mine.toml", "book.toml", cwd=tmp_path).stdout
    before = (tmp_path / "mine.toml").read_text("utf-8")
    again = run("new", "mine.toml", cwd=tmp_path, code=1)
    assert again.stderr == "mine.toml is there already; choose another name, nothing was written.\n"
    assert (tmp_path / "mine.toml").read_text("utf-8") == before


def test_new_from_a_list_of_openings(run, tmp_path):
    (tmp_path / "list.csv").write_text(
        "mark;leaves;width foot;width middle;width head;height left;height middle;height right\n"
        "C1;2;842,5;843;843;2030;2030;2030\n",
        "utf-8",
    )
    run("new", "mine.toml", "--openings", "list.csv", "--name", "Canal boat", cwd=tmp_path)
    text = (tmp_path / "mine.toml").read_text("utf-8")
    assert "842.5" in text
    assert 'name = "Canal boat"' in text
    assert "1 standard size serves 1 openings" in run("plan", "mine.toml", cwd=tmp_path).stdout


@pytest.mark.parametrize(
    ("arguments", "code", "sentence"),
    [
        (("plan", "nowhere.toml"), 1, "there is no file 'nowhere.toml'"),
        (("plan", "."), 1, "is not a file"),
        (("new", "x.toml", "--sample", "castle"), 2, "there is no sample 'castle'"),
        (("plan", "converted-store.toml", "--seconds", "0"), 2, "seconds"),
        (("plan",), 2, "Missing argument"),
    ],
)
def test_what_is_wrong_is_said_in_a_sentence(run, folder, arguments, code, sentence):
    assert sentence in run(*arguments, cwd=folder, code=code).stderr


def test_help_is_for_a_joiner(run, tmp_path):
    out = run("--help", cwd=tmp_path).stdout
    assert "Set out once" in out
    for command in ("check", "demo", "new", "papers", "plan", "schema"):
        assert command in out
    assert "Nothing is written." in run("plan", "--help", cwd=tmp_path).stdout


def test_the_schema_is_json(run, tmp_path):
    for what in ("job", "book"):
        assert json.loads(run("schema", what, cwd=tmp_path).stdout)["type"] == "object"


def test_demo_writes_papers_and_names_the_folder(run, tmp_path):
    out = run("demo", "--out", "papers", cwd=tmp_path).stdout
    assert "Papers in papers:" in out
    assert (tmp_path / "papers" / "workshop-order.pdf").read_bytes().startswith(b"%PDF")


def test_a_folder_that_is_a_file_is_said(run, folder, tmp_path):
    (tmp_path / "papers").write_text("", "utf-8")
    done = run("papers", folder / "stair.toml", "--out", tmp_path / "papers", cwd=folder, code=2)
    assert "is not a folder" in done.stderr or "is a file" in done.stderr


def _desk_person(home, name, password):
    return subprocess.run(
        [
            sys.executable,
            "-m",
            "rodbook",
            "desk-person",
            name,
            "--role",
            "owner",
            "--home",
            home,
            "--password",
            password,
        ],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )


def test_an_account_for_the_shared_desk_is_made_once(tmp_path):
    """In processes of their own, as Django takes its settings once."""
    done = _desk_person(tmp_path / "desk", "ann", "a long way to the saw")
    assert (done.returncode, done.stdout) == (0, "ann may sign in as owner.\n")
    again = _desk_person(tmp_path / "desk", "ann", "short")
    assert again.returncode == 2
    assert "there is an account 'ann' already; choose another name" in again.stderr
    assert "Traceback" not in again.stderr


def test_frame_ahead_tries_leaves_near_the_wanted_ones(run, tmp_path):
    (tmp_path / "house.toml").write_text(sample_text("timber-house"), "utf-8")
    done = run("frame-ahead", "house.toml", "--less", 5, "--more", 3, cwd=tmp_path)
    assert "as wanted" in done.stdout
    assert "447 × 2100" in done.stdout
    done = run("frame-ahead", "house.toml", "--less", -5, cwd=tmp_path, code=2)
    assert "less: -5 mm makes no sense here; write 0 to 500" in done.stderr


def test_frame_ahead_says_where_nothing_is_to_be_framed(run, tmp_path):
    (tmp_path / "store.toml").write_text(sample_text("converted-store"), "utf-8")
    assert "No opening of this job is still to be framed." in run("frame-ahead", "store.toml", cwd=tmp_path).stdout


def test_wanted_pieces_that_come_out_of_waste_are_listed(run, tmp_path):
    (tmp_path / "book.toml").write_text(sample_book_text(), "utf-8")
    job = sample_text("galley")
    (tmp_path / "galley.toml").write_text(job, "utf-8")
    said = run("plan", "galley.toml", cwd=tmp_path).stdout
    listed = said.split("from waste")[1].split("Wanted elsewhere")[0]
    assert "18 mm MDF" in listed
    assert "W-" in listed
    found = json.loads(run("plan", "galley.toml", "--json", cwd=tmp_path).stdout)
    site = next(m for m in found["materials"] if m["sheets"] and m["maker"] == "site-made")
    assert [piece["label"] for piece in site["wanted"]] == ["W-1", "W-2", "W-3"]
    assert Decimal(site["filled"]["fillers_worth"]) > 0
    assert site["filled"]["cost"] == site["sheets"]["cost"]
    (tmp_path / "galley.toml").write_text(job.replace("[job]\n", "[job]\ntake_wanted = false\n"), "utf-8")
    assert "from waste" not in run("plan", "galley.toml", cwd=tmp_path).stdout


def _with_a_slip(folder):
    """The converted store, with one width of C2 misread, beside its book."""
    head, mark, rest = sample_text("converted-store").partition('mark = "C2"')
    bad = folder / "slip.toml"
    bad.write_text(head + mark + rest.replace("widths = [", "widths = [4", 1), "utf-8")
    return bad


def test_a_plan_goes_on_without_a_bad_opening_and_says_so_first(run, folder):
    _with_a_slip(folder)
    done = run("plan", "slip.toml", cwd=folder, code=3)
    head, _, tail = done.stdout.partition("Standing aside: nothing below has any of it")
    assert "standard sizes" not in head
    assert "standard sizes serve 13 openings" in tail
    assert "  C2: " in tail
    assert "openings[2].widths (C2): " in done.stderr
    assert "C2 stands aside until that is put right; nothing above has any of it." in done.stderr


def test_json_of_a_plan_has_what_stands_aside_as_data(run, folder):
    _with_a_slip(folder)
    done = run("plan", "slip.toml", "--json", cwd=folder, code=3)
    (one,) = json.loads(done.stdout)["aside"]
    assert (one["group"], one["number"], one["mark"]) == ("openings", 2, "C2")
    assert one["faults"][0]["where"] == "openings[2].widths (C2)"


def test_papers_are_written_without_a_bad_opening_and_each_says_so(run, folder):
    from pypdf import PdfReader

    _with_a_slip(folder)
    run("papers", "slip.toml", "--out", "slips", cwd=folder, code=3)
    written = sorted((folder / "slips").iterdir())
    assert len(written) == len(file_names())
    for path in written:
        if path.suffix == ".csv":
            last = path.read_text("utf-8").splitlines()[-1]
            assert last.startswith("not in this list,")
            assert "C2" in last
        elif path.stem != "survey-blank":
            text = " ".join(page.extract_text() for page in PdfReader(path).pages)
            told = " ".join(text.split())
            assert "Not in this paper, nor in any sum on it C2" in told, path.name
            assert ("read 4844 again" in told) == (path.stem != "workshop-order"), path.name


def test_a_price_says_what_is_not_in_it(run, folder):
    from pypdf import PdfReader

    _with_a_slip(folder)
    done = run("price", "slip.toml", "--paper", "slip.pdf", cwd=folder, code=3)
    assert done.stdout.lstrip().startswith("Standing aside: nothing below has any of it")
    text = " ".join(" ".join(page.extract_text() for page in PdfReader(folder / "slip.pdf").pages).split())
    assert "Not in this paper, nor in any sum on it C2" in text
    assert "read" not in text.partition("any sum on it")[2][:80]


@pytest.mark.parametrize("command", ["frame-ahead", "re-price", "account"])
def test_what_makes_no_sense_with_a_part_of_a_job_is_not_done(run, folder, command):
    _with_a_slip(folder)
    more = {"account": ["none.toml"]}.get(command, [])
    done = run(command, "slip.toml", *more, cwd=folder, code=2)
    assert "openings[2].widths (C2): " in done.stderr or command == "account"
