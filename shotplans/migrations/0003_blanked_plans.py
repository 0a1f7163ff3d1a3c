"""When what a plan told of people was blanked."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("shotplans", "0002_rules"),
    ]

    operations = [
        migrations.AddField(
            model_name="plan",
            name="blanked_at",
            field=models.DateTimeField(editable=False, null=True, verbose_name="blanked at"),
        ),
    ]
