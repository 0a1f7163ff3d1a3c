"""How Django knows this app. Belongs here: its name and what it must load at start. No behaviour."""

from django.apps import AppConfig


class StudioConfig(AppConfig):
    name = "studio"

    def ready(self) -> None:
        from studio import checks  # noqa: F401  (importing registers the checks)
