"""Corrections taken out of use, set-ups as shot with pictures of them, and company standards."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("bookings", "0021_lists_of_clients"),
        ("shotplans", "0006_readings_that_come_in_late"),
        ("studio", "0010_entries_from_devices"),
    ]

    operations = [
        migrations.AddField(
            model_name="brief",
            name="again_of",
            field=models.ForeignKey(
                editable=False,
                null=True,
                on_delete=django.db.models.deletion.SET_NULL,
                related_name="+",
                to="shotplans.plan",
            ),
        ),
        migrations.CreateModel(
            name="CompanyStandard",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("values", models.JSONField(default=dict, verbose_name="values")),
                ("locked", models.JSONField(default=list, verbose_name="locked")),
                ("at", models.DateTimeField(verbose_name="at")),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                    ),
                ),
                (
                    "client",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE, related_name="standard", to="bookings.client"
                    ),
                ),
            ],
            options={
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Retired",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("head", models.CharField(db_index=True, max_length=60, verbose_name="head")),
                ("modifier", models.CharField(blank=True, max_length=60, verbose_name="modifier")),
                ("why", models.CharField(max_length=200, verbose_name="why")),
                ("at", models.DateTimeField(verbose_name="at")),
                ("taken_back_at", models.DateTimeField(editable=False, null=True, verbose_name="taken back at")),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                    ),
                ),
                (
                    "taken_back_by",
                    models.ForeignKey(
                        editable=False,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="studio.member",
                    ),
                ),
            ],
            options={
                "ordering": ("-at", "-pk"),
            },
        ),
        migrations.CreateModel(
            name="SetPhoto",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("setup_name", models.CharField(max_length=200, verbose_name="set-up")),
                ("file_name", models.CharField(max_length=40, unique=True)),
                ("width", models.PositiveIntegerField()),
                ("height", models.PositiveIntegerField()),
                ("at", models.DateTimeField(verbose_name="at")),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                    ),
                ),
                (
                    "record",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="photos", to="shotplans.record"
                    ),
                ),
            ],
            options={
                "ordering": ("record", "setup_name", "pk"),
            },
        ),
        migrations.CreateModel(
            name="Built",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("setup_name", models.CharField(max_length=200, verbose_name="set-up")),
                ("data", models.JSONField(verbose_name="as shot")),
                ("failed", models.BooleanField(default=False, verbose_name="did not work")),
                ("why_failed", models.CharField(blank=True, max_length=300, verbose_name="why it did not work")),
                ("at", models.DateTimeField(verbose_name="at")),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                    ),
                ),
                (
                    "record",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="built", to="shotplans.record"
                    ),
                ),
            ],
            options={
                "ordering": ("record", "setup_name"),
                "constraints": [
                    models.UniqueConstraint(fields=("record", "setup_name"), name="a_set_up_is_built_once")
                ],
            },
        ),
    ]
