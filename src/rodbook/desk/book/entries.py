"""The fields of a board, a section, a hinge and a fitting, and of their first size: what each is called and where it stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.utils.translation import gettext_lazy as lazy

from rodbook.desk.book.fields import Field
from rodbook.desk.platform.book_edits import SIZES
from rodbook.desk.platform.faults import WHOLE, Form
from rodbook.desk.platform.typed_numbers import shown_number
from rodbook.errors import Place

__all__ = [
    "ENTRIES",
    "MONEY",
    "NUMBERS",
    "Entry",
    "Spec",
    "fields_of",
    "first_size",
    "places",
    "plain_size",
    "size_of",
    "values_of",
]


@dataclass(frozen=True)
class Spec:
    """One field of a form and its place in the entry.

    Parameters
    ----------
    field : str
        Name in the form.
    place : str
        Name in the entry.
    label, unit, hint : str
    kind : str
        As in `Field`.
    mode : str
        Keyboard that a phone shows.
    choices : tuple of (str, str)
        Value and word, where the kind is "choice".
    of_price : bool
        Whether it is of the first price of what is put in.
    """

    field: str
    place: str
    label: str
    unit: str = ""
    hint: str = ""
    kind: str = "text"
    mode: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    of_price: bool = False

    @property
    def at(self) -> Place:
        """Its place in the entry: its first price's where it is of that."""
        return Place(("prices", 0, self.place) if self.of_price else (self.place,))


@dataclass(frozen=True)
class Entry:
    """What can be put into one list of the book.

    Parameters
    ----------
    group : str
        Name of the list.
    noun : str
    back : str
        Name of the address that lists them.
    own : tuple of Spec
        Fields of the entry itself.
    size : tuple of Spec
        Fields of one size in which it is sold, with the price it has first; empty where it has none.
    """

    group: str
    noun: str
    back: str
    own: tuple[Spec, ...]
    size: tuple[Spec, ...] = ()


def _mm(field: str, label: str, hint: str = "") -> Spec:
    return Spec(field, field, label, "mm", hint, mode="decimal")


_NAME = Spec("name", "name", lazy("Name"), hint="As build-ups, jobs and orders call it.")
_SOURCE = Spec(
    "source", "source", lazy("Where these figures come from"), hint="A data sheet, measured, or from memory."
)
_DENSITY = (
    Spec("density_low", "density_low", lazy("Density, light end"), "kg/m³", mode="decimal"),
    Spec(
        "density_high",
        "density_high",
        "Density, heavy end",
        "kg/m³",
        "A leaf's mass is worked out from it.",
        mode="decimal",
    ),
)
_PRICE = (
    Spec("amount", "amount", lazy("Price for one, net"), "currency", mode="decimal", of_price=True),
    Spec("since", "since", lazy("From which day"), kind="date", of_price=True),
    Spec("price_source", "source", lazy("Who said so"), hint="A list, a quote, or from memory.", of_price=True),
)
_SHEET = (
    Spec("size_name", "name", lazy("What the size is called"), hint="As on the merchant's list."),
    Spec("size_length", "length", lazy("Length, along the grain"), "mm", mode="decimal"),
    Spec("size_width", "width", lazy("Width"), "mm", mode="decimal"),
    *_PRICE,
)

_MOVES = Spec(
    "moves_as",
    "moves_as",
    lazy("Moves with damp as"),
    hint=lazy("Margins through the year are worked out from it."),
    kind="choice",
    choices=(
        ("", lazy("not known")),
        ("MDF", "MDF"),
        ("particleboard", lazy("particleboard")),
        ("plywood", lazy("plywood")),
    ),
)

ENTRIES = {
    "boards": Entry(
        "boards",
        "board",
        "book-boards",
        (
            _NAME,
            _mm("thickness", "Thickness"),
            *_DENSITY,
            Spec("grain", "grain", lazy("Parts keep their length along the sheet"), kind="tick"),
            _MOVES,
            _SOURCE,
        ),
        _SHEET,
    ),
    "sections": Entry(
        "sections",
        "section",
        "book-boards",
        (
            _NAME,
            _mm("width", "Face width"),
            _mm("thickness", "Thickness"),
            *_DENSITY,
            Spec(
                "edges",
                "edges",
                lazy("Its long edges"),
                hint=lazy(
                    "As bought. Sawn ones, as of strips ripped from sheets, are arrised and filled where they show."
                ),
                kind="choice",
                choices=(("planed", lazy("planed or moulded")), ("sawn", lazy("sawn"))),
            ),
            _SOURCE,
        ),
        tuple(spec for spec in _SHEET if spec.field != "size_width"),
    ),
    "hinges": Entry(
        "hinges",
        "hinge",
        "book-hinges",
        (
            _NAME,
            _mm("cup_diameter", "Cup boring, diameter"),
            _mm("cup_depth", "Cup boring, depth"),
            _mm("cup_edge", "Leaf's edge to the edge of the cup"),
            _mm("pilot_spacing", "Between the screw pilots", "0 where there are none."),
            _mm("pilot_set_in", "Pilots further in than the cup's middle"),
            _mm("pilot_diameter", "Screw pilots, diameter"),
            _mm("pilot_depth", "Screw pilots, depth"),
            _mm("plate_set_back", "Front edge to the plate holes"),
            _mm("plate_spacing", "Between the plate holes"),
            _mm("plate_diameter", "Plate holes, diameter"),
            _mm("plate_depth", "Plate holes, depth"),
            _SOURCE,
        ),
    ),
    "fittings": Entry(
        "fittings",
        "fitting",
        "book-hinges",
        (
            _NAME,
            Spec(
                "sort",
                "sort",
                lazy("What it is"),
                kind="choice",
                choices=tuple(
                    (word, word)
                    for word in (
                        "handle",
                        "knob",
                        "push-to-open",
                        "magnetic catch",
                        "roller catch",
                        "front fixing",
                        "flap stay",
                    )
                ),
            ),
            Spec(
                "holes",
                "holes",
                lazy("Holes in the front, one or two"),
                hint=lazy("Two stand one above the other."),
                mode="numeric",
            ),
            _mm("spacing", lazy("Between two holes")),
            _mm("diameter", lazy("Holes, diameter")),
            Spec(
                "depth",
                "depth",
                lazy("Holes, depth"),
                "mm",
                lazy("Write through where they go right through the board."),
            ),
            _mm(
                "from_edge",
                lazy("In from the edge"),
                lazy("From a leaf's closing edge; of a front fixing or a stay from each side."),
            ),
            _mm(
                "place",
                lazy("Its middle, from the foot or the top"),
                lazy("A handle's or a fixing's above the foot, a catch's or a stay's below the top."),
            ),
            _mm("head_diameter", lazy("Catch: hole in the head, diameter")),
            _mm("head_depth", lazy("Catch: its depth")),
            _mm("head_set_back", lazy("Catch: set back")),
            _mm("leg_diameter", lazy("Stay: holes in the legs, diameter")),
            _mm("leg_depth", lazy("Stay: their depth")),
            _mm("leg_set_back", lazy("Stay: set back")),
            _mm("leg_down", lazy("Stay: below the flap's top")),
            _SOURCE,
        ),
    ),
}
"""By the name of the list."""


NUMBERS = ("density_low", "density_high", "holes")
"""Fields that hold a number which is no length."""

MONEY = ("amount",)
"""Fields that hold an amount."""


def values_of(entry: object, specs: tuple[Spec, ...], locale: str) -> dict[str, str]:
    """What stands in an entry that was read, by field, its numbers as the book's locale writes them."""
    return {spec.field: shown_number(getattr(entry, spec.place, None), locale) for spec in specs}


def fields_of(specs: tuple[Spec, ...], form: Form, currency: str) -> list[Field]:
    """The fields of a form, filled with what it holds, each with its fault."""
    return [
        Field(
            spec.field,
            spec.label,
            form.typed(spec.field),
            currency if spec.unit == "currency" else spec.unit,
            spec.hint,
            form.fault(spec.field),
            spec.kind,
            spec.choices,
            spec.mode,
        )
        for spec in specs
    ]


def size_of(typed: Mapping[str, str], specs: tuple[Spec, ...]) -> dict[str, object]:
    """A size with its first price, as it was typed."""
    given = [(spec, typed[spec.field]) for spec in specs if typed.get(spec.field)]
    price = {spec.place: value for spec, value in given if spec.of_price}
    return {**{spec.place: value for spec, value in given if not spec.of_price}, "prices": [price]}


def places(entry: Entry, where: Place, first: Place = WHOLE) -> dict[Place, str]:
    """Fields of the form by their place in the document, for a fault.

    Parameters
    ----------
    entry : Entry
    where : Place
        Place of the entry, or of the size where only a size is put in.
    first : Place
        What the size's place begins with after `where`.
    """
    own = {where / spec.at: spec.field for spec in entry.own}
    size = {where / first / spec.at: spec.field for spec in entry.size}
    return own | size if first.path else size


def first_size(entry: Entry) -> Place:
    """What the place of an entry's first size begins with."""
    return Place((SIZES[entry.group], 0)) if entry.size else Place()


def plain_size(entry: Entry) -> tuple[Spec, ...]:
    """The fields of a size without its first price."""
    return tuple(spec for spec in entry.size if not spec.of_price)
