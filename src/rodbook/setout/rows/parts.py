"""The parts of a front that is divided in height: drawer fronts, flaps and aprons, and the rails behind their gaps.

Cut through from the side, the room at the right, where the fronts lie on::

      head =====|  |
                |  | flap, hung on the head
      rail =====|__|
                |  | leaf
    |           |  |

A rail stands behind the middle of its gap, so that both rows lap it alike. A flap hangs on the head, or on the rail over it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from rodbook.errors import Infeasible, Message
from rodbook.hinges import (
    LIFT_CAUTION_N,
    TWO_HANG_KG,
    Boring,
    board_mass,
    flap_lift,
    flap_moment,
    head_cup_borings,
    hinge_count,
    hinge_heights,
    plate_borings,
)
from rodbook.job.book import AnyBuildUp
from rodbook.job.kinds import PartKind
from rodbook.setout.asked import Stock
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.edges import seen_edges
from rodbook.setout.family import family_of
from rodbook.setout.figures import thickness_of
from rodbook.setout.hanging import LEAST_LEAF_MM
from rodbook.setout.linings import leg_rise
from rodbook.setout.model import Element, Part, Placed, RowSize, SetOut
from rodbook.setout.rows.holes import fixing_borings, front_handle_borings, stay_borings, stays_in_legs
from rodbook.setout.rows.tiers import Tier, Tiers
from rodbook.working import Measure

__all__ = ["Standing", "division_run", "with_rows"]

_KINDS = {"drawer": PartKind.DRAWER_FRONT, "flap": PartKind.FLAP, "apron": PartKind.APRON}


@dataclass(frozen=True)
class Standing:
    """Where the rows of a front stand.

    Parameters
    ----------
    tiers : Tiers
    width : Measure
        Of a front that takes a whole row. [mm]
    left, top : float
        Of the whole front, in the elevation. [mm]
    below_head : Measure
        Its top below the head's underside; below zero where it laps the head. [mm]
    rail_width : Measure
        Front to back. [mm]
    """

    tiers: Tiers
    width: Measure
    left: float
    top: float
    below_head: Measure
    rail_width: Measure


def _rail_middle(standing: Standing, under: Tier) -> Measure:
    """Middle of the gap over a row, below the head's underside. [mm]"""
    gap = standing.tiers.gap
    assert gap is not None
    assert under.down is not None
    return under.down - gap / 2 + standing.below_head


def division_run(standing: Standing, clear_height: Measure, thickness: Measure) -> tuple[Measure, Measure | None]:
    """Length of a division between leaves, and how far its top stands below the head's underside. [mm]

    It stands behind the leaves only: from the rail under them, or the floor, to the rail over them, or the head.
    """
    tiers, leaves = standing.tiers, standing.tiers.leaves
    if leaves is None or not tiers.divided:
        return clear_height.named("division length"), None
    place = tiers.rows.index(leaves)
    foot, lowered = clear_height, None
    if place:
        foot = _rail_middle(standing, tiers.rows[place - 1]) - thickness / 2
    if leaves.down is not None:
        lowered = (_rail_middle(standing, leaves) + thickness / 2).named("division's top below the head's underside")
    return (foot if lowered is None else foot - lowered).named("division length"), lowered


def with_rows(build_up: AnyBuildUp, stock: Stock, standing: Standing, result: SetOut) -> SetOut:
    """Add what is no leaf to a front whose leaves, if it has any, are set out.

    Raises
    ------
    Infeasible
        If a flap can't hang, or a rail does not reach both its rows.
    """
    tiers = standing.tiers
    if not tiers.divided:
        return result
    thickness = thickness_of(stock.lining, "rail thickness")
    fronts = {tier.name: _front(build_up, stock, standing, tier) for tier in tiers.rows if tier.kind != "leaves"}
    parts = [*result.parts, *(Placed(part, 1) for part in fronts.values())]
    dimensions: list[Measure] = [*result.dimensions, *(tier.height for tier in tiers.rows if tier.kind != "leaves")]
    results = list(result.elements)
    if any(e.kind is PartKind.DIVISION for e in results):
        results = _shorter_division(standing, result, thickness)
    remarks = list(result.remarks)
    hinged = {tier.name: _stations(build_up, stock, standing, tier) for tier in tiers.rows if tier.kind == "flap"}
    rails, behind = _rails(build_up, stock, standing, result, hinged)
    if rails:
        parts, results = [*parts, *(Placed(rail, 1) for rail in rails)], [*behind, *results]
        dimensions.append(Dimension.of(_lap(standing, thickness), DimensionName.LAP_ON_RAIL))
    last = tiers.rows[-1]
    if last.kind == "flap":
        parts = _hung_on_head(build_up, stock, standing, result, parts, hinged[last.name])
    if build_up.hinge_lining and hinged:
        remarks.append(Message("setout.flap_beside_hinge_lining"))
    parts = _with_stays(build_up, stock, standing, parts)
    sizes: list[RowSize] = []
    for tier in tiers.rows:
        foot = standing.top - tier.down_mm - tier.height.value
        size = _size(stock, standing, tier, foot, len(hinged.get(tier.name, ())))
        sizes.append(size)
        if tier.kind == "leaves":
            continue
        stations = tuple(standing.left + s.value for s in hinged.get(tier.name, ()))
        results.append(
            Element(
                _KINDS[tier.kind],
                standing.left,
                foot,
                standing.width.value,
                tier.height.value,
                label=tier.name,
                hinge_xs=stations,
            )
        )
        if tier.kind == "flap":
            remarks.append(_flap_remark(size, tier))
    if any(tier.kind == "drawer" for tier in tiers.rows):
        remarks.append(Message("setout.drawer_boxes_not_set_out"))
    gaps = result.gaps
    if tiers.gap is not None:
        gaps = (*gaps, Dimension.of(tiers.gap, DimensionName.ROW_GAP))
    result = replace(
        result,
        parts=tuple(parts),
        elements=tuple(results),
        dimensions=tuple(dimensions),
        gaps=gaps,
        remarks=tuple(remarks),
        rows=tuple(sizes),
    )
    return result if tiers.leaves else _without_leaves(result, standing)


def _rails(
    build_up: AnyBuildUp, stock: Stock, standing: Standing, result: SetOut, hinged: dict[str, tuple[Measure, ...]]
) -> tuple[list[Part], list[Element]]:
    """Rails behind the gaps that have one, and where they stand."""
    thickness = thickness_of(stock.lining, "rail thickness")
    head_height = result.outer_height.value - stock.lining.thickness
    rails: list[Part] = []
    behind: list[Element] = []
    for under in standing.tiers.rows[:-1]:
        if not _has_rail(build_up, result, standing.tiers, under):
            continue
        rail, start = _rail(build_up, stock, standing, result, thickness)
        if under.kind == "flap":
            rail = _carries(stock, rail, standing.left - start, hinged[under.name], None)
        rails.append(rail)
        top = head_height - _rail_middle(standing, under).value + thickness.value / 2
        behind.append(Element(PartKind.RAIL, start, top - thickness.value, rail.length.value, thickness.value))
    return rails, behind


def _without_leaves(result: SetOut, standing: Standing) -> SetOut:
    heaviest = max((size.mass for size in result.rows if size.mass), key=lambda mass: mass.high)
    tallest = max(result.rows, key=lambda size: size.height.value)
    return replace(
        result,
        leaves=0,
        leaf_width=standing.width,
        leaf_height=tallest.height,
        leaf_mass=heaviest,
        hinges=max(size.hinges for size in result.rows),
        leaf_sizes=(),
    )


def _front(build_up: AnyBuildUp, stock: Stock, standing: Standing, tier: Tier) -> Part:
    """A drawer front, flap or apron; its grain runs up as that of the leaves does."""
    board, width = stock.leaf, standing.width
    kind = _KINDS[tier.kind]
    thickness = thickness_of(board, f"{kind} thickness")
    part = Part(
        kind,
        board.name,
        sectional=False,
        length=tier.height,
        width=width.named(f"{kind} width"),
        thickness=thickness,
        grain=board.grain,
        edges=seen_edges(kind),
        finish=build_up.finish,
        coats=build_up.coats,
    )
    bores: tuple[Boring, ...] = ()
    if tier.kind == "flap":
        bores = head_cup_borings(stock.hinge, _stations(build_up, stock, standing, tier))
        bores += stay_borings(stock.flap_stay, part)
    elif tier.kind == "drawer":
        bores = fixing_borings(stock.drawer_fixing, part)
    else:
        bores = fixing_borings(stock.apron_fixing, part)
    if tier.kind != "apron":
        bores += front_handle_borings(stock.handle, part, at_foot=tier.kind == "flap")
    return replace(part, borings=bores, bored_face="back" if bores else "")


def _stations(build_up: AnyBuildUp, stock: Stock, standing: Standing, tier: Tier) -> tuple[Measure, ...]:
    """Hinges of a flap, from its left edge; alike from both ends, so that either hand is the same."""
    board, width, height = stock.leaf, standing.width, tier.height
    if height.value < LEAST_LEAF_MM:
        raise Infeasible("setout.row_too_low", row=tier.name, height_mm=height, least_mm=LEAST_LEAF_MM)
    density = board.density_low, board.density_high
    mass = board_mass(height.value, width.value, board.thickness, density_kg_per_m3=density)
    ends = Measure(build_up.hinge_from_top, "first hinge from the end", source="book")
    try:
        count = hinge_count(width.value, mass.high, table=stock.hinge_counts)
        result = hinge_heights(width, count, from_top=ends, from_bottom=ends, step=build_up.step)
    except Infeasible as error:
        raise Infeasible("setout.flap_not_hung", row=tier.name, width_mm=width, why=error.message) from None
    # What rounding leaves between them would stand on one side of the back and on the other of the front.
    half = list(result[: count // 2])
    middle = [width / 2] if count % 2 else []
    alike = [*half, *middle, *(width - at for at in reversed(half))]
    return tuple(at.named(f"hinge {n} from the flap's left edge") for n, at in enumerate(alike, 1))


def _has_rail(build_up: AnyBuildUp, result: SetOut, tiers: Tiers, under: Tier) -> bool:
    """Whether a rail stands behind the gap over a row."""
    over = tiers.rows[tiers.rows.index(under) + 1]
    divided = any(p.part.kind is PartKind.DIVISION for p in result.parts)
    return build_up.row_rails or under.kind == "flap" or (divided and "leaves" in (under.kind, over.kind))


def _lap(standing: Standing, thickness: Measure) -> Measure:
    assert standing.tiers.gap is not None
    lap = ((thickness - standing.tiers.gap) / 2).named("lap of each row over its rail")
    if lap.value <= 0:
        raise Infeasible("setout.rail_too_thin", thickness_mm=thickness, gap_mm=standing.tiers.gap)
    return lap


def _rail(
    build_up: AnyBuildUp, stock: Stock, standing: Standing, result: SetOut, thickness: Measure
) -> tuple[Part, float]:
    """A rail between the linings, or between the hinge linings, and where its left end stands. [mm]"""
    length, start = result.clear_width, stock.lining.thickness
    if build_up.hinge_lining:
        length, start = length - 2 * thickness_of(stock.lining, "hinge lining thickness"), 2 * start
    part = Part(
        PartKind.RAIL,
        stock.lining.name,
        sectional=False,
        length=length.named("rail length"),
        width=standing.rail_width.named("rail width"),
        thickness=thickness,
        grain=stock.lining.grain,
        edges=seen_edges(PartKind.RAIL),
        finish=build_up.finish,
        coats=build_up.coats,
    )
    return part, start


def _carries(
    stock: Stock, part: Part, flap_from_end: float, stations: Sequence[Measure], further_back: Measure | None
) -> Part:
    """A rail or head with the plate holes of the flap under it, seen from below with its left end at the top."""
    offset = Measure(flap_from_end, f"flap's left edge from the {part.kind}'s left end", source="elevation")
    along = [(at + offset).named(f"hinge from the {part.kind}'s left end") for at in stations]
    bores = plate_borings(stock.hinge, along, part.width, front="right", further_back=further_back)
    return replace(part, borings=(*part.borings, *bores), bored_face="inner")


def _hung_on_head(
    build_up: AnyBuildUp,
    stock: Stock,
    standing: Standing,
    result: SetOut,
    parts: Sequence[Placed],
    stations: Sequence[Measure],
) -> list[Placed]:
    head = next(e for e in result.elements if e.kind is PartKind.LINING_HEAD)
    back = thickness_of(stock.leaf, "flap thickness") if family_of(build_up).within else None
    results: list[Placed] = []
    for placed in parts:
        part = placed.part
        if part.kind is PartKind.LINING_HEAD:
            end = head.x - (part.length.value - head.width) / 2
            part = _carries(stock, part, standing.left - end, stations, back)
        results.append(replace(placed, part=part))
    return results


def _with_stays(build_up: AnyBuildUp, stock: Stock, standing: Standing, parts: list[Placed]) -> list[Placed]:
    flaps = [tier for tier in standing.tiers.rows if tier.kind == "flap"]
    if stock.flap_stay is None or not stock.flap_stay.leg_diameter:
        return parts
    inset_leg = family_of(build_up).within and not build_up.hinge_lining
    rise = None if build_up.hinge_lining else leg_rise(build_up, thickness_of(stock.lining, "lining thickness"))
    back = thickness_of(stock.leaf, "flap thickness") if inset_leg else None
    kind = PartKind.HINGE_LINING if build_up.hinge_lining else PartKind.LINING_LEG
    for tier in flaps:
        top = standing.below_head if tier.down is None else standing.below_head + tier.down
        top = (top if rise is None else top + rise).named(f"{tier.name}'s top from the part's top end")
        parts = stays_in_legs(stock.flap_stay, parts, kind, top, back)
    return parts


def _shorter_division(standing: Standing, result: SetOut, thickness: Measure) -> list[Element]:
    length, lowered = division_run(standing, result.clear_height, thickness)
    results: list[Element] = []
    for element in result.elements:
        if element.kind is PartKind.DIVISION:
            top = element.y + element.height - (lowered.value if lowered else 0.0)
            element = replace(element, y=top - length.value, height=length.value)
        results.append(element)
    return results


def _size(stock: Stock, standing: Standing, tier: Tier, foot: float, hinges: int) -> RowSize:
    if tier.kind == "leaves":
        return RowSize("leaves", standing.width, tier.height, foot)
    board, height = stock.leaf, tier.height.value
    mass = board_mass(
        height, standing.width.value, board.thickness, density_kg_per_m3=(board.density_low, board.density_high)
    )
    moment = flap_moment(mass.high, height) if tier.kind == "flap" else 0.0
    return RowSize(tier.kind, standing.width, tier.height, foot, hinges, mass, moment)


def _flap_remark(size: RowSize, tier: Tier) -> Message:
    assert size.mass is not None
    lift = flap_lift(size.mass.high)
    return Message(
        "setout.flap_pulls_down",
        row=tier.name,
        width_mm=size.width.value,
        height_mm=size.height.value,
        mass=size.mass.message,
        moment_nm=size.moment_nm,
        caution=Message("setout.flap_heavy_to_hold", force_n=lift) if lift > LIFT_CAUTION_N else None,
        two=Message("setout.two_hang_it") if size.mass.high > TWO_HANG_KG else None,
    )
