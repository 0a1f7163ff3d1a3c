"""Day and time in a form, and refusals beside their fields. Belongs here: what booking a sitting and changing one ask
in the same way. Not here: what else each asks."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, time
from typing import Any

from django import forms
from django.forms.utils import from_current_timezone
from django.http import QueryDict
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from bookings.models import ResourceKind, Sitting
from bookings.objections import Objection
from bookings.refusals import NotInUse, Objected, Refusal, SamePerson, Taken


class MomentForm(forms.ModelForm):  # type: ignore[type-arg]
    """`starts_at` of what was cleaned is the day and time in the zone in force. Where that is refused, `offer` may hold
    a start that would do, `taken` says whom one can wait behind, and `objections` are what can be set aside."""

    day = forms.DateField(label=_("Day"), widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"))
    time = forms.TimeField(
        label=_("The sitting starts at"),
        widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M"),
        help_text=_("When the sitter is expected; the set-up lies before it."),
    )
    offer: datetime | None = None
    taken: Taken | None = None
    objections: Sequence[Objection] = ()

    class Meta:
        model = Sitting
        fields = ()

    def clean_day(self) -> Any:
        day = self.cleaned_data["day"]
        if not 2000 <= day.year <= 2100:
            raise forms.ValidationError(_("Give a day between 2000 and 2100."))
        return day

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("day") and cleaned.get("time") is not None:
            cleaned["starts_at"] = self._start(cleaned["day"], cleaned["time"])
        return cleaned

    def _start(self, day: Any, at: time) -> datetime | None:
        try:
            return from_current_timezone(datetime.combine(day, at.replace(second=0, microsecond=0)))
        except forms.ValidationError:
            self.add_error(
                "time", _("The clocks are changed in that hour: it is there twice or not at all. Choose another.")
            )
            return None

    def refuse(self, refusal: Refusal) -> None:
        """The sentence beside the field it is about; what can be set aside is left for the page to show with ticks."""
        if isinstance(refusal, Objected):
            self.objections = refusal.objections
        self.add_error(self._field_of(refusal), str(refusal))
        if isinstance(refusal, Taken):
            self.offer, self.taken = refusal.next_start, refusal

    @property
    def acknowledged(self) -> list[str]:
        """Codes of the objections that were ticked."""
        return self.data.getlist("acknowledged") if isinstance(self.data, QueryDict) else []

    def _field_of(self, refusal: Refusal) -> str | None:
        if isinstance(refusal, SamePerson):
            return "assistant"
        if not isinstance(refusal, Taken | NotInUse) or refusal.resource.kind == ResourceKind.KIT:
            return None
        if refusal.resource.kind == ResourceKind.ROOM:
            return "room"
        is_photographer = refusal.resource.id == self.cleaned_data["photographer"].pk
        return "photographer" if is_photographer else "assistant"


def leave_long_text_to_the_sentence(form: forms.BaseForm) -> None:
    """A browser would cut a long text without a word; the form says instead how long it may be."""
    for field in form.fields.values():
        field.widget.attrs.pop("maxlength", None)
        if type(field) is forms.CharField:
            field.widget.attrs["dir"] = "auto"


def moved(data: QueryDict) -> QueryDict:
    """The form as sent; where the start on offer was taken instead, with that day and time in it."""
    try:
        start = timezone.localtime(datetime.fromisoformat(data.get("start_instead", "")))
    except (ValueError, OverflowError):
        return data
    copy = data.copy()
    copy["day"], copy["time"] = start.date().isoformat(), start.strftime("%H:%M")
    return copy


def with_one_more(data: QueryDict, most: int) -> QueryDict:
    """The form as sent with one more row for a person: for those without a script."""
    copy = data.copy()
    total = copy.get("people-TOTAL_FORMS", "")
    if total.isascii() and total.isdecimal() and len(total) < 4:
        copy["people-TOTAL_FORMS"] = str(min(int(total) + 1, most))
    return copy
