"""The form of a job's price: what stands in it, and what was typed as plain values with a fault beside each field. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from rodbook.errors import Fault
from rodbook.job.amounts import read_money
from rodbook.job.models import PriceTerms
from rodbook.job.numerals import as_typed, number_or_none

__all__ = ["EARN", "EXTRA_FIELDS", "LINES", "ExtraRow", "extra_rows", "field_of", "fields_of", "typed_terms"]

EARN = (
    ("", lazy("as the book says")),
    ("margin", lazy("by a margin: a share of the price")),
    ("mark_up", lazy("by a mark-up: a share put on the cost")),
)
"""How it is said what is earned."""

LINES = (
    ("one sum", lazy("one sum")),
    ("by opening", lazy("opening by opening")),
    ("by kind of part", lazy("by kind of part")),
)
"""How the parts stand on the client's paper."""

EXTRA_FIELDS = ("name", "cost", "hours", "group")
MOST_EXTRAS = 100
MOST_HOURS = 10**6
_SPARE = 2
_PLAIN = ("earn_how", "earn", "confidence", "taxes", "holds_days", "lines", "parts", "group", "words")


@dataclass(frozen=True)
class ExtraRow:
    """A row of what the client pays for besides the parts: its number in the form, and cells by name with their faults."""

    number: int
    cells: tuple[tuple[str, str, str], ...]
    option: bool

    @property
    def number_text(self) -> str:
        """Its number, as a template puts it into a name."""
        return str(self.number)

    @property
    def faults(self) -> tuple[tuple[str, str], ...]:
        """Cells that are at fault, and their sentences."""
        return tuple((name, fault) for name, _, fault in self.cells if fault)


def _percent(share: Decimal | None, locale: str) -> str:
    return "" if share is None else as_typed((share * 100).normalize(), locale)


def fields_of(terms: PriceTerms, locale: str) -> dict[str, str]:
    """What the form shows of a job's price as it stands, by field, its numbers as the book's locale writes them."""
    how = "margin" if terms.margin is not None else "mark_up" if terms.mark_up is not None else ""
    found = {
        "earn_how": how,
        "earn": _percent(terms.margin if how == "margin" else terms.mark_up, locale),
        "confidence": _percent(terms.confidence, locale),
        "taxes": terms.taxes or "",
        "holds_days": "" if terms.holds_days is None else str(terms.holds_days),
        "lines": terms.lines, "parts": terms.parts, "group": terms.group, "words": terms.words,
    }  # fmt: skip
    for number, extra in enumerate(terms.extras, 1):
        found |= {
            f"extra-{number}-name": extra.name,
            f"extra-{number}-cost": as_typed(extra.cost, locale) if extra.cost else "",
            f"extra-{number}-hours": as_typed(extra.hours, locale) if extra.hours else "",
            f"extra-{number}-group": extra.group,
            f"extra-{number}-option": "yes" if extra.option else "",
        }
    return found


def _numbers(typed: Mapping[str, str]) -> list[int]:
    """Rows that have anything in them."""
    filled = {int(name.split("-")[1]) for name, value in typed.items() if name.startswith("extra-") and value}
    return sorted(filled)


def extra_rows(typed: Mapping[str, str], faults: Mapping[str, str]) -> list[ExtraRow]:
    """The rows that are filled, and a few that are not."""
    filled = _numbers(typed)
    last = filled[-1] if filled else 0
    rows = [*filled, *range(last + 1, min(last + _SPARE, MOST_EXTRAS) + 1)]
    return [
        ExtraRow(
            n,
            tuple(
                (name, typed.get(f"extra-{n}-{name}", ""), faults.get(f"extra-{n}-{name}", "")) for name in EXTRA_FIELDS
            ),
            bool(typed.get(f"extra-{n}-option")),
        )
        for n in rows
    ]


def _share(
    typed: str, field: str, example: str, faults: list[Fault], locale: str, least: int = 0, most: int = 1000
) -> str | None:
    """A percentage as a share, or nothing; a fault where it is none."""
    text = typed.removesuffix("%").strip()
    if not text:
        return None
    value = number_or_none(text, locale)
    if value is None:
        faults.append(
            Fault(
                field,
                "plain.text",
                text=_("%(typed)r is no percentage; write %(example)s") % {"typed": typed, "example": example},
            )
        )
        return None
    if not least <= value <= most:
        told = {"typed": typed, "least": least, "most": most, "example": example}
        faults.append(
            Fault(
                field,
                "plain.text",
                text=_("%(typed)s is out of range; write %(least)s to %(most)s, such as %(example)s") % told,
            )
        )
        return None
    return f"{value / 100:f}"


def _amount(typed: str, field: str, faults: list[Fault], currency: str, locale: str) -> str:
    if not typed:
        return "0"
    try:
        value = read_money(typed, currency, locale)
    except ValueError as error:
        faults.append(Fault(field, "plain.text", text=str(error)))
        return "0"
    if value < 0:
        faults.append(
            Fault(field, "plain.text", text=_("%(typed)s is below nought; write nought or more") % {"typed": typed})
        )
        return "0"
    return f"{value:f}"


def _hours(typed: str, field: str, faults: list[Fault], locale: str) -> str:
    if not typed:
        return "0"
    value = number_or_none(typed, locale)
    if value is None or abs(value) >= MOST_HOURS or value != round(value, 2):
        told = {"typed": typed, "example": as_typed(Decimal("7.5"), locale)}
        faults.append(
            Fault(field, "plain.text", text=_("%(typed)r is no number of hours; write 7 or %(example)s") % told)
        )
        return "0"
    if value < 0:
        faults.append(
            Fault(field, "plain.text", text=_("%(typed)s is below nought; write nought or more") % {"typed": typed})
        )
        return "0"
    return f"{value:f}"


def typed_terms(
    posted: Mapping[str, str], before: PriceTerms, currency: str, locale: str
) -> tuple[dict[str, object], dict[str, str], list[Fault]]:
    """What was typed as a job's price.

    Parameters
    ----------
    posted : mapping
    before : PriceTerms
        What stands in the job; the price that was given to the client stays as it is.
    currency, locale : str
        The book's.

    Returns
    -------
    tuple
        Plain values for the job, what was typed by field, and faults by field.
    """
    typed = {name: posted.get(name, "").strip() for name in _PLAIN}
    for n in range(1, MOST_EXTRAS + 1):
        cells = {f"extra-{n}-{name}": posted.get(f"extra-{n}-{name}", "").strip() for name in (*EXTRA_FIELDS, "option")}
        if any(cells.values()):
            typed |= cells
    faults: list[Fault] = []
    raw: dict[str, object] = {}
    how = typed["earn_how"] if typed["earn_how"] in ("margin", "mark_up") else ""
    earn = _share(typed["earn"], "earn", "20", faults, locale, most=99 if how == "margin" else 1000)
    if how and earn is not None:
        raw[how] = earn
    elif how and not typed["earn"]:
        faults.append(Fault("earn", "plain.text", text=_("this is empty; write how much of a hundred, such as 20")))
    elif not how and typed["earn"]:
        faults.append(
            Fault("earn_how", "plain.text", text=_("a percentage is written; say whether it is a margin or a mark-up"))
        )
    if (confidence := _share(typed["confidence"], "confidence", "80", faults, locale, 1, 99)) is not None:
        raw["confidence"] = confidence
    raw |= {name: typed[name] for name in ("taxes", "holds_days", "lines", "parts", "group", "words") if typed[name]}
    extras = []
    for n in _numbers(typed):
        cell = {name: typed[f"extra-{n}-{name}"] for name in (*EXTRA_FIELDS, "option")}
        extras.append(
            {
                "name": cell["name"],
                "cost": _amount(cell["cost"], f"extra-{n}-cost", faults, currency, locale),
                "hours": _hours(cell["hours"], f"extra-{n}-hours", faults, locale),
                "group": cell["group"],
                "option": bool(cell["option"]),
            }
        )
    if extras:
        raw["extras"] = extras
    if before.given is not None:
        raw["given"] = before.given.model_dump(mode="json")
    return raw, typed, faults


def field_of(where: str, typed: Mapping[str, str]) -> str:
    """The field of the form that a fault of the job's price belongs to.

    Examples
    --------
    >>> field_of("price.extras[2].cost", {"extra-1-name": "Fitting", "extra-4-name": "Mirror"})
    'extra-4-cost'
    >>> field_of("price.margin", {}), field_of("price.taxes", {})
    ('earn', 'taxes')
    """
    place = where.split(" (")[0].removeprefix("price.")
    if place in ("margin", "mark_up"):
        return "earn"
    if place.startswith("extras["):
        number, _sep, cell = place.removeprefix("extras[").partition("]")
        rows = _numbers(typed)
        at = int(number) - 1
        return f"extra-{rows[at]}-{cell.lstrip('.') or 'name'}" if at < len(rows) else place
    return place
