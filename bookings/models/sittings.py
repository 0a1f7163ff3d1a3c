"""Sittings. Belongs here: the appointment, its times, its stage, and the fee and terms agreed for it. Not here: what it
holds (`claims`), who sits (`sitters`), how it moves on (`bookings.stages`), what was paid (`money`)."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import Self

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings import prices, slots
from bookings.folding import words_line
from bookings.models.clients import Client
from bookings.models.found_by import FoundBy
from bookings.models.items import place_field
from bookings.models.kinds import DELIVERY_DAYS, Kind
from bookings.models.terms import money
from studio import days
from studio.models import Member, Room
from studio.models.quantities import whole_number
from studio.models.versions import Versioned


class Stage(models.TextChoices):
    """How far a sitting has come."""

    ENQUIRY = "enquiry", _("enquiry")
    HELD = "held", _("held")
    CONFIRMED = "confirmed", _("confirmed")
    ARRIVED = "arrived", _("arrived")
    PHOTOGRAPHED = "photographed", _("photographed")
    CHOSEN = "chosen", _("chosen")
    DELIVERED = "delivered", _("delivered")
    CLOSED = "closed", _("closed")
    CANCELLED = "cancelled", _("cancelled")
    NO_SHOW = "no_show", _("no-show")


OFF = (Stage.CANCELLED, Stage.NO_SHOW)  # nobody is expected any more
FIRM = (Stage.CONFIRMED, Stage.ARRIVED)  # agreed, and to be photographed yet


class SittingQuerySet(models.QuerySet["Sitting"]):
    def taking_place(self) -> Self:
        """Those that have their time: not called off, nor let go by a hold that lapsed, nor waiting behind another."""
        return self.exclude(stage__in=(*OFF, Stage.ENQUIRY)).exclude(hold__behind__isnull=False)

    def between(self, earliest: datetime, latest: datetime) -> Self:
        """Sittings that start from `earliest` up to, not including, `latest`."""
        return self.filter(starts_at__gte=earliest, starts_at__lt=latest)

    def left_standing(self, today: date) -> Self:
        """Of days before this one, and nobody has said what became of them."""
        return self.filter(stage__in=FIRM, starts_at__lt=days.midnight(today))

    def with_people(self) -> Self:
        """Everything a line about a sitting says, in one query."""
        return self.select_related(
            "client", "kind", "room", "photographer", "assistant", "hold__behind__client", "trust__by", "rota",
            "reshoot__first",
        )


class Sitting(Versioned):
    """One portrait appointment; `starts_at` is when the sitter's time begins, after the set-up."""

    number = models.CharField(_("sitting number"), max_length=12, unique=True, editable=False)
    client = models.ForeignKey(Client, on_delete=models.PROTECT, related_name="sittings", verbose_name=_("client"))
    kind = models.ForeignKey(Kind, on_delete=models.PROTECT, related_name="sittings", verbose_name=_("kind of sitting"))
    room = models.ForeignKey(Room, on_delete=models.PROTECT, related_name="sittings", verbose_name=_("room"))
    photographer = models.ForeignKey(
        Member, on_delete=models.PROTECT, related_name="sittings_photographed", verbose_name=_("photographer")
    )
    assistant = models.ForeignKey(
        Member,
        on_delete=models.PROTECT,
        related_name="sittings_assisted",
        null=True,
        blank=True,
        verbose_name=_("assistant"),
    )
    starts_at = models.DateTimeField(_("starts"))
    minutes = whole_number(_("length, minutes"), low=5, high=1440)
    setup_minutes = whole_number(_("set-up before it, minutes"), low=0, high=600, default=30)
    strike_minutes = whole_number(_("strike after it, minutes"), low=0, high=600, default=15)
    purpose = models.CharField(_("what the pictures are for"), max_length=400, blank=True)
    hangs = models.CharField(_("where it will hang"), max_length=200, blank=True)
    print_width_cm = models.FloatField(
        _("width of the print, cm"), null=True, blank=True, validators=[MinValueValidator(1), MaxValueValidator(1000)]
    )
    occasion_on = models.DateField(_("day of the occasion"), null=True, blank=True, db_index=True)
    stage = models.CharField(_("stage"), max_length=12, choices=Stage.choices, default=Stage.HELD)
    # As agreed when it was booked: later prices and terms of the house leave them as they are.
    fee = money(_("fee"), null=True, blank=True, editable=False)
    currency = models.CharField(max_length=3, blank=True, editable=False)
    terms = models.JSONField(default=dict, editable=False)
    promised = models.JSONField(default=dict, editable=False)  # by the names of `kinds.PROMISED`
    destination = place_field()  # where what is sold goes, in the code of the rules of tax
    delivery_days = models.PositiveSmallIntegerField(default=DELIVERY_DAYS, editable=False)
    found_by = FoundBy()

    objects = SittingQuerySet.as_manager()

    class Meta:
        ordering = ("starts_at", "pk")
        indexes = (
            models.Index(fields=("starts_at",), name="sitting_by_time"),
            models.Index(fields=("stage", "starts_at"), name="sitting_by_stage"),
            models.Index(fields=("kind", "starts_at"), name="sitting_by_kind"),
        )

    def __str__(self) -> str:
        return f"{self.number}, {self.client.short_name}"

    def searched(self) -> str:
        return words_line(f"{self.purpose} {self.hangs}")

    @property
    def spans(self) -> slots.SittingSpans:
        return slots.sitting_spans(
            self.starts_at,
            minutes=self.minutes,
            setup_minutes=self.setup_minutes,
            strike_minutes=self.strike_minutes,
        )

    @property
    def ends_at(self) -> datetime:
        return self.spans.sitting.ends_at

    @property
    def setup_starts_at(self) -> datetime:
        return self.spans.whole.starts_at

    @property
    def strike_ends_at(self) -> datetime:
        return self.spans.whole.ends_at

    @property
    def agreed(self) -> prices.Terms | None:
        """The terms of this booking; None where none were agreed."""
        return prices.thawed(self.terms)

    @property
    def deposit(self) -> Decimal:
        """What is asked before it is firm."""
        return prices.deposit(self.agreed, self.fee, self.currency)
