"""The tables of the bookings, in one step, with the guard that makes the database refuse overlapping claims
(`bookings.overlap`, which also puts it back)."""

from decimal import Decimal

import django.core.validators
import django.db.models.deletion
from django.db import migrations, models

from bookings import overlap
from studio.migrating import CreateTogether


def no_overlap(apps, schema_editor):
    overlap.install(schema_editor.connection)


class Migration(migrations.Migration):
    # A database that went through these already has what this makes: Django then takes it for done.
    replaces = [
        ("bookings", "0001_bookings"),
        ("bookings", "0002_no_overlap"),
        ("bookings", "0003_sitting_changes"),
        ("bookings", "0004_terms_prices_holds_money"),
        ("bookings", "0005_holds_of_those_held"),
        ("bookings", "0006_clients_found_by"),
        ("bookings", "0007_permissions"),
        ("bookings", "0008_notes_ease_seat_hair"),
        ("bookings", "0009_clocks_complaints_asking_back"),
        ("bookings", "0010_rotas"),
        ("bookings", "0011_letters"),
        ("bookings", "0012_found_by_purpose_and_name"),
        ("bookings", "0013_wordings_invitations_answers"),
        ("bookings", "0014_items_taxes_bills"),
        ("bookings", "0015_intake"),
        ("bookings", "0016_kinds_name_a_piece_of_kit"),
        ("bookings", "0017_readings_purges_erasures"),
        ("bookings", "0018_invoices_by_letter"),
        ("bookings", "0019_who_waits_for_a_time"),
        ("bookings", "0020_where_it_will_hang"),
        ("bookings", "0021_lists_of_clients"),
    ]

    initial = True

    dependencies = [
        ("studio", "0001_the_house"),
    ]

    operations = [
        CreateTogether(
            [
                migrations.CreateModel(
                    name="Client",
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
                            "tax_exempt",
                            models.CharField(
                                blank=True,
                                max_length=40,
                                validators=[
                                    django.core.validators.RegexValidator(
                                        "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                        "Write something that can be read on one line.",
                                    )
                                ],
                                verbose_name="exemption from tax, number",
                            ),
                        ),
                        (
                            "note",
                            models.TextField(
                                blank=True,
                                help_text="Nothing about health or looks here.",
                                max_length=2000,
                                verbose_name="note",
                            ),
                        ),
                        ("not_again", models.BooleanField(default=False, verbose_name="do not invite again")),
                        ("found_by", models.TextField(default="", editable=False)),
                    ],
                    options={
                        "ordering": ("name", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="Item",
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
                            "kind",
                            models.CharField(
                                choices=[
                                    ("print", "prints and albums"),
                                    ("file", "files"),
                                    ("frame", "frames and goods"),
                                    ("service", "retouching, travel and other work"),
                                ],
                                max_length=8,
                                verbose_name="kind of item",
                            ),
                        ),
                        ("active", models.BooleanField(default=True, verbose_name="offered")),
                    ],
                    options={
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
                    name="Rota",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        (
                            "place_minutes",
                            models.PositiveSmallIntegerField(
                                default=10,
                                validators=[
                                    django.core.validators.MinValueValidator(2),
                                    django.core.validators.MaxValueValidator(120),
                                ],
                                verbose_name="minutes a place",
                            ),
                        ),
                        (
                            "real_minutes",
                            models.PositiveSmallIntegerField(
                                default=9,
                                help_text="What it took last time.",
                                validators=[
                                    django.core.validators.MinValueValidator(1),
                                    django.core.validators.MaxValueValidator(120),
                                ],
                                verbose_name="minutes one really takes",
                            ),
                        ),
                        (
                            "gap_after",
                            models.PositiveSmallIntegerField(
                                default=6,
                                validators=[
                                    django.core.validators.MinValueValidator(2),
                                    django.core.validators.MaxValueValidator(30),
                                ],
                                verbose_name="a gap after at most so many people",
                            ),
                        ),
                        (
                            "gap_minutes",
                            models.PositiveSmallIntegerField(
                                default=10,
                                help_text="0: no gaps.",
                                validators=[
                                    django.core.validators.MinValueValidator(0),
                                    django.core.validators.MaxValueValidator(60),
                                ],
                                verbose_name="minutes of a gap to catch up",
                            ),
                        ),
                        (
                            "lunch_at",
                            models.TimeField(
                                blank=True, help_text="Empty: no lunch.", null=True, verbose_name="lunch at"
                            ),
                        ),
                        (
                            "lunch_minutes",
                            models.PositiveSmallIntegerField(
                                default=45,
                                validators=[
                                    django.core.validators.MinValueValidator(5),
                                    django.core.validators.MaxValueValidator(180),
                                ],
                                verbose_name="minutes of lunch",
                            ),
                        ),
                        (
                            "wear",
                            models.CharField(
                                blank=True, max_length=400, verbose_name="what to wear, for their letters"
                            ),
                        ),
                        ("lunch_after", models.PositiveSmallIntegerField(editable=False, null=True)),
                        (
                            "keeps_list_order",
                            models.BooleanField(default=False, verbose_name="in the order of the list"),
                        ),
                        (
                            "sitting",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.CASCADE, related_name="rota", to="bookings.sitting"
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="Sitter",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                                blank=True,
                                help_text="Grandmother, son, director.",
                                max_length=60,
                                verbose_name="relation",
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
                        ("found_by", models.TextField(default="", editable=False)),
                        (
                            "sitting",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="sitters",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("position", "pk"),
                        "constraints": [
                            models.UniqueConstraint(fields=("sitting", "label"), name="sitter_label_once_in_a_sitting")
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Terms",
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
                    ],
                    options={
                        "verbose_name": "terms",
                        "ordering": ("name",),
                    },
                ),
                migrations.CreateModel(
                    name="CalendarAddress",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("digest", models.CharField(max_length=64, unique=True)),
                        ("made_at", models.DateTimeField()),
                        (
                            "member",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="calendar_address",
                                to="studio.member",
                            ),
                        ),
                    ],
                ),
                migrations.CreateModel(
                    name="Charge",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("at", models.DateTimeField()),
                        ("amount", models.DecimalField(decimal_places=3, max_digits=12, verbose_name="amount")),
                        ("note", models.CharField(blank=True, max_length=400, verbose_name="note")),
                        (
                            "what",
                            models.CharField(
                                choices=[
                                    ("fee", "fee of the sitting"),
                                    ("moving", "moving"),
                                    ("cancelling", "cancelling"),
                                    ("no_show", "no-show"),
                                    ("item", "item"),
                                ],
                                max_length=12,
                            ),
                        ),
                        ("label", models.CharField(blank=True, max_length=120)),
                        ("count", models.PositiveSmallIntegerField(default=1)),
                        (
                            "base",
                            models.DecimalField(
                                decimal_places=3,
                                default=Decimal("0"),
                                max_digits=12,
                                verbose_name="price before tax is looked at",
                            ),
                        ),
                        (
                            "place",
                            models.CharField(
                                blank=True,
                                max_length=12,
                                validators=[
                                    django.core.validators.RegexValidator(
                                        "^[A-Z0-9][A-Z0-9-]{0,11}\\Z",
                                        "Capital letters, digits and hyphens: GB, US-OH, NORTH.",
                                    )
                                ],
                                verbose_name="place",
                            ),
                        ),
                        (
                            "tax",
                            models.DecimalField(
                                decimal_places=3, default=Decimal("0"), max_digits=12, verbose_name="tax in it"
                            ),
                        ),
                        ("tax_percent", models.DecimalField(decimal_places=2, default=Decimal("0"), max_digits=5)),
                        ("tax_words", models.CharField(blank=True, max_length=80)),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="charges", to="studio.member"
                            ),
                        ),
                        (
                            "corrects",
                            models.OneToOneField(
                                blank=True,
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="corrected_by",
                                to="bookings.charge",
                            ),
                        ),
                        (
                            "item",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="charges",
                                to="bookings.item",
                            ),
                        ),
                        (
                            "sitting",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="charges",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("at", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="Complaint",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("said", models.TextField(max_length=2000, verbose_name="what was said")),
                        (
                            "wanted",
                            models.TextField(blank=True, max_length=2000, verbose_name="what would put it right"),
                        ),
                        ("offered", models.TextField(blank=True, max_length=2000, verbose_name="what was offered")),
                        ("agreed", models.TextField(blank=True, max_length=2000, verbose_name="what was agreed")),
                        (
                            "cause",
                            models.CharField(
                                choices=[
                                    ("glare", "glare"),
                                    ("focus", "focus"),
                                    ("light", "light"),
                                    ("wardrobe", "wardrobe"),
                                    ("late", "late"),
                                    ("other", "other"),
                                ],
                                max_length=8,
                                verbose_name="cause",
                            ),
                        ),
                        ("due_on", models.DateField(verbose_name="settled by")),
                        ("remedy", models.TextField(blank=True, max_length=2000, verbose_name="remedy")),
                        ("opened_at", models.DateTimeField(editable=False)),
                        ("closed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "client",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="complaints",
                                to="bookings.client",
                            ),
                        ),
                        (
                            "keeper",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="complaints_kept",
                                to="studio.member",
                                verbose_name="who answers for it",
                            ),
                        ),
                        (
                            "opened_by",
                            models.ForeignKey(
                                editable=False,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="complaints_opened",
                                to="studio.member",
                            ),
                        ),
                        (
                            "sitting",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="complaints",
                                to="bookings.sitting",
                                verbose_name="sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("-opened_at", "-pk"),
                        "indexes": [
                            models.Index(
                                condition=models.Q(("closed_at__isnull", True)),
                                fields=["due_on"],
                                name="complaint_open",
                            )
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="ComplaintChange",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("at", models.DateTimeField()),
                        (
                            "what",
                            models.CharField(
                                choices=[
                                    ("opened", "opened"),
                                    ("sitting", "sitting"),
                                    ("said", "what was said"),
                                    ("wanted", "what would put it right"),
                                    ("offered", "what was offered"),
                                    ("agreed", "what was agreed"),
                                    ("cause", "cause"),
                                    ("keeper", "who answers for it"),
                                    ("due_on", "settled by"),
                                    ("closed", "closed"),
                                    ("reopened", "opened again"),
                                ],
                                max_length=8,
                            ),
                        ),
                        ("before", models.TextField(blank=True)),
                        ("after", models.TextField(blank=True)),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="complaint_changes",
                                to="studio.member",
                            ),
                        ),
                        (
                            "complaint",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="changes",
                                to="bookings.complaint",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("at", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="DayCount",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("day", models.DateField(db_index=True, verbose_name="day")),
                        (
                            "expected",
                            models.DecimalField(decimal_places=3, max_digits=12, verbose_name="by the entries"),
                        ),
                        ("counted", models.DecimalField(decimal_places=3, max_digits=12, verbose_name="counted")),
                        ("note", models.CharField(blank=True, max_length=400, verbose_name="note")),
                        ("at", models.DateTimeField()),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("day", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="Erasure",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="erasure",
                                to="bookings.client",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("-at",),
                    },
                ),
                migrations.CreateModel(
                    name="Intake",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("secret", models.CharField(max_length=32)),
                        ("questions_version", models.PositiveSmallIntegerField()),
                        ("questions", models.JSONField(default=dict)),
                        ("made_at", models.DateTimeField()),
                        ("expires_at", models.DateTimeField()),
                        ("opened_at", models.DateTimeField(blank=True, null=True)),
                        ("answered_at", models.DateTimeField(blank=True, null=True)),
                        ("entered_at", models.DateTimeField(blank=True, null=True)),
                        (
                            "entered_by",
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
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="intake",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                ),
                migrations.CreateModel(
                    name="Kind",
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
                        (
                            "delivery_days",
                            models.PositiveSmallIntegerField(
                                default=20,
                                validators=[
                                    django.core.validators.MinValueValidator(1),
                                    django.core.validators.MaxValueValidator(250),
                                ],
                                verbose_name="delivered within, days of the studio",
                            ),
                        ),
                        (
                            "ask_back",
                            models.CharField(
                                choices=[
                                    ("occasion", "when the day of the occasion comes round"),
                                    ("yearly", "a year after the sitting"),
                                    ("hires", "every year, for those who are new in a company"),
                                    ("never", "never"),
                                ],
                                default="occasion",
                                max_length=8,
                                verbose_name="clients are asked back",
                            ),
                        ),
                        ("included", models.TextField(blank=True, max_length=1000, verbose_name="what is included")),
                        (
                            "images",
                            models.PositiveSmallIntegerField(blank=True, null=True, verbose_name="finished images"),
                        ),
                        ("retouching", models.CharField(blank=True, max_length=200, verbose_name="retouching")),
                        (
                            "use",
                            models.CharField(
                                blank=True, max_length=400, verbose_name="what the pictures may be used for"
                            ),
                        ),
                        ("who_sees", models.CharField(blank=True, max_length=400, verbose_name="who may see them")),
                        (
                            "arrive_minutes",
                            models.PositiveSmallIntegerField(
                                default=10,
                                validators=[
                                    django.core.validators.MinValueValidator(0),
                                    django.core.validators.MaxValueValidator(120),
                                ],
                                verbose_name="arrive before it, minutes",
                            ),
                        ),
                        (
                            "balance_days",
                            models.PositiveSmallIntegerField(
                                default=0,
                                validators=[django.core.validators.MaxValueValidator(365)],
                                verbose_name="balance due, days before",
                            ),
                        ),
                        (
                            "remind_clothes",
                            models.BooleanField(default=True, verbose_name="fourteen days before: clothes"),
                        ),
                        (
                            "remind_coming",
                            models.BooleanField(default=True, verbose_name="three days before: will you be there"),
                        ),
                        (
                            "remind_tomorrow",
                            models.BooleanField(default=True, verbose_name="the day before: the way, glasses, nap"),
                        ),
                        ("active", models.BooleanField(default=True, verbose_name="offered")),
                        (
                            "kit",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to="studio.kititem",
                                verbose_name="always needs",
                            ),
                        ),
                        (
                            "terms",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="kinds",
                                to="bookings.terms",
                                verbose_name="terms",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "kind of sitting",
                        "ordering": ("name",),
                    },
                ),
                migrations.CreateModel(
                    name="Letter",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("confirmation", "confirmation"),
                                    ("change", "change"),
                                    ("cancellation", "cancellation"),
                                    ("clothes", "reminder, clothes"),
                                    ("coming", "reminder, will you be there"),
                                    ("tomorrow", "reminder, the day before"),
                                    ("intake", "questions before the sitting"),
                                    ("quote", "quote"),
                                    ("invoice", "invoice"),
                                    ("receipt", "receipt"),
                                    ("place", "place on a headshot day"),
                                    ("offer", "a time that came free"),
                                    ("invitation", "asking back"),
                                    ("other", "letter"),
                                ],
                                max_length=16,
                            ),
                        ),
                        ("to", models.EmailField(blank=True, max_length=254, verbose_name="to")),
                        ("subject", models.CharField(max_length=200, verbose_name="subject")),
                        ("body", models.TextField(verbose_name="letter")),
                        ("written_at", models.DateTimeField()),
                        ("once_key", models.CharField(blank=True, max_length=120, null=True, unique=True)),
                        ("message_id", models.CharField(max_length=200, unique=True)),
                        (
                            "state",
                            models.CharField(
                                choices=[
                                    ("waiting", "waiting"),
                                    ("sent", "sent"),
                                    ("given_up", "given up"),
                                    ("withdrawn", "not needed any more"),
                                ],
                                default="waiting",
                                max_length=9,
                            ),
                        ),
                        ("due_at", models.DateTimeField()),
                        ("useless_at", models.DateTimeField(blank=True, null=True)),
                        ("tries", models.PositiveSmallIntegerField(default=0)),
                        ("last_error", models.CharField(blank=True, max_length=400)),
                        ("sent_at", models.DateTimeField(blank=True, null=True)),
                        ("by_hand", models.BooleanField(default=False)),
                        ("lease", models.CharField(blank=True, max_length=32)),
                        ("lease_ends_at", models.DateTimeField(blank=True, null=True)),
                        ("unanswered", models.PositiveSmallIntegerField(default=0)),
                        (
                            "by",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="letters",
                                to="studio.member",
                            ),
                        ),
                        (
                            "client",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="letters",
                                to="bookings.client",
                            ),
                        ),
                        (
                            "sitting",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="letters",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("-written_at", "-pk"),
                        "indexes": [
                            models.Index(
                                condition=models.Q(("state", "waiting")), fields=["due_at"], name="letter_waiting"
                            ),
                            models.Index(fields=["state", "sent_at"], name="letter_by_state"),
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Attachment",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("name", models.CharField(max_length=120)),
                        ("media_type", models.CharField(max_length=120)),
                        ("content", models.BinaryField()),
                        (
                            "letter",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="attachments",
                                to="bookings.letter",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("pk",),
                    },
                ),
                migrations.CreateModel(
                    name="ReleaseWording",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(unique=True)),
                        ("words", models.TextField(max_length=4000, verbose_name="words of the release")),
                        ("at", models.DateTimeField()),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("-version",),
                    },
                ),
                migrations.CreateModel(
                    name="SentList",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("at", models.DateTimeField()),
                        ("file_name", models.CharField(max_length=120)),
                        ("content", models.BinaryField(blank=True)),
                        ("brought_in_at", models.DateTimeField(blank=True, null=True)),
                        ("added", models.PositiveIntegerField(default=0)),
                        ("merged", models.PositiveIntegerField(default=0)),
                        ("skipped", models.PositiveIntegerField(default=0)),
                        ("faulty", models.PositiveIntegerField(default=0)),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="sent_lists",
                                to="studio.member",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "list of clients",
                        "ordering": ("-at", "-pk"),
                    },
                ),
                migrations.CreateModel(
                    name="Release",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        (
                            "how",
                            models.CharField(
                                choices=[("paper", "on paper"), ("desk", "at the desk"), ("link", "by link")],
                                max_length=5,
                                verbose_name="how",
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
                        ("wording", models.TextField(blank=True)),
                        ("wording_version", models.PositiveIntegerField(blank=True, null=True)),
                        ("drawn", models.TextField(blank=True)),
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
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="release",
                                to="bookings.sitter",
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="Place",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("number", models.PositiveSmallIntegerField()),
                        ("queue", models.IntegerField()),
                        ("after", models.PositiveSmallIntegerField()),
                        (
                            "part",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("first", "goes first"),
                                    ("reference", "reference"),
                                    ("leader", "leader"),
                                    ("last", "last"),
                                ],
                                max_length=9,
                            ),
                        ),
                        ("wished", models.PositiveSmallIntegerField(blank=True, null=True)),
                        ("email", models.EmailField(blank=True, max_length=254, verbose_name="e-mail")),
                        ("walk_in", models.BooleanField(default=False)),
                        (
                            "state",
                            models.CharField(
                                choices=[
                                    ("waiting", "to come"),
                                    ("on_set", "on set"),
                                    ("done", "done"),
                                    ("absent", "absent"),
                                    ("retake", "retake"),
                                ],
                                default="waiting",
                                max_length=7,
                            ),
                        ),
                        ("on_set_at", models.DateTimeField(blank=True, null=True)),
                        ("done_at", models.DateTimeField(blank=True, null=True)),
                        (
                            "rota",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE, related_name="places", to="bookings.rota"
                            ),
                        ),
                        (
                            "sitter",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.CASCADE, related_name="place", to="bookings.sitter"
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("queue", "number"),
                        "constraints": [
                            models.UniqueConstraint(fields=("rota", "number"), name="place_number_once_in_a_rota")
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Notes",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                                choices=[
                                    ("own_left", "own left"),
                                    ("own_right", "own right"),
                                    ("none", "no preference"),
                                ],
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
                        (
                            "clothes_pattern",
                            models.BooleanField(blank=True, null=True, verbose_name="clothes with a pattern"),
                        ),
                        ("stand_minutes", models.FloatField(blank=True, null=True, verbose_name="can stand for")),
                        (
                            "hip_or_back",
                            models.BooleanField(blank=True, null=True, verbose_name="hip or back to be spared"),
                        ),
                        (
                            "no_flash",
                            models.BooleanField(
                                blank=True,
                                help_text="Flashing light is to be kept away.",
                                null=True,
                                verbose_name="no flash",
                            ),
                        ),
                        ("hearing", models.BooleanField(blank=True, null=True, verbose_name="hears little")),
                        ("low_vision", models.BooleanField(blank=True, null=True, verbose_name="sees little")),
                        ("tremor", models.BooleanField(blank=True, null=True, verbose_name="trembles")),
                        (
                            "sensory",
                            models.BooleanField(blank=True, null=True, verbose_name="sound and touch to be spared"),
                        ),
                        ("shy", models.BooleanField(blank=True, null=True, verbose_name="takes time to be at ease")),
                        (
                            "broad_seat",
                            models.BooleanField(blank=True, null=True, verbose_name="a broad seat without arms"),
                        ),
                        (
                            "big_hair",
                            models.BooleanField(blank=True, null=True, verbose_name="hair that stands high or wide"),
                        ),
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
                    name="IntakeAnswer",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("question", models.CharField(max_length=30)),
                        ("value", models.CharField(blank=True, max_length=20)),
                        ("words", models.CharField(blank=True, max_length=400)),
                        ("at", models.DateTimeField()),
                        ("apart", models.BooleanField(default=False)),
                        (
                            "intake",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="answers",
                                to="bookings.intake",
                            ),
                        ),
                        (
                            "sitter",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="answers",
                                to="bookings.sitter",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("pk",),
                        "constraints": [
                            models.UniqueConstraint(
                                fields=("intake", "sitter", "question"), name="answer_once_a_sitter"
                            ),
                            models.UniqueConstraint(
                                condition=models.Q(("sitter", None)),
                                fields=("intake", "question"),
                                name="answer_once_a_sitting",
                            ),
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Guardian",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        (
                            "how",
                            models.CharField(
                                choices=[("paper", "on paper"), ("desk", "at the desk"), ("link", "by link")],
                                max_length=5,
                                verbose_name="how",
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
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="guardian",
                                to="bookings.sitter",
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="Consent",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        (
                            "how",
                            models.CharField(
                                choices=[("paper", "on paper"), ("desk", "at the desk"), ("link", "by link")],
                                max_length=5,
                                verbose_name="how",
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
                            models.CharField(
                                choices=[("yes", "yes"), ("no", "no"), ("withdrawn", "withdrawn")], max_length=9
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
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="consents",
                                to="bookings.sitter",
                            ),
                        ),
                    ],
                    options={
                        "constraints": [
                            models.UniqueConstraint(fields=("sitter", "what"), name="consent_once_a_sitter")
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Sitting",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        (
                            "number",
                            models.CharField(editable=False, max_length=12, unique=True, verbose_name="sitting number"),
                        ),
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
                        (
                            "purpose",
                            models.CharField(blank=True, max_length=400, verbose_name="what the pictures are for"),
                        ),
                        ("hangs", models.CharField(blank=True, max_length=200, verbose_name="where it will hang")),
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
                            "occasion_on",
                            models.DateField(blank=True, db_index=True, null=True, verbose_name="day of the occasion"),
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
                            "fee",
                            models.DecimalField(
                                blank=True,
                                decimal_places=3,
                                editable=False,
                                max_digits=12,
                                null=True,
                                verbose_name="fee",
                            ),
                        ),
                        ("currency", models.CharField(blank=True, editable=False, max_length=3)),
                        ("terms", models.JSONField(default=dict, editable=False)),
                        ("promised", models.JSONField(default=dict, editable=False)),
                        (
                            "destination",
                            models.CharField(
                                blank=True,
                                max_length=12,
                                validators=[
                                    django.core.validators.RegexValidator(
                                        "^[A-Z0-9][A-Z0-9-]{0,11}\\Z",
                                        "Capital letters, digits and hyphens: GB, US-OH, NORTH.",
                                    )
                                ],
                                verbose_name="place",
                            ),
                        ),
                        ("delivery_days", models.PositiveSmallIntegerField(default=20, editable=False)),
                        ("found_by", models.TextField(default="", editable=False)),
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
                        "indexes": [
                            models.Index(fields=["starts_at"], name="sitting_by_time"),
                            models.Index(fields=["stage", "starts_at"], name="sitting_by_stage"),
                            models.Index(fields=["kind", "starts_at"], name="sitting_by_kind"),
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Reshoot",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        (
                            "cause",
                            models.CharField(
                                choices=[
                                    ("glare", "glare"),
                                    ("focus", "focus"),
                                    ("light", "light"),
                                    ("wardrobe", "wardrobe"),
                                    ("late", "late"),
                                    ("other", "other"),
                                ],
                                max_length=8,
                                verbose_name="cause",
                            ),
                        ),
                        ("note", models.CharField(blank=True, max_length=400, verbose_name="in words")),
                        ("at", models.DateTimeField()),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="reshoots_linked",
                                to="studio.member",
                            ),
                        ),
                        (
                            "first",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="reshoots",
                                to="bookings.sitting",
                                verbose_name="instead of",
                            ),
                        ),
                        (
                            "sitting",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="reshoot",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("at", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="Quote",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("number", models.PositiveIntegerField(unique=True, verbose_name="number")),
                        ("content", models.JSONField(verbose_name="content")),
                        ("at", models.DateTimeField()),
                        ("valid_until", models.DateField(verbose_name="valid until")),
                        ("accepted_at", models.DateTimeField(blank=True, null=True)),
                        (
                            "accepted_by",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to="studio.member",
                            ),
                        ),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                            ),
                        ),
                        (
                            "sitting",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="quotes",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("number",),
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="Payment",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("at", models.DateTimeField()),
                        ("amount", models.DecimalField(decimal_places=3, max_digits=12, verbose_name="amount")),
                        ("note", models.CharField(blank=True, max_length=400, verbose_name="note")),
                        ("receipt", models.PositiveIntegerField(unique=True, verbose_name="receipt")),
                        (
                            "kind",
                            models.CharField(
                                choices=[("deposit", "deposit"), ("balance", "balance"), ("refund", "refund")],
                                max_length=8,
                                verbose_name="for",
                            ),
                        ),
                        (
                            "method",
                            models.CharField(
                                choices=[
                                    ("cash", "cash"),
                                    ("card", "card"),
                                    ("transfer", "bank transfer"),
                                    ("other", "other"),
                                ],
                                max_length=8,
                                verbose_name="how",
                            ),
                        ),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="payments", to="studio.member"
                            ),
                        ),
                        (
                            "corrects",
                            models.OneToOneField(
                                blank=True,
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="corrected_by",
                                to="bookings.payment",
                            ),
                        ),
                        (
                            "sitting",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="payments",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("receipt",),
                    },
                ),
                migrations.CreateModel(
                    name="NotesPurged",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="purges",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("-at", "-pk"),
                    },
                ),
                migrations.CreateModel(
                    name="NoteReading",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="note_readings",
                                to="studio.member",
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
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="note_readings",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("-at", "-pk"),
                    },
                ),
                migrations.CreateModel(
                    name="LateReason",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("at", models.DateTimeField()),
                        (
                            "code",
                            models.CharField(
                                choices=[
                                    ("lab", "the lab"),
                                    ("editing", "more editing than thought"),
                                    ("printing", "a print made again"),
                                    ("illness", "somebody is away"),
                                    ("kit", "something broke"),
                                    ("client", "the client"),
                                    ("other", "something else"),
                                ],
                                max_length=8,
                                verbose_name="because of",
                            ),
                        ),
                        (
                            "note",
                            models.CharField(
                                max_length=400,
                                validators=[
                                    django.core.validators.RegexValidator(
                                        "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                        "Write something that can be read on one line.",
                                    )
                                ],
                                verbose_name="in words",
                            ),
                        ),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="late_reasons",
                                to="studio.member",
                            ),
                        ),
                        (
                            "sitting",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="late_reasons",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("at", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="Invoice",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("number", models.PositiveIntegerField(unique=True, verbose_name="number")),
                        ("content", models.JSONField(verbose_name="content")),
                        ("at", models.DateTimeField()),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="+", to="studio.member"
                            ),
                        ),
                        ("charges", models.ManyToManyField(related_name="invoices", to="bookings.charge")),
                        (
                            "sitting",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="invoices",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("number",),
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="Invitation",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("uid", models.CharField(max_length=100, unique=True)),
                        ("sequence", models.PositiveIntegerField(default=0)),
                        ("said", models.CharField(max_length=64)),
                        ("at", models.DateTimeField()),
                        (
                            "sitting",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="invitation",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                ),
                migrations.CreateModel(
                    name="Hold",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("place", models.PositiveSmallIntegerField(default=1, verbose_name="place")),
                        ("expires_at", models.DateTimeField(verbose_name="lapses")),
                        ("placed_at", models.DateTimeField()),
                        ("note", models.CharField(blank=True, max_length=400, verbose_name="note")),
                        ("to_offer", models.BooleanField(default=False)),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="holds", to="studio.member"
                            ),
                        ),
                        (
                            "behind",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="holds_behind",
                                to="bookings.sitting",
                                verbose_name="behind",
                            ),
                        ),
                        (
                            "sitting",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.CASCADE, related_name="hold", to="bookings.sitting"
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("expires_at", "pk"),
                        "indexes": [models.Index(fields=["expires_at"], name="hold_by_expiry")],
                        "constraints": [
                            models.CheckConstraint(
                                condition=models.Q(
                                    models.Q(("behind__isnull", True), ("place", 1)),
                                    models.Q(("behind__isnull", False), ("place__gt", 1)),
                                    _connector="OR",
                                ),
                                name="hold_waits_behind_somebody",
                            )
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Claim",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="claims",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("starts_at", "pk"),
                        "indexes": [
                            models.Index(
                                fields=["resource_kind", "resource_id", "starts_at"], name="claim_by_resource"
                            ),
                            models.Index(fields=["starts_at", "ends_at"], name="claim_by_time"),
                        ],
                        "constraints": [
                            models.CheckConstraint(
                                condition=models.Q(("ends_at__gt", models.F("starts_at"))),
                                name="claim_ends_after_start",
                            )
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Answer",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("at", models.DateTimeField()),
                        (
                            "what",
                            models.CharField(
                                choices=[("coming", "will be there"), ("not_then", "cannot come then")],
                                max_length=8,
                                verbose_name="answer",
                            ),
                        ),
                        ("note", models.CharField(blank=True, max_length=400, verbose_name="in their words")),
                        (
                            "by",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="answers",
                                to="studio.member",
                            ),
                        ),
                        (
                            "sitting",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="answers",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("at", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="SittingChange",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("at", models.DateTimeField()),
                        (
                            "what",
                            models.CharField(
                                choices=[
                                    ("starts_at", "start"),
                                    ("minutes", "length"),
                                    ("setup_minutes", "set-up before it"),
                                    ("strike_minutes", "strike after it"),
                                    ("room", "room"),
                                    ("photographer", "photographer"),
                                    ("assistant", "assistant"),
                                    ("purpose", "what the pictures are for"),
                                    ("hangs", "where it will hang"),
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
                                    ("destination", "where it goes"),
                                    ("item", "item"),
                                    ("quote", "quote"),
                                    ("occasion_on", "day of the occasion"),
                                    ("reshoot", "re-shoot"),
                                ],
                                max_length=16,
                            ),
                        ),
                        ("before", models.CharField(blank=True, max_length=400)),
                        ("after", models.CharField(blank=True, max_length=400)),
                        ("note", models.CharField(blank=True, max_length=400, verbose_name="note")),
                        (
                            "by",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="sitting_changes",
                                to="studio.member",
                            ),
                        ),
                        (
                            "sitting",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="changes",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("at", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="StageChange",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="stage_changes",
                                to="studio.member",
                            ),
                        ),
                        (
                            "sitting",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="stage_changes",
                                to="bookings.sitting",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("at", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="TaxRule",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        (
                            "item_kind",
                            models.CharField(
                                choices=[
                                    ("sitting", "the sitting itself"),
                                    ("change", "moving, cancelling, no-show"),
                                    ("print", "prints and albums"),
                                    ("file", "files"),
                                    ("frame", "frames and goods"),
                                    ("service", "retouching, travel and other work"),
                                ],
                                max_length=8,
                                verbose_name="what for",
                            ),
                        ),
                        (
                            "place",
                            models.CharField(
                                blank=True,
                                max_length=12,
                                validators=[
                                    django.core.validators.RegexValidator(
                                        "^[A-Z0-9][A-Z0-9-]{0,11}\\Z",
                                        "Capital letters, digits and hyphens: GB, US-OH, NORTH.",
                                    )
                                ],
                                verbose_name="place",
                            ),
                        ),
                        ("from_day", models.DateField(verbose_name="from")),
                        (
                            "percent",
                            models.DecimalField(
                                decimal_places=2,
                                default=Decimal("0"),
                                max_digits=5,
                                validators=[
                                    django.core.validators.MinValueValidator(0),
                                    django.core.validators.MaxValueValidator(100),
                                ],
                                verbose_name="percent",
                            ),
                        ),
                        ("included", models.BooleanField(default=True, verbose_name="the price includes it")),
                        (
                            "words",
                            models.CharField(
                                max_length=40,
                                validators=[
                                    django.core.validators.RegexValidator(
                                        "^[^\\x00-\\x1f\\x7f]*[^\\s\\x00-\\x1f\\x7f][^\\x00-\\x1f\\x7f]*$",
                                        "Write something that can be read on one line.",
                                    )
                                ],
                                verbose_name="name of the tax",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("item_kind", "place", "from_day"),
                        "constraints": [
                            models.UniqueConstraint(fields=("item_kind", "place", "from_day"), name="tax_once_a_day")
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="TermsWording",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("valid_from", models.DateField(verbose_name="valid from")),
                        (
                            "hold_hours",
                            models.PositiveSmallIntegerField(
                                default=48,
                                validators=[
                                    django.core.validators.MinValueValidator(1),
                                    django.core.validators.MaxValueValidator(720),
                                ],
                                verbose_name="a hold lasts, hours",
                            ),
                        ),
                        (
                            "deposit_percent",
                            models.DecimalField(
                                decimal_places=2,
                                default=Decimal("0"),
                                max_digits=5,
                                validators=[
                                    django.core.validators.MinValueValidator(0),
                                    django.core.validators.MaxValueValidator(100),
                                ],
                                verbose_name="deposit, percent of the fee",
                            ),
                        ),
                        (
                            "deposit_amount",
                            models.DecimalField(
                                decimal_places=3,
                                default=Decimal("0"),
                                max_digits=12,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="or deposit, amount",
                            ),
                        ),
                        ("move", models.JSONField(default=list, verbose_name="moving")),
                        ("cancel", models.JSONField(default=list, verbose_name="cancelling")),
                        (
                            "late_minutes",
                            models.PositiveSmallIntegerField(
                                default=20,
                                validators=[
                                    django.core.validators.MinValueValidator(1),
                                    django.core.validators.MaxValueValidator(240),
                                ],
                                verbose_name="late after, minutes",
                            ),
                        ),
                        (
                            "no_show_minutes",
                            models.PositiveSmallIntegerField(
                                default=30,
                                validators=[
                                    django.core.validators.MinValueValidator(1),
                                    django.core.validators.MaxValueValidator(240),
                                ],
                                verbose_name="no-show after, minutes",
                            ),
                        ),
                        (
                            "no_show_percent",
                            models.DecimalField(
                                decimal_places=2,
                                default=Decimal("0"),
                                max_digits=5,
                                validators=[
                                    django.core.validators.MinValueValidator(0),
                                    django.core.validators.MaxValueValidator(100),
                                ],
                                verbose_name="a no-show costs, percent of the fee",
                            ),
                        ),
                        ("words", models.TextField(blank=True, max_length=4000, verbose_name="words to the client")),
                        (
                            "terms",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="wordings",
                                to="bookings.terms",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("-valid_from",),
                        "constraints": [
                            models.UniqueConstraint(fields=("terms", "valid_from"), name="terms_wording_once_a_day")
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Trust",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("until", models.DateField(blank=True, null=True, verbose_name="on trust until")),
                        ("at", models.DateTimeField()),
                        ("note", models.CharField(blank=True, max_length=400, verbose_name="note")),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="trusts", to="studio.member"
                            ),
                        ),
                        (
                            "sitting",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.CASCADE, related_name="trust", to="bookings.sitting"
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("until", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="Wait",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("at", models.DateTimeField()),
                        (
                            "what",
                            models.CharField(
                                choices=[
                                    ("choose", "choose the frames"),
                                    ("pay", "pay the balance"),
                                    ("answer", "answer"),
                                    ("show", "show the frames"),
                                    ("edit", "edit"),
                                    ("print", "print"),
                                    ("deliver", "deliver"),
                                ],
                                max_length=8,
                                verbose_name="waits for",
                            ),
                        ),
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
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="waits", to="studio.member"
                            ),
                        ),
                        (
                            "sitting",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE, related_name="waits", to="bookings.sitting"
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("at", "pk"),
                    },
                ),
                migrations.CreateModel(
                    name="Waiver",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                    name="WantedTime",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
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
                        ("first_on", models.DateField(blank=True, null=True, verbose_name="from")),
                        ("last_on", models.DateField(blank=True, null=True, verbose_name="to")),
                        ("weekdays", models.JSONField(blank=True, default=list, verbose_name="on")),
                        ("earliest", models.TimeField(blank=True, null=True, verbose_name="starts from")),
                        ("latest", models.TimeField(blank=True, null=True, verbose_name="starts until")),
                        (
                            "note",
                            models.CharField(
                                blank=True,
                                help_text="Nothing about health or looks here.",
                                max_length=200,
                                verbose_name="note",
                            ),
                        ),
                        ("written_at", models.DateTimeField(editable=False)),
                        ("offered_at", models.DateTimeField(editable=False, null=True)),
                        ("off_at", models.DateTimeField(editable=False, null=True)),
                        (
                            "by",
                            models.ForeignKey(
                                editable=False,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to="studio.member",
                            ),
                        ),
                        (
                            "client",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="wanted_times",
                                to="bookings.client",
                            ),
                        ),
                        (
                            "kind",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="wanted_times",
                                to="bookings.kind",
                                verbose_name="kind of sitting",
                            ),
                        ),
                        (
                            "offered",
                            models.ForeignKey(
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="offers",
                                to="bookings.sitting",
                            ),
                        ),
                        (
                            "photographer",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="studio.member",
                                verbose_name="photographer",
                            ),
                        ),
                        (
                            "room",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                to="studio.room",
                                verbose_name="room",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("written_at", "pk"),
                        "indexes": [
                            models.Index(
                                condition=models.Q(("off_at__isnull", True)), fields=["written_at"], name="wanted_now"
                            )
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Wish",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                migrations.CreateModel(
                    name="Wording",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("confirmation", "confirmation"),
                                    ("change", "change"),
                                    ("cancellation", "cancellation"),
                                    ("clothes", "reminder, clothes"),
                                    ("coming", "reminder, will you be there"),
                                    ("tomorrow", "reminder, the day before"),
                                    ("intake", "questions before the sitting"),
                                    ("quote", "quote"),
                                    ("invoice", "invoice"),
                                    ("receipt", "receipt"),
                                    ("place", "place on a headshot day"),
                                    ("offer", "a time that came free"),
                                    ("invitation", "asking back"),
                                    ("other", "letter"),
                                ],
                                max_length=16,
                            ),
                        ),
                        ("number", models.PositiveIntegerField()),
                        ("subject", models.CharField(max_length=200, verbose_name="subject")),
                        ("body", models.TextField(max_length=10000, verbose_name="letter")),
                        ("at", models.DateTimeField()),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT, related_name="wordings", to="studio.member"
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("kind", "-number"),
                        "constraints": [
                            models.UniqueConstraint(fields=("kind", "number"), name="wording_version_once")
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="AskedBack",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("year", models.PositiveSmallIntegerField()),
                        (
                            "what",
                            models.CharField(choices=[("invited", "invited"), ("left", "not this year")], max_length=8),
                        ),
                        ("at", models.DateTimeField()),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="asked_back",
                                to="studio.member",
                            ),
                        ),
                        (
                            "client",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="asked_back",
                                to="bookings.client",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("year", "pk"),
                        "constraints": [
                            models.UniqueConstraint(fields=("client", "year"), name="asked_back_once_a_year")
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="ItemPrice",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("from_day", models.DateField(verbose_name="from")),
                        (
                            "amount",
                            models.DecimalField(
                                decimal_places=3,
                                max_digits=12,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price",
                            ),
                        ),
                        (
                            "item",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE, related_name="prices", to="bookings.item"
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("from_day",),
                        "constraints": [
                            models.UniqueConstraint(fields=("item", "from_day"), name="item_price_once_a_day")
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="PlaceChange",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("tap", models.UUIDField()),
                        ("at", models.DateTimeField()),
                        ("what", models.CharField(max_length=7)),
                        ("before", models.JSONField(default=dict)),
                        ("undone_at", models.DateTimeField(blank=True, null=True)),
                        (
                            "by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="place_changes",
                                to="studio.member",
                            ),
                        ),
                        (
                            "place",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE, related_name="changes", to="bookings.place"
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("at", "pk"),
                        "indexes": [models.Index(fields=["tap"], name="place_change_by_tap")],
                    },
                ),
                migrations.CreateModel(
                    name="Price",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
                        ("from_day", models.DateField(verbose_name="for sittings from")),
                        (
                            "amount",
                            models.DecimalField(
                                decimal_places=3,
                                max_digits=12,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="fee",
                            ),
                        ),
                        (
                            "kind",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE, related_name="prices", to="bookings.kind"
                            ),
                        ),
                    ],
                    options={
                        "ordering": ("from_day",),
                        "constraints": [models.UniqueConstraint(fields=("kind", "from_day"), name="price_once_a_day")],
                    },
                ),
            ]
        ),
        migrations.RunPython(no_overlap, migrations.RunPython.noop, elidable=False),
    ]
