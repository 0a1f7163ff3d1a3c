"""What is waited for after a sitting, where a person said so. Belongs here: rows that are written once. Not here: the
turns a stage brings by itself (`history`), how long a clock ran (`bookings.clocks`)."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from bookings import clocks
from bookings.models.sittings import Sitting
from studio.models import Member
from studio.models.kit import plain_label


class Wait(models.Model):
    """From `at` on a sitting waits for this, whatever its stage says by itself; the next stage or wait ends it."""

    class What(models.TextChoices):
        CHOOSE = "choose", _("choose the frames")
        PAY = "pay", _("pay the balance")
        ANSWER = "answer", _("answer")
        SHOW = "show", _("show the frames")
        EDIT = "edit", _("edit")
        PRINT = "print", _("print")
        DELIVER = "deliver", _("deliver")

    sitting = models.ForeignKey(Sitting, on_delete=models.CASCADE, related_name="waits")
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="waits")
    what = models.CharField(_("waits for"), max_length=8, choices=What.choices)
    note = models.CharField(_("note"), max_length=400, blank=True, validators=[plain_label])

    class Meta:
        ordering = ("at", "pk")

    def __str__(self) -> str:
        return f"{self.what}: {self.note}" if self.note else self.what

    @property
    def sentence(self) -> str:
        """For the history, without when and by whom; the note stands beside it."""
        words = gettext("client's move set: %(what)s"), gettext("studio's move set: %(what)s")
        return words[clocks.WHOSE[self.what] == clocks.STUDIO] % {"what": self.get_what_display()}


class LateReason(models.Model):
    """Why a sitting is past its promise, as somebody said it; the last one counts."""

    class Code(models.TextChoices):
        LAB = "lab", _("the lab")
        EDITING = "editing", _("more editing than thought")
        PRINTING = "printing", _("a print made again")
        ILLNESS = "illness", _("somebody is away")
        KIT = "kit", _("something broke")
        CLIENT = "client", _("the client")
        OTHER = "other", _("something else")

    sitting = models.ForeignKey(Sitting, on_delete=models.CASCADE, related_name="late_reasons")
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="late_reasons")
    code = models.CharField(_("because of"), max_length=8, choices=Code.choices)
    note = models.CharField(_("in words"), max_length=400, validators=[plain_label])

    class Meta:
        ordering = ("at", "pk")

    def __str__(self) -> str:
        return f"{self.get_code_display()}: {self.note}"

    @property
    def sentence(self) -> str:
        return gettext("late because of %(code)s") % {"code": self.get_code_display()}
