"""The sample jobs and the sample book that come with Rodbook."""

from __future__ import annotations

from importlib import resources
from typing import TYPE_CHECKING, Any

from rodbook.errors import StoreError
from rodbook.job.faults import nearest
from rodbook.job.files.documents import parse_book
from rodbook.job.files.writing import toml_item
from rodbook.late import late_library

if TYPE_CHECKING:
    import tomlkit
else:
    tomlkit = late_library("tomlkit")

__all__ = ["new_book_text", "sample_book_text", "sample_names", "sample_text"]

_BOOK = "book"
_SUFFIX = ".toml"


def _names() -> list[str]:
    result = resources.files("rodbook.job.samples").iterdir()
    return sorted(file.name.removesuffix(_SUFFIX) for file in result if file.name.endswith(_SUFFIX))


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
        raise StoreError("file.no_such_sample", name=name, hint=nearest(name, sample_names()))
    return _text(name)


def sample_book_text() -> str:
    """The document of the sample book, which all sample jobs go with."""
    return _text(_BOOK)


EXAMPLE_WORKSHOP = "example workshop"
"""What the sample's workshop is called in the book of a new firm."""


def new_book_text(
    firm: str, *, contact: str = "", person: str = "", currency: str = "", locale: str = "", holidays: str = ""
) -> str:
    """The document of a new firm's book: its own name, an empty shop, nothing wanted, and one person.

    Boards, hinges, build-ups, rates and prices are the sample's to begin with; each price, rate and charge is marked as not
    confirmed until somebody types one or says that it holds.

    Parameters
    ----------
    firm : str
        On every paper.
    contact : str
        Telephone or address for the papers.
    person : str
        Whoever works; the firm's name where it is left out.
    currency : str
        ISO 4217 code.
    locale : str
        How numbers and money are written, such as "de_AT".
    holidays : str
        Whose public holidays are kept, such as "AT"; none where left out.

    Raises
    ------
    InputError
        With everything that is wrong with them.
    """
    lines = _text(_BOOK).splitlines(keepends=True)[2:]
    document: Any = tomlkit.parse("".join(line for line in lines if not line.startswith("# wanted elsewhere")))
    document["firm"]["name"], document["firm"]["contact"] = firm, contact
    del document["firm"]["confirmed"]
    people = tomlkit.array()
    people.append(toml_item({"name": person or firm[:60]}))
    document["dates"]["crew"], document["dates"]["holidays"] = people, holidays
    document["currency"], document["locale"] = currency or document["currency"], locale or document["locale"]
    for board in document["boards"]:
        for shop in ("offcuts", "wanted"):
            if shop in board:
                del board[shop]
    for workshop in document["workshops"]:
        workshop["name"] = EXAMPLE_WORKSHOP
        del workshop["contact"]
    text = (
        "# The firm's book: its standing figures. Lengths in mm, money net of tax. What is marked confirmed = false is a\n"
        "# sample's: put your own in, or take the mark off where it holds.\n" + tomlkit.dumps(document)
    )
    parse_book(text)
    return text


def _text(name: str) -> str:
    return resources.files("rodbook.job.samples").joinpath(name + _SUFFIX).read_text(encoding="utf-8")
