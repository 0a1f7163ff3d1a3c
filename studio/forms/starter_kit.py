"""The starter list as a form: how many of each. Belongs here: one number a line, by the kit's sections."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from django import forms
from django.utils.translation import gettext as _

from studio import starter_kit
from studio.models import KitItem


class StarterKitForm(forms.Form):
    """`counts` are what was ticked. In an empty house what most studios own stands in its field already."""

    def __init__(self, *args: Any, usual: bool, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        most = starter_kit.MOST_OF_ONE
        wrong = _("Give a whole number from 0 to %(most)d.") % {"most": most}
        for line in starter_kit.lines():
            self.fields[line.field] = forms.IntegerField(
                label=line.label, required=False, min_value=0, max_value=most, initial=line.usual if usual else 0,
                widget=forms.NumberInput(attrs={"inputmode": "numeric"}),
                error_messages=dict.fromkeys(("invalid", "min_value", "max_value"), wrong),
            )  # fmt: skip

    def sections(self) -> list[tuple[str, list[forms.BoundField]]]:
        """Each section's word with its lines."""
        found = groupby(starter_kit.lines(), key=lambda line: line.section)
        return [(str(KitItem.Section(name).label), [self[line.field] for line in rows]) for name, rows in found]

    def clean(self) -> dict[str, Any]:
        cleaned: dict[str, Any] = super().clean() or self.cleaned_data
        if not self.errors and not any(self.counts.values()):
            raise forms.ValidationError(_("Say how many you own of something."))
        return cleaned

    @property
    def counts(self) -> dict[str, int]:
        return {line.stem: self.cleaned_data.get(line.field) or 0 for line in starter_kit.lines()}
