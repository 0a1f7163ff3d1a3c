"""Kit: its state, and counts of what is used up. Belongs here: those writes with the row that says who and why. Not
here: how they are asked (`forms.kit`, `views.kit`)."""

from __future__ import annotations

from django.db import transaction

from studio import clock
from studio.models import Consumable, CountChange, KitChange, KitItem, Member, versions
from studio.models.consumables import MOST


@transaction.atomic
def change_state(*, by: Member, piece: KitItem, state: str, why: str = "", seen: int | None = None) -> bool:
    """A piece is ready, charging, in repair or lost from now on: what is not ready is free for no plan. False where
    that was so. `seen`: the version the page had seen, where two people may meet; who changed it last themselves has
    met nobody, so that two taps that waited on one device do not refuse each other.

    Raises `versions.Stale` when somebody else was faster.
    """
    held = KitItem.objects.select_for_update().filter(pk=piece.pk).first()
    if held is None or (seen is not None and held.version != seen and not _was_last(by, held)):
        raise versions.Stale(held)
    before, state = held.state, KitItem.State(state)
    if before == state:
        return False
    held.state = state
    versions.save(held, seen=held.version)
    noted(by=by, piece=held, before=before, after=state, why=why)
    return True


def _was_last(by: Member, piece: KitItem) -> bool:
    last = piece.changes.order_by("-at", "-pk").first()
    return last is not None and last.by_id == by.pk


def noted(*, by: Member, piece: KitItem, before: str, after: str, why: str = "") -> None:
    """Keep who changed a state; what is as before is no change."""
    if before != after:
        KitChange.objects.create(
            at=clock.now(), by=by, piece_id=piece.pk, before=before, after=after, why=" ".join(why.split())[:200]
        )


@transaction.atomic
def count(*, by: Member, consumable: Consumable, by_n: int) -> Consumable:
    """So many more, or fewer; never below none. What two people take at once is taken twice."""
    held = Consumable.objects.select_for_update().get(pk=consumable.pk)
    before = held.count
    held.count = min(MOST, max(0, before + by_n))
    versions.save(held, seen=held.version)
    counted(by=by, consumable=held, before=before)
    return held


def counted(*, by: Member, consumable: Consumable, before: int) -> None:
    """Keep who counted; what is as before is no change."""
    if before != consumable.count:
        CountChange.objects.create(
            at=clock.now(), by=by, consumable=consumable, name=consumable.name, unit=consumable.unit, before=before,
            after=consumable.count,
        )  # fmt: skip
