"""What `manage.py check` says about this machine. Belongs here: one check for each setting that can be
wrong without failing at once, with its cure. Not here: rules of the house."""

from collections.abc import Sequence
from typing import Any

from django.apps import AppConfig
from django.conf import settings
from django.core.checks import CheckMessage, Warning, register


@register
def secret_key_is_kept(app_configs: Sequence[AppConfig] | None, **kwargs: Any) -> list[CheckMessage]:
    """A key that is made anew at every start signs everybody out."""
    if settings.SECRET_KEY_KEPT:
        return []
    return [
        Warning(
            "The secret key could not be written and is lost when the process ends.",
            hint="Make the folder in TENTHSTOP_DATA writable, or set SECRET_KEY.",
            id="studio.W001",
        )
    ]
