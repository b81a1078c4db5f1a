"""Learning over repeats: how much quicker the next like piece goes, by the unit and by the cumulative average."""

from __future__ import annotations

import math
from functools import cache

from rodbook.errors import InputError

__all__ = ["average_factor", "learned_units", "learning_exponent", "unit_factor"]


def learning_exponent(learning: float) -> float:
    r"""Exponent b of the learning curve.

    Parameters
    ----------
    learning : float
        Share to which a doubling of the number brings the time, above 0 and at most 1. [1]

    Returns
    -------
    float
        Zero or less. [1]

    Raises
    ------
    InputError
        If `learning` is out of its range.

    Notes
    -----
    .. math:: b = \ln r / \ln 2

    Examples
    --------
    >>> round(learning_exponent(0.8), 7)
    -0.3219281
    """
    if not 0 < learning <= 1:
        raise InputError.at("learning", "money.learning_out_of_range", learning=learning)
    return math.log2(learning)


def unit_factor(n: float, learning: float) -> float:
    r"""Time of the n-th unit against the first: the unit model.

    Notes
    -----
    .. math:: y_n / y_1 = n^b

    Examples
    --------
    >>> round(unit_factor(16, 0.8), 4)
    0.4096
    """
    _refuse_before_first(n)
    return float(n ** learning_exponent(learning))


def learned_units(n: float, learning: float) -> float:
    r"""How many first units' time n units take together: the unit model summed.

    Parameters
    ----------
    n : float
        >= 0; a part of a unit takes that part of the next unit's time.
    learning : float
        [1]

    Notes
    -----
    .. math:: \sum_{i=1}^{n} i^b

    Examples
    --------
    >>> round(learned_units(20, 0.8), 3), learned_units(3, 1)
    (10.485, 3.0)
    """
    if n < 0:
        raise InputError.at("learning", "money.units_below_zero", units=n)
    whole = math.floor(n)
    return _sum_to(whole, learning_exponent(learning)) + float((n - whole) * unit_factor(whole + 1, learning))


@cache
def _sums(_exponent: float) -> list[float]:
    """Sums up to each unit that was asked for so far, which grow as they are needed; quantities are tried one by one."""
    return [0.0]


def _sum_to(whole: int, exponent: float) -> float:
    sums = _sums(exponent)
    while len(sums) <= whole:
        sums.append(sums[-1] + len(sums) ** exponent)
    return sums[whole]


def average_factor(n: float, learning: float) -> float:
    r"""Average time over the first n units against the first: the cumulative average model, for comparison only.

    Notes
    -----
    .. math:: \bar y_n / y_1 = n^b

    The same power stands for the average here and for the unit in `unit_factor`; the two must not be mixed.
    """
    _refuse_before_first(n)
    return float(n ** learning_exponent(learning))


def _refuse_before_first(n: float) -> None:
    if n < 1:
        raise InputError.at("learning", "money.unit_below_one", unit=n)
