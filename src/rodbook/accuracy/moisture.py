"""How much moisture timber and boards take up from the air of a building."""

from __future__ import annotations

from bisect import bisect_right

from rodbook.errors import Fault, InputError

__all__ = ["BOARD_MOISTURE", "board_moisture", "humidity_for", "timber_moisture"]

LEAST_C, MOST_C = -1.2, 60.0
"""Range over which the formula was compared with the printed table. [degrees Celsius]"""

BOARD_MOISTURE = ((30.0, 6.0, 8.0), (45.0, 7.0, 9.0), (65.0, 9.0, 11.0), (75.0, 10.0, 12.0), (90.0, 15.0, 16.0))
"""Humidity, and the least and most moisture of particleboard and MDF at it. [%, %, %]

Australasian panel producers' association, *Facts about particleboard and MDF* (quoted).
"""


def timber_moisture(humidity_pct: float, temperature_c: float) -> float:
    r"""Moisture that timber comes to in air of this humidity and temperature.

    Parameters
    ----------
    humidity_pct : float
        Relative humidity, 0 to 100. [%]
    temperature_c : float
        -1.2 to 60. [degrees Celsius]

    Returns
    -------
    float
        Of the mass when oven-dry. [%]

    Raises
    ------
    InputError
        If the air is outside these ranges; both faults at once.

    Notes
    -----
    .. math:: M = \frac{1800}{W}\left[\frac{Kh}{1-Kh} + \frac{K_1Kh + 2K_1K_2K^2h^2}{1 + K_1Kh + K_1K_2K^2h^2}\right]

    h is the humidity as a fraction; W, K, K1, K2 are quadratics in the temperature.

    References
    ----------
    .. [1] Simpson, W. T., *Equilibrium moisture content of wood in outdoor locations*, FPL-RN-0268, 1998.
    .. [2] *Wood Handbook*, FPL-GTR-190, 2010, eq. 4-5 (coefficients for Celsius quoted).

    Examples
    --------
    >>> round(timber_moisture(50, 21.1), 1)
    9.2
    """
    faults = []
    if not 0 <= humidity_pct <= 100:
        faults.append(Fault("humidity", "accuracy.humidity_out_of_range", humidity_pct=humidity_pct))
    if not LEAST_C <= temperature_c <= MOST_C:
        faults.append(
            Fault(
                "temperature",
                "accuracy.temperature_out_of_range",
                temperature_c=temperature_c,
                least_c=LEAST_C,
                most_c=MOST_C,
            )
        )
    if faults:
        raise InputError(faults)
    h, t = humidity_pct / 100, temperature_c
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    kh = k * h
    dissolved = kh / (1 - kh)
    bound = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return 1800 / w * (dissolved + bound)


def humidity_for(moisture_pct: float, temperature_c: float) -> float:
    """Humidity at which timber comes to this moisture. [%]

    Raises
    ------
    InputError
        If no humidity brings that much.

    Examples
    --------
    >>> round(humidity_for(8, 20), 2)
    41.83
    """
    low, high = 0.0, 100.0
    most = timber_moisture(high, temperature_c)
    if not 0 <= moisture_pct <= most:
        raise InputError.at("moisture", "accuracy.moisture_beyond_air", moisture_pct=moisture_pct, most_pct=most)
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if timber_moisture(middle, temperature_c) < moisture_pct else (low, middle)
    return (low + high) / 2


def board_moisture(humidity_pct: float) -> tuple[float, float]:
    """Least and most moisture of particleboard and MDF in air of this humidity, straight between the table's rows.

    Parameters
    ----------
    humidity_pct : float
        30 to 90, the table's ends. [%]

    Returns
    -------
    tuple of float
        [%]

    Raises
    ------
    InputError
        If the humidity is outside the table.

    Examples
    --------
    >>> board_moisture(55)
    (8.0, 10.0)
    """
    first, last = BOARD_MOISTURE[0][0], BOARD_MOISTURE[-1][0]
    if not first <= humidity_pct <= last:
        raise InputError.at(
            "humidity",
            "accuracy.humidity_outside_table",
            humidity_pct=humidity_pct,
            least_pct=first,
            most_pct=last,
        )
    row = min(bisect_right([r[0] for r in BOARD_MOISTURE], humidity_pct), len(BOARD_MOISTURE) - 1)
    (h0, low0, high0), (h1, low1, high1) = BOARD_MOISTURE[row - 1], BOARD_MOISTURE[row]
    share = (humidity_pct - h0) / (h1 - h0)
    return low0 + share * (low1 - low0), high0 + share * (high1 - high0)
