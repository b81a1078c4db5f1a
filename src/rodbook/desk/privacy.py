"""What of a job only those see who see prices: how it is priced, in its document and in the words of its history. Pure."""

from __future__ import annotations

from collections.abc import Mapping

from django.utils.translation import gettext as _

from rodbook.desk.changes import Value
from rodbook.job import Job
from rodbook.job.models import PriceTerms

__all__ = ["changes_price", "keep_price", "said_to", "without_price"]

_HEADS = ("price: ", "price given: ")
"""How sentences on a price begin, in a job's history."""


def _of_price(sentence: str) -> bool:
    return sentence.startswith(_HEADS)


def said_to(said: str, *, sees_prices: bool) -> str:
    """What a revision changed, one sentence a line, as somebody may read it.

    Parameters
    ----------
    said : str
    sees_prices : bool
    """
    lines = said.splitlines()
    left = [line for line in lines if sees_prices or not _of_price(line)]
    if len(left) < len(lines):
        left.append(_("how the job is priced"))
    return "\n".join(left)


def changes_price(old: Mapping[str, Value], new: Mapping[str, Value]) -> bool:
    """Whether two documents of a job are priced differently."""
    return old.get("price") != new.get("price")


def without_price(job: Job) -> Job:
    """The job without how it is priced."""
    return job.model_copy(update={"price": PriceTerms.model_validate({})})


def keep_price(value: Job, now: Job) -> Job:
    """A job that somebody sends who does not see prices, priced as it is now."""
    return value.model_copy(update={"price": now.price})
