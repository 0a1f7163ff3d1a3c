"""How Django knows this app. Belongs here: its name and what it must load at start. No behaviour but
lending Django's translations to the packages that do without it."""

from django.apps import AppConfig
from django.utils import translation

from studio import tongue


class StudioConfig(AppConfig):
    name = "studio"

    def ready(self) -> None:
        from django.contrib.auth.signals import user_logged_in

        from studio import checks, doors, languages, self_check  # noqa: F401  (importing registers the checks)

        tongue.use(translation)
        languages.leave_out_empty_catalogues()
        user_logged_in.connect(doors.began)  # Django's own signal: every way in is marked, whichever it is
