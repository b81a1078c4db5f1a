"""The sample jobs and the sample book that come with Rodbook."""

from __future__ import annotations

from importlib import resources

from rodbook.errors import StoreError
from rodbook.job.faults import nearest, one_line

__all__ = ["sample_book_text", "sample_names", "sample_text"]

_BOOK = "book"
_SUFFIX = ".toml"


def _names() -> list[str]:
    found = resources.files("rodbook.job.samples").iterdir()
    return sorted(file.name.removesuffix(_SUFFIX) for file in found if file.name.endswith(_SUFFIX))


def sample_names() -> tuple[str, ...]:
    """Names of the sample jobs.

    >>> sample_names()
    ('converted-store', 'galley', 'stair', 'timber-house')
    """
    return tuple(name for name in _names() if name != _BOOK)


def sample_text(name: str) -> str:
    """The document of a sample job.

    Parameters
    ----------
    name : str
        One of `sample_names`.

    Raises
    ------
    StoreError
        If there is no sample of that name.
    """
    if name not in sample_names():
        raise StoreError(one_line(f"there is no sample {name!r}{nearest(name, sample_names())}"))
    return _text(name)


def sample_book_text() -> str:
    """The document of the sample book, which all sample jobs go with."""
    return _text(_BOOK)


def _text(name: str) -> str:
    return resources.files("rodbook.job.samples").joinpath(name + _SUFFIX).read_text(encoding="utf-8")
