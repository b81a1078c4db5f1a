"""Formulas of docstrings as MathML, which browsers show by themselves: no script, and nothing fetched."""

from __future__ import annotations

from typing import Any

from docutils import nodes
from latex2mathml.converter import convert

__all__ = ["setup"]


def _inline(self: Any, node: nodes.Element) -> None:
    self.body.append(convert(node.astext(), display="inline"))
    raise nodes.SkipNode


def _block(self: Any, node: nodes.Element) -> None:
    self.body.append(f'<div class="formula">{convert(node.astext(), display="block")}</div>')
    raise nodes.SkipNode


def setup(app: Any) -> dict[str, object]:
    """Give Sphinx the renderer under the name `mathml`."""
    app.add_html_math_renderer("mathml", (_inline, None), (_block, None))
    return {"version": "1", "parallel_read_safe": True, "parallel_write_safe": True}
