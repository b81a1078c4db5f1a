"""Chances: the normal and the chi-square distribution, as far as the adjustment needs them."""

from __future__ import annotations

import math
from functools import lru_cache
from statistics import NormalDist

__all__ = ["chi_square_limit", "chi_square_tail", "noticed_shift", "outlier_limit"]

_NORMAL = NormalDist()


@lru_cache(maxsize=64)
def outlier_limit(risk: float) -> float:
    """Size that the standardised residual of a sound reading passes only with this risk, either way. [-]

    >>> round(outlier_limit(0.001), 2)
    3.29
    """
    return _NORMAL.inv_cdf(1 - risk / 2)


@lru_cache(maxsize=64)
def noticed_shift(risk: float, power: float) -> float:
    """How far a slip must shift the standardised residual to be noticed with this power. [-]

    The chance of passing the other limit is left out, being below a millionth for any power above a half.

    >>> round(noticed_shift(0.001, 0.80), 2)
    4.13
    """
    return outlier_limit(risk) + _NORMAL.inv_cdf(power)


def chi_square_tail(value: float, degrees: int) -> float:
    r"""Chance that the sum of `degrees` squared unit normals is above `value`. [-]

    Notes
    -----
    Whole numbers of degrees have closed sums [1]_:

    .. math:: Q(\chi^2 | 2m) = e^{-\chi^2/2} \sum_{k<m} \frac{(\chi^2/2)^k}{k!}

    and, for odd degrees, :math:`\operatorname{erfc}(\chi/\sqrt 2)` and a sum over half-whole powers.

    References
    ----------
    .. [1] Abramowitz and Stegun, *Handbook of Mathematical Functions*, 26.4.4 and 26.4.5.

    Examples
    --------
    >>> round(chi_square_tail(7.815, 3), 4)
    0.05
    """
    if value <= 0:
        return 1.0
    half = value / 2
    if half > 700:
        return 0.0
    if degrees % 2:
        total, term, k = math.erfc(math.sqrt(half)), math.exp(-half) * math.sqrt(half) / math.gamma(1.5), 1.5
    else:
        total, term, k = 0.0, math.exp(-half), 1.0
    for _ in range(degrees // 2):
        total += term
        term *= half / k
        k += 1
    return total


@lru_cache(maxsize=256)
def chi_square_limit(risk: float, degrees: int) -> float:
    """Value that the sum of `degrees` squared unit normals is above with this risk. [-]

    >>> round(chi_square_limit(0.05, 3), 3)
    7.815
    """
    low, high = 0.0, 10.0 + 4 * degrees
    while chi_square_tail(high, degrees) > risk:
        high *= 2
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if chi_square_tail(middle, degrees) > risk else (low, middle)
    return (low + high) / 2
