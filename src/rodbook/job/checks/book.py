"""The book against itself."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date as Date  # noqa: N812

from babel import Locale, UnknownLocaleError
from babel.numbers import list_currencies
from pydantic import BaseModel

from rodbook.errors import Fault
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
from rodbook.job.checks.words import duplicates, in_brackets, odd_character, unknown_name, unprintable
from rodbook.job.dates import MERCHANT, Away
from rodbook.job.faults import nearest

__all__ = ["FITTING_SORTS", "check_book", "check_book_parts"]


def _away_faults(where: str, away: Sequence[Away]) -> Iterator[Fault]:
    for one in away:
        if one.last < one.first:
            yield Fault(where, "job.to_ends_before_begins", first=one.first, last=one.last)


def _firm_dates_faults(book: Book) -> Iterator[Fault]:
    dates = book.dates
    yield from duplicates(((f"dates.crew[{n}]", one.name) for n, one in enumerate(dates.crew, 1)), "name")
    for number, member in enumerate(dates.crew, 1):
        yield from _away_faults(f"dates.crew[{number}].off ({member.name})", member.off)
        yield from unprintable(member, f"dates.crew[{number}]")
    yield from _away_faults("dates.closed", dates.closed)
    yield from _supplier_faults(book)


def _supplier_faults(book: Book) -> Iterator[Fault]:
    suppliers = book.dates.suppliers
    yield from duplicates(((f"dates.suppliers[{n}]", one.supplier) for n, one in enumerate(suppliers, 1)), "supplier")
    known = [MERCHANT, *(shop.name for shop in book.workshops)]
    for number, one in enumerate(suppliers, 1):
        where = f"dates.suppliers[{number}]"
        if one.supplier not in known:
            right = nearest(one.supplier, known) or f'; name a workshop of the book, or "{MERCHANT}"'
            yield Fault(f"{where}.supplier", "job.no_supplier", supplier=one.supplier, right=right)
        yield from _away_faults(f"{where}.closed ({one.supplier})", one.closed)
        yield from unprintable(one, where)


def _order(where: str, mark: str, values: tuple[float, float, float]) -> Iterator[Fault]:
    if list(values) != sorted(values):
        shown = ", ".join(f"{n} {v:g}" for n, v in zip(("least", "wanted", "most"), values, strict=True))
        yield Fault(where + mark, "job.out_order", shown=shown)


def _meeting_faults(build_up: AnyBuildUp, where: str, mark: str, parts: BookParts) -> Iterator[Fault]:
    """Meeting edges and what is put on the leaves."""
    if (build_up.meeting == "cover strip") != (build_up.cover_strip is not None):
        yield Fault(f"{where}.cover_strip{mark}", "job.cover_strip_needs_section_any")
    if build_up.cover_strip is not None:
        yield from unknown_name(f"{where}.cover_strip{mark}", "section", build_up.cover_strip, parts.sections.known())
    if (build_up.meeting == "rebated") != (build_up.meeting_rebate > 0):
        said = "rebated meeting edges need a rebate of more than 0 mm, and any other none"
        yield Fault(f"{where}.meeting_rebate{mark}", "plain.text", text=said)
    for name, sorts in FITTING_SORTS.items():
        value = getattr(build_up, name)
        if value is None:
            continue
        yield from unknown_name(f"{where}.{name}{mark}", "fitting", value, parts.fittings.known())
        fitting = parts.fittings.named().get(value)
        if fitting and fitting.sort not in sorts:
            said = f"{value!r} is a {fitting.sort}, which is no {name.replace('_', ' ')}; name it in its own field"
            yield Fault(f"{where}.{name}{mark}", "plain.text", text=said)


FITTING_SORTS: Mapping[str, tuple[str, ...]] = {
    "handle": ("handle", "knob"), "catch": ("push-to-open", "magnetic catch", "roller catch"),
    "drawer_fixing": ("front fixing",), "apron_fixing": ("front fixing",), "flap_stay": ("flap stay",),
}  # fmt: skip
"""Fields of a build-up that name a fitting, and what sorts of it they take."""


def _hole_faults(entry: HingeType | Fitting, where: str) -> Iterator[Fault]:
    """Holes of which the book gives a diameter and no depth, or pilots without either."""
    mark = in_brackets(entry.name)
    if isinstance(entry, HingeType):
        wanted = ("pilot_diameter", "pilot_depth") if entry.pilot_spacing else ()
    else:
        wanted = (*(("head_depth",) if entry.head_diameter else ()), *(("leg_depth",) if entry.leg_diameter else ()))
    for name in wanted:
        if not getattr(entry, name):
            yield Fault(f"{where}.{name}{mark}", "job.such_hole_so_to_more")
    if isinstance(entry, Fitting) and entry.holes == 2 and not entry.spacing and (entry.diameter or entry.leg_diameter):
        yield Fault(f"{where}.spacing{mark}", "job.two_holes_need_distance_between")


def _front_faults(build_up: AnyBuildUp, where: str, mark: str, parts: BookParts) -> Iterator[Fault]:
    """Aprons and end panels."""
    for name in ("apron_top", "apron_bottom"):
        if 0 < getattr(build_up, name) < LEAST_ROW_MM:
            said = f"{getattr(build_up, name):g} mm is less than the least apron, {LEAST_ROW_MM:g} mm; write 0 for none"
            yield Fault(f"{where}.{name}{mark}", "plain.text", text=said)
    if build_up.end_panel_board is not None:
        yield from unknown_name(
            f"{where}.end_panel_board{mark}", "board", build_up.end_panel_board, parts.boards.known()
        )


def _edge_faults(build_up: AnyBuildUp, where: str, mark: str) -> Iterator[Fault]:
    for way, name in (
        (build_up.leaf_edge, "leaf_edge_thickness"),
        (build_up.lining_edge, "lining_edge_thickness"),
    ):
        if (way in ("taped", "lipped")) != (getattr(build_up, name) > 0):
            said = f"a {way} edge needs the thickness of what is put on" if way in ("taped", "lipped") else (
                f"a {way} edge has nothing put on it; leave the thickness out or choose taped or lipped"
            )  # fmt: skip
            yield Fault(f"{where}.{name}{mark}", "plain.text", text=said)


def _build_up_faults(build_up: AnyBuildUp, where: str, parts: BookParts) -> Iterator[Fault]:
    mark = in_brackets(build_up.name)
    boards = parts.boards.known()
    yield from unknown_name(f"{where}.leaf_board{mark}", "board", build_up.leaf_board, boards)
    yield from unknown_name(f"{where}.lining_board{mark}", "board", build_up.lining_board, boards)
    yield from unknown_name(f"{where}.hinge{mark}", "hinge", build_up.hinge, parts.hinges.known())
    if build_up.trim is not None:
        yield from unknown_name(f"{where}.trim{mark}", "section", build_up.trim, parts.sections.known())
    packers = (build_up.packer_least, build_up.packer_wanted, build_up.packer_most)
    yield from _order(f"{where}.packer_least", mark, packers)
    packers = (build_up.head_packer_least, build_up.head_packer_wanted, build_up.head_packer_most)
    yield from _order(f"{where}.head_packer_least", mark, packers)
    if (build_up.head_joint == "housed") != (build_up.housing > 0):
        said = "a housed head needs a housing of more than 0 mm, and any other head none"
        yield Fault(f"{where}.housing{mark}", "plain.text", text=said)
    yield from _edge_faults(build_up, where, mark)
    lining = parts.boards.named().get(build_up.lining_board)
    if lining and build_up.housing >= lining.thickness:
        said = f"{build_up.housing:g} mm goes right through the lining, {lining.thickness:g} mm thick; make it less"
        yield Fault(f"{where}.housing{mark}", "plain.text", text=said)
    yield from _meeting_faults(build_up, where, mark, parts)
    yield from _front_faults(build_up, where, mark, parts)
    yield from build_up.own_faults(where, mark, lining.thickness if lining else None)
    hinge = parts.hinges.named().get(build_up.hinge)
    for name in ("lining_depth", "hinge_lining_width"):
        value = getattr(build_up, name)
        if hinge and value is not None and value < hinge.plate_set_back + hinge.plate_diameter:
            said = f"{value:g} mm leaves no room for plate holes {hinge.plate_set_back:g} mm in"
            yield Fault(f"{where}.{name}{mark}", "plain.text", text=said)


def _same_day(where: str, what: str, days: Iterable[Date]) -> Iterator[Fault]:
    for day, count in Counter(days).items():
        if count > 1:
            yield Fault(where, "job.hold", count=count, what=what, day=day)


def _material_faults(name: str, entry: Board | Section, number: int) -> Iterator[Fault]:
    where, mark = f"{name}[{number}]", in_brackets(entry.name)
    if entry.density_low > entry.density_high:
        yield Fault(f"{where}.density_low{mark}", "job.density_low_more_than_density")
    if isinstance(entry, Board):
        yield from _wanted_faults(entry, where)
    labels = [size.name for size in (entry.sheets if isinstance(entry, Board) else entry.lengths)]
    labels += [offcut.label for offcut in entry.offcuts] if isinstance(entry, Board) else []
    for label, count in Counter(labels).items():
        if count > 1:
            yield Fault(f"{where}{mark}", "job.names_sizes_offcuts", label=label, count=count)
    for size in entry.sheets if isinstance(entry, Board) else entry.lengths:
        yield from _same_day(f"{where}{mark}", f"prices of {size.name!r}", (price.since for price in size.prices))


def _wanted_faults(board: Board, where: str) -> Iterator[Fault]:
    """Pieces wanted from waste that no sheet of the board can give."""
    for number, piece in enumerate(board.wanted, 1):
        ways = [(piece.length, piece.width), (piece.width, piece.length)][: 1 + (not board.grain)]
        if not any(way[0] <= size.length and way[1] <= size.width for way in ways for size in board.sheets):
            said = f"{piece.length:g} × {piece.width:g} mm is larger than any sheet of {board.name!r}; make it smaller"
            yield Fault(f"{where}.wanted[{number}].length{in_brackets(piece.label)}", "plain.text", text=said)


def _label_faults(boards: Entries[Board]) -> Iterator[Fault]:
    """Labels that stand on more than one thing: what is wanted, over all boards, and the offcuts that lie in the shop."""
    wanted = [(f"boards[{n}].wanted[{at}]", piece.label) for n, board in boards.read.items()
              for at, piece in enumerate(board.wanted, 1)]  # fmt: skip
    yield from duplicates(wanted, "label")
    lying = {offcut.label for board in boards.read.values() for offcut in board.offcuts}
    for where, label in wanted:
        if label in lying:
            said = f"{label!r} is written on an offcut that lies in the shop; give the piece another label"
            yield Fault(f"{where}.label{in_brackets(label)}", "plain.text", text=said)


def _kerf_faults(book: Book) -> Iterator[Fault]:
    """Wanted pieces that the blade would turn to dust."""
    for number, board in enumerate(book.boards, 1):
        for at, piece in enumerate(board.wanted, 1):
            if (least := min(piece.length, piece.width)) < book.saw.kerf:
                name = "length" if piece.length == least else "width"
                said = f"{least:g} mm is less than the saw's kerf, {book.saw.kerf:g} mm; it cannot be cut"
                yield Fault(f"boards[{number}].wanted[{at}].{name}{in_brackets(piece.label)}", "plain.text", text=said)


def _workshop_faults(workshop: Workshop, where: str, parts: BookParts) -> Iterator[Fault]:
    mark = in_brackets(workshop.name)
    yield from _same_day(f"{where}.rates{mark}", "sets of rates", (rates.since for rates in workshop.rates))
    for number, rates in enumerate(workshop.rates, 1):
        for name in rates.board_m2:
            yield from unknown_name(f"{where}.rates[{number}].board_m2{mark}", "board", name, parts.boards.known())
        for name in rates.section_m:
            yield from unknown_name(f"{where}.rates[{number}].section_m{mark}", "section", name, parts.sections.known())


def _money_faults(currency: str | None, locale: str | None) -> Iterator[Fault]:
    if currency is not None and currency not in list_currencies():
        yield Fault("currency", "job.no_currency_code", currency=currency)
    if locale is not None:
        try:
            Locale.parse(locale)
        except (ValueError, UnknownLocaleError):
            yield Fault("locale", "job.no_way_writing_numbers", locale=locale)


def check_book_parts(parts: BookParts) -> list[Fault]:
    """Every fault that no single field can tell, in as much of a book as could be read."""
    faults = [*_money_faults(parts.currency, parts.locale)]
    groups: tuple[tuple[str, Entries[BaseModel]], ...] = (
        ("boards", parts.boards), ("sections", parts.sections), ("hinges", parts.hinges),
        ("build_ups", parts.build_ups), ("workshops", parts.workshops), ("fittings", parts.fittings),
    )  # fmt: skip
    for name, group in groups:
        faults += duplicates(((f"{name}[{n}]", entry) for n, entry in group.names.items()), "name")
    for name, group in (*groups, ("rates", parts.rates)):
        for number, entry in group.read.items():
            faults += unprintable(entry, f"{name}[{number}]", in_brackets(group.names.get(number)))
            if isinstance(entry, HingeType | Fitting):
                faults += _hole_faults(entry, f"{name}[{number}]")
            if isinstance(entry, Board | Section):
                faults += _material_faults(name, entry, number)
    faults += _label_faults(parts.boards)
    for number, build_up in parts.build_ups.read.items():
        faults += _build_up_faults(build_up, f"build_ups[{number}]", parts)
    for number, workshop in parts.workshops.read.items():
        faults += _workshop_faults(workshop, f"workshops[{number}]", parts)
    seen = Counter((rate.name, rate.since) for rate in parts.rates.read.values())
    twice = [f"{name!r} stands {count} times for {day}" for (name, day), count in seen.items() if count > 1]
    faults += [Fault("rates", "job.text", said=said) for said in twice]
    counts = [(c.height, c.mass, c.hinges) for c in parts.hinge_counts]
    if counts != sorted(counts) or len({c[2] for c in counts}) != len(counts):
        faults.append(Fault("hinge_counts", "job.heights_masses_counts_must_all"))
    return faults


def check_book(book: Book) -> list[Fault]:
    """Every fault in a book that no single field can tell."""
    faults = [*unprintable(book.firm, "firm"), *unprintable(book.saw, "saw"), *check_book_parts(BookParts.of(book))]
    faults += [*_firm_dates_faults(book), *_kerf_faults(book)]
    for (name, day), count in Counter((profile.name, profile.since) for profile in book.taxes).items():
        if count > 1:
            faults.append(Fault("taxes", "job.stands_times", name=name, count=count, day=day))
    if said := odd_character(book.hinge_counts_source, many_lines=False):
        faults.append(Fault("hinge_counts_source", "plain.text", text=said))
    return faults
