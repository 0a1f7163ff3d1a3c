"""How Django knows this app. Belongs here: its name and what it must load at start. No behaviour."""

from django.apps import AppConfig
from django.db.models.signals import post_migrate


class BookingsConfig(AppConfig):
    name = "bookings"

    def ready(self) -> None:
        from bookings import checks, found_index, overlap  # noqa: F401  (importing registers the checks)

        post_migrate.connect(overlap.after_migrate, sender=self)
        post_migrate.connect(found_index.after_migrate, sender=self)
