"""A laboratory's file for a head with a modifier, as a form."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from shotplans.records.lm63 import MOST_BYTES
from studio.forms.versioned import helper
from studio.models import Head, Modifier

_CHOOSE = {"invalid_choice": _("Choose one of the list."), "required": _("Choose one of the list.")}


class PieceField(forms.ModelChoiceField):
    """A piece of one section; a number that no database holds is no piece either."""

    def to_python(self, value: Any) -> Any:
        try:
            return super().to_python(value)
        except OverflowError:
            raise forms.ValidationError(self.error_messages["invalid_choice"], code="invalid_choice") from None


class BeamForm(forms.Form):
    head = PieceField(label=_("Head"), queryset=Head.objects.none(), error_messages=_CHOOSE)
    modifier = PieceField(label=_("Modifier"), queryset=Modifier.objects.none(), error_messages=_CHOOSE)
    file = forms.FileField(
        label=_("Photometric file (LM-63)"), widget=forms.FileInput({"accept": ".ies"}),
        error_messages={"required": _("Choose a file."), "empty": _("This file is empty.")},
    )  # fmt: skip

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["head"].queryset = Head.objects.order_by("code")  # type: ignore[attr-defined]
        self.fields["modifier"].queryset = Modifier.objects.order_by("code")  # type: ignore[attr-defined]
        for field in (self.fields["head"], self.fields["modifier"]):
            if not field.queryset.exists():  # type: ignore[attr-defined]
                field.help_text = _("None in the kit yet: enter the kit first.")
        self.helper = helper()

    def clean_file(self) -> Any:
        file = self.cleaned_data["file"]
        self.content: bytes = file.read(MOST_BYTES + 1)
        return file
