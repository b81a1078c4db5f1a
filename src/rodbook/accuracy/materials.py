"""How much timbers and boards move for each 1% of moisture, each with its source; boards carry both ends."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from rodbook.errors import InputError

__all__ = ["BOARDS", "TIMBERS", "Timber", "Travel", "along_grain", "board_travel", "timber_travel"]

HANDBOOK = "Wood Handbook, FPL-GTR-190, 2010, table 13-5 (seen)"
BRIDGED = "from the shrinkage in Wood Handbook 2010, table 4-3 (seen), re-based to 10% moisture (computed)"
RECALLED = "Wood Handbook, table 13-5 (from memory)"


@dataclass(frozen=True)
class Travel:
    """Share of its size by which a material moves for each 1% of moisture.

    Parameters
    ----------
    name : str
    low, high : float
        Both ends of what sources say. [1 per % moisture]
    kind : str
        "timber" or "board": which moisture it takes up from the same air.
    source : str
    """

    name: str
    low: float
    high: float
    kind: Literal["timber", "board"]
    source: str


@dataclass(frozen=True)
class Timber:
    """Coefficients of a timber: across the rings and along them. [1 per % moisture]"""

    radial: float
    tangential: float
    source: str


TIMBERS = {
    name: Timber(radial, tangential, source)
    for source, rows in (
        (
            HANDBOOK,
            (
                ("alder, red", 0.00151, 0.00256),
                ("ash, white", 0.00169, 0.00274),
                ("ash, black", 0.00172, 0.00274),
                ("basswood, American", 0.00230, 0.00330),
                ("beech, American", 0.00190, 0.00431),
                ("birch, yellow", 0.00256, 0.00338),
                ("birch, paper", 0.00219, 0.00304),
                ("cherry, black", 0.00126, 0.00248),
                ("chestnut, American", 0.00116, 0.00234),
                ("maple, sugar", 0.00165, 0.00353),
                ("maple, red", 0.00137, 0.00289),
                ("oak, red", 0.00158, 0.00369),
                ("oak, white", 0.00180, 0.00365),
                ("sycamore, American", 0.00172, 0.00296),
                ("sweetgum", 0.00183, 0.00365),
                ("walnut, black", 0.00190, 0.00274),
            ),
        ),
        (
            BRIDGED,
            (
                ("fir, white", 0.00112, 0.00245),
                ("Douglas fir, coast", 0.00165, 0.00267),
                ("tulip", 0.00158, 0.00289),
                ("redcedar, western", 0.00081, 0.00172),
            ),
        ),
        (
            RECALLED,
            (
                ("pine, eastern white", 0.00071, 0.00212),
                ("pine, ponderosa", 0.00133, 0.00216),
                ("mahogany", 0.00172, 0.00238),
                ("khaya", 0.00141, 0.00201),
                ("teak", 0.00101, 0.00186),
            ),
        ),
    )
    for name, radial, tangential in rows
}
"""Timbers by name. For redwood, sapele and the European oak and beech no coefficient with a source was found."""

BOARDS = {
    "MDF": Travel(
        "MDF",
        0.00025,
        0.00050,
        "board",
        "0.025% (UK trade magazine, quoted) to 0.05% (European MDF producers, seen) per 1%; sources disagree",
    ),
    "particleboard": Travel(
        "particleboard",
        0.00025,
        0.00033,
        "board",
        "1 mm a metre from 9 to 12% and from 12 to 16% (Australasian panel producers' association, quoted)",
    ),
    "plywood": Travel(
        "plywood",
        0.00007,
        0.00013,
        "timber",
        "0.2% from dry to saturated, taken over 28% (construction manual, seen) to 0.02% per 10% humidity, taken as 1.5% "
        "moisture (panel association, quoted)",
    ),
}
"""Boards by name, in the plane."""


def timber_travel(name: str, cut: Literal["flat", "quarter", "unknown"] = "unknown") -> Travel:
    """Travel across the grain of a timber: flat-sawn, quarter-sawn, or anything between the two.

    Parameters
    ----------
    name : str
        One of `TIMBERS`.
    cut : str
        "flat" moves by the tangential coefficient, "quarter" by the radial one, "unknown" by anything between.

    Returns
    -------
    Travel

    Raises
    ------
    InputError
        If the timber is not in the table.

    Examples
    --------
    >>> timber_travel("beech, American").high
    0.00431
    """
    if name not in TIMBERS:
        raise InputError.at("timber", "accuracy.no_such_timber", name=name, timbers=sorted(TIMBERS))
    result = TIMBERS[name]
    low = result.tangential if cut == "flat" else result.radial
    high = result.radial if cut == "quarter" else result.tangential
    return Travel(name, low, high, "timber", result.source)


def along_grain(name: str) -> Travel:
    """Travel along the grain: next to none.

    Total shrinkage along the grain is 0.1 to 0.2% for most timbers (Wood Handbook, chapter 4, from memory), spread over
    the 30% of moisture below fibre saturation.

    Examples
    --------
    >>> round(along_grain("ash, white").high * 2000 * 4, 2)
    0.53
    """
    return Travel(
        f"{name}, along the grain", 0.001 / 30, 0.002 / 30, "timber", "Wood Handbook, chapter 4 (from memory)"
    )


def board_travel(name: str) -> Travel:
    """Travel of a board in its plane.

    Raises
    ------
    InputError
        If the board is not in the table.

    Examples
    --------
    >>> board_travel("MDF").low, board_travel("MDF").high
    (0.00025, 0.0005)
    """
    if name not in BOARDS:
        raise InputError.at("board", "accuracy.no_such_board", name=name, boards=sorted(BOARDS))
    return BOARDS[name]
