"""Calendar files as they were last given out, so that what is gone can be called off."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("desk", "0012_damage_stands_aside")]

    operations = [
        migrations.CreateModel(
            name="GivenOut",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("whose", models.CharField(blank=True, max_length=200)),
                ("content", models.BinaryField()),
                ("when", models.DateTimeField(auto_now=True)),
                ("folder", models.ForeignKey(
                    null=True, on_delete=django.db.models.deletion.PROTECT, related_name="given_out", to="desk.folder"
                )),
            ],
            options={
                "ordering": ("pk",),
                "constraints": [
                    models.UniqueConstraint(fields=("folder", "whose"), name="one_calendar_of_a_job_each"),
                    models.UniqueConstraint(
                        condition=models.Q(("folder", None)), fields=("whose",), name="one_calendar_of_all_jobs_each"
                    ),
                ],
            },
        ),
    ]
