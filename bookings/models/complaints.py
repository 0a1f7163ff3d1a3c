"""Complaints and re-shoots. Belongs here: the card of a complaint with its history, and which sitting was taken again
for what cause. Not here: keeping them (`actions.complaints`), counting causes (`bookings.causes`)."""

from __future__ import annotations

from datetime import date

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.clients import Client
from bookings.models.sittings import Sitting
from studio.models import Member, Role
from studio.models.versions import Versioned

KEEPERS = (Role.FRONT_DESK, Role.PHOTOGRAPHER, Role.OWNER)  # whose pages have complaints, so who may answer for one


class Cause(models.TextChoices):
    """What went wrong, to be counted."""

    GLARE = "glare", _("glare")
    FOCUS = "focus", _("focus")
    LIGHT = "light", _("light")
    WARDROBE = "wardrobe", _("wardrobe")
    LATE = "late", _("late")
    OTHER = "other", _("other")


class ComplaintQuerySet(models.QuerySet["Complaint"]):
    def still_open(self) -> ComplaintQuerySet:
        return self.filter(closed_at__isnull=True)

    def with_names(self) -> ComplaintQuerySet:
        return self.select_related("client", "sitting", "keeper", "opened_by")

    def kept_by(self, member: Member) -> ComplaintQuerySet:
        """Those this member answers for."""
        return self.filter(keeper=member).with_names()

    def by_due_day(self) -> ComplaintQuerySet:
        return self.order_by("due_on", "pk")


class Complaint(Versioned):
    """What a client is not content with, who answers for it and until when. Open until it is closed with a remedy."""

    client = models.ForeignKey(Client, on_delete=models.PROTECT, related_name="complaints")
    sitting = models.ForeignKey(
        Sitting, on_delete=models.PROTECT, related_name="complaints", null=True, blank=True, verbose_name=_("sitting")
    )
    said = models.TextField(_("what was said"), max_length=2000)
    wanted = models.TextField(_("what would put it right"), max_length=2000, blank=True)
    offered = models.TextField(_("what was offered"), max_length=2000, blank=True)
    agreed = models.TextField(_("what was agreed"), max_length=2000, blank=True)
    cause = models.CharField(_("cause"), max_length=8, choices=Cause.choices)
    keeper = models.ForeignKey(
        Member, on_delete=models.PROTECT, related_name="complaints_kept", verbose_name=_("who answers for it")
    )
    due_on = models.DateField(_("settled by"))
    remedy = models.TextField(_("remedy"), max_length=2000, blank=True)
    opened_at = models.DateTimeField(editable=False)
    opened_by = models.ForeignKey(
        Member, on_delete=models.PROTECT, related_name="complaints_opened", editable=False
    )
    closed_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects = ComplaintQuerySet.as_manager()

    class Meta:
        ordering = ("-opened_at", "-pk")
        indexes = (
            models.Index(fields=("due_on",), name="complaint_open", condition=models.Q(closed_at__isnull=True)),
        )

    def __str__(self) -> str:
        return f"{self.client.short_name}, {self.get_cause_display()}"

    @property
    def is_open(self) -> bool:
        return self.closed_at is None

    def days_past(self, today: date) -> int:
        return max((today - self.due_on).days, 0) if self.is_open else 0


class ComplaintChange(models.Model):
    """Who changed what on the card, from what to what; written once."""

    class What(models.TextChoices):
        OPENED = "opened", _("opened")
        SITTING = "sitting", _("sitting")
        SAID = "said", _("what was said")
        WANTED = "wanted", _("what would put it right")
        OFFERED = "offered", _("what was offered")
        AGREED = "agreed", _("what was agreed")
        CAUSE = "cause", _("cause")
        KEEPER = "keeper", _("who answers for it")
        DUE = "due_on", _("settled by")
        CLOSED = "closed", _("closed")
        REOPENED = "reopened", _("opened again")

    complaint = models.ForeignKey(Complaint, on_delete=models.CASCADE, related_name="changes")
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="complaint_changes")
    what = models.CharField(max_length=8, choices=What.choices)
    before = models.TextField(blank=True)
    after = models.TextField(blank=True)

    class Meta:
        ordering = ("at", "pk")

    def __str__(self) -> str:
        return f"{self.what}: {self.before or '-'} to {self.after or '-'}"


class Reshoot(models.Model):
    """A sitting that takes an earlier one again."""

    sitting = models.OneToOneField(Sitting, on_delete=models.CASCADE, related_name="reshoot")
    first = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="reshoots", verbose_name=_("instead of"))
    cause = models.CharField(_("cause"), max_length=8, choices=Cause.choices)
    note = models.CharField(_("in words"), max_length=400, blank=True)
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="reshoots_linked")

    class Meta:
        ordering = ("at", "pk")

    def __str__(self) -> str:
        return f"{self.sitting_id} instead of {self.first_id}: {self.cause}"
