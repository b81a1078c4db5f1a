"""Openings out of tables of many kinds, and back."""

import datetime
import random
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import RodbookError, StoreError
from rodbook.job import Opening
from rodbook.job.faults import MOST_FAULTS
from rodbook.job.files import openings_from_rows, read_openings, write_openings_csv
from rodbook.job.files.columns import COLUMNS
from rodbook.job.files.separated import plain_text, rows_from_text, safe_text

HEADINGS = [
    "mark",
    "doors",
    "hinged on",
    "width 1",
    "width 2",
    "width 3",
    "height left",
    "height middle",
    "height right",
]
C1 = ["C1", "pair", "left", 842, 843, 843, 2030, 2030, 2031]


def opening(**fields):
    return Opening.model_validate(fields)


ONE = opening(mark="C1", leaves=2, widths=(842, 843, 843), heights=(2030, 2030, 2031))


def test_rows_become_openings():
    assert openings_from_rows([HEADINGS, C1]) == (ONE,)


def test_columns_may_stand_in_any_order():
    order = list(range(len(HEADINGS)))
    random.Random(3).shuffle(order)
    assert openings_from_rows([[HEADINGS[n] for n in order], [C1[n] for n in order]]) == (ONE,)


def test_a_title_above_and_blank_rows_between_are_passed_over():
    rows = [["Openings, first floor"], [], HEADINGS, [None] * 9, C1, ["", " "], ["C2", *C1[1:]]]
    assert [o.mark for o in openings_from_rows(rows)] == ["C1", "C2"]


@pytest.mark.parametrize(
    ("word", "leaves"),
    [("single", 1), ("Pair", 2), ("double", 2), ("three", 3), ("2", 2), (3, 3), (1.0, 1), ("", 1), (None, 1)],
)
def test_leaves_may_be_said_in_words(word, leaves):
    assert openings_from_rows([HEADINGS, ["C1", word, *C1[2:]]])[0].leaves == leaves


@pytest.mark.parametrize(
    ("word", "sill"),
    [
        ("yes", True),
        ("Y", True),
        ("x", True),
        ("with", True),
        (True, True),
        (1, True),
        ("no", False),
        ("-", False),
        ("without", False),
        (False, False),
        (0, False),
        ("", False),
    ],
)
def test_a_sill_may_be_said_in_words(word, sill):
    assert openings_from_rows([[*HEADINGS, "sill"], [*C1, word]])[0].sill is sill


def test_a_mark_that_a_spreadsheet_took_for_a_number_or_a_date_stays_text(told):
    """As text it is told that marks which begin with a figure are those of parts."""

    def mark(cell):
        (line,) = told(openings_from_rows, [HEADINGS, [cell, *C1[1:]]])
        assert "begins with a figure, as the marks of parts do" in line
        return re.match(r"row 2, mark \((.*?)\): ", line)[1]

    assert mark(12) == mark(12.0) == mark("12") == "12"
    assert mark(1.5) == "1.5"
    assert mark(datetime.date(2026, 3, 1)) == "2026-03-01"
    assert openings_from_rows([HEADINGS, [10**400, *C1[1:]]])[0].mark == "a number of very many digits"


def test_a_row_with_a_wanted_size_and_no_readings_is_planned():
    (planned,) = openings_from_rows([["mark", "leaf width", "leaf height"], ["W1", "44,7 cm", 2100]])
    assert planned == opening(mark="W1", state="planned", leaf=(447, 2100))


def test_standing_and_planned_may_share_a_table():
    rows = [[*HEADINGS, "leaf width", "leaf height"], [*C1, None, None], ["W1", 2, "", *[""] * 6, 447, 2100]]
    assert openings_from_rows(rows) == (ONE, opening(mark="W1", leaves=2, state="planned", leaf=(447, 2100)))


def test_each_bad_cell_is_told_with_its_row_column_and_mark(told):
    rows = [
        [*HEADINGS, "sill", "depth"],
        ["C1", "pair", "lft", 842, "84,2", 843, 2030, 2030, 2030, "maybe"],
        [],
        ["c1", "pair", "l", 842, None, 933, 2030, 2030, "2,030", "y", True, "x"],
        ["", "pair", "l", 842, 843, 933, 2030, 2030, 2031, "y", 120],
        ["C12", 5, "r", 842, 843, 933, 2030, 2030, 2031, "y", "12cm"],
        ["C5", 1, "r", 842, 843, 842, 2030, 2030, 2301, "y", datetime.date(2026, 1, 2)],
        ["C\n6", 1, "r", 842, 843, 842, 2030, 2030, 2031, "y", 10**400],
    ]
    assert told(openings_from_rows, rows) == [
        "row 2, hand (C1): 'lft' is not known here; did you mean left?",
        "row 2, sill (C1): 'maybe' is neither yes nor no",
        "row 2, width middle (C1): 84.2 mm is less than the smallest opening, 150 mm; did you mean 842?",
        (
            "row 4, column L: 'x' stands under no heading; head the column or empty the cell, "
            "and write decimals with a point where commas stand between cells"
        ),
        "row 4, width middle (c1): a length is missing here; write millimetres, as in 842 or 842.5",
        "row 4, height right (c1): '2,030' could be 2030 mm or 2.03 mm; write it without a mark for the thousands",
        "row 4, depth (c1): yes or no is not a length; write millimetres, as in 842 or 842.5",
        "row 4, mark (c1): 'c1' is already the mark of row 2; each needs its own",
        "row 5, mark: this is missing: its name on the plan and on every label, such as C3",
        "row 6, leaves (C12): '5' won't do; it has to be at most 4",
        "row 6, widths (C12): 842, 843, 933 differ by 91 mm, more than 60; read 933 again",
        "row 7, depth (C5): this is not a length; write millimetres, as in 842 or 842.5",
        (
            "row 7, heights (C5): 2030, 2030, 2301 differ by 271 mm, more than 60; read 2301 again, "
            "or mark the head raked; did you mean 2031?"
        ),
        "row 8, depth (C\\n6): this is no number at all; write millimetres, as in 842 or 842.5",
        "row 8, mark (C\\n6): this has to stand on one line; take the line break or tab out",
    ]


def test_headings_are_told_before_any_cell(told):
    assert told(openings_from_rows, [["name", "wdth 1", "width 1", "foot width", "zzz"], ["C1", 1, 2, 3, 4]]) == [
        "row 1, column B: there is no column 'wdth 1'; did you mean width 1?",
        "row 1, column D: 'width foot' is already column C; keep one of them",
        (
            "row 1, column E: there is no column 'zzz'; use one of: mark, room, state, leaves, hand, build-up, head, "
            "rows, end panels, sill, width foot, width middle …"
        ),
        (
            "row 1: the columns 'width middle' and 'width head' are missing; "
            "all of 'width foot', 'width middle' and 'width head' are needed, or none of them"
        ),
    ]


@pytest.mark.parametrize(
    ("rows", "line"),
    [
        ([], "the file: this table is empty; its first row holds the headings, such as mark and room"),
        ([[], ["", None]], "the file: this table is empty; its first row holds the headings, such as mark and room"),
        ([HEADINGS], "the file: this table has headings and no openings below them; add a row for each"),
        ([[*HEADINGS[1:]], C1[1:]], "row 1: there is no column 'mark'; each opening needs its name"),
        (
            [["mark", "room"], ["C1", "hall"]],
            (
                "row 1: there are no columns of sizes; give readings (width foot, width middle, width head, height left, "
                "height middle, height right), or the wanted leaf width and leaf height"
            ),
        ),
        (
            [["mark", "leaf width"], ["C1", 447]],
            (
                "row 1: the column 'leaf height' is missing; all of 'leaf width' and 'leaf height' are needed, "
                "or none of them"
            ),
        ),
        ([HEADINGS, *[C1] * 2001], "the file: 2001 rows stand here; at most 2000 are read from one table"),
        ([HEADINGS + ["x"] * 60, C1], "row 1: 69 columns stand here; at most 60 are read"),
    ],
)
def test_a_table_that_is_none_is_told(told, rows, line):
    assert told(openings_from_rows, rows) == [line]


def test_very_many_bad_rows_are_cut_short(told):
    found = told(openings_from_rows, [HEADINGS, *([f"C{n}", "many", "up", *C1[3:]] for n in range(1100))])
    assert len(found) == MOST_FAULTS + 1
    assert found[-1] == f"the file: {2200 - MOST_FAULTS} more faults are not listed; mend these first"


def test_as_many_faults_as_rows_are_all_named(told):
    found = told(openings_from_rows, [HEADINGS, *([f"C{n}", "many", *C1[2:]] for n in range(800))])
    assert [line.split(":")[0] for line in found] == [f"row {n + 2}, leaves (C{n})" for n in range(800)]


# --- separated text -------------------------------------------------------------------------------------------------


def csv(separator, *, point=".", quote=""):
    rows = [HEADINGS, ["C1", "pair", "left", 842.5, 843, 843, 2030, 2030, 2031]]
    cells = [[f"{quote}{str(cell).replace('.', point)}{quote}" for cell in row] for row in rows]
    return "".join(separator.join(row) + "\r\n" for row in cells)


@pytest.mark.parametrize(
    "text",
    [
        csv(","),
        csv(";"),
        csv("\t"),
        csv(";", point=","),
        csv("\t", point=","),
        csv(",", point=",", quote='"'),
        "sep=;\r\n" + csv(";", point=","),
        "\n\n" + csv(";"),
        csv(",").replace("\r\n", "\n"),
    ],
)
@pytest.mark.parametrize("front", [b"", b"\xef\xbb\xbf"], ids=["plain", "marked"])
@pytest.mark.parametrize("name", ["table.csv", "table.TXT"])
def test_whichever_sign_separates_the_cells(tmp_path, text, front, name):
    path = tmp_path / name
    path.write_bytes(front + text.encode())
    assert read_openings(path) == (ONE.model_copy(update={"widths": (842.5, 843.0, 843.0)}),)


def test_decimal_commas_between_commas_are_told(told, tmp_path):
    path = tmp_path / "table.csv"
    path.write_text("mark,leaf width,leaf height\nW1,447,5,2100\n", encoding="utf-8")
    assert told(read_openings, path)[0] == (
        "row 2, column D: '2100' stands under no heading; head the column or empty the cell, "
        "and write decimals with a point where commas stand between cells"
    )


def test_rows_have_the_numbers_that_a_spreadsheet_shows(told, tmp_path):
    path = tmp_path / "table.csv"
    path.write_text('sep=,\n\nmark,leaf width,leaf height,note\n\n"W1",447,2100,"two\nlines"\nW2,44,2100,\n', "utf-8")
    assert told(read_openings, path) == [
        "row 5, leaf width (W2): 44 mm is less than the smallest opening, 150 mm; did you mean 440?"
    ]


@pytest.mark.parametrize(
    ("data", "line"),
    [
        (
            b"mark;room\nC1;B\xfcro\n",
            (
                "line 2, column 5: a character here is not UTF-8; save the file again as UTF-8; "
                "in the old Western encoding it reads: C1;Büro"
            ),
        ),
        (
            "mark;room".encode("utf-16") + b"\0",
            "line 1, column 10: the UTF-16 text breaks off or is damaged here; save the file again as UTF-8",
        ),
        (
            b'mark;room\n"C1;2\n',
            "row 2: quotation marks do not match here, or a cell is far too long; a mark inside a cell is written twice",
        ),
        (b"", "the file: this table is empty; its first row holds the headings, such as mark and room"),
        (b"x" * 10_000_001, "the file: it is larger than 10 MB; no real one is, so it is not read"),
    ],
    ids=["latin", "utf-16", "quotes", "empty", "large"],
)
def test_text_that_is_no_table_is_told(told, tmp_path, data, line):
    path = tmp_path / "table.csv"
    path.write_bytes(data)
    assert told(read_openings, path) == [line]


def test_other_files_are_told_what_a_table_is(told, tmp_path):
    for name, said in [("table.pdf", "a .pdf file"), ("table", "neither")]:
        (tmp_path / name).write_text("x", encoding="utf-8")
        assert told(read_openings, tmp_path / name) == [
            f"the file: a table is a .csv or .xlsx file, and this is {said}; save it so"
        ]
    with pytest.raises(StoreError, match="there is no file"):
        read_openings(tmp_path / "none.csv")


# --- and back -------------------------------------------------------------------------------------------------------


@settings(max_examples=70, deadline=None)
@given(data=st.data())
@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_a_table_that_was_written_reads_back_equal(data, separator, some_openings):
    openings = data.draw(some_openings)
    text = write_openings_csv(openings, separator=separator)
    assert openings_from_rows(rows_from_text(text)) == openings


def test_the_samples_go_through_a_table_unchanged(tmp_path, store_job):
    path = tmp_path / "store.csv"
    path.write_text(write_openings_csv(store_job.openings), encoding="utf-8")
    assert read_openings(path) == store_job.openings


def test_a_table_of_nothing_has_the_headings_to_fill():
    assert write_openings_csv(()) == (
        "mark,room,leaves,hand,width foot,width middle,width head,height left,height middle,height right\n"
    )


def test_only_columns_that_say_something_are_written():
    planned = opening(mark="W1", state="planned", leaf=(447.5, 2100), sill=True)
    assert write_openings_csv([planned], separator=";") == (
        "mark;room;state;leaves;hand;sill;leaf width;leaf height\nW1;;planned;1;left;yes;447,5;2100\n"
    )


def test_lengths_are_written_so_that_none_looks_like_thousands():
    text = write_openings_csv([opening(mark="C1", **ONE.model_dump(include={"widths", "heights"}), depth=12.125)])
    assert text.splitlines()[1].endswith(",12.1250")
    assert openings_from_rows(rows_from_text(text))[0].depth == 12.125


def test_no_cell_is_taken_for_a_formula():
    nasty = opening(mark="=A1", room="@x", note='-2"', **ONE.model_dump(include={"widths", "heights"}))
    cells = rows_from_text(write_openings_csv([nasty]))[1]
    assert cells[:2] == ["'=A1", "'@x"]
    assert cells[-1] == "'-2\""
    assert not any(cell.startswith(tuple("=+-@")) for cell in cells)
    assert openings_from_rows(rows_from_text(write_openings_csv([nasty]))) == (nasty,)


@given(st.text())
def test_text_made_safe_begins_no_formula_and_comes_back(text):
    assert not safe_text(text).startswith(("=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20"))
    assert plain_text(safe_text(text)) == text


def test_only_signs_that_can_separate_do():
    with pytest.raises(ValueError, match=r"^'\|' can't stand between cells; use a comma, a semicolon or a tab$"):
        write_openings_csv([ONE], separator="|")


CELLS = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=8),
    st.dates(),
    st.just(10**5000),
    st.sampled_from(["842", "842,5", "yes", "left", "planned", "pair", "=1", "'", "C1", 842, 2030.5]),
)


@settings(max_examples=200, deadline=None)
@given(data=st.data())
def test_whatever_the_cells_hold_it_is_read_or_told(data, told):
    labels = st.sampled_from([column.label for column in COLUMNS]) | st.sampled_from(HEADINGS)
    good = data.draw(st.booleans())
    headings = HEADINGS if good else data.draw(st.lists(labels | CELLS, max_size=14))
    rows = data.draw(st.lists(st.lists(CELLS, max_size=15) | st.just(C1), max_size=4))
    try:
        found = openings_from_rows([headings, *rows])
    except RodbookError:
        told(openings_from_rows, [headings, *rows])
    else:
        assert all(isinstance(o, Opening) for o in found)


def test_columns_of_further_readings():
    rows = [
        [*HEADINGS, "plumb left", "right out of plumb", "level floor", "Head level", "bow right"],
        [*C1, 3, "-1,5", "", 0, None],
    ]
    (read,) = openings_from_rows(rows)
    assert read.readings == {"plumb-left": 3.0, "plumb-right": -1.5, "level-head": 0.0}
    again = openings_from_rows(rows_from_text(write_openings_csv([read])))
    assert again == (read,)


def test_a_further_reading_at_fault_names_row_and_column():
    with pytest.raises(RodbookError) as caught:
        openings_from_rows([[*HEADINGS, "plumb left", "bow head"], [*C1, 3, "crooked"], ["C2", *C1[1:], 300, 1]])
    assert [str(fault) for fault in caught.value.faults] == [
        "row 2, bow head (C1): 'crooked' is not a length; write millimetres, as in 842 or 842.5",
        "row 3, plumb left (C2): 300 mm is more than 120 mm, and no side leans so far; read it again",
    ]


def test_rows_of_a_front_stand_in_one_cell_and_come_back():
    said = [
        ["mark", "clear width", "clear height", "rows", "end panels"],
        ["A", 600, 800, "drawer 140, leaves", "right"],
    ]
    (opening,) = openings_from_rows(said)
    assert [(row.kind, row.height) for row in opening.rows] == [("drawer", 140), ("leaves", 0)]
    text = write_openings_csv([opening])
    assert '"drawer 140, leaves"' in text
    assert openings_from_rows(rows_from_text(text)) == (opening,)
