"""A sitting's shot list as the photographer set it, and the studio's own pose cards with their history. Belongs here:
the rows. Not here: the list that is suggested, the house's cards (`planner.shotlist`, `planner.words.poses`)."""

from __future__ import annotations

from typing import Any

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models import Sitting
from shotplans.planner.pose_cards import KINDS, PARTS
from shotplans.planner.words.poses import NAMES
from studio.models import Member
from studio.models.versions import Versioned


class ShotList(Versioned):
    """Pictures in the photographer's words and order; without rows the suggested list holds. `rows`: words, who (keys
    of sitters, so that a new name is followed), must, setup, card."""

    sitting = models.OneToOneField(Sitting, on_delete=models.CASCADE, related_name="shot_list")
    rows = models.JSONField(_("pictures"), default=list)
    in_order = models.BooleanField(_("in this order"), default=False)
    changed_at = models.DateTimeField(_("changed at"))
    changed_by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    def __str__(self) -> str:
        return f"shot list of {self.sitting.number}"


class ShotListEdit(models.Model):
    """Who set a shot list, when, and what of it changed from what to what; written once. `before` and `after` are the
    rows that are not the same on both sides, as the list keeps them. It goes with the list when a client is erased."""

    sitting = models.ForeignKey(Sitting, on_delete=models.CASCADE, related_name="shot_list_edits")
    before = models.JSONField(_("before"), default=list)
    after = models.JSONField(_("after"), default=list)
    count_before = models.PositiveSmallIntegerField()  # pictures; 0: as suggested
    count_after = models.PositiveSmallIntegerField()
    reordered = models.BooleanField(default=False)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("-at", "-pk")

    def __str__(self) -> str:
        return f"{self.sitting}: {self.count_before} to {self.count_after}"


class OwnPoseCard(Versioned):
    """A card of the studio's own for one kind of picture; while in use it stands in place of the house's."""

    kind = models.CharField(_("kind of picture"), max_length=20, unique=True, choices=[(k, _(NAMES[k])) for k in KINDS])
    name = models.CharField(_("name"), max_length=80)
    base = models.CharField(_("base of the picture"), max_length=200)
    weight = models.CharField(_("weight"), max_length=120, blank=True)
    turn = models.CharField(_("turn"), max_length=120, blank=True)
    hands = models.CharField(_("hands"), max_length=120, blank=True)
    chin = models.CharField(_("chin"), max_length=120, blank=True)
    eyes = models.CharField(_("eyes"), max_length=120, blank=True)
    seat = models.CharField(_("seat"), max_length=120, blank=True)
    caution = models.CharField(_("caution"), max_length=200)
    in_use = models.BooleanField(_("in use"), default=True)

    class Meta:
        ordering = ("kind",)

    def __str__(self) -> str:
        return self.name

    @property
    def lines(self) -> dict[str, Any]:
        """The card as the planner reads it."""
        return {"kind": self.kind, "name": self.name, **{part: getattr(self, part) for part in PARTS}}


class PoseCardEdit(models.Model):
    """Who set which card to what, and what it said before; written once."""

    kind = models.CharField(_("kind of picture"), max_length=20)
    before = models.JSONField(_("before"), default=dict)
    after = models.JSONField(_("after"), default=dict)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("-at", "-pk")

    def __str__(self) -> str:
        return f"{self.kind}, {self.at:%Y-%m-%d}"
