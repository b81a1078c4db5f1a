"""Widths of the leaves of a front: all equal, in shares, or as asked for in millimetres.

::

    |m|   leaf 1   |g| leaf 2 |g|    leaf 3    |m|      m margin or lap, g meeting gap
      |<------------- leaf block ------------->|
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce

from rodbook.errors import Infeasible
from rodbook.setout.cuts import Side
from rodbook.setout.leaves import hinge_sides, leaf_block
from rodbook.working import Measure

__all__ = ["EQUAL", "LeafRow", "Wanted", "asked_widths", "leaf_row"]


@dataclass(frozen=True)
class Wanted:
    """Widths that an opening asks for, from the left; both empty where all leaves are equal.

    Parameters
    ----------
    widths : tuple of float
        Zero takes what the others leave. [mm]
    shares : tuple of float
        In proportion to each other.
    """

    widths: tuple[float, ...] = ()
    shares: tuple[float, ...] = ()


EQUAL = Wanted()
"""Nothing is asked for: all leaves are equal."""


@dataclass(frozen=True)
class LeafRow:
    """The leaves of a front side by side.

    Parameters
    ----------
    widths : tuple of Measure
        From the left. [mm]
    gap : Measure
        Between two. [mm]
    block : Measure
        Over all of them. [mm]
    sides : tuple of str
        Where each hangs.
    """

    widths: tuple[Measure, ...]
    gap: Measure
    block: Measure
    sides: tuple[Side, ...]

    def starts(self, first: float) -> tuple[float, ...]:
        """Left edge of each leaf, the first one's given. [mm]"""
        results = [first]
        for width in self.widths[:-1]:
            results.append(results[-1] + width.value + self.gap.value)
        return tuple(results)


def leaf_row(
    equal: Measure, room: Measure, *, leaves: int, hand: Side, gap: Measure, step: float, wanted: Wanted
) -> LeafRow:
    """Put leaves side by side.

    Parameters
    ----------
    equal : Measure
        Width of one of equal leaves, before rounding. [mm]
    room : Measure
        For all leaves and the gaps between them. [mm]
    leaves : int
    hand : str
        Of a single leaf, or of the middle one of three.
    gap : Measure
        Between two leaves. [mm]
    step : float
        Widths are rounded down to it. [mm]
    wanted : Wanted

    Raises
    ------
    Infeasible
        If the widths asked for do not go into the room.
    """
    sides = hinge_sides(leaves, hand)
    if not wanted.widths and not wanted.shares:
        width = equal.rounded_down(step)
        return LeafRow((width,) * leaves, gap, leaf_block(width, leaves=leaves, meeting_gap=gap), sides)
    widths = asked_widths(room, leaves=leaves, gap=gap, step=step, wanted=wanted)
    block = reduce(lambda a, b: a + b, widths)
    if leaves > 1:
        block = block + (leaves - 1) * gap
    return LeafRow(widths, gap, block.named("leaf block"), sides)


def asked_widths(room: Measure, *, leaves: int, gap: Measure, step: float, wanted: Wanted) -> tuple[Measure, ...]:
    """Widths as they were asked for.

    Examples
    --------
    >>> room, gap = Measure(1203, "room for the leaves"), Measure(3, "meeting gap")
    >>> [float(w) for w in asked_widths(room, leaves=2, gap=gap, step=0.5, wanted=Wanted(shares=(1, 2)))]
    [400.0, 800.0]
    >>> [float(w) for w in asked_widths(room, leaves=2, gap=gap, step=0.5, wanted=Wanted(widths=(450, 0)))]
    [450.0, 750.0]
    """
    left = (room - (leaves - 1) * gap if leaves > 1 else room).named("width for the leaves")
    if wanted.shares:
        total = sum(wanted.shares)
        return tuple(
            (left * share / total).named(f"width of leaf {n}").rounded_down(step)
            for n, share in enumerate(wanted.shares, 1)
        )
    given = [Measure(width, f"width of leaf {n}", source="job") for n, width in enumerate(wanted.widths, 1)]
    open_ones = sum(width.value == 0 for width in given)
    fixed = [width for width in given if width.value]
    rest = reduce(lambda a, b: a - b, fixed, left)
    if not open_ones:
        _exactly(rest.value, wanted.widths, left, leaves * step)
        return tuple(width.rounded_down(step) for width in given)
    if rest.value <= 0:
        raise Infeasible("setout.widths_leave_nothing", widths_mm=tuple(wanted.widths), left_mm=left)
    share = rest / open_ones if open_ones > 1 else rest
    return tuple(
        width if width.value else share.named(f"width of leaf {n}").rounded_down(step)
        for n, width in enumerate(given, 1)
    )


def _exactly(spare: float, widths: Sequence[float], left: Measure, slack: float) -> None:
    if -1e-6 <= spare <= slack:
        return
    raise Infeasible("setout.widths_not_sum", widths_mm=tuple(widths), asked_mm=sum(widths), left_mm=left)
