"""Parts made on site: each drawn and bored as an ordered one would be, for whoever stands at the bench or on the floor."""

from __future__ import annotations

from pathlib import Path

from rodbook.job.models import Making
from rodbook.papers.common.cautions import BLADES, DUST
from rodbook.papers.common.drawn_parts import drawn_parts
from rodbook.papers.common.shared import (
    Json,
    Pictures,
    Sheetful,
    caution_rows,
    common_finish,
    frame,
    parts_in_words,
    writer,
)
from rodbook.plan import Plan

__all__ = ["site_parts_content"]


def site_parts_content(plan: Plan) -> Sheetful:
    """What stands on the paper of the parts that are made on site."""
    write = writer(plan)
    pictures = Pictures(write)
    lines = plan.lines_made(Making.SITE)
    content: dict[str, Json] = {
        "frame": frame(plan, "Parts made on site", title="Parts made on site"),
        "total": parts_in_words(lines) if lines else "",
        "bored": sum(line.quantity for line in lines if line.part.borings),
        "finish": common_finish(lines),
        "not_worked_out": [[note.where, note.sentence] for note in plan.not_worked_out],
        **drawn_parts(lines, write, pictures),
        "cautions": caution_rows([DUST, BLADES]),
    }
    return Sheetful(Path(__file__).with_name("site-parts.typ"), content, pictures.files)
