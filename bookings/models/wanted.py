"""Times that are waited for. Belongs here: which client would take what time if one came free, and what came of it. Not
here: who fits a time (`bookings.wait_list`), offering it (`actions.wait_list`)."""

from __future__ import annotations

from datetime import time

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.clients import Client
from bookings.models.kinds import Kind
from bookings.models.sittings import Sitting
from studio.models import Member, Room
from studio.models.quantities import whole_number
from studio.models.versions import Versioned


class WantedTimeQuerySet(models.QuerySet["WantedTime"]):
    def waiting(self) -> WantedTimeQuerySet:
        return self.filter(off_at__isnull=True)

    def with_names(self) -> WantedTimeQuerySet:
        return self.select_related("client", "kind", "room", "photographer", "offered", "by")


class WantedTime(Versioned):
    """An enquiry without a time: what a client would come for. An empty wish means any."""

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="wanted_times")
    kind = models.ForeignKey(
        Kind, on_delete=models.PROTECT, related_name="wanted_times", null=True, blank=True,
        verbose_name=_("kind of sitting"),
    )  # fmt: skip
    minutes = whole_number(_("length, minutes"), low=5, high=1440)
    room = models.ForeignKey(Room, on_delete=models.CASCADE, null=True, blank=True, verbose_name=_("room"))
    photographer = models.ForeignKey(
        Member, on_delete=models.CASCADE, related_name="+", null=True, blank=True, verbose_name=_("photographer")
    )
    first_on = models.DateField(_("from"), null=True, blank=True)
    last_on = models.DateField(_("to"), null=True, blank=True)
    weekdays = models.JSONField(_("on"), default=list, blank=True)
    earliest = models.TimeField(_("starts from"), null=True, blank=True)
    latest = models.TimeField(_("starts until"), null=True, blank=True)
    note = models.CharField(_("note"), max_length=200, blank=True, help_text=_("Nothing about health or looks here."))
    written_at = models.DateTimeField(editable=False)
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+", editable=False)
    offered_at = models.DateTimeField(null=True, editable=False)
    offered = models.ForeignKey(Sitting, on_delete=models.SET_NULL, null=True, related_name="offers", editable=False)
    off_at = models.DateTimeField(null=True, editable=False)  # booked, or waits no longer

    objects = WantedTimeQuerySet.as_manager()

    class Meta:
        ordering = ("written_at", "pk")
        indexes = (models.Index(fields=("written_at",), name="wanted_now", condition=models.Q(off_at__isnull=True)),)

    def __str__(self) -> str:
        return f"{self.client}, {self.minutes} min"

    @property
    def name(self) -> str:
        return self.client.name

    @property
    def wall(self) -> tuple[time, time]:
        """From and to which time of the day it may start."""
        return self.earliest or time.min, self.latest or time.max
