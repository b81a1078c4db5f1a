"""Do the margins stay open through the year? Movement of leaves, and of what carries them, with both ends carried."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rodbook.accuracy.materials import Travel
from rodbook.accuracy.moisture import board_moisture, timber_moisture
from rodbook.errors import Fault, InputError, Message

__all__ = [
    "BUILDINGS",
    "Air",
    "MarginYear",
    "Piece",
    "SeasonMargin",
    "moisture_of",
    "movement",
    "timber_change",
    "year_of_margin",
]

LEAST_MOISTURE, MOST_MOISTURE = 6.0, 14.0
"""The coefficients hold between about these (Wood Handbook 2010, chapter 13, seen). [%]"""

type Range = tuple[float, float]


@dataclass(frozen=True)
class Air:
    """A state of a building.

    Parameters
    ----------
    name : str
        "heating season", "late summer", "as made".
    humidity_pct, temperature_c : float
        [%, degrees Celsius]
    source : str
    """

    name: str
    humidity_pct: float
    temperature_c: float
    source: str = "house assumption"


BUILDINGS = {
    "heated throughout": (Air("dry", 35, 21), Air("wet", 60, 21)),
    "heated now and then": (Air("dry", 45, 18), Air("wet", 70, 17)),
    "unheated, or new and drying out": (Air("dry", 50, 12), Air("wet", 80, 12)),
}
"""A dry and a wet state of each sort of building: house assumptions, so chosen that boards come to about the moistures that a
panel producers' guide gives for service: 7 to 9, 9 to 10, up to 14% (quoted). A reading on the spot is better."""


def timber_change(size_mm: float, coefficient: float, *, made_at_pct: float, comes_to_pct: float) -> float:
    r"""Change of size of solid timber across the grain.

    Parameters
    ----------
    size_mm : float
        When made. [mm]
    coefficient : float
        Radial or tangential. [1 per % moisture]
    made_at_pct, comes_to_pct : float
        Moisture then and later, 6 to 14. [%]

    Returns
    -------
    float
        Above zero when it swells. [mm]

    Raises
    ------
    InputError
        If a moisture is outside 6 to 14%: the coefficients do not hold there.

    Notes
    -----
    .. math:: \Delta D = D \, C \, (M_2 - M_1)

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, 2010, eq. 13-2.

    Examples
    --------
    >>> round(timber_change(232, 0.00245, made_at_pct=8, comes_to_pct=11), 3)
    1.705
    """
    faults = [
        Fault(
            "moisture",
            "accuracy.moisture_out_of_range",
            moisture_pct=m,
            least_pct=LEAST_MOISTURE,
            most_pct=MOST_MOISTURE,
        )
        for m in (made_at_pct, comes_to_pct)
        if not LEAST_MOISTURE <= m <= MOST_MOISTURE
    ]
    if faults:
        raise InputError(faults)
    return size_mm * coefficient * (comes_to_pct - made_at_pct)


def moisture_of(travel: Travel, air: Air) -> Range:
    """Least and most moisture that a material comes to in this air; timber has one figure, boards a range. [%]

    Examples
    --------
    >>> from rodbook.accuracy.materials import board_travel
    >>> moisture_of(board_travel("MDF"), Air("made", 45, 20))
    (7.0, 9.0)
    """
    if travel.kind == "board":
        return board_moisture(air.humidity_pct)
    result = timber_moisture(air.humidity_pct, air.temperature_c)
    return result, result


def movement(size_mm: float, travel: Travel, *, made_in: Air, comes_to: Air) -> Range:
    """Least and most change of a size between two states of the air, above zero when it swells. [mm]

    Both ends of the travel are carried. A board that lies low in its range of moisture in one air is taken to lie low in
    the other, too; so its change of moisture is the range of low-to-low and high-to-high.

    Examples
    --------
    >>> from rodbook.accuracy.materials import board_travel
    >>> low, high = movement(600, board_travel("MDF"), made_in=Air("made", 45, 20), comes_to=Air("wet", 65, 20))
    >>> round(low, 2), round(high, 2)
    (0.3, 0.6)
    """
    before, after = moisture_of(travel, made_in), moisture_of(travel, comes_to)
    changes = sorted((after[0] - before[0], after[1] - before[1]))
    corners = [size_mm * rate * change for rate in (travel.low, travel.high) for change in changes]
    return min(corners), max(corners)


@dataclass(frozen=True)
class Piece:
    """Something that moves: so many of one size in the direction of the margin.

    Parameters
    ----------
    name : str
    size_mm : float
        In the direction in which the margin is measured, when made. [mm]
    travel : Travel
    count : int
        How many of them stand side by side.
    """

    name: str
    size_mm: float
    travel: Travel
    count: int = 1


@dataclass(frozen=True)
class SeasonMargin:
    """A margin in one state of the building: least and most, and what leaves and carriers did. [mm]"""

    air: Air
    least_mm: float
    most_mm: float
    leaves_mm: Range
    carriers_mm: Range


@dataclass(frozen=True)
class MarginYear:
    """A margin through the year.

    Parameters
    ----------
    made_mm : float
        As fitted. [mm]
    seasons : tuple of SeasonMargin
    least_mm, most_mm : float
        Over all seasons and both ends. [mm]
    narrowest_in : str
        Name of the season in which it is least.
    closes : bool
        Whether it may fall to zero.
    remarks : tuple of Message
        What has to be said.
    """

    made_mm: float
    seasons: tuple[SeasonMargin, ...]
    least_mm: float
    most_mm: float
    narrowest_in: str
    closes: bool
    remarks: tuple[Message, ...]


def year_of_margin(
    margin_mm: float,
    *,
    leaves: Sequence[Piece],
    carriers: Sequence[Piece] = (),
    made_in: Air,
    seasons: Sequence[Air],
    least_wanted_mm: float = 1.0,
) -> MarginYear:
    """Least margin through the year, after leaves and what carries them have moved.

    Hinges hold each leaf's hinge edge where it is, so the whole movement of a single leaf shows at its free edge, and that
    of both leaves of a pair at their meeting gap: give that margin and those leaves.

    Parameters
    ----------
    margin_mm : float
        The margin, or the meeting gap, as fitted. [mm]
    leaves : sequence of Piece
        What closes it by swelling.
    carriers : sequence of Piece
        What opens it by swelling: the head between the legs. None where walls hold the legs.
    made_in : Air
        Where the parts were made or kept, so that their sizes hold for it.
    seasons : sequence of Air
        States of the building, such as one of `BUILDINGS`.
    least_wanted_mm : float
        A warning below it (house assumption). [mm]

    Returns
    -------
    MarginYear

    Raises
    ------
    InputError
        If no season or leaf is given.

    Examples
    --------
    >>> from rodbook.accuracy.materials import board_travel, timber_travel
    >>> year = year_of_margin(3, leaves=[Piece("leaf", 450, timber_travel("oak, white", "flat"))],
    ...     carriers=[Piece("head", 456, board_travel("MDF"))], made_in=Air("made", 40, 20),
    ...     seasons=BUILDINGS["heated throughout"])
    >>> round(year.least_mm, 1), year.closes, year.narrowest_in
    (-2.1, True, 'wet')
    """
    if not seasons or not leaves:
        raise InputError.at("margin", "accuracy.no_leaf_or_state")
    results = []
    for air in seasons:
        swells, opens = _together(leaves, made_in, air), _together(carriers, made_in, air)
        results.append(
            SeasonMargin(air, margin_mm - swells[1] + opens[0], margin_mm - swells[0] + opens[1], swells, opens)
        )
    narrowest = min(results, key=lambda s: s.least_mm)
    remarks = []
    if narrowest.least_mm <= 0:
        remarks.append(
            Message(
                "accuracy.margin_may_close",
                margin_mm=margin_mm,
                state=narrowest.air.name,
                swell_mm=narrowest.leaves_mm[1],
                wanted_mm=margin_mm - narrowest.least_mm + least_wanted_mm,
            )
        )
    elif narrowest.least_mm < least_wanted_mm:
        remarks.append(
            Message(
                "accuracy.margin_may_fall", margin_mm=margin_mm, least_mm=narrowest.least_mm, state=narrowest.air.name
            )
        )
    remarks += _beyond([*leaves, *carriers], (made_in, *seasons))
    return MarginYear(
        margin_mm,
        tuple(results),
        narrowest.least_mm,
        max(s.most_mm for s in results),
        narrowest.air.name,
        narrowest.least_mm <= 0,
        tuple(remarks),
    )


def _together(pieces: Sequence[Piece], made_in: Air, air: Air) -> Range:
    moves = [movement(p.size_mm * p.count, p.travel, made_in=made_in, comes_to=air) for p in pieces]
    return sum(low for low, _ in moves), sum(high for _, high in moves)


def _beyond(pieces: Sequence[Piece], airs: Sequence[Air]) -> list[Message]:
    """Say where timber leaves the range in which its coefficients hold."""
    values = {}
    for piece in pieces:
        for air in airs:
            moisture, _ = moisture_of(piece.travel, air)
            if piece.travel.kind == "timber" and not LEAST_MOISTURE <= moisture <= MOST_MOISTURE:
                values[piece.name, air.name] = Message(
                    "accuracy.movement_is_a_guess",
                    piece=piece.name,
                    moisture_pct=moisture,
                    state=air.name,
                    least_pct=LEAST_MOISTURE,
                    most_pct=MOST_MOISTURE,
                )
    return list(values.values())
