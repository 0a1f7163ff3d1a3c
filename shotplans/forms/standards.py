"""A company's standard, as a form: each value with a tick that locks it."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from shotplans.forms.briefs import printable
from shotplans.models import STANDARD_WORDS
from studio.models.quantities import LengthField, measure_in

LOCK = "lock_"
# By the planner's names: least, most.
LENGTHS = {
    "camera_m": _("Camera distance"), "camera_above_eyes_m": _("Camera above eyes"), "key_m": _("Key distance"),
}  # fmt: skip
VALUES: dict[str, tuple[float, float]] = {
    "lens_mm": (8, 1200), "camera_m": (0.3, 50), "camera_above_eyes_m": (-5, 5), "head_share": (0.01, 1),
    "key_m": (0.3, 50), "key_bearing_deg": (-180, 180), "key_height_deg": (-30, 85), "fill_below_key_stops": (-10, 20),
    "background_lightness": (0, 100), "kelvin": (1000, 20000),
}  # fmt: skip


class StandardForm(forms.Form):
    """The look; what is left empty is open."""

    version = forms.IntegerField(widget=forms.HiddenInput, initial=0)
    key_modifier = forms.ChoiceField(label=STANDARD_WORDS["key_modifier"], required=False)
    lock_key_modifier = forms.BooleanField(label=_("locked"), required=False)
    tolerance_stops = forms.FloatField(
        label=STANDARD_WORDS["tolerance_stops"], required=False, min_value=0.05, max_value=1
    )
    why = forms.CharField(
        label=_("Why it is changed"), max_length=200, required=False, validators=[printable],
        help_text=_("Asked for where a locked value is changed or opened; it stands in the history."),
    )  # fmt: skip

    def __init__(
        self, *args: Any, modifiers: Iterable[tuple[str, str]], units: str = "metric", **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.fields["key_modifier"].choices = [("", _("open")), *modifiers]  # type: ignore[attr-defined]
        for name, (least, most) in VALUES.items():
            kind = partial(LengthField, called=LENGTHS[name]) if name in LENGTHS else forms.FloatField
            label = STANDARD_WORDS[name]
            self.fields[name] = kind(label=label, required=False, min_value=least, max_value=most)
            self.fields[f"{LOCK}{name}"] = forms.BooleanField(label=_("locked"), required=False)
        measure_in(self, units)

    def rows(self) -> list[tuple[forms.BoundField, forms.BoundField | None]]:
        """Each value with its tick."""
        names = ["key_modifier", *VALUES]
        return [*((self[name], self[f"{LOCK}{name}"]) for name in names), (self["tolerance_stops"], None)]

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        for name in ("key_modifier", *VALUES):
            if found.get(f"{LOCK}{name}") and found.get(name) in (None, "") and name not in self.errors:
                self.add_error(name, _("Give the value that is locked."))
        return found

    def kept(self) -> tuple[dict[str, Any], list[str]]:
        """Values and which of them are locked."""
        names = ("key_modifier", *VALUES, "tolerance_stops")
        values = {n: self.cleaned_data[n] for n in names if self.cleaned_data[n] not in (None, "")}
        return values, [n for n in values if self.cleaned_data.get(f"{LOCK}{n}")]

    @staticmethod
    def initial_of(values: dict[str, Any], locked: Iterable[str], version: int) -> dict[str, Any]:
        shown = {k: int(v) if isinstance(v, float) and v.is_integer() else v for k, v in values.items()}
        return {**shown, **{f"{LOCK}{name}": True for name in locked}, "version": version}


class AgainForm(forms.Form):
    """Planning as last time: why a company's locked value is left, if it is."""

    reason = forms.CharField(
        label=_("Why the plan may leave a locked value"), max_length=120, required=False, validators=[printable],
        help_text=_("Leave it empty: where a locked value cannot be kept, the plan asks."),
    )  # fmt: skip
