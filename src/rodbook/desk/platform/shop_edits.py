"""Changes to what the book says of the shop: offcuts that lie there, and pieces that are wanted from waste. Pure."""

from __future__ import annotations

import copy
import re
from collections.abc import Iterable, Mapping
from typing import Any

from rodbook.desk.platform.book_edits import Raw, Typed, entries_of, entry_at, given
from rodbook.errors import Fault, InputError, Place
from rodbook.job.book import Offcut

__all__ = [
    "add_offcut",
    "move_offcuts",
    "next_wanted_label",
    "put_all_wanted",
    "put_wanted",
    "take_out_offcut",
    "take_out_wanted",
    "tick_off_wanted",
]


def add_offcut(raw: Raw, board: int, typed: Typed) -> tuple[Raw, Place]:
    """An offcut of a board; and where it stands."""
    changed = copy.deepcopy(raw)
    entry = entry_at(changed, "boards", board)
    entry["offcuts"] = [*entry.get("offcuts", []), dict(given(typed))]
    return changed, Place(("boards", board - 1, "offcuts", len(entry["offcuts"]) - 1))


def take_out_offcut(raw: Raw, board: int, label: str) -> Raw:
    """The book without an offcut; as it is where there is none of that label."""
    changed = copy.deepcopy(raw)
    entry = entry_at(changed, "boards", board)
    entry["offcuts"] = [offcut for offcut in entry.get("offcuts", []) if offcut["label"] != label]
    return changed


def move_offcuts(raw: Raw, came: Iterable[tuple[str, Offcut]], gone: Iterable[str]) -> Raw:
    """The book once a job's boards are cut: what it left lies in the shop, what it used up does not.

    Parameters
    ----------
    raw : document
        The book as it is.
    came : iterable of (str, Offcut)
        Each with the name of its board.
    gone : iterable of str
        Labels.

    Raises
    ------
    InputError
        With every label that is written on something else since, or is not in the shop any more, and every board that is not
        in the book.
    """
    changed, faults = copy.deepcopy(raw), []
    boards = {str(board["name"]): board for board in entries_of(changed, "boards")}
    lying = {str(offcut["label"]): board for board in boards.values() for offcut in board.get("offcuts", [])}
    wanted = {str(piece["label"]) for board in boards.values() for piece in board.get("wanted", [])}
    for label in gone:
        if label not in lying:
            faults.append(Fault(label, "desk.gone_from_shop"))
            continue
        lying[label]["offcuts"] = [offcut for offcut in lying[label]["offcuts"] if offcut["label"] != label]
    for board, offcut in came:
        if board not in boards:
            faults.append(Fault(offcut.label, "desk.board_gone_from_book", board=board))
        elif offcut.label in lying or offcut.label in wanted:
            faults.append(Fault(offcut.label, "desk.label_taken_since"))
        else:
            boards[board]["offcuts"] = [*boards[board].get("offcuts", []), offcut.model_dump(exclude_defaults=True)]
    if faults:
        raise InputError(faults)
    return changed


def put_wanted(raw: Raw, board: int, was: str, typed: Typed) -> tuple[Raw, Place]:
    """A piece wanted from waste of a board: one more, or in the place of the one labelled `was`; and where it stands.

    Raises
    ------
    InputError
        If there is no such board, or no piece of that label any more.
    """
    changed = copy.deepcopy(raw)
    entry, new = entry_at(changed, "boards", board), dict(given(typed))
    if was:
        _wanted_at(changed, was)
        for other in entries_of(changed, "boards"):
            if other is not entry:
                _without_wanted(other, was)
    pieces = entry.get("wanted", [])
    at = next((n for n, piece in enumerate(pieces) if was and piece["label"] == was), len(pieces))
    entry["wanted"] = [*pieces[:at], new, *pieces[at + 1 :]]
    return changed, Place(("boards", board - 1, "wanted", at))


def put_all_wanted(raw: Raw, pieces: Iterable[tuple[int, Typed]]) -> Raw:
    """The book with pieces on its list, each with the number of its board; one of the same label is put in anew."""
    changed = raw
    labels = {piece["label"] for board in entries_of(raw, "boards") for piece in board.get("wanted", [])}
    for board, piece in pieces:
        changed, _where = put_wanted(changed, board, piece["label"] if piece["label"] in labels else "", piece)
    return changed


def _wanted_at(raw: Raw, label: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """The board and the wanted piece of a label."""
    for board in entries_of(raw, "boards"):
        for piece in board.get("wanted", []):
            if piece["label"] == label:
                return board, piece
    raise InputError.at("", "desk.gone_from_wanted", label=label)


def _without_wanted(board: dict[str, Any], label: str) -> None:
    """Take a piece off a board's list, and the list where that was the last."""
    left = [piece for piece in board.get("wanted", []) if piece["label"] != label]
    board.pop("wanted", None)
    if left:
        board["wanted"] = left


def take_out_wanted(raw: Raw, label: str) -> Raw:
    """The book without a wanted piece; as it is where there is none of that label."""
    changed = copy.deepcopy(raw)
    for board in entries_of(changed, "boards"):
        _without_wanted(board, label)
    return changed


def tick_off_wanted(raw: Raw, cut: Mapping[str, int]) -> Raw:
    """The book once so many of these labels are cut: as many fewer are wanted, and none where all are there.

    Raises
    ------
    InputError
        With every label that is not on the list any more.
    """
    changed = copy.deepcopy(raw)
    gone: list[Fault] = []
    for label, number in cut.items():
        try:
            board, piece = _wanted_at(changed, label)
        except InputError as error:
            gone += error.faults
            continue
        left = int(piece.get("number", 1)) - number
        if left > 0:
            piece["number"] = left
        else:
            _without_wanted(board, label)
    if gone:
        raise InputError(gone)
    return changed


_NUMBERED = re.compile(r"(.*?)([0-9]{1,9})")


def next_wanted_label(raw: Raw, taken: Iterable[str] = ()) -> str:
    """The label that follows on the highest on the list of wanted pieces; W-1 where there is none.

    Parameters
    ----------
    raw : dict
        The book.
    taken : iterable of str
        Labels that are used besides.
    """
    labels = [str(piece["label"]) for board in entries_of(raw, "boards") for piece in board.get("wanted", [])]
    known = [result for label in labels if (result := _NUMBERED.fullmatch(label))]
    last = max(known, key=lambda result: int(result[2]), default=None)
    before, at = ("W-", 0) if last is None else (last[1], int(last[2]))
    used = {label.casefold() for label in (*labels, *taken)}
    while True:
        at += 1
        if (label := f"{before}{at}").casefold() not in used:
            return label
