"""What is loaded when it is first asked for, so that a command loads no more than it uses: faces of packages, and libraries.

A face imports its names under `if TYPE_CHECKING:`, for checkers and editors; where each name lives at run time is read
from those same lines, so that it is said once. `late_face(__name__)` is the last line of the package.
"""

from __future__ import annotations

import sys
from importlib import import_module
from importlib.util import find_spec
from types import ModuleType
from typing import Any

__all__ = ["late_face", "late_library", "where_names_live"]


class _Face(ModuleType):
    """A package that knows where its names live."""

    __all__: list[str]

    def __getattr__(self, name: str) -> object:
        """Load a name; only asked where the package has none of that name yet."""
        if name.startswith("__"):  # what Python itself looks for
            raise AttributeError(name)
        known = vars(self).setdefault("_where_names_live", {})
        if not known:
            known.update(where_names_live(self.__name__))
        if name not in known:
            raise AttributeError(f"{self.__name__} has no {name!r}; it has {', '.join(self.__all__)}")
        module, there = known[name]
        result: object = getattr(import_module(module), there)
        vars(self)[name] = result
        return result

    def __setattr__(self, name: str, value: Any) -> None:
        """Keep a module from hiding a name of the face that is called as it is; it is found by its own full name."""
        if name in self.__all__ and isinstance(value, ModuleType) and value.__name__ == f"{self.__name__}.{name}":
            return
        super().__setattr__(name, value)

    def __dir__(self) -> list[str]:
        return sorted(self.__all__)


def late_face(package: str) -> None:
    """Let a package load each of its names when it is first asked for.

    Parameters
    ----------
    package : str
        Its `__name__`; its `__all__` names what it has, imports under `if TYPE_CHECKING:` say where.
    """
    sys.modules[package].__class__ = _Face


class _Library:
    """A library that is loaded when something in it is asked for."""

    def __init__(self, name: str) -> None:
        self._library_name = name

    def __getattr__(self, name: str) -> Any:
        return getattr(import_module(self._library_name), name)


def late_library(name: str) -> Any:
    """Stand for a library that takes long to load, where most who load the module never need it.

    Parameters
    ----------
    name : str
        As it is imported.

    Examples
    --------
    >>> late_library("colorsys").rgb_to_hsv(1.0, 1.0, 1.0)
    (0.0, 0.0, 1.0)
    """
    return _Library(name)


def where_names_live(package: str) -> dict[str, tuple[str, str]]:
    """Read a face's own text: its names, each with the module that it lives in and what it is called there.

    Raises
    ------
    ImportError
        If the package's text is not there to be read.

    Examples
    --------
    >>> where_names_live("rodbook")["plan_job"]
    ('rodbook.plan', 'make_plan')
    """
    import ast  # loaded here: most commands' help asks no face for anything

    spec = find_spec(package)
    source = getattr(spec and spec.loader, "get_source", lambda _: None)(package)
    if source is None:
        raise ImportError(f"{package} is there without its text; its names are read from that")
    results: dict[str, tuple[str, str]] = {}
    for block in ast.parse(source).body:
        if isinstance(block, ast.If) and isinstance(block.test, ast.Name) and block.test.id == "TYPE_CHECKING":
            for line in block.body:
                if isinstance(line, ast.ImportFrom) and line.module:
                    results |= {alias.asname or alias.name: (line.module, alias.name) for alias in line.names}
    return results
