"""The guard that makes the database refuse overlapping claims (`bookings.overlap`, which also puts it back)."""

from django.db import migrations

from bookings import overlap


def forwards(apps, schema_editor):
    overlap.install(schema_editor.connection)


class Migration(migrations.Migration):
    dependencies = (("bookings", "0001_bookings"),)
    operations = (migrations.RunPython(forwards, migrations.RunPython.noop, elidable=False),)
