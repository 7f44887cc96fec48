"""Sheets are found by their holder and by when they were removed, and runs by when they were made, however many there are."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = (("records", "0007_vessel_follows"),)

    operations = (
        migrations.AddIndex(
            model_name="sheet",
            index=models.Index(condition=models.Q(("removed_at", None)), fields=["holder"], name="sheet_of_holder"),
        ),
        migrations.AddIndex(
            model_name="sheet",
            index=models.Index(
                condition=models.Q(("removed_at__isnull", False)),
                fields=["-removed_at", "-made_at"],
                name="sheet_removed",
            ),
        ),
        migrations.AddIndex(
            model_name="run",
            index=models.Index(condition=models.Q(("removed_at", None)), fields=["-made_at"], name="run_newest"),
        ),
    )
