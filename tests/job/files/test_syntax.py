"""Text that is not well written, told in one sentence with its line."""

import math
import time

import pytest

from rodbook.job.files.syntax import MOST_BYTES, read_values
from rodbook.wording import one_line


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("a = 1\nb = left\n", 2, "this value can't be read; text stands in quotation marks, a number as in 842.5"),
        (
            "depth = 842,5\n",
            1,
            "something is left over after the value; decimals take a point, and each value its own line",
        ),
        ("a = [842 843]", 1, "a list is not closed; write it as in [842, 843, 843]"),
        ("a = 1\na = 2\nb = 3\n", 2, "this name already has a value; keep one of the two"),
        (
            "[a]\n[a]\n",
            2,
            "this heading stands here a second time; entries of a list are headed with [[two brackets]]",
        ),
        ("[[a]\nb = 1\n", 1, "this heading is not closed; write it as in [job] or [[openings]]"),
        ("a = {b = 1\nc = 2", 1, "a group is not closed; end it with }"),
        ("mark 'C1'\n", 1, 'there is no = between a name and its value; write it as in mark = "C1"'),
        ("a = 1\nmark = 'C1\nroom = 2", 2, "text is not closed; end it with a quotation mark"),
        ('a = """x\n"""\nmark = "C1\nroom = 2', 3, "text is not closed; end it with a quotation mark"),
        ("a = 1\nb = '''b\nc", 2, "text is not closed; end it with a quotation mark"),
        ('a = "x\\qy"\n', 1, "a backslash stands in text; write it twice, or use 'single' quotation marks"),
        ("date = 2026-02-30\n", 1, "there is no such date; write it as 2026-11-25"),
        ("= 5\n", 1, 'a line begins with a name, as in mark = "C1", or a heading, as in [[openings]]'),
        ("a.b = 1\na.b.c = 2\n", 2, "this name already has a value; keep one of the two"),
        ("a = {b = 1}\n[a]\nc = 2\n", 2, "this"),
        ("a = 'x\x00y'\n", 1, "a character that can't be printed stands here; take it out"),
        ("a = 1\nb = 1" + "0" * 5000, 2, "a number has too many digits"),
        ("a = '\ud800'", 1, "a character that no text can have stands here"),
        ("\n" + ".".join("a" * 20) + " = 1", 2, "a name of very many parts stands here; no name has dots in it"),
    ],
)
def test_one_sentence_with_the_line_and_what_it_reads(told, text, line, said):
    (found,) = told(read_values, text)
    sentence, reads = found.split("; it reads: ")
    assert sentence.startswith(f"line {line}: {said}")
    assert one_line(text.split("\n")[line - 1], 60) == reads


def test_what_is_wrong_at_the_very_end_says_so(told):
    assert told(read_values, "a = 1\nb = [1,\n") == [
        "line 2: the file ends here, and this value can't be read; text stands in quotation marks, a number as in 842.5"
    ]


@pytest.mark.parametrize("text", ["a = " + "[" * 5000, "a = " + "{a=" * 5000, "a = " + "[" * 40 + "]" * 40])
def test_lists_without_end_are_refused(told, text):
    assert told(read_values, text) == [
        "the file: lists or groups stand more than 16 deep one inside another; a job needs five"
    ]


def test_files_of_absurd_size_are_refused(told):
    assert told(read_values, "#" * (MOST_BYTES + 1)) == [
        "the file: it is larger than 5 MB; no real one is, so it is not read"
    ]


def test_what_is_made_to_take_very_long_is_refused_at_once(told):
    started = time.perf_counter()
    told(read_values, "# x\n" + ".".join(["a"] * 100_000) + " = 1\n")
    told(read_values, "'a'." * 100_000 + "b = 1\n")
    told(read_values, 'a = "' + '\\"' * 100_000)
    told(read_values, 'a = """' + '\\"""' * 100_000)
    told(read_values, "a = " + "'" * 100_000)
    assert time.perf_counter() - started < 6  # the reader of TOML would take minutes


def test_dots_in_text_and_comments_are_no_names():
    dots = "a." * 50 + "b"
    text = f"# {dots}\nx = \"{dots}\" # {dots}\ny = '''\n{dots} = 1\n'''\nz = 'it''s {dots}'".replace("''s", "s")
    assert read_values(text)["y"] == f"{dots} = 1\n"


def test_whole_numbers_of_any_size_can_be_handled():
    found = read_values(f"a = 0x{'f' * 9000}\nb = 12345678901234567890123\nc = [-0x1{'0' * 9000}]".replace("-0x", "0x"))
    assert found == {"a": math.inf, "b": 12345678901234567890123.0, "c": [math.inf]}
    assert read_values(f"a = -{2**63 - 1}") == {"a": 1 - 2**63}
