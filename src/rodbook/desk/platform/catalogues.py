"""Texts of the desk in other languages: collecting what is marked, and making catalogues ready when the desk starts.

Babel does the work, so that no gettext tools are needed on the machine.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

__all__ = ["LOCALE", "TEMPLATE", "collected", "compile_into", "languages", "template_text", "update"]

HERE = Path(__file__).parent.parent
LOCALE = HERE / "locale"
TEMPLATE = LOCALE / "desk.pot"
"""Every text that is marked, in the order of the files."""

_NAMES = ("gettext", "gettext_lazy", "ngettext", "_", "lazy", "marked")
_ELSEWHERE = (HERE.parent / "papers" / "registry.py",)
"""What else has names that pages show."""
_WIDTH = 120


def _marked(path: Path) -> Iterator[tuple[str | tuple[str, ...], list[str]]]:
    """Every message of a file with the comments for translators."""
    if path.suffix in (".html", ".js"):
        from django.utils.translation.template import templatize

        source = templatize(path.read_text("utf-8"), origin=str(path))
        source = "\n".join(
            line.lstrip() for line in source.splitlines()
        )  # no Python: how far a line is in says nothing
    else:
        source = path.read_text("utf-8")
    keywords = {name: (1, 2) if name == "ngettext" else None for name in _NAMES}
    for _, message, comments, _ in extract("python", BytesIO(source.encode()), keywords, ["For translators:"]):
        yield message, comments


def collected() -> Catalog:
    """Collect every text of the desk that is marked, in pages and in code."""
    catalog = Catalog(project="Rodbook", charset="utf-8", fuzzy=False)
    files = [*_ELSEWHERE, *HERE.rglob("*.py"), *(HERE / "templates").rglob("*.html")]
    for path in sorted(files):
        place = path.relative_to(HERE.parent).as_posix().removeprefix("desk/")
        for message, comments in _marked(path):
            text = tuple(m for m in message if m) if isinstance(message, tuple) else message
            if text:
                flags = ["python-format"] if "%(" in str(text) else []
                catalog.add(text, locations=[(place, 0)], auto_comments=comments, flags=flags)
    return catalog


def template_text() -> str:
    """The catalogue without translations, as it is kept; nothing in it changes but texts and their files."""
    out = BytesIO()
    write_po(out, collected(), width=_WIDTH, omit_header=True, sort_output=False, include_lineno=False)
    head = "# Texts of the desk, collected by `make messages`. Translations stand beside it, one folder a language.\n"
    return head + 'msgid ""\nmsgstr "Content-Type: text/plain; charset=utf-8\\n"\n\n' + out.getvalue().decode()


def languages() -> list[str]:
    """Languages that there is a catalogue of."""
    return sorted(path.parent.parent.name for path in LOCALE.glob("*/LC_MESSAGES/django.po"))


def update() -> list[str]:
    """Write the template anew, and put what is new into the catalogue of every language; names of the files written."""
    TEMPLATE.write_text(template_text(), "utf-8")
    written = [TEMPLATE]
    fresh = collected()
    for path in sorted(LOCALE.glob("*/LC_MESSAGES/django.po")):
        with path.open("rb") as source:
            catalog = read_po(source, locale=path.parent.parent.name)
        catalog.update(fresh, no_fuzzy_matching=True)
        with path.open("wb") as out:
            write_po(out, catalog, width=_WIDTH, include_lineno=False, ignore_obsolete=True)
        written.append(path)
    return [path.relative_to(HERE).as_posix() for path in written]


def compile_into(folder: Path) -> None:
    """Compile the catalogue of every language into a folder that the desk may write to."""
    for name in languages():
        with (LOCALE / name / "LC_MESSAGES" / "django.po").open("rb") as source:
            catalog = read_po(source, locale=name)
        target = folder / name / "LC_MESSAGES" / "django.mo"
        target.parent.mkdir(parents=True, exist_ok=True)
        with target.open("wb") as out:
            write_mo(out, catalog)
