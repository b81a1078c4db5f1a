"""Look for code that decides by words: by a sentence, a place or a name that is there to be read."""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

SRC = Path(__file__).parent.parent / "src" / "rodbook"

SHOWN = frozenset({"where", "what", "sentence"})
"""Of a fault, a note or a message: only to be shown. Data are `code`, `parameters`, `at.path`, `at.mark`, `severity`."""

SPOKEN = frozenset({"fault", "note", "message", "error", "remark", "clash", "suspect"})
"""What variables are called whose text is a sentence."""

OTHERS = frozenset({"reading", "r", "other", "line", "key", "hanging", "c", "state", "better"})
"""Whose `what` or `where` is no text to be read: readings, lines of invoices, baskets, leaves that hang, places in a search."""

NAMED = frozenset({"name", "label", "text", "title"})
"""What something is called: compared with an enumeration, not with a word. A `kind` is one already: the type checker knows which
words there are."""

SEARCHING = frozenset(
    {
        "startswith",
        "endswith",
        "removeprefix",
        "removesuffix",
        "partition",
        "rpartition",
        "split",
        "rsplit",
        "find",
        "index",
        "count",
        "replace",
    }
)

PATTERNS = frozenset({"match", "fullmatch", "search", "sub", "split", "findall", "finditer"})

_AGAIN = "a reading that was taken once more is named after the first, which its name has to give"

STAYS: dict[tuple[str, str], str] = {
    ("desk/openings/checked.py", "more.name.removesuffix(' again')"): _AGAIN,
    ("desk/openings/measuring.py", "place.name.removesuffix('-again')"): _AGAIN,
    ("desk/openings/checked.py", "results[readings_of(bare)[0].what]"): "what was read, which is the reading's own key",
    ("papers/pictures/swing.py", "obstacle.name.removeprefix('the ')"): "only how a name is shortened in a drawing",
}
"""What is found and stays, by module and expression, with the reason."""


class Found(NamedTuple):
    """One place where words decide."""

    module: str
    line: int
    expression: str

    def __str__(self) -> str:
        """As a compiler says it."""
        return f"{self.module}:{self.line}: {self.expression}"


def _shown(node: ast.expr) -> bool:
    """Whether this is text that is there to be shown."""
    if isinstance(node, ast.Attribute):
        return node.attr in SHOWN and not (isinstance(node.value, ast.Name) and node.value.id in OTHERS)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "str" and node.args:
        return isinstance(node.args[0], ast.Name) and node.args[0].id in SPOKEN
    if isinstance(node, ast.Subscript | ast.Starred):
        return _shown(node.value)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr not in PATTERNS:
        return _shown(node.func.value)
    return False


def _named(node: ast.expr) -> bool:
    return isinstance(node, ast.Attribute) and node.attr in NAMED and not _of_a_file(node.value)


def _of_a_file(node: ast.expr) -> bool:
    """Whether a name is that of a file, of the operating system or of a field of the language itself."""
    last = node.attr if isinstance(node, ast.Attribute) else node.id if isinstance(node, ast.Name) else ""
    return last in ("path", "file", "os", "info", "entry", "field", "f", "node", "upload")


def _word(node: ast.expr) -> bool:
    """Whether this is a word, or several."""
    if isinstance(node, ast.Tuple | ast.List | ast.Set):
        return any(map(_word, node.elts))
    return isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value != ""


def _decides(node: ast.AST) -> bool:
    if isinstance(node, ast.Compare):
        if all(isinstance(operator, ast.Is | ast.IsNot) for operator in node.ops):
            return False
        sides = [node.left, *node.comparators]
        return any(map(_shown, sides)) or (any(map(_named, sides)) and any(map(_word, sides)))
    if isinstance(node, ast.Subscript):
        return _shown(node.slice)
    if isinstance(node, ast.Dict):
        return any(key is not None and _shown(key) for key in node.keys)
    if isinstance(node, ast.DictComp):
        return _shown(node.key)
    if isinstance(node, ast.SetComp):
        return _shown(node.elt)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
        called, over = node.func.attr, node.func.value
        if called in SEARCHING and (_shown(over) or (_named(over) and called not in ("replace", "count", "split"))):
            return True
        if called in PATTERNS or called == "get":
            return any(map(_shown, node.args))
    return False


def found_in(text: str, module: str) -> Iterator[Found]:
    """Places of a module where words decide, each once.

    Parameters
    ----------
    text : str
        The source.
    module : str
        Its name.
    """
    inner: set[ast.AST] = set()
    for node in ast.walk(ast.parse(text)):
        if node not in inner and isinstance(node, ast.expr) and _decides(node):
            inner.update(ast.walk(node))
            yield Found(module, node.lineno, ast.unparse(node))


def lint(root: Path = SRC) -> tuple[list[Found], set[tuple[str, str]]]:
    """Everything that is found and does not stay; and what is listed to stay and is not there any more."""
    every = [
        result
        for path in sorted(root.rglob("*.py"))
        if "wording" not in path.relative_to(root).parts and "migrations" not in path.parts
        for result in found_in(path.read_text("utf-8"), str(path.relative_to(root)))
    ]
    known = {(one.module, one.expression) for one in every}
    return [one for one in every if (one.module, one.expression) not in STAYS], set(STAYS) - known


if __name__ == "__main__":
    left, gone = lint(Path(sys.argv[1]) if len(sys.argv) > 1 else SRC)
    for one in left:
        sys.stdout.write(f"{one}\n")
    for stays in () if len(sys.argv) > 1 else sorted(gone):
        sys.stdout.write(f"{stays}: listed to stay, and not there\n")
    sys.stdout.write(f"{len(left)} places where words decide\n")
    sys.exit(bool(left or (gone and len(sys.argv) == 1)))
