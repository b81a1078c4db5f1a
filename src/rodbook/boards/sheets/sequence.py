"""From a layout to the cuts in the order in which a person makes them."""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.boards.models import Board, CutDirection, Layout, Saw, hundredths, millimetres

__all__ = ["CutList", "CutStep", "cut_list"]

SHEET = "sheet"
"""What the whole sheet is called before it is cut; its parts are numbered 1, 2, ... and theirs 1.1, 1.2, ..."""


@dataclass(frozen=True, slots=True)
class CutStep:
    """One cut.

    Attributes
    ----------
    number : int
        Its place in the order, from 1.
    direction : str
        ``along`` the sheet's length or ``across`` it.
    board : str
        The board that is on the saw: ``sheet``, or the label of a part cut before.
    reference : str
        The edge that runs on the fence: ``raw edge`` for the first cut of either direction at the trim, ``cut
        edge`` else.
    fence : float
        From the fence to the blade. What lies between them is what the cut yields, or at the trim what stays. [mm]
    length : float
        How long the cut is. [mm]
    yields : str
        What comes off: a piece's name, or the label of a part that is cut further or is an offcut; at the trim
        the sheet.
    use : str
        What it is: ``trim``, ``piece``, ``part`` (cut further) or ``offcut``.
    leaves : str
        What stays on the saw after the cut: the same board for the next cut, else what its last part is (as in
        `yields`); empty where nothing is left.
    """

    number: int
    direction: CutDirection
    board: str
    reference: str
    fence: float
    length: float
    yields: str
    use: str
    leaves: str


@dataclass(frozen=True, slots=True)
class CutList:
    """The cuts of one sheet.

    Attributes
    ----------
    sheet : str
        Name of the sheet.
    count : int
        How many sheets are cut by this list.
    steps : tuple of CutStep
        The cuts of one sheet, in order.
    metres : float
        Length of all cuts of one sheet. [m]
    handlings : int
        How often, for one sheet, a board is put to the fence afresh: each board for each direction, and each
        trimmed edge.
    """

    sheet: str
    count: int
    steps: tuple[CutStep, ...]
    metres: float
    handlings: int


def cut_list(layout: Layout, saw: Saw) -> CutList:
    """List the cuts of a layout in an order that a person can follow.

    The raw edges come off first, both long ones and then both ends. Then each board is divided from one edge to
    the other before any of its parts is taken up, and the parts are taken up in the order in which they were
    cut.

    Parameters
    ----------
    layout : Layout
        As `lay_out` gave it.
    saw : Saw
        The saw it was laid out for.

    Returns
    -------
    CutList
        Each cut with its fence setting, and how many metres and handlings they come to.
    """
    writer = _Writer()
    trim = hundredths(saw.edge_trim)
    if trim:
        writer.trim(hundredths(layout.length), hundredths(layout.width), trim)
    waiting: list[tuple[str, Board]] = [(SHEET, layout.tree)] if layout.tree.use == "cut" else []
    while waiting:
        label, board = waiting.pop(0)
        waiting = writer.divide(label, board) + waiting
    return CutList(layout.sheet, layout.count, tuple(writer.steps), writer.run / 100_000, writer.handlings)


class _Writer:
    """Writes cuts down one after another; lengths in hundredths of a mm."""

    def __init__(self) -> None:
        """Start with an empty list."""
        self.steps: list[CutStep] = []
        self.run = 0
        self.handlings = 0

    def write(self, direction: CutDirection, board: str, fence: int, length: int, **what: str) -> None:
        """Add one cut."""
        self.run += length
        step = CutStep(
            number=len(self.steps) + 1,
            direction=direction,
            board=board,
            reference=what["reference"],
            fence=millimetres(fence),
            length=millimetres(length),
            yields=what["yields"],
            use=what["use"],
            leaves=what["leaves"],
        )
        self.steps.append(step)

    def trim(self, length: int, width: int, trim: int) -> None:
        """Take off the four raw edges: each first with its opposite on the fence, then that with the new edge on it."""
        sides: tuple[tuple[CutDirection, int, int], ...] = (
            ("along", width, length),
            ("across", length, width - 2 * trim),
        )
        for direction, size, run in sides:
            for number, reference in ((1, "raw edge"), (2, "cut edge")):
                what = {"reference": reference, "yields": SHEET, "use": "trim", "leaves": SHEET}
                self.write(direction, SHEET, size - number * trim, run, **what)
                self.handlings += 1

    def divide(self, label: str, board: Board) -> list[tuple[str, Board]]:
        """Cut a board into its parts; give those that are cut further, with their labels."""
        assert board.cut is not None
        across = board.cut == "across"
        run = hundredths(board.width if across else board.length)
        prefix = "" if label == SHEET else f"{label}."
        labels = [f"{prefix}{number}" for number in range(1, len(board.parts) + 1)]
        last = board.parts[-1]
        # where the last part ends at the board's own edge, the cut before it has set it free
        end = (last.x + last.length, board.x + board.length) if across else (last.y + last.width, board.y + board.width)
        free = hundredths(end[0]) == hundredths(end[1])
        self.handlings += 1
        cuts = len(board.parts) - free
        for number in range(cuts):
            part = board.parts[number]
            after_last = _named(labels[-1], last) if free else ""
            self.write(
                board.cut,
                label,
                hundredths(part.length if across else part.width),
                run,
                reference="cut edge",
                yields=_named(labels[number], part),
                use="part" if part.use == "cut" else part.use,
                leaves=label if number < cuts - 1 else after_last,
            )
        return [(name, part) for name, part in zip(labels, board.parts, strict=True) if part.use == "cut"]


def _named(label: str, board: Board) -> str:
    """Call a piece by its name and everything else by its label."""
    return board.name if board.use == "piece" else label
