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
    _without_linear_algebra()
    try:
        return cast("F", njit(cache=True, nogil=True)(function))
    except RuntimeError:  # nowhere to keep it
        return cast("F", njit(nogil=True)(function))


def _without_linear_algebra() -> None:
    """Keep the compiler from loading a library of linear algebra, a third of a second, that no loop here calls."""
    from numba.np import linalg

    def ensure_blas() -> None:
        raise ImportError("loops here do no linear algebra")

    if hasattr(linalg, "ensure_blas"):
        linalg.ensure_blas = ensure_blas
