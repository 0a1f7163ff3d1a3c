"""Retiring a correction, as a form."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

GAP = "|"  # between the codes of a pair in one choice; codes of the kit have none


class RetireForm(forms.Form):
    """Which pair, or which head with all that is on it, and why."""

    what = forms.ChoiceField(label=_("Which"))
    why = forms.CharField(label=_("Why"), max_length=200, help_text=_("a new lamp, a new cloth, a wrong meter"))

    def __init__(self, *args: Any, pairs: Iterable[tuple[str, str]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        known = sorted(pairs)
        choices = [(f"{head}{GAP}{modifier}", f"{head}, {modifier}") for head, modifier in known]
        choices += [
            (f"{head}{GAP}", _("%(head)s, all modifiers") % {"head": head}) for head in sorted({h for h, _m in known})
        ]
        self.fields["what"].choices = choices  # type: ignore[attr-defined]

    @property
    def pair(self) -> tuple[str, str]:
        """The codes chosen; no modifier for all of a head."""
        head, _gap, modifier = self.cleaned_data["what"].partition(GAP)
        return head, modifier
