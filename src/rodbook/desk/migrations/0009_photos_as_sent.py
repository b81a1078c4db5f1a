"""A picture is known by what was sent too, as it is made anew before it is kept."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("desk", "0008_changes_as_data")]

    operations = [
        migrations.AddField(model_name="photo", name="sent_sha256", field=models.CharField(default="", max_length=64)),
    ]
