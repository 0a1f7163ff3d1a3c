"""What `manage.py check --database default` says about the bookings. Belongs here: one check for each thing whose
absence would let a promise be broken unseen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.apps import AppConfig
from django.core.checks import CheckMessage, Error, Tags, register
from django.db import connections

from bookings import overlap


@register(Tags.database)
def the_database_refuses_overlaps(
    app_configs: Sequence[AppConfig] | None, databases: Sequence[str] | None = None, **kwargs: Any
) -> list[CheckMessage]:
    """Without its guard the database would take two sittings in one room."""
    return [
        Error(
            f"The database {alias!r} does not refuse overlapping claims.",
            hint="Run: manage.py migrate --skip-checks",
            id="bookings.E001",
        )
        for alias in databases or ()
        if overlap.missing(connections[alias])
    ]
