"""What documents say of dates: the firm's people and days in the book, and when a job is wanted in the job."""

from __future__ import annotations

from datetime import date as Date  # noqa: N812
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints

__all__ = [
    "MERCHANT",
    "WEEKDAYS",
    "Away",
    "CrewMember",
    "FirmDates",
    "JobDates",
    "OrderTerms",
    "SupplierDates",
    "TaskTerms",
]

MERCHANT = "the merchant"
"""What whoever sells boards, hinges and fittings is called where suppliers are named."""


WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
"""Days of the week, as documents name them."""

_Weekday = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
_Trade = Literal["joinery", "painting"]
_Name = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=60)]
_Task = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=500)]


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, str_max_length=4000)


class Away(_Part):
    """Days on which somebody does not work; both ends count."""

    first: Date = Field(description="First day.")
    last: Date = Field(description="Last day.")


class CrewMember(_Part):
    """Somebody who works."""

    name: _Name = Field(description="As the lists call them.")
    trades: tuple[_Trade, ...] = Field((), max_length=2, description="What they do; everything where it is left out.")
    off: tuple[Away, ...] = Field((), max_length=200, description="Their days off.")
    confirmed: bool = Field(
        default=True,
        description="False where they come with a sample and nobody of the firm has said that they work there.",
    )


class SupplierDates(_Part):
    """On which days a workshop or the merchant works: lead times are counted on them."""

    supplier: Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200)] = Field(
        description='The workshop by its name, or "the merchant".'
    )
    days: tuple[_Weekday, ...] = Field(
        ("mon", "tue", "wed", "thu", "fri"),
        min_length=1,
        max_length=7,
        description="Days of the week on which it works.",
    )
    holidays: Annotated[str, StringConstraints(strip_whitespace=True, max_length=12)] | None = Field(
        None,
        description="Whose public holidays it keeps, as the firm's; those of the firm where left out, none where empty.",
    )
    closed: tuple[Away, ...] = Field((), max_length=200, description="When it is closed.")


class FirmDates(_Part):
    """Who works, and on which days."""

    crew: tuple[CrewMember, ...] = Field((), max_length=60, description="Everybody whose days are planned.")
    days: tuple[_Weekday, ...] = Field(
        ("mon", "tue", "wed", "thu", "fri"),
        min_length=1,
        max_length=7,
        description="Days of the week on which the firm works.",
    )
    holidays: Annotated[str, StringConstraints(strip_whitespace=True, max_length=12)] = Field(
        "", description="Whose public holidays are kept, as an ISO 3166 code such as AT or DE-BY; none where left out."
    )
    closed: tuple[Away, ...] = Field((), max_length=200, description="When the firm is closed.")
    suppliers: tuple[SupplierDates, ...] = Field(
        (), max_length=200, description="Days of those suppliers who do not simply work from Monday to Friday."
    )


class TaskTerms(_Part):
    """What is said of one task of a job instead of what was worked out."""

    name: _Task = Field(description="The task, as the programme calls it.")
    hours: Annotated[float, Field(ge=0, le=2000, allow_inf_nan=False)] | None = Field(
        None, description="How long it takes with the people that it needs; as worked out where left out. [h]"
    )
    after: tuple[_Task, ...] = Field((), max_length=20, description="Tasks that it waits for besides.")
    done: Date | None = Field(None, description="Day on which the last of it was done, once it was.")


class OrderTerms(_Part):
    """What has become of an order: when it was placed, for when it was promised, and when it came."""

    supplier: Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200)] = Field(
        description='From whom, as the programme calls them: the workshop by its name, or "the merchant".'
    )
    ordered: Date | None = Field(None, description="Day on which it was ordered.")
    promised: Date | None = Field(None, description="Day on which it was promised to come.")
    came: Date | None = Field(None, description="Day on which all of it came.")


class JobDates(_Part):
    """When a job is begun and wanted."""

    start: Date | None = Field(None, description="Day before which nothing of it is begun; today where left out.")
    by: Date | None = Field(None, description="Day by which it is wanted.")
    tasks: tuple[TaskTerms, ...] = Field(
        (), max_length=500, description="Tasks whose time or turn is given, or that are done."
    )
    orders: tuple[OrderTerms, ...] = Field(
        (), max_length=50, description="Orders that are placed, and what has come of them."
    )

    @property
    def begun(self) -> bool:
        """Whether anything of the job is said to be done, ordered or come."""
        return bool(self.orders) or any(one.done for one in self.tasks)
