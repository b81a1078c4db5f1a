"""Jobs and books read, and everything that is wrong with them told in one go."""

import os

import pytest

from rodbook.errors import InputError, StoreError
from rodbook.job.faults import MOST_FAULTS
from rodbook.job.files import parse_book, parse_job, read_book, read_job, sample_book_text, sample_names, sample_text

MANY_FAULTS = """
format = 1
[job]
name = ""
date = 20261125
build_up = "inset, paintd"
workshp = "x"

[making]
dor = "cheaper"
door = "site"

[[openings]]
mark = "C1"
hand = "lft"
widths = [842, 84.2, 843]
heights = [2030, 2030, 2300]

[[openings]]
mark = "c1"
leaves = true
widths = ["842,5", 933, 840]
heights = [2030, 2030]

[[openings]]
mark = "W1"
state = "planned"
depth = -3

[[openings]]
mark = "C2"
build_up = "lay on"
widths = [842, 842, 842]
heights = [2030, 2030, 2030]
depth = 100
diagonals = [1000, 2200]

[[panels]]
mark = "W1"
board = "18 mm MDFF"
length = 505
width = 420
quantity = 0
"""


def test_one_document_with_many_faults_tells_them_all_in_its_order(told, book):
    assert told(parse_job, MANY_FAULTS, book) == [
        "job.name: this is empty; write a name",
        "job.date: 20261125 is not a date; write it as 2026-11-25",
        "job.build_up: the book has no build-up 'inset, paintd'; did you mean inset, painted?",
        "job.workshp: there is no 'workshp' here; did you mean workshop?",
        "making.dor: there is no kind of part 'dor'; did you mean door?",
        "making.door: 'site' is not known here; did you mean site-made?",
        "openings[1].hand (C1): 'lft' is not known here; did you mean left?",
        "openings[1].widths (C1): 84.2 mm is less than the smallest opening, 150 mm; did you mean 842?",
        (
            "openings[1].heights (C1): 2030, 2030, 2300 differ by 270 mm, more than 60; read 2300 again, "
            "or mark the head raked; did you mean 2030?"
        ),
        "openings[2].mark (c1): 'c1' is already the mark of openings[1]; each needs its own",
        "openings[2].leaves (c1): true is not a number",
        "openings[2].widths (c1): 842.5, 933, 840 differ by 93 mm, more than 60; read 933 again",
        "openings[2].heights (c1): 2 values stand here; 3 are needed",
        "openings[3] (W1): a planned opening needs the wanted size once: either leaf or clear, as [width, height]",
        "openings[3].depth (W1): -3 won't do; it has to be more than 0",
        (
            "openings[4].build_up (C2): the book has no build-up 'lay on'; "
            "use one of: inset, painted, lay-on within trim, painted, lay-on without trim, run of cupboards, "
            "base cupboards, lay-on, wall cupboards, lay-on"
        ),
        (
            "openings[4].diagonals (C2): 1000 mm from foot left to head right does not go with the widths and heights; "
            "about 2198 would be right"
        ),
        "panels[1].mark (W1): 'W1' is already the mark of openings[3]; each needs its own",
        "panels[1].board (W1): the book has no board '18 mm MDFF'; did you mean 18 mm MDF?",
        "panels[1].quantity (W1): 0 won't do; it has to be at least 1",
    ]


def test_a_missing_format_is_told_along_with_the_rest(told):
    assert told(parse_job, "[job]\nname = 'x'\nbuild_up = 'y'\ndate = 2026-01-01\n[[openings]]\nmark = 5\n") == [
        "format: this is missing; add the line format = 1 above the first heading",
        "openings[1].mark: 5 is not text; put it in quotation marks",
    ]


def test_a_newer_format_is_all_that_is_told(told):
    assert told(parse_job, "format = 2\nwhatever = true") == [
        "format: this file was written by a newer Rodbook (format 2; this one reads up to 1)"
    ]


def test_a_job_is_not_taken_for_a_book_nor_a_book_for_a_job(told):
    assert told(parse_job, sample_book_text()) == [
        "the file: this is a book, and a job is needed here; name the job's own file"
    ]
    assert told(parse_book, sample_text("stair")) == [
        "the file: this is a job, and the book is needed here; name the book's own file"
    ]


def test_the_document_s_name_goes_before_every_place(told):
    text = sample_text("stair").replace('hand = "left"', 'hand = "up"')
    assert told(parse_job, text, where="stair.toml")[:2] == [
        "stair.toml, openings[1].hand (S1): 'up' is not known here; use one of: left, right",
        "stair.toml, openings[2].hand (S2): 'up' is not known here; use one of: left, right",
    ]
    assert told(parse_book, "x", where="book.toml")[0].startswith("book.toml, line 1: ")


def test_a_fault_s_place_and_sentence_can_be_taken_apart(book):
    with pytest.raises(InputError) as caught:
        parse_job(sample_text("stair").replace("[610, 611, 609]", "[610, 61.1, 609]"), book)
    (fault,) = caught.value.faults
    assert fault.where == "openings[1].widths (S1)"
    assert fault.what == "61.1 mm is less than the smallest opening, 150 mm; did you mean 611?"


def test_very_many_faults_are_cut_short(told):
    text = "format = 1\n" + "".join(f"x{i} = 1\n" for i in range(MOST_FAULTS + 100))
    found = told(parse_job, text)
    assert len(found) == MOST_FAULTS + 1
    assert found[-1] == "the file: 101 more faults are not listed; mend these first"


def test_a_book_tells_its_faults_in_one_go_too(told):
    text = (
        sample_book_text()
        .replace('currency = "EUR"', 'currency = "EUX"')
        .replace('leaf_board = "22 mm MDF"', 'leaf_board = "22 MDF"', 1)
        .replace("kerf = 3.2", 'kerf = "thin"')
        .replace("density_low = 650", "density_low = 6500")
        .replace('amount = "96.00"', 'amount = "96,00"')
        .replace("lead_days = 12", "lead_days = true")
    )
    assert told(parse_book, text) == [
        "currency: no currency has the code 'EUX'; write its three letters, as in EUR",
        "saw.kerf: 'thin' is not a length; write millimetres, as in 842 or 842.5",
        "boards[3].density_low (18 mm birch plywood): 6500 won't do; it has to be at most 2000",
        (
            "boards[3].sheets[1].prices[1].amount (18 mm birch plywood 2440 x 1220): '96,00' is not an amount of money; "
            "write it as 46.50"
        ),
        "build_ups[1].leaf_board (inset, painted): the book has no board '22 MDF'; did you mean 22 mm MDF?",
        "workshops[1].lead_days (Quarry Lane Workshop): true is not a number",
    ]


# --- files ----------------------------------------------------------------------------------------------------------


def test_files_are_read_with_and_without_the_mark_in_front(tmp_path, book):
    for name in sample_names():
        path = tmp_path / f"{name}.toml"
        path.write_bytes(b"\xef\xbb\xbf" + sample_text(name).encode())
        assert read_job(path, book) == read_job(str(path)) == parse_job(sample_text(name))
    (tmp_path / "book.toml").write_text(sample_book_text(), encoding="utf-8")
    assert read_book(tmp_path / "book.toml") == book


@pytest.mark.parametrize(
    ("data", "line"),
    [
        (
            b"format = 1\nx = '\xe9'",
            (
                "line 2, column 6: a character here is not UTF-8; save the file again as UTF-8; "
                "in the old Western encoding it reads: x = 'é'"
            ),
        ),
        (
            "format = 1\n".encode("utf-16-le"),
            "line 1, column 2: no text has this character (NUL); the file is in another encoding, so save it again as UTF-8",
        ),
        (b"#" * 5_000_001, "the file: it is larger than 5 MB; no real one is, so it is not read"),
        (b"", "format: this is missing; add the line format = 1 above the first heading"),
    ],
    ids=["latin", "utf-16", "large", "empty"],
)
def test_files_that_hold_something_else_are_told(told, tmp_path, data, line):
    path = tmp_path / "job.toml"
    path.write_bytes(data)
    assert told(read_job, path)[0] == line


def test_files_that_can_t_be_read_are_told(tmp_path):
    for path, said in [
        (tmp_path / "none.toml", "' ; check its name and folder".replace(" ;", ";")),
        (tmp_path, "is not a file; name the file itself"),
        ("job\0.toml", "'job\\x00.toml' can't be read: its name is not one that a file can have"),
        ("x" * 3000, "can't be read: "),
    ]:
        for read in (read_job, read_book):
            with pytest.raises(StoreError) as caught:
                read(path)
            assert said in str(caught.value)
            assert str(caught.value).isprintable()


def test_a_file_that_is_kept_from_us_is_told(tmp_path, monkeypatch):
    path = tmp_path / "job.toml"
    path.write_text(sample_text("stair"), encoding="utf-8")
    path.chmod(0)
    if os.access(path, os.R_OK):  # whoever may read everything is refused by hand

        def refuse(*_args, **_kwargs):
            raise PermissionError

        monkeypatch.setattr("pathlib.Path.open", refuse)
    with pytest.raises(StoreError, match=r"may not be read; its permissions keep you out$"):
        read_job(path)
