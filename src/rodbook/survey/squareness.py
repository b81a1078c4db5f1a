"""How far out of square: corner angles and leaning sides from diagonals."""

from __future__ import annotations

import math

from rodbook.errors import InputError

__all__ = ["corner_angle", "lean_from_diagonals"]


def corner_angle(side_a_mm: float, side_b_mm: float, *, diagonal_mm: float) -> float:
    r"""Angle between two sides of a corner, from the diagonal that faces it.

    Parameters
    ----------
    side_a_mm, side_b_mm : float
        The two sides that meet in the corner, > 0. [mm]
    diagonal_mm : float
        Distance between their far ends. [mm]

    Returns
    -------
    float
        The angle. [degrees]

    Raises
    ------
    InputError
        If no triangle has these sides.

    Notes
    -----
    .. math:: \cos\gamma = \frac{a^2 + b^2 - d^2}{2ab}

    References
    ----------
    .. [1] Law of cosines; Euclid, *Elements*, book II, propositions 12 and 13.

    Examples
    --------
    >>> corner_angle(3, 4, diagonal_mm=5)
    90.0
    """
    a, b, d = side_a_mm, side_b_mm, diagonal_mm
    if min(a, b, d) <= 0 or not abs(a - b) < d < a + b:
        raise InputError.at("diagonal", "survey.no_such_corner", side_mm=a, other_mm=b, diagonal_mm=d)
    return math.degrees(math.acos((a * a + b * b - d * d) / (2 * a * b)))


def lean_from_diagonals(
    diagonals_mm: tuple[float, float], *, foot_width_mm: float, head_width_mm: float, heights_mm: tuple[float, float]
) -> tuple[float, float]:
    r"""How far the left side's head stands to the right of its foot, from both diagonals.

    With widths read level and heights read plumb, the corners are A (0, 0), B (foot width, 0), D (x, height left) and
    C (x + head width, height right). Each diagonal gives x once:

    .. math:: x_1 = \sqrt{|AC|^2 - h_r^2} - w_h \qquad x_2 = w_f - \sqrt{|BD|^2 - h_l^2}

    Parameters
    ----------
    diagonals_mm : tuple of float
        Foot left to head right, foot right to head left. [mm]
    foot_width_mm, head_width_mm : float
        Widths read level. [mm]
    heights_mm : tuple of float
        Left and right, read plumb. [mm]

    Returns
    -------
    tuple of float
        The mean of the two leans, and half their difference: what the two diagonals disagree by. [mm]

    Raises
    ------
    InputError
        If a diagonal is shorter than the height beside it.

    Notes
    -----
    A slip of 1 mm in a diagonal moves its lean by diagonal / width; the mean halves it, and an error common to both
    (a tape that reads long) cancels.

    Examples
    --------
    >>> lean, doubt = lean_from_diagonals((5.0, 5.0), foot_width_mm=3, head_width_mm=3, heights_mm=(4, 4))
    >>> lean, doubt
    (0.0, 0.0)
    """
    (up_right, up_left), (left, right) = diagonals_mm, heights_mm
    if up_right <= right or up_left <= left:
        raise InputError.at("diagonals", "survey.diagonal_too_long")
    first = math.sqrt(up_right**2 - right**2) - head_width_mm
    second = foot_width_mm - math.sqrt(up_left**2 - left**2)
    return (first + second) / 2, abs(first - second) / 2
