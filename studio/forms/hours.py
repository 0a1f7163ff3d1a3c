"""Opening hours, working hours and days off as forms. Belongs here: how they are asked. Not here: what a sitting makes
of them (the app above)."""

from __future__ import annotations

from datetime import time
from typing import Any

from crispy_forms.layout import Div, Layout
from django import forms
from django.db import transaction
from django.utils.translation import gettext_lazy as _

from studio.actions import hours as actions
from studio.forms.days import DayField, TimeOfDayInput
from studio.forms.versioned import VersionedForm
from studio.models import DaysOff, HoursChange, Member, Week, WeekDay, Weekday
from studio.models.hours import USUAL

MIDNIGHT = time()


def _clock(label: Any) -> forms.TimeField:
    return forms.TimeField(label=label, required=False, widget=TimeOfDayInput)


class WeekForm(VersionedForm):
    """A week by its seven days, saved under the week's version. A day with neither time is free."""

    class Meta:
        model = Week
        fields = ()

    def __init__(self, week: Week, house: Week | None, data: Any = None, *, by: Member | None = None) -> None:
        super().__init__(data, instance=week)
        self.by, self.before = by, week.hours if week.pk else {}
        hours = week.hours if week.pk else house.hours if house else USUAL
        rows = []
        for weekday in Weekday:
            names = (f"from_{weekday}", f"to_{weekday}")
            for name, words, at in zip(names, (_("from"), _("to")), hours.get(weekday, (None, None)), strict=True):
                self.fields[name] = _clock(_("%(day)s, %(end)s") % {"day": weekday.label, "end": words})
                self.fields[name].initial = at
            rows.append(Div(*names, css_class="row-of-fields hours-of-day"))
        self.helper.layout = Layout("version", *rows)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        for weekday in Weekday:
            names = (f"from_{weekday}", f"to_{weekday}")
            start, end = (cleaned.get(name) for name in names)
            if any(name in self.errors for name in names):
                continue
            if (start is None) != (end is None):
                missing = names[start is not None]
                self.add_error(missing, _("Give both times, or neither on a day that is free."))
            elif start is not None and end != MIDNIGHT and end <= start:
                self.add_error(names[1], _("This is not after the beginning. Midnight is 00:00."))
        return cleaned

    def write(self) -> None:
        super().write()
        after = self._typed()
        self.instance.days.all().delete()
        WeekDay.objects.bulk_create(
            WeekDay(week=self.instance, weekday=weekday, from_time=start, to_time=end)
            for weekday, (start, end) in after.items()
        )
        if self.by is not None:
            actions.noted(
                by=self.by, what=HoursChange.What.WEEK, member=self.instance.member,
                before=actions.of_week(self.before) if self.before else str(_("as before anybody said")),
                after=actions.of_week(after),
            )  # fmt: skip

    def _typed(self) -> dict[int, tuple[time, time]]:
        """The hours as a `Week` has them."""
        return {
            int(weekday): (start, self.cleaned_data[f"to_{weekday}"])
            for weekday in Weekday
            if (start := self.cleaned_data[f"from_{weekday}"]) is not None
        }

    def kept_values(self, row: Any) -> dict[str, Any]:
        return {
            name: at
            for weekday in Weekday
            for name, at in zip(
                (f"from_{weekday}", f"to_{weekday}"), row.hours.get(weekday, (None, None)), strict=True
            )
        }


class DaysOffForm(VersionedForm):
    class Meta:
        model = DaysOff
        fields = ("member", "first_day", "last_day", "words")
        field_classes = {"first_day": DayField, "last_day": DayField}  # noqa: RUF012  (Django's own shape)
        help_texts = {  # noqa: RUF012
            "words": _("Read by everybody in the diary: \"summer closing\", \"away\". No word about health."),
        }

    def __init__(self, *args: Any, by: Member | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.by, self.before = by, actions.of_days_off(self.instance) if self.instance.pk else ""
        self.fields["member"].queryset = Member.objects.active()
        self.fields["member"].empty_label = _("the whole house is closed")
        self.fields["words"].required = False

    def write(self) -> None:
        super().write()
        self._note(actions.of_days_off(self.instance))

    def _note(self, after: str) -> None:
        if self.by is not None:
            what, whose = HoursChange.What.DAYS_OFF, self.instance.member
            actions.noted(by=self.by, what=what, member=whose, before=self.before, after=after)

    @transaction.atomic
    def remove(self) -> bool:
        """Take the row out if it is still as it was opened; false when somebody else was faster."""
        seen = self.data.get("version", "")
        kept = DaysOff.objects.select_for_update().filter(pk=self.instance.pk).first()
        if kept is not None and str(kept.version) == seen:
            kept.delete()
            self._note("")
            return True
        self.full_clean()
        return False
