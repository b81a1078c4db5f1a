"""The examples in the documentation give what stands there."""

import doctest
from pathlib import Path


def test_dates_page() -> None:
    page = Path(__file__).parents[2] / "docs" / "dates.md"
    failed, tried = doctest.testfile(str(page), module_relative=False, encoding="utf-8")
    assert tried > 2
    assert failed == 0
