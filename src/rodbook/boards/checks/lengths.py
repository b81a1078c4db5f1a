"""Whether a plan for bars is what it says, found out from the plan and the job alone; see `checker` for sheets."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from decimal import Decimal

from rodbook.boards.models import Bar, BarPattern, BarPlan, Stick, hundredths

__all__ = ["check_bar_plan"]


def check_bar_plan(plan: BarPlan, sticks: Sequence[Stick], bars: Sequence[Bar], kerf: float) -> list[str]:
    """List what is wrong with a plan for these sticks and bars; nothing is wrong where the list is empty."""
    faults: list[str] = []
    known = {bar.name: bar for bar in bars}
    for number, pattern in enumerate(plan.patterns):
        place = f"pattern {number + 1} ({pattern.bar})"
        bar = known.get(pattern.bar)
        if bar is None:
            faults.append(f"{place}: there is no such bar")
        else:
            faults += [f"{place}: {fault}" for fault in _pattern_faults(pattern, bar, hundredths(kerf))]
    faults += _quantity_faults(plan, sticks)
    used: Counter[str] = Counter()
    for pattern in plan.patterns:
        used[pattern.bar] += pattern.count
    faults += [
        f"{used[bar.name]} of bar {bar.name!r} are used and there are {bar.quantity}"
        for bar in bars
        if bar.quantity is not None and used[bar.name] > bar.quantity
    ]
    cost = sum((known[x.bar].price * x.count for x in plan.patterns if x.bar in known), Decimal(0))
    if cost != plan.cost:
        faults.append(f"the bars used cost {cost}, not {plan.cost}")
    if plan.bound > plan.cost:
        faults.append(f"the bound {plan.bound} is above the cost {plan.cost}")
    if plan.proven and plan.bound != plan.cost:
        faults.append("proof is claimed with the bound below the cost")
    return faults


def _pattern_faults(pattern: BarPattern, bar: Bar, kerf: int) -> list[str]:
    """Check one pattern: the bar, the room between sticks, and what remains."""
    faults = []
    whole = hundredths(bar.length)
    if (hundredths(pattern.length), pattern.price) != (whole, bar.price):
        faults.append(f"the bar is {bar.length} mm at {bar.price}, not {pattern.length} mm at {pattern.price}")
    if pattern.count < 1 or not pattern.cuts:
        faults.append("no bars are cut, or nothing is cut from them")
    raw = hundredths(bar.end_trim)
    start, end = (raw if bar.raw_ends == 2 else 0), (raw if bar.raw_ends >= 1 else 0)
    if (hundredths(pattern.start), hundredths(pattern.end)) != (start, end):
        faults.append(
            f"{pattern.start} and {pattern.end} mm are taken off its ends, not {start / 100} and {end / 100} mm"
        )
    free = 0
    for cut in sorted(pattern.cuts, key=lambda cut: cut.position):
        if hundredths(cut.position) < free:
            faults.append(f"{cut.name!r} at {cut.position} overlaps its neighbour or has no kerf before it")
        if hundredths(cut.position) < start:
            faults.append(f"{cut.name!r} at {cut.position} begins in the end that is cut off")
        free = hundredths(cut.position) + hundredths(cut.length) + kerf
    if free - kerf > whole:
        faults.append("the sticks are longer than the bar")
    elif free - kerf > whole - end:
        faults.append("the last stick reaches into the end that is cut off")
    if hundredths(pattern.remainder) != max(0, whole - end - free):
        faults.append(f"{pattern.remainder} mm is not what remains")
    return faults


def _quantity_faults(plan: BarPlan, sticks: Sequence[Stick]) -> list[str]:
    """Check that cut and left out together are what was asked."""
    wanted: Counter[tuple[str, int]] = Counter()
    asked: Counter[str] = Counter()
    for stick in sticks:
        wanted[stick.name, hundredths(stick.length)] += stick.quantity
        asked[stick.name] += stick.quantity
    cut: Counter[tuple[str, int]] = Counter()
    for pattern in plan.patterns:
        for item in pattern.cuts:
            cut[item.name, hundredths(item.length)] += pattern.count
    faults = [
        f"{number} of {name!r} of {length / 100} mm are cut and {wanted[name, length]} wanted"
        for (name, length), number in cut.items()
        if number > wanted[name, length]
    ]
    total: Counter[str] = Counter()
    for (name, _), number in cut.items():
        total[name] += number
    for left in plan.unplaced:
        total[left.name] += left.quantity
        if left.quantity < 1 or not left.reason:
            faults.append(f"{left.name!r} is left out without number or reason")
    faults += [
        f"{total[name]} of {name!r} are cut or left out and {asked[name]} were asked for"
        for name in sorted({*total, *asked})
        if total[name] != asked[name]
    ]
    return faults
