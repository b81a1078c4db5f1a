"""Write the table of codes in docs/errors.md from the catalogue of sentences."""

import string
import sys
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

from rodbook.wording import Many
from rodbook.wording.catalogue import sentences

PAGE = Path(__file__).parent.parent / "docs" / "errors.md"
BEGIN = "<!-- codes: written by scripts/error_codes.py -->\n"


def parameters_of(words: str | Many) -> tuple[str, ...]:
    """Names of the parameters that a sentence has, in their order."""
    texts = (words,) if isinstance(words, str) else (words.one, words.many)
    names = [name for text in texts for _, name, _, _ in string.Formatter().parse(text) if name]
    return tuple(dict.fromkeys([*names, *(() if isinstance(words, str) else (words.by,))]))


def _cell(text: str) -> str:
    return f"`{text.strip()}`".replace("|", "\\|") if text.strip() else ""


def table() -> str:
    """Every code by subject, with its sentence and its parameters."""
    subjects: dict[str, list[str]] = {}
    for code, answer in sorted(sentences().items()):
        text = answer if isinstance(answer, str) else f"{answer.one} / {answer.many}"
        names = ", ".join(f"`{name}`" for name in parameters_of(answer))
        subjects.setdefault(code.partition(".")[0], []).append(f"| `{code}` | {_cell(text)} | {names} |")
    return "\n".join(_written(subjects))


def _written(subjects: dict[str, list[str]]) -> Iterator[str]:
    for subject, rows in subjects.items():
        answer = (import_module(f"rodbook.wording.catalogue.{subject}").__doc__ or "").partition("\n")[0]
        yield f"### {subject}\n\n{answer}\n\n| code | sentence | parameters |\n| --- | --- | --- |"
        yield from rows
        yield ""


def page() -> str:
    """The page as it has to be: what stands above the codes, and the codes."""
    return PAGE.read_text("utf-8").partition(BEGIN)[0] + BEGIN + "\n" + table()


if __name__ == "__main__":
    PAGE.write_text(page(), "utf-8")
    sys.stdout.write("docs/errors.md\n")
