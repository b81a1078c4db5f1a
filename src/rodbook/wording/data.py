"""What is said as plain values that JSON can hold, beside the sentence."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from typing import Any

__all__ = ["said_as_data"]

type Plain = bool | int | float | str | list[Plain] | dict[str, Plain] | None


def said_as_data(answer: Any) -> dict[str, Plain]:
    """Code, parameters and sentence of a message; of a fault or a note its place and weight too.

    Parameters
    ----------
    answer : Message

    Examples
    --------
    >>> from rodbook.errors import Fault
    >>> said_as_data(Fault("number", "form.not_whole"))["path"]
    ['number']
    """
    results: dict[str, Plain] = {
        "code": answer.code,
        "parameters": {name: _plain(value) for name, value in answer.given},
        "sentence": answer.sentence,
    }
    if hasattr(answer, "at"):
        results |= {
            "where": answer.where,
            "path": list(answer.at.path),
            "mark": answer.at.mark,
            "severity": answer.severity.value,
        }
    return results


def _plain(value: object) -> Plain:
    if isinstance(value, Enum):
        return _plain(value.value)
    if value is None or isinstance(value, bool | int | float | str):
        return value
    if isinstance(value, Mapping):
        return {str(key): _plain(entry) for key, entry in value.items()}
    if isinstance(value, tuple | list | set | frozenset):
        return [_plain(entry) for entry in value]
    return said_as_data(value) if hasattr(value, "given") else str(value)
