"""A head that slopes: its line, and what lies square to it.

What is seen or packed along a raked head (margins, lining, trim, packers) keeps its width square to the slope; read
plumb it is wider by the *stretch*::

              __--|
        __--  )   |  rise        fall  = rise ÷ run, told in mm for each metre
    __--------)---+              stretch = along the slope ÷ level, told in mm for each metre
        run   slope
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from rodbook.errors import InputError
from rodbook.setout.cuts import Side
from rodbook.working import Measure

__all__ = ["RakedFrame", "SlopingLine"]

STEEPEST_FALL = 2000.0
"""A head that falls by more than this in a metre is taken for a slip in the readings (house assumption). [mm/m]"""


@dataclass(frozen=True)
class RakedFrame:
    """What is asked of a set-out under a raked head.

    Parameters
    ----------
    width : Measure
        Outer width of the lining. [mm]
    left, right : Measure
        Outer height of the lining at its left and its right outer face. [mm]
    leaves : int
    hand : str
        Side a single leaf hangs on.
    sill : bool
    floor_finish : float
        Still to be laid on the floor that the lining stands on. [mm]
    """

    width: Measure
    left: Measure
    right: Measure
    leaves: int
    hand: Side
    sill: bool
    floor_finish: float = 0.0


@dataclass(frozen=True)
class SlopingLine:
    """A straight line over a front; x from the lining's left outer face, heights above the finished floor.

    Parameters
    ----------
    left : Measure
        Height at x = 0. [mm]
    fall : Measure
        >= 0. [mm in a metre]
    falls_to : str
        The lower side.
    stretch : Measure
        Along the slope for each metre level. [mm in a metre]
    """

    left: Measure
    fall: Measure
    falls_to: Side
    stretch: Measure

    @classmethod
    def over(cls, frame: RakedFrame) -> SlopingLine:
        """The line of a lining's outer corners.

        Raises
        ------
        InputError
            If it is steeper than any head.
        """
        falls_to: Side = "right" if frame.left.value >= frame.right.value else "left"
        high, low = (frame.left, frame.right) if falls_to == "right" else (frame.right, frame.left)
        fall = ((high - low) * 1000 / frame.width).named("fall in a metre")
        if fall.value > STEEPEST_FALL:
            raise InputError.at("heights", "setout.head_too_steep", fall_mm=fall.value)
        stretch = Measure(
            math.hypot(1000, fall.value),
            "a metre of the head along its slope",
            expression=f"√(1000² + {fall.term()}²)",
            parts=(fall,),
        )
        return cls(frame.left, fall, falls_to, stretch)

    @property
    def slope(self) -> float:
        """Rise to the right for each mm. [mm/mm]"""
        return self.fall.value / 1000 * (-1 if self.falls_to == "right" else 1)

    @property
    def degrees(self) -> Measure:
        """From level. [°]"""
        angle = math.degrees(math.atan(self.fall.value / 1000))
        return Measure(
            angle,
            "slope of the head, in degrees",
            "°",
            expression=f"arctan({self.fall.term()} ÷ 1000)",
            parts=(self.fall,),
        )

    def at(self, x: Measure, name: str) -> Measure:
        """Height of the line. [mm]"""
        if x.value == 0:
            return self.left.named(name)
        change = x * self.fall / 1000
        return (self.left - change if self.falls_to == "right" else self.left + change).named(name)

    def lowered(self, square: Measure, name: str) -> SlopingLine:
        """The line that runs below this one, its distance measured square to the slope; above it where that is negative."""
        if square.value == 0:
            return self
        return replace(self, left=(self.left - square * self.stretch / 1000).named(name))

    def raised(self, square: Measure, name: str) -> SlopingLine:
        """The line that runs above this one, its distance measured square to the slope."""
        if square.value == 0:
            return self
        return replace(self, left=(self.left + square * self.stretch / 1000).named(name))

    def square(self, plumb: Measure) -> Measure:
        """A plumb distance between two such lines, measured square to them. [mm]"""
        return plumb * 1000 / self.stretch

    def along(self, level: Measure) -> Measure:
        """A level distance, measured along the slope. [mm]"""
        return level * self.stretch / 1000
