"""What the readings of an opening say of each other while it is being measured: misread ones, and what nothing checks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from django.utils.translation import gettext as _
from pydantic import ValidationError

from rodbook.desk.openings.measuring import FURTHER, PLACES, Place, place_named
from rodbook.desk.platform.faults import in_words
from rodbook.errors import InputError
from rodbook.job import Book, Opening
from rodbook.job.readings import KINDS
from rodbook.plan.stages.surveying import helps_most, next_reading, places_of, readings_of, survey_of
from rodbook.survey import OLD, Helps, OneMore, Survey

__all__ = ["Again", "Checked", "checked_so_far", "place_of"]

_SETS = ("widths", "heights", "diagonals")


@dataclass(frozen=True)
class Again:
    """A reading to take again.

    Parameters
    ----------
    place : Place
        Where.
    offers : tuple of float
        What may have been meant; one of them is taken only where somebody says so. [mm]
    """

    place: Place
    offers: tuple[float, ...]


@dataclass(frozen=True)
class Checked:
    """How far an opening is checked.

    Parameters
    ----------
    said : str
        One sentence on the whole.
    doubts : tuple of str
        Which readings to take again, and why.
    again : tuple of Again
        The same readings, to go to.
    more : Place, optional
        The one reading that would check most; None where nothing is left to check.
    would_check : str
        What it would check.
    survey : Survey, optional
        None where no outline comes of the readings.
    helps : Helps, optional
        The reading that would make the sizes surest; None where none would gain much.
    """

    said: str
    doubts: tuple[str, ...] = ()
    again: tuple[Again, ...] = ()
    more: Place | None = None
    would_check: str = ""
    survey: Survey | None = None
    helps: Helps | None = None


def checked_so_far(
    opening: Opening | None, about: Mapping[str, str], readings: Mapping[str, float], book: Book, age: str = OLD.name
) -> Checked | None:
    """Survey what is read so far; None until the three widths and three heights are there.

    Parameters
    ----------
    opening : Opening, optional
        As it stands in the job, for its instruments.
    about : mapping
        What is known beside the readings.
    readings : mapping
        By the name of their place. [mm]
    book : Book
    age : str
        How old the building is.
    """
    taken = _as_opening(opening, about, readings)
    if taken is None:
        return None
    try:
        survey = survey_of(taken, book, age)
        more = next_reading(taken, book)
    except InputError as error:
        return Checked(
            _("These readings make no opening."), tuple(f"{fault.where}: {in_words(fault)}." for fault in error.faults)
        )
    doubts = tuple(suspect.sentence for suspect in survey.suspects)
    if doubts:
        text = _("One of these readings stands out.") if len(doubts) == 1 else _("Some of these readings stand out.")
    elif survey.shape.unchecked:
        listed = _listed(survey.shape.unchecked)
        text = _("Nothing checks the %(readings)s.") % {"readings": listed}
    else:
        text = _("Every reading is checked by others, and they agree.")
    place = place_of(more, readings) if more else None
    would_check = _listed(more.checks) if more and place else ""
    return Checked(text, doubts, _again(survey, taken), place, would_check, survey, helps_most(taken, survey, book))


def _again(survey: Survey, taken: Opening) -> tuple[Again, ...]:
    """Places of the readings that stand out, each with the slips that would explain it."""
    at = places_of(taken)
    results: dict[str, Again] = {}
    for suspect in survey.suspects:
        for retake in suspect.retakes:
            field, index = at[retake.name]
            place = place_named(field if index is None else f"{field}-{index}")
            if place is not None:
                results.setdefault(place.name, Again(place, tuple(offer.would_be_mm for offer in retake.offers)))
    return tuple(results.values())


def _listed(names: tuple[str, ...]) -> str:
    return f"{', '.join(names[:-1])} {_('and')} {names[-1]}" if len(names) > 1 else names[0]


def _as_opening(opening: Opening | None, about: Mapping[str, str], readings: Mapping[str, float]) -> Opening | None:
    raw: dict[str, object] = {"mark": "X", "head": about.get("head") or "level"}
    for field in _SETS:
        values = [readings.get(place.name) for place in PLACES if place.field == field]
        if None not in values:
            raw[field] = values
    if not {"widths", "heights"} <= raw.keys():
        return None
    raw["readings"] = {n.removeprefix("readings-"): v for n, v in readings.items() if n.startswith("readings-")}
    if opening is not None:
        raw["read_by"] = opening.read_by
    if "depth" in readings:
        raw["depth"] = readings["depth"]
    try:
        return Opening.model_validate(raw)
    except ValidationError:
        return None


def _names() -> dict[str, str]:
    """Names of further readings by what they read."""
    usual = [
        *(str(place.index) for place in FURTHER),
        "level-head-middle",
        "level-floor-middle",
        "width-foot",
        "width-middle",
        "width-head",
        "height-left",
        "height-middle",
        "height-right",
        "diagonal-left",
        "diagonal-right",
    ]
    results = {}
    for name in usual:
        bare = Opening.model_validate({"mark": "X", "readings": {name: 1}})
        results[readings_of(bare)[0].what] = name
    return results


_BY_WHAT = _names()


def place_of(more: OneMore, readings: Mapping[str, float]) -> Place | None:
    """Where the reading that is asked for is taken: a place that is open, or a second one of the same."""
    what = more.name.removesuffix(" again")
    name = _BY_WHAT.get(what)
    if name is None:
        return None
    kind, _dash, at = name.partition("-")
    usual = _usual_place(kind, at)
    if usual is not None and usual not in readings:
        return place_named(usual)
    for candidate in (f"readings-{name}", f"readings-{name}-again"):
        if candidate not in readings:
            place = place_named(candidate)
            if usual is None or place is None:
                return place
            return replace(place, words=_("%(reading)s, once more") % {"reading": what})
    return None


def _usual_place(kind: str, at: str) -> str | None:
    """The place of the usual set that takes this reading first."""
    assert kind in KINDS
    order = {"width": ("foot", "middle", "head"), "height": ("left", "middle", "right"), "diagonal": ("left", "right")}
    return f"{kind}s-{order[kind].index(at)}" if kind in order else None
