"""The tables of the light, in one step."""

import django.db.models.deletion
from django.db import migrations, models

from studio.migrating import CreateTogether


class Migration(migrations.Migration):
    # A database that went through these already has what this makes: Django then takes it for done.
    replaces = [
        ("shotplans", "0001_initial"),
        ("shotplans", "0002_rules"),
        ("shotplans", "0003_blanked_plans"),
        ("shotplans", "0004_what_readings_teach"),
        ("shotplans", "0005_frames"),
        ("shotplans", "0006_readings_that_come_in_late"),
        ("shotplans", "0007_as_shot_and_standards"),
    ]

    initial = True

    dependencies = [
        ("bookings", "0001_the_bookings"),
        ("studio", "0001_the_house"),
    ]

    operations = [
        CreateTogether(
            [
                migrations.CreateModel(
                    name="CompanyStandard",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="standard",
                                to="bookings.client",
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="Frame",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("digest", models.CharField(editable=False, max_length=64)),
                        ("name", models.CharField(max_length=120, verbose_name="file")),
                        ("size", models.BigIntegerField(editable=False)),
                        ("file_time_ms", models.BigIntegerField(default=0, editable=False)),
                        ("number", models.PositiveIntegerField(verbose_name="number")),
                        ("is_test", models.BooleanField(default=False, verbose_name="test frame")),
                        ("taken_at", models.DateTimeField(blank=True, null=True, verbose_name="taken at")),
                        ("f_number", models.FloatField(blank=True, null=True, verbose_name="aperture")),
                        ("shutter_s", models.FloatField(blank=True, null=True, verbose_name="shutter, s")),
                        ("iso", models.PositiveIntegerField(blank=True, null=True, verbose_name="ISO")),
                        ("focal_mm", models.FloatField(blank=True, null=True, verbose_name="focal length, mm")),
                        ("white_balance", models.CharField(blank=True, max_length=10, verbose_name="white balance")),
                        ("flash_fired", models.BooleanField(blank=True, null=True, verbose_name="flash fired")),
                        ("unread", models.CharField(blank=True, max_length=200, verbose_name="not read")),
                        ("look", models.JSONField(blank=True, null=True, verbose_name="the picture in numbers")),
                        ("setup_name", models.CharField(blank=True, max_length=200, verbose_name="set-up")),
                        ("tied_by", models.CharField(blank=True, max_length=10, verbose_name="tied by")),
                        ("doubt", models.CharField(blank=True, max_length=300, verbose_name="in doubt because")),
                        ("received_at", models.DateTimeField(verbose_name="came in at")),
                        (
                            "beside",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="others",
                                to="shotplans.frame",
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
                            "sitting",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="frames",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("sitting", "number", "pk"),
                        "constraints": [
                            models.UniqueConstraint(fields=("sitting", "digest"), name="a_file_once_a_sitting")
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="OwnNumber",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("rule", models.CharField(max_length=120, verbose_name="rule")),
                        ("number", models.CharField(max_length=120, verbose_name="number")),
                        ("value", models.FloatField(null=True, verbose_name="own value")),
                    ],
                    options={
                        "ordering": ("rule", "number"),
                        "constraints": [
                            models.UniqueConstraint(fields=("rule", "number"), name="a_number_once_a_rule")
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Plan",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("number", models.PositiveIntegerField(verbose_name="version")),
                        ("request", models.JSONField(verbose_name="input")),
                        ("document", models.JSONField(verbose_name="plan")),
                        ("fingerprint", models.CharField(max_length=64, verbose_name="fingerprint")),
                        ("made_at", models.DateTimeField(verbose_name="made at")),
                        ("why", models.CharField(blank=True, max_length=200, verbose_name="why a new version")),
                        (
                            "superseded_at",
                            models.DateTimeField(editable=False, null=True, verbose_name="superseded at"),
                        ),
                        ("blanked_at", models.DateTimeField(editable=False, null=True, verbose_name="blanked at")),
                        (
                            "made_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                            ),
                        ),
                        (
                            "sitting",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="plans", to="bookings.sitting"
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("sitting", "-number"),
                        "constraints": [
                            models.UniqueConstraint(fields=("sitting", "number"), name="a_plan_number_once_a_sitting"),
                            models.UniqueConstraint(
                                condition=models.Q(("superseded_at", None)),
                                fields=("sitting",),
                                name="one_current_plan_a_sitting",
                            ),
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="FrameCheck",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("setup_name", models.CharField(max_length=200, verbose_name="set-up")),
                        ("code", models.CharField(max_length=20, verbose_name="check")),
                        ("passed", models.BooleanField(verbose_name="good")),
                        ("at", models.DateTimeField(verbose_name="at")),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                            ),
                        ),
                        (
                            "plan",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="frame_checks",
                                to="shotplans.plan",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("plan", "setup_name", "-pk"),
                    },
                ),
                migrations.CreateModel(
                    name="Brief",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("data", models.JSONField(verbose_name="brief")),
                        ("confirmed_at", models.DateTimeField(verbose_name="confirmed at")),
                        (
                            "confirmed_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                            ),
                        ),
                        (
                            "sitting",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.CASCADE, related_name="brief", to="bookings.sitting"
                            ),
                        ),
                        (
                            "again_of",
                            models.ForeignKey(
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to="shotplans.plan",
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="Record",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("opened_at", models.DateTimeField(verbose_name="opened at")),
                        ("closed_at", models.DateTimeField(blank=True, null=True, verbose_name="signed at")),
                        (
                            "closed_by",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to="studio.member",
                            ),
                        ),
                        (
                            "plan",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.PROTECT, related_name="record", to="shotplans.plan"
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="Reading",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("setup_name", models.CharField(max_length=200, verbose_name="set-up")),
                        ("step", models.PositiveSmallIntegerField(verbose_name="step")),
                        (
                            "stops",
                            models.DecimalField(decimal_places=1, max_digits=4, verbose_name="reading, stops from f/1"),
                        ),
                        ("as_typed", models.CharField(max_length=40, verbose_name="as typed")),
                        ("at", models.DateTimeField(verbose_name="at")),
                        ("head", models.CharField(blank=True, db_index=True, max_length=60, verbose_name="head")),
                        ("modifier", models.CharField(blank=True, max_length=60, verbose_name="modifier")),
                        (
                            "expected",
                            models.DecimalField(
                                decimal_places=2, max_digits=5, null=True, verbose_name="target, stops from f/1"
                            ),
                        ),
                        (
                            "corrected",
                            models.DecimalField(
                                decimal_places=2, default=0, max_digits=4, verbose_name="correction in the target"
                            ),
                        ),
                        (
                            "cause",
                            models.CharField(
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
                        ("seen", models.PositiveBigIntegerField(editable=False, null=True)),
                        ("came_in_at", models.DateTimeField(editable=False, null=True)),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                            ),
                        ),
                        (
                            "cause_by",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to="studio.member",
                            ),
                        ),
                        (
                            "record",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="readings",
                                to="shotplans.record",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("record", "setup_name", "step", "-at", "-pk"),
                    },
                ),
                migrations.CreateModel(
                    name="Change",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("setup_name", models.CharField(max_length=200, verbose_name="set-up")),
                        ("about", models.CharField(max_length=20, verbose_name="light")),
                        ("what", models.CharField(max_length=40, verbose_name="what")),
                        ("planned", models.CharField(max_length=80, verbose_name="planned")),
                        ("actual", models.CharField(max_length=80, verbose_name="done")),
                        ("why", models.CharField(blank=True, max_length=200, verbose_name="why")),
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
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="changes",
                                to="shotplans.record",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("record", "setup_name", "about", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="CameraSet",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="camera_sets",
                                to="shotplans.record",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("record", "setup_name", "-pk"),
                    },
                ),
                migrations.CreateModel(
                    name="Built",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("setup_name", models.CharField(max_length=200, verbose_name="set-up")),
                        ("data", models.JSONField(verbose_name="as shot")),
                        ("failed", models.BooleanField(default=False, verbose_name="did not work")),
                        (
                            "why_failed",
                            models.CharField(blank=True, max_length=300, verbose_name="why it did not work"),
                        ),
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
                migrations.CreateModel(
                    name="Reference",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("chosen_at", models.DateTimeField(verbose_name="chosen at")),
                        (
                            "chosen_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                            ),
                        ),
                        (
                            "client",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="reference_frame",
                                to="bookings.client",
                            ),
                        ),
                        (
                            "frame",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE, related_name="+", to="shotplans.frame"
                            ),
                        ),
                    ],
                ),
                migrations.CreateModel(
                    name="Retired",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("head", models.CharField(db_index=True, max_length=60, verbose_name="head")),
                        ("modifier", models.CharField(blank=True, max_length=60, verbose_name="modifier")),
                        ("why", models.CharField(max_length=200, verbose_name="why")),
                        ("at", models.DateTimeField(verbose_name="at")),
                        (
                            "taken_back_at",
                            models.DateTimeField(editable=False, null=True, verbose_name="taken back at"),
                        ),
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
                    name="RuleEdit",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("rule", models.CharField(db_index=True, max_length=120, verbose_name="rule")),
                        ("number", models.CharField(max_length=120, verbose_name="number")),
                        ("words", models.CharField(max_length=200, verbose_name="what it is")),
                        ("unit", models.CharField(blank=True, max_length=40, verbose_name="unit")),
                        ("value_from", models.FloatField(verbose_name="from")),
                        ("value_to", models.FloatField(verbose_name="to")),
                        ("back_to_first", models.BooleanField(default=False, verbose_name="back to the first value")),
                        ("why", models.CharField(max_length=400, verbose_name="why")),
                        ("at", models.DateTimeField(verbose_name="at")),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
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
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="photos",
                                to="shotplans.record",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("record", "setup_name", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="SmallPicture",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("jpeg", models.BinaryField()),
                        ("width", models.PositiveSmallIntegerField()),
                        ("height", models.PositiveSmallIntegerField()),
                        ("eyes", models.JSONField(blank=True, null=True, verbose_name="eyes")),
                        (
                            "frame",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="picture",
                                to="shotplans.frame",
                            ),
                        ),
                    ],
                ),
            ]
        ),
    ]
