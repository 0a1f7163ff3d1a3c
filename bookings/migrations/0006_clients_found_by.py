"""The line a client is found by, for those who are there already too."""

from django.db import migrations, models

from bookings.folding import searched

AT_ONCE = 2000


def forwards(apps, schema_editor):
    rows = []
    Client = apps.get_model("bookings", "Client")
    for row in Client.objects.only("name", "email", "phone").order_by("pk").iterator(AT_ONCE):
        row.found_by = searched(row.name, row.email, row.phone)
        rows.append(row)
        if len(rows) == AT_ONCE:
            Client.objects.bulk_update(rows, ["found_by"], batch_size=200)
            rows.clear()
    Client.objects.bulk_update(rows, ["found_by"], batch_size=200)


class Migration(migrations.Migration):
    dependencies = (("bookings", "0005_holds_of_those_held"),)
    operations = (
        migrations.AddField("client", "found_by", models.TextField(default="", editable=False)),
        migrations.RunPython(forwards, migrations.RunPython.noop, elidable=True),
    )
