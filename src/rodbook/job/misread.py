"""What a figure may have been before it was misread or mistyped. Guessed here alone; nothing is ever put in by itself."""

from __future__ import annotations

from collections.abc import Sequence

__all__ = ["by_tens", "digits_exchanged", "likely_slip"]


def digits_exchanged(value_mm: float) -> list[float]:
    """Each figure that becomes this one when two neighbouring digits before the point change places. [mm]

    A zero does not come to stand first, as nobody writes 034 for 34.

    >>> digits_exchanged(482.5)
    [842.5, 428.5]
    """
    whole, dot, decimals = f"{abs(value_mm):.3f}".partition(".")
    swaps = [
        whole[:i] + whole[i + 1] + whole[i] + whole[i + 2 :]
        for i in range(len(whole) - 1)
        if whole[i] != whole[i + 1] and not (i == 0 and whole[1] == "0")
    ]
    return [(-1 if value_mm < 0 else 1) * float(text + dot + decimals) for text in swaps]


def by_tens(value_mm: float) -> tuple[float, float]:
    """The figure with a digit lost and with one too many: written in centimetres, and in tenths of a millimetre. [mm]

    >>> by_tens(84.0)
    (840.0, 8.4)
    """
    return value_mm * 10, value_mm / 10


def likely_slip(value_mm: float, others_mm: Sequence[float], within_mm: float) -> float | None:
    """The figure that a reading most likely was, by others of the same thing; None where no exchange of digits explains it.

    Parameters
    ----------
    value_mm : float
        As read. [mm]
    others_mm : sequence of float
        Readings of the same width or height elsewhere, at least one. [mm]
    within_mm : float
        How near to their mean it has to come. [mm]

    Examples
    --------
    >>> likely_slip(482.0, (841.0, 843.0), 20.0)
    842.0
    >>> likely_slip(700.0, (841.0, 843.0), 20.0) is None
    True
    """
    near = sum(others_mm) / len(others_mm)
    return next((guess for guess in digits_exchanged(value_mm) if abs(guess - near) <= within_mm), None)
