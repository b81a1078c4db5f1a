"""Marks: what an opening, a panel or a part is called on paper, aloud and in pencil, so that no two can be mistaken.

A part's mark begins with its number, then says in one short word what it is, and which hand where that matters::

    3-leg-left        the third sort of lining leg, the left-hand one
    12-door

An opening's mark, or a panel's, begins with anything but a figure. So the first character tells them apart, whatever room
or kind they are of.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from rodbook.errors import Fault, Place

__all__ = ["begins_like_part", "mark_faults", "part_mark", "spoken"]


def part_mark(number: int, word: str, hand: str = "") -> str:
    """The mark of a part.

    Parameters
    ----------
    number : int
        Among the shapes of its kind, from 1.
    word : str
        What it is, in one word.
    hand : str
        "left" or "right"; empty where either way round is the same part.

    Examples
    --------
    >>> part_mark(3, "leg", "left"), part_mark(12, "door")
    ('3-leg-left', '12-door')
    """
    return "-".join(filter(None, (str(number), word, hand)))


def spoken(mark: str) -> str:
    """A mark as it sounds: neither capitals nor what stands between its words can be heard.

    >>> spoken("3-leg-left") == spoken("3 Leg LEFT"), spoken("C 1") == spoken("c1")
    (True, True)
    """
    return "".join(character for character in mark.casefold() if character.isalnum()) or mark.casefold()


def begins_like_part(mark: str) -> bool:
    """Whether a mark sounds from its first character on as a part's does.

    >>> [begins_like_part(mark) for mark in ("101", " 3b", "(2)", "C3", "K1", "²", "Ü1")]
    [True, True, True, False, False, True, False]
    """
    return spoken(mark)[:1].isnumeric()


def mark_faults(marked: Iterable[tuple[Place | str, str]]) -> Iterator[Fault]:
    """Marks of openings and panels that could be taken for a part's, or for each other's.

    Parameters
    ----------
    marked : iterable of (Place, str)
        A place in the job, and the mark that stands in it.
    """
    first: dict[str, tuple[Place, str]] = {}
    for place, mark in marked:
        where = Place.of(place)
        at, sound = (where / "mark").marked(mark), spoken(mark)
        if sound in first:
            of, taken = first[sound]
            if taken.casefold() == mark.casefold():
                yield Fault(at, "mark.taken", mark=mark, of=of)
            else:
                yield Fault(at, "mark.sounds_alike", mark=mark, other=taken, of=of)
        else:
            first[sound] = where, mark
        if begins_like_part(mark):
            like = part_mark(1, "leg", "left")
            yield Fault(at, "mark.begins_with_figure", mark=mark, part_mark=like, rest=spoken(mark)[:12])
