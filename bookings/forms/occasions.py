"""The day of an occasion in a form. Belongs here: which years it may lie in, and what a sitting's page sends of it."""

from __future__ import annotations

from django import forms

from bookings.forms.steps import VERSION
from studio.forms.days import DayField


class OccasionField(DayField):
    """A wedding day, a birthday: long ago, it may be."""

    first_year = 1900


class OccasionForm(forms.Form):
    occasion_on = OccasionField(required=False)
    seen = forms.IntegerField(**VERSION)
