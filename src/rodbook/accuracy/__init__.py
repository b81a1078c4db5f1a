"""Will it stay even: what damp and load do to leaves and to what carries them."""

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.accuracy.damp import (
        BUILDINGS,
        Air,
        MarginYear,
        Piece,
        SeasonMargin,
        moisture_of,
        movement,
        timber_change,
        year_of_margin,
    )
    from rodbook.accuracy.materials import BOARDS, TIMBERS, Timber, Travel, along_grain, board_travel, timber_travel
    from rodbook.accuracy.moisture import board_moisture, humidity_for, timber_moisture
    from rodbook.accuracy.sag import rectangle_inertia, sag

__all__ = [
    "BOARDS",
    "BUILDINGS",
    "TIMBERS",
    "Air",
    "MarginYear",
    "Piece",
    "SeasonMargin",
    "Timber",
    "Travel",
    "along_grain",
    "board_moisture",
    "board_travel",
    "humidity_for",
    "moisture_of",
    "movement",
    "rectangle_inertia",
    "sag",
    "timber_change",
    "timber_moisture",
    "timber_travel",
    "year_of_margin",
]

late_face(__name__)
