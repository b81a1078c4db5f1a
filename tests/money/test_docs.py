"""The examples in docs/money.md print what they say."""

from __future__ import annotations

import doctest
from pathlib import Path


def test_the_examples_of_the_docs() -> None:
    page = Path(__file__).parents[2] / "docs" / "money.md"
    failed, tried = doctest.testfile(str(page), module_relative=False, encoding="utf-8")
    assert tried > 60
    assert failed == 0
