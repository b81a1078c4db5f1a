"""What no single field can tell: readings against each other, and names against the book."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator

from rodbook.errors import Fault
from rodbook.job.book import Book, InsetBuildUp, LayOnBuildUp, standing_on
from rodbook.job.faults import nearest
from rodbook.job.models import Job, Opening

__all__ = ["PART_KINDS", "SPREAD_MM", "check_book", "check_job", "check_opening"]

SPREAD_MM = 60.0
"""Three readings of one opening that differ by more are taken for a slip (house assumption)."""

LEAN_MM = 120.0
"""A side that leans by more than this over its height is taken for a misread diagonal (house assumption)."""

PART_KINDS = (
    "door", "lining leg", "lining head", "lining sill", "hinge lining", "division", "trim leg", "trim head", "panel",
)  # fmt: skip
"""The kinds of part there are, in the order in which they are listed."""


def _twisted(value: float, others: Iterable[float]) -> str:
    """A transposed reading: the digits of `value` in another order come close to the others."""
    digits = f"{value:.0f}"
    near = sum(others) / len(tuple(others)) if others else 0
    for i in range(len(digits) - 1):
        swapped = digits[:i] + digits[i + 1] + digits[i] + digits[i + 2 :]
        if abs(float(swapped) - near) <= SPREAD_MM / 3:
            return f"; did you mean {float(swapped):g}?"
    return ""


def _outlier(values: tuple[float, ...]) -> tuple[float, tuple[float, ...]]:
    """The value furthest from the middle one, and the others."""
    middle = sorted(values)[len(values) // 2]
    odd = max(values, key=lambda value: abs(value - middle))
    rest = list(values)
    rest.remove(odd)
    return odd, tuple(rest)


def _spread(where: str, values: tuple[float, ...], advice: str) -> Iterator[Fault]:
    spread = max(values) - min(values)
    if spread > SPREAD_MM:
        odd, rest = _outlier(values)
        listed = ", ".join(f"{v:g}" for v in values)
        yield Fault(
            where, f"{listed} differ by {spread:g} mm, more than {SPREAD_MM:g}; read {odd:g} again{advice}"
            f"{_twisted(odd, rest)}"
        )  # fmt: skip


def _diagonal_faults(opening: Opening, where: str) -> Iterator[Fault]:
    if opening.widths is None or opening.heights is None or opening.diagonals is None:
        return
    foot, _, head = opening.widths
    left, _, right = opening.heights
    for value, width, height, end in (
        (opening.diagonals[0], head, right, "foot left to head right"),
        (opening.diagonals[1], foot, left, "foot right to head left"),
    ):
        if value <= height or abs(math.sqrt(value**2 - height**2) - width) > LEAN_MM:
            fair = math.hypot(width, height)
            yield Fault(
                f"{where}.diagonals",
                f"{value:g} mm from {end} does not go with the widths and heights; about {fair:.0f} would be right",
            )


def _standing_faults(opening: Opening, where: str) -> Iterator[Fault]:
    for name in ("widths", "heights"):
        if getattr(opening, name) is None:
            yield Fault(f"{where}.{name}", f"an opening that stands needs three {name}; measure them or mark it planned")
    for name in ("leaf", "clear"):
        if getattr(opening, name) is not None:
            yield Fault(f"{where}.{name}", "a wanted size belongs to a planned opening; this one is standing")
    if opening.widths:
        yield from _spread(f"{where}.widths", opening.widths, "")
    if opening.heights and opening.head == "level":
        yield from _spread(f"{where}.heights", opening.heights, ", or mark the head raked")
    if opening.head == "level":
        yield from _diagonal_faults(opening, where)


def check_opening(opening: Opening, where: str) -> Iterator[Fault]:
    """Faults inside one opening that no single field can tell.

    Parameters
    ----------
    opening : Opening
        As read.
    where : str
        Its place, such as ``openings[3]``.
    """
    where = f"{where}"
    if opening.state == "standing":
        yield from _standing_faults(opening, where)
        return
    if (opening.leaf is None) == (opening.clear is None):
        yield Fault(where, "a planned opening needs the wanted size once: either leaf or clear, as [width, height]")
    for name in ("widths", "heights", "diagonals"):
        if getattr(opening, name) is not None:
            yield Fault(f"{where}.{name}", "a planned opening has no readings yet; leave them out or mark it standing")


def _duplicates(marks: Iterable[tuple[str, str]], what: str) -> Iterator[Fault]:
    first: dict[str, str] = {}
    for mark, where in marks:
        if mark.casefold() in first:
            yield Fault(where, f"{mark!r} is already the {what} of {first[mark.casefold()]}; each needs its own")
        else:
            first[mark.casefold()] = where


def _unknown(where: str, what: str, name: str, known: Iterable[str]) -> Iterator[Fault]:
    choices = list(known)
    if name not in choices:
        yield Fault(where, f"the book has no {what} {name!r}{nearest(name, choices)}")


def _book_names(job: Job, book: Book) -> Iterator[Fault]:
    build_ups = [b.name for b in book.build_ups]
    yield from _unknown("job.build_up", "build-up", job.job.build_up, build_ups)
    if job.job.workshop is not None:
        yield from _unknown("job.workshop", "workshop", job.job.workshop, [w.name for w in book.workshops])
    for number, opening in enumerate(job.openings, 1):
        where = f"openings[{number}]"
        if opening.build_up is not None:
            yield from _unknown(f"{where}.build_up ({opening.mark})", "build-up", opening.build_up, build_ups)
        name = job.build_up_of(opening)
        if name in build_ups and opening.depth is not None and opening.depth < book.build_up(name).lining_depth:
            yield Fault(
                f"{where}.depth ({opening.mark})",
                f"{opening.depth:g} mm is less than the lining's depth in {name!r}, "
                f"{book.build_up(name).lining_depth:g} mm; measure again or choose a shallower build-up",
            )
    for number, panel in enumerate(job.panels, 1):
        yield from _unknown(f"panels[{number}].board ({panel.mark})", "board", panel.board, [b.name for b in book.boards])
    for kind in job.making:
        if kind not in PART_KINDS:
            yield Fault(f"making.{kind}", f"there is no kind of part {kind!r}{nearest(kind, PART_KINDS)}")


def check_job(job: Job, book: Book | None) -> list[Fault]:
    """Every fault in a job that no single field can tell, against the book where one is given."""
    faults = [
        Fault(f"{fault.where} ({opening.mark})", fault.what)
        for number, opening in enumerate(job.openings, 1)
        for fault in check_opening(opening, f"openings[{number}]")
    ]
    marks = [(o.mark, f"openings[{n}]") for n, o in enumerate(job.openings, 1)]
    marks += [(p.mark, f"panels[{n}]") for n, p in enumerate(job.panels, 1)]
    faults += _duplicates(marks, "mark")
    if not job.openings and not job.panels:
        faults.append(Fault("openings", "the job has neither openings nor panels; add one, or import a list of them"))
    if book is not None:
        faults += _book_names(job, book)
        faults += _dated(job, book)
    return faults


def _dated(job: Job, book: Book) -> Iterator[Fault]:
    day = job.job.date
    for board in book.boards:
        for size in board.sheets:
            if standing_on(size.prices, day) is None:
                yield Fault(f"book, board {board.name!r}", f"{size.name!r} has no price that holds on {day}")
    for section in book.sections:
        for length in section.lengths:
            if standing_on(length.prices, day) is None:
                yield Fault(f"book, section {section.name!r}", f"{length.name!r} has no price that holds on {day}")


def _order(where: str, names: tuple[str, ...], values: tuple[float, ...]) -> Iterator[Fault]:
    if list(values) != sorted(values):
        shown = ", ".join(f"{n} {v:g}" for n, v in zip(names, values, strict=True))
        yield Fault(where, f"{shown} are out of order; least, wanted and most must not fall")


def _build_up_faults(build_up: InsetBuildUp | LayOnBuildUp, where: str, book: Book) -> Iterator[Fault]:
    boards = [b.name for b in book.boards]
    yield from _unknown(f"{where}.leaf_board", "board", build_up.leaf_board, boards)
    yield from _unknown(f"{where}.lining_board", "board", build_up.lining_board, boards)
    yield from _unknown(f"{where}.hinge", "hinge", build_up.hinge, [h.name for h in book.hinges])
    if build_up.trim is not None:
        yield from _unknown(f"{where}.trim", "section", build_up.trim, [s.name for s in book.sections])
    yield from _order(
        f"{where}.packer_least", ("least", "wanted", "most"),
        (build_up.packer_least, build_up.packer_wanted, build_up.packer_most),
    )  # fmt: skip
    yield from _order(
        f"{where}.head_packer_least", ("least", "wanted", "most"),
        (build_up.head_packer_least, build_up.head_packer_wanted, build_up.head_packer_most),
    )  # fmt: skip
    if (build_up.head_joint == "housed") != (build_up.housing > 0):
        yield Fault(f"{where}.housing", "a housed head needs a housing of more than 0 mm, and any other head none")
    if build_up.lining_board in boards and build_up.housing >= book.board(build_up.lining_board).thickness:
        yield Fault(f"{where}.housing", f"{build_up.housing:g} mm goes right through the lining")
    if isinstance(build_up, LayOnBuildUp):
        if build_up.trim is None:
            yield Fault(f"{where}.trim", "a leaf that lies on within trim needs the trim's section")
        if build_up.lining_board in boards and build_up.lap > book.board(build_up.lining_board).thickness:
            yield Fault(f"{where}.lap", f"{build_up.lap:g} mm is more than the thickness of the lining that it laps")
    for name in ("lining_depth", "hinge_lining_width"):
        value = getattr(build_up, name)
        hinge = next((h for h in book.hinges if h.name == build_up.hinge), None)
        if hinge and value is not None and value < hinge.plate_set_back + hinge.plate_diameter:
            yield Fault(f"{where}.{name}", f"{value:g} mm leaves no room for plate holes {hinge.plate_set_back:g} mm in")


def check_book(book: Book) -> list[Fault]:
    """Every fault in a book that no single field can tell."""
    faults: list[Fault] = []
    groups = (
        ("boards", book.boards), ("sections", book.sections), ("hinges", book.hinges),
        ("build_ups", book.build_ups), ("workshops", book.workshops),
    )  # fmt: skip
    for name, entries in groups:
        faults += _duplicates([(e.name, f"{name}[{n}]") for n, e in enumerate(entries, 1)], "name")
    for number, board in enumerate(book.boards, 1):
        where = f"boards[{number}] ({board.name})"
        if board.density_low > board.density_high:
            faults.append(Fault(where, "density_low is more than density_high; change them over"))
        labels = Counter(o.label for o in board.offcuts) + Counter(s.name for s in board.sheets)
        faults += [Fault(where, f"{label!r} names more than one sheet or offcut") for label, n in labels.items() if n > 1]
    for number, build_up in enumerate(book.build_ups, 1):
        faults += _build_up_faults(build_up, f"build_ups[{number}]", book)
    counts = [(c.height, c.mass, c.hinges) for c in book.hinge_counts]
    if counts != sorted(counts) or len({c[2] for c in counts}) != len(counts):
        faults.append(Fault("hinge_counts", "heights, masses and counts must all grow from row to row"))
    return faults
