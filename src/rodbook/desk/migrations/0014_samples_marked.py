"""A book that was begun from the sample before there were marks has what equals the sample's marked, in a revision of its own."""

from datetime import UTC
from typing import Any

from django.db import migrations
from django.utils import timezone

from rodbook.desk.platform.soundness import Kept, seal_of
from rodbook.job.book import Book
from rodbook.job.confirming import marked_as
from rodbook.job.files import parse_book, sample_book_text

TOLD = "Marked as not confirmed: {} that came with the sample"


def _has_marks(document: Any) -> bool:
    if isinstance(document, dict):
        return document.get("confirmed") is False or any(map(_has_marks, document.values()))
    return isinstance(document, list) and any(map(_has_marks, document))


def marked(apps: Any, _schema_editor: Any) -> None:
    folders, revisions = apps.get_model("desk", "Folder"), apps.get_model("desk", "Revision")
    sample = parse_book(sample_book_text()).model_dump(mode="json", exclude_defaults=True)
    for folder in folders.objects.filter(kind="book"):
        kept = revisions.objects.filter(folder=folder)
        newest = kept.filter(number=folder.head).first()
        if newest is None or any(_has_marks(one.document) for one in kept.iterator()):
            continue  # it was begun with marks, so what has none was confirmed
        try:
            plain = Book.model_validate(newest.document).model_dump(mode="json", exclude_defaults=True)
        except ValueError:
            continue  # it is damaged, which the desk says itself
        document, count = marked_as(plain | {"format": newest.document["format"]}, sample)
        if not count:
            continue
        now = timezone.now()
        text = TOLD.format("1 entry" if count == 1 else f"{count} entries")
        when = now.astimezone(UTC).strftime("%Y-%m-%d %H:%M:%S.%f")
        seal = seal_of(Kept(folder.pk, folder.head + 1, document, text, None, "Rodbook", when, None))
        revisions.objects.create(
            folder=folder, number=folder.head + 1, document=document, text=text, who="Rodbook", when=now, seal=seal
        )
        folder.head += 1
        folder.save(update_fields=["head"])


class Migration(migrations.Migration):
    dependencies = [("desk", "0013_calendars_given_out")]

    operations = [migrations.RunPython(marked, migrations.RunPython.noop)]
