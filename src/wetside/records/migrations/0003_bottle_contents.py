"""What is known of a bottle's contents: its form, dilution, and ingredients with their concentrations."""

from __future__ import annotations

from django.db import migrations, models

FORMS = (("concentrate", "Concentrate"), ("stock", "Stock"), ("working", "Working"), ("powder", "Powder"))


class Migration(migrations.Migration):
    """Three columns, in the table and in its history."""

    dependencies = (("records", "0002_lines_never_change"),)
    operations = (
        *(
            operation
            for table in ("bottle", "historicalbottle")
            for operation in (
                migrations.AddField(table, "contents", models.JSONField(blank=True, default=dict)),
                migrations.AddField(table, "dilution", models.CharField(blank=True, default="", max_length=120)),
                migrations.AddField(
                    table, "form", models.CharField(blank=True, choices=list(FORMS), default="", max_length=20)
                ),
            )
        ),
        migrations.AddConstraint(
            "bottle",
            models.CheckConstraint(
                condition=models.Q(form__in=["", *(word for word, _ in FORMS)]), name="bottle_form_known"
            ),
        ),
    )
