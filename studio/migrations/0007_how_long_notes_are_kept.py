"""How many days after delivery comfort notes are kept."""

import django.core.validators
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("studio", "0006_the_way_in"),
    ]

    operations = [
        migrations.AddField(
            model_name="profile",
            name="keep_notes_days",
            field=models.PositiveSmallIntegerField(
                default=90,
                validators=[django.core.validators.MaxValueValidator(3650)],
                verbose_name="comfort notes are kept, days after delivery",
            ),
        ),
    ]
