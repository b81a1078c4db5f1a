"""What somebody typed, so that it fits into a sentence: on one line, printable, and not longer than can be read."""

from __future__ import annotations

__all__ = ["LONGEST_PLACE", "LONGEST_SENTENCE", "LONGEST_VALUE", "one_line", "quoted"]

LONGEST_SENTENCE = 4000
"""Characters of a sentence about a fault or a note, however much it lists."""

LONGEST_PLACE = 200
"""Characters of what says where."""

LONGEST_VALUE = 300
"""Characters of a single text within a sentence, where the catalogue asks for no fewer."""


def one_line(text: str, most: int = 400) -> str:
    r"""Text that fits on one line and can be printed anywhere, however odd what it quotes.

    >>> one_line("door\nleft")
    'door\\nleft'
    """
    plain = text if text.isprintable() else "".join(c if c.isprintable() else ascii(c)[1:-1] for c in text)
    return plain if len(plain) <= most else plain[: most - 1] + "…"


def quoted(text: str, most: int = LONGEST_VALUE) -> str:
    r"""Text between marks, as a file has it.

    >>> print(quoted("C 1"), quoted("a\tb"), quoted("x" * 12, 5))
    'C 1' 'a\tb' 'xxxx…'
    """
    return repr(one_line(text, most)) if text.isprintable() else f"'{one_line(text, most)}'"
