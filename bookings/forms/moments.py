"""Day and time in a form, and refusals beside their fields. Belongs here: what booking a sitting and changing one ask
in the same way, and which of two times is meant wherever a moment is asked. Not here: what else each asks."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime, time
from typing import Any

from django import forms
from django.db.models import Q
from django.http import QueryDict
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from bookings.models import ResourceKind, Sitting
from bookings.objections import Objection
from bookings.refusals import NotInUse, Objected, Refusal, SamePerson, Taken
from studio.forms.days import DayField, TimeOfDayInput
from studio.models import Member, Role, Room

WHICH = "which"


class WhichOfTwo(forms.BaseForm):
    """A day and a time that are asked, as the moment in the zone in force. Where the clocks are put back over them,
    which of the two is asked and not guessed."""

    twice = False  # the clocks are put back over that time: `which` of the two is asked
    time_name = "time"

    @property
    def stays(self) -> datetime | None:
        """The moment that is kept so far."""
        raise NotImplementedError

    @property
    def time_said(self) -> Any:
        return self[self.time_name].value()

    @property
    def which(self) -> str:
        """Which of two times that read alike was said: "0" the first, "1" the second, else empty."""
        if not self.is_bound:
            return str(timezone.localtime(self.stays).fold) if self.stays else ""
        said = self.data.get(WHICH, "")
        return said if said in ("0", "1") else ""

    def moment(self, day: date, at: time) -> datetime | None:
        """What is meant; None with the fault beside the time."""
        first, second = _both(datetime.combine(day, at.replace(second=0, microsecond=0)))
        before, after = first.utcoffset(), second.utcoffset()
        self.twice = before > after  # type: ignore[operator]  # both are known in a zone
        if before == after:
            return first
        if before < after:  # type: ignore[operator]  # both are known in a zone
            self.add_error(
                self.time_name, _("The clocks are changed in that hour: it is not there that day. Choose another.")
            )
            return None
        if not self.which and self.stays in (first.astimezone(UTC), second.astimezone(UTC)):
            return self.stays
        if not self.which:
            self.add_error(
                self.time_name, _("The clocks are put back in that hour: say below which of the two is meant.")
            )
            return None
        return second if self.which == "1" else first


class MomentForm(WhichOfTwo, forms.ModelForm):  # type: ignore[type-arg]
    """`starts_at` of what was cleaned is the day and time in the zone in force. Where that is refused, `offer` may hold
    a start that would do, `taken` says whom one can wait behind, and `objections` are what can be set aside."""

    day = DayField(label=_("Day"))
    time = forms.TimeField(
        label=_("The sitting starts at"),
        widget=TimeOfDayInput,
        help_text=_("When the sitter is expected; the set-up lies before it."),
    )
    offer: datetime | None = None
    taken: Taken | None = None
    objections: Sequence[Objection] = ()

    class Meta:
        model = Sitting
        fields = ()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("day") and cleaned.get("time") is not None:
            cleaned["starts_at"] = self.moment(cleaned["day"], cleaned["time"])
        return cleaned

    @property
    def stays(self) -> datetime | None:
        return self.instance.starts_at if self.instance.pk else None

    def refuse(self, refusal: Refusal) -> None:
        """The sentence beside the field it is about; what can be set aside stands with its ticks, and not as a fault
        besides."""
        if isinstance(refusal, Objected):
            self.objections = refusal.objections
            return
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


def _both(wall: datetime) -> tuple[datetime, datetime]:
    """The moments that a clock on the wall may mean in the zone in force: nearly always one."""
    zone = timezone.get_current_timezone()
    return wall.replace(tzinfo=zone, fold=0), wall.replace(tzinfo=zone, fold=1)


def is_twice(moment: datetime) -> bool:
    """Whether the clocks are put back over the time that this moment is called by."""
    first, second = _both(timezone.localtime(moment).replace(tzinfo=None))
    return first.utcoffset() > second.utcoffset()  # type: ignore[operator]  # both are known in a zone


def offer_places(form: forms.BaseForm, sitting: Sitting) -> None:
    """The rooms and people in use, and those the sitting has already, whatever became of them since."""
    form.fields["room"].queryset = Room.objects.filter(Q(active=True) | Q(pk=sitting.room_id))  # type: ignore[attr-defined]
    for name, role in (("photographer", Role.PHOTOGRAPHER), ("assistant", Role.ASSISTANT)):
        can = Q(active=True, role_rows__role=role) | Q(pk=getattr(sitting, f"{name}_id"))
        form.fields[name].queryset = Member.objects.filter(can).distinct()  # type: ignore[attr-defined]


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
    copy[WHICH] = str(start.fold)
    return copy


def with_one_more(data: QueryDict, most: int) -> QueryDict:
    """The form as sent with one more row for a person: for those without a script."""
    copy = data.copy()
    total = copy.get("people-TOTAL_FORMS", "")
    if total.isascii() and total.isdecimal() and len(total) < 4:
        copy["people-TOTAL_FORMS"] = str(min(int(total) + 1, most))
    return copy
