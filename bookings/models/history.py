"""History of what a person may dispute. Belongs here: rows that are written once and never changed."""

from __future__ import annotations

from unicodedata import bidirectional

from django.db import models
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from bookings.models.sittings import Sitting, Stage
from studio.models import Member


class StageChange(models.Model):
    """Who moved a sitting from which stage to which, and when. `stage_from` is empty for the booking itself, `by` where
    a hold lapsed or moved up on its own."""

    sitting = models.ForeignKey(Sitting, on_delete=models.CASCADE, related_name="stage_changes")
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="stage_changes", null=True, blank=True)
    stage_from = models.CharField(max_length=12, choices=Stage.choices, blank=True)
    stage_to = models.CharField(max_length=12, choices=Stage.choices)
    note = models.CharField(_("note"), max_length=400, blank=True)

    class Meta:
        ordering = ("at", "pk")

    def __str__(self) -> str:
        return f"{self.stage_from or '-'} to {self.stage_to}"

    @property
    def who(self) -> str:
        return self.by.name if self.by else nobody()


class SittingChange(models.Model):
    """What of a booked sitting was changed afterwards, from what to what, as words; of a person's details only which
    were corrected, never what they say."""

    class What(models.TextChoices):
        START = "starts_at", _("start")
        MINUTES = "minutes", _("length")
        SETUP = "setup_minutes", _("set-up before it")
        STRIKE = "strike_minutes", _("strike after it")
        ROOM = "room", _("room")
        PHOTOGRAPHER = "photographer", _("photographer")
        ASSISTANT = "assistant", _("assistant")
        PURPOSE = "purpose", _("what the pictures are for")
        HANGS = "hangs", _("where it will hang")
        PRINT_WIDTH = "print_width_cm", _("width of the print")
        NAME = "name", _("short name")
        ADDED = "added", _("a person added")
        TAKEN_OUT = "taken_out", _("a person taken out")
        CORRECTED = "corrected", _("details corrected")
        HOLD = "hold", _("end of the hold")
        PLACE = "place", _("place in the queue")
        FEE = "fee", _("fee agreed")
        DEPOSIT = "deposit", _("deposit")
        OBJECTION = "objection", _("objection set aside")
        PERMISSION = "permission", _("permission")
        DESTINATION = "destination", _("where it goes")
        ITEM = "item", _("item")
        QUOTE = "quote", _("quote")
        OCCASION = "occasion_on", _("day of the occasion")
        RESHOOT = "reshoot", _("re-shoot")

    sitting = models.ForeignKey(Sitting, on_delete=models.CASCADE, related_name="changes")
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="sitting_changes", null=True, blank=True)
    what = models.CharField(max_length=16, choices=What.choices)
    before = models.CharField(max_length=400, blank=True)
    after = models.CharField(max_length=400, blank=True)
    note = models.CharField(_("note"), max_length=400, blank=True)

    class Meta:
        ordering = ("at", "pk")

    def __str__(self) -> str:
        return f"{self.what}: {self.before or '-'} to {self.after or '-'}"

    @property
    def who(self) -> str:
        return self.by.name if self.by else nobody(self.what)

    @property
    def sentence(self) -> str:
        """What was changed, without when and by whom."""
        words = {
            self.What.ADDED: gettext("%(after)s added"),
            self.What.TAKEN_OUT: gettext("%(before)s taken out"),
            self.What.CORRECTED: gettext("details of %(before)s corrected: %(after)s"),
            self.What.FEE: gettext("fee agreed for %(before)s: %(after)s"),
            self.What.DEPOSIT: gettext("deposit %(after)s"),
            self.What.OBJECTION: gettext("booked all the same: %(after)s"),
            self.What.PERMISSION: gettext("%(before)s: %(after)s"),
            self.What.ITEM: gettext("%(before)s: %(after)s"),
            self.What.QUOTE: gettext("quote %(before)s: %(after)s"),
            self.What.RESHOOT: gettext("re-shoot of %(after)s"),
        }.get(self.What(self.what), gettext("%(what)s from %(before)s to %(after)s"))
        return words % {
            "what": self.get_what_display(), "before": self._quoted(self.before), "after": self._quoted(self.after)
        }  # fmt: skip

    def _quoted(self, value: str) -> str:
        """A sentence inside the sentence stands in quotes."""
        value = apart(value)
        return f"“{value}”" if value and self.what in (self.What.PURPOSE, self.What.HANGS) else value or "-"


def nobody(what: str = "") -> str:
    """Who did it where no member did: a client answers by link, all else happens by itself."""
    by_link = what in (SittingChange.What.PERMISSION, SittingChange.What.PRINT_WIDTH)
    return gettext("the client, by link") if by_link else gettext("the clock")


def apart(value: str) -> str:
    """Words that run from right to left, marked as standing apart, so that the sentence around them keeps its order."""
    runs_left = any(bidirectional(letter) in ("R", "AL") for letter in value)
    return f"\N{FIRST STRONG ISOLATE}{value}\N{POP DIRECTIONAL ISOLATE}" if runs_left else value
