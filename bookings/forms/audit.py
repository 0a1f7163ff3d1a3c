"""What the audit trail is asked by. Belongs here: from which day to which, of which sitting, by whom, about what."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.audit import Kind
from bookings.models import Sitting
from bookings.takings import span
from studio import clock
from studio.days import FIRST_YEAR, LAST_YEAR
from studio.forms.days import DayField
from studio.models import Member, Profile

DAYS = 7
MOST_DAYS = 366
EARLIEST, LATEST = date(FIRST_YEAR, 1, 1), date(LAST_YEAR, 12, 31)
WORDS = {
    Kind.STAGE: _("stage"),
    Kind.TIME: _("time and place"),
    Kind.PEOPLE: _("people and pictures"),
    Kind.MONEY: _("money"),
    Kind.PERMISSION: _("permission"),
    Kind.PLAN: _("plan"),
    Kind.RULES: _("rules, standards, corrections"),
    Kind.LETTERS: _("letters"),
    Kind.NOTES: _("notes refused or purged"),
    Kind.KIT: _("kit"),
}


def _day(label: Any) -> DayField:
    return DayField(label=label, required=False, error_messages={"invalid": _("Give a day, as 2026-12-03.")})


class AuditForm(forms.Form):
    """Days left empty are the last seven, or with a sitting all of its days."""

    first = _day(_("From"))
    last = _day(_("to"))
    sitting = forms.CharField(label=_("Sitting number"), max_length=20, required=False)
    member = forms.ModelChoiceField(
        label=_("Member"), queryset=Member.objects.all(), required=False, empty_label=_("everybody"),
        error_messages={"invalid_choice": _("Nobody of that name works here: choose one of the list.")},
    )  # fmt: skip
    what = forms.ChoiceField(
        label=_("What"), required=False, choices=[("", _("everything")), *((str(k), w) for k, w in WORDS.items())],
        error_messages={"invalid_choice": _("Choose one of the list.")},
    )  # fmt: skip

    def clean_sitting(self) -> Sitting | None:
        number = str(self.cleaned_data["sitting"]).strip().upper()
        if not number:
            return None
        found = Sitting.objects.filter(number=number).first()
        if found is None:
            raise forms.ValidationError(_("No sitting has this number."))
        return found

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if not self.errors:
            first, last = self.days
            if last < first:
                self.add_error("last", _("The last day is before the first."))
            elif cleaned["sitting"] is None and (last - first).days >= MOST_DAYS:
                self.add_error("last", _("A year at most at once: choose fewer days, or name a sitting."))
        return cleaned

    @property
    def days(self) -> tuple[date, date]:
        """Both counted."""
        said = self.cleaned_data
        if said["sitting"] is not None:
            return said["first"] or EARLIEST, said["last"] or LATEST
        last = said["last"] or max(clock.today(), said["first"] or EARLIEST)
        return said["first"] or last - timedelta(days=DAYS - 1), last

    def question(self, profile: Profile) -> dict[str, Any]:
        """What `audit.merged` is asked, in the studio's own days."""
        said = self.cleaned_data
        start, end = span(*self.days, profile)
        asked = {"start": start, "end": end, "sitting": said["sitting"], "kind": said["what"]}
        return asked | {"member": said["member"].pk if said["member"] else None}
