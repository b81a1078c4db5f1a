"""The sizes that serve the openings, and for each other number of sizes what would have to be packed. For the firm's own use."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from rodbook.papers.common.cautions import FIRE, STRUCTURE
from rodbook.papers.common.shared import Json, Pictures, Sheetful, caution_rows, frame, leaves_in_words, writer
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.sizes import draw_sizes
from rodbook.papers.pictures.trade_off import draw_trade_off
from rodbook.plan import Plan
from rodbook.plan.analyses.trade_off import SizesTraded, sizes_traded
from rodbook.plan.stages.openings import offers_by_build_up, packer_range

__all__ = ["sizes_content"]

_CHART_ROOM = (120.0, 50.0)
"""What the page leaves for openings and sizes. [mm]"""

_STEPS_HIGH = 18.0
"""Height of the steps, so that an ordinary job has its table on the same page. [mm]"""


def sizes_content(plan: Plan) -> Sheetful:
    """What stands on the paper of sizes."""
    write = writer(plan)
    pictures = Pictures(write)
    content: dict[str, Json] = {
        "frame": frame(plan, "Sizes", title="Standard sizes and what they cost in packing"),
        "cautions": caution_rows([STRUCTURE, FIRE]),
        "rows": list(_rows(plan, write)),
        "chart": _chart(plan, pictures),
        "blocks": [_block(result, pictures, write) for result in sizes_traded(plan)],
    }
    return Sheetful(Path(__file__).with_name("sizes.typ"), content, pictures.files)


def _rows(plan: Plan, write: Numbers) -> Iterator[Json]:
    """Number, lining, leaves, openings, packers at a side and over the head."""
    for number, size in enumerate(plan.sizes.sizes if plan.sizes else (), 1):
        entries = [entry for entry in plan.openings if entry.size == number]
        front = next((entry.set_out for entry in entries if entry.set_out), None)
        packers = [entry.packers for entry in entries if entry.packers]
        yield [
            str(number),
            write.short_size(size.width, size.height),
            leaves_in_words(front, write, long=False) if front else "",
            ", ".join(size.openings),
            write.span(mm for p in packers for mm in (*p.left_mm, *p.right_mm)) if packers else "",
            write.span(mm for p in packers for mm in p.head_mm) if packers else "",
        ]


def _chart(plan: Plan, pictures: Pictures) -> Json:
    """Openings as points and sizes as corners; nothing where no opening stands."""
    by_build_up = offers_by_build_up(plan.openings, planned=True)
    if plan.sizes is None or not by_build_up:
        return None
    ranges = {
        offer.name: packer_range(plan.book.build_up(name)) for name, offers in by_build_up.items() for offer in offers
    }
    offers = [offer for result in by_build_up.values() for offer in result]
    return pictures.add(draw_sizes(offers, list(enumerate(plan.sizes.sizes, 1)), ranges, room=_CHART_ROOM))


def _block(result: SizesTraded, pictures: Pictures, write: Numbers) -> Json:
    rows: list[Json] = [
        [
            str(trade.number),
            write.tenth(trade.choice.packing_mm),
            "" if saved is None else write.tenth(saved),
            write.tenth(trade.side_mm),
            write.tenth(trade.head_mm),
            "as many as this job" if trade.number == result.now else "",
        ]
        for trade, saved in zip(result.trades, result.saved_mm, strict=True)
    ]
    return {
        "build_up": result.build_up,
        "openings": len(result.openings),
        "picture": pictures.add(draw_trade_off(result.trades, result.now, high=_STEPS_HIGH)),
        "rows": rows,
        "fewest": result.fewest,
        "spoilers": [spoiler.opening for spoiler in result.spoilers],
    }
