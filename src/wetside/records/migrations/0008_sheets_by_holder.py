"""Sheets are found by the holder that they were exposed in, however many there are."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = (("records", "0007_vessel_follows"),)

    operations = (
        migrations.AddIndex(
            model_name="sheet",
            index=models.Index(condition=models.Q(("removed_at", None)), fields=["holder"], name="sheet_of_holder"),
        ),
    )
