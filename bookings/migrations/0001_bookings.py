"""Clients, sittings, sitters, claims."""

import django.core.validators
import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies = [
        ("studio", "0001_house"),
    ]

    operations = [
        migrations.CreateModel(
            name="Client",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
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
                ("is_company", models.BooleanField(default=False, verbose_name="a company")),
                ("email", models.EmailField(blank=True, max_length=254, verbose_name="e-mail")),
                ("phone", models.CharField(blank=True, max_length=40, verbose_name="telephone")),
                (
                    "note",
                    models.TextField(
                        blank=True,
                        help_text="Nothing about health or looks here.",
                        max_length=2000,
                        verbose_name="note",
                    ),
                ),
            ],
            options={
                "ordering": ("name", "pk"),
            },
        ),
        migrations.CreateModel(
            name="Kind",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                (
                    "name",
                    models.CharField(
                        max_length=80,
                        unique=True,
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
                    "minutes",
                    models.PositiveSmallIntegerField(
                        validators=[
                            django.core.validators.MinValueValidator(5),
                            django.core.validators.MaxValueValidator(1440),
                        ],
                        verbose_name="the sitting, minutes",
                    ),
                ),
                (
                    "setup_minutes",
                    models.PositiveSmallIntegerField(
                        default=30,
                        validators=[
                            django.core.validators.MinValueValidator(0),
                            django.core.validators.MaxValueValidator(600),
                        ],
                        verbose_name="set-up before it, minutes",
                    ),
                ),
                (
                    "strike_minutes",
                    models.PositiveSmallIntegerField(
                        default=15,
                        validators=[
                            django.core.validators.MinValueValidator(0),
                            django.core.validators.MaxValueValidator(600),
                        ],
                        verbose_name="strike after it, minutes",
                    ),
                ),
                (
                    "intent",
                    models.CharField(
                        choices=[
                            ("soft", "calm on lines"),
                            ("even", "even and matching"),
                            ("natural", "gentle shape"),
                            ("bold", "strong shape, deep shadow"),
                            ("character", "every line shown"),
                            ("bright", "light ground, low contrast"),
                        ],
                        default="natural",
                        max_length=10,
                        verbose_name="the picture says",
                    ),
                ),
                (
                    "framing",
                    models.CharField(
                        choices=[
                            ("head", "head"),
                            ("head_and_shoulders", "head and shoulders"),
                            ("half", "to the waist"),
                            ("three_quarter", "to the knees"),
                            ("full", "head to foot"),
                            ("group", "a group"),
                        ],
                        default="head_and_shoulders",
                        max_length=20,
                        verbose_name="framing",
                    ),
                ),
                (
                    "background_tone",
                    models.CharField(
                        choices=[
                            ("black", "black"),
                            ("dark", "dark"),
                            ("mid", "middle"),
                            ("light", "light"),
                            ("white", "white"),
                        ],
                        default="mid",
                        max_length=5,
                        verbose_name="ground",
                    ),
                ),
                (
                    "view",
                    models.CharField(
                        choices=[
                            ("full", "full face"),
                            ("seven_eighths", "seven eighths"),
                            ("three_quarter", "three quarters"),
                            ("profile", "profile"),
                            ("either", "as the light likes it"),
                        ],
                        default="either",
                        max_length=15,
                        verbose_name="view of the face",
                    ),
                ),
                (
                    "orientation",
                    models.CharField(
                        choices=[("upright", "upright"), ("horizontal", "horizontal"), ("either", "either")],
                        default="either",
                        max_length=10,
                        verbose_name="orientation",
                    ),
                ),
                ("active", models.BooleanField(default=True, verbose_name="offered")),
            ],
            options={
                "verbose_name": "kind of sitting",
                "ordering": ("name",),
            },
        ),
        migrations.CreateModel(
            name="NumberSeries",
            fields=[
                ("name", models.CharField(max_length=20, primary_key=True, serialize=False)),
                ("last", models.PositiveIntegerField(default=0)),
            ],
        ),
        migrations.CreateModel(
            name="Sitter",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveSmallIntegerField(default=0)),
                (
                    "label",
                    models.CharField(
                        help_text="As said on set; once in a sitting.",
                        max_length=60,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                "Write something that can be read on one line.",
                            )
                        ],
                        verbose_name="short name",
                    ),
                ),
                ("age_years", models.FloatField(blank=True, null=True, verbose_name="age")),
                ("height_cm", models.FloatField(blank=True, null=True, verbose_name="height")),
                (
                    "posture",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("standing", "standing"),
                            ("seated", "seated"),
                            ("wheelchair", "in a wheelchair"),
                            ("floor", "on the floor"),
                            ("lap", "on a lap"),
                        ],
                        max_length=10,
                        verbose_name="posture",
                    ),
                ),
                (
                    "household",
                    models.CharField(
                        blank=True,
                        help_text="One word for all who belong together.",
                        max_length=60,
                        verbose_name="household",
                    ),
                ),
                (
                    "relation",
                    models.CharField(
                        blank=True, help_text="Grandmother, son, director.", max_length=60, verbose_name="relation"
                    ),
                ),
                ("central", models.BooleanField(default=False, verbose_name="belongs in the middle")),
                (
                    "keep_with",
                    models.CharField(
                        blank=True,
                        help_text="The short name of somebody in this sitting.",
                        max_length=60,
                        verbose_name="keep beside",
                    ),
                ),
            ],
            options={
                "ordering": ("position", "pk"),
            },
        ),
        migrations.CreateModel(
            name="Notes",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                (
                    "skin",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("very light", "very light"),
                            ("light", "light"),
                            ("intermediate", "intermediate"),
                            ("tan", "tan"),
                            ("brown", "brown"),
                            ("dark", "dark"),
                            ("not noted", "asked, not to be noted"),
                        ],
                        max_length=14,
                        verbose_name="skin",
                    ),
                ),
                (
                    "surface",
                    models.CharField(
                        blank=True,
                        choices=[("matte", "little"), ("usual", "as usual"), ("shiny", "much")],
                        max_length=14,
                        verbose_name="skin shines",
                    ),
                ),
                (
                    "texture",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("smooth", "smooth"),
                            ("fine lines", "fine lines"),
                            ("lines", "lines"),
                            ("deep lines", "deep lines"),
                        ],
                        max_length=14,
                        verbose_name="lines",
                    ),
                ),
                (
                    "eyes",
                    models.CharField(
                        blank=True,
                        choices=[("usual", "as usual"), ("deep set", "deep set")],
                        max_length=14,
                        verbose_name="eyes",
                    ),
                ),
                (
                    "glasses_lens",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("flat", "flat lenses"),
                            ("usual", "usual lenses"),
                            ("strong", "strong lenses"),
                            ("reactive", "lenses that darken"),
                        ],
                        max_length=14,
                        verbose_name="glasses",
                    ),
                ),
                ("may_remove", models.BooleanField(blank=True, null=True, verbose_name="glasses may come off")),
                (
                    "beard",
                    models.CharField(
                        blank=True,
                        choices=[("none", "none"), ("short", "short"), ("full", "full")],
                        max_length=14,
                        verbose_name="beard",
                    ),
                ),
                (
                    "hair",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("dark", "dark"),
                            ("mid", "middle"),
                            ("fair", "fair"),
                            ("grey", "grey"),
                            ("white", "white"),
                        ],
                        max_length=14,
                        verbose_name="hair",
                    ),
                ),
                (
                    "head",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("usual", "as usual"),
                            ("bald", "bald"),
                            ("covered", "covered"),
                            ("brim", "hat with a brim"),
                        ],
                        max_length=14,
                        verbose_name="head",
                    ),
                ),
                (
                    "face_width",
                    models.CharField(
                        blank=True,
                        choices=[("narrow", "narrow"), ("usual", "as usual"), ("wide", "wide")],
                        max_length=14,
                        verbose_name="face",
                    ),
                ),
                (
                    "better_side",
                    models.CharField(
                        blank=True,
                        choices=[("own_left", "own left"), ("own_right", "own right"), ("none", "no preference")],
                        max_length=14,
                        verbose_name="better side",
                    ),
                ),
                ("turn_limit_deg", models.FloatField(blank=True, null=True, verbose_name="can turn the head")),
                (
                    "chin_limit_deg",
                    models.FloatField(blank=True, null=True, verbose_name="can lower or raise the chin"),
                ),
                (
                    "clothes_tone",
                    models.CharField(
                        blank=True,
                        choices=[("dark", "dark"), ("mid", "middle"), ("light", "light")],
                        max_length=14,
                        verbose_name="clothes",
                    ),
                ),
                ("bare_arms", models.BooleanField(blank=True, null=True, verbose_name="bare arms")),
                ("clothes_shiny", models.BooleanField(blank=True, null=True, verbose_name="clothes shine")),
                ("clothes_pattern", models.BooleanField(blank=True, null=True, verbose_name="clothes with a pattern")),
                ("stand_minutes", models.FloatField(blank=True, null=True, verbose_name="can stand for")),
                ("hip_or_back", models.BooleanField(blank=True, null=True, verbose_name="hip or back to be spared")),
                (
                    "no_flash",
                    models.BooleanField(
                        blank=True, help_text="Flashing light is to be kept away.", null=True, verbose_name="no flash"
                    ),
                ),
                ("hearing", models.BooleanField(blank=True, null=True, verbose_name="hears little")),
                ("low_vision", models.BooleanField(blank=True, null=True, verbose_name="sees little")),
                ("tremor", models.BooleanField(blank=True, null=True, verbose_name="trembles")),
                ("sensory", models.BooleanField(blank=True, null=True, verbose_name="sound and touch to be spared")),
                (
                    "sitter",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE, related_name="notes", to="bookings.sitter"
                    ),
                ),
            ],
            options={
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Sitting",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("number", models.CharField(editable=False, max_length=12, unique=True, verbose_name="sitting number")),
                ("starts_at", models.DateTimeField(verbose_name="starts")),
                (
                    "minutes",
                    models.PositiveSmallIntegerField(
                        validators=[
                            django.core.validators.MinValueValidator(5),
                            django.core.validators.MaxValueValidator(1440),
                        ],
                        verbose_name="length, minutes",
                    ),
                ),
                (
                    "setup_minutes",
                    models.PositiveSmallIntegerField(
                        default=30,
                        validators=[
                            django.core.validators.MinValueValidator(0),
                            django.core.validators.MaxValueValidator(600),
                        ],
                        verbose_name="set-up before it, minutes",
                    ),
                ),
                (
                    "strike_minutes",
                    models.PositiveSmallIntegerField(
                        default=15,
                        validators=[
                            django.core.validators.MinValueValidator(0),
                            django.core.validators.MaxValueValidator(600),
                        ],
                        verbose_name="strike after it, minutes",
                    ),
                ),
                ("purpose", models.CharField(blank=True, max_length=400, verbose_name="what the pictures are for")),
                (
                    "print_width_cm",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(1),
                            django.core.validators.MaxValueValidator(1000),
                        ],
                        verbose_name="width of the print, cm",
                    ),
                ),
                (
                    "stage",
                    models.CharField(
                        choices=[
                            ("enquiry", "enquiry"),
                            ("held", "held"),
                            ("confirmed", "confirmed"),
                            ("arrived", "arrived"),
                            ("photographed", "photographed"),
                            ("chosen", "chosen"),
                            ("delivered", "delivered"),
                            ("closed", "closed"),
                            ("cancelled", "cancelled"),
                            ("no_show", "no-show"),
                        ],
                        default="held",
                        max_length=12,
                        verbose_name="stage",
                    ),
                ),
                (
                    "assistant",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="sittings_assisted",
                        to="studio.member",
                        verbose_name="assistant",
                    ),
                ),
                (
                    "client",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="sittings",
                        to="bookings.client",
                        verbose_name="client",
                    ),
                ),
                (
                    "kind",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="sittings",
                        to="bookings.kind",
                        verbose_name="kind of sitting",
                    ),
                ),
                (
                    "photographer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="sittings_photographed",
                        to="studio.member",
                        verbose_name="photographer",
                    ),
                ),
                (
                    "room",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="sittings",
                        to="studio.room",
                        verbose_name="room",
                    ),
                ),
            ],
            options={
                "ordering": ("starts_at", "pk"),
            },
        ),
        migrations.AddField(
            model_name="sitter",
            name="sitting",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.CASCADE, related_name="sitters", to="bookings.sitting"
            ),
        ),
        migrations.CreateModel(
            name="Claim",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "resource_kind",
                    models.CharField(
                        choices=[("room", "room"), ("member", "person"), ("kit", "piece of kit")], max_length=6
                    ),
                ),
                ("resource_id", models.BigIntegerField()),
                ("starts_at", models.DateTimeField()),
                ("ends_at", models.DateTimeField()),
                (
                    "sitting",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="claims", to="bookings.sitting"
                    ),
                ),
            ],
            options={
                "ordering": ("starts_at", "pk"),
            },
        ),
        migrations.CreateModel(
            name="StageChange",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("at", models.DateTimeField()),
                (
                    "stage_from",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("enquiry", "enquiry"),
                            ("held", "held"),
                            ("confirmed", "confirmed"),
                            ("arrived", "arrived"),
                            ("photographed", "photographed"),
                            ("chosen", "chosen"),
                            ("delivered", "delivered"),
                            ("closed", "closed"),
                            ("cancelled", "cancelled"),
                            ("no_show", "no-show"),
                        ],
                        max_length=12,
                    ),
                ),
                (
                    "stage_to",
                    models.CharField(
                        choices=[
                            ("enquiry", "enquiry"),
                            ("held", "held"),
                            ("confirmed", "confirmed"),
                            ("arrived", "arrived"),
                            ("photographed", "photographed"),
                            ("chosen", "chosen"),
                            ("delivered", "delivered"),
                            ("closed", "closed"),
                            ("cancelled", "cancelled"),
                            ("no_show", "no-show"),
                        ],
                        max_length=12,
                    ),
                ),
                ("note", models.CharField(blank=True, max_length=400, verbose_name="note")),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="stage_changes", to="studio.member"
                    ),
                ),
                (
                    "sitting",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="stage_changes", to="bookings.sitting"
                    ),
                ),
            ],
            options={
                "ordering": ("at", "pk"),
            },
        ),
        migrations.CreateModel(
            name="Wish",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "note",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("lines", "lines"),
                            ("bags", "bags under the eyes"),
                            ("neck", "neck"),
                            ("chin", "chin"),
                            ("width", "width of the face"),
                            ("nose", "nose"),
                            ("scar", "scar"),
                            ("blemish", "blemish"),
                            ("hair", "hair"),
                            ("shine", "shine"),
                        ],
                        max_length=14,
                        verbose_name="about",
                    ),
                ),
                (
                    "side",
                    models.CharField(
                        blank=True,
                        choices=[("own_left", "own left"), ("own_right", "own right"), ("both", "both")],
                        max_length=14,
                        verbose_name="side",
                    ),
                ),
                (
                    "wish",
                    models.CharField(
                        blank=True,
                        choices=[("softer", "softer"), ("as it is", "as it is"), ("shown", "shown")],
                        max_length=14,
                        verbose_name="wish",
                    ),
                ),
                (
                    "sitter",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="wishes", to="bookings.sitter"
                    ),
                ),
            ],
            options={
                "ordering": ("pk",),
            },
        ),
        migrations.AddIndex(
            model_name="sitting",
            index=models.Index(fields=["starts_at"], name="sitting_by_time"),
        ),
        migrations.AddConstraint(
            model_name="sitter",
            constraint=models.UniqueConstraint(fields=("sitting", "label"), name="sitter_label_once_in_a_sitting"),
        ),
        migrations.AddIndex(
            model_name="claim",
            index=models.Index(fields=["resource_kind", "resource_id", "starts_at"], name="claim_by_resource"),
        ),
        migrations.AddIndex(
            model_name="claim",
            index=models.Index(fields=["starts_at", "ends_at"], name="claim_by_time"),
        ),
        migrations.AddConstraint(
            model_name="claim",
            constraint=models.CheckConstraint(
                condition=models.Q(("ends_at__gt", models.F("starts_at"))), name="claim_ends_after_start"
            ),
        ),
    ]
