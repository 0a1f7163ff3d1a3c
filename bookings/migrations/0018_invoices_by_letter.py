from django.db import migrations, models

KINDS = [
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
]


class Migration(migrations.Migration):
    dependencies = [("bookings", "0017_readings_purges_erasures")]

    operations = [
        migrations.AlterField(
            model_name="letter", name="kind", field=models.CharField(choices=KINDS, max_length=16)
        ),
        migrations.AlterField(
            model_name="wording", name="kind", field=models.CharField(choices=KINDS, max_length=16)
        ),
    ]
