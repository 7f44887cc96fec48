from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("records", "0006_tokens"),
    ]

    operations = [
        migrations.AddField(
            model_name="historicalvessel",
            name="follows_s",
            field=models.FloatField(blank=True, default=None, null=True),
        ),
        migrations.AddField(
            model_name="historicalvessel",
            name="jacket_off_c",
            field=models.FloatField(blank=True, default=None, null=True),
        ),
        migrations.AddField(
            model_name="vessel",
            name="follows_s",
            field=models.FloatField(blank=True, default=None, null=True),
        ),
        migrations.AddField(
            model_name="vessel",
            name="jacket_off_c",
            field=models.FloatField(blank=True, default=None, null=True),
        ),
        migrations.AddConstraint(
            model_name="vessel",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("follows_s", None), models.Q(("follows_s__gte", 30), ("follows_s__lte", 3600)), _connector="OR"
                ),
                name="vessel_follows_in_limits",
            ),
        ),
        migrations.AddConstraint(
            model_name="vessel",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("jacket_off_c", None),
                    models.Q(("jacket_off_c__gte", -15), ("jacket_off_c__lte", 15)),
                    _connector="OR",
                ),
                name="vessel_jacket_in_limits",
            ),
        ),
    ]
