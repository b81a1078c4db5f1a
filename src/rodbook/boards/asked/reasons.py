"""Why a piece could not be had, in a sentence."""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.boards.asked.inputs import mm_text
from rodbook.boards.asked.task import cuts_needed
from rodbook.boards.models import Bar, Piece, Saw, Sheet, Stick, hundredths, millimetres, squared

__all__ = ["bars_ran_out", "no_bar_fits", "no_sheet_fits", "sheets_ran_out"]


def no_sheet_fits(piece: Piece, sheets: Sequence[Sheet], saw: Saw) -> str:
    """Name the nearest sheet and by how much the piece is too big for it, or what else is in the way."""
    if not sheets:
        return "No sheet was given."
    nearest = min(sheets, key=lambda sheet: min(map(sum, _excesses(piece, sheet, saw, turned=piece.may_turn))))
    length, width = _usable(nearest, saw)
    board = f"“{nearest.name}”"
    if min(length, width) <= 0:
        return f"It fits no sheet: the edge trim leaves nothing of {board}, the nearest."
    usable = f"{mm_text(millimetres(length))} × {mm_text(millimetres(width))} mm"
    too_long, too_wide = min(_excesses(piece, nearest, saw, turned=piece.may_turn), key=sum)
    if not too_long and not too_wide:
        turns = cuts_needed((hundredths(piece.length), hundredths(piece.width)), (length, width)) - 1
        return (
            f"It would fit on {board} ({usable} inside the trim), but to cut it out the cutting direction has to change"
            f" {'once' if turns == 1 else f'{turns} times'} and no more than {saw.max_turns or 0} is allowed."
        )
    excess = " and ".join(
        f"{mm_text(millimetres(by))} mm too {what}" for by, what in ((too_long, "long"), (too_wide, "wide")) if by
    )
    sentence = f"It fits no sheet: on the nearest, {board} ({usable} inside the trim), it is {excess}"
    if not piece.may_turn and any(
        excess == (0, 0) for sheet in sheets for excess in _excesses(piece, sheet, saw, turned=True)
    ):
        return f"{sentence}; turned a quarter it would fit, but it may not be turned."
    return f"{sentence}."


def sheets_ran_out(piece: Piece, sheets: Sequence[Sheet], saw: Saw) -> str:
    """Name the sheets that would have taken it and how many there were."""
    takers = [f"{sheet.quantity} of “{sheet.name}”" for sheet in sheets if _takes(piece, sheet, saw)]
    return f"The sheets ran out: {_listed(takers)} did not hold all the pieces."


def no_bar_fits(stick: Stick, bars: Sequence[Bar]) -> str:
    """Name the longest bar and by how much the stick is too long for it."""
    if not bars:
        return "No bar was given."
    longest = max(bars, key=_between_ends)
    by = mm_text(millimetres(hundredths(stick.length) - _between_ends(longest)))
    room = f"{mm_text(millimetres(_between_ends(longest)))} mm"
    if sum(squared(longest)):
        room += f" of {mm_text(longest.length)} once its ends are square"
    return f"It fits no bar: for the longest, “{longest.name}” ({room}), it is {by} mm too long."


def bars_ran_out(stick: Stick, bars: Sequence[Bar]) -> str:
    """Name the bars that would have taken it and how many there were."""
    takers = [f"{bar.quantity} of “{bar.name}”" for bar in bars if _between_ends(bar) >= hundredths(stick.length)]
    return f"The bars ran out: {_listed(takers)} did not hold all the pieces."


def _between_ends(bar: Bar) -> int:
    """What can be used of a bar. [hundredths of a mm]"""
    return max(0, hundredths(bar.length) - sum(squared(bar)))


def _takes(piece: Piece, sheet: Sheet, saw: Saw) -> bool:
    """Say whether one piece alone can be had from a sheet."""
    board = _usable(sheet, saw)
    size = hundredths(piece.length), hundredths(piece.width)
    most = None if saw.max_turns is None else saw.max_turns + 1
    return any(
        way[0] <= board[0] and way[1] <= board[1] and (most is None or cuts_needed(way, board) <= most)
        for way in ([size, size[::-1]] if piece.may_turn else [size])
    )


def _listed(items: Sequence[str]) -> str:
    """Join with commas and a last "and"."""
    return items[0] if len(items) == 1 else f"{', '.join(items[:-1])} and {items[-1]}"


def _usable(sheet: Sheet, saw: Saw) -> tuple[int, int]:
    """Give what the edge trim leaves of a sheet. [hundredths of a mm]"""
    trim = 2 * hundredths(saw.edge_trim)
    return hundredths(sheet.length) - trim, hundredths(sheet.width) - trim


def _excesses(piece: Piece, sheet: Sheet, saw: Saw, *, turned: bool) -> list[tuple[int, int]]:
    """Give by how much a piece is too long and too wide for a sheet, as it lies and, if asked, turned."""
    length, width = _usable(sheet, saw)
    size = hundredths(piece.length), hundredths(piece.width)
    return [(max(0, x - length), max(0, y - width)) for x, y in ([size, size[::-1]] if turned else [size])]
