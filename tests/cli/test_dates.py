"""Dates on the command line."""

from __future__ import annotations

import subprocess
import sys

import pytest

from rodbook.job.files import sample_book_text, sample_text


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("jobs")
    (folder / "book.toml").write_text(sample_book_text(), "utf-8")
    (folder / "stair.toml").write_text(sample_text("stair"), "utf-8")
    return folder


@pytest.fixture
def run(rodbook, monkeypatch, folder):
    monkeypatch.chdir(folder)

    def _run(*arguments, code=0):
        return rodbook("dates", "stair.toml", *arguments, code=code)

    return _run


def test_dates_are_printed_and_written(run, folder):
    out = run("--start", "2026-12-01", "--crew", "Ada, Ben", "--holidays", "AT", "--out", "out").out
    # it began with "Hand-over on 21 December 2026", which holds in 37 cases of 100
    assert out.startswith("Hand-over: nine in ten by 29 December 2026.\n")
    assert "If everything takes its planned time: 21 December 2026, which holds in 37 cases of 100;" in " ".join(
        out.split()
    )
    assert "take in from Quarry Lane Workshop" in out
    assert "12 working days" in out
    assert "If Quarry Lane Workshop delivers to Stair at the chapel cottage 3 working days late" in " ".join(
        out.split()
    )
    assert "house assumptions" in out
    assert sorted(path.name for path in (folder / "out").iterdir()) == [
        "dates-ada.ics",
        "dates-ben.ics",
        "dates.ics",
        "dates.pdf",
    ]
    assert (folder / "out" / "dates.pdf").read_bytes().startswith(b"%PDF")


def test_a_crew_of_nobody(run):
    assert run("--start", "2026-12-01", "--crew", " , ", code=2).err == (
        "crew: there is nobody to do the work; name at least one person\n"
    )


def test_every_option_at_fault_is_told(run):
    err = run(
        "--start",
        "1.12.2026",
        "--crew",
        "Ada, Ben: paintng",
        "--days",
        "mon-fry",
        "--off",
        "Ede=2026-12-24",
        "--off",
        "2026-12-24",
        "--closed",
        "2026-12-24..soon",
        code=2,
    ).err
    assert err.splitlines() == [
        "--start: '1.12.2026' is not a day; write it as 2026-12-01",
        "--days: 'fry' is not a day of the week; write mon, tue, wed, thu, fri, sat, sun, as in mon-fri or mon,tue,thu",
        "--closed: 'soon' is not a day; write it as 2026-12-01",
        "--off: '2026-12-24' names nobody; write it as Ada=2026-12-24..2027-01-06",
        "--crew: there is no trade 'paintng'; did you mean painting?",
        "--off: 'Ede' is not in the crew; name somebody of --crew",
        "6 faults to put right; nothing was written.",
    ]


def test_a_wanted_day_before_the_start(run):
    err = run("--start", "2026-12-01", "--crew", "Ada", "--by", "2026-11-30", code=2).err
    assert err == (
        "job 'Stair at the chapel cottage': it is to end on 2026-11-30, before it begins on 2026-12-01; choose a later day\n"
    )


def test_other_commands_do_not_wait_for_the_solver(folder):
    asked = "import rodbook.cli, sys; print([m for m in ('ortools', 'holidays', 'pandas') if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True, timeout=120)
    assert done.stdout == "[]\n"


FACTS = """
[dates]
tasks = [{ name = "read openings once more", done = 2026-11-27 }]
orders = [
  { supplier = "Quarry Lane Workshop", ordered = 2026-11-27, promised = 2026-12-11 },
  { supplier = "the merchant", ordered = 2026-11-27, came = 2026-11-30 },
]

"""


def _begun(folder, facts):
    text = sample_text("stair")
    at = text.index("[[openings]]")
    (folder / "begun.toml").write_text(text[:at] + facts + text[at:], "utf-8")


def test_what_is_done_and_ordered_is_taken_as_it_is(rodbook, monkeypatch, folder):
    monkeypatch.chdir(folder)
    _begun(folder, FACTS)
    out = " ".join(rodbook("dates", "begun.toml", "--start", "2026-12-01").out.split())
    assert "Done: Fri 27 Nov read openings once more; Fri 27 Nov order hinges and fittings;" in out
    assert "Quarry Lane Workshop ordered Fri 27 Nov Fri 11 Dec promised Fri 11 Dec" in out
    assert "the merchant" not in out.partition("Done: ")[2].partition("order by planned")[2].partition("hand-over")[0]


def test_facts_that_can_not_be(rodbook, monkeypatch, folder):
    monkeypatch.chdir(folder)
    _begun(folder, FACTS.replace("came = 2026-11-30", "came = 2026-11-20"))
    said = rodbook("dates", "begun.toml", "--start", "2026-12-01", code=2).err
    assert "dates.orders[2].came: 2026-11-20 is before it was ordered, 2026-11-27; put one of the two right" in said
    _begun(folder, FACTS.replace("done = 2026-11-27", "done = 2026-11-28"))
    said = rodbook("dates", "begun.toml", "--start", "2026-12-01", code=2).err
    assert "it was done on 2026-11-27, before 'read openings once more', which comes first, on 2026-11-28" in said
    _begun(folder, FACTS)
    assert "is still to come on 2026-11-27" in rodbook("dates", "begun.toml", "--start", "2026-11-27", code=2).err
