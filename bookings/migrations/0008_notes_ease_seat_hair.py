"""Three more notes on a sitter: time to be at ease, a broad seat, hair that needs room."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("bookings", "0007_permissions"),
    ]

    operations = [
        migrations.AddField(
            model_name="notes",
            name="big_hair",
            field=models.BooleanField(blank=True, null=True, verbose_name="hair that stands high or wide"),
        ),
        migrations.AddField(
            model_name="notes",
            name="broad_seat",
            field=models.BooleanField(blank=True, null=True, verbose_name="a broad seat without arms"),
        ),
        migrations.AddField(
            model_name="notes",
            name="shy",
            field=models.BooleanField(blank=True, null=True, verbose_name="takes time to be at ease"),
        ),
    ]
