"""What a piece of board or a whole leaf weighs, as a range, because density is one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rodbook.errors import Fault, InputError, Message

__all__ = ["GLASS_DENSITY", "Film", "Fitting", "LeafMass", "MassRange", "Pane", "board_mass", "leaf_mass"]

GLASS_DENSITY = (2490.0, 2530.0)
"""Soda lime glass and mirrors of it, about 2500 kg/m3 (from memory). [kg/m3]"""


@dataclass(frozen=True)
class MassRange:
    """Lightest and heaviest that a piece may be. [kg]"""

    low: float
    high: float

    @property
    def message(self) -> Message:
        """Both ends, or one where they print alike."""
        if f"{self.low:.1f}" == f"{self.high:.1f}":
            return Message("hinges.mass", mass_kg=self.low)
        return Message("hinges.mass_between", low_kg=self.low, high_kg=self.high)

    def __str__(self) -> str:
        """As `message` says it."""
        return str(self.message)

    def __add__(self, other: MassRange) -> MassRange:
        """Both ends added: the light with the light, the heavy with the heavy."""
        return MassRange(self.low + other.low, self.high + other.high)


@dataclass(frozen=True)
class Film:
    """A finish as it is when dry, over every face and edge of a leaf.

    Parameters
    ----------
    thickness_um : tuple of float
        Dry film, all coats together, thin and thick end. [um]
    density_kg_per_m3 : tuple of float
        Of the dry film; 1200 to 1600 for filled paint (from memory). [kg/m3]
    """

    thickness_um: tuple[float, float]
    density_kg_per_m3: tuple[float, float] = (1200.0, 1600.0)


@dataclass(frozen=True)
class Pane:
    """Glass or a mirror on a leaf, or in a hole of it.

    Parameters
    ----------
    name : str
        What it is called in the answer.
    width_mm, height_mm, thickness_mm : float
        [mm]
    in_place_of_board : bool
        Whether the board is cut away where the pane sits.
    density_kg_per_m3 : tuple of float
        [kg/m3]
    """

    name: str
    width_mm: float
    height_mm: float
    thickness_mm: float
    in_place_of_board: bool = False
    density_kg_per_m3: tuple[float, float] = GLASS_DENSITY


@dataclass(frozen=True)
class Fitting:
    """A knob, a lock, a rail: what it weighs, light and heavy end. [kg]"""

    name: str
    mass_kg: tuple[float, float]


@dataclass(frozen=True)
class LeafMass:
    """What a leaf weighs, and what of it is board, finish, panes and fittings.

    Parameters
    ----------
    total : MassRange
    shares : tuple of (str, MassRange)
        In the order in which they were given; they add up to the total.
    """

    total: MassRange
    shares: tuple[tuple[str, MassRange], ...]


def board_mass(
    length_mm: float, width_mm: float, thickness_mm: float, *, density_kg_per_m3: tuple[float, float]
) -> MassRange:
    r"""Mass of a rectangular piece of board.

    Parameters
    ----------
    length_mm, width_mm, thickness_mm : float
        Size of the piece, > 0. [mm]
    density_kg_per_m3 : tuple of float
        Light and heavy end. [kg/m3]

    Returns
    -------
    MassRange

    Raises
    ------
    InputError
        If a size or a density is not positive.

    Notes
    -----
    .. math:: m = 10^{-9} \, l \, w \, t \, \rho

    Examples
    --------
    >>> print(board_mass(2000, 600, 18, density_kg_per_m3=(750, 750)))
    16.2 kg
    """
    if min(length_mm, width_mm, thickness_mm, *density_kg_per_m3) <= 0:
        raise InputError.at("mass", "hinges.size_not_above_zero")
    volume_m3 = length_mm * width_mm * thickness_mm * 1e-9
    low, high = density_kg_per_m3
    return MassRange(volume_m3 * low, volume_m3 * high)


def leaf_mass(
    height_mm: float,
    width_mm: float,
    thickness_mm: float,
    *,
    density_kg_per_m3: tuple[float, float],
    film: Film | None = None,
    panes: Sequence[Pane] = (),
    fittings: Sequence[Fitting] = (),
) -> LeafMass:
    """Mass of a leaf with all that is on it.

    Parameters
    ----------
    height_mm, width_mm, thickness_mm : float
        Of the bare leaf, > 0. [mm]
    density_kg_per_m3 : tuple of float
        Of the board, light and heavy end. [kg/m3]
    film : Film, optional
        The dry finish, on both faces and all four edges.
    panes : sequence of Pane
        Glass and mirrors.
    fittings : sequence of Fitting

    Returns
    -------
    LeafMass

    Raises
    ------
    InputError
        If a size, density or mass makes no sense, or a pane is larger than the leaf; every fault at once.

    Examples
    --------
    >>> leaf = leaf_mass(2000, 600, 18, density_kg_per_m3=(720, 760), panes=[Pane("mirror", 500, 1600, 4)])
    >>> print(leaf.total, [name for name, _ in leaf.shares])
    23.5 to 24.5 kg ['board', 'mirror']
    """
    faults = [
        Fault(
            ("panes", p.name),
            "hinges.pane_larger_than_leaf",
            width_mm=p.width_mm,
            height_mm=p.height_mm,
            leaf_width_mm=width_mm,
            leaf_height_mm=height_mm,
        )
        for p in panes
        if not (0 < p.width_mm <= width_mm and 0 < p.height_mm <= height_mm)
    ]
    faults += [
        Fault(("fittings", f.name), "hinges.mass_out_of_order")
        for f in fittings
        if not 0 <= f.mass_kg[0] <= f.mass_kg[1]
    ]
    if film and not (0 <= film.thickness_um[0] <= film.thickness_um[1] <= MOST_FILM_UM):
        faults.append(Fault("finish", "hinges.film_out_of_range", most_film_um=MOST_FILM_UM))
    if faults:
        raise InputError(faults)
    board = board_mass(height_mm, width_mm, thickness_mm, density_kg_per_m3=density_kg_per_m3)
    for pane in panes:
        if pane.in_place_of_board:
            gone = board_mass(pane.height_mm, pane.width_mm, thickness_mm, density_kg_per_m3=density_kg_per_m3)
            board = MassRange(board.low - gone.low, board.high - gone.high)
    shares = [("board", board)]
    if film:
        area_m2 = 2e-6 * (height_mm * width_mm + (height_mm + width_mm) * thickness_mm)
        low, high = (
            area_m2 * um * 1e-6 * rho for um, rho in zip(film.thickness_um, film.density_kg_per_m3, strict=True)
        )
        shares.append(("finish", MassRange(low, high)))
    shares += [
        (p.name, board_mass(p.height_mm, p.width_mm, p.thickness_mm, density_kg_per_m3=p.density_kg_per_m3))
        for p in panes
    ]
    shares += [(f.name, MassRange(*f.mass_kg)) for f in fittings]
    return LeafMass(sum((mass for _, mass in shares), MassRange(0.0, 0.0)), tuple(shares))


MOST_FILM_UM = 2000.0
"""A thicker film is taken for a slip of the pen (house assumption). [um]"""
