"""The greatest of several lengths none of which is sure: what it is on average, and how unsure."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import reduce
from statistics import NormalDist

import numpy as np

from rodbook.survey.adjusting import Vector

__all__ = ["Unsure", "greatest"]

_NORMAL = NormalDist()
_SAME_MM = 1e-6
"""Two lengths whose difference is surer than this are the same length with another value."""


@dataclass(frozen=True, eq=False)
class Unsure:
    """A length that follows from unsure coordinates.

    Parameters
    ----------
    mean : float
        What it is on average. [mm]
    slopes : ndarray
        With regard to each coordinate.
    own : float
        Variance that no coordinate carries. [mm2]
    """

    mean: float
    slopes: Vector
    own: float = 0.0

    def variance(self, covariance: Vector) -> float:
        """Of the whole. [mm2]"""
        return max(float(self.slopes @ covariance @ self.slopes), 0.0) + self.own

    def times(self, factor: float) -> Unsure:
        """Multiple."""
        return Unsure(self.mean * factor, self.slopes * factor, self.own * factor**2)

    def plus(self, other: Unsure) -> Unsure:
        """Sum; what no coordinate carries is unrelated in both."""
        return Unsure(self.mean + other.mean, self.slopes + other.slopes, self.own + other.own)


def greatest(lengths: Iterable[Unsure], covariance: Vector) -> Unsure:
    r"""Find the greatest of several lengths, one after the other; there and back, so that a mirror changes nothing.

    Parameters
    ----------
    lengths : iterable of Unsure
        At least one.
    covariance : ndarray
        Of the coordinates. [mm2]

    Returns
    -------
    Unsure
        Its mean is not below the greatest mean.

    Notes
    -----
    With :math:`a^2 = \operatorname{Var}(x - y)`, :math:`\alpha = (\mu_x - \mu_y)/a`, the greater of two normal lengths has
    the mean :math:`\mu_x\Phi(\alpha) + \mu_y\Phi(-\alpha) + a\varphi(\alpha)`, the second moment
    :math:`(\mu_x^2 + \sigma_x^2)\Phi(\alpha) + (\mu_y^2 + \sigma_y^2)\Phi(-\alpha) + (\mu_x + \mu_y)\,a\,\varphi(\alpha)`,
    and goes with any third as :math:`x` by :math:`\Phi(\alpha)` and as :math:`y` by :math:`\Phi(-\alpha)` [1]_. It is then
    taken as normal itself.

    References
    ----------
    .. [1] Clark, "The greatest of a finite set of random variables", *Operations Research* 9, 1961 (from memory).

    Examples
    --------
    The greater of two independent unit normals is 1/sqrt(pi) = 0.564 on average:

    >>> import numpy as np
    >>> two = [Unsure(0.0, np.array(slopes)) for slopes in ([1.0, 0.0], [0.0, 1.0])]
    >>> found = greatest(two, np.eye(2))
    >>> round(found.mean, 3), round(found.variance(np.eye(2)), 3)
    (0.564, 0.682)
    """
    listed = list(lengths)
    there, back = (reduce(lambda x, y: _greater(x, y, covariance), way) for way in (listed, listed[::-1]))
    return Unsure((there.mean + back.mean) / 2, (there.slopes + back.slopes) / 2, (there.own + back.own) / 2)


def _greater(x: Unsure, y: Unsure, covariance: Vector) -> Unsure:
    apart = x.slopes - y.slopes
    a = math.sqrt(max(float(apart @ covariance @ apart), 0.0) + x.own + y.own)
    if a < _SAME_MM:
        return x if x.mean >= y.mean else y
    alpha = (x.mean - y.mean) / a
    share, rest, dense = _NORMAL.cdf(alpha), _NORMAL.cdf(-alpha), _NORMAL.pdf(alpha)
    # Both are reckoned from the greater mean, so that squares of metres do not swallow squares of millimetres.
    origin = max(x.mean, y.mean)
    p, q = x.mean - origin, y.mean - origin
    mean = p * share + q * rest + a * dense
    square = (p * p + x.variance(covariance)) * share + (q * q + y.variance(covariance)) * rest + (p + q) * a * dense
    slopes = np.asarray(share * x.slopes + rest * y.slopes)
    carried = max(float(slopes @ covariance @ slopes), 0.0)
    return Unsure(origin + mean, slopes, max(square - mean * mean - carried, 0.0))
