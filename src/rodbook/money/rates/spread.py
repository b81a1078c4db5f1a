"""Times that vary: a lognormal from its middle and what nine in ten stay under."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist

from rodbook.errors import InputError

__all__ = ["NINE_IN_TEN_Z", "LogNormal"]

NINE_IN_TEN_Z = NormalDist().inv_cdf(0.9)
"""Standard normal quantile of 0.9: 1.2816. [1]"""


@dataclass(frozen=True)
class LogNormal:
    r"""A quantity whose logarithm is normal: never below zero, with a longer tail upwards, as times have it.

    Parameters
    ----------
    median : float
        As many lie below as above, > 0. [any unit]
    sigma : float
        Standard deviation of its natural logarithm, >= 0. [1]

    Notes
    -----
    Mean :math:`m e^{s^2/2}`, standard deviation mean :math:`\sqrt{e^{s^2} - 1}`, quantile :math:`m e^{s z_p}`; common
    knowledge of statistics.
    """

    median: float
    sigma: float

    @classmethod
    def of(cls, median: float, nine_in_ten: float) -> LogNormal:
        """From its middle and what nine in ten stay under.

        Raises
        ------
        InputError
            If the middle is not above zero, or nine in ten would stay under less than the middle.

        Examples
        --------
        >>> spread = LogNormal.of(4, 6)
        >>> round(spread.sigma, 4), round(spread.mean, 4), round(spread.quantile(0.9), 6)
        (0.3164, 4.2053, 6.0)
        """
        if not 0 < median < math.inf:
            raise InputError.at("spread", "money.middle_not_above_zero", median=median)
        if not median <= nine_in_ten < math.inf:
            raise InputError.at("spread", "money.nine_in_ten_out_of_range", nine_in_ten=nine_in_ten, median=median)
        return cls(median, math.log(nine_in_ten / median) / NINE_IN_TEN_Z)

    @property
    def mean(self) -> float:
        """Average over many. [unit of the median]"""
        return self.median * math.exp(self.sigma**2 / 2)

    @property
    def deviation(self) -> float:
        """Standard deviation. [unit of the median]"""
        return self.mean * math.sqrt(math.expm1(self.sigma**2))

    def quantile(self, share: float) -> float:
        """What this share stays under, between 0 and 1, both left out. [unit of the median]"""
        return self.median * math.exp(self.sigma * NormalDist().inv_cdf(share))
