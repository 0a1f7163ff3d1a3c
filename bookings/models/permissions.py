"""Permission rows. Belongs here: what each sitter allows, who signed the release, who answers for a minor, and what the
owner waived. A row says how it came in and who entered it; nobody, where a sitter answered alone. Not here: what they
come to (`bookings.permissions`), writing them (`actions.arrivals`)."""

from __future__ import annotations

from typing import Any

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.sitters import Sitter
from studio.models import Member
from studio.models.kit import plain_label

NAME = {"max_length": 120, "validators": [plain_label]}
NOTE = {"max_length": 400, "validators": [plain_label], "blank": True}


class How(models.TextChoices):
    """How an answer came in."""

    PAPER = "paper", _("on paper")
    DESK = "desk", _("at the desk")
    LINK = "link", _("by link")

    @classmethod
    def by_hand(cls) -> list[tuple[str, Any]]:
        """As a member may enter it: nobody else answers by the client's link."""
        return [(value, label) for value, label in cls.choices if value != cls.LINK]


class Entered(models.Model):
    """A row about one sitter that came in some way, at some moment."""

    how = models.CharField(_("how"), max_length=5, choices=How.choices)
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+", null=True, blank=True)

    class Meta:
        abstract = True


class Consent(Entered):
    """One sitter's answer to one question; no row where nobody asked. The three never move one another."""

    class What(models.TextChoices):
        PHOTOGRAPH = "photograph", _("photograph")
        PUBLISH = "publish", _("publish")
        KEEP_NOTES = "keep_notes", _("keep comfort notes")

    class Answer(models.TextChoices):
        YES = "yes", _("yes")
        NO = "no", _("no")
        WITHDRAWN = "withdrawn", _("withdrawn")

    sitter = models.ForeignKey(Sitter, on_delete=models.CASCADE, related_name="consents")
    what = models.CharField(max_length=12, choices=What.choices)
    answer = models.CharField(max_length=9, choices=Answer.choices)

    class Meta:
        constraints = (models.UniqueConstraint(fields=("sitter", "what"), name="consent_once_a_sitter"),)

    def __str__(self) -> str:
        return f"{self.what}: {self.answer}"


class Guardian(Entered):
    """Who answers for a minor; named before anything is signed."""

    sitter = models.OneToOneField(Sitter, on_delete=models.CASCADE, related_name="guardian")
    name = models.CharField(_("name"), **NAME)
    relation = models.CharField(_("relation"), max_length=60, validators=[plain_label])
    phone = models.CharField(_("telephone"), max_length=40, validators=[plain_label])

    def __str__(self) -> str:
        return f"{self.name}, {self.relation}"


class Release(Entered):
    """The signed release of one sitter; `relation` says what the signer is to a sitter who did not sign."""

    sitter = models.OneToOneField(Sitter, on_delete=models.CASCADE, related_name="release")
    signed_by = models.CharField(_("signed by"), **NAME)
    relation = models.CharField(_("relation"), max_length=60, blank=True, validators=[plain_label])
    signed_on = models.DateField(_("signed on"))
    limits = models.CharField(_("limits of use"), **NOTE)
    # As it stood on the page when it was signed by link; empty where a sheet of paper holds it.
    wording = models.TextField(blank=True)
    wording_version = models.PositiveIntegerField(null=True, blank=True)
    drawn = models.TextField(blank=True)  # the signature as points, "x,y x,y; x,y", in a field of 600 by 200

    def __str__(self) -> str:
        return f"signed by {self.signed_by} on {self.signed_on:%Y-%m-%d}"

    @property
    def by_guardian(self) -> bool:
        return bool(self.relation)


class Waiver(models.Model):
    """A sitter who may be photographed without a signed release: asked for by anybody, in force once `by` is there."""

    sitter = models.OneToOneField(Sitter, on_delete=models.CASCADE, related_name="waiver")
    asked_at = models.DateTimeField()
    asked_by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")
    asked_note = models.CharField(_("why"), **NOTE)
    at = models.DateTimeField(null=True, blank=True)
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+", null=True, blank=True)
    note = models.CharField(_("note"), **NOTE)

    def __str__(self) -> str:
        return "waived" if self.in_force else "asked for"

    @property
    def in_force(self) -> bool:
        return self.by_id is not None

