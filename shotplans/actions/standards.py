"""Keeping a company's standard."""

from __future__ import annotations

from typing import Any

from django.db import transaction

from bookings.models import Client
from shotplans.models import CompanyStandard
from studio import clock
from studio.models import Member
from studio.models.versions import Stale


@transaction.atomic
def keep(*, by: Member, client: Client, values: dict[str, Any], locked: list[str], seen: int) -> CompanyStandard:
    """Keep the look of a company for the plans made from now on. Stale where somebody kept another since."""
    held = CompanyStandard.objects.select_for_update().filter(client=client).first()
    if (held.version if held else 0) != seen:
        raise Stale(held)
    if held is None:
        return CompanyStandard.objects.create(client=client, values=values, locked=locked, at=clock.now(), by=by)
    held.values, held.locked, held.at, held.by = values, locked, clock.now(), by
    held.version += 1
    held.save()
    return held
