"""What `manage.py check --database default` says about the bookings. Belongs here: one check for each thing whose
absence would let a promise be broken unseen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.apps import AppConfig
from django.core.checks import CheckMessage, Error, Tags, register
from django.db import connections

from bookings import found_index, overlap


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


@register(Tags.database)
def what_is_looked_for_is_indexed(
    app_configs: Sequence[AppConfig] | None, databases: Sequence[str] | None = None, **kwargs: Any
) -> list[CheckMessage]:
    """Without its index Find would know nothing of what was written since it was lost."""
    return [
        Error(
            f"The database {alias!r} has no index to find by: {', '.join(tables)}.",
            hint="Run: manage.py migrate --skip-checks",
            id="bookings.E002",
        )
        for alias in databases or ()
        if (tables := found_index.missing(connections[alias]))
    ]
