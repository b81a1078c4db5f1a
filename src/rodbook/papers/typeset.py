"""Papers set in type: templates and pictures in, PDF or PNG out. Nothing a user typed ever becomes part of a template."""

from __future__ import annotations

import json
import re
import tempfile
from collections.abc import Iterable
from datetime import UTC, datetime
from datetime import date as Date  # noqa: N812
from functools import cache
from importlib.resources import as_file, files
from pathlib import Path
from typing import Literal

import typst

from rodbook.errors import RenderError
from rodbook.papers.common.shared import Sheetful
from rodbook.papers.drawing.lettering import FONT

__all__ = ["STANDARDS", "set_pdf", "set_png"]

STANDARDS: list[Literal["a-2a", "ua-1"]] = ["a-2a", "ua-1"]
"""PDF/A-2a, to be kept, and PDF/UA-1, to be read aloud; checked by the typesetter itself."""


@cache
def _fonts() -> typst.Fonts:
    """The package's own fonts, and those inside the typesetter for letters that they lack."""
    with as_file(files("rodbook.papers") / "fonts") as folder:
        return typst.Fonts(include_system_fonts=False, font_paths=[str(folder)])


_FRAME = Path(__file__).parent / "common" / "frame.typ"


def _sources(sheet: Sheetful) -> dict[str, bytes]:
    sources = {"frame.typ": _FRAME.read_bytes(), "main.typ": sheet.template.read_bytes()}
    sources["data.json"] = json.dumps(sheet.content, ensure_ascii=False, sort_keys=True).encode()
    sources |= {name: svg.encode() for name, svg in sheet.pictures.items()}
    return sources


def _refuse(warnings: Iterable[typst.TypstWarning]) -> None:
    lines = [warning.message for warning in warnings]
    if lines:
        raise RenderError("papers.not_typeset_cleanly", warnings=lines)


_NO_LETTER = re.compile(r'the text `"(.*)"` could not be displayed', re.DOTALL)


def _failed(sheet: Sheetful, error: typst.TypstError) -> RenderError:
    name = sheet.template.stem
    missing = _NO_LETTER.search(str(error.message))
    if missing:
        return RenderError("papers.letter_missing", name=name, font=FONT, missing=missing[1])
    return RenderError("papers.not_typeset", name=name, reason=error.message)


def set_pdf(sheet: Sheetful, *, day: Date) -> bytes:
    """Typeset one paper.

    Parameters
    ----------
    sheet : Sheetful
    day : date
        Stands as the time of making, so that the same plan gives the same bytes.

    Returns
    -------
    bytes
        A PDF.

    Raises
    ------
    RenderError
        If the typesetter refuses or warns.
    """
    stamp = datetime(day.year, day.month, day.day, tzinfo=UTC)
    with tempfile.TemporaryDirectory(prefix="rodbook-") as empty:
        try:
            # The stubs do not know that sources may come as a dict.
            pdf, warnings = typst.compile_with_warnings(  # type: ignore[call-overload]
                _sources(sheet), root=empty, font_paths=_fonts(), timestamp=stamp, pdf_standards=list(STANDARDS)
            )
        except typst.TypstError as error:
            raise _failed(sheet, error) from error
    _refuse(warnings)
    return bytes(pdf)


def set_png(sheet: Sheetful, *, ppi: float = 110.0) -> list[bytes]:
    """The pages of one paper as pictures.

    Parameters
    ----------
    sheet : Sheetful
    ppi : float
        Points to the inch.

    Raises
    ------
    RenderError
        If the typesetter refuses or warns.
    """
    with tempfile.TemporaryDirectory(prefix="rodbook-") as empty:
        try:
            pages, warnings = typst.compile_with_warnings(  # type: ignore[call-overload]
                _sources(sheet), root=empty, font_paths=_fonts(), format="png", ppi=ppi
            )
        except typst.TypstError as error:
            raise _failed(sheet, error) from error
    _refuse(warnings)
    return [pages] if isinstance(pages, bytes) else [bytes(page) for page in pages]
