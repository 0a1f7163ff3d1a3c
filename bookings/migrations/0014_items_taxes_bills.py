"""Items with prices, rules of tax, quotes, invoices, the count of the till; charges keep their own tax."""

from decimal import Decimal
from typing import Any

import django.core.validators
import django.db.models.deletion
from django.db import migrations, models


def base_is_amount(apps: Any, schema_editor: Any) -> None:
    """Until now nothing was taxed: what was charged is the price itself."""
    apps.get_model("bookings", "Charge").objects.update(base=models.F("amount"))


class Migration(migrations.Migration):
    dependencies = [
        ("bookings", "0013_wordings_invitations_answers"),
        ("studio", "0006_the_way_in"),
    ]

    operations = [
        migrations.CreateModel(
            name="Item",
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
        migrations.AddField(
            model_name="charge",
            name="base",
            field=models.DecimalField(
                decimal_places=3, default=Decimal("0"), max_digits=12, verbose_name="price before tax is looked at"
            ),
        ),
        migrations.AddField(
            model_name="charge",
            name="corrects",
            field=models.OneToOneField(
                blank=True,
                editable=False,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="corrected_by",
                to="bookings.charge",
            ),
        ),
        migrations.AddField(
            model_name="charge",
            name="count",
            field=models.PositiveSmallIntegerField(default=1),
        ),
        migrations.AddField(
            model_name="charge",
            name="label",
            field=models.CharField(blank=True, max_length=120),
        ),
        migrations.AddField(
            model_name="charge",
            name="place",
            field=models.CharField(
                blank=True,
                max_length=12,
                validators=[
                    django.core.validators.RegexValidator(
                        "^[A-Z0-9][A-Z0-9-]{0,11}\\Z", "Capital letters, digits and hyphens: GB, US-OH, NORTH."
                    )
                ],
                verbose_name="place",
            ),
        ),
        migrations.AddField(
            model_name="charge",
            name="tax",
            field=models.DecimalField(decimal_places=3, default=Decimal("0"), max_digits=12, verbose_name="tax in it"),
        ),
        migrations.AddField(
            model_name="charge",
            name="tax_percent",
            field=models.DecimalField(decimal_places=2, default=Decimal("0"), max_digits=5),
        ),
        migrations.AddField(
            model_name="charge",
            name="tax_words",
            field=models.CharField(blank=True, max_length=80),
        ),
        migrations.AddField(
            model_name="client",
            name="tax_exempt",
            field=models.CharField(
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
        migrations.AddField(
            model_name="sitting",
            name="destination",
            field=models.CharField(
                blank=True,
                max_length=12,
                validators=[
                    django.core.validators.RegexValidator(
                        "^[A-Z0-9][A-Z0-9-]{0,11}\\Z", "Capital letters, digits and hyphens: GB, US-OH, NORTH."
                    )
                ],
                verbose_name="place",
            ),
        ),
        migrations.AlterField(
            model_name="charge",
            name="what",
            field=models.CharField(
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
                    ("destination", "where it goes"),
                    ("item", "item"),
                    ("quote", "quote"),
                    ("occasion_on", "day of the occasion"),
                    ("reshoot", "re-shoot"),
                ],
                max_length=16,
            ),
        ),
        migrations.CreateModel(
            name="DayCount",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("day", models.DateField(db_index=True, verbose_name="day")),
                ("expected", models.DecimalField(decimal_places=3, max_digits=12, verbose_name="by the entries")),
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
            name="Invoice",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
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
                        on_delete=django.db.models.deletion.PROTECT, related_name="invoices", to="bookings.sitting"
                    ),
                ),
            ],
            options={
                "ordering": ("number",),
                "abstract": False,
            },
        ),
        migrations.AddField(
            model_name="charge",
            name="item",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="charges",
                to="bookings.item",
            ),
        ),
        migrations.CreateModel(
            name="Quote",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
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
                        on_delete=django.db.models.deletion.PROTECT, related_name="quotes", to="bookings.sitting"
                    ),
                ),
            ],
            options={
                "ordering": ("number",),
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="TaxRule",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
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
                                "^[A-Z0-9][A-Z0-9-]{0,11}\\Z", "Capital letters, digits and hyphens: GB, US-OH, NORTH."
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
            name="ItemPrice",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
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
                "constraints": [models.UniqueConstraint(fields=("item", "from_day"), name="item_price_once_a_day")],
            },
        ),
        migrations.RunPython(base_is_amount, migrations.RunPython.noop),
    ]
