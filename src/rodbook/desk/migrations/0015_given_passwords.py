"""Who has a password that somebody else thought of; nobody so far, as it was not kept."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("desk", "0014_samples_marked")]

    operations = [migrations.AddField("person", "given", models.BooleanField(default=False))]
