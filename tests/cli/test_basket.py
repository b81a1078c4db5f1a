"""The firm's basket from the command line."""

import pytest

from rodbook.job.files import sample_book_text, sample_text

DEARER = """
[[workshops.rates]]
since = 2026-10-01
source = "test"
set_up = "9.90"
part = "2.20"
edge_m = "1.15"
boring = "0.55"
coat_m2 = "4.20"
delivery = "85.00"
board_m2 = { "22 mm MDF" = "25.50", "18 mm MDF" = "21.80" }
section_m = { "58 x 18 softwood trim" = "3.60" }
"""


@pytest.fixture
def run(rodbook, monkeypatch, tmp_path):
    book = sample_book_text()
    at = book.index("\n# --- taxes")
    (tmp_path / "book.toml").write_text(book[:at] + DEARER + book[at:], "utf-8")
    (tmp_path / "stair.toml").write_text(sample_text("stair"), "utf-8")
    monkeypatch.chdir(tmp_path)

    def _run(*arguments, code=0):
        done = rodbook("basket", *arguments, code=code)
        return " ".join((done.out + done.err).split())

    return _run


def test_the_index_its_working_and_a_paper(run, tmp_path):
    said = run("stair.toml", "stair.toml", "--until", "2026-12-01", "--pdf", "prices.pdf")
    assert "What 2 jobs take costs" in said
    assert "more than on 2 March 2026" in said
    assert "1 October 2026" in said
    assert "€9.00" in said
    assert "€9.90" in said
    assert (tmp_path / "prices.pdf").read_bytes().startswith(b"%PDF")
    assert "100.00" in run("stair.toml", "--until", "2026-12-01", "--base", "2026-11-01")


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (("--until", "soon"), "--until: 'soon' is not a day"),
        (("--base", "2026-13-01"), "--base: '2026-13-01' is not a day"),
        (("--base", "2027-01-01", "--until", "2026-12-01"), "is after the last day"),
        (("--until", "2019-01-01"), "nothing in the basket has a price on 2019-01-01"),
    ],
)
def test_days_that_can_not_be(run, arguments, sentence):
    assert sentence in run("stair.toml", *arguments, code=2)
