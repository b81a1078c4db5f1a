"""What is kept beside the revisions, taken away for good: beginnings of openings, and pictures."""

from __future__ import annotations

from django.db import transaction

from rodbook.desk.models import Draft, Folder, Photo
from rodbook.desk.platform import photos

__all__ = ["throw_draft_away", "throw_photo_away"]


def throw_draft_away(folder: Folder, mark: str, *, in_job: bool) -> bool:
    """Throw away what is kept of an opening and not in the job; the pictures go too where the opening goes.

    Parameters
    ----------
    folder : Folder
        The job.
    mark : str
    in_job : bool
        Whether the job has that opening, so that only waiting readings are thrown away.

    Returns
    -------
    bool
        Whether there was anything.
    """
    with transaction.atomic():
        result, _ = Draft.objects.filter(folder=folder, mark=mark).delete()
        for photo in Photo.objects.filter(folder=folder, mark=mark) if result and not in_job else ():
            throw_photo_away(photo)
    return bool(result)


def throw_photo_away(photo: Photo) -> None:
    """Take a picture away; its file goes with it when no other opening has the same picture.

    The file goes before the lock does, so that whoever keeps the same picture meanwhile sees that it has to be written.
    """
    with transaction.atomic():
        photo.delete()
        if not Photo.objects.filter(sha256=photo.sha256).exists():
            photos.path_of(photo.sha256).unlink(missing_ok=True)
