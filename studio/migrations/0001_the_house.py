"""The tables of the house, in one step."""

import uuid

import django.core.validators
import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

import studio.models.profile
from studio.migrating import CreateTogether


class Migration(migrations.Migration):
    # A database that went through these already has what this makes: Django then takes it for done.
    replaces = [
        ("studio", "0001_house"),
        ("studio", "0002_battery_and_own_mass"),
        ("studio", "0003_hours"),
        ("studio", "0004_room_windows"),
        ("studio", "0005_how_the_house_is_reached"),
        ("studio", "0006_the_way_in"),
        ("studio", "0007_how_long_notes_are_kept"),
        ("studio", "0008_who_changed_the_hours"),
        ("studio", "0009_small_pictures"),
        ("studio", "0010_entries_from_devices"),
    ]

    initial = True

    dependencies = [
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        CreateTogether(
            [
                migrations.CreateModel(
                    name="KitItem",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        (
                            "code",
                            models.SlugField(
                                error_messages={"unique": "Another piece has that code."},
                                help_text="As on its label: letters, digits and hyphens.",
                                max_length=60,
                                unique=True,
                                verbose_name="code",
                            ),
                        ),
                        (
                            "label",
                            models.CharField(
                                help_text="What you call it: 400 Ws head.",
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
                            "section",
                            models.CharField(
                                choices=[
                                    ("heads", "heads"),
                                    ("modifiers", "modifiers"),
                                    ("adapters", "rings"),
                                    ("stands", "stands and booms"),
                                    ("panels", "panels"),
                                    ("weights", "weights"),
                                    ("flags", "flags"),
                                    ("triggers", "triggers"),
                                    ("backgrounds", "backgrounds"),
                                    ("cameras", "cameras"),
                                    ("lenses", "lenses"),
                                    ("seats", "seats"),
                                    ("risers", "risers"),
                                ],
                                editable=False,
                                max_length=12,
                            ),
                        ),
                        (
                            "state",
                            models.CharField(
                                choices=[
                                    ("ready", "ready"),
                                    ("charging", "charging"),
                                    ("repair", "in repair"),
                                    ("lost", "lost"),
                                ],
                                default="ready",
                                max_length=8,
                                verbose_name="state",
                            ),
                        ),
                        ("note", models.CharField(blank=True, max_length=400, verbose_name="note")),
                    ],
                    options={
                        "ordering": ("code",),
                        "indexes": [models.Index(fields=["section", "code"], name="kit_by_section")],
                    },
                ),
                migrations.CreateModel(
                    name="Circuit",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        (
                            "label",
                            models.CharField(
                                help_text="As written at the socket: circuit 1.", max_length=40, verbose_name="name"
                            ),
                        ),
                        ("volts", models.FloatField(verbose_name="voltage")),
                        ("breaker_amps", models.FloatField(verbose_name="breaker")),
                        (
                            "room",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE, related_name="circuits", to="studio.room"
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("label", "pk"),
                        "constraints": [
                            models.UniqueConstraint(
                                fields=("room", "label"),
                                name="circuit_label_once_in_a_room",
                                violation_error_message="This room has a circuit of that name already.",
                            )
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="DaysOff",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                                condition=models.Q(("last_day__gte", models.F("first_day"))),
                                name="days_off_end_after_start",
                            )
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Entry",
                    fields=[
                        ("id", models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                        ("path", models.CharField(max_length=200)),
                        ("base_version", models.PositiveBigIntegerField(null=True)),
                        ("device_at", models.DateTimeField()),
                        ("device_sent_at", models.DateTimeField()),
                        ("received_at", models.DateTimeField(db_index=True)),
                        ("made_at", models.DateTimeField()),
                        ("outcome", models.CharField(choices=[("kept", "kept"), ("refused", "refused")], max_length=7)),
                        ("says", models.TextField(blank=True)),
                        ("answer", models.JSONField(null=True)),
                        (
                            "member",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("received_at",),
                    },
                ),
                migrations.CreateModel(
                    name="HoursChange",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("at", models.DateTimeField()),
                        ("what", models.CharField(choices=[("week", "hours"), ("days_off", "days off")], max_length=8)),
                        ("before", models.CharField(blank=True, max_length=400)),
                        ("after", models.CharField(blank=True, max_length=400)),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="hours_changed",
                                to="studio.member",
                            ),
                        ),
                        (
                            "member",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="hours_changes",
                                to="studio.member",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("at", "pk"),
                        "indexes": [models.Index(fields=["at"], name="hours_change_by_time")],
                    },
                ),
                migrations.CreateModel(
                    name="Member",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("name", models.CharField(max_length=120, verbose_name="name")),
                        (
                            "short",
                            models.CharField(
                                help_text="As written on sheets: HV.", max_length=4, verbose_name="initials"
                            ),
                        ),
                        (
                            "active",
                            models.BooleanField(
                                default=True, help_text="Without it nobody signs in.", verbose_name="works here"
                            ),
                        ),
                        (
                            "user",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="member",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("name", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="MemberRole",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        (
                            "role",
                            models.CharField(
                                choices=[
                                    ("front_desk", "front desk"),
                                    ("photographer", "photographer"),
                                    ("assistant", "assistant"),
                                    ("owner", "owner"),
                                ],
                                max_length=16,
                                verbose_name="role",
                            ),
                        ),
                        (
                            "member",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="role_rows",
                                to="studio.member",
                            ),
                        ),
                    ],
                    options={
                        "constraints": [
                            models.UniqueConstraint(fields=("member", "role"), name="a_role_once_a_member")
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Profile",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        (
                            "studio_name",
                            models.CharField(default="Tenthstop", max_length=120, verbose_name="name of the studio"),
                        ),
                        ("address", models.TextField(blank=True, max_length=400, verbose_name="address")),
                        ("way_in", models.TextField(blank=True, max_length=400, verbose_name="the way in")),
                        (
                            "telephone",
                            models.CharField(
                                blank=True,
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
                        ("email", models.EmailField(blank=True, max_length=254, verbose_name="e-mail")),
                        (
                            "tax_number",
                            models.CharField(
                                blank=True,
                                max_length=40,
                                validators=[
                                    django.core.validators.RegexValidator(
                                        "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                        "Write something that can be read on one line.",
                                    )
                                ],
                                verbose_name="tax number",
                            ),
                        ),
                        (
                            "time_zone",
                            models.CharField(
                                default="UTC",
                                max_length=64,
                                validators=[studio.models.profile.known_zone],
                                verbose_name="time zone",
                            ),
                        ),
                        (
                            "units",
                            models.CharField(
                                choices=[
                                    ("metric", "metric: metres and centimetres"),
                                    ("imperial", "imperial: feet and inches"),
                                ],
                                default="metric",
                                max_length=8,
                                verbose_name="units",
                            ),
                        ),
                        (
                            "paper",
                            models.CharField(
                                choices=[("a4", "A4"), ("letter", "Letter")],
                                default="a4",
                                max_length=6,
                                verbose_name="paper",
                            ),
                        ),
                        ("currency", models.CharField(default="GBP", max_length=3, verbose_name="currency")),
                        (
                            "keep_notes_days",
                            models.PositiveSmallIntegerField(
                                default=90,
                                validators=[django.core.validators.MaxValueValidator(3650)],
                                verbose_name="comfort notes are kept, days after delivery",
                            ),
                        ),
                        (
                            "keep_small_pictures",
                            models.BooleanField(default=True, verbose_name="keep a small picture of each frame"),
                        ),
                        (
                            "ratio_convention",
                            models.CharField(
                                choices=[
                                    ("total", "on the face: key and fill together against fill alone"),
                                    ("source", "at the lights: key alone against fill alone"),
                                ],
                                default="total",
                                max_length=6,
                                verbose_name="ratios are given",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "studio",
                    },
                ),
                migrations.CreateModel(
                    name="Room",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        (
                            "name",
                            models.CharField(
                                error_messages={"unique": "Another room has that name."},
                                max_length=80,
                                unique=True,
                                verbose_name="name",
                            ),
                        ),
                        ("width_m", models.FloatField(verbose_name="width")),
                        ("depth_m", models.FloatField(verbose_name="depth")),
                        ("ceiling_m", models.FloatField(verbose_name="height of the ceiling")),
                        (
                            "keep_out_m",
                            models.FloatField(
                                default=0.4,
                                help_text="Doors, radiators, a way past.",
                                verbose_name="kept free along the walls",
                            ),
                        ),
                        (
                            "set_axis",
                            models.CharField(
                                choices=[
                                    ("width", "along the width"),
                                    ("depth", "along the depth"),
                                    ("either", "either way"),
                                ],
                                default="either",
                                max_length=6,
                                verbose_name="camera looks",
                            ),
                        ),
                        (
                            "surface_walls",
                            models.CharField(
                                choices=[
                                    ("white", "white"),
                                    ("light grey", "light grey"),
                                    ("grey", "grey"),
                                    ("dark", "dark"),
                                    ("black", "black"),
                                ],
                                default="light grey",
                                max_length=10,
                                verbose_name="walls",
                            ),
                        ),
                        (
                            "surface_ceiling",
                            models.CharField(
                                choices=[
                                    ("white", "white"),
                                    ("light grey", "light grey"),
                                    ("grey", "grey"),
                                    ("dark", "dark"),
                                    ("black", "black"),
                                ],
                                default="white",
                                max_length=10,
                                verbose_name="ceiling",
                            ),
                        ),
                        (
                            "surface_floor",
                            models.CharField(
                                choices=[
                                    ("white", "white"),
                                    ("light grey", "light grey"),
                                    ("grey", "grey"),
                                    ("dark", "dark"),
                                    ("black", "black"),
                                ],
                                default="grey",
                                max_length=10,
                                verbose_name="floor",
                            ),
                        ),
                        (
                            "ambient_lux",
                            models.FloatField(
                                blank=True,
                                help_text="At the place of the sitter, as dark as you work. Empty: not measured.",
                                null=True,
                                verbose_name="daylight and lamps left on",
                            ),
                        ),
                        ("black_out", models.BooleanField(default=False, verbose_name="can be made dark")),
                        ("active", models.BooleanField(default=True, verbose_name="in use")),
                    ],
                    options={
                        "ordering": ("name",),
                    },
                ),
                migrations.CreateModel(
                    name="Week",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                    options={
                        "constraints": [
                            models.UniqueConstraint(
                                models.Value(1),
                                condition=models.Q(("member__isnull", True)),
                                name="one_week_of_the_house",
                            )
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="WeekDay",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                        "constraints": [
                            models.UniqueConstraint(fields=("week", "weekday"), name="a_weekday_once_a_week")
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Window",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        (
                            "wall",
                            models.CharField(
                                help_text="As you call it: street side.", max_length=40, verbose_name="wall"
                            ),
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
                    options={
                        "ordering": ("pk",),
                    },
                ),
                migrations.CreateModel(
                    name="Adapter",
                    fields=[
                        (
                            "kititem_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="studio.kititem",
                            ),
                        ),
                        (
                            "from_mount",
                            models.CharField(
                                help_text="The mount it is made for, in the same words on head, modifier and ring.",
                                max_length=120,
                                validators=[
                                    django.core.validators.RegexValidator(
                                        "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                        "Write something that can be read on one line.",
                                    )
                                ],
                                verbose_name="head's mount",
                            ),
                        ),
                        (
                            "to_mount",
                            models.CharField(
                                help_text="The mount it is made for, in the same words on head, modifier and ring.",
                                max_length=120,
                                validators=[
                                    django.core.validators.RegexValidator(
                                        "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                        "Write something that can be read on one line.",
                                    )
                                ],
                                verbose_name="modifier's mount",
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("studio.kititem",),
                ),
                migrations.CreateModel(
                    name="Background",
                    fields=[
                        (
                            "kititem_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="studio.kititem",
                            ),
                        ),
                        (
                            "kind",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("paper", "paper"),
                                    ("cloth", "cloth"),
                                    ("canvas", "canvas"),
                                    ("wall", "wall"),
                                ],
                                max_length=6,
                                verbose_name="kind",
                            ),
                        ),
                        ("width_m", models.FloatField(verbose_name="width")),
                        ("height_m", models.FloatField(blank=True, null=True, verbose_name="height")),
                        (
                            "reflectance",
                            models.FloatField(
                                help_text="White paper about 0.85, mid grey 0.2, black cloth 0.03.",
                                verbose_name="reflects",
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("studio.kititem",),
                ),
                migrations.CreateModel(
                    name="CameraBody",
                    fields=[
                        (
                            "kititem_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="studio.kititem",
                            ),
                        ),
                        ("sensor_width_mm", models.FloatField(verbose_name="sensor, wide")),
                        ("sensor_height_mm", models.FloatField(verbose_name="sensor, high")),
                        ("base_iso", models.FloatField(default=100, verbose_name="base sensitivity")),
                        ("max_iso", models.FloatField(verbose_name="highest you would use")),
                        (
                            "sync_s",
                            models.FloatField(
                                help_text="With your trigger: 1/200 is 0.005.", verbose_name="shortest time with flash"
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("studio.kititem",),
                ),
                migrations.CreateModel(
                    name="Flag",
                    fields=[
                        (
                            "kititem_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="studio.kititem",
                            ),
                        ),
                        ("width_m", models.FloatField(blank=True, null=True, verbose_name="width")),
                        ("height_m", models.FloatField(blank=True, null=True, verbose_name="height")),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("studio.kititem",),
                ),
                migrations.CreateModel(
                    name="Head",
                    fields=[
                        (
                            "kititem_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="studio.kititem",
                            ),
                        ),
                        (
                            "light",
                            models.CharField(
                                choices=[("flash", "flash"), ("steady", "steady")],
                                default="flash",
                                max_length=6,
                                verbose_name="light",
                            ),
                        ),
                        ("energy_ws", models.FloatField(blank=True, null=True, verbose_name="energy")),
                        ("range_stops", models.FloatField(verbose_name="power can be turned down by")),
                        (
                            "f_number_1m_iso100",
                            models.FloatField(
                                blank=True,
                                help_text="Needed for a flash. Metered, not from a leaflet, where you can.",
                                null=True,
                                verbose_name="f-number at 1 m, full power, ISO 100",
                            ),
                        ),
                        (
                            "lux_1m",
                            models.FloatField(
                                blank=True,
                                help_text="Needed for a steady head.",
                                null=True,
                                verbose_name="light at 1 m, full power",
                            ),
                        ),
                        (
                            "rated_with",
                            models.CharField(
                                blank=True,
                                choices=[("bare", "bare"), ("standard_reflector", "in its standard reflector")],
                                max_length=20,
                                verbose_name="that number was taken",
                            ),
                        ),
                        (
                            "dial_scale",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("fraction", "fractions of full: 1/4 -0.3"),
                                    ("ten", "numbers up to 10"),
                                    ("watt_seconds", "watt-seconds"),
                                    ("stops", "stops below full"),
                                ],
                                max_length=12,
                                verbose_name="its dial counts in",
                            ),
                        ),
                        (
                            "dial_step",
                            models.FloatField(blank=True, null=True, verbose_name="smallest step of the dial"),
                        ),
                        (
                            "mount",
                            models.CharField(
                                help_text="The mount it is made for, in the same words on head, modifier and ring.",
                                max_length=120,
                                validators=[
                                    django.core.validators.RegexValidator(
                                        "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                        "Write something that can be read on one line.",
                                    )
                                ],
                                verbose_name="mount",
                            ),
                        ),
                        ("mass_kg", models.FloatField(verbose_name="mass")),
                        ("watts", models.FloatField(blank=True, null=True, verbose_name="power drawn")),
                        ("peak_amps", models.FloatField(blank=True, null=True, verbose_name="peak current")),
                        ("kelvin", models.FloatField(blank=True, null=True, verbose_name="colour")),
                        ("duration_s", models.FloatField(blank=True, null=True, verbose_name="flash duration")),
                        (
                            "duration_kind",
                            models.CharField(
                                blank=True,
                                choices=[("t0.5", "t0.5"), ("t0.1", "t0.1")],
                                max_length=4,
                                verbose_name="duration measured as",
                            ),
                        ),
                        ("recycle_s", models.FloatField(blank=True, null=True, verbose_name="recycling")),
                        ("modelling_watts", models.FloatField(blank=True, null=True, verbose_name="modelling lamp")),
                        ("flicker_free", models.BooleanField(blank=True, null=True, verbose_name="free of flicker")),
                        (
                            "battery_ws",
                            models.FloatField(
                                blank=True,
                                help_text="Only where it lives on a battery. 1 Wh is 3600 Ws.",
                                null=True,
                                verbose_name="battery, energy of one charge",
                            ),
                        ),
                        (
                            "battery_full_power_shots",
                            models.FloatField(
                                blank=True,
                                help_text="The maker's own count, where there is one; it is taken before the energy.",
                                null=True,
                                verbose_name="battery, flashes of one charge at full power",
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("studio.kititem",),
                ),
                migrations.CreateModel(
                    name="Lens",
                    fields=[
                        (
                            "kititem_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="studio.kititem",
                            ),
                        ),
                        (
                            "min_focal_mm",
                            models.FloatField(
                                help_text="A fixed lens: the same twice.", verbose_name="shortest focal length"
                            ),
                        ),
                        ("max_focal_mm", models.FloatField(verbose_name="longest focal length")),
                        (
                            "max_aperture",
                            models.FloatField(
                                help_text="The small f-number: f/1.8 is 1.8.", verbose_name="widest aperture"
                            ),
                        ),
                        ("min_aperture", models.FloatField(blank=True, null=True, verbose_name="narrowest aperture")),
                        ("min_focus_m", models.FloatField(blank=True, null=True, verbose_name="nearest focus")),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("studio.kititem",),
                ),
                migrations.CreateModel(
                    name="Modifier",
                    fields=[
                        (
                            "kititem_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="studio.kititem",
                            ),
                        ),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("octabox", "octabox"),
                                    ("box", "box"),
                                    ("strip", "strip"),
                                    ("umbrella_through", "umbrella, shot through or with a front cloth"),
                                    ("umbrella_back", "umbrella, turned away"),
                                    ("dish", "dish"),
                                    ("reflector", "reflector"),
                                    ("lantern", "lantern"),
                                    ("snoot", "snoot"),
                                ],
                                max_length=16,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "shape",
                            models.CharField(
                                choices=[("disc", "round"), ("rect", "four corners")],
                                max_length=4,
                                verbose_name="front",
                            ),
                        ),
                        (
                            "diameter_m",
                            models.FloatField(
                                blank=True, help_text="Needed for a round front.", null=True, verbose_name="diameter"
                            ),
                        ),
                        (
                            "width_m",
                            models.FloatField(
                                blank=True,
                                help_text="Needed for a front with four corners.",
                                null=True,
                                verbose_name="width",
                            ),
                        ),
                        (
                            "height_m",
                            models.FloatField(
                                blank=True,
                                help_text="Needed for a front with four corners.",
                                null=True,
                                verbose_name="height",
                            ),
                        ),
                        (
                            "loss_stops",
                            models.FloatField(
                                help_text="On the axis, 1 m from the front, against the head's own number. Below 0: it gains.",  # noqa: E501
                                verbose_name="loss",
                            ),
                        ),
                        (
                            "mount",
                            models.CharField(
                                help_text="The mount it is made for, in the same words on head, modifier and ring.",
                                max_length=120,
                                validators=[
                                    django.core.validators.RegexValidator(
                                        "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                        "Write something that can be read on one line.",
                                    )
                                ],
                                verbose_name="mount",
                            ),
                        ),
                        ("mass_kg", models.FloatField(verbose_name="mass")),
                        (
                            "beam_deg",
                            models.FloatField(
                                blank=True, null=True, verbose_name="beam, full width at half its strength"
                            ),
                        ),
                        (
                            "core_stops",
                            models.FloatField(blank=True, null=True, verbose_name="middle brighter than the edge by"),
                        ),
                        ("lip_m", models.FloatField(blank=True, null=True, verbose_name="lip in front of the cloth")),
                        ("depth_m", models.FloatField(blank=True, null=True, verbose_name="depth from mount to front")),
                        ("inner_cloth", models.BooleanField(blank=True, null=True, verbose_name="inner cloth")),
                        ("outer_cloth", models.BooleanField(blank=True, null=True, verbose_name="outer cloth")),
                        (
                            "grid_deg",
                            models.FloatField(
                                blank=True,
                                help_text="Empty: no grid.",
                                null=True,
                                verbose_name="grid, full angle at which it cuts off",
                            ),
                        ),
                        (
                            "min_distance_m",
                            models.FloatField(blank=True, null=True, verbose_name="nearest to cloth or people"),
                        ),
                        (
                            "max_modelling_watts",
                            models.FloatField(blank=True, null=True, verbose_name="bears a modelling lamp up to"),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("studio.kititem",),
                ),
                migrations.CreateModel(
                    name="Panel",
                    fields=[
                        (
                            "kititem_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="studio.kititem",
                            ),
                        ),
                        ("width_m", models.FloatField(verbose_name="width")),
                        ("height_m", models.FloatField(verbose_name="height")),
                        (
                            "white_reflectance",
                            models.FloatField(blank=True, null=True, verbose_name="white side reflects"),
                        ),
                        (
                            "black_reflectance",
                            models.FloatField(blank=True, null=True, verbose_name="black side reflects"),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("studio.kititem",),
                ),
                migrations.CreateModel(
                    name="Riser",
                    fields=[
                        (
                            "kititem_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="studio.kititem",
                            ),
                        ),
                        ("height_m", models.FloatField(blank=True, null=True, verbose_name="height")),
                        ("arms", models.BooleanField(blank=True, null=True, verbose_name="arms to push up from")),
                        ("back", models.BooleanField(blank=True, null=True, verbose_name="back")),
                        ("rating_kg", models.FloatField(blank=True, null=True, verbose_name="carries up to")),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("studio.kititem", models.Model),
                ),
                migrations.CreateModel(
                    name="Seat",
                    fields=[
                        (
                            "kititem_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="studio.kititem",
                            ),
                        ),
                        ("height_m", models.FloatField(blank=True, null=True, verbose_name="height")),
                        ("arms", models.BooleanField(blank=True, null=True, verbose_name="arms to push up from")),
                        ("back", models.BooleanField(blank=True, null=True, verbose_name="back")),
                        ("rating_kg", models.FloatField(blank=True, null=True, verbose_name="carries up to")),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("studio.kititem", models.Model),
                ),
                migrations.CreateModel(
                    name="Stand",
                    fields=[
                        (
                            "kititem_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="studio.kititem",
                            ),
                        ),
                        (
                            "kind",
                            models.CharField(
                                choices=[("stand", "stand"), ("boom", "boom with its column")],
                                default="stand",
                                max_length=5,
                                verbose_name="kind",
                            ),
                        ),
                        ("max_height_m", models.FloatField(help_text="Floor to spigot.", verbose_name="highest")),
                        ("min_height_m", models.FloatField(help_text="Floor to spigot.", verbose_name="lowest")),
                        ("max_load_kg", models.FloatField(verbose_name="carries up to")),
                        (
                            "reach_m",
                            models.FloatField(
                                blank=True, help_text="Level, from the column.", null=True, verbose_name="boom reaches"
                            ),
                        ),
                        ("footprint_m", models.FloatField(blank=True, null=True, verbose_name="legs across")),
                        ("counterweight_kg", models.FloatField(blank=True, null=True, verbose_name="counterweight")),
                        ("mass_kg", models.FloatField(blank=True, null=True, verbose_name="own mass")),
                        ("arm_kg", models.FloatField(blank=True, null=True, verbose_name="mass of a boom's arm alone")),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("studio.kititem",),
                ),
                migrations.CreateModel(
                    name="Trigger",
                    fields=[
                        (
                            "kititem_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="studio.kititem",
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("studio.kititem",),
                ),
                migrations.CreateModel(
                    name="Weight",
                    fields=[
                        (
                            "kititem_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="studio.kititem",
                            ),
                        ),
                        ("kg", models.FloatField(blank=True, null=True, verbose_name="mass")),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("studio.kititem",),
                ),
            ]
        ),
    ]
