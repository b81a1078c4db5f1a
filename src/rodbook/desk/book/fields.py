"""The fields of the book's longer forms: what each is called, what stands in it, and what may be chosen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import get_args

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.typed_numbers import in_book, shown_number
from rodbook.job import AnyBuildUp, Book
from rodbook.job.book import EdgeWay, WorkshopRates
from rodbook.job.checks import FITTING_SORTS

__all__ = ["RATES_LEAD", "Field", "build_up_form", "plain_rates", "rates_form", "typed_build_up", "typed_rates"]


@dataclass(frozen=True)
class Field:
    """One field of a form.

    Parameters
    ----------
    name, label : str
    value : str
    unit, hint, fault : str
    kind : str
        "text", "date", "tick" for yes or no, "choice" for one of `choices`.
    choices : tuple of (str, str)
        Value and word.
    mode : str
        Keyboard that a phone shows.
    """

    name: str
    label: str
    value: str
    unit: str = ""
    hint: str = ""
    fault: str = ""
    kind: str = "text"
    choices: tuple[tuple[str, str], ...] = ()
    mode: str = ""


# --- a workshop's rates -------------------------------------------------------------------------------------------

_RATES = {
    "set_up": (lazy("Set-up"), lazy("a distinct part")),
    "part": (lazy("Handling"), lazy("a part")),
    "edge_m": (lazy("Edges"), lazy("a metre")),
    "boring": (lazy("Boring"), lazy("a hole")),
    "coat_m2": (lazy("Coating"), lazy("m² and coat")),
    "delivery": (lazy("Delivery"), lazy("an order")),
    "least_order": (lazy("Least charge"), lazy("an order")),
}


RATES_LEAD = "rates_lead"
"""The field of the lead time from a day on; the workshop's own stands in the form above."""


def rates_form(latest: WorkshopRates | None, book: Book, form: Form | None, *, since: str) -> list[Field]:
    """Fields for a workshop's rates, filled with what it charges now where it does, or with what was typed."""
    values = {"since": since}

    def shown(value: object) -> str:
        return shown_number(value, book.locale)

    if latest is not None:
        values |= {name: shown(getattr(latest, name)) for name in _RATES}
        values[RATES_LEAD] = "" if latest.lead_days is None else str(latest.lead_days)
        values |= {f"board-{n}": shown(latest.board_m2.get(b.name)) for n, b in enumerate(book.boards, 1)}
        values |= {f"section-{n}": shown(latest.section_m.get(s.name)) for n, s in enumerate(book.sections, 1)}
    labels = {name: (label, f"{book.currency}, {unit}") for name, (label, unit) in _RATES.items()}
    labels |= {f"board-{n}": (b.name, f"{book.currency}, m²") for n, b in enumerate(book.boards, 1)}
    labels |= {f"section-{n}": (s.name, f"{book.currency}, a metre") for n, s in enumerate(book.sections, 1)}
    if latest is not None:
        labels |= {RATES_LEAD: (_("Order to delivery"), _("working days"))}
    labels |= {"since": (_("From which day"), ""), "source": (_("Who said so"), "")}
    hints = {
        "source": _("A quote, a list, or from memory."),
        RATES_LEAD: _("Only where it is other than the workshop’s own, above."),
    }
    modes = {"since": "", "source": "", RATES_LEAD: "numeric"}
    return [
        Field(
            name,
            label,
            form.typed(name) if form else values.get(name, ""),
            unit,
            fault=form.fault(name) if form else "",
            kind="date" if name == "since" else "text",
            mode=modes.get(name, "decimal"),
            hint=hints.get(name, ""),
        )
        for name, (label, unit) in labels.items()
    ]


type _Typed = dict[str, str]


def plain_rates(posted: Mapping[str, str], book: Book) -> _Typed:
    """What was typed of a workshop's rates, its amounts with a decimal point.

    Raises
    ------
    InputError
        With every one that can't be read for certain, at its field.
    """
    every = typed_rates(posted, book)[-1]
    money = [name for name in every if name not in ("since", "source", RATES_LEAD)]
    return in_book(every, book.currency, book.locale, money=money, numbers=(RATES_LEAD,))


def typed_rates(posted: Mapping[str, str], book: Book) -> tuple[_Typed, _Typed, _Typed, _Typed]:
    """What was typed of a workshop's rates: the plain ones, those by board, those by section, and all by field."""
    plain = {name: posted.get(name, "").strip() for name in (*_RATES, "since", "source")}
    lead = posted.get(RATES_LEAD, "").strip()
    boards = {f"board-{n}": (b.name, posted.get(f"board-{n}", "").strip()) for n, b in enumerate(book.boards, 1)}
    sections = {
        f"section-{n}": (s.name, posted.get(f"section-{n}", "").strip()) for n, s in enumerate(book.sections, 1)
    }
    every = plain | {RATES_LEAD: lead} | {field: value for field, (_, value) in (boards | sections).items()}
    return plain | {"lead_days": lead}, dict(boards.values()), dict(sections.values()), every


# --- a build-up ---------------------------------------------------------------------------------------------------

_GROUPS = (
    (
        lazy("Boards and trim"),
        (
            "leaf_board",
            "lining_board",
            "lining_depth",
            "head_joint",
            "housing",
            "hinge_lining",
            "hinge_lining_width",
            "trim",
            "trim_joint",
            "trim_set_back",
            "trim_bearing_least",
        ),
    ),
    (
        lazy("Margins and gaps"),
        (
            "side_lap",
            "reveal",
            "middle_division",
            "lap",
            "lap_top",
            "lap_bottom",
            "margin",
            "margin_top",
            "margin_bottom",
            "meeting_gap",
            "meeting",
            "meeting_rebate",
            "cover_strip",
            "floor_clearance",
            "plinth",
            "plinth_set_back",
            "at_plinth",
            "step",
        ),
    ),
    (
        lazy("Packers"),
        (
            "packer_least",
            "packer_wanted",
            "packer_most",
            "head_packer_least",
            "head_packer_wanted",
            "head_packer_most",
            "reveal_board",
            "floor_to_come",
        ),
    ),
    (lazy("Hinges"), ("hinge", "hinge_from_top", "hinge_from_bottom", "handle", "catch")),
    (
        lazy("Drawers, flaps, aprons and end panels"),
        (
            "drawer_fixing",
            "flap_stay",
            "row_rails",
            "apron_top",
            "apron_bottom",
            "apron_fixing",
            "end_panel_board",
            "end_panel_scribe",
        ),
    ),
    (lazy("Finish"), ("finish", "coats", "film", "gap_least", "source")),
    (
        lazy("Edges"),
        ("leaf_edge", "leaf_edge_thickness", "lining_edge", "lining_edge_thickness", "edging_taken_off", "machining"),
    ),
)

_LABELS = {
    "leaf_board": lazy("Board of the leaves"),
    "lining_board": lazy("Board of the linings"),
    "lining_depth": lazy("Depth of the linings"),
    "head_joint": lazy("Head of the lining"),
    "housing": lazy("Depth of the housing"),
    "hinge_lining": lazy("With a hinge lining"),
    "hinge_lining_width": lazy("Width of the hinge lining"),
    "trim": lazy("Trim"),
    "trim_joint": lazy("Corners of the trim"),
    "trim_set_back": lazy("Trim set back"),
    "trim_bearing_least": lazy("Least bearing of the trim"),
    "lap": lazy("Lap at the sides"),
    "lap_top": lazy("Lap at the head"),
    "lap_bottom": lazy("Lap at the sill"),
    "margin": lazy("Margin"),
    "margin_top": lazy("Margin at the head"),
    "margin_bottom": lazy("Margin at the sill"),
    "meeting_gap": lazy("Meeting gap"),
    "floor_clearance": lazy("Gap under the leaf"),
    "step": lazy("Workshop's step"),
    "packer_least": lazy("Side, least"),
    "packer_wanted": lazy("Side, wanted"),
    "packer_most": lazy("Side, most"),
    "head_packer_least": lazy("Head, least"),
    "head_packer_wanted": lazy("Head, wanted"),
    "head_packer_most": lazy("Head, most"),
    "reveal_board": lazy("Board on the reveals"),
    "floor_to_come": lazy("Floor still to come"),
    "hinge": lazy("Hinge"),
    "hinge_from_top": lazy("First hinge from the top"),
    "hinge_from_bottom": lazy("Last hinge from the foot"),
    "finish": lazy("Finish"),
    "coats": lazy("Coats"),
    "plinth": lazy("Plinth"),
    "plinth_set_back": lazy("Plinth set back"),
    "at_plinth": lazy("Uprights at the plinth"),
    "meeting": lazy("Meeting edges"),
    "meeting_rebate": lazy("Rebate where leaves meet"),
    "cover_strip": lazy("Cover strip"),
    "handle": lazy("Handle or knob"),
    "catch": lazy("Catch"),
    "drawer_fixing": lazy("Fixing of drawer fronts"),
    "flap_stay": lazy("Stay of flaps"),
    "row_rails": lazy("Rails behind the gaps"),
    "apron_top": lazy("Apron over the leaves"),
    "apron_bottom": lazy("Apron under the leaves"),
    "apron_fixing": lazy("Fixing of aprons"),
    "end_panel_board": lazy("Board of end panels"),
    "end_panel_scribe": lazy("Scribe on end panels"),
    "side_lap": lazy("Lap at the sides, full or half"),
    "reveal": lazy("Reveal of the edge"),
    "middle_division": lazy("Division behind a pair"),
    "film": lazy("Film of a coat"),
    "gap_least": lazy("Least gap seen"),
    "leaf_edge": lazy("Edges of the leaves"),
    "leaf_edge_thickness": lazy("Lipping or tape on leaves"),
    "lining_edge": lazy("Front edges of the linings"),
    "lining_edge_thickness": lazy("Lipping or tape on linings"),
    "edging_taken_off": lazy("Taken off the core"),
    "machining": lazy("Machining allowance"),
    "source": lazy("Where these figures come from"),
}

_PLAIN_TEXT = frozenset({"finish", "source"})


def _choices(name: str, book: Book) -> tuple[tuple[str, str], ...]:
    if name in ("leaf_board", "lining_board"):
        return tuple((b.name, b.name) for b in book.boards)
    if name == "hinge":
        return tuple((h.name, h.name) for h in book.hinges)
    if name == "end_panel_board":
        return (("", _("that of the leaves")), *((b.name, b.name) for b in book.boards))
    if name in FITTING_SORTS:
        fits = [f for f in book.fittings if f.sort in FITTING_SORTS[name]]
        return (("", _("none")), *((f.name, f.name) for f in fits))
    if name in ("trim", "cover_strip"):
        return (("", "none"), *((s.name, s.name) for s in book.sections))
    words = {
        "head_joint": ("between", "over", "housed"),
        "trim_joint": ("mitred", "butted"),
        "leaf_edge": get_args(EdgeWay),
        "lining_edge": get_args(EdgeWay),
        "side_lap": ("full", "half"),
        "meeting": ("plain", "rebated", "cover strip"),
        "at_plinth": ("notched", "stood on", "bays"),
    }.get(name, ())
    return tuple((word, word) for word in words)


def _field(name: str, entry: AnyBuildUp, book: Book, form: Form | None) -> Field:
    described = (type(entry).model_fields[name].description or "").partition(" [")[0]
    if described.rstrip(".") == _LABELS[name]:
        described = ""
    choices = _choices(name, book)
    kind = "tick" if isinstance(getattr(entry, name), bool) else "choice" if choices else "text"
    number = kind == "text" and name not in _PLAIN_TEXT
    return Field(
        name,
        _LABELS[name],
        form.typed(name) if form else shown_number(getattr(entry, name), book.locale),
        unit={"coats": "", "film": "µm"}.get(name, "mm") if number else "",
        hint=described,
        fault=form.fault(name) if form else "",
        kind=kind,
        choices=choices,
        mode="decimal" if number else "",
    )


def build_up_form(entry: AnyBuildUp, book: Book, form: Form | None) -> list[tuple[str, list[Field]]]:
    """The fields of a build-up, in groups; filled with what stands there, or with what was typed."""
    has = type(entry).model_fields
    groups = [(word, [_field(name, entry, book, form) for name in names if name in has]) for word, names in _GROUPS]
    return [(word, fields) for word, fields in groups if fields]


def typed_build_up(posted: Mapping[str, str], entry: AnyBuildUp) -> dict[str, str]:
    """What was typed of a build-up, by field; a tick is yes or nothing."""
    names = [name for _, group in _GROUPS for name in group if name in type(entry).model_fields]
    return {name: posted.get(name, "").strip() for name in names}
