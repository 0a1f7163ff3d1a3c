"""Opening hours of the house, working hours of its people, and days off."""

import django.core.validators
import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("studio", "0002_battery_and_own_mass"),
    ]

    operations = [
        migrations.CreateModel(
            name="Week",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                (
                    "member",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="week",
                        to="studio.member",
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="WeekDay",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "weekday",
                    models.PositiveSmallIntegerField(
                        choices=[
                            (0, "Monday"),
                            (1, "Tuesday"),
                            (2, "Wednesday"),
                            (3, "Thursday"),
                            (4, "Friday"),
                            (5, "Saturday"),
                            (6, "Sunday"),
                        ],
                        verbose_name="day",
                    ),
                ),
                ("from_time", models.TimeField(verbose_name="from")),
                ("to_time", models.TimeField(verbose_name="to")),
                (
                    "week",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="days", to="studio.week"
                    ),
                ),
            ],
            options={
                "ordering": ("weekday",),
            },
        ),
        migrations.CreateModel(
            name="DaysOff",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("first_day", models.DateField(verbose_name="first day")),
                ("last_day", models.DateField(verbose_name="last day")),
                (
                    "words",
                    models.CharField(
                        blank=True,
                        max_length=80,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                "Write something that can be read on one line.",
                            )
                        ],
                        verbose_name="shown as",
                    ),
                ),
                (
                    "member",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="days_off",
                        to="studio.member",
                        verbose_name="who",
                    ),
                ),
            ],
            options={
                "verbose_name": "days off",
                "ordering": ("first_day", "pk"),
                "indexes": [models.Index(fields=["last_day"], name="days_off_by_end")],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("last_day__gte", models.F("first_day"))), name="days_off_end_after_start"
                    )
                ],
            },
        ),
        migrations.AddConstraint(
            model_name="week",
            constraint=models.UniqueConstraint(
                models.Value(1), condition=models.Q(("member__isnull", True)), name="one_week_of_the_house"
            ),
        ),
        migrations.AddConstraint(
            model_name="weekday",
            constraint=models.UniqueConstraint(fields=("week", "weekday"), name="a_weekday_once_a_week"),
        ),
    ]
