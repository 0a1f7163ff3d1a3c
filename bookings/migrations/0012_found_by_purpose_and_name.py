"""The lines a sitting is found by, of its purpose and of who sits, for those who are there already too."""

from django.db import migrations, models

from bookings.folding import words_line

AT_ONCE = 2000


def forwards(apps, schema_editor):
    for name, told in (("Sitting", "purpose"), ("Sitter", "label")):
        model = apps.get_model("bookings", name)
        rows = []
        for row in model.objects.only(told).order_by("pk").iterator(AT_ONCE):
            row.found_by = words_line(getattr(row, told))
            rows.append(row)
            if len(rows) == AT_ONCE:
                model.objects.bulk_update(rows, ["found_by"], batch_size=200)
                rows.clear()
        model.objects.bulk_update(rows, ["found_by"], batch_size=200)


class Migration(migrations.Migration):
    dependencies = (("bookings", "0011_letters"),)
    operations = (
        migrations.AddField("sitting", "found_by", models.TextField(default="", editable=False)),
        migrations.AddField("sitter", "found_by", models.TextField(default="", editable=False)),
        migrations.AddIndex("sitting", models.Index(fields=["kind", "starts_at"], name="sitting_by_kind")),
        migrations.RunPython(forwards, migrations.RunPython.noop, elidable=True),
    )
