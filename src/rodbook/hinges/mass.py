"""What a piece of board weighs, as a range, because density is one."""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.errors import InputError

__all__ = ["MassRange", "board_mass"]


@dataclass(frozen=True)
class MassRange:
    """Lightest and heaviest that a piece may be. [kg]"""

    low: float
    high: float

    def __str__(self) -> str:
        """Both ends, or one where they print alike."""
        low, high = f"{self.low:.1f}", f"{self.high:.1f}"
        return f"{low} kg" if low == high else f"{low} to {high} kg"


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
        raise InputError.at("mass", "sizes and densities have to be above nought")
    volume_m3 = length_mm * width_mm * thickness_mm * 1e-9
    low, high = density_kg_per_m3
    return MassRange(volume_m3 * low, volume_m3 * high)
