"""Windows of a room."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("studio", "0003_hours"),
    ]

    operations = [
        migrations.CreateModel(
            name="Window",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "wall",
                    models.CharField(help_text="As you call it: street side.", max_length=40, verbose_name="wall"),
                ),
                ("width_m", models.FloatField(blank=True, null=True, verbose_name="width")),
                ("height_m", models.FloatField(blank=True, null=True, verbose_name="height")),
                ("sill_m", models.FloatField(blank=True, null=True, verbose_name="sill above the floor")),
                (
                    "room",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="windows", to="studio.room"
                    ),
                ),
            ],
            options={"ordering": ("pk",)},
        ),
    ]
