"""What hangs on an opening's mark beside the revisions, its pictures and what was begun on site, follows a new mark."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from django.db import transaction

from rodbook.desk.models import Draft, Folder, Photo
from rodbook.job import Job, Opening

__all__ = ["follow", "renamed"]


def renamed(before: Sequence[Opening], after: Sequence[Opening]) -> dict[str, str]:
    """Openings that are the same but for their mark: the old mark and the new one.

    Examples
    --------
    >>> C1, B1 = (Opening(mark=m, widths=(842, 843, 843), heights=(2030, 2030, 2030)) for m in ("C1", "B1"))
    >>> renamed([C1], [B1]), renamed([C1], [C1]), renamed([C1], [C1, B1])
    ({'C1': 'B1'}, {}, {})
    """
    old, new = ({o.mark: o for o in side} for side in (before, after))
    come = [o for o in after if o.mark not in old]
    results: dict[str, str] = {}
    for opening in before:
        if opening.mark in new:
            continue
        twin = next((o for o in come if o.model_copy(update={"mark": opening.mark}) == opening), None)
        if twin is not None:
            results[opening.mark] = twin.mark
            come.remove(twin)
    return results


def follow(folder: Folder, marks: Mapping[str, str], job: Job) -> None:
    """Hang pictures and beginnings on the new marks, as far as the job as it stands has them.

    Parameters
    ----------
    folder : Folder
        The job.
    marks : mapping
        Old marks and new ones.
    job : Job
        As it was saved.
    """
    here = {o.mark for o in job.openings}
    moves = {
        old: new
        for old, new in marks.items()
        if old != new and new in here and (old not in here or old in marks.values())
    }
    if not moves:
        return
    with transaction.atomic():
        _move(Photo.objects.filter(folder=folder, mark__in=moves), moves)
        _move(Draft.objects.filter(folder=folder, mark__in=moves), moves)


def _move(results: Iterable[Photo | Draft], moves: Mapping[str, str]) -> None:
    """Two may have changed places, so all are put aside first; what stands at its new place already stays where it was."""
    entries = [(entry, entry.mark) for entry in results]
    for entry, _ in entries:
        type(entry).objects.filter(pk=entry.pk).update(mark=f"\x1f{entry.pk}")
    for entry, old in entries:
        same = {"sha256": entry.sha256} if isinstance(entry, Photo) else {}
        taken = type(entry).objects.filter(folder=entry.folder, mark=moves[old], **same).exists()
        type(entry).objects.filter(pk=entry.pk).update(mark=old if taken else moves[old])
