"""When the house is open and who works when. Belongs here: weeks of hours and days off, of the house and of one member.
Not here: asking whether a sitting fits into them (the app above)."""

from __future__ import annotations

from datetime import date, time
from typing import Self

from django.core.exceptions import ValidationError
from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models.kit import plain_label
from studio.models.staff import Member
from studio.models.versions import Versioned

# Until the owner says otherwise, Monday to Saturday; common practice, no source.
USUAL: dict[int, tuple[time, time]] = {weekday: (time(8), time(19)) for weekday in range(6)}


class Weekday(models.IntegerChoices):
    """Days of the week as Python counts them."""

    MONDAY = 0, _("Monday")
    TUESDAY = 1, _("Tuesday")
    WEDNESDAY = 2, _("Wednesday")
    THURSDAY = 3, _("Thursday")
    FRIDAY = 4, _("Friday")
    SATURDAY = 5, _("Saturday")
    SUNDAY = 6, _("Sunday")


class WeekQuerySet(models.QuerySet["Week"]):
    def with_days(self) -> Self:
        return self.prefetch_related("days")


class Week(Versioned):
    """The opening hours of the house, or where `member` is given the working hours of one of its people. Without a
    week of their own people work whenever the house is open, and the house is open as `USUAL` says."""

    member = models.OneToOneField(Member, on_delete=models.CASCADE, related_name="week", null=True, blank=True)

    objects = WeekQuerySet.as_manager()

    class Meta:
        constraints = (
            models.UniqueConstraint(
                models.Value(1), condition=models.Q(member__isnull=True), name="one_week_of_the_house"
            ),
        )

    def __str__(self) -> str:
        return str(self.member or _("the house"))

    @property
    def hours(self) -> dict[int, tuple[time, time]]:
        """From when to when, by weekday; days that are not there are free."""
        return {day.weekday: (day.from_time, day.to_time) for day in self.days.all()}


class WeekDay(models.Model):
    """One weekday of a week. A day that ends at 00:00 ends at midnight."""

    week = models.ForeignKey(Week, on_delete=models.CASCADE, related_name="days")
    weekday = models.PositiveSmallIntegerField(_("day"), choices=Weekday.choices)
    from_time = models.TimeField(_("from"))
    to_time = models.TimeField(_("to"))

    class Meta:
        ordering = ("weekday",)
        constraints = (models.UniqueConstraint(fields=("week", "weekday"), name="a_weekday_once_a_week"),)

    def __str__(self) -> str:
        return f"{self.get_weekday_display()}, {self.from_time:%H:%M} to {self.to_time:%H:%M}"


class DaysOffQuerySet(models.QuerySet["DaysOff"]):
    def touching(self, first: date, last: date) -> Self:
        """Days off of which any lies from `first` to `last`, both included."""
        return self.filter(first_day__lte=last, last_day__gte=first)


class DaysOff(Versioned):
    """Whole days on which the house is closed, or where `member` is given on which one of its people is away."""

    member = models.ForeignKey(
        Member, on_delete=models.CASCADE, related_name="days_off", null=True, blank=True, verbose_name=_("who")
    )
    first_day = models.DateField(_("first day"))
    last_day = models.DateField(_("last day"))
    words = models.CharField(_("shown as"), max_length=80, blank=True, validators=[plain_label])

    objects = DaysOffQuerySet.as_manager()

    class Meta:
        ordering = ("first_day", "pk")
        verbose_name = _("days off")
        indexes = (models.Index(fields=("last_day",), name="days_off_by_end"),)
        constraints = (
            models.CheckConstraint(
                condition=models.Q(last_day__gte=models.F("first_day")), name="days_off_end_after_start"
            ),
        )

    def __str__(self) -> str:
        return f"{self.member or _('the house')}, {self.first_day:%Y-%m-%d} to {self.last_day:%Y-%m-%d}"

    def clean(self) -> None:
        if self.first_day and self.last_day and self.last_day < self.first_day:
            raise ValidationError({"last_day": _("The last day comes before the first.")})


class HoursChange(models.Model):
    """Who changed the hours of the house or of somebody, or days off, when, from what to what; written once."""

    class What(models.TextChoices):
        WEEK = "week", _("hours")
        DAYS_OFF = "days_off", _("days off")

    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="hours_changed")
    what = models.CharField(max_length=8, choices=What.choices)
    member = models.ForeignKey(Member, on_delete=models.CASCADE, related_name="hours_changes", null=True, blank=True)
    before = models.CharField(max_length=400, blank=True)
    after = models.CharField(max_length=400, blank=True)

    class Meta:
        ordering = ("at", "pk")
        indexes = (models.Index(fields=("at",), name="hours_change_by_time"),)

    def __str__(self) -> str:
        return f"{self.what}: {self.before or '-'} to {self.after or '-'}"
