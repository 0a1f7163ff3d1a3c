"""Next free times as a form. Belongs here: what is asked, and what an empty field means. Not here: finding them
(`bookings.fits`)."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django import forms
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from bookings.fits import Search
from bookings.forms.kind_choice import TIMES
from bookings.models import Kind, Sitting
from bookings.refusals import SamePerson
from studio.forms.days import DayField
from studio.forms.versioned import helper
from studio.models import Member, Role, Room, Weekday

MOST_DAYS, USUAL_DAYS = 366, 90
NOON, EVENING, MIDNIGHT, LAST = time(12), time(17), time(), time(23, 59)
PARTS = {
    "any": (_("any time"), MIDNIGHT, LAST),
    "morning": (_("in the morning, before 12:00"), MIDNIGHT, time(11, 59)),
    "afternoon": (_("in the afternoon, 12:00 to 17:00"), NOON, time(16, 59)),
    "evening": (_("in the evening, from 17:00"), EVENING, LAST),
}


class GapsForm(forms.ModelForm):  # type: ignore[type-arg]
    """`search` of what was cleaned is what to look for."""

    first = DayField(label=_("From"))
    last = DayField(label=_("To"))
    weekdays = forms.TypedMultipleChoiceField(
        label=_("On"),
        choices=Weekday.choices,
        coerce=int,
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text=_("None ticked: any day."),
    )
    part = forms.ChoiceField(label=_("It starts"), choices=[(name, words) for name, (words, *_t) in PARTS.items()])

    class Meta:
        model = Sitting
        fields = ("kind", *TIMES, "room", "photographer", "assistant")

    def __init__(self, data: Any = None, *, today: date, initial: dict[str, Any] | None = None) -> None:
        start = {"first": today, "last": today + timedelta(days=USUAL_DAYS), "part": "any"}
        super().__init__(data, initial=start | (initial or {}))
        fields = self.fields
        for name in self.Meta.fields:
            fields[name].required = False
            fields[name].initial = None
        fields["kind"].queryset = Kind.objects.filter(active=True)
        fields["kind"].empty_label = _("not decided")
        fields["room"].queryset, fields["room"].empty_label = Room.objects.filter(active=True), _("any")
        fields["photographer"].queryset = Member.objects.active().in_role(Role.PHOTOGRAPHER)
        fields["photographer"].empty_label = _("any")
        fields["assistant"].queryset = Member.objects.active().in_role(Role.ASSISTANT)
        fields["assistant"].empty_label = _("nobody")
        for name in TIMES:
            fields[name].help_text = _("Empty: as the kind has it.")
        self.helper = helper()
        self.helper.layout = Layout(
            Fieldset(_("What"), "kind", *TIMES, css_class="grid"),
            Fieldset(_("Where and with whom"), "room", "photographer", "assistant", css_class="grid"),
            Fieldset(_("When"), "first", "last", "part", "weekdays", css_class="grid"),
        )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        kind, first, last = cleaned.get("kind"), cleaned.get("first"), cleaned.get("last")
        for name in TIMES:
            if cleaned.get(name) is None and name not in self.errors:
                cleaned[name] = getattr(kind or Sitting(), name)
        if cleaned.get("minutes") is None and "minutes" not in self.errors:
            self.add_error("minutes", _("Say how long, or choose a kind of sitting."))
        if first and last and last < first:
            self.add_error("last", _("The last day comes before the first."))
        elif first and last and (last - first).days > MOST_DAYS:
            self.add_error("last", _("Look through a year at most."))
        if cleaned.get("assistant") and cleaned["assistant"] == cleaned.get("photographer"):
            self.add_error("assistant", str(SamePerson(cleaned["assistant"].name)))
        return cleaned

    def _post_clean(self) -> None:
        """Nothing here becomes a sitting."""

    def search(self, now: datetime) -> Search:
        cleaned = self.cleaned_data
        _words, earliest, latest = PARTS[cleaned["part"]]
        room, photographer = cleaned["room"], cleaned["photographer"]
        return Search(
            **{name: cleaned[name] for name in TIMES},
            rooms=[room] if room else list(self.fields["room"].queryset),
            photographers=[photographer] if photographer else list(self.fields["photographer"].queryset),
            assistant=cleaned["assistant"],
            first=cleaned["first"],
            last=cleaned["last"],
            weekdays=cleaned["weekdays"],
            earliest=earliest,
            latest=latest,
            zone=timezone.get_current_timezone(),
            now=now,
        )
