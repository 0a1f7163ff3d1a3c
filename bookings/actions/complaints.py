"""Complaints and re-shoots. Belongs here: keeping the card of a complaint with its history, closing it with a remedy,
and saying which sitting is taken again for what cause, each in one transaction. Not here: counting causes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from bookings import wording
from bookings.models import Cause, Complaint, ComplaintChange, Reshoot, Sitting, SittingChange
from bookings.models.sittings import OFF
from bookings.refusals import CardChanged, NotAReshoot, NoteNeeded, StillOpen
from studio import clock
from studio.models import Member, versions

What = ComplaintChange.What
KEPT = (
    What.SITTING, What.SAID, What.WANTED, What.OFFERED, What.AGREED, What.CAUSE, What.KEEPER, What.DUE,
)  # fmt: skip


@transaction.atomic
def keep(*, by: Member, complaint: Complaint, seen: int | None = None) -> Complaint:
    """Open a card, or bring one to what it says now; `seen` is the version it was opened at.

    Raises `Stale` when somebody else was faster. Refuses with `CardChanged` where it was closed meanwhile.
    """
    now = clock.now()
    if complaint._state.adding:
        complaint.opened_at, complaint.opened_by = now, by
        complaint.save(force_insert=True)
        _note(complaint, by, What.OPENED, "", complaint.said)
        return complaint
    before = Complaint.objects.with_names().get(pk=complaint.pk)
    if not before.is_open:
        raise CardChanged
    changed = list(_changes(before, complaint))
    if changed:
        versions.save(complaint, seen=seen or 0)
        for what, old, new in changed:
            _note(complaint, by, what, old, new)
    return complaint


@transaction.atomic
def close(*, by: Member, complaint: Complaint, remedy: str, seen: int) -> Complaint:
    """Close a card with what was done about it. Refuses with `StillOpen` without a remedy, and with `CardChanged`."""
    kept = _locked(complaint, seen, is_open=True)
    if not remedy.strip():
        raise StillOpen
    kept.remedy, kept.closed_at = remedy.strip(), clock.now()
    _save(kept)
    _note(kept, by, What.CLOSED, "", kept.remedy)
    return kept


@transaction.atomic
def open_again(*, by: Member, complaint: Complaint, note: str, seen: int) -> Complaint:
    """Open a closed card again; its remedy stays in the history. Refuses with `NoteNeeded`, `CardChanged`."""
    kept = _locked(complaint, seen, is_open=False)
    if not note.strip():
        raise NoteNeeded
    kept.closed_at = None
    _save(kept)
    _note(kept, by, What.REOPENED, kept.remedy, note.strip())
    return kept


@transaction.atomic
def link_reshoot(*, by: Member, sitting: Sitting, first: Sitting | None, cause: str, note: str = "") -> Reshoot | None:
    """Say that a sitting takes an earlier one of the same client again, for what cause; with no `first`, that it does
    not. Refuses with `NotAReshoot`."""
    kept = Sitting.objects.select_for_update().get(pk=sitting.pk)
    before = Reshoot.objects.filter(sitting=kept).select_related("first").first()
    if first is None:
        if before is not None:
            before.delete()
            _tell(kept, before.first.number, "", by, _("it is none"))
        return None
    _check_reshoot(kept, first)
    row, _made = Reshoot.objects.update_or_create(
        sitting=kept, defaults={"first": first, "cause": cause, "note": note.strip(), "at": clock.now(), "by": by}
    )
    words = _("%(first)s, cause: %(cause)s") % {"first": first.number, "cause": Cause(cause).label}
    _tell(kept, before.first.number if before else "", words, by, note)
    return row


def _check_reshoot(sitting: Sitting, first: Sitting) -> None:
    if first.client_id != sitting.client_id:
        raise NotAReshoot(_("%(first)s is another client's sitting.") % {"first": first.number})
    if first.pk == sitting.pk or first.starts_at >= sitting.starts_at:
        raise NotAReshoot(_("%(first)s is not an earlier sitting.") % {"first": first.number})
    if first.stage in OFF:
        raise NotAReshoot(_("Nobody sat for %(first)s: there is nothing to take again.") % {"first": first.number})


def _changes(before: Complaint, now: Complaint) -> Iterator[tuple[str, str, str]]:
    for what in KEPT:
        name = what.value
        if getattr(before, name) != getattr(now, name):
            yield what, _words(before, name), _words(now, name)


def _words(complaint: Complaint, name: str) -> str:
    """A value of the card as its page says it."""
    value: Any = getattr(complaint, name)
    if value is None or value == "":
        return ""
    if name == What.DUE:
        return wording.date(value)
    if name == What.CAUSE:
        return str(Cause(value).label)
    return value.number if name == What.SITTING else str(value)


def _locked(complaint: Complaint, seen: int, *, is_open: bool) -> Complaint:
    kept = Complaint.objects.select_for_update().get(pk=complaint.pk)
    if kept.version != seen or kept.is_open != is_open:
        raise CardChanged
    return kept


def _save(kept: Complaint) -> None:
    kept.version += 1
    kept.save()


def _note(complaint: Complaint, by: Member, what: str, before: str, after: str) -> None:
    ComplaintChange.objects.create(
        complaint=complaint, at=clock.now(), by=by, what=what, before=before, after=after
    )


def _tell(sitting: Sitting, before: str, after: str, by: Member, note: str) -> None:
    SittingChange.objects.create(
        sitting=sitting, at=clock.now(), by=by, what=SittingChange.What.RESHOOT, before=before,
        after=after or _("none"), note=note.strip()[:400],
    )  # fmt: skip

