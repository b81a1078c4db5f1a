"""Rows of a front over each other: drawer fronts, flaps, leaves and aprons, and their heights.

::

    ---------------   top of the front
    | apron       |
    ===============   gap, as between two leaves
    | leaf | leaf |
    ===============
    | drawer      |
    ---------------   foot of the front
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from typing import Literal

from rodbook.errors import Infeasible, Message
from rodbook.job.book import AnyBuildUp
from rodbook.job.models import FrontRow
from rodbook.setout.figures import given
from rodbook.working import Measure

__all__ = ["LEAST_ROW_MM", "Tier", "Tiers", "front_word", "tiers_of"]

LEAST_ROW_MM = 40.0
"""A lower front has no room for a fixing and a finger (house assumption)."""

type RowKind = Literal["drawer", "flap", "leaves", "apron"]


@dataclass(frozen=True)
class Tier:
    """One row of a front.

    Parameters
    ----------
    kind : str
    name : str
        "drawer 2", counted from the floor up; plain where it is the only one of its kind.
    height : Measure
        [mm]
    down : Measure, optional
        Its top below the front's top; None at the top. [mm]
    """

    kind: RowKind
    name: str
    height: Measure
    down: Measure | None = None

    @property
    def down_mm(self) -> float:
        """Its top below the front's top. [mm]"""
        return self.down.value if self.down else 0.0


@dataclass(frozen=True)
class Tiers:
    """All rows of a front from the floor up, and the gap between two; no gap where there is one row."""

    rows: tuple[Tier, ...]
    gap: Measure | None

    @property
    def leaves(self) -> Tier | None:
        """The row of leaves, where there is one."""
        return next((tier for tier in self.rows if tier.kind == "leaves"), None)

    @property
    def divided(self) -> bool:
        """Whether there is anything but leaves."""
        return len(self.rows) > 1 or self.rows[0].kind != "leaves"


def _asked(build_up: AnyBuildUp, rows: Sequence[FrontRow]) -> list[FrontRow]:
    """What the opening asks for between the aprons of the build-up."""
    result = list(rows) or [FrontRow(kind="leaves", height=0.0, share=1.0)]
    if build_up.apron_bottom:
        result.insert(0, FrontRow(kind="apron", height=build_up.apron_bottom, share=1.0))
    if build_up.apron_top:
        result.append(FrontRow(kind="apron", height=build_up.apron_top, share=1.0))
    return result


def front_word(build_up: AnyBuildUp, rows: Sequence[FrontRow]) -> str:
    """What the height of a whole front is called: of a leaf, where it has nothing but leaves."""
    asked = _asked(build_up, rows)
    return "front height" if len(asked) > 1 or asked[0].kind != "leaves" else "leaf height"


def tiers_of(build_up: AnyBuildUp, rows: Sequence[FrontRow], height: Measure) -> Tiers:
    """Divide a front in height.

    Parameters
    ----------
    build_up : AnyBuildUp
        Meeting gap, step and aprons.
    rows : sequence of FrontRow
        As the opening asks for them, from the floor up.
    height : Measure
        Of the whole front, already rounded to what the workshop makes. [mm]

    Returns
    -------
    Tiers
        Heights and gaps add up to the front exactly: what rounding leaves over goes evenly into the gaps.

    Raises
    ------
    Infeasible
        If the heights asked for do not go into the front.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> build_up = SimpleNamespace(name="x", meeting_gap=3.0, step=0.5, apron_top=0.0, apron_bottom=0.0)
    >>> rows = [FrontRow(kind="drawer", height=200), FrontRow(kind="leaves")]
    >>> tiers = tiers_of(build_up, rows, Measure(2000.5, "front height"))
    >>> [(tier.name, float(tier.height), tier.down_mm) for tier in tiers.rows], float(tiers.gap)
    ([('drawer', 200.0, 1800.5), ('leaves', 1797.5, 0.0)], 3.0)
    """
    asked = _asked(build_up, rows)
    if len(asked) == 1:
        return Tiers((Tier(asked[0].kind, asked[0].kind, height),), None)
    gap = given(build_up, build_up.meeting_gap, "gap between rows")
    names = _names([row.kind for row in asked])
    heights = _heights(build_up, asked, names, height, gap)
    spare = height - reduce(lambda a, b: a + b, heights)
    made = (spare / (len(asked) - 1) if len(asked) > 2 else spare).named("gap between rows")
    results: list[Tier] = []
    down: Measure | None = None
    for row, name, own in reversed(list(zip(asked, names, heights, strict=True))):
        results.append(Tier(row.kind, name, own, down))
        step = own + made if down is None else down + own + made
        down = step.named(f"top of the row under the {name} below the front's top")
    return Tiers(tuple(reversed(results)), made)


def _height_name(name: str) -> str:
    return "leaf height" if name == "leaves" else f"{name} height"


def _names(kinds: Sequence[str]) -> list[str]:
    seen: dict[str, int] = {}
    results: list[str] = []
    for kind in kinds:
        seen[kind] = seen.get(kind, 0) + 1
        results.append(f"{kind} {seen[kind]}" if kinds.count(kind) > 1 else kind)
    return results


def _gaps(rows: int, gap: Measure) -> Measure:
    return gap if rows == 2 else (rows - 1) * gap


def _heights(
    build_up: AnyBuildUp, asked: Sequence[FrontRow], names: Sequence[str], height: Measure, gap: Measure
) -> list[Measure]:
    fixed = [
        Measure(row.height, _height_name(name), source="job or build-up").rounded_down(build_up.step)
        if row.height
        else None
        for row, name in zip(asked, names, strict=True)
    ]
    shares = [0.0 if row.height else row.share for row in asked]
    room = reduce(lambda a, b: a - b, [own for own in fixed if own], height - _gaps(len(asked), gap))
    rest = room.named("height that is left for the other rows")
    listed = tuple(
        Message("setout.row_asked", row=name, height_mm=row.height)
        for row, name in zip(asked, names, strict=True)
        if row.height
    )
    if not sum(shares):
        if not -1e-6 <= rest.value <= len(asked) * build_up.step:
            raise Infeasible(
                "setout.rows_not_height",
                rows=listed,
                asked_mm=sum(row.height for row in asked),
                gap_mm=gap,
                left_mm=height.value - (len(asked) - 1) * gap.value,
            )
        return [own for own in fixed if own]
    results = [
        own
        if own
        else (rest * (share / sum(shares)) if share != sum(shares) else rest)
        .named(_height_name(name))
        .rounded_down(build_up.step)
        for own, share, name in zip(fixed, shares, names, strict=True)
    ]
    low = [
        Message("setout.row_left", row=name, height_mm=own)
        for name, own in zip(names, results, strict=True)
        if own.value < LEAST_ROW_MM
    ]
    if low:
        raise Infeasible(
            "setout.rows_left_too_low",
            height_mm=height,
            beside=Message("setout.beside_rows", rows=listed) if listed else None,
            rows=low,
            least_mm=LEAST_ROW_MM,
        )
    return results
