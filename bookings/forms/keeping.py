"""Erasing a client, and the filter of the log, as forms."""

from __future__ import annotations

from django import forms
from django.utils.translation import gettext_lazy as _

from studio.models import Member
from studio.models.kit import plain_label


class EraseForm(forms.Form):
    asked_by = forms.CharField(
        label=_("Who asked for it, and how"), max_length=200, required=False, validators=[plain_label],
        help_text=_("Say it without their name: by letter of 3 May, at the desk."),
    )  # fmt: skip
    typed = forms.CharField(
        label=_("Type the words above"), max_length=40, required=False,
        widget=forms.TextInput({"autocomplete": "off"}),
    )  # fmt: skip


class ReadingsForm(forms.Form):
    number = forms.CharField(label=_("Sitting number"), max_length=12, required=False)
    member = forms.ModelChoiceField(
        label=_("Who"), queryset=Member.objects.all(), required=False, empty_label=_("everybody")
    )
    refused = forms.BooleanField(label=_("refused alone"), required=False)
