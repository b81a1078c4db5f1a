"""What is damaged so that it is no plain value any more is read as nothing; nothing changes in the database."""

from django.db import migrations

from rodbook.desk.models import KeptJSON


class Migration(migrations.Migration):
    dependencies = [("desk", "0011_seals")]

    operations = [
        migrations.AlterField("revision", "document", KeptJSON()),
        migrations.AlterField("revision", "changes", KeptJSON(null=True)),
    ]
