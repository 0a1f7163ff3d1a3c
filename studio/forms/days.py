"""Days and times in a form. Belongs here: how each is picked on every page, and which years are a slip of the finger.
Not here: a day that an address names (`studio.days`)."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from studio.days import FIRST_YEAR, LAST_YEAR


class DayInput(forms.DateInput):
    """The browser's own calendar."""

    input_type = "date"

    def __init__(self, attrs: dict[str, Any] | None = None) -> None:
        super().__init__(attrs, format="%Y-%m-%d")  # the one shape a browser takes


class TimeOfDayInput(forms.TimeInput):
    """The browser's own clock."""

    input_type = "time"

    def __init__(self, attrs: dict[str, Any] | None = None) -> None:
        super().__init__(attrs, format="%H:%M")


class DayField(forms.DateField):
    """A day of the studio's work."""

    widget = DayInput
    first_year = FIRST_YEAR

    def validate(self, value: date | None) -> None:
        super().validate(value)
        if value is not None and not self.first_year <= value.year <= LAST_YEAR:
            years = {"first": self.first_year, "last": LAST_YEAR}
            raise forms.ValidationError(_("Give a day between %(first)d and %(last)d."), params=years)
