"""What the page of leaves shows: how each opens, what its hinges carry, its cups leave, and damp does to its margin. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.utils.translation import gettext as _

from rodbook.desk.platform.pictures import svg_of
from rodbook.papers.common.shared import writer
from rodbook.papers.leaves.content import leaf_facts
from rodbook.papers.pictures.swing import draw_swing
from rodbook.plan import LeafChecks, OpeningPlan, Plan, front_swing, leaf_checks, neighbours

__all__ = ["LeavesView", "Standing", "leaves_view", "near_of", "standing_leaves"]


@dataclass(frozen=True)
class Standing:
    """One opening in the list: its mark, how its leaves open in a few words, and whether something is amiss."""

    mark: str
    words: str
    amiss: bool


@dataclass(frozen=True)
class LeavesView:
    """The leaves of one opening.

    Parameters
    ----------
    mark : str
    words : str
        How many leaves of which size.
    svg : str
        How they open, from above.
    sentences : tuple of str
        The same in words.
    warnings : tuple of str
    facts : tuple of (str, str, str)
        What, how much, and what that rests on.
    """

    mark: str
    words: str
    svg: str
    sentences: tuple[str, ...]
    warnings: tuple[str, ...]
    facts: tuple[tuple[str, str, str], ...]


def standing_leaves(plan: Plan) -> tuple[Standing, ...]:
    """Every opening whose front has leaves, in the job's order."""
    results: list[Standing] = []
    for entry in plan.openings:
        front = front_swing(entry, plan.book)
        if front is not None:
            angles = ", ".join(f"{leaf.swing.free_deg:.0f}°" for leaf in front.leaves)
            results.append(Standing(entry.opening.mark, angles, bool(front.amiss)))
    return tuple(results)


def leaves_view(plan: Plan, mark: str) -> LeavesView | None:
    """The leaves of the opening of that mark; None where there are none."""
    entry = next((e for e in plan.openings if e.opening.mark == mark), None)
    checks = leaf_checks(entry, plan.book, plan.job.job.building) if entry else None
    if entry is None or checks is None or entry.set_out is None:
        return None
    write = writer(plan)
    set_out = entry.set_out
    sizes = [write.short_size(size.width.value, max(size.left.value, size.right.value)) for size in set_out.leaf_sizes]
    leaf = sizes[0] if len(set(sizes)) == 1 else " + ".join(sizes)
    words = _("one leaf of %(leaf)s mm") if set_out.leaves == 1 else _("%(count)s leaves of %(leaf)s mm")
    drawing = draw_swing(checks.swing, _across(entry), mark)
    return LeavesView(
        mark,
        words % {"count": set_out.leaves, "leaf": leaf},
        svg_of(drawing, write),
        checks.swing.sentences,
        (*_worth_saying(checks), *_next_door(plan, mark)),
        leaf_facts(checks, write),
    )


def _next_door(plan: Plan, mark: str) -> tuple[str, ...]:
    """How its leaves meet those of the fronts next to it."""
    return tuple(str(pair) for at, pair in neighbours(plan.openings, plan.job, plan.book) if at == mark)


def _across(entry: OpeningPlan) -> float:
    if entry.rectangle is not None:
        return entry.rectangle.width.value
    assert entry.set_out is not None
    return entry.set_out.outer_width.value


def _worth_saying(checks: LeafChecks) -> tuple[str, ...]:
    """Warnings that the sentences under the picture do not say already."""
    return tuple(answer for answer in checks.warnings if answer not in checks.swing.sentences)


def near_of(opening: Mapping[str, object]) -> list[dict[str, object]]:
    """What stands near an opening, as it is kept."""
    result = opening.get("obstacles")
    return [dict(entry) for entry in result if isinstance(entry, dict)] if isinstance(result, list) else []
