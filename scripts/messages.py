"""Collect every marked text of the desk, and every sentence about faults and notes, into their catalogues."""

import sys
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from rodbook.wording.catalogue import sentences
from rodbook.wording.rendering import LOCALE

TEMPLATE = LOCALE / "wording.pot"
_WIDTH = 120


def wording() -> Catalog:
    """Every sentence of the catalogue, with its code for whoever translates it."""
    catalog = Catalog(project="Rodbook", charset="utf-8", fuzzy=False)
    for code, answer in sorted(sentences().items()):
        text = answer if isinstance(answer, str) else (answer.one, answer.many)
        place = f"catalogue/{code.partition('.')[0]}.py"
        catalog.add(text, locations=[(place, 0)], auto_comments=[code], flags=["python-brace-format"])
    return catalog


def wording_text() -> str:
    """The catalogue of sentences without translations, as it is kept."""
    out = BytesIO()
    write_po(out, wording(), width=_WIDTH, omit_header=True, sort_output=False, include_lineno=False)
    head = "# Sentences about faults and notes, collected by `make messages`. Translations stand beside it.\n"
    return head + 'msgid ""\nmsgstr "Content-Type: text/plain; charset=utf-8\\n"\n\n' + out.getvalue().decode()


def update_wording() -> list[Path]:
    """Write the template anew, put what is new into every translation, and compile those; the files written."""
    LOCALE.mkdir(exist_ok=True)
    TEMPLATE.write_text(wording_text(), "utf-8")
    written = [TEMPLATE]
    for path in sorted(LOCALE.glob("*/LC_MESSAGES/wording.po")):
        with path.open("rb") as source:
            catalog = read_po(source, locale=path.parent.parent.name)
        catalog.update(wording(), no_fuzzy_matching=True)
        with path.open("wb") as out:
            write_po(out, catalog, width=_WIDTH, include_lineno=False, ignore_obsolete=True)
        with path.with_suffix(".mo").open("wb") as out:
            write_mo(out, catalog)
        written += [path, path.with_suffix(".mo")]
    return written


if __name__ == "__main__":
    import django
    from django.conf import settings

    from rodbook.desk.platform import catalogues

    settings.configure(USE_I18N=True)
    django.setup()
    for name in catalogues.update():
        sys.stdout.write(f"src/rodbook/desk/{name}\n")
    for path in update_wording():
        sys.stdout.write(f"src/rodbook/wording/{path.relative_to(LOCALE.parent).as_posix()}\n")
