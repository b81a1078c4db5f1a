"""Codes and parameters become sentences.

A sentence of the catalogue puts parameters in by name. Beside Python's own forms it knows:

- ``{name!r}``: a text between quotation marks, any other value as a file has it;
- ``{typed!q}``: the same, and "nothing" where nothing was typed;
- ``{name:.60}``: no more than 60 characters of a text, with or without quotation marks;
- ``{width_mm:mm}``: a length as the trade reads it, 842.0; ``{width_mm:tenths}``: 842 or 842.5;
  ``{share:percent}``, ``{share:percent.1}``: 36.8%;
- several values with commas, or with a word of `_JOINTS` between: ``{names:and}``, ``{found:semi}``, ``{widths_mm:g/or}``;
- a message within the sentence as what it says, a place as it is named, and nothing where there is none.
"""

from __future__ import annotations

import gettext
import string
from collections.abc import Callable, Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import NamedTuple, cast

from rodbook.wording.figures import number, percent
from rodbook.wording.texts import LONGEST_SENTENCE, LONGEST_VALUE, one_line, quoted

__all__ = ["LOCALE", "Many", "entry", "sentence"]

LOCALE = Path(__file__).parent / "locale"
"""Where catalogues of other languages stand: ``LANGUAGE/LC_MESSAGES/wording.mo``."""


STRICT = False
"""Whether a code without a sentence is an error, as it is in tests; else the code itself is said, as nobody is helped by less."""


class Many(NamedTuple):
    """A sentence that differs for one and for more.

    Parameters
    ----------
    one, many : str
    by : str
        The parameter that counts: a number, or several values.
    """

    one: str
    many: str
    by: str


class _Quoted(str):
    """A text that is put between quotation marks."""

    __slots__ = ()


class _Words(string.Formatter):
    """Puts parameters into a sentence: messages as sentences, several as a list, numbers by their form."""

    def __init__(self, language: str) -> None:
        self.language = language

    def format_field(self, value: object, format_spec: str) -> str:
        if value is None:
            return ""
        if hasattr(value, "in_language"):
            return str(value.in_language(self.language))
        if isinstance(value, tuple | list):
            form, _, joint = format_spec.partition("/") if format_spec not in _JOINTS else ("", "", format_spec)
            return _listed([self.format_field(one, form) for one in value], joint)
        if isinstance(value, bool):
            return "true" if value else "false"
        if type(value) in (str, _Quoted):
            most = int(format_spec[1:]) if format_spec else LONGEST_VALUE
            return (quoted if isinstance(value, _Quoted) else one_line)(cast("str", value), most)
        form, _, places = format_spec.partition(".")
        if not form and places.isdigit():
            return one_line(str(value), int(places))
        if form in _FORMS:
            return _FORMS[form](value, places)
        return one_line(format(value, format_spec), LONGEST_VALUE)

    def convert_field(self, value: object, conversion: str | None) -> object:
        if conversion and isinstance(value, tuple | list):
            return tuple(self.convert_field(one, conversion) for one in value)
        if conversion == "q" and not str(value):
            return sentence("value.nothing", {}, self.language)
        if conversion in ("q", "r"):
            return _Quoted(value) if isinstance(value, str) else repr(value) if type(value) in (int, float) else value
        return super().convert_field(value, conversion)


def _length(value: object, _places: str) -> str:
    return number(float(cast("float", value)))


def _percent(value: object, places: str) -> str:
    return percent(cast("float", value), int(places) if places else None)


def _tenths(value: object, _places: str) -> str:
    return f"{float(cast('float', value)):.1f}".removesuffix(".0")


_FORMS: Mapping[str, Callable[[object, str], str]] = {"mm": _length, "tenths": _tenths, "percent": _percent}

_JOINTS = {
    "": ", ",
    "and_last": ", ",
    "none": "",
    "waits": " waits for ",
    "and": " and ",
    "or": " or ",
    "semi": "; ",
    "semi_or": "; or ",
    "plus": " + ",
    "before": " before ",
    "waits_for": " waits for ",
}


def _listed(items: Iterable[str], form: str) -> str:
    """Several, as the sentence wants them: with commas, with one of the words of `_JOINTS` between, or "and" before the last."""
    listed = list(items)
    if form == "and_last" and len(listed) > 1:
        return f"{', '.join(listed[:-1])} and {listed[-1]}"
    return _JOINTS[form].join(listed)


@cache
def _catalogue() -> Mapping[str, str | Many]:
    from rodbook.wording import catalogue

    return catalogue.sentences()


@cache
def _translation(language: str, locale: Path) -> gettext.NullTranslations:
    return gettext.translation("wording", locale, [language] if language else [], fallback=True)


def entry(code: str) -> str | Many:
    """What stands in the catalogue for a code.

    Raises
    ------
    KeyError
        If there is none.
    """
    return _catalogue()[code]


def sentence(code: str, parameters: Mapping[str, object], language: str = "") -> str:
    """Say something, on one line.

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
    if code not in _catalogue() and not STRICT:
        return one_line(
            f"{code} ({', '.join(f'{name}: {value}' for name, value in parameters.items())})", LONGEST_SENTENCE
        )
    answer = entry(code)
    text = _translated(_translation(language, LOCALE), answer, parameters)
    return one_line(_Words(language).vformat(text, (), parameters), LONGEST_SENTENCE)


def _translated(words: gettext.NullTranslations, text: str | Many, parameters: Mapping[str, object]) -> str:
    if isinstance(text, str):
        return words.gettext(text)
    return words.ngettext(text.one, text.many, _number(parameters[text.by]))


def _number(counted: object) -> int:
    """How many a parameter means."""
    if isinstance(counted, tuple | list):
        return len(counted)
    return counted if isinstance(counted, int) else 2
