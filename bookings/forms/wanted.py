"""A time that is waited for, as a form. Belongs here: what is asked, and what an empty field means."""

from __future__ import annotations

from datetime import date
from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.models import Kind, WantedTime
from studio.forms.versioned import VersionedForm
from studio.models import Member, Role, Room, Weekday

DAY = {"type": "date"}
TIME = {"type": "time"}


class WantedTimeForm(VersionedForm):
    weekdays = forms.TypedMultipleChoiceField(
        label=_("On"),
        choices=Weekday.choices,
        coerce=int,
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text=_("None ticked: any day."),
    )

    class Meta:
        model = WantedTime
        fields = (
            "kind", "minutes", "room", "photographer", "first_on", "last_on", "earliest", "latest", "weekdays", "note",
        )  # fmt: skip
        widgets = {  # noqa: RUF012  (Django's own shape)
            "first_on": forms.DateInput(DAY, format="%Y-%m-%d"),
            "last_on": forms.DateInput(DAY, format="%Y-%m-%d"),
            "earliest": forms.TimeInput(TIME, format="%H:%M"),
            "latest": forms.TimeInput(TIME, format="%H:%M"),
            "note": forms.TextInput({"dir": "auto"}),
        }

    def __init__(self, data: Any = None, *, instance: WantedTime) -> None:
        super().__init__(data, instance=instance)
        fields = self.fields
        fields["kind"].queryset, fields["kind"].empty_label = Kind.objects.filter(active=True), _("any")
        fields["room"].queryset, fields["room"].empty_label = Room.objects.filter(active=True), _("any")
        fields["photographer"].queryset = Member.objects.active().in_role(Role.PHOTOGRAPHER)
        fields["photographer"].empty_label = _("any")
        fields["minutes"].required = False
        fields["minutes"].help_text = _("Empty: as the kind has it.")
        fields["note"].widget.attrs.pop("maxlength", None)  # the form says how long, and nothing is cut
        self.helper.layout = Layout(
            "version",
            Fieldset(_("What"), "kind", "minutes", css_class="grid"),
            Fieldset(_("Where and with whom"), "room", "photographer", css_class="grid"),
            Fieldset(_("When"), "first_on", "last_on", "earliest", "latest", "weekdays", css_class="grid"),
            "note",
        )

    def clean_first_on(self) -> date | None:
        return self._within("first_on")

    def clean_last_on(self) -> date | None:
        return self._within("last_on")

    def _within(self, name: str) -> date | None:
        day: date | None = self.cleaned_data[name]
        if day is not None and not 2000 <= day.year <= 2100:
            raise forms.ValidationError(_("Give a day between 2000 and 2100."))
        return day

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        kind, first, last = cleaned.get("kind"), cleaned.get("first_on"), cleaned.get("last_on")
        if cleaned.get("minutes") is None and "minutes" not in self.errors:
            cleaned["minutes"] = kind.minutes if kind else None
            if kind is None:
                self.add_error("minutes", _("Say how long, or choose a kind of sitting."))
        if first and last and last < first:
            self.add_error("last_on", _("The last day comes before the first."))
        earliest, latest = cleaned.get("earliest"), cleaned.get("latest")
        if earliest and latest and latest < earliest:
            self.add_error("latest", _("The latest start comes before the earliest."))
        return cleaned
