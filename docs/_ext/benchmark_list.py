"""The table of what `benchmarks/` measures, from each script's own first sentence, so that it is written once."""

from __future__ import annotations

import ast
from pathlib import Path
from typing import Any

from docutils import nodes
from docutils.parsers.rst import Directive

__all__ = ["scripts", "setup"]

FOLDER = Path(__file__).parents[2] / "benchmarks"


def scripts() -> list[tuple[str, str]]:
    """Name and first sentence of every script that can be run."""
    texts = {path: path.read_text("utf-8") for path in sorted(FOLDER.glob("*.py"))}
    said = {path: ast.get_docstring(ast.parse(text)) or "" for path, text in texts.items() if "__main__" in text}
    return [(path.name, text.splitlines()[0].split(" ``")[0]) for path, text in said.items()]


class _Listed(Directive):
    def run(self) -> list[nodes.Node]:
        rows = [("script", "what it measures"), *scripts()]
        group = nodes.tgroup(cols=2)
        group += [nodes.colspec(colwidth=1), nodes.colspec(colwidth=2)]
        for part, lines in ((nodes.thead(), rows[:1]), (nodes.tbody(), rows[1:])):
            for name, text in lines:
                first = nodes.literal(text=name) if part.tagname == "tbody" else nodes.inline(text=name)
                cells = (first, nodes.inline(text=text))
                part += nodes.row("", *(nodes.entry("", nodes.paragraph("", "", cell)) for cell in cells))
            group += part
        return [nodes.table("", group)]


def setup(app: Any) -> dict[str, object]:
    """Give Sphinx the directive `benchmark-list`."""
    app.add_directive("benchmark-list", _Listed)
    return {"version": "1", "parallel_read_safe": True, "parallel_write_safe": True}
