"""The history of company standards."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("bookings", "0001_the_bookings"),
        ("shotplans", "0001_the_light"),
        ("studio", "0001_the_house"),
    ]

    operations = [
        migrations.CreateModel(
            name="StandardEdit",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("name", models.CharField(max_length=30, verbose_name="what")),
                ("value_from", models.CharField(blank=True, max_length=80, verbose_name="from")),
                ("value_to", models.CharField(blank=True, max_length=80, verbose_name="to")),
                ("locked_from", models.BooleanField(default=False, verbose_name="was locked")),
                ("locked_to", models.BooleanField(default=False, verbose_name="is locked")),
                ("why", models.CharField(blank=True, max_length=200, verbose_name="why")),
                ("at", models.DateTimeField(verbose_name="at")),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                    ),
                ),
                (
                    "client",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="standard_edits", to="bookings.client"
                    ),
                ),
            ],
            options={
                "ordering": ("-at", "-pk"),
            },
        ),
    ]
