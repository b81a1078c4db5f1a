"""Whether a plan for sheets is what it says, found out from the plan and the job alone.

Shares nothing with the search but the types. Every fault comes back as a sentence; a sound plan gives none.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from decimal import Decimal

import numpy as np

from rodbook.boards.models import (
    USABLE_OFFCUT_MM,
    Board,
    Filler,
    Layout,
    Offcut,
    Piece,
    Placed,
    Saw,
    Sheet,
    SheetPlan,
    hundredths,
)

__all__ = ["check_sheet_plan"]

Box = tuple[int, int, int, int]
"""x, y, length, width in hundredths of a mm."""


def check_sheet_plan(
    plan: SheetPlan,
    pieces: Sequence[Piece],
    sheets: Sequence[Sheet],
    saw: Saw,
    fillers: Sequence[Filler] = (),
) -> list[str]:
    """List what is wrong with a plan for these pieces, sheets and saw; nothing is wrong where the list is empty."""
    faults: list[str] = []
    own = pieces
    pieces = [*own, *(Piece(f.name, f.length, f.width, f.quantity, f.may_turn) for f in fillers)]
    known = {sheet.name: sheet for sheet in sheets}
    for number, layout in enumerate(plan.layouts):
        place = f"layout {number + 1} ({layout.sheet})"
        sheet = known.get(layout.sheet)
        if sheet is None:
            faults.append(f"{place}: there is no such sheet")
            continue
        result = _sheet_faults(layout, sheet)
        result += _piece_faults(layout, pieces)
        result += _room_faults(layout, saw)
        result += _Tree(layout, saw).faults()
        result += _offcut_faults(layout)
        faults += [f"{place}: {fault}" for fault in result]
    faults += _quantity_faults(plan, pieces, {filler.name for filler in fillers})
    faults += _filler_faults(plan, {piece.name for piece in own}, fillers)
    faults += _stock_faults(plan, sheets)
    faults += _money_faults(plan, known)
    return faults


def _box(of: Placed | Offcut | Board) -> Box:
    """Give a rectangle in hundredths."""
    return hundredths(of.x), hundredths(of.y), hundredths(of.length), hundredths(of.width)


def _usable(layout: Layout, saw: Saw) -> Box:
    """Give what the edge trim leaves of the sheet."""
    trim = hundredths(saw.edge_trim)
    return trim, trim, hundredths(layout.length) - 2 * trim, hundredths(layout.width) - 2 * trim


def _sheet_faults(layout: Layout, sheet: Sheet) -> list[str]:
    """Compare a layout's sheet with the one given."""
    faults = []
    if (hundredths(layout.length), hundredths(layout.width)) != (hundredths(sheet.length), hundredths(sheet.width)):
        faults.append(f"the sheet is {sheet.length} × {sheet.width}, not {layout.length} × {layout.width}")
    if layout.price != sheet.price:
        faults.append(f"the sheet costs {sheet.price}, not {layout.price}")
    if layout.count < 1:
        faults.append(f"{layout.count} sheets cannot be cut")
    if not layout.placed:
        faults.append("nothing is cut from it")
    return faults


def _asked(pieces: Sequence[Piece]) -> tuple[Counter[tuple[str, int, int]], Counter[tuple[str, int, int]]]:
    """Count what is wanted by name and size, and how many of those may turn."""
    wanted: Counter[tuple[str, int, int]] = Counter()
    turnable: Counter[tuple[str, int, int]] = Counter()
    for piece in pieces:
        key = (piece.name, hundredths(piece.length), hundredths(piece.width))
        wanted[key] += piece.quantity
        turnable[key] += piece.quantity if piece.may_turn else 0
    return wanted, turnable


def _key(placed: Placed) -> tuple[str, int, int]:
    """Give the name and the size, not turned, of a placed piece."""
    size = hundredths(placed.length), hundredths(placed.width)
    return (placed.name, *(size[::-1] if placed.turned else size))


def _piece_faults(layout: Layout, pieces: Sequence[Piece]) -> list[str]:
    """Find placed pieces that nobody asked for in that size, or not turned."""
    wanted, turnable = _asked(pieces)
    faults = []
    for placed in layout.placed:
        if not wanted[_key(placed)]:
            faults.append(
                f"no {placed.name!r} of {placed.length} × {placed.width}, turned {placed.turned}, was asked for"
            )
        elif placed.turned and not turnable[_key(placed)]:
            faults.append(f"{placed.name!r} is turned and may not be")
    return faults


def _room_faults(layout: Layout, saw: Saw) -> list[str]:
    """Find pieces that lie outside the trimmed sheet or closer than the kerf to a neighbour."""
    faults = []
    x0, y0, usable_length, usable_width = _usable(layout, saw)
    kerf = hundredths(saw.kerf)
    boxes = [_box(placed) for placed in layout.placed]
    for placed, (x, y, length, width) in zip(layout.placed, boxes, strict=True):
        if x < x0 or y < y0 or x + length > x0 + usable_length or y + width > y0 + usable_width:
            faults.append(f"{placed.name!r} at {placed.x}, {placed.y} lies outside the trimmed sheet")
    order = sorted(range(len(boxes)), key=lambda n: boxes[n][0])
    table = np.array([boxes[n] for n in order], dtype=np.int64).reshape(len(boxes), 4)
    starts_x, starts_y = table[:, 0], table[:, 1]
    ends_y = table[:, 1] + table[:, 3]
    for n in range(len(order)):
        last = int(np.searchsorted(starts_x, starts_x[n] + table[n, 2] + kerf, side="left"))
        beside = slice(n + 1, last)
        close = (starts_y[beside] < ends_y[n] + kerf) & (starts_y[n] < ends_y[beside] + kerf)
        for m in np.flatnonzero(close).tolist():
            one, other = layout.placed[order[n]], layout.placed[order[n + 1 + m]]
            faults.append(
                f"{one.name!r} at {one.x}, {one.y} and {other.name!r} at {other.x}, {other.y} overlap"
                " or have no kerf between them"
            )
    return faults


class _Tree:
    """Follows the cuts from the trimmed sheet down."""

    def __init__(self, layout: Layout, saw: Saw) -> None:
        """Keep what is compared with."""
        self.layout, self.saw = layout, saw
        self.kerf = hundredths(saw.kerf)
        self.found: list[str] = []
        self.pieces: Counter[tuple[str, bool, Box]] = Counter()
        self.offcuts: Counter[Box] = Counter()

    def faults(self) -> list[str]:
        """Cut the sheet as the tree says and compare what comes of it with what the layout shows."""
        if _box(self.layout.tree) != _usable(self.layout, self.saw):
            self.found.append("the cuts do not start from the trimmed sheet")
        waiting: list[tuple[Board, str | None, int]] = [(self.layout.tree, None, 0)]
        most = self.saw.max_turns
        while waiting:
            board, direction, turns = waiting.pop()
            if board.use == "piece":
                self.pieces[board.name, board.turned, _box(board)] += 1
            elif board.use == "offcut":
                self.offcuts[_box(board)] += 1
            if board.use != "cut":
                if board.parts:
                    self.found.append(f"a {board.use} is cut further")
                continue
            turns += direction is not None and board.cut != direction
            if most is not None and turns > most:
                self.found.append(f"the cutting direction changes {turns} times and may {most} times")
            self._cut(board)
            waiting += [(part, board.cut, turns) for part in board.parts]
        if self.pieces != Counter((p.name, p.turned, _box(p)) for p in self.layout.placed):
            self.found.append("the cuts do not yield the pieces shown")
        if self.offcuts != Counter(map(_box, self.layout.offcuts)):
            self.found.append("the cuts do not leave the offcuts shown")
        return self.found

    def _cut(self, board: Board) -> None:
        """Check that straight cuts from edge to edge, each a kerf wide, divide a board into its parts."""
        x, y, length, width = _box(board)
        where = f"the board of {board.length} × {board.width} at {board.x}, {board.y}"
        if board.cut not in ("along", "across"):
            self.found.append(f"{where} is cut neither along nor across")
            return
        across = board.cut == "across"
        start, end = (x, x + length) if across else (y, y + width)
        edge = start
        for number, part in enumerate(board.parts):
            part_x, part_y, part_length, part_width = _box(part)
            if across:
                straight = (part_y, part_width) == (y, width)
                begins, size = part_x, part_length
            else:
                straight = (part_x, part_length) == (x, length)
                begins, size = part_y, part_width
            if not straight:
                self.found.append(f"{where} has a part that no cut from edge to edge can yield")
            if size <= 0 or begins != edge + (self.kerf if number else 0):
                self.found.append(f"{where} has parts that are not one kerf apart")
            edge = begins + size
        if not board.parts or not 0 <= end - edge <= self.kerf:
            self.found.append(f"{where} is not used up by its parts")
        elif len(board.parts) == 1 and end == edge:
            self.found.append(f"{where} is said to be cut and is not")


def _offcut_faults(layout: Layout) -> list[str]:
    """Check that the offcut named largest is the largest usable one."""
    least = hundredths(USABLE_OFFCUT_MM)
    areas = [box[2] * box[3] for box in map(_box, layout.offcuts) if min(box[2:]) >= least]
    named = layout.largest_offcut
    if named is None:
        return ["it has a usable offcut and none is named largest"] if areas else []
    box = _box(named)
    if named not in layout.offcuts or min(box[2:]) < least or box[2] * box[3] != max(areas):
        return ["the offcut named largest is not the largest usable one"]
    return []


def _filler_faults(plan: SheetPlan, own: set[str], fillers: Sequence[Filler]) -> list[str]:
    """Check that no sheet is there for fillers alone, and what they are worth."""
    faults = []
    worth = {filler.name: filler.worth for filler in fillers}
    total = Decimal(0)
    for layout in plan.layouts:
        if layout.placed and not any(placed.name in own for placed in layout.placed):
            faults.append(f"a sheet {layout.sheet!r} is cut for fillers alone")
        total += sum((worth.get(placed.name, Decimal(0)) for placed in layout.placed), Decimal(0)) * layout.count
    if total != plan.fillers_worth:
        faults.append(f"the fillers placed are worth {total}, not {plan.fillers_worth}")
    return faults


def _quantity_faults(plan: SheetPlan, pieces: Sequence[Piece], optional: set[str]) -> list[str]:
    """Check that placed and unplaced together are what was asked; of what is optional, no more."""
    wanted, turnable = _asked(pieces)
    laid: Counter[tuple[str, int, int]] = Counter()
    turned: Counter[tuple[str, int, int]] = Counter()
    for layout in plan.layouts:
        for placed in layout.placed:
            laid[_key(placed)] += layout.count
            turned[_key(placed)] += layout.count if placed.turned else 0
    faults = [
        f"{laid[key]} of {key[0]!r} are placed and {wanted[key]} wanted" for key in laid if laid[key] > wanted[key]
    ]
    faults += [
        f"{turned[key]} of {key[0]!r} are turned and {turnable[key]} may be"
        for key in turned
        if turned[key] > turnable[key]
    ]
    total: Counter[str] = Counter()
    for key, number in laid.items():
        total[key[0]] += number
    for item in plan.unplaced:
        total[item.name] += item.quantity
        if item.quantity < 1 or not item.reason:
            faults.append(f"{item.name!r} is left out without number or reason")
    asked: Counter[str] = Counter()
    for piece in pieces:
        asked[piece.name] += piece.quantity
    faults += [
        f"{total[name]} of {name!r} are placed or left out and {asked[name]} were asked for"
        for name in sorted({*total, *asked})
        if total[name] != asked[name] and not (name in optional and total[name] < asked[name])
    ]
    return faults


def _stock_faults(plan: SheetPlan, sheets: Sequence[Sheet]) -> list[str]:
    """Check that no more sheets are used than there are."""
    used: Counter[str] = Counter()
    for layout in plan.layouts:
        used[layout.sheet] += layout.count
    return [
        f"{used[sheet.name]} of sheet {sheet.name!r} are used and there are {sheet.quantity}"
        for sheet in sheets
        if sheet.quantity is not None and used[sheet.name] > sheet.quantity
    ]


def _money_faults(plan: SheetPlan, known: dict[str, Sheet]) -> list[str]:
    """Check cost, bound and the claim of proof."""
    faults = []
    cost = sum((known[x.sheet].price * x.count for x in plan.layouts if x.sheet in known), Decimal(0))
    if cost != plan.cost:
        faults.append(f"the sheets used cost {cost}, not {plan.cost}")
    if plan.bound > plan.cost:
        faults.append(f"the bound {plan.bound} is above the cost {plan.cost}")
    if plan.proven and plan.bound != plan.cost:
        faults.append("proof is claimed with the bound below the cost")
    return faults
