"""What commands print is whole, and its figures are written as the book writes them."""

import pytest
from click.testing import CliRunner
from tests.said import gaps_in, points_in

from rodbook.cli import rodbook
from rodbook.job.files import sample_book_text, sample_text


@pytest.fixture(scope="module")
def job(tmp_path_factory):
    folder = tmp_path_factory.mktemp("de")
    (folder / "book.toml").write_text(sample_book_text().replace('locale = "en"', 'locale = "de"'), "utf-8")
    (folder / "job.toml").write_text(sample_text("stair"), "utf-8")
    return folder / "job.toml"


NAMES = ("70 x 22 trim, 4.4 m", "70 x 22 trim, 2.4 m", "58 x 18 trim, 3.9 m", "job.toml", "book.toml")


@pytest.mark.parametrize("command", [["plan", "--working"], ["price"], ["dates"], ["weeks"]])
def test_no_line_has_an_empty_place_or_a_point_for_a_comma(job, command):
    run = CliRunner().invoke(rodbook, [command[0], str(job), *command[1:]])
    assert run.exit_code == 0, run.output
    text = " ".join(run.output.split())
    assert [
        place for what, place in gaps_in(text) if what in ("a value of the program", "a field that was not filled")
    ] == []
    assert points_in(text, NAMES) == []


def test_days_of_weeks_are_read_as_the_book_writes_them(job):
    run = CliRunner().invoke(rodbook, ["weeks", str(job), "--days", "10,10,7.5"])
    assert "write them like 10; 10; 7,5" in str(run.exception)
    hire = CliRunner().invoke(rodbook, ["weeks", str(job), "--hire", "Dora: 5 at 1.260"])
    assert "'1.260' could be 1260 or 1,260" in str(hire.exception)
