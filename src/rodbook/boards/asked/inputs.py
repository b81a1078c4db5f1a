"""Everything wrong with what was asked, found before any work starts."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from math import isfinite
from typing import TypeGuard

from rodbook.boards.models import Bar, Filler, Piece, Saw, Sheet, Stick, hundredths
from rodbook.errors import Fault, InputError

__all__ = ["check_lengths_input", "check_sheets_input", "mm_text"]

LARGEST_MM = 100_000.0
"""No board, bar or piece is longer than this; what is, was not given in millimetres. [mm] House assumption."""

MOST_PIECES = 100_000
"""How many pieces one job may have in all. House assumption."""

DEAREST = Decimal(10**9)
"""Prices stay below this. House assumption."""


def mm_text(length_mm: float) -> str:
    """Write a length in mm with no more decimals than it has, two at most."""
    return f"{length_mm:.2f}".rstrip("0").rstrip(".")


def check_sheets_input(
    pieces: Sequence[Piece],
    sheets: Sequence[Sheet],
    saw: Saw,
    *,
    seconds: float,
    seed: int,
    fillers: Sequence[Filler] = (),
    effort: float | None = None,
) -> None:
    """Raise one `InputError` with every fault in what `lay_out` was given."""
    faults: list[Fault] = []
    kerf_known = _check_allowance(faults, "saw.kerf", saw.kerf, "the kerf")
    _check_allowance(faults, "saw.edge_trim", saw.edge_trim, "the edge trim")
    if saw.max_turns is not None and not _is_count(saw.max_turns, least=0):
        faults.append(Fault("saw.max_turns", "boards.turns_out_of_range", turns=saw.max_turns))
    wanted: list[tuple[str, Piece | Filler]] = [*_places("pieces", pieces), *_places("fillers", fillers)]
    for place, piece in wanted:
        for side, size in (("length", piece.length), ("width", piece.width)):
            sound = _check_size(faults, f"{place}.{side}", size)
            if sound and kerf_known:
                _check_kerf(faults, f"{place}.{side}", size, saw.kerf)
        _check_quantity(faults, place, piece.name, piece.quantity)
    _check_total(faults, [piece.quantity for _, piece in wanted])
    _check_fillers(faults, fillers, {piece.name for piece in pieces})
    for place, sheet in _places("sheets", sheets):
        _check_size(faults, f"{place}.length", sheet.length)
        _check_size(faults, f"{place}.width", sheet.width)
        _check_stock(faults, place, sheet.name, sheet.price, sheet.quantity)
    _check_unlike(faults, "sheets", [sheet.name for sheet in sheets])
    _check_limits(faults, seconds, seed, effort)
    if faults:
        raise InputError(faults)


def check_lengths_input(
    sticks: Sequence[Stick], bars: Sequence[Bar], *, kerf: float, seconds: float, seed: int, effort: float | None = None
) -> None:
    """Raise one `InputError` with every fault in what `cut_lengths` was given."""
    faults: list[Fault] = []
    kerf_known = _check_allowance(faults, "kerf", kerf, "the kerf")
    for place, stick in _places("pieces", sticks):
        if _check_size(faults, f"{place}.length", stick.length) and kerf_known:
            _check_kerf(faults, f"{place}.length", stick.length, kerf)
        _check_quantity(faults, place, stick.name, stick.quantity)
    _check_total(faults, [stick.quantity for stick in sticks])
    for place, bar in _places("bars", bars):
        _check_size(faults, f"{place}.length", bar.length)
        _check_allowance(faults, f"{place}.end_trim", bar.end_trim, "what squares an end")
        if bar.raw_ends not in (0, 1, 2):
            faults.append(Fault(f"{place}.raw_ends", "boards.ends_out_of_range", ends=bar.raw_ends))
        _check_stock(faults, place, bar.name, bar.price, bar.quantity)
    _check_unlike(faults, "bars", [bar.name for bar in bars])
    _check_limits(faults, seconds, seed, effort)
    if faults:
        raise InputError(faults)


def _check_fillers(faults: list[Fault], fillers: Sequence[Filler], names: set[str]) -> None:
    """Note a filler's worth that is none, and a name that stands for something else too."""
    for place, filler in _places("fillers", fillers):
        if not isinstance(filler.worth, Decimal):
            faults.append(Fault(f"{place}.worth", "boards.no_decimal", value=filler.worth))
        elif not (filler.worth.is_finite() and 0 < filler.worth < DEAREST):
            faults.append(Fault(f"{place}.worth", "boards.worth_out_of_range", worth=filler.worth, dearest=DEAREST))
        if filler.name in names:
            faults.append(Fault(f"{place}.name", "boards.name_of_a_piece", name=filler.name))
    _check_unlike(faults, "fillers", [filler.name for filler in fillers])


def _places[T: (Piece, Filler, Sheet, Stick, Bar)](of: str, items: Sequence[T]) -> list[tuple[str, T]]:
    """Name each item's place: ``pieces[2] (door)``."""
    return [(f"{of}[{number}] ({item.name})", item) for number, item in enumerate(items)]


def _is_number(value: object) -> TypeGuard[float]:
    """Say whether a value is a plain number and finite."""
    return isinstance(value, int | float) and not isinstance(value, bool) and isfinite(value)


def _is_count(value: object, *, least: int) -> bool:
    """Say whether a value is a whole number of at least `least`."""
    return isinstance(value, int) and not isinstance(value, bool) and value >= least


def _check_size(faults: list[Fault], where: str, size: object) -> bool:
    """Note a size that no board can have; say whether it is sound."""
    if not _is_number(size):
        faults.append(Fault(where, "boards.not_a_size", size=size))
    elif size > LARGEST_MM:
        faults.append(Fault(where, "boards.size_too_large", size_mm=size))
    elif hundredths(size) < 1:
        faults.append(Fault(where, "boards.size_too_small", size_mm=size))
    else:
        return True
    return False


def _check_kerf(faults: list[Fault], where: str, size: float, kerf: float) -> None:
    """Note a piece that the blade would turn to dust."""
    if hundredths(size) < hundredths(kerf):
        faults.append(Fault(where, "boards.piece_below_kerf", size_mm=mm_text(size), kerf_mm=mm_text(kerf)))


def _check_allowance(faults: list[Fault], where: str, value: float, name: str) -> bool:
    """Note a kerf or trim that is no length of 0 or more; say whether it is sound."""
    if _is_number(value) and 0 <= value <= LARGEST_MM:
        return True
    faults.append(Fault(where, "boards.allowance_out_of_range", value=value, allowance=name))
    return False


def _check_quantity(faults: list[Fault], place: str, name: str, quantity: int) -> None:
    """Note an empty name or a number of pieces below one."""
    _check_name(faults, place, name)
    if not _is_count(quantity, least=1):
        faults.append(Fault(f"{place}.quantity", "boards.no_number_of_pieces", quantity=quantity))


def _check_name(faults: list[Fault], place: str, name: object) -> None:
    """Note a name that is none."""
    if not isinstance(name, str) or not name.strip():
        faults.append(Fault(f"{place}.name", "boards.name_empty"))


def _check_total(faults: list[Fault], quantities: Sequence[int]) -> None:
    """Note more pieces than one job may have."""
    total = sum(quantity for quantity in quantities if _is_count(quantity, least=1))
    if total > MOST_PIECES:
        faults.append(Fault("pieces", "boards.too_many_pieces", pieces=total, most=MOST_PIECES))


def _check_stock(faults: list[Fault], place: str, name: str, price: object, quantity: int | None) -> None:
    """Note an empty name, a price that is none, or a stock below zero."""
    _check_name(faults, place, name)
    where = f"{place}.price"
    if not isinstance(price, Decimal):
        faults.append(Fault(where, "boards.no_decimal", value=price))
    elif not price.is_finite():
        faults.append(Fault(where, "boards.not_a_price", price=price))
    elif price < 0:
        faults.append(Fault(where, "boards.price_below_zero", price=price))
    elif price >= DEAREST:
        faults.append(Fault(where, "boards.price_too_high", price=price, dearest=DEAREST))
    if quantity is not None and not _is_count(quantity, least=0):
        faults.append(Fault(f"{place}.quantity", "boards.not_a_stock", quantity=quantity))


def _check_unlike(faults: list[Fault], of: str, names: Sequence[str]) -> None:
    """Note names that stand for two things."""
    first: dict[str, int] = {}
    for number, name in enumerate(names):
        if name in first:
            faults.append(
                Fault(f"{of}[{number}] ({name}).name", "boards.name_twice", name=name, list=of, number=first[name])
            )
        first.setdefault(name, number)


def _check_limits(faults: list[Fault], seconds: object, seed: object, effort: object) -> None:
    """Note a time limit that leaves no time and a seed that is none."""
    for name, limit in (("seconds", seconds), ("effort", 1 if effort is None else effort)):
        if not isinstance(limit, int | float) or isinstance(limit, bool) or not limit > 0:
            faults.append(Fault(name, "boards.no_time_to_search", seconds=limit))
    if not _is_count(seed, least=0):
        faults.append(Fault("seed", "boards.not_a_seed", seed=seed))
