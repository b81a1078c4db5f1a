"""Shapes to sizes: the fewest standard sizes for openings that stand, and framed sizes for those still to be built."""

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.sizes.alike import heights_alike
    from rodbook.sizes.candidates import Offer, PackerRange
    from rodbook.sizes.cheapest import Weighed, weigh_money
    from rodbook.sizes.framing import FramedSize, framed_size
    from rodbook.sizes.packers import Packers, packers_for
    from rodbook.sizes.spoilers import Spoiler, spoilers
    from rodbook.sizes.standard import SizeChoice, StandardSize, fewest_sizes
    from rodbook.sizes.trade_off import Trade, sizes_in_number, trade_off

__all__ = [
    "FramedSize",
    "Offer",
    "PackerRange",
    "Packers",
    "SizeChoice",
    "Spoiler",
    "StandardSize",
    "Trade",
    "Weighed",
    "fewest_sizes",
    "framed_size",
    "heights_alike",
    "packers_for",
    "sizes_in_number",
    "spoilers",
    "trade_off",
    "weigh_money",
]

late_face(__name__)
