"""Kept revisions of the book are brought from format 1 to 2: holes right through are called so instead of 0 mm deep."""

from typing import Any

from django.db import migrations

from rodbook.job.files.versions import BOOK_STEPS


def said_through(apps: Any, _schema_editor: Any) -> None:
    revision = apps.get_model("desk", "Revision")
    for kept in revision.objects.filter(folder__kind="book").iterator():
        if isinstance(kept.document, dict) and kept.document.get("format") == 1:
            kept.document = {**BOOK_STEPS[1](kept.document), "format": 2}
            kept.save(update_fields=["document"])


class Migration(migrations.Migration):
    dependencies = [("desk", "0006_records")]

    operations = [migrations.RunPython(said_through, migrations.RunPython.noop)]
