"""Rotas. Belongs here: the places of people who are photographed one after the other, what became of each, and every
tap on the board. Not here: their order (`bookings.rota`), what is known of them (`comfort`).

Times are minutes after the start of the sitting, so that a rota moves along with it.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Self

from django.db import models
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from bookings import rota
from bookings.models.sitters import Sitter
from bookings.models.sittings import Sitting
from studio.models import Member
from studio.models.quantities import whole_number
from studio.models.versions import Versioned


class State(models.TextChoices):
    """What became of a place."""

    WAITING = "waiting", _("to come")
    ON_SET = "on_set", _("on set")
    DONE = "done", _("done")
    ABSENT = "absent", _("absent")
    RETAKE = "retake", _("retake")


TO_COME = (State.WAITING, State.RETAKE)


class Rota(Versioned):
    """How the people of one sitting take turns; its version rises with every tap on the board too."""

    sitting = models.OneToOneField(Sitting, on_delete=models.CASCADE, related_name="rota")
    place_minutes = whole_number(_("minutes a place"), low=2, high=120, default=10)
    real_minutes = whole_number(
        _("minutes one really takes"), low=1, high=120, default=9, help_text=_("What it took last time.")
    )
    gap_after = whole_number(
        _("a gap after at most so many people"), low=2, high=30, default=rota.CATCH_UP_AFTER
    )
    gap_minutes = whole_number(
        _("minutes of a gap to catch up"), low=0, high=60, default=rota.CATCH_UP_MINUTES, help_text=_("0: no gaps.")
    )
    lunch_at = models.TimeField(_("lunch at"), null=True, blank=True, help_text=_("Empty: no lunch."))
    lunch_minutes = whole_number(_("minutes of lunch"), low=5, high=180, default=45)
    wear = models.CharField(_("what to wear, for their letters"), max_length=400, blank=True)
    # Lunch as it came out, None where nobody comes after it.
    lunch_after = models.PositiveSmallIntegerField(null=True, editable=False)
    keeps_list_order = models.BooleanField(_("in the order of the list"), default=False)

    def __str__(self) -> str:
        return f"rota of {self.sitting.number}"

    @property
    def lunch_starts_at(self) -> datetime | None:
        return None if self.lunch_after is None else self.sitting.starts_at + timedelta(minutes=self.lunch_after)

    def last_tap(self) -> PlaceChange | None:
        """The newest tap that stands; of what it changed, the one that was tapped."""
        standing = PlaceChange.objects.filter(place__rota=self, undone_at=None)
        return standing.select_related("place__sitter", "by").order_by("-at", "-pk").first()


class PlaceQuerySet(models.QuerySet["Place"]):
    def in_turn(self) -> Self:
        """As they are taken, with everything a line of the board says."""
        return self.select_related("sitter").order_by("queue", "number")


class Place(Versioned):
    """One person's place: `number` as it was given, `queue` as it is taken, with the real times."""

    class Part(models.TextChoices):
        FIRST = rota.FIRST, _("goes first")
        REFERENCE = rota.REFERENCE, _("reference")
        LEADER = rota.LEADER, _("leader")
        LAST = rota.LAST, _("last")

    rota = models.ForeignKey(Rota, on_delete=models.CASCADE, related_name="places")
    sitter = models.OneToOneField(Sitter, on_delete=models.CASCADE, related_name="place")
    number = models.PositiveSmallIntegerField()
    queue = models.IntegerField()
    after = models.PositiveSmallIntegerField()
    part = models.CharField(max_length=9, choices=Part.choices, blank=True)
    wished = models.PositiveSmallIntegerField(null=True, blank=True)
    email = models.EmailField(_("e-mail"), blank=True)
    walk_in = models.BooleanField(default=False)
    state = models.CharField(max_length=7, choices=State.choices, default=State.WAITING)
    on_set_at = models.DateTimeField(null=True, blank=True)
    done_at = models.DateTimeField(null=True, blank=True)

    objects = PlaceQuerySet.as_manager()

    class Meta:
        ordering = ("queue", "number")
        constraints = (models.UniqueConstraint(fields=("rota", "number"), name="place_number_once_in_a_rota"),)

    def __str__(self) -> str:
        return f"{self.number} {self.sitter.label}"

    @property
    def starts_at(self) -> datetime:
        """The time this person was given."""
        return self.rota.sitting.starts_at + timedelta(minutes=self.after)

    @property
    def real_minutes(self) -> float | None:
        if self.on_set_at is None or self.done_at is None:
            return None
        return (self.done_at - self.on_set_at) / timedelta(minutes=1)


class PlaceChange(models.Model):
    """One thing a tap did to one place; a tap may do two. `before` is what undoing it brings back."""

    place = models.ForeignKey(Place, on_delete=models.CASCADE, related_name="changes")
    tap = models.UUIDField()
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="place_changes")
    what = models.CharField(max_length=7)  # a state, or "next"
    before = models.JSONField(default=dict)
    undone_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("at", "pk")
        indexes = (models.Index(fields=("tap",), name="place_change_by_tap"),)

    def __str__(self) -> str:
        return f"{self.place_id}: {self.what}"

    @property
    def words(self) -> str:
        return str(State(self.what).label) if self.what in State.values else gettext("next")
