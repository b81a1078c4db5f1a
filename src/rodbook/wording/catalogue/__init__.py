"""The sentences, by code: one module for each subject, whose name its codes begin with."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from pkgutil import iter_modules

from rodbook.wording.rendering import Many

__all__ = ["sentences"]


def sentences() -> Mapping[str, str | Many]:
    """All of them.

    Raises
    ------
    ValueError
        If a code stands twice, or in another subject's module.
    """
    results: dict[str, str | Many] = {}
    for module in iter_modules(__path__):
        for code, answer in import_module(f"{__name__}.{module.name}").SENTENCES.items():
            if code in results or not code.startswith(f"{module.name}."):
                raise ValueError(f"the code {code!r} stands twice, or in the wrong module")
            results[code] = answer
    return results
