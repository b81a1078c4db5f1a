"""Like parts brought together: the parts schedule, each distinct part with its mark, quantity and openings."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from rodbook.job.kinds import PartKind
from rodbook.job.marks import part_mark
from rodbook.setout.model import Part
from rodbook.working import number

__all__ = ["ScheduleLine", "marks_in", "piece_key", "schedule"]


@dataclass(frozen=True)
class ScheduleLine:
    """One distinct part.

    Parameters
    ----------
    mark : str
        Number, kind and hand, as written on the part: ``1-door-left``.
    part : Part
        With the working of the first opening that takes it.
    quantity : int
    openings : tuple of (str, int)
        Openings that take it, and how many each.
    """

    mark: str
    part: Part
    quantity: int
    openings: tuple[tuple[str, int], ...]


def _shape_key(part: Part) -> tuple[object, ...]:
    """What makes two parts the same but for their hand."""
    return (*_made_of(part), part.joint_sizes, _cut_off(part), *_worked(part))


def _made_of(part: Part) -> tuple[object, ...]:
    return (
        part.kind,
        part.stock,
        number(part.length.value),
        number(part.width.value),
        number(part.thickness.value),
        part.edges,
        part.finish,
        part.coats,
        part.joints,
    )


def _worked(part: Part) -> tuple[object, ...]:
    bores = tuple(sorted((b.kind, number(b.y.value), b.diameter, str(b.depth)) for b in part.borings))
    return (bores, _either_way(part), _edging(part), _notched(part))


def _order(part: Part) -> str:
    """What puts parts of one size in an order that stays from one plan to the next."""
    return str((*_made_of(part), part.ends, *_worked(part)))


def _cut_off(part: Part) -> tuple[tuple[str, str, str, str], ...]:
    """How its ends are cut, whichever way round what lies is turned."""
    return tuple(
        (cut.end if cut.end in ("top", "foot") else "end", f"{cut.degrees.value:.1f}", cut.through, cut.long_point)
        for cut in part.cuts
    )


def _notched(part: Part) -> tuple[str, ...]:
    """What is cut out of its foot."""
    return (number(part.notch.deep.value), number(part.notch.high.value)) if part.notch else ()


def _edging(part: Part) -> tuple[str, ...]:
    """What is done to its edges, and what it is cut to."""
    work = part.edge_work
    text = (work.way, str(work.thickness or ""), str(work.taken_off)) if work else ()
    return (*text, number(part.cut_length), number(part.cut_width))


def _either_way(part: Part) -> tuple[tuple[str, str], ...]:
    """Its outline, the same for both hands."""
    mirrored = ((part.width.value - x, y) for x, y in part.outline)
    ways = [sorted((number(round(x, 3)), number(round(y, 3))) for x, y in way) for way in (part.outline, mirrored)]
    return tuple(min(ways))


def _full_key(part: Part) -> tuple[object, ...]:
    bores = tuple((b.kind, number(b.x.value), number(b.y.value), b.diameter, str(b.depth)) for b in part.borings)
    outline = tuple((number(round(x, 3)), number(round(y, 3))) for x, y in part.outline)
    return (_shape_key(part), part.hand, bores, outline, part.ends)


def piece_key(part: Part) -> tuple[object, ...]:
    """What makes two parts the same piece, however their sizes were worked out; for parts of different plans."""
    return _full_key(part)


def schedule(placed: Iterable[tuple[str, Part, int]]) -> tuple[ScheduleLine, ...]:
    """Bring like parts together.

    Parameters
    ----------
    placed : iterable of (str, Part, int)
        Mark of the opening or panel, the part, and how many of it.

    Returns
    -------
    tuple of ScheduleLine
        By kind, then the largest first; left before right. Marks number the shapes of a kind: two hands of one shape share
        the number.
    """
    takers: dict[tuple[object, ...], dict[str, int]] = defaultdict(lambda: defaultdict(int))
    first: dict[tuple[object, ...], Part] = {}
    keys: dict[int, tuple[object, ...]] = {}  # openings of one size share their parts
    for opening, part, quantity in list(placed):
        key = keys[id(part)] = keys.get(id(part)) or _full_key(part)
        first.setdefault(key, part)
        takers[key][opening] += quantity
    kinds = list(PartKind)
    ordered = sorted(
        first.items(),
        key=lambda item: (
            kinds.index(item[1].kind),
            -item[1].length.value,
            -item[1].width.value,
            item[1].stock,
            _order(item[1]),
            item[1].hand,
        ),
    )
    numbers: dict[tuple[object, ...], list[int]] = defaultdict(list)
    counts: dict[PartKind, int] = defaultdict(int)
    taken: set[str] = set()
    lines: list[ScheduleLine] = []
    for key, part in ordered:
        shape, word = numbers[_shape_key(part)], part.kind.facts.mark
        marks = (mark for number in shape if (mark := part_mark(number, word, part.hand)) not in taken)
        mark = next(marks, "")
        if not mark:  # another shape, or one that differs in more than its hand
            counts[part.kind] += 1
            shape.append(counts[part.kind])
            mark = part_mark(counts[part.kind], word, part.hand)
        taken.add(mark)
        openings = tuple(takers[key].items())
        lines.append(ScheduleLine(mark, part, sum(n for _, n in openings), openings))
    return tuple(lines)


def marks_in(lines: Iterable[ScheduleLine], opening: str) -> tuple[tuple[str, int], ...]:
    """Marks of the parts that go into an opening or panel, and how many of each; what `openings` says, the other way round."""
    return tuple((line.mark, n) for line in lines for mark, n in line.openings if mark == opening)
