"""Parts of a job that other jobs may cut from their waste: which there are, and how they stand on the book's list. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from rodbook.desk.platform.book_edits import Raw
from rodbook.errors import Fault, InputError
from rodbook.job.models import JobHeader, Making
from rodbook.papers.common.shared import writer
from rodbook.plan import Plan

__all__ = ["PartForOthers", "parts_for_others", "pieces_of_parts"]


@dataclass(frozen=True)
class PartForOthers:
    """A part that is made on site from a board: its mark, what it is, how many, and what it is cut to. [mm]"""

    mark: str
    kind: str
    number: int
    board: str
    length: float
    width: float
    size: str
    listed: int


def parts_for_others(plan: Plan) -> tuple[PartForOthers, ...]:
    """Parts of boards that are made on site, with how many of them stand on the list already.

    Parameters
    ----------
    plan : Plan
        With who makes what.
    """
    write = writer(plan)
    listed = {piece.label: piece.number for board in plan.book.boards for piece in board.wanted}
    return tuple(
        PartForOthers(
            line.mark,
            line.part.kind.value,
            line.quantity,
            line.part.stock,
            line.part.cut_length,
            line.part.cut_width,
            write.short_size(line.part.cut_length, line.part.cut_width),
            listed.get(_label(line.mark, plan.job.job), 0),
        )
        for line in plan.lines_made(Making.SITE)
        if not line.part.sectional
    )


def _label(mark: str, header: JobHeader) -> str:
    """What is written on such a part: its mark, and the job by its number or, for want of one, its name."""
    return f"{mark} of {header.number or header.name}"[:80].rstrip()


def pieces_of_parts(
    parts: Sequence[PartForOthers], typed: Mapping[str, str], header: JobHeader, *, since: Date, document: Raw
) -> list[tuple[int, dict[str, str]]]:
    """What goes on the list for the numbers typed: the number of a board, and the fields of a piece.

    Parameters
    ----------
    parts : sequence of PartForOthers
    typed : mapping of str to str
        How many of each mark; nothing for none.
    header : JobHeader
        Of the job that the parts are of.
    since : date
    document : dict
        The book.

    Raises
    ------
    InputError
        With every number that is none, or if there is none at all.
    """
    boards = [str(board["name"]) for board in document["boards"]]  # type: ignore[index,union-attr,call-overload]
    results: list[tuple[int, dict[str, str]]] = []
    faults: list[Fault] = []
    for part in parts:
        number = typed.get(part.mark, "") or "0"
        if not (number.isascii() and number.isdecimal() and len(number) < 5 and int(number) <= part.number):
            faults.append(Fault(f"number-{part.mark}", "form.not_how_many", typed=number[:20], most=part.number))
        elif int(number):
            piece = {
                "label": _label(part.mark, header),
                "length": f"{part.length:.6g}",
                "width": f"{part.width:.6g}",
                "number": str(int(number)),
                "purpose": header.name,
                "since": since.isoformat(),
            }
            results.append((boards.index(part.board) + 1, piece))
    if faults:
        raise InputError(faults)
    if not results:
        raise InputError.at("", "form.no_number")
    return results
