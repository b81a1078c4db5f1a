"""The cautions, and which of them belong on a paper. They say what to do and what this tool does not decide."""

from __future__ import annotations

from collections.abc import Iterable

from rodbook.hinges import MassRange, board_mass
from rodbook.job import Board
from rodbook.papers.numbers import Numbers
from rodbook.plan import Plan

__all__ = ["BLADES", "DUST", "FIRE", "HEIGHT", "STRUCTURE", "heaviest_leaf", "heaviest_sheet", "lifting"]

DUST = (
    "Dust",
    (
        "Cutting, boring and sanding wood and MDF makes dust that harms lungs and eyes: extraction at the machine, a mask "
        "that fits, and the local limits kept."
    ),
)

BLADES = ("Blades", "Guard and riving knife on, push stick to hand; let the blade stop before reaching past it.")

STRUCTURE = (
    "Structure",
    "Whether a wall or a frame may be cut is for a structural designer and the local code; this paper does not decide it.",
)

HEIGHT = (
    "Height",
    "Read what is out of reach from a platform that stands firm, never from a chair or the top of a ladder.",
)

FIRE = ("Fire", "None of these fronts is a fire door. Doors in protected routes need a licensed solution.")


def heaviest_leaf(plan: Plan) -> MassRange | None:
    """Mass of the heaviest leaf of a plan; None where there is none. [kg]"""
    masses = [entry.set_out.leaf_mass for entry in plan.openings if entry.set_out]
    return max(masses, key=lambda mass: mass.high, default=None)


def heaviest_sheet(boards: Iterable[Board]) -> MassRange | None:
    """Mass of the heaviest whole sheet that these boards are sold in; None where there is none. [kg]"""
    masses = [
        board_mass(
            sheet.length, sheet.width, board.thickness, density_kg_per_m3=(board.density_low, board.density_high)
        )
        for board in boards
        for sheet in board.sheets
    ]
    return max(masses, key=lambda mass: mass.high, default=None)


def lifting(write: Numbers, *, leaf: MassRange | None = None, sheet: MassRange | None = None) -> list[tuple[str, str]]:
    """What the heaviest pieces weigh, and from when on it takes two people."""
    heavy = []
    if leaf is not None:
        heavy.append(f"the heaviest leaf weighs {write.kilograms(leaf)}")
    if sheet is not None:
        heavy.append(f"the heaviest whole sheet {'' if leaf else 'weighs '}{write.kilograms(sheet)}")
    if not heavy:
        return []
    words = ", ".join(heavy)
    return [("Lifting", f"{words[0].upper()}{words[1:]}. Two people above 20 to 25 kg is common guidance.")]
