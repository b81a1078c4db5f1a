from django.db import migrations, models


class Migration(migrations.Migration):
    """Names of further readings are longer than those of the usual ones."""

    dependencies = [("desk", "0003_sent_readings")]

    operations = [
        migrations.AlterField(model_name="sent", name="place", field=models.CharField(max_length=60)),
    ]
