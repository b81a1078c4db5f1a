"""What a revision changed is kept as data; a text of its own stays only where no comparison of documents gives one."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("desk", "0007_holes_through")]

    operations = [
        migrations.RenameField(model_name="revision", old_name="said", new_name="text"),
        migrations.AlterField(model_name="revision", name="text", field=models.TextField(default="")),
        migrations.AddField(model_name="revision", name="changes", field=models.JSONField(null=True)),
    ]
