"""The leaves: how they open, and what a joiner wants to know of one before it is made, with what each figure rests on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from rodbook.papers.content.cautions import FIRE, heaviest_leaf, lifting
from rodbook.papers.content.shared import Json, Pictures, Sheetful, caution_rows, frame, leaf_in_words, writer
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.swing import draw_swing
from rodbook.plan import LeafChecks, OpeningPlan, Plan, leaf_checks
from rodbook.setout import SetOut

__all__ = ["leaf_facts", "leaves_content"]


def leaves_content(plan: Plan) -> Sheetful:
    """What stands on the paper of the leaves."""
    pictures = Pictures(writer(plan))
    content: dict[str, Json] = {
        "frame": frame(plan, "Leaves", title="Leaves"),
        "blocks": [
            block for entries in _alike(plan.openings) if (block := _block(plan, entries, pictures)) is not None
        ],
        "building": plan.job.job.building,
        "cautions": caution_rows([FIRE, *lifting(writer(plan), leaf=heaviest_leaf(plan))]),
    }
    return Sheetful("leaves.typ", content, pictures.files)


def _alike(openings: Iterable[OpeningPlan]) -> list[list[OpeningPlan]]:
    """Openings whose leaves are the same, with the same things near them, in the order in which they are met."""
    groups: dict[tuple[object, ...], list[OpeningPlan]] = defaultdict(list)
    for entry in openings:
        if entry.set_out is not None:
            groups[(entry.build_up, entry.set_out.elements, entry.opening.obstacles, entry.opening.ceiling)].append(
                entry
            )
    return list(groups.values())


def _block(plan: Plan, entries: list[OpeningPlan], pictures: Pictures) -> Json:
    first = entries[0]
    checks = leaf_checks(first, plan.book, plan.job.job.building)
    if checks is None or first.set_out is None:
        return None
    across = first.rectangle.width.value if first.rectangle else first.set_out.outer_width.value
    marks = ", ".join(entry.opening.mark for entry in entries)
    near = [o.name for o in first.opening.obstacles] + (["a ceiling that slopes"] if first.opening.ceiling else [])
    return {
        "marks": marks,
        "leaf": leaf_in_words(first.set_out, writer(plan)),
        "near": ", ".join(near),
        "picture": pictures.add(draw_swing(checks.swing, across, first.opening.mark)),
        "sentences": [[said, said in checks.swing.amiss] for said in checks.swing.sentences],
        "warnings": [said for said in checks.warnings if said not in checks.swing.sentences],
        "facts": [list(fact) for fact in leaf_facts(checks, first.set_out, writer(plan))],
    }


def leaf_facts(checks: LeafChecks, set_out: SetOut, write: Numbers) -> tuple[tuple[str, str, str], ...]:
    """What, how much, and what that rests on.

    Parameters
    ----------
    checks : LeafChecks
    set_out : SetOut
    write : Numbers
    """
    mass, load, skin = set_out.leaf_mass, checks.load, checks.skin
    rows = [
        ("Mass of a leaf", f"{write.tenth(mass.low)} to {write.tenth(mass.high)} kg", "size times the board's range of density"),
        ("Hinges on each", str(set_out.hinges), _asked(checks)),
        ("Pull on the top hinge", f"{write.tenth(load.pull_n[0])} to {write.tenth(load.pull_n[1])} N",
         "mass at half the leaf's width, over the distance of top and bottom hinge"),
        ("Left under a cup", f"{write.tenth(skin.nominal_mm)} mm, {write.tenth(skin.under_point_mm)} under the drill's point",
         f"at the worst {write.tenth(skin.worst_mm)} mm; tolerances are house assumptions"),
        _plate(checks, write),
        ("Opens to", ", ".join(f"{leaf.swing.free_deg:.0f}°" for leaf in checks.swing.leaves),
         "path of a common cup hinge (house assumption)"),
        _damp(checks, write),
    ]  # fmt: skip
    return tuple(rows)


def _plate(checks: LeafChecks, write: Numbers) -> tuple[str, str, str]:
    plate = checks.plate
    beside = (
        f"lies {write.short(checks.lap_mm)} mm over"
        if checks.lap_mm >= 0
        else f"stands {write.short(-checks.lap_mm)} mm inside"
    )
    turn = f", side screw {write.tenth(plate.adjust_mm)} mm" if abs(plate.adjust_mm) >= 0.05 else ""
    return (
        "Arm and plate", f"{plate.arm.name}, plate {write.short(plate.plate_height_mm)} mm{turn}",
        f"the leaf {beside} what carries it; constants from memory, look at the hinge in hand",
    )  # fmt: skip


def _asked(checks: LeafChecks) -> str:
    number = checks.number
    by = {
        "height": "its height asks for them",
        "mass": "its mass asks for them",
        "both": "height and mass ask for them",
    }
    words = by.get(number.asked_by, number.asked_by)
    return f"{words} (by height {number.by_height}, by mass {number.by_mass})"


def _damp(checks: LeafChecks, write: Numbers) -> tuple[str, str, str]:
    name = f"{checks.margin[:1].upper()}{checks.margin[1:]} through the year"
    if checks.year is None:
        return name, "not worked out", f"the book does not say how {checks.unmoved} moves with damp"
    year = checks.year
    seasons = ", ".join(
        f"{s.air.name} {write.in_hundred(s.air.humidity_pct)} at {s.air.temperature_c:g} °C" for s in year.seasons
    )
    return (
        name,
        f"{write.tenth(year.least_mm)} to {write.tenth(year.most_mm)} mm",
        f"made {write.tenth(year.made_mm)}; {seasons}",
    )
