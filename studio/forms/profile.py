"""The studio's profile as a form. Belongs here: which facts are asked and how they are explained."""

from __future__ import annotations

import zoneinfo
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from studio import languages
from studio.forms.versioned import VersionedForm
from studio.models import Profile


class ProfileForm(VersionedForm):
    class Meta:
        model = Profile
        fields = (
            "studio_name", "address", "way_in", "telephone", "email", "tax_number",
            "language", "time_zone", "units", "paper", "currency", "ratio_convention", "keep_notes_days",
            "keep_small_pictures", "owners_second_step",
        )  # fmt: skip
        widgets = {name: forms.Textarea(attrs={"rows": 3}) for name in ("address", "way_in")}  # noqa: RUF012  (Django's own shape)
        help_texts = {  # noqa: RUF012  (Django's own shape)
            "studio_name": _("As it stands on sheets and in the head of every page."),
            "address": _("As it stands on letters and bills, line by line."),
            "way_in": _("For letters: the door, steps and lift, where to park."),
            "telephone": _("The number a client rings on the day."),
            "tax_number": _("On receipts, where the studio has one."),
            "language": _("Of paper, of letters, and of screens where a member chose no other."),
            "time_zone": _("All times on pages and sheets are in this zone."),
            "units": _("How lengths are written on sheets and plans, and typed."),
            "paper": _("The size every paper is printed for."),
            "keep_notes_days": _("Unless somebody said they may stay, or that they may not."),
            "keep_small_pictures": _(
                "For the test frame, the frames' list and the reference; it goes with the person. Files themselves are "
                "never kept. Without it no grey card and no eyes can be marked."
            ),
            "currency": _("Three letters: GBP, EUR."),
            "ratio_convention": _(
                "Light is planned in stops; a ratio is only a label beside them. Say which one yours is."
            ),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        languages.ask(self)
        names = sorted(name for name in zoneinfo.available_timezones() if "/" in name or name == "UTC")
        self.fields["time_zone"] = forms.ChoiceField(
            label=_("Time zone"),
            choices=[(name, name.replace("_", " ")) for name in dict.fromkeys([self.instance.time_zone, *names])],
            help_text=self.fields["time_zone"].help_text,
        )

    def clean_currency(self) -> str:
        code: str = self.cleaned_data["currency"].strip().upper()
        if len(code) != 3 or not code.isascii() or not code.isalpha():
            raise forms.ValidationError(_("Give the three letters of the currency, for example GBP."))
        return code
