"""A time that is waited for, as a form. Belongs here: what is asked, and what an empty field means."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.models import Kind, WantedTime
from studio.forms.days import DayField, TimeOfDayInput
from studio.forms.versioned import VersionedForm
from studio.models import Member, Role, Room, Weekday


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
        field_classes = {"first_on": DayField, "last_on": DayField}  # noqa: RUF012  (Django's own shape)
        widgets = {  # noqa: RUF012  (Django's own shape)
            "earliest": TimeOfDayInput,
            "latest": TimeOfDayInput,
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
