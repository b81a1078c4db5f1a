"""The one door to the compiler: kept on disk where that is possible, and plain Python where there is no compiler."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, cast

__all__ = ["compiled"]


def compiled[F: Callable[..., Any]](function: F) -> F:
    """Compile a function of numbers and arrays; what is compiled is kept beside the code or in the user's cache."""
    try:
        from numba import njit
    except ImportError:  # the same results, slowly
        return function
    try:
        return cast("F", njit(cache=True, nogil=True)(function))
    except RuntimeError:  # nowhere to keep it
        return cast("F", njit(nogil=True)(function))
