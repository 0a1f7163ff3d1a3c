"""Where words about a client stand. Belongs here: every row that belongs to a client or to one of its sittings, how it
is reached, and which of its fields hold words or names. Erasure and the client's own copy both go by this one list, and
a test holds it against all tables."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.db.models import Model, QuerySet

from bookings import models as rows


@dataclass(frozen=True)
class Words:
    """Rows of one kind: the path from them to the client, and the fields that are emptied when the client is erased.

    `gone` where the whole row goes; a row that stays keeps numbers, moments and stages.
    """

    model: type[Model]
    path: str
    fields: tuple[str, ...] = ()
    gone: bool = False

    def of(self, client: rows.Client) -> QuerySet[Any]:
        return self.model._default_manager.filter(**{self.path: client}).distinct()


WORDS: tuple[Words, ...] = (
    Words(rows.Notes, "sitter__sitting__client", gone=True),
    Words(rows.Wish, "sitter__sitting__client", gone=True),
    Words(rows.IntakeAnswer, "intake__sitting__client", gone=True),
    Words(rows.Intake, "sitting__client", gone=True),
    Words(rows.Consent, "sitter__sitting__client"),
    Words(rows.Guardian, "sitter__sitting__client", gone=True),
    Words(rows.Release, "sitter__sitting__client", gone=True),
    Words(rows.Waiver, "sitter__sitting__client", ("asked_note", "note")),
    Words(rows.Place, "rota__sitting__client", ("email",)),
    Words(rows.PlaceChange, "place__rota__sitting__client", gone=True),
    Words(rows.Rota, "sitting__client", ("wear",)),
    Words(rows.Attachment, "letter__sitting__client", gone=True),
    Words(rows.Attachment, "letter__client", gone=True),
    Words(rows.Letter, "sitting__client", ("to", "subject", "body", "last_error")),
    Words(rows.Letter, "client", ("to", "subject", "body", "last_error")),
    Words(rows.Answer, "sitting__client", ("note",)),
    Words(rows.Hold, "sitting__client", ("note",)),
    Words(rows.Trust, "sitting__client", ("note",)),
    Words(rows.StageChange, "sitting__client", ("note",)),
    Words(rows.SittingChange, "sitting__client", ("before", "after", "note")),
    Words(rows.Wait, "sitting__client", ("note",)),
    Words(rows.LateReason, "sitting__client", ("note",)),
    Words(rows.ComplaintChange, "complaint__sitting__client", ("before", "after")),
    Words(rows.Complaint, "sitting__client", ("said", "wanted", "offered", "agreed", "remedy")),
    Words(rows.Reshoot, "sitting__client", ("note",)),
    Words(rows.AskedBack, "client"),
    Words(rows.WantedTime, "client", gone=True),
    Words(rows.Charge, "sitting__client", ("note",)),
    Words(rows.Payment, "sitting__client", ("note",)),
    Words(rows.Quote, "sitting__client"),
    Words(rows.Invoice, "sitting__client"),
    Words(rows.Invitation, "sitting__client"),
    Words(rows.Sitter, "sitting__client", ("relation", "household", "keep_with")),
    Words(rows.Sitting, "client", ("purpose", "hangs")),
    Words(rows.NoteReading, "sitting__client"),
    Words(rows.NotesPurged, "sitting__client"),
)
