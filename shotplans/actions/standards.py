"""Keeping a company's standard, with the history of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from bookings.models import Client
from shotplans.models import STANDARD_WORDS, CompanyStandard, StandardEdit
from studio import clock
from studio.models import Member
from studio.models.quantities import plain
from studio.models.versions import Stale


class SayWhy(ValueError):
    """A locked value was about to be changed or opened without a reason; str() names it."""


@transaction.atomic
def keep(
    *, by: Member, client: Client, values: dict[str, Any], locked: list[str], seen: int, why: str = ""
) -> CompanyStandard:
    """Keep the look of a company for the plans made from now on, and what was changed of it. Stale where somebody kept
    another since; SayWhy where a locked value is changed or opened without a reason."""
    Client.objects.select_for_update().get(pk=client.pk)  # two who keep the first one
    held = CompanyStandard.objects.select_for_update().filter(client=client).first()
    if (held.version if held else 0) != seen:
        raise Stale(held)
    edits = list(_edits(held, values, locked))
    moved = [one.words for one in edits if one.locked_from]
    if moved and not why.strip():
        raise SayWhy(_("This was locked: %(names)s. Say why it is changed.") % {"names": "; ".join(moved)})
    at = clock.now()
    for one in edits:
        one.client, one.why, one.at, one.by = client, why.strip()[:200], at, by
    StandardEdit.objects.bulk_create(edits)
    if held is None:
        return CompanyStandard.objects.create(client=client, values=values, locked=locked, at=at, by=by)
    held.values, held.locked, held.at, held.by = values, locked, at, by
    held.version += 1
    held.save()
    return held


def _edits(held: CompanyStandard | None, values: Mapping[str, Any], locked: Sequence[str]) -> list[StandardEdit]:
    """One for each value that is another now, or is locked or open where it was not."""
    before, was_locked = (held.values, held.locked) if held else ({}, [])
    found = [
        StandardEdit(
            name=name, value_from=_text(before.get(name)), value_to=_text(values.get(name)),
            locked_from=name in was_locked, locked_to=name in locked,
        )
        for name in STANDARD_WORDS
    ]  # fmt: skip
    return [one for one in found if (one.value_from, one.locked_from) != (one.value_to, one.locked_to)]


def _text(value: Any) -> str:
    if value is None:
        return ""
    return plain(value) if isinstance(value, int | float) else str(value)[:80]
