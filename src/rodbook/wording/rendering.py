"""Codes and parameters become sentences."""

from __future__ import annotations

import gettext
import string
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import NamedTuple

__all__ = ["LOCALE", "Many", "entry", "sentence"]

LOCALE = Path(__file__).parent / "locale"
"""Where catalogues of other languages stand."""


class Many(NamedTuple):
    """A sentence that differs for one and for more.

    Parameters
    ----------
    one, many : str
    by : str
        The parameter that counts.
    """

    one: str
    many: str
    by: str


class _Words(string.Formatter):
    """Puts parameters into a sentence: messages as sentences, several as a list, numbers by their form."""

    def __init__(self, language: str) -> None:
        self.language = language

    def format_field(self, value: object, format_spec: str) -> str:
        if value is None:
            return ""
        if hasattr(value, "code") and hasattr(value, "parameters"):
            return sentence(value.code, value.parameters, self.language)
        if isinstance(value, tuple | list):
            return _listed([self.format_field(one, "") for one in value], format_spec)
        return str(format(value, format_spec))

    def convert_field(self, value: object, conversion: str | None) -> object:
        if conversion and isinstance(value, tuple | list):
            return tuple(super(_Words, self).convert_field(one, conversion) for one in value)
        return super().convert_field(value, conversion)


_JOINTS = {"": ", ", "and": " and ", "semi": "; ", "plus": " + "}


def _listed(items: Iterable[str], form: str) -> str:
    """Several, as the sentence wants them: with commas, or with one of the words of `_JOINTS` between."""
    return _JOINTS[form].join(items)


@cache
def _catalogue() -> Mapping[str, str | Many]:
    from rodbook.wording import catalogue

    return catalogue.sentences()


@cache
def _translation(language: str) -> gettext.NullTranslations:
    return gettext.translation("wording", LOCALE, [language] if language else [], fallback=True)


def entry(code: str) -> str | Many:
    """What stands in the catalogue for a code.

    Raises
    ------
    KeyError
        If there is none.
    """
    return _catalogue()[code]


def sentence(code: str, parameters: Mapping[str, object], language: str = "") -> str:
    """Say something.

    Parameters
    ----------
    code : str
        As the catalogue has it.
    parameters : mapping of str to object
    language : str
        English where nothing is given, or where there is no translation.

    Examples
    --------
    >>> sentence("sizes.none_serve", {"number": 0})
    '0 sizes serve no opening; write one or more'
    """
    said = entry(code)
    words = _translation(language)
    if isinstance(said, Many):
        count = parameters[said.by]
        text = words.ngettext(said.one, said.many, count if isinstance(count, int) else 2)
    else:
        text = words.gettext(said)
    return _Words(language).vformat(text, (), parameters)
