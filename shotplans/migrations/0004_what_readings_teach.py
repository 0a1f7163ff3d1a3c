"""What a reading of one light teaches, what was put right, and what the camera stood at."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("shotplans", "0003_blanked_plans"),
        ("studio", "0007_how_long_notes_are_kept"),
    ]

    operations = [
        migrations.AddField(
            model_name="reading",
            name="cause",
            field=models.CharField(
                blank=True,
                choices=[
                    ("cloth", "a cloth or grid"),
                    ("distance", "the distance"),
                    ("dial", "the dial or the channel"),
                    ("others", "another light or a panel"),
                    ("meter", "the meter: its place, dome or settings"),
                ],
                max_length=20,
                verbose_name="what was amiss",
            ),
        ),
        migrations.AddField(
            model_name="reading",
            name="cause_by",
            field=models.ForeignKey(
                null=True, on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
            ),
        ),
        migrations.AddField(
            model_name="reading",
            name="corrected",
            field=models.DecimalField(
                decimal_places=2, default=0, max_digits=4, verbose_name="correction in the target"
            ),
        ),
        migrations.AddField(
            model_name="reading",
            name="expected",
            field=models.DecimalField(decimal_places=2, max_digits=5, null=True, verbose_name="target, stops from f/1"),
        ),
        migrations.AddField(
            model_name="reading",
            name="head",
            field=models.CharField(blank=True, db_index=True, max_length=60, verbose_name="head"),
        ),
        migrations.AddField(
            model_name="reading",
            name="modifier",
            field=models.CharField(blank=True, max_length=60, verbose_name="modifier"),
        ),
        migrations.CreateModel(
            name="CameraSet",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("setup_name", models.CharField(max_length=200, verbose_name="set-up")),
                ("f_number", models.FloatField(verbose_name="aperture")),
                ("shutter_s", models.FloatField(verbose_name="shutter")),
                ("iso", models.PositiveIntegerField(verbose_name="ISO")),
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
                        on_delete=django.db.models.deletion.CASCADE, related_name="camera_sets", to="shotplans.record"
                    ),
                ),
            ],
            options={
                "ordering": ("record", "setup_name", "-pk"),
            },
        ),
    ]
