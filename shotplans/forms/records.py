"""What was changed on set, as a form."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

WHAT = (
    ("distance", _("distance")), ("bearing", _("bearing")), ("height", _("height")), ("power", _("power")),
    ("modifier", _("modifier")), ("aperture", _("aperture")), ("shutter", _("shutter")), ("ISO", _("ISO")),
    ("ground", _("ground")), ("other", _("something else")),
)  # fmt: skip


class ChangeForm(forms.Form):
    """One difference: which light (or camera, or ground), what, what was done, why."""

    setup_name = forms.ChoiceField(label=_("Set-up"))
    about = forms.ChoiceField(label=_("Light"))
    what = forms.ChoiceField(label=_("What"), choices=WHAT)
    actual = forms.CharField(label=_("What was done"), max_length=80)
    why = forms.CharField(label=_("Why"), max_length=200, required=False)

    def __init__(self, *args: Any, setups: list[dict[str, Any]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        letters = sorted({x["letter"] for s in setups for x in s["lights"]})
        names = [(s["name"], s["name"]) for s in setups]
        self.fields["setup_name"].choices = names  # type: ignore[attr-defined]
        choices = [(x, x) for x in letters] + [("camera", _("camera")), ("ground", _("ground"))]
        self.fields["about"].choices = choices  # type: ignore[attr-defined]
