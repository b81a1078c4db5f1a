"""Each revision carries the SHA-256 of what it says; those that are kept are sealed as they stand."""

from datetime import UTC
from typing import Any

import django.utils.timezone
from django.db import migrations, models

from rodbook.desk.platform.soundness import Kept, seal_of


def seal_all(apps: Any, _schema_editor: Any) -> None:
    """Seal what is kept; nobody knows what it was before."""
    revision = apps.get_model("desk", "Revision")
    for kept in revision.objects.order_by("pk").iterator(chunk_size=50):
        when = kept.when.astimezone(UTC).strftime("%Y-%m-%d %H:%M:%S.%f")
        told = (kept.folder_id, kept.number, kept.document, kept.text, kept.changes, kept.who, when, kept.undoes)
        revision.objects.filter(pk=kept.pk).update(seal=seal_of(Kept(*told)))


class Migration(migrations.Migration):
    dependencies = [("desk", "0010_deeds_and_second_step")]

    operations = [
        migrations.AddField("revision", "seal", models.CharField(max_length=64, blank=True, default="", editable=False)),
        migrations.AlterField(
            "revision", "when", models.DateTimeField(default=django.utils.timezone.now, editable=False)
        ),
        migrations.RunPython(seal_all, migrations.RunPython.noop),
    ]
