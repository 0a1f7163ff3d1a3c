"""A move of a sitting in the diary as a form. Belongs here: where it is dropped and what was agreed about it. Not here:
the sitting's other facts (`changes`)."""

from __future__ import annotations

from typing import Any

from django import forms
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from bookings.actions.moves import Place
from bookings.forms.moments import MomentForm
from bookings.forms.steps import VERSION, MoneyField, note_field
from bookings.models import Sitting
from studio.models import Member, Role, Room

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
        self.fields["room"].queryset = Room.objects.filter(Q(active=True) | Q(pk=sitting.room_id))
        for name, role, words in (
            ("photographer", Role.PHOTOGRAPHER, NO_PHOTOGRAPHER),
            ("assistant", Role.ASSISTANT, NO_ASSISTANT),
        ):
            can = Q(active=True, role_rows__role=role) | Q(pk=getattr(sitting, f"{name}_id"))
            self.fields[name].queryset = Member.objects.filter(can).distinct()
            self.fields[name].error_messages["invalid_choice"] = words

    @property
    def place(self) -> Place:
        cleaned = self.cleaned_data
        return Place(cleaned["starts_at"], cleaned["room"], cleaned["photographer"], cleaned["assistant"])
