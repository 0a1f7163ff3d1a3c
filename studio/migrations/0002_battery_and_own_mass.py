"""What a battery holds, and what a stand and its arm weigh."""

from django.db import migrations, models


def number(words: str, help_text: str = "") -> models.FloatField:
    return models.FloatField(blank=True, null=True, verbose_name=words, help_text=help_text)


class Migration(migrations.Migration):
    dependencies = [("studio", "0001_house")]

    operations = [
        migrations.AddField(
            "head",
            "battery_ws",
            number("battery, energy of one charge", "Only where it lives on a battery. 1 Wh is 3600 Ws."),
        ),
        migrations.AddField(
            "head",
            "battery_full_power_shots",
            number(
                "battery, flashes of one charge at full power",
                "The maker's own count, where there is one; it is taken before the energy.",
            ),
        ),
        migrations.AddField("stand", "mass_kg", number("own mass")),
        migrations.AddField("stand", "arm_kg", number("mass of a boom's arm alone")),
    ]
