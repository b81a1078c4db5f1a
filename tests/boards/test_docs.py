"""The example in docs/boards.md prints what it says."""

import doctest
from pathlib import Path


def test_the_example_of_the_docs():
    page = Path(__file__).parents[2] / "docs" / "boards.md"
    failed, tried = doctest.testfile(str(page), module_relative=False, encoding="utf-8")
    assert tried == 4
    assert failed == 0
