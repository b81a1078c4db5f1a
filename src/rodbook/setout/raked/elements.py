"""Where each part of a raked front stands when it is looked at from the room."""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.job.kinds import PartKind
from rodbook.setout.asked import Stock
from rodbook.setout.model import Element, Point
from rodbook.setout.raked.leaves import RakedLeaf
from rodbook.setout.raked.line import SlopingLine
from rodbook.setout.raked.linings import RakedLining
from rodbook.setout.raked.trims import RakedSight, trim_outlines
from rodbook.working import Measure

__all__ = ["raked_elements"]


def _element(kind: PartKind, corners: tuple[Point, ...], **more: object) -> Element:
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return Element(kind, min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys), outline=corners, **more)  # type: ignore[arg-type]


def _height(line: SlopingLine, x: float) -> float:
    return line.left.value + line.slope * x


def raked_elements(
    lining: RakedLining, leaves: Sequence[RakedLeaf], foot: Measure, sight: RakedSight | None, stock: Stock
) -> tuple[Element, ...]:
    """The elevation, back to front."""
    t, width = lining.thickness.value, lining.frame.width.value
    floor = lining.floor.value if lining.floor else 0.0

    def upright(kind: PartKind, start: float, line: SlopingLine, base: float) -> Element:
        end = start + t
        return _element(kind, ((start, base), (end, base), (end, _height(line, end)), (start, _height(line, start))))

    legs = lining.under if lining.over else lining.outer
    results = [upright(PartKind.LINING_LEG, start, legs, 0.0) for start in (0.0, width - t)]
    a, b = (0.0, width) if lining.over else (t, width - t)
    head = (
        (a, _height(lining.under, a)),
        (b, _height(lining.under, b)),
        (b, _height(lining.outer, b)),
        (a, _height(lining.outer, a)),
    )
    results.append(_element(PartKind.LINING_HEAD, head))
    if lining.floor:
        results.append(Element(PartKind.LINING_SILL, t, 0.0, width - 2 * t, t))
    if lining.build_up.hinge_lining:
        results += [upright(PartKind.HINGE_LINING, start, lining.under, floor) for start in (t, width - 2 * t)]
    if sight is not None and stock.trim is not None:
        mitred = lining.build_up.trim_joint == "mitred"
        shapes = trim_outlines(sight, stock.trim.width, lining.outer, mitred=mitred)
        results += [_element(PartKind.TRIM_LEG, shapes[side]) for side in ("left", "right")]
        results.append(_element(PartKind.TRIM_HEAD, shapes["head"]))
        if sight.base is not None:
            results.append(_element(PartKind.TRIM_HEAD, _under_trim(sight, stock.trim.width, mitred=mitred)))
    for leaf in leaves:
        x0, x1, y = leaf.x.value, leaf.far.value, foot.value
        corners = ((x0, y), (x1, y), (x1, y + leaf.size.right.value), (x0, y + leaf.size.left.value))
        results.append(
            _element(
                PartKind.DOOR,
                corners,
                label=f"leaf {leaf.number}",
                hinge_side=leaf.size.side,
                hinge_ys=tuple(y + up.value for up in leaf.ups),
            )
        )
    return tuple(results)


def _under_trim(sight: RakedSight, trim: float, *, mitred: bool) -> tuple[Point, ...]:
    assert sight.base is not None
    foot, a, b = sight.base.value, sight.x.value - trim, sight.x.value + sight.width.value + trim
    inner = trim if mitred else 0.0
    return ((a, foot - trim), (b, foot - trim), (b - inner, foot), (a + inner, foot))
