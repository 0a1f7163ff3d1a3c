"""Letters. Belongs here: writing one into the outbox, and what the desk does with one by hand. Not here: sending them
(`outbox`), what the house's own letters say (`bookings.correspondence`)."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from urllib.parse import urlsplit

from django.conf import settings
from django.db import IntegrityError, transaction

from bookings.letter_refusals import SentAlready
from bookings.models import Attachment, Client, Letter, Sitting
from studio import clock
from studio.models import Member

SUBJECT_MOST = 200


@dataclass(frozen=True)
class Enclosed:
    """Something that goes with a letter: `media_type` as `application/pdf`."""

    name: str
    media_type: str
    content: bytes


def write(
    *,
    sitting: Sitting | None = None,
    client: Client | None = None,
    kind: str,
    to: str,
    subject: str,
    body: str,
    attachments: Sequence[Enclosed] = (),
    by: Member | None,
    once_key: str = "",
    not_before: datetime | None = None,
    useless_at: datetime | None = None,
) -> Letter:
    """Put a letter into the outbox; it goes with the next `send_due_letters`, where `to` is empty it waits for a
    printer. The same `once_key` never writes twice: the letter that is there is returned.

    May be called inside the transaction of what the letter is about, and then stands or falls with it.
    """
    now = clock.now()
    kept = Letter.objects.filter(once_key=once_key).first() if once_key else None
    if kept is not None:
        return kept
    letter = Letter(
        sitting=sitting,
        client=client or (sitting.client if sitting is not None else None),
        kind=kind,
        to=to.strip(),
        subject=" ".join(subject.split())[:SUBJECT_MOST],
        body=body,
        written_at=now,
        by=by,
        once_key=once_key or None,
        message_id=f"<letter.{secrets.token_hex(12)}@{urlsplit(settings.TENTHSTOP_URL).hostname or 'localhost'}>",
        due_at=not_before or now,
        useless_at=useless_at,
    )
    try:
        with transaction.atomic():
            letter.save(force_insert=True)
            Attachment.objects.bulk_create(Attachment(letter=letter, **vars(one)) for one in attachments)
    except IntegrityError:  # somebody else wrote it in the same moment
        kept = Letter.objects.filter(once_key=once_key).first() if once_key else None
        if kept is None:
            raise
        return kept
    return letter


@transaction.atomic
def send_again(*, letter: Letter, to: str | None = None) -> Letter:
    """Let a letter that waits or was given up go with the next round, to another address if one is given. Refuses with
    `SentAlready`."""
    kept = _unsent(letter)
    kept.state, kept.due_at, kept.last_error, kept.tries, kept.unanswered = (
        Letter.State.WAITING, clock.now(), "", 0, 0,
    )  # fmt: skip
    kept.to = kept.to if to is None else to.strip()
    kept.lease, kept.lease_ends_at, kept.useless_at = "", None, None
    kept.save()
    return kept


@transaction.atomic
def handed_over(*, letter: Letter, by: Member) -> Letter:
    """A letter that was printed, copied or read out: it is not sent any more. Refuses with `SentAlready`."""
    kept = _unsent(letter)
    kept.state, kept.by_hand, kept.sent_at, kept.by = Letter.State.SENT, True, clock.now(), by
    kept.lease, kept.lease_ends_at = "", None
    kept.save()
    return kept


@transaction.atomic
def give_up(*, letter: Letter, why: str) -> Letter:
    """A letter that shall not go any more. Refuses with `SentAlready`."""
    kept = _unsent(letter)
    kept.state, kept.last_error = Letter.State.GIVEN_UP, why[:400]
    kept.save()
    return kept


def _unsent(letter: Letter) -> Letter:
    kept = Letter.objects.select_for_update().get(pk=letter.pk)
    held = kept.lease_ends_at is not None and kept.lease_ends_at > clock.now()
    if kept.state == Letter.State.SENT or held:
        raise SentAlready(kept.subject)
    return kept
