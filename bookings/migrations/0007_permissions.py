"""Consents, guardians, releases and waivers, each by sitter."""

import django.core.validators
import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("bookings", "0006_clients_found_by"),
        ("studio", "0003_hours"),
    ]

    operations = [
        migrations.AlterField(
            model_name="sittingchange",
            name="what",
            field=models.CharField(
                choices=[
                    ("starts_at", "start"),
                    ("minutes", "length"),
                    ("setup_minutes", "set-up before it"),
                    ("strike_minutes", "strike after it"),
                    ("room", "room"),
                    ("photographer", "photographer"),
                    ("assistant", "assistant"),
                    ("purpose", "what the pictures are for"),
                    ("print_width_cm", "width of the print"),
                    ("name", "short name"),
                    ("added", "a person added"),
                    ("taken_out", "a person taken out"),
                    ("corrected", "details corrected"),
                    ("hold", "end of the hold"),
                    ("place", "place in the queue"),
                    ("fee", "fee agreed"),
                    ("deposit", "deposit"),
                    ("objection", "objection set aside"),
                    ("permission", "permission"),
                ],
                max_length=16,
            ),
        ),
        migrations.CreateModel(
            name="Guardian",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "how",
                    models.CharField(
                        choices=[("paper", "on paper"), ("desk", "at the desk")], max_length=5, verbose_name="how"
                    ),
                ),
                ("at", models.DateTimeField()),
                (
                    "name",
                    models.CharField(
                        max_length=120,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                "Write something that can be read on one line.",
                            )
                        ],
                        verbose_name="name",
                    ),
                ),
                (
                    "relation",
                    models.CharField(
                        max_length=60,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                "Write something that can be read on one line.",
                            )
                        ],
                        verbose_name="relation",
                    ),
                ),
                (
                    "phone",
                    models.CharField(
                        max_length=40,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                "Write something that can be read on one line.",
                            )
                        ],
                        verbose_name="telephone",
                    ),
                ),
                (
                    "by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="studio.member",
                    ),
                ),
                (
                    "sitter",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE, related_name="guardian", to="bookings.sitter"
                    ),
                ),
            ],
            options={
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Release",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "how",
                    models.CharField(
                        choices=[("paper", "on paper"), ("desk", "at the desk")], max_length=5, verbose_name="how"
                    ),
                ),
                ("at", models.DateTimeField()),
                (
                    "signed_by",
                    models.CharField(
                        max_length=120,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                "Write something that can be read on one line.",
                            )
                        ],
                        verbose_name="signed by",
                    ),
                ),
                (
                    "relation",
                    models.CharField(
                        blank=True,
                        max_length=60,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                "Write something that can be read on one line.",
                            )
                        ],
                        verbose_name="relation",
                    ),
                ),
                ("signed_on", models.DateField(verbose_name="signed on")),
                (
                    "limits",
                    models.CharField(
                        blank=True,
                        max_length=400,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                "Write something that can be read on one line.",
                            )
                        ],
                        verbose_name="limits of use",
                    ),
                ),
                (
                    "by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="studio.member",
                    ),
                ),
                (
                    "sitter",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE, related_name="release", to="bookings.sitter"
                    ),
                ),
            ],
            options={
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Waiver",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("asked_at", models.DateTimeField()),
                (
                    "asked_note",
                    models.CharField(
                        blank=True,
                        max_length=400,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                "Write something that can be read on one line.",
                            )
                        ],
                        verbose_name="why",
                    ),
                ),
                ("at", models.DateTimeField(blank=True, null=True)),
                (
                    "note",
                    models.CharField(
                        blank=True,
                        max_length=400,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                "Write something that can be read on one line.",
                            )
                        ],
                        verbose_name="note",
                    ),
                ),
                (
                    "asked_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                    ),
                ),
                (
                    "by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="studio.member",
                    ),
                ),
                (
                    "sitter",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE, related_name="waiver", to="bookings.sitter"
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="Consent",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "how",
                    models.CharField(
                        choices=[("paper", "on paper"), ("desk", "at the desk")], max_length=5, verbose_name="how"
                    ),
                ),
                ("at", models.DateTimeField()),
                (
                    "what",
                    models.CharField(
                        choices=[
                            ("photograph", "photograph"),
                            ("publish", "publish"),
                            ("keep_notes", "keep comfort notes"),
                        ],
                        max_length=12,
                    ),
                ),
                (
                    "answer",
                    models.CharField(choices=[("yes", "yes"), ("no", "no"), ("withdrawn", "withdrawn")], max_length=9),
                ),
                (
                    "by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="studio.member",
                    ),
                ),
                (
                    "sitter",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="consents", to="bookings.sitter"
                    ),
                ),
            ],
            options={
                "constraints": [models.UniqueConstraint(fields=("sitter", "what"), name="consent_once_a_sitter")],
            },
        ),
    ]
