"""What commands print on: figures of sentences and tables as the firm's book writes them."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from typing import Any

from rich.console import Console, ConsoleOptions, RenderableType
from rich.segment import Segment
from rich.text import Text

from rodbook.job import Book
from rodbook.papers.numbers import Numbers

__all__ = ["paper_wide"]

WIDE = 110
"""Wide enough for the tables where the output goes into a file or another program."""


class _BookConsole(Console):
    """Puts the book's decimal sign into whatever is printed and was not written for a locale already."""

    def __init__(self, write: Numbers, **how: Any) -> None:
        super().__init__(**how)
        self._write = write

    def render_str(self, text: str, **how: Any) -> Text:
        return super().render_str(self._write.in_working(text), **how)

    def render(self, renderable: RenderableType, options: ConsoleOptions | None = None) -> Iterable[Segment]:
        if isinstance(renderable, Text):
            renderable = renderable.copy()
            renderable.plain = self._write.in_working(renderable.plain)
        return super().render(renderable, options)


def paper_wide(book: Book) -> Console:
    """A console that writes figures as a book does, wide enough where the output goes into a file or another program."""
    write = Numbers.of(book)
    return _BookConsole(write) if sys.stdout.isatty() else _BookConsole(write, width=WIDE)
