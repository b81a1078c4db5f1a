"""The examples in docs/hinges.md print what they say."""

import doctest
from pathlib import Path


def test_the_examples_of_the_docs():
    page = Path(__file__).parents[2] / "docs" / "hinges.md"
    failed, tried = doctest.testfile(str(page), module_relative=False, encoding="utf-8")
    assert tried > 20
    assert failed == 0
