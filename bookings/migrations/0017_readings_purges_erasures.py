"""Who read comfort notes, whose were purged, who was erased."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("bookings", "0016_kinds_name_a_piece_of_kit"),
        ("studio", "0007_how_long_notes_are_kept"),
    ]

    operations = [
        migrations.CreateModel(
            name="Erasure",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("at", models.DateTimeField()),
                ("asked_by", models.CharField(max_length=200, verbose_name="who asked for it, and how")),
                ("counts", models.JSONField(default=dict)),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                    ),
                ),
                (
                    "client",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="erasure", to="bookings.client"
                    ),
                ),
            ],
            options={
                "ordering": ("-at",),
            },
        ),
        migrations.CreateModel(
            name="NoteReading",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("at", models.DateTimeField(db_index=True)),
                (
                    "where",
                    models.CharField(
                        choices=[
                            ("notes", "the notes themselves"),
                            ("plan", "the plan's reasons"),
                            ("brief", "the brief"),
                            ("intake", "the answers before the sitting"),
                            ("export", "the client's data in one file"),
                        ],
                        max_length=6,
                    ),
                ),
                ("refused", models.BooleanField(default=False)),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="note_readings", to="studio.member"
                    ),
                ),
                (
                    "sitter",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="note_readings",
                        to="bookings.sitter",
                    ),
                ),
                (
                    "sitting",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="note_readings", to="bookings.sitting"
                    ),
                ),
            ],
            options={
                "ordering": ("-at", "-pk"),
            },
        ),
        migrations.CreateModel(
            name="NotesPurged",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("at", models.DateTimeField()),
                (
                    "why",
                    models.CharField(
                        choices=[
                            ("day", "their day had come"),
                            ("no", "they are not to be kept"),
                            ("erased", "the client was erased"),
                        ],
                        max_length=6,
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
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="purges",
                        to="bookings.sitter",
                    ),
                ),
                (
                    "sitting",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="purges", to="bookings.sitting"
                    ),
                ),
            ],
            options={
                "ordering": ("-at", "-pk"),
            },
        ),
    ]
