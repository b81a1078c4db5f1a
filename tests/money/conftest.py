"""The sample book with nothing in it that varies, and short ways to make parts and usage for the money tests."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Sequence
from decimal import Decimal
from importlib.resources import files
from typing import Any

import pytest

from rodbook.hinges import Boring
from rodbook.job import Book
from rodbook.money import RATE_UNITS, MaterialUsage, StockTaken
from rodbook.setout import Part, PartKind, ScheduleLine
from rodbook.working import Measure

type LineMaker = Callable[..., ScheduleLine]
type UsageMaker = Callable[..., MaterialUsage]


@pytest.fixture(scope="session")
def raw_book() -> dict[str, Any]:
    text = files("rodbook.job.samples").joinpath("book.toml").read_text(encoding="utf-8")
    raw = tomllib.loads(text)
    must = [
        {k: v for k, v in rate.items() if k != "nine_in_ten"} for rate in raw["rates"] if rate["name"] in RATE_UNITS
    ]
    return {**raw, "rates": must, "taxes": []}


@pytest.fixture(scope="session")
def book(raw_book: dict[str, Any]) -> Book:
    return Book.model_validate(raw_book)


def make_line(
    kind: str = "door",
    *,
    stock: str = "22 mm MDF",
    length: float = 2000.0,
    width: float = 500.0,
    thickness: float = 22.0,
    openings: Sequence[tuple[str, int]] = (("C1", 1),),
    cups: int = 0,
    plate_holes: int = 0,
    coats: int = 0,
    edges: tuple[str, ...] = (),
    sectional: bool = False,
    grain: bool = False,
    mark: str = "X1",
) -> ScheduleLine:
    def hole(kind: str, n: int) -> Boring:
        return Boring(kind, Measure(20.0), Measure(100.0 * n), 5.0, 12.0)  # type: ignore[arg-type]

    # every cup has its two pilots beside it, as setout makes them
    borings = [hole(k, n) for n in range(1, cups + 1) for k in ("cup", "pilot", "pilot")]
    borings += [hole("plate", n) for n in range(1, plate_holes + 1)]
    part = Part(
        PartKind(kind),
        stock,
        sectional,
        Measure(length, "length"),
        Measure(width, "width"),
        Measure(thickness, "thickness"),
        grain=grain,
        edges=edges,
        borings=tuple(borings),
        coats=coats,  # type: ignore[arg-type]
    )
    return ScheduleLine(mark, part, sum(n for _, n in openings), tuple(openings))


def make_usage(
    lines: Sequence[ScheduleLine],
    *,
    sheets: int | None = None,
    price: str = "48.00",
    size: tuple[float, float] = (2440.0, 1220.0),
    density: float = 750.0,
    cut_m: float | None = None,
    kept_m2: float = 0.0,
) -> MaterialUsage:
    """Usage of the one stock that all lines are made from; as many sheets as their area needs where none are given."""
    part = lines[0].part
    area = sum(line.part.face_m2 * line.quantity for line in lines)
    count = sheets if sheets is not None else int(area // (size[0] * size[1] * 1e-6)) + 1
    taken = (StockTaken(f"{part.stock} sheet", count, Decimal(price), *size),)
    return MaterialUsage(part.stock, part.sectional, taken, part.thickness.value, density, area, cut_m, kept_m2)


@pytest.fixture(scope="session")
def line() -> LineMaker:
    return make_line


@pytest.fixture(scope="session")
def usage_of() -> UsageMaker:
    return make_usage
