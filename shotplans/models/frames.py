"""Frames: exposures as their files tell of them. Belongs here: the row of a frame, its small picture, the marks on it,
what was found of it by eye, and which frame a client's next ones are held against.

The files themselves are never kept. A small picture is, if the studio wishes, in the database: it goes with its row.
"""

from __future__ import annotations

from datetime import datetime
from typing import Any, Self

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models import Client, Sitting
from shotplans.models.plans import Plan
from shotplans.records.exif import CameraData
from studio.models import Member


class FrameQuerySet(models.QuerySet["Frame"]):
    def of(self, sitting: Sitting) -> Self:
        return self.filter(sitting=sitting)

    def counted(self) -> Self:
        """Once each: a raw beside its JPEG is the same frame."""
        return self.filter(beside=None)

    def in_order(self) -> Self:
        return self.order_by("number", "pk")


class Frame(models.Model):
    """One exposure of a sitting, known again by the digest of its file."""

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="frames")
    digest = models.CharField(max_length=64, editable=False)
    name = models.CharField(_("file"), max_length=120)
    size = models.BigIntegerField(editable=False)
    file_time_ms = models.BigIntegerField(editable=False, default=0)
    number = models.PositiveIntegerField(_("number"))
    beside = models.ForeignKey("self", on_delete=models.CASCADE, related_name="others", null=True, blank=True)
    is_test = models.BooleanField(_("test frame"), default=False)
    taken_at = models.DateTimeField(_("taken at"), null=True, blank=True)
    f_number = models.FloatField(_("aperture"), null=True, blank=True)
    shutter_s = models.FloatField(_("shutter, s"), null=True, blank=True)
    iso = models.PositiveIntegerField(_("ISO"), null=True, blank=True)
    focal_mm = models.FloatField(_("focal length, mm"), null=True, blank=True)
    white_balance = models.CharField(_("white balance"), max_length=10, blank=True)
    flash_fired = models.BooleanField(_("flash fired"), null=True, blank=True)
    unread = models.CharField(_("not read"), max_length=200, blank=True)
    look = models.JSONField(_("the picture in numbers"), null=True, blank=True)
    setup_name = models.CharField(_("set-up"), max_length=200, blank=True)
    tied_by = models.CharField(_("tied by"), max_length=10, blank=True)  # only, time, settings, both, person
    doubt = models.CharField(_("in doubt because"), max_length=300, blank=True)
    received_at = models.DateTimeField(_("came in at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+", null=True, blank=True)

    objects = FrameQuerySet.as_manager()

    class Meta:
        ordering = ("sitting", "number", "pk")
        constraints = (models.UniqueConstraint(fields=("sitting", "digest"), name="a_file_once_a_sitting"),)

    def __str__(self) -> str:
        return f"{self.sitting.number}, frame {self.number}"

    @property
    def data(self) -> CameraData:
        """What its camera told, as the readers have it."""
        taken: datetime | None = self.taken_at
        return CameraData(
            f_number=self.f_number, shutter_s=self.shutter_s, iso=self.iso, focal_mm=self.focal_mm,
            white_balance=self.white_balance, flash_fired=self.flash_fired, taken=taken,
        )  # fmt: skip


class FrameTie(models.Model):
    """That somebody tied frames to a set-up by hand; never changed."""

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="frame_ties")
    first = models.PositiveIntegerField(_("first frame"))
    last = models.PositiveIntegerField(_("last frame"))
    count = models.PositiveIntegerField(_("frames"))
    before = models.CharField(_("from"), max_length=200, blank=True)  # empty: in doubt
    after = models.CharField(_("to"), max_length=200)
    is_test = models.BooleanField(_("as test frame"), default=False)
    at = models.DateTimeField(_("at"), db_index=True)
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+", null=True)

    class Meta:
        ordering = ("sitting", "-at", "-pk")

    def __str__(self) -> str:
        return f"{self.first}-{self.last}: {self.after}"


class SmallPicture(models.Model):
    """A frame's picture, small and made anew, upright; with the two eyes that were marked on it, as shares of it."""

    frame = models.OneToOneField(Frame, on_delete=models.CASCADE, related_name="picture")
    jpeg = models.BinaryField()
    width = models.PositiveSmallIntegerField()
    height = models.PositiveSmallIntegerField()
    eyes = models.JSONField(_("eyes"), null=True, blank=True)  # [[x, y], [x, y]], left in the picture first

    def __str__(self) -> str:
        return f"picture of {self.frame}"


class Reference(models.Model):
    """The frame that a client's next ones are held against; a newer one takes its place."""

    client = models.OneToOneField(Client, on_delete=models.CASCADE, related_name="reference_frame")
    frame = models.ForeignKey(Frame, on_delete=models.CASCADE, related_name="+")
    chosen_at = models.DateTimeField(_("chosen at"))
    chosen_by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    def __str__(self) -> str:
        return f"reference of {self.client}"


class FrameCheck(models.Model):
    """One of the checks of a test frame as somebody answered it; the newest counts."""

    plan = models.ForeignKey(Plan, on_delete=models.PROTECT, related_name="frame_checks")
    setup_name = models.CharField(_("set-up"), max_length=200)
    code = models.CharField(_("check"), max_length=20)
    passed = models.BooleanField(_("good"))
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("plan", "setup_name", "-pk")

    def __str__(self) -> str:
        return f"{self.setup_name}, {self.code}"

    @staticmethod
    def newest(plan: Plan, setup_name: str) -> dict[str, Any]:
        """The answer that counts for each check that was answered."""
        rows = FrameCheck.objects.filter(plan=plan, setup_name=setup_name).select_related("by").order_by("pk")
        return {row.code: row for row in rows}
