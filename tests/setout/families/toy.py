"""A family that no part of the program knows of: one leaf between two legs and a head, with the same gap all round."""

from typing import ClassVar, Literal

from pydantic import Field

from rodbook.job.build_ups import BuildUpBase
from rodbook.job.kinds import PartKind
from rodbook.job.units import Gap
from rodbook.setout import Dimension, DimensionName, Family, Span, Surround, given
from rodbook.setout.elevation import Outline, elements
from rodbook.setout.family import Edge
from rodbook.setout.figures import thickness_of
from rodbook.setout.hanging import hang, heaviest, leaf_sizes, leg_borings, most_hinges
from rodbook.setout.leaves import leaf_parts
from rodbook.setout.linings import Clear, clear_inside, leg_rise, lining_parts
from rodbook.setout.model import SetOut
from rodbook.setout.widths import leaf_row


class ToyBuildUp(BuildUpBase):
    """One gap, all round."""

    family: Literal["toy"] = Field(description="Says that this is a toy.")
    gap: Gap = Field(description="Between leaf and lining, all round. [mm]")

    hinge_lining: ClassVar[bool] = False
    hinge_lining_width: ClassVar[None] = None


def _clear_for(build_up, _stock, leaf, *, leaves, sill):
    assert leaves == 1, "one leaf is all that it has"
    gap = given(build_up, build_up.gap, "gap")
    return Clear((leaf[0] + 2 * gap).named("clear width"), (leaf[1] + 2 * gap).named("clear height"))


def _set_out(build_up, stock, frame):
    thickness, gap = thickness_of(stock.lining, "lining thickness"), given(build_up, build_up.gap, "gap")
    clear = clear_inside(frame.width, frame.height, thickness=thickness, sill=frame.sill)
    room = (clear.width - 2 * gap).named("leaf width")
    height = (clear.height - 2 * gap).named("leaf height").rounded_down(build_up.step)
    row = leaf_row(room, room, leaves=1, hand=frame.hand, gap=gap, step=build_up.step, wanted=frame.wanted)
    hung = [hang(build_up, stock, width, height) for width in row.widths]
    below = [[(h + gap).named("hinge below the head's underside") for h in one.heights] for one in hung]
    bores = leg_borings(
        stock,
        below,
        row.sides,
        width=given(build_up, build_up.lining_depth, "lining depth"),
        rise=leg_rise(build_up, thickness),
        further_back=thickness_of(stock.leaf, "leaf thickness"),
    )
    parts = leaf_parts(
        build_up,
        stock.leaf,
        stock.hinge,
        widths=row.widths,
        height=height,
        heights=[h.heights for h in hung],
        sides=row.sides,
    )
    linings = lining_parts(build_up, stock.lining, clear, thickness=thickness, sill=frame.sill, leg_borings=bores)
    outline = Outline(
        frame,
        thickness.value,
        clear,
        row,
        height.value,
        0,
        leaf_top=frame.height.value - thickness.value - build_up.gap,
        hinges=tuple(tuple(h.value for h in one.heights) for one in hung),
        trim=0.0,
        sight=None,
        hinge_lining=0.0,
        trim_joint=build_up.trim_joint,
        head_over=build_up.head_joint == "over",
    )
    gaps = (
        Dimension.of(((clear.width - row.block) / 2).named("gap at each side"), DimensionName.MARGIN_AT_SIDE),
        Dimension.of(gap.named("gap over the toy"), DimensionName.GAP_OVER),
        Dimension.of((clear.height - gap - height).named("gap under the toy"), DimensionName.GAP_UNDER),
    )
    return SetOut(
        build_up.name,
        build_up.family,
        1,
        frame.width,
        frame.height,
        clear.width,
        clear.height,
        row.widths[0],
        height,
        gaps,
        (row.block,),
        heaviest(hung),
        most_hinges(hung),
        (*parts, *linings),
        elements(outline),
        (),
        leaf_sizes=leaf_sizes(row, height, hung),
    )


def _across(_build_up, front):
    lining, leaf = Edge(PartKind.LINING_LEG, inner=True), Edge(PartKind.DOOR, inner=False)
    return (Span("gap", lining, leaf, front.dimension(DimensionName.MARGIN_AT_SIDE)),)


TOY = Family(
    ToyBuildUp,
    _set_out,
    _clear_for,
    within=True,
    surround=Surround.LINING,
    asked=lambda build_up, _gap: given(build_up, build_up.gap, "gap"),
    across=_across,
)
