"""How it is said that a paper rests on figures that nobody has confirmed: each of them as a row, and the line on the paper."""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.job.confirming import Figure, FigureKind
from rodbook.money.rates.names import Counted, counted_in, per_what
from rodbook.papers.numbers import Numbers

__all__ = ["figure_rows", "figures_in_words", "paper_line"]


def _value(figure: Figure, write: Numbers) -> str:
    if figure.value is None:
        return ""
    if counted_in(figure.unit) == Counted.CURRENCY:
        return f"{write.rate(figure.value)} per {per_what(figure.unit)}"
    if figure.unit:
        return f"{write.short(float(figure.value))} {figure.unit.replace('/', ' per ', 1)}"
    return write.rate(figure.value)


_WHAT = {
    FigureKind.FIRM: "the firm’s name and address",
    FigureKind.WORKSHOP: "the workshop and what it charges",
    FigureKind.TAX: "the tax",
    FigureKind.CREW: "who works",
    FigureKind.OFFCUT: "the offcut in the shop",
}


def figure_rows(figures: Sequence[Figure], write: Numbers) -> list[tuple[str, str, str, str, str]]:
    """Each figure's place, what it is, its value, since when it holds, and where it comes from."""
    return [
        (
            figure.path,
            f"{_WHAT[figure.kind]}: {figure.name}" if figure.kind in _WHAT else figure.name,
            _value(figure, write),
            "" if figure.since is None else write.date(figure.since),
            figure.source,
        )
        for figure in figures
    ]


def figures_in_words(figures: Sequence[Figure]) -> str:
    """How many there are.

    >>> figures_in_words([Figure("firm", FigureKind.FIRM, "A")])
    '1 figure'
    """
    return f"{len(figures)} figure{'s' if len(figures) != 1 else ''}"


def paper_line(figures: Sequence[Figure]) -> str:
    """The line on a paper that leaves the firm; it tells nobody outside which figures they are."""
    if not figures:
        return ""
    others = [figure for figure in figures if figure.kind is not FigureKind.FIRM]
    invented = "The firm’s name is a sample’s. " if len(others) < len(figures) else ""
    rests = f"It rests on {figures_in_words(others)} that nobody has confirmed. " if others else ""
    return f"Not to be relied on yet. {invented}{rests}".strip()
