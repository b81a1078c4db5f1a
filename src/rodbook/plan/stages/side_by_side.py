"""Two leaves side by side, in one front or in two that stand next to each other: what is said of opening both."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from rodbook.hinges.swing import Leaf, PathTable, Together, together

__all__ = ["LeafPair", "pair_of", "pairs_of"]


@dataclass(frozen=True)
class LeafPair:
    """Two leaves side by side.

    Parameters
    ----------
    names : tuple of str
        Of the left one and of the right one, as in a sentence.
    back_to_back : bool
        Whether their hinge edges are next to each other.
    swept : Together
    """

    names: tuple[str, str]
    back_to_back: bool
    swept: Together

    @property
    def amiss(self) -> bool:
        """Whether an order has to be kept, or none lets both stand open."""
        return self.swept.first != "either"

    @property
    def worth_saying(self) -> bool:
        """Whether somebody has to know it: an order, or that those that hang back to back can't be opened at once."""
        return self.amiss or (self.back_to_back and not self.swept.free)

    def __str__(self) -> str:
        """One sentence: how they meet, and the gap or the order that helps."""
        swept, (left, right) = self.swept, self.names
        apart = f"{left[:1].upper()}{left[1:]} and {right} {'hang back to back' if self.back_to_back else 'are'}"
        apart += f", {swept.gap_mm:.1f} mm apart" if self.back_to_back else f" {swept.gap_mm:.1f} mm apart"
        wider = ""
        if self.back_to_back:
            wider = f", or give them {math.ceil(10 * swept.clear_gap_mm - 1e-9) / 10:.1f} mm to open both at once"
        if swept.first == "either":
            return f"{apart}: open one after the other{wider}."
        if swept.first != "neither":
            first, then = (left, right) if swept.first == "left" else (right, left)
            return f"{apart}: open {first} first, then {then}{wider}."
        one, other = swept.second_deg
        far = f"{one:.0f}°" if abs(one - other) < 0.5 else f"{one:.0f}° ({left}) or {other:.0f}° ({right})"
        wants = f" They want {math.ceil(10 * swept.clear_gap_mm - 1e-9) / 10:.1f} mm." if self.back_to_back else ""
        return f"{apart}: with one of them wide open the other opens to {far} only.{wants}"


@lru_cache(maxsize=512)
def _swept(left: Leaf, right: Leaf, left_path: PathTable, right_path: PathTable, wanted_deg: float) -> Together:
    return together(left, right, left_path=left_path, right_path=right_path, wanted_deg=wanted_deg)


def pair_of(
    left: Leaf, right: Leaf, names: tuple[str, str], *, paths: tuple[PathTable, PathTable], wanted_deg: float
) -> LeafPair | None:
    """Two leaves; None where they stand too far apart ever to meet."""
    gap = right.at[0] - left.at[0] if (left.hand, right.hand) == ("right", "left") else 0.0
    out = sum(leaf.thickness for leaf in (left, right)) + sum(path.largest_shift_mm for path in paths)
    if gap > out:
        return None  # neither comes out over its hinge edge by more than its thickness
    return LeafPair(names, (left.hand, right.hand) == ("right", "left"), _swept(left, right, *paths, wanted_deg))


def pairs_of(
    leaves: Sequence[Leaf], names: Sequence[str], path: PathTable, *, wanted_deg: float
) -> tuple[LeafPair, ...]:
    """Every two neighbours of a front, from the left."""
    results = [
        pair_of(leaves[n], leaves[n + 1], (names[n], names[n + 1]), paths=(path, path), wanted_deg=wanted_deg)
        for n in range(len(leaves) - 1)
    ]
    return tuple(pair for pair in results if pair is not None)
