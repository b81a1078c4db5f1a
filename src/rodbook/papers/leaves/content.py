"""The leaves: how they open, and what a joiner wants to know of one before it is made, with what each figure rests on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from rodbook.papers.common.cautions import FIRE, heaviest_leaf, lifting
from rodbook.papers.common.shared import Json, Pictures, Sheetful, caution_rows, frame, leaf_in_words, writer
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.swing import draw_swing
from rodbook.plan import (
    FreeGap,
    LeafCheck,
    LeafChecks,
    LeafPair,
    OpeningPlan,
    Plan,
    hinges_bought,
    leaf_checks,
    neighbours,
)

__all__ = ["hinge_rows", "leaf_facts", "leaves_content"]


def leaves_content(plan: Plan) -> Sheetful:
    """What stands on the paper of the leaves."""
    pictures = Pictures(writer(plan))
    beside = neighbours(plan.openings, plan.job, plan.book)
    content: dict[str, Json] = {
        "frame": frame(plan, "Leaves", title="Leaves"),
        "blocks": [
            block for entries in _alike(plan.openings) if (block := _block(plan, entries, pictures, beside)) is not None
        ],
        "hinges": hinge_rows(plan),
        "building": plan.job.job.building,
        "cautions": caution_rows([FIRE, *lifting(writer(plan), leaf=heaviest_leaf(plan))]),
    }
    return Sheetful(Path(__file__).with_name("leaves.typ"), content, pictures.files)


def hinge_rows(plan: Plan) -> list[list[str]]:
    """Hinges and plates of the whole job: which, with which arm, on which plate, how many, for which fronts."""
    write = writer(plan)
    return [
        [lot.hinge, lot.arm, f"{write.short(lot.plate_mm)} mm", str(lot.number), ", ".join(lot.openings)]
        for lot in hinges_bought(plan.openings, plan.book)
    ]


def _alike(openings: Iterable[OpeningPlan]) -> list[list[OpeningPlan]]:
    """Openings whose leaves are the same, with the same things near them, in the order in which they are met."""
    groups: dict[tuple[object, ...], list[OpeningPlan]] = defaultdict(list)
    for entry in openings:
        if entry.set_out is not None:
            groups[
                (entry.build_up, entry.set_out.assembly.geometry, entry.opening.obstacles, entry.opening.ceiling)
            ].append(entry)
    return list(groups.values())


def _block(plan: Plan, entries: list[OpeningPlan], pictures: Pictures, beside: Sequence[tuple[str, LeafPair]]) -> Json:
    first = entries[0]
    checks = leaf_checks(first, plan.book, plan.job.job.building)
    if checks is None or first.set_out is None:
        return None
    across = first.rectangle.width.value if first.rectangle else first.set_out.outer_width.value
    own = {entry.opening.mark for entry in entries}
    next_door = dict.fromkeys(str(pair) for mark, pair in beside if mark in own)
    marks = ", ".join(entry.opening.mark for entry in entries)
    near = [o.name for o in first.opening.obstacles] + (["a ceiling that slopes"] if first.opening.ceiling else [])
    return {
        "marks": marks,
        "leaf": leaf_in_words(first.set_out, writer(plan)),
        "near": ", ".join(near),
        "picture": pictures.add(draw_swing(checks.swing, across, first.opening.mark)),
        "sentences": [[answer, answer in checks.swing.amiss] for answer in checks.swing.sentences],
        "warnings": [*(answer for answer in checks.warnings if answer not in checks.swing.sentences), *next_door],
        "facts": [list(fact) for fact in leaf_facts(checks, writer(plan))],
    }


def leaf_facts(checks: LeafChecks, write: Numbers) -> tuple[tuple[str, str, str], ...]:
    """What, how much, and what that rests on.

    Parameters
    ----------
    checks : LeafChecks
    write : Numbers
    """
    skin, leaves = checks.skin, checks.leaves

    def each(value: Callable[[LeafCheck], str]) -> str:
        return by_leaf([(leaf.word, value(leaf)) for leaf in leaves])

    rows = [
        (
            "Mass of a leaf",
            each(lambda leaf: f"{write.tenth(leaf.size.mass.low)} to {write.tenth(leaf.size.mass.high)} kg"),
            "size times the board's range of density",
        ),
        ("Hinges on each", each(lambda leaf: str(leaf.size.hinges)), each(_asked)),
        (
            "Pull on the top hinge",
            each(lambda leaf: f"{write.tenth(leaf.load.pull_n[0])} to {write.tenth(leaf.load.pull_n[1])} N"),
            "mass at half the leaf's width, over the distance of top and bottom hinge",
        ),
        (
            "Left under a cup",
            f"{write.tenth(skin.nominal_mm)} mm, {write.tenth(skin.under_point_mm)} under the drill's point",
            f"at the worst {write.tenth(skin.worst_mm)} mm; tolerances are house assumptions",
        ),
        (
            "Arm and plate",
            each(lambda leaf: _plate(leaf, write)),
            f"{each(lambda leaf: _lies(leaf, write))}; constants from memory, look at the hinge in hand",
        ),
        (
            "Opens to",
            ", ".join(f"{leaf.swing.free_deg:.0f}°" for leaf in checks.swing.leaves),
            "path of a common cup hinge, its cup bored where the book's hinge wants it (house assumption)",
        ),
        _damp(checks, write),
    ]
    return tuple(rows)


def by_leaf(values: Sequence[tuple[str, str]]) -> str:
    """One value where all leaves have the same, else each value with the leaves that have it.

    >>> by_leaf([("left", "4"), ("middle", "5"), ("right", "4")])
    'left and right 4; middle 5'
    """
    groups: dict[str, list[str]] = defaultdict(list)
    for word, value in values:
        groups[value].append(word)
    if len(groups) == 1:
        return values[0][1]
    return "; ".join(f"{' and '.join(words)} {value}" for value, words in groups.items())


def _plate(leaf: LeafCheck, write: Numbers) -> str:
    plate = leaf.plate
    turn = f", side screw {write.tenth(plate.adjust_mm)} mm" if abs(plate.adjust_mm) >= 0.05 else ""
    return f"{plate.arm.name}, plate {write.short(plate.plate_height_mm)} mm{turn}"


def _lies(leaf: LeafCheck, write: Numbers) -> str:
    lap = round(leaf.hanging.lap_mm, 2)
    state = f"{write.short(lap)} mm over" if lap >= 0 else f"{write.short(-lap)} mm inside"
    return f"{state} the {leaf.hanging.on}"


def _asked(leaf: LeafCheck) -> str:
    number = leaf.number
    by = {
        "height": "its height asks for them",
        "mass": "its mass asks for them",
        "both": "height and mass ask for them",
    }
    words = by.get(number.asked_by, number.asked_by)
    return f"{words} (by height {number.by_height}, by mass {number.by_mass})"


def _damp(checks: LeafChecks, write: Numbers) -> tuple[str, str, str]:
    names = " and ".join(dict.fromkeys(gap.name for gap in checks.gaps))
    name = f"{names[:1].upper()}{names[1:]} through the year"
    years = [(_beside(checks, gap), gap.year) for gap in checks.gaps if gap.year is not None]
    if not years:
        return name, "not worked out", f"the book does not say how {checks.unmoved} moves with damp"
    made = by_leaf([(words, f"{write.tenth(year.made_mm)}") for words, year in years])
    seasons = ", ".join(
        f"{s.air.name} {write.in_hundred(s.air.humidity_pct)} at {s.air.temperature_c:g} °C"
        for s in years[0][1].seasons
    )
    values = [(words, f"{write.tenth(year.least_mm)} to {write.tenth(year.most_mm)} mm") for words, year in years]
    return name, by_leaf(values), f"made {made}; {seasons}"


def _beside(checks: LeafChecks, gap: FreeGap) -> str:
    return "between " * (len(gap.leaves) > 1) + " and ".join(checks.leaves[n - 1].word for n in gap.leaves)
