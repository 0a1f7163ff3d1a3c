"""Sittings that were held before holds had an end: theirs ends where the set-up begins."""

from datetime import timedelta

from django.db import migrations


def forwards(apps, schema_editor):
    Hold, Sitting = apps.get_model("bookings", "Hold"), apps.get_model("bookings", "Sitting")
    for sitting in Sitting.objects.filter(stage="held", hold=None):
        booked = sitting.stage_changes.order_by("at", "pk").first()
        Hold.objects.create(
            sitting=sitting,
            expires_at=sitting.starts_at - timedelta(minutes=sitting.setup_minutes),
            placed_at=booked.at if booked else sitting.starts_at,
            by_id=booked.by_id if booked else sitting.photographer_id,
        )


class Migration(migrations.Migration):
    dependencies = (("bookings", "0004_terms_prices_holds_money"),)
    operations = (migrations.RunPython(forwards, migrations.RunPython.noop, elidable=True),)
