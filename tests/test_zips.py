"""No two lists are walked side by side without being of one length: what is left over at the end is never dropped unseen.

Ruff asks for `strict=` in every `zip`; here it has to be `strict=True`. Where lengths differ by right, `itertools.pairwise` or a
slice says by how much.
"""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
SOURCES = [
    path for folder in ("src", "tests", "scripts", "benchmarks") for path in sorted((ROOT / folder).rglob("*.py"))
]


def loose(text):
    """Lines of a source with a `zip` that is not strict."""
    return [
        node.lineno
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id == "zip"
        and not any(
            word.arg == "strict" and isinstance(word.value, ast.Constant) and word.value.value is True
            for word in node.keywords
        )
    ]


def test_a_loose_one_is_seen():
    assert loose("zip(a, b, strict=True)\nzip(a, b, strict=False)\nzip(a, b)\nzip(a, b, strict=maybe)\n") == [2, 3, 4]


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: str(path.relative_to(ROOT)))
def test_every_zip_is_strict(path):
    assert loose(path.read_text("utf-8")) == []
