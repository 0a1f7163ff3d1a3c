"""How Django knows this app. Belongs here: its name and what it must load at start. No behaviour."""

from django.apps import AppConfig


class BookingsConfig(AppConfig):
    name = "bookings"
