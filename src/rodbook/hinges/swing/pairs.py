"""Which leaf of a pair has to be opened first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from rodbook.hinges.swing.contact import Swing, swing
from rodbook.hinges.swing.leaf import Leaf
from rodbook.hinges.swing.obstacles import Obstacle, SlopingPlane
from rodbook.hinges.swing.paths import Path

__all__ = ["First", "OpeningOrder", "opening_order"]

type First = Literal["either", "left", "right", "neither"]


@dataclass(frozen=True)
class OpeningOrder:
    """The order in which a pair opens.

    Parameters
    ----------
    first : str
        "either", "left", "right", or "neither" where no order opens both.
    left_first, right_first : tuple of Swing
        The first leaf with the other one closed, then the other with the first one standing open.
    """

    first: First
    left_first: tuple[Swing, Swing]
    right_first: tuple[Swing, Swing]

    def __str__(self) -> str:
        """One sentence."""
        if self.first == "either":
            return "Either leaf may be opened first."
        if self.first != "neither":
            other = "right" if self.first == "left" else "left"
            return f"Open the {self.first} leaf first, then the {other} one."
        return "In neither order do both leaves open far enough: " + " ".join(
            f"with the {side} one first: {one} {other}"
            for side, (one, other) in (("left", self.left_first), ("right", self.right_first))
        )


def opening_order(
    left: Leaf,
    right: Leaf,
    *,
    left_path: Path,
    right_path: Path,
    obstacles: Sequence[Obstacle] = (),
    planes: Sequence[SlopingPlane] = (),
    wanted_deg: float = 90.0,
) -> OpeningOrder:
    """Open a pair in both orders.

    Parameters
    ----------
    left, right : Leaf
        In their places.
    left_path, right_path : Path
    obstacles, planes : sequence
        What else stands in their way.
    wanted_deg : float
        How far each should open. [degrees]

    Returns
    -------
    OpeningOrder

    Examples
    --------
    >>> from rodbook.hinges.swing.paths import FixedPivot
    >>> left = Leaf(400, 20, profile=((0, 0), (0, -20), (390, -20), (390, -10), (400, -10), (400, 0)))
    >>> right = Leaf(400, 20, hand="right", at=(803, 0),
    ...     profile=((0, 0), (0, -20), (410, -20), (410, -12), (398, -12), (398, 0)))
    >>> print(opening_order(left, right, left_path=FixedPivot(0, 4), right_path=FixedPivot(0, 4)))
    Open the left leaf first, then the right one.
    """

    def then(
        first: Leaf, first_path: Path, second: Leaf, second_path: Path, names: tuple[str, str]
    ) -> tuple[Swing, Swing]:
        closed = Obstacle(names[1], second.standing(second_path, 0.0), second.bottom, second.top)
        one = swing(first, first_path, [*obstacles, closed], planes=planes, wanted_deg=wanted_deg)
        stands = Obstacle(names[0], first.standing(first_path, min(one.free_deg, wanted_deg)), first.bottom, first.top)
        return one, swing(second, second_path, [*obstacles, stands], planes=planes, wanted_deg=wanted_deg)

    names = ("the left leaf", "the right leaf")
    left_first = then(left, left_path, right, right_path, names)
    right_first = then(right, right_path, left, left_path, (names[1], names[0]))
    left_goes, right_goes = (all(s.enough for s in both) for both in (left_first, right_first))
    first: First = (
        "either" if left_goes and right_goes else "left" if left_goes else "right" if right_goes else "neither"
    )
    return OpeningOrder(first, left_first, right_first)
