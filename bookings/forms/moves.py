"""A move of a sitting in the diary as a form. Belongs here: where it is dropped and what was agreed about it. Not here:
the sitting's other facts (`changes`)."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.actions.moves import Place
from bookings.forms.moments import MomentForm, offer_places
from bookings.forms.steps import VERSION, MoneyField, note_field
from bookings.models import Sitting

NO_PHOTOGRAPHER = _("That person is no photographer: drop it on somebody who is.")
NO_ASSISTANT = _("That person is no assistant: drop it on somebody who is.")


class _Codes(forms.MultipleChoiceField):
    """Codes of objections set aside; one that no longer stands is no fault."""

    def valid_value(self, value: str) -> bool:
        return len(value) < 80


class MoveForm(MomentForm):
    """`place` of what was cleaned is where the sitting is to go."""

    seen = forms.IntegerField(**VERSION)
    agreed_fee = MoneyField(label=_("Fee agreed for moving"), required=False, help_text=_("Another fee needs a note."))
    note = note_field()
    acknowledged = _Codes(required=False)

    class Meta:
        model = Sitting
        fields = ("room", "photographer", "assistant")

    def __init__(self, sitting: Sitting, data: Any) -> None:
        super().__init__(data)
        offer_places(self, sitting)
        self.fields["photographer"].error_messages["invalid_choice"] = NO_PHOTOGRAPHER
        self.fields["assistant"].error_messages["invalid_choice"] = NO_ASSISTANT

    @property
    def place(self) -> Place:
        cleaned = self.cleaned_data
        return Place(cleaned["starts_at"], cleaned["room"], cleaned["photographer"], cleaned["assistant"])
