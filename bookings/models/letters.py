"""Letters. Belongs here: what the studio writes to somebody, frozen as it was written, and how far its sending is. Not
here: writing one (`actions.letters`), sending them (`actions.outbox`), how they are worded (`wordings`)."""

from __future__ import annotations

from datetime import datetime
from typing import Self

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.clients import Client
from bookings.models.sittings import Sitting
from studio.models import Member


class LetterKind(models.TextChoices):
    """What a letter is about."""

    CONFIRMATION = "confirmation", _("confirmation")
    CHANGE = "change", _("change")
    CANCELLATION = "cancellation", _("cancellation")
    CLOTHES = "clothes", _("reminder, clothes")
    COMING = "coming", _("reminder, will you be there")
    TOMORROW = "tomorrow", _("reminder, the day before")
    INTAKE = "intake", _("questions before the sitting")
    QUOTE = "quote", _("quote")
    INVOICE = "invoice", _("invoice")
    RECEIPT = "receipt", _("receipt")
    PLACE = "place", _("place on a headshot day")
    OFFER = "offer", _("a time that came free")
    INVITATION = "invitation", _("asking back")
    OTHER = "other", _("letter")


REMINDERS = (LetterKind.CLOTHES, LetterKind.COMING, LetterKind.TOMORROW)


class LetterQuerySet(models.QuerySet["Letter"]):
    def waiting(self) -> Self:
        return self.filter(state=Letter.State.WAITING)

    def due(self, now: datetime) -> Self:
        """To be sent now: somebody to send it to, no later try set, and in nobody's hands."""
        free = models.Q(lease_ends_at__isnull=True) | models.Q(lease_ends_at__lte=now)
        return self.waiting().exclude(to="").filter(free, due_at__lte=now)

    def with_names(self) -> Self:
        return self.select_related("sitting__client", "client", "by")


class Letter(models.Model):
    """One letter to one address. What it says is never changed; what happens to it is."""

    class State(models.TextChoices):
        WAITING = "waiting", _("waiting")
        SENT = "sent", _("sent")
        GIVEN_UP = "given_up", _("given up")
        WITHDRAWN = "withdrawn", _("not needed any more")

    sitting = models.ForeignKey(Sitting, on_delete=models.CASCADE, related_name="letters", null=True, blank=True)
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="letters", null=True, blank=True)
    kind = models.CharField(max_length=16, choices=LetterKind.choices)
    to = models.EmailField(_("to"), blank=True)  # none: to be printed
    subject = models.CharField(_("subject"), max_length=200)
    body = models.TextField(_("letter"))
    written_at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="letters", null=True, blank=True)
    # The same key never writes twice; None where a letter may be written as often as one likes.
    once_key = models.CharField(max_length=120, unique=True, null=True, blank=True)
    message_id = models.CharField(max_length=200, unique=True)  # the same however often it is tried
    state = models.CharField(max_length=9, choices=State.choices, default=State.WAITING)
    due_at = models.DateTimeField()  # not before
    useless_at = models.DateTimeField(null=True, blank=True)  # not after: a reminder of what is over
    tries = models.PositiveSmallIntegerField(default=0)
    last_error = models.CharField(max_length=400, blank=True)
    sent_at = models.DateTimeField(null=True, blank=True)
    by_hand = models.BooleanField(default=False)  # printed or copied by somebody, not sent by the studio's mail
    # Whoever sends it holds it so long; a lease that ran out unanswered tells of a machine that stopped in the middle.
    lease = models.CharField(max_length=32, blank=True)
    lease_ends_at = models.DateTimeField(null=True, blank=True)
    unanswered = models.PositiveSmallIntegerField(default=0)

    objects = LetterQuerySet.as_manager()

    class Meta:
        ordering = ("-written_at", "-pk")
        indexes = (
            models.Index(fields=("due_at",), name="letter_waiting", condition=models.Q(state="waiting")),
            models.Index(fields=("state", "sent_at"), name="letter_by_state"),
        )

    def __str__(self) -> str:
        return f"{self.get_kind_display()} to {self.to or '-'}"


class Attachment(models.Model):
    """What lies in a letter, as it was when it was written."""

    letter = models.ForeignKey(Letter, on_delete=models.CASCADE, related_name="attachments")
    name = models.CharField(max_length=120)
    media_type = models.CharField(max_length=120)
    content = models.BinaryField()

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        return self.name
