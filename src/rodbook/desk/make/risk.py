"""Make or buy with its spread, as the page shows it: sentences, rows and pictures, every figure written out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy
from django.utils.translation import ngettext

from rodbook.desk.platform.pictures import svg_of
from rodbook.errors import Message
from rodbook.money import Figures, Likely, Sway, Way, points_in_words
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.sways import SwayWords, draw_sways
from rodbook.plan import KindOutlook, Outlook, Plan

__all__ = ["WAY_WORDS", "KindLikely", "WayRow", "WholeLikely", "kinds_likely", "size_rows", "whole_likely"]

WAY_WORDS: dict[Way, str | Promise] = {
    Way.SITE: lazy("all on site"),
    Way.FINISHED_OUT: lazy("cut on site, finished by the workshop"),
    Way.BOUGHT_CUT: lazy("bought cut"),
    Way.BOUGHT: lazy("bought finished and bored"),
}


@dataclass(frozen=True)
class WayRow:
    """One way of making: what it costs and takes, on average and nine in ten under."""

    name: str
    best: bool
    cost: str
    cost_most: str
    crew_days: str
    days: str
    days_most: str
    cash: str


@dataclass(frozen=True)
class KindLikely:
    """One kind of part."""

    kind: str
    parts: int
    rows: tuple[WayRow, ...]
    chance: str
    turns: tuple[str, ...]
    quantity: str
    picture: str
    swings: tuple[tuple[str, str, str, str], ...]
    """What moves it: name, saved where it is low, where it is high, and what low and high are."""


@dataclass(frozen=True)
class WholeLikely:
    """The whole job."""

    sentences: tuple[str, ...]
    rows: tuple[WayRow, ...]
    cash: tuple[tuple[str, str, str, str], ...]
    turns: tuple[str, ...]
    picture: str
    swings: tuple[tuple[str, str, str, str], ...]
    remarks: tuple[Message, ...]


def _cash(likely: Likely, write: Numbers) -> str:
    texts = [
        _("%(what)s %(amount)s, day %(day)s")
        % {"what": out.what, "amount": write.whole_money(out.amount), "day": out.day.quantize(Decimal(1))}
        for out in likely.cash
    ]
    return "; ".join(texts)


def _row(name: str, likely: Likely, write: Numbers, *, best: bool) -> WayRow:
    return WayRow(
        name,
        best,
        write.money(likely.cost.mean),
        write.money(likely.cost.nine_in_ten),
        write.days(likely.crew_days.mean),
        write.days(likely.days.mean),
        write.days(likely.days.nine_in_ten),
        _cash(likely, write),
    )


def _chance(share: float | None) -> str:
    """How likely buying is cheaper, in words that never promise."""
    if share is None:
        return _("It can't be bought in, so there is nothing to weigh.")
    if share >= 0.995:
        return _("Buying is cheaper in more than 99 cases of 100.")
    if share <= 0.005:
        return _("Buying is cheaper in fewer than 1 case of 100.")
    return _("Buying is cheaper in %(share)s of 100 cases.") % {"share": round(100 * share)}


def _picture(difference: Decimal | None, results: Sequence[Sway], what: str, write: Numbers) -> str:
    if difference is None or not results:
        return ""
    words = SwayWords(
        title=_("What moves what buying saves, %(what)s") % {"what": what},
        now=_("as the book has it"),
        turns=_("left of here making is cheaper"),
        low=_("where it is low"),
        high=_("where it is high"),
    )
    return svg_of(draw_sways(difference, results, write, words), write)


BASES: dict[str, str | Promise] = {
    "one and nine in ten": lazy("one and nine in ten stay under"),
    "a tenth less and more": lazy("a tenth less and a tenth more"),
}


def _swings(results: Sequence[Sway], write: Numbers) -> tuple[tuple[str, str, str, str], ...]:
    return tuple(
        (sway.name, write.money(-sway.low), write.money(-sway.high), str(BASES.get(sway.basis, sway.basis)))
        for sway in results
    )


def _of_kind(plan: Plan, entry: KindOutlook, write: Numbers) -> KindLikely:
    rows = tuple(
        _row(str(WAY_WORDS[way]), likely, write, best=way is entry.chances.best)
        for likely in entry.chances.ways
        for kind, way in likely.mixture
        if kind is entry.kind
    )
    quantity = next((turning.sentence for turning in plan.turnings if turning.kind == entry.kind), "")
    parts = sum(line.quantity for line in plan.schedule if line.part.kind is entry.kind)
    return KindLikely(
        entry.kind.value,
        parts,
        rows,
        _chance(entry.chances.buying_cheaper),
        points_in_words(entry.turning, plan.book.currency, kind=entry.kind),
        quantity,
        _picture(entry.difference, entry.sways, entry.kind.value, write),
        _swings(entry.sways, write),
    )


def kinds_likely(plan: Plan, outlook: Outlook, write: Numbers) -> list[KindLikely]:
    """Every kind of part with its ways."""
    return [_of_kind(plan, entry, write) for entry in outlook.kinds]


def _mixture(likely: Likely) -> str:
    """The kinds by the way they are made: everything one way, or each way with its kinds."""
    by_way: dict[Way, list[str]] = {}
    for kind, way in likely.mixture:
        by_way.setdefault(way, []).append(kind.value)
    if len(by_way) == 1:
        return _("everything %(way)s") % {"way": WAY_WORDS[next(iter(by_way))]}
    return "; ".join(f"{', '.join(kinds)}: {WAY_WORDS[way]}" for way, kinds in by_way.items())


def _told(figures: Figures, write: Numbers) -> dict[str, str]:
    return {"mean": write.money(figures.mean), "most": write.money(figures.nine_in_ten)}


def whole_likely(outlook: Outlook, write: Numbers) -> WholeLikely:
    """The whole job as decided, the cheapest mixture, and everything one way."""
    result, decided = outlook.chances, outlook.decided
    sentences = [
        _("As decided it costs %(mean)s on average; nine such jobs in ten stay under %(most)s.")
        % _told(decided.cost, write)
    ]
    if dict(decided.mixture) != dict(result.best.mixture):
        sentences.append(
            _("The cheapest mixture on average is %(mixture)s: %(mean)s.")
            % {"mixture": _mixture(result.best), "mean": write.money(result.best.cost.mean)}
        )
    else:
        sentences.append(_("No mixture of ways costs less on average."))
    if result.buying_cheaper is not None:
        sentences.append(_("For the whole job: %(chance)s") % {"chance": _chance(result.buying_cheaper)})
    rows = [_row(_("as decided"), decided, write, best=False)]
    if dict(decided.mixture) != dict(result.best.mixture):
        rows.append(_row(_mixture(result.best), result.best, write, best=True))
    known = {decided.mixture, result.best.mixture}
    rows += [_row(_mixture(pure), pure, write, best=False) for pure in result.pure if pure.mixture not in known]
    cash = tuple(
        (out.what, write.money(out.amount), write.days(out.day), write.days(out.late_day)) for out in decided.cash
    )
    return WholeLikely(
        tuple(sentences),
        tuple(rows),
        cash,
        points_in_words(outlook.turning, outlook.chances.currency),
        _picture(outlook.difference, outlook.sways, _("the whole job"), write),
        _swings(outlook.sways, write),
        result.remarks,
    )


SIZES_WORDS: dict[str, str | Promise] = {
    "as few as can be": lazy("as few as can be"),
    "as the job has them": lazy("as the job has them"),
    "each opening its own": lazy("each opening its own"),
}


def size_rows(outlook: Outlook, write: Numbers) -> tuple[list[tuple[str, int, int, str]], str]:
    """Numbers of sizes with their set-ups, and what the fewest save against one for each opening."""
    rows = [(str(SIZES_WORDS[c.what]), c.sizes, c.distinct, write.money(c.set_ups)) for c in outlook.sizes]
    if not rows:
        return [], ""
    first, last = outlook.sizes[0], outlook.sizes[-1]
    saved = last.set_ups - first.set_ups
    if saved <= 0:
        return rows, _("Here fewer sizes save no set-ups.")
    text = ngettext(
        "One size instead of %(many)s saves %(saved)s in set-ups alone.",
        "%(few)s sizes instead of %(many)s save %(saved)s in set-ups alone.",
        first.sizes,
    ) % {"few": first.sizes, "many": last.sizes, "saved": write.money(saved)}
    return rows, text
