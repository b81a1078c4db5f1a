"""The book against itself."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date as Date  # noqa: N812

from babel import Locale, UnknownLocaleError
from babel.numbers import list_currencies
from pydantic import BaseModel

from rodbook.errors import Fault, Message, Place
from rodbook.job.book import (
    AnyBuildUp,
    Board,
    Book,
    Fitting,
    HingeType,
    Section,
    Workshop,
)
from rodbook.job.checks.openings import LEAST_ROW_MM
from rodbook.job.checks.read import BookParts, Entries
from rodbook.job.checks.words import Sort, duplicates, odd_character, unknown_name, unprintable
from rodbook.job.dates import MERCHANT, Away
from rodbook.job.faults import nearest

__all__ = ["FITTING_SORTS", "check_book", "check_book_parts"]


def _away_faults(at: Place, away: Sequence[Away]) -> Iterator[Fault]:
    for one in away:
        if one.last < one.first:
            yield Fault(at, "days.end_before_begin", first=one.first, last=one.last)


def _firm_dates_faults(book: Book) -> Iterator[Fault]:
    dates, at = book.dates, Place(("dates",))
    yield from duplicates(((at / "crew" / n, one.name) for n, one in enumerate(dates.crew)), "name")
    for number, member in enumerate(dates.crew):
        yield from _away_faults((at / "crew" / number / "off").marked(member.name), member.off)
        yield from unprintable(member, at / "crew" / number)
    yield from _away_faults(at / "closed", dates.closed)
    yield from _supplier_faults(book)


def _supplier_faults(book: Book) -> Iterator[Fault]:
    suppliers, at = book.dates.suppliers, Place(("dates", "suppliers"))
    yield from duplicates(((at / n, one.supplier) for n, one in enumerate(suppliers)), "supplier")
    known = [MERCHANT, *(shop.name for shop in book.workshops)]
    for number, one in enumerate(suppliers):
        if one.supplier not in known:
            hint = nearest(one.supplier, known) or Message("book.name_a_workshop", merchant=MERCHANT)
            yield Fault(at / number / "supplier", "book.no_such_supplier", supplier=one.supplier, hint=hint)
        yield from _away_faults((at / number / "closed").marked(one.supplier), one.closed)
        yield from unprintable(one, at / number)


def _order(at: Place, values: tuple[float, float, float]) -> Iterator[Fault]:
    if list(values) != sorted(values):
        least, wanted, most = values
        yield Fault(at, "book.packers_out_of_order", least_mm=least, wanted_mm=wanted, most_mm=most)


def _meeting_faults(build_up: AnyBuildUp, at: Place, parts: BookParts) -> Iterator[Fault]:
    """Meeting edges and what is put on the leaves."""
    if (build_up.meeting == "cover strip") != (build_up.cover_strip is not None):
        yield Fault(at / "cover_strip", "book.cover_strip_or_none")
    if build_up.cover_strip is not None:
        yield from unknown_name(at / "cover_strip", Sort.SECTION, build_up.cover_strip, parts.sections.known())
    if (build_up.meeting == "rebated") != (build_up.meeting_rebate > 0):
        yield Fault(at / "meeting_rebate", "book.rebate_or_none")
    for name, sorts in FITTING_SORTS.items():
        value = getattr(build_up, name)
        if value is None:
            continue
        yield from unknown_name(at / name, Sort.FITTING, value, parts.fittings.known())
        fitting = parts.fittings.named().get(value)
        if fitting and fitting.sort not in sorts:
            field = name.replace("_", " ")
            yield Fault(at / name, "book.fitting_of_another_sort", name=value, sort=fitting.sort, field=field)


FITTING_SORTS: Mapping[str, tuple[str, ...]] = {
    "handle": ("handle", "knob"),
    "catch": ("push-to-open", "magnetic catch", "roller catch"),
    "drawer_fixing": ("front fixing",),
    "apron_fixing": ("front fixing",),
    "flap_stay": ("flap stay",),
}
"""Fields of a build-up that name a fitting, and what sorts of it they take."""


def _hole_faults(entry: HingeType | Fitting, at: Place) -> Iterator[Fault]:
    """Holes of which the book gives a diameter and no depth, or pilots without either."""
    if isinstance(entry, HingeType):
        wanted = ("pilot_diameter", "pilot_depth") if entry.pilot_spacing else ()
    else:
        wanted = (*(("head_depth",) if entry.head_diameter else ()), *(("leg_depth",) if entry.leg_diameter else ()))
    for name in wanted:
        if not getattr(entry, name):
            yield Fault(at / name, "book.hole_without_size")
    if isinstance(entry, Fitting) and entry.holes == 2 and not entry.spacing and (entry.diameter or entry.leg_diameter):
        yield Fault(at / "spacing", "book.holes_without_spacing")


def _front_faults(build_up: AnyBuildUp, at: Place, parts: BookParts) -> Iterator[Fault]:
    """Aprons and end panels."""
    for name in ("apron_top", "apron_bottom"):
        height = getattr(build_up, name)
        if 0 < height < LEAST_ROW_MM:
            yield Fault(at / name, "book.apron_too_low", height_mm=height, least_mm=LEAST_ROW_MM)
    if build_up.end_panel_board is not None:
        yield from unknown_name(at / "end_panel_board", Sort.BOARD, build_up.end_panel_board, parts.boards.known())


def _edge_faults(build_up: AnyBuildUp, at: Place) -> Iterator[Fault]:
    for way, name in (
        (build_up.leaf_edge, "leaf_edge_thickness"),
        (build_up.lining_edge, "lining_edge_thickness"),
    ):
        put_on = way in ("taped", "lipped")
        if put_on != (getattr(build_up, name) > 0):
            yield Fault(at / name, "book.edging_without_thickness" if put_on else "book.edging_put_on", way=way)


def _lining_faults(build_up: AnyBuildUp, at: Place, lining: Board | None) -> Iterator[Fault]:
    """What does not go with the thickness of the lining, and the joint at its head."""
    if (build_up.head_joint == "housed") != (build_up.housing > 0):
        yield Fault(at / "housing", "book.housing_or_none")
    if lining and build_up.housing >= lining.thickness:
        value = build_up.housing
        yield Fault(at / "housing", "book.housing_through_lining", value_mm=value, lining_mm=lining.thickness)


def _build_up_faults(build_up: AnyBuildUp, at: Place, parts: BookParts) -> Iterator[Fault]:
    boards = parts.boards.known()
    yield from unknown_name(at / "leaf_board", Sort.BOARD, build_up.leaf_board, boards)
    yield from unknown_name(at / "lining_board", Sort.BOARD, build_up.lining_board, boards)
    yield from unknown_name(at / "hinge", Sort.HINGE, build_up.hinge, parts.hinges.known())
    if build_up.trim is not None:
        yield from unknown_name(at / "trim", Sort.SECTION, build_up.trim, parts.sections.known())
    packers = (build_up.packer_least, build_up.packer_wanted, build_up.packer_most)
    yield from _order(at / "packer_least", packers)
    packers = (build_up.head_packer_least, build_up.head_packer_wanted, build_up.head_packer_most)
    yield from _order(at / "head_packer_least", packers)
    lining = parts.boards.named().get(build_up.lining_board)
    yield from _edge_faults(build_up, at)
    yield from _lining_faults(build_up, at, lining)
    yield from _meeting_faults(build_up, at, parts)
    yield from _front_faults(build_up, at, parts)
    yield from build_up.own_faults(at, lining.thickness if lining else None)
    hinge = parts.hinges.named().get(build_up.hinge)
    for name in ("lining_depth", "hinge_lining_width"):
        value = getattr(build_up, name)
        if hinge and value is not None and value < hinge.plate_set_back + hinge.plate_diameter:
            yield Fault(at / name, "book.no_room_for_plate", value_mm=value, in_mm=hinge.plate_set_back)


def _same_day(at: Place, days: Iterable[Date], of: str = "") -> Iterator[Fault]:
    """Prices of a size, or sets of a workshop's rates, that hold from one day on."""
    for day, count in Counter(days).items():
        if count > 1 and of:
            yield Fault(at, "book.prices_of_one_day", count=count, of=of, day=day)
        elif count > 1:
            yield Fault(at, "book.rates_of_one_day", count=count, day=day)


def _material_faults(at: Place, entry: Board | Section) -> Iterator[Fault]:
    if entry.density_low > entry.density_high:
        yield Fault(at / "density_low", "book.density_low_above_high")
    if isinstance(entry, Board):
        yield from _wanted_faults(entry, at)
    labels = [size.name for size in (entry.sheets if isinstance(entry, Board) else entry.lengths)]
    labels += [offcut.label for offcut in entry.offcuts] if isinstance(entry, Board) else []
    for label, count in Counter(labels).items():
        if count > 1:
            yield Fault(at, "book.label_on_several", label=label, count=count)
    for size in entry.sheets if isinstance(entry, Board) else entry.lengths:
        yield from _same_day(at, (price.since for price in size.prices), size.name)


def _wanted_faults(board: Board, at: Place) -> Iterator[Fault]:
    """Pieces wanted from waste that no sheet of the board can give."""
    for number, piece in enumerate(board.wanted):
        ways = [(piece.length, piece.width), (piece.width, piece.length)][: 1 + (not board.grain)]
        if not any(way[0] <= size.length and way[1] <= size.width for way in ways for size in board.sheets):
            yield Fault(
                (at / "wanted" / number / "length").marked(piece.label),
                "book.wanted_larger_than_sheets",
                length_mm=piece.length,
                width_mm=piece.width,
                board=board.name,
            )


def _label_faults(boards: Entries[Board]) -> Iterator[Fault]:
    """Labels that stand on more than one thing: what is wanted, over all boards, and the offcuts that lie in the shop."""
    wanted = [
        (Place(("boards", n - 1, "wanted", at)), piece.label)
        for n, board in boards.read.items()
        for at, piece in enumerate(board.wanted)
    ]
    yield from duplicates(wanted, "label")
    lying = {offcut.label for board in boards.read.values() for offcut in board.offcuts}
    for at, label in wanted:
        if label in lying:
            yield Fault((at / "label").marked(label), "book.label_on_offcut", label=label)


def _kerf_faults(book: Book) -> Iterator[Fault]:
    """Wanted pieces that the blade would turn to dust."""
    for number, board in enumerate(book.boards):
        for n, piece in enumerate(board.wanted):
            if (least := min(piece.length, piece.width)) < book.saw.kerf:
                name = "length" if piece.length == least else "width"
                at = Place(("boards", number, "wanted", n, name), piece.label)
                yield Fault(at, "book.wanted_below_kerf", size_mm=least, kerf_mm=book.saw.kerf)


def _workshop_faults(workshop: Workshop, at: Place, parts: BookParts) -> Iterator[Fault]:
    yield from _same_day(at / "rates", (rates.since for rates in workshop.rates))
    for number, rates in enumerate(workshop.rates):
        for name in rates.board_m2:
            yield from unknown_name(at / "rates" / number / "board_m2", Sort.BOARD, name, parts.boards.known())
        for name in rates.section_m:
            yield from unknown_name(at / "rates" / number / "section_m", Sort.SECTION, name, parts.sections.known())


def _money_faults(currency: str | None, locale: str | None) -> Iterator[Fault]:
    if currency is not None and currency not in list_currencies():
        yield Fault("currency", "book.no_such_currency", currency=currency)
    if locale is not None:
        try:
            Locale.parse(locale)
        except (ValueError, UnknownLocaleError):
            yield Fault("locale", "book.no_such_locale", locale=locale)


def check_book_parts(parts: BookParts) -> list[Fault]:
    """Every fault that no single field can tell, in as much of a book as could be read."""
    faults = [*_money_faults(parts.currency, parts.locale)]
    groups: tuple[tuple[str, Entries[BaseModel]], ...] = (
        ("boards", parts.boards),
        ("sections", parts.sections),
        ("hinges", parts.hinges),
        ("build_ups", parts.build_ups),
        ("workshops", parts.workshops),
        ("fittings", parts.fittings),
    )
    for name, group in groups:
        faults += duplicates(((Place((name, n - 1)), entry) for n, entry in group.names.items()), "name")
    for name, group in (*groups, ("rates", parts.rates)):
        for number, entry in group.read.items():
            at = Place((name, number - 1), group.names.get(number, ""))
            faults += unprintable(entry, at)
            if isinstance(entry, HingeType | Fitting):
                faults += _hole_faults(entry, at)
            if isinstance(entry, Board | Section):
                faults += _material_faults(at, entry)
    faults += _label_faults(parts.boards)
    for number, build_up in parts.build_ups.read.items():
        faults += _build_up_faults(build_up, Place(("build_ups", number - 1), build_up.name), parts)
    for number, workshop in parts.workshops.read.items():
        faults += _workshop_faults(workshop, Place(("workshops", number - 1), workshop.name), parts)
    seen = Counter((rate.name, rate.since) for rate in parts.rates.read.values())
    faults += _several_of_a_day("rates", seen)
    counts = [(c.height, c.mass, c.hinges) for c in parts.hinge_counts]
    if counts != sorted(counts) or len({c[2] for c in counts}) != len(counts):
        faults.append(Fault("hinge_counts", "book.hinge_counts_do_not_grow"))
    return faults


def _several_of_a_day(group: str, seen: Mapping[tuple[str, Date], int]) -> Iterator[Fault]:
    for (name, day), count in seen.items():
        if count > 1:
            yield Fault(group, "book.several_of_one_day", name=name, count=count, day=day)


def check_book(book: Book) -> list[Fault]:
    """Every fault in a book that no single field can tell."""
    faults = [*unprintable(book.firm, Place(("firm",))), *unprintable(book.saw, Place(("saw",)))]
    faults += [*check_book_parts(BookParts.of(book)), *_firm_dates_faults(book), *_kerf_faults(book)]
    faults += _several_of_a_day("taxes", Counter((profile.name, profile.since) for profile in book.taxes))
    if answer := odd_character(book.hinge_counts_source, many_lines=False):
        faults.append(Fault("hinge_counts_source", answer))
    return faults
