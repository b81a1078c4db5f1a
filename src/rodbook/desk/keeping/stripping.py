"""Pictures that were kept as they were sent, made anew as all are now: without where and with what they were taken.

A few at a time while the desk runs, oldest first. The one that was kept goes only after the new one lies on the disk and every
opening shows that; a desk that is ended amid this goes on where it stood.
"""

from __future__ import annotations

import logging
from collections.abc import Collection

from django.db import transaction

from rodbook.desk.models import Photo
from rodbook.desk.platform import photos
from rodbook.errors import InputError

__all__ = ["as_sent", "strip_some"]

_log = logging.getLogger(__name__)


def as_sent() -> list[str]:
    """Hashes of the pictures that are kept as they were sent, oldest first."""
    result = Photo.objects.filter(sent_sha256="").order_by("pk").values_list("sha256", flat=True)
    return list(dict.fromkeys(result))


def strip_some(most: int, *, but: Collection[str] = ()) -> tuple[int, list[str]]:
    """Make some of them anew.

    Parameters
    ----------
    most : int
        So many at once.
    but : collection of str
        Hashes of those that could not be, which stay as they are.

    Returns
    -------
    int, list of str
        How many were, and the hashes of further ones that could not be.
    """
    done, left = 0, list[str]()
    for sha256 in [result for result in as_sent() if result not in but][:most]:
        try:
            _strip(sha256)
        except (InputError, OSError) as error:
            _log.warning("the picture %s stays as it was sent: %s", sha256[:8], error)
            left.append(sha256)
        else:
            done += 1
    return done, left


def _strip(sha256: str) -> None:
    """Make one anew, for every opening that has it.

    Raises
    ------
    InputError
        If it can't be, or is not what was kept: then it stays.
    OSError
        If it can't be read, or the new one not be written.
    """
    data = photos.path_of(sha256).read_bytes()
    if photos.hash_of(data) != sha256:
        raise InputError.at("photo", "desk.photo_damaged")
    kept = photos.made_anew(data)
    photos.keep(kept, instead=True)
    with transaction.atomic():
        for photo in Photo.objects.filter(sha256=sha256, sent_sha256=""):
            if (
                Photo.objects.filter(folder=photo.folder_id, mark=photo.mark, sha256=kept.sha256)
                .exclude(pk=photo.pk)
                .exists()
            ):
                photo.delete()  # somebody sent the same picture again since
                continue
            photo.sha256, photo.kind, photo.sent_sha256 = kept.sha256, kept.kind, sha256
            photo.save(update_fields=["sha256", "kind", "sent_sha256"])
        photos.keep(kept, instead=True)  # again, as somebody may have thrown the same picture away meanwhile
    with transaction.atomic():  # of its own: what shows the new one is on the disk before the old one goes
        for name in {sha256, kept.sha256}:
            if not Photo.objects.filter(sha256=name).exists():
                photos.path_of(name).unlink(missing_ok=True)
