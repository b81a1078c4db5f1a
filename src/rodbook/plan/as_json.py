"""A plan, or any part of one, as plain values that JSON can hold: each Measure with its working."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from enum import Enum

from pydantic import BaseModel

from rodbook.boards.cut_tree import Board
from rodbook.errors import Message
from rodbook.plan.model import Plan
from rodbook.survey import Shape
from rodbook.wording import said_as_data
from rodbook.working import Measure

__all__ = ["JSON", "as_json", "plan_json"]

type JSON = bool | int | float | str | list[JSON] | dict[str, JSON] | None


def as_json(value: object) -> JSON:
    """Turn a value of the core into plain values.

    A Measure becomes its name, value, unit and working; money and dates become text; a shape's covariance, which is
    hundreds of figures, is left out. The cuts of a sheet become one flat list, each board before its parts and with the place
    in the list of the board that it is cut `out_of`: cuts may follow on each other deeper than JSON is read elsewhere.

    Raises
    ------
    TypeError
        If there is something in it that no stage makes.

    Examples
    --------
    >>> as_json(Measure(842.0, "clear width"))
    {'name': 'clear width', 'value': 842.0, 'unit': 'mm', 'working': 'clear width = 842.0'}
    """
    if isinstance(value, Measure):
        return {"name": value.name, "value": value.value, "unit": value.unit, "working": value.working()}
    if isinstance(value, Enum):
        return as_json(value.value)
    if value is None or isinstance(value, bool | int | float | str):
        return value
    if isinstance(value, Decimal | date):
        return str(value)
    if isinstance(value, BaseModel):
        dumped: JSON = value.model_dump(mode="json", exclude_defaults=True)
        return dumped
    if isinstance(value, Board):
        return _boards(value)
    if isinstance(value, Message):
        return said_as_data(value)
    if is_dataclass(value):
        left_out = ("covariance",) if isinstance(value, Shape) else ()
        return {f.name: as_json(getattr(value, f.name)) for f in fields(value) if f.name not in left_out}
    if isinstance(value, Mapping):
        return {str(as_json(key)): as_json(entry) for key, entry in value.items()}
    if isinstance(value, tuple | list | frozenset | set):
        return [as_json(entry) for entry in value]
    raise TypeError(f"{type(value).__name__} has no JSON form")


def _boards(tree: Board) -> list[JSON]:
    """List the boards of a sheet's cuts."""
    results: list[JSON] = []
    waiting: list[tuple[Board, int | None]] = [(tree, None)]
    while waiting:
        board, out_of = waiting.pop()
        waiting += [(part, len(results)) for part in reversed(board.parts)]
        own = {f.name: as_json(getattr(board, f.name)) for f in fields(board) if f.name != "parts"}
        results.append({"out_of": out_of, **own})
    return results


def plan_json(plan: Plan) -> dict[str, JSON]:
    """A plan as plain values; the book is left out, as it is an input of its own."""
    return {field.name: as_json(getattr(plan, field.name)) for field in fields(plan) if field.name != "book"}
