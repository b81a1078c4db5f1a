"""What a joiner wants to know of a leaf before it is made, with what each figure rests on."""

from __future__ import annotations

from rodbook.papers.numbers import Numbers
from rodbook.plan import LeafChecks
from rodbook.setout import SetOut

__all__ = ["leaf_facts"]


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
        ("Opens to", ", ".join(f"{leaf.swing.free_deg:.0f}°" for leaf in checks.swing.leaves),
         "path of a common cup hinge (house assumption)"),
        _damp(checks, write),
    ]  # fmt: skip
    return tuple(rows)


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
    seasons = ", ".join(f"{s.air.name} {s.air.humidity_pct:g} % at {s.air.temperature_c:g} °C" for s in year.seasons)
    return (
        name,
        f"{write.tenth(year.least_mm)} to {write.tenth(year.most_mm)} mm",
        f"made {write.tenth(year.made_mm)}; {seasons}",
    )
