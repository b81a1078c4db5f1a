"""The survey sheet, blank to be taken to site and filled; and the packers of every lining for whoever stands at the wall."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from rodbook.errors import Infeasible
from rodbook.job import Book, Opening
from rodbook.job.readings import USUAL
from rodbook.papers.common.cautions import FIRE, HEIGHT, STRUCTURE
from rodbook.papers.common.shared import Json, Pictures, Sheetful, caution_rows, frame, writer
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.readings import draw_readings
from rodbook.papers.pictures.shape import draw_shape
from rodbook.plan import OpeningPlan, Plan
from rodbook.plan.stages.packing import out_of_range
from rodbook.plan.stages.surveying import reading_called
from rodbook.survey import FrontFit, Packer, ReadingFit, Shape, Survey, upright_front
from rodbook.working import Measure

__all__ = [
    "blank_survey_content",
    "cut_back_rows",
    "fit_rows",
    "head_rows",
    "largest_front",
    "packer_rows",
    "packers_content",
    "place_rows",
    "spare_readings",
    "survey_content",
]

SHEET: tuple[tuple[str, str], ...] = (
    ("width at foot", "widths"),
    ("width at middle", "widths"),
    ("width at head", "widths"),
    ("height at left", "heights"),
    ("height at middle", "heights"),
    ("height at right", "heights"),
    ("diagonal foot left to head right", "diagonals"),
    ("diagonal foot right to head left", "diagonals"),
    ("depth", "depth"),
    *((reading_called(name), name) for name in USUAL),
)
"""The lines of a survey sheet, in the order of the numbers on its drawing, and where each stands in the job."""

_BLANKS = 4
"""Boxes on a blank sheet of a job that has no openings yet."""


def fit_rows(survey: Survey, write: Numbers) -> list[list[str]]:
    """Each reading: as taken, its standard error, what all of them together say, the difference, and what checks it."""
    return [
        [
            fit.name,
            write.tenth(fit.value_mm),
            write.tenth(fit.standard_error_mm),
            write.tenth(fit.adjusted_mm),
            write.tenth(fit.residual_mm),
            _checked(fit),
        ]
        for fit in survey.shape.readings
    ] + [
        [
            one.name,
            write.tenth(one.value_mm),
            "",
            write.tenth(one.expected_mm),
            write.tenth(-one.slip_mm),
            "left out: take it again",
        ]
        for suspect in survey.suspects
        if suspect.is_settled
        for one in suspect.retakes
    ]


def _checked(fit: ReadingFit) -> str:
    if fit.least_slip_mm is None:
        return "by nothing"
    return f"slips from {fit.least_slip_mm:.0f} mm"


def place_rows(shape: Shape, write: Numbers) -> list[list[str]]:
    """Each point of the outline: how far right of the foot left and how far up it is, both with their standard errors."""
    return [
        [v.place, write.tenth(v.x_mm), write.tenth(v.x_error_mm), write.tenth(v.y_mm), write.tenth(v.y_error_mm)]
        for v in shape.vertices
    ]


def largest_front(shape: Shape) -> list[tuple[Measure, float]]:
    """Width and height of the largest front that goes in upright, with their standard errors; none where none goes in."""
    try:
        front = upright_front(shape, head="raked" if shape.raked else "level")
    except Infeasible:
        return []
    heights = [(front.left_height, front.left_height_error_mm), (front.right_height, front.right_height_error_mm)]
    return [(front.width, front.width_error_mm), *(heights if shape.raked else heights[:1])]


def spare_readings(shape: Shape) -> str:
    """How many readings there are to check the others, in one sentence."""
    count = shape.degrees_of_freedom
    if count == 0:
        return "No reading is to spare: nothing checks them."
    return f"{count} reading{'s are' if count > 1 else ' is'} to spare, which the others are checked by (degrees of freedom)."


def packer_rows(wall: FrontFit, write: Numbers) -> list[list[str]]:
    """Packers of the sides from the top fixing down: height, left, right; an empty cell where only one leg is so high."""
    sides = {side: {round(p.at_mm): p for p in wall.packers_at(side)} for side in ("left", "right")}
    heights = sorted({*sides["left"], *sides["right"]}, reverse=True)
    return [
        [str(at), *(_packer(sides[side][at], write) if at in sides[side] else "" for side in ("left", "right"))]
        for at in heights
    ]


def head_rows(wall: FrontFit, write: Numbers) -> list[list[str]]:
    """Packers over the head, and under the foot where timber stands on the floor, from left to right."""
    rows = [["over the head", f"{p.at_mm:.0f}", _packer(p, write)] for p in wall.packers_at("head")]
    rows += [["under the foot", f"{p.at_mm:.0f}", _packer(p, write)] for p in wall.packers_at("foot")]
    return rows


_UNDER_MM = 0.5
"""A gap under the foot from here on is told (house assumption): less closes when it is screwed down."""


def _packer(packer: Packer, write: Numbers) -> str:
    return f"{write.tenth(packer.size_mm)} ± {write.tenth(2 * packer.error_mm)}"


def cut_back_rows(entry: OpeningPlan, book: Book) -> list[str]:
    """Where the structure must be cut back, and where no packer of the build-up fills the gap, in sentences."""
    if entry.wall is None:
        return []
    beyond = out_of_range(entry.wall, book.build_up(entry.build_up))
    return [*(cut.sentence for cut in entry.wall.cut_backs), *(one.sentence for one in beyond)]


def packers_content(plan: Plan) -> Sheetful:
    """What stands on the paper of packers."""
    write = writer(plan)
    blocks: list[Json] = []
    for entry in plan.openings:
        if entry.wall is None:
            continue
        size = write.short_size(entry.wall.width_mm, entry.wall.left_height_mm)
        if abs(entry.wall.left_height_mm - entry.wall.right_height_mm) > _UNDER_MM:
            size = f"{size} left, {write.short(entry.wall.right_height_mm)} right"
        blocks.append(
            {
                "mark": entry.opening.mark,
                "room": entry.opening.room,
                "lining": size,
                "sides": [list(row) for row in packer_rows(entry.wall, write)],
                "head": [list(row) for row in head_rows(entry.wall, write)],
                "cuts": list(cut_back_rows(entry, plan.book)),
                "raked": entry.raked is not None,
            }
        )
    content: dict[str, Json] = {
        "frame": frame(plan, "Packers", title="Packers at every fixing"),
        "cautions": caution_rows([STRUCTURE, FIRE]),
        "blocks": blocks,
    }
    return Sheetful(Path(__file__).with_name("packers.typ"), content, {})


def _value(opening: Opening, line: int, field: str, write: Numbers) -> str:
    if field in USUAL:
        value = opening.readings.get(field)
    elif field == "depth":
        value = opening.depth
    else:
        values = getattr(opening, field)
        value = values[line - {"widths": 0, "heights": 3, "diagonals": 6}[field]] if values else None
    return "" if value is None else write.short(value)


def _others(opening: Opening, write: Numbers) -> list[list[str]]:
    """Readings that no line of the sheet is printed for."""
    named = {name: value for name, value in opening.readings.items() if name not in USUAL}
    return [[reading_called(name), write.short(value)] for name, value in named.items()]


def survey_content(plan: Plan) -> Sheetful:
    """What stands on the survey sheet, filled: readings, shape, how sure it is."""
    write = writer(plan)
    pictures = Pictures(write)
    blocks: list[Json] = []
    for entry in plan.openings:
        survey = entry.survey
        if survey is None:
            continue
        blocks.append(
            {
                "mark": entry.opening.mark,
                "room": entry.opening.room,
                "rows": [list(row) for row in fit_rows(survey, write)],
                "said": [*survey.sentences, spare_readings(survey.shape)],
                "places": [list(row) for row in place_rows(survey.shape, write)],
                "front": [
                    f"{write.in_working(measure.working())}, ± {write.tenth(error)}"
                    for measure, error in largest_front(survey.shape)
                ],
                "picture": pictures.add(draw_shape(survey.shape, entry.opening.mark)),
            }
        )
    content: dict[str, Json] = {
        "frame": frame(plan, "Survey", title="Survey"),
        "cautions": caution_rows([STRUCTURE]),
        "blocks": blocks,
    }
    return Sheetful(Path(__file__).with_name("survey.typ"), content, pictures.files)


def blank_survey_content(plan: Plan) -> Sheetful:
    """What stands on the survey sheet to take to site: where to read, and boxes; what is read already stands in them."""
    write = writer(plan)
    pictures = Pictures(write)
    openings = list(plan.job.openings)
    columns: list[Json] = [
        {
            "mark": o.mark,
            "room": o.room,
            "values": [_value(o, n, field, write) for n, (_, field) in enumerate(SHEET)],
            "others": [list(row) for row in _others(o, write)],
        }
        for o in openings
    ] or [{"mark": "", "room": "", "values": ["" for _ in SHEET], "others": []} for _ in range(_BLANKS)]
    content: dict[str, Json] = {
        "frame": frame(replace(plan, aside=()), "Survey, to fill in", title="Survey, to fill in"),
        "cautions": caution_rows([HEIGHT, STRUCTURE]),
        "lines": [words for words, _ in SHEET],
        "columns": columns,
        "pictures": [pictures.add(draw_readings(raked=raked)) for raked in _heads(openings)],
    }
    return Sheetful(Path(__file__).with_name("survey-blank.typ"), content, pictures.files)


def _heads(openings: list[Opening]) -> list[bool]:
    return sorted({o.head == "raked" for o in openings}) or [False]
