"""Erasing a client. Belongs here: taking out every word and name in one step, in upper apps too, while amounts, moments
and numbers stay true. It cannot be undone. Not here: where the words stand (`bookings.erasable`)."""

from __future__ import annotations

from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from bookings import erasable
from bookings.actions.keeping import blank_above
from bookings.afterwards import OVER
from bookings.models import Client, Erasure, Invoice, NotesPurged, Quote, Sitter, Sitting
from bookings.models.keeping import client_number, erased_name
from bookings.refusals import Refusal
from studio import clock
from studio.actions import entries
from studio.models import Member

BLANK = "-"


class WrongWords(Refusal):
    def __init__(self, wanted: str) -> None:
        super().__init__(_("Type %(wanted)s exactly: this cannot be undone.") % {"wanted": wanted})


class SayWhoAsked(Refusal):
    def __init__(self) -> None:
        super().__init__(_("Say who asked for it, and how."))


class StillExpected(Refusal):
    def __init__(self, numbers: str) -> None:
        super().__init__(_("%(numbers)s is still to come. Cancel it first, then erase.") % {"numbers": numbers})


class ErasedAlready(Refusal):
    def __init__(self) -> None:
        super().__init__(_("This client is erased already."))


def wanted_words(client: Client) -> str:
    """What is typed to say that it is meant."""
    return f"erase {client_number(client.pk)}"


@transaction.atomic
def erase(*, by: Member, client: Client, typed: str, asked_by: str) -> Erasure:
    """Erase a client. Refuses with `WrongWords`, `SayWhoAsked`, `StillExpected`, `ErasedAlready`."""
    kept = Client.objects.select_for_update().get(pk=client.pk)
    if Erasure.objects.filter(client=kept).exists():
        raise ErasedAlready
    if typed.strip() != wanted_words(kept):
        raise WrongWords(wanted_words(kept))
    if not asked_by.strip():
        raise SayWhoAsked
    sittings = list(Sitting.objects.select_for_update(of=("self",)).filter(client=kept).order_by("pk"))
    coming = [sitting.number for sitting in sittings if sitting.stage not in OVER]
    if coming:
        raise StillExpected(", ".join(coming))
    counts: dict[str, int] = {}
    names = {sitting.pk: _unname(sitting) for sitting in sittings}
    for sitting in sittings:
        blank_above(sitting, list(names[sitting.pk]), names[sitting.pk] | {kept.name: erased_name(kept.pk)})
        NotesPurged.objects.create(sitting=sitting, at=clock.now(), by=by, why=NotesPurged.Why.ERASED)
        entries.blank(f"/sittings/{sitting.number}/")
    for words in erasable.WORDS:
        counts[words.model.__name__] = counts.get(words.model.__name__, 0) + _empty(words, kept)
    _bills(kept)
    _client(kept)
    for model, rows in ((Sitting, {"client": kept}), (Sitter, {"sitting__client": kept})):
        for row in model._default_manager.filter(**rows):
            row.save(update_fields=["found_by"])  # what it is found by is made anew
    return Erasure.objects.create(
        client=kept, at=clock.now(), by=by, asked_by=asked_by.strip()[:200], counts=counts
    )


def _unname(sitting: Sitting) -> dict[str, str]:
    """Number the people of a sitting instead of naming them; the new names by the old."""
    found = {}
    for n, sitter in enumerate(Sitter.objects.filter(sitting=sitting).order_by("pk"), start=1):
        found[sitter.label] = f"person {n}"
        Sitter.objects.filter(pk=sitter.pk).update(label=f"person {n}", age_years=None, height_cm=None)
    return found


def _empty(words: erasable.Words, client: Client) -> int:
    rows = words.of(client)
    if words.gone:
        return int(words.model._default_manager.filter(pk__in=list(rows.values_list("pk", flat=True))).delete()[0])
    if not words.fields:
        return 0
    values: dict[str, Any] = {}
    for name in words.fields:
        field = words.model._meta.get_field(name)
        values[name] = "" if getattr(field, "blank", True) else BLANK
    return int(words.model._default_manager.filter(pk__in=list(rows.values_list("pk", flat=True))).update(**values))


def _bills(client: Client) -> None:
    """Papers about money stay, under the number instead of the name."""
    for model in (Quote, Invoice):
        for bill in model.objects.filter(sitting__client=client):
            content = bill.content | {"client": erased_name(client.pk), "exempt": ""}
            model.objects.filter(pk=bill.pk).update(content=content)


def _client(client: Client) -> None:
    client.name, client.email, client.phone, client.note = erased_name(client.pk), "", "", ""
    client.tax_exempt = ""
    client.version += 1
    client.save()
