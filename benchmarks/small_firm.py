"""Jobs like a small firm's, made up: the same for the same seed.

2 to 9 different sizes, 1 to 34 of each, 1 to 3 sorts of sheet with prices, up to 4 offcuts, a kerf, a trim, grain or
none. The sheets' sizes are common ones of the trade; all else is drawn.
"""

from __future__ import annotations

import random
from decimal import Decimal

from rodbook.boards import Piece, Saw, Sheet

__all__ = ["small_firm_job"]

SHEETS = ((2440, 1220), (2500, 1250), (2800, 2070), (3050, 1220), (3050, 1525), (2070, 1300), (1525, 1525))


def small_firm_job(seed: int) -> tuple[list[Piece], list[Sheet], Saw]:
    """Draw one job."""
    draw = random.Random(f"small firm {seed}")
    rate = draw.uniform(9, 32)
    sheets = []
    for length, width in draw.sample(SHEETS, draw.choice((1, 1, 1, 2, 2, 3))):
        price = Decimal(round(rate * length * width / 1e6 * draw.uniform(0.92, 1.1) * 10)) / 10
        sheets.append(Sheet(f"{length} x {width}", length, width, price))
    for number in range(draw.choice((0, 0, 0, 1, 2, 4))):
        length, width = draw.randint(400, 1600), draw.randint(250, 1100)
        sheets.append(Sheet(f"offcut {number + 1}", length, width, Decimal(0), quantity=1))
    may_turn = draw.random() < 0.5
    trim, kerf = draw.choice((0, 5, 10)), draw.choice((2.2, 3.0, 3.2, 4.0))
    room_l = max(s.length for s in sheets if s.quantity is None) - 2 * trim
    room_w = max(s.width for s in sheets if s.quantity is None) - 2 * trim
    pieces = []
    for number in range(draw.randint(2, 9)):
        shape = draw.random()
        if shape < 0.4:  # doors, sides: long and fairly wide
            length, width = draw.randint(600, 2300), draw.randint(280, 700)
        elif shape < 0.8:  # shelves, fronts
            length, width = draw.randint(250, 1100), draw.randint(150, 600)
        else:  # rails, plinths
            length, width = draw.randint(400, 1800), draw.randint(80, 150)
        length, width = min(length, room_l), min(width, room_w)
        pieces.append(Piece(f"part {number + 1}", length, width, draw.randint(1, 34), may_turn=may_turn))
    return pieces, sheets, Saw(kerf=kerf, edge_trim=trim)
