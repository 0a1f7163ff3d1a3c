"""What a sitting waits for and why it is late, as forms. Belongs here: what each asks. Not here: doing it
(`bookings.actions.clocks`)."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bookings import clocks
from bookings.afterwards import Afterwards
from bookings.forms.steps import VERSION, note_field
from bookings.models import LateReason, Wait
from studio.models.kit import plain_label

WHOM = {clocks.CLIENT: _("the client"), clocks.STUDIO: _("the studio")}


def _choices() -> list[tuple[Any, list[tuple[str, Any]]]]:
    """By whose move it is."""
    return [
        (words, [(what.value, what.label) for what in Wait.What if clocks.WHOSE[what] == whose])
        for whose, words in WHOM.items()
    ]


class WaitForm(forms.Form):
    what = forms.ChoiceField(label=_("From now on it waits for"), choices=_choices)
    wait_note = note_field(help_text=_("A question of theirs, the lab, a name to ask for. Nothing about health."))
    seen = forms.IntegerField(widget=forms.HiddenInput, **VERSION)

    def __init__(self, after: Afterwards, data: Any = None) -> None:
        other = Wait.What.ANSWER if after.whose == clocks.STUDIO else Wait.What.EDIT
        super().__init__(data, initial={"what": other, "seen": after.sitting.version})


class LateForm(forms.Form):
    code = forms.ChoiceField(label=_("It is late because of"), choices=LateReason.Code.choices)
    why = forms.CharField(label=_("In words"), max_length=400, validators=[plain_label])
