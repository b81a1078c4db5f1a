"""What a job took: hours as people put them down, and invoices as they came in. A document of its own beside the job."""

from __future__ import annotations

from datetime import date as Date  # noqa: N812
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from rodbook.job.models import Document, Text, Word

__all__ = ["LONGEST_HOURS", "Actuals", "Hours", "Invoiced", "InvoicedLine"]

LONGEST_HOURS = 16
"""No entry is longer than this; more is a slip of the pen (house assumption). [h]"""

Currency = Annotated[str, StringConstraints(strip_whitespace=True, to_upper=True, pattern="^[A-Za-z]{3}$")]


class Hours(Document):
    """Time that somebody put down for one task on one day."""

    mark: Text = Field("", description="What tells it from the others; the desk gives it.")
    day: Date = Field(description="Day on which it was worked.")
    person: Word = Field(description="Who worked.")
    task: Word = Field(description="What was done: a time of the book, such as size a part, or any other work.")
    hours: Annotated[Decimal, Field(gt=0, le=LONGEST_HOURS, max_digits=8, allow_inf_nan=False)] = Field(
        description="How long. [h]"
    )
    done: Annotated[Decimal, Field(gt=0, le=1_000_000, max_digits=12, allow_inf_nan=False)] | None = Field(
        None, description="How much was done in it, in the unit of the task's time; nothing where it was not counted."
    )
    sure: bool = Field(default=False, description="Whether somebody has said that it is right though it is far off.")
    key: Text = Field("", description="By which one that is sent twice is known.")


class InvoicedLine(Document):
    """A line of an invoice."""

    what: Word = Field(description="The line of the plan that it belongs to: a board, paint, the workshop.")
    amount: Annotated[Decimal, Field(max_digits=12, allow_inf_nan=False)] = Field(
        description="Net of tax; below zero for a credit. [the invoice's currency]"
    )


class Invoiced(Document):
    """An invoice as it came in."""

    mark: Text = Field("", description="What tells it from the others; the desk gives it.")
    supplier: Word = Field(description="Who wants the money.")
    number: Word = Field(description="Number of the invoice.")
    day: Date = Field(description="Day of the invoice.")
    currency: Currency = Field(description="ISO 4217 code.")
    lines: tuple[InvoicedLine, ...] = Field(min_length=1, max_length=200, description="What it is for.")


class Actuals(Document):
    """Everything that a job took so far."""

    format: Literal[1] = Field(1, description="Version of this document's layout.")
    hours: tuple[Hours, ...] = Field((), max_length=20_000, description="Hours as they were put down.")
    invoices: tuple[Invoiced, ...] = Field((), max_length=2000, description="Invoices as they came in.")
