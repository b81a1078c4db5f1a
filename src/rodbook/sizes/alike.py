"""Heights kept alike: once the fewest sizes are chosen, as few different heights among them as can be.

Every head then stands in one line, and legs, leaves and hinge linings of all sizes are cut and bored at one setting. Each
size may have any height between what its highest opening needs and what its lowest allows; the fewest heights that stab all
these intervals are found exactly by taking, again and again, the lowest upper end that no chosen height serves yet.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from rodbook.sizes.candidates import Offer, PackerRange
from rodbook.sizes.standard import SizeChoice, StandardSize

__all__ = ["heights_alike"]

_SLACK_MM = 1e-6


def heights_alike(choice: SizeChoice, offers: Sequence[Offer], packers: PackerRange) -> SizeChoice:
    """Give the sizes as few different heights as the packers over the head allow; widths and openings stay.

    Parameters
    ----------
    choice : SizeChoice
        As `fewest_sizes` gave it: each size as high as its lowest opening allows.
    offers : sequence of Offer
        What the openings offer.
    packers : PackerRange

    Returns
    -------
    SizeChoice
        With no more sizes than before; the packing over the head may be thicker, never over its most.

    Examples
    --------
    >>> from rodbook.sizes.standard import fewest_sizes
    >>> offers, packers = [Offer("C1", 842, 2030, (2,)), Offer("C3", 524, 2028, (1,))], PackerRange(4, 16, 4, 20)
    >>> [size.height for size in heights_alike(fewest_sizes(offers, packers), offers, packers).sizes]
    [2024.0, 2024.0]
    """
    by_name = {offer.name: offer for offer in offers}
    least = {size: _least_height(size, by_name, packers) for size in choice.sizes}
    new: dict[StandardSize, StandardSize] = {}
    waiting = sorted(choice.sizes, key=lambda size: size.height)
    while waiting:
        lowest = waiting[0]
        served = [size for size in waiting if least[size] <= lowest.height + _SLACK_MM]
        new |= {size: replace(size, height=lowest.height, lowest=lowest.lowest) for size in served}
        waiting = [size for size in waiting if size not in new]
    sizes = tuple(new[size] for size in choice.sizes)
    packing = sum(by_name[n].width - s.width + by_name[n].height - s.height for s in sizes for n in s.openings)
    return SizeChoice(sizes, packing, choice.fewest)


def _least_height(size: StandardSize, by_name: Mapping[str, Offer], packers: PackerRange) -> float:
    """The lowest lining that can still be packed under the highest opening. [mm]"""
    return max(by_name[name].height for name in size.openings) - packers.head_most
