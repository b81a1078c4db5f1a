"""Weighted least squares: readings that say too much of the same thing, brought to the one shape that fits them best."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from rodbook.errors import Infeasible

__all__ = ["Adjusted", "Vector", "least_squares", "undetermined"]

type Vector = NDArray[np.float64]
type Model = Callable[[Vector], tuple[Vector, Vector]]
"""From the unknowns to what should be read, and how that changes with each of them."""

_STEPS = 30
_SMALLEST_STEP = 1e-6
"""Unknowns are found when no step is larger: a millionth of a millimetre."""
_STEPS_AT_LEAST, _SMALLEST_GAIN = 4, 1e-8
"""After so many steps a gain this small ends the search too: unknowns are then right to a ten-thousandth of their
standard errors. A shape whose middle point lies just where a reading was taken may hop to and fro by less than that."""
_LARGEST_STEP = 1e6
"""A step of a kilometre shows that the readings determine nothing. [mm]"""
_HALVINGS = 30
"""A step that makes the fit worse is halved, so many times: a billionth is left of it."""


@dataclass(frozen=True, eq=False)
class Adjusted:
    """What an adjustment finds; arrays, for use inside the survey.

    Parameters
    ----------
    unknowns : ndarray
        Found values.
    cofactors : ndarray
        Their covariance, if the standard errors of the readings are right: (J'WJ)^-1.
    residuals : ndarray
        Adjusted reading less reading as taken, v.
    redundancies : ndarray
        Share of each reading that the others check, r: between 0 and 1, their sum the degrees of freedom.
    errors : ndarray
        Standard errors of the readings, s.
    slopes : ndarray
        J at the end.
    steps : int
        Steps taken.
    """

    unknowns: Vector
    cofactors: Vector
    residuals: Vector
    redundancies: Vector
    errors: Vector
    slopes: Vector
    steps: int

    @property
    def degrees(self) -> int:
        """Degrees of freedom: readings less unknowns."""
        return len(self.residuals) - len(self.unknowns)

    @property
    def misfit(self) -> float:
        """Sum of squared residuals, each in its own standard errors."""
        return float(np.sum((self.residuals / self.errors) ** 2))

    def standardised(self, least_redundancy: float) -> Vector:
        """Size of each residual in its own standard error, w = |v| / (s sqrt r); 0 where next to nothing checks it."""
        r = np.where(self.redundancies > least_redundancy, self.redundancies, np.inf)
        return np.asarray(np.abs(self.residuals) / (self.errors * np.sqrt(r)))


def least_squares(model: Model, readings: Vector, errors: Vector, start: Vector) -> Adjusted:
    r"""Find the unknowns that fit the readings best, each weighed by its standard error.

    Parameters
    ----------
    model : callable
        Gives what should be read and its slopes, f and J, for given unknowns.
    readings, errors : ndarray
        As taken, and their standard errors, > 0. [same unit]
    start : ndarray
        Unknowns to begin with.

    Returns
    -------
    Adjusted

    Raises
    ------
    Infeasible
        If the steps don't come to rest, or the readings don't determine the unknowns.

    Notes
    -----
    Minimises :math:`\sum ((l_i - f_i(x)) / s_i)^2` by Gauss-Newton steps
    :math:`\Delta x = (J'WJ)^{-1} J'W (l - f)` with :math:`W = \operatorname{diag}(s^{-2})`; a step that makes the sum
    larger is halved.
    At the end :math:`Q = (J'WJ)^{-1}`, :math:`Q_v = W^{-1} - J Q J'` and :math:`r_i = (Q_v W)_{ii}`.

    References
    ----------
    .. [1] Ghilani, *Adjustment Computations*, 5th edition, Wiley, 2010, chapters 11, 14 and 21 (from memory).

    Examples
    --------
    The mean of two readings of the same thing:

    >>> import numpy as np
    >>> one = least_squares(lambda x: (np.repeat(x, 2), np.ones((2, 1))), np.array([842.0, 844.0]), np.ones(2), np.zeros(1))
    >>> one.unknowns.tolist(), one.redundancies.round(3).tolist(), round(one.misfit, 3)
    ([843.0], [0.5, 0.5], 2.0)
    """
    x = start.astype(np.float64)
    f, slopes = model(x)
    misfit = float(np.sum(((readings - f) / errors) ** 2))
    for step in range(1, _STEPS + 1):
        weighed = slopes / errors[:, None]
        try:
            change = np.linalg.solve(weighed.T @ weighed, weighed.T @ ((readings - f) / errors))
        except np.linalg.LinAlgError:
            raise Infeasible("survey.shape_not_determined") from None
        largest = float(np.abs(change).max()) if len(change) else 0.0
        if not largest < _LARGEST_STEP:
            break
        for _ in range(_HALVINGS):
            f, slopes = model(x + change)
            then = float(np.sum(((readings - f) / errors) ** 2))
            if then <= misfit + 1e-9 * (1 + misfit):
                break
            change, largest = change / 2, largest / 2
        gained = misfit - then
        x, misfit = x + change, then
        if largest < _SMALLEST_STEP or (step > _STEPS_AT_LEAST and abs(gained) < _SMALLEST_GAIN * (1 + misfit)):
            return _settled(x, f, slopes, readings, errors, step)
    raise Infeasible("survey.no_shape_comes_to_rest")


def _settled(x: Vector, f: Vector, slopes: Vector, readings: Vector, errors: Vector, step: int) -> Adjusted:
    weighed = slopes / errors[:, None]
    try:
        cofactors = np.linalg.inv(weighed.T @ weighed)
    except np.linalg.LinAlgError:
        raise Infeasible("survey.shape_not_determined") from None
    redundancies = 1.0 - np.einsum("ij,ij->i", weighed @ cofactors, weighed)
    return Adjusted(x, cofactors, f - readings, np.clip(redundancies, 0.0, 1.0), errors, slopes, step)


def undetermined(slopes: Vector, errors: Vector, *, largest_error: float) -> int:
    """How many ways the unknowns can move by more than `largest_error` and still fit the readings.

    A way counts when its own standard error, the inverse of a singular value of the weighed slopes, is larger.
    """
    if not slopes.shape[1]:
        return 0
    values = np.linalg.svd(slopes / errors[:, None], compute_uv=False)
    return int(slopes.shape[1] - np.sum(values > 1 / largest_error))
