"""A set-up as shot, as a form: every value of the copy, with the plan's own beside it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shotplans.records import as_shot
from studio import lengths

LABELS = {
    "modifier": gettext_lazy("Modifier"), "distance_m": gettext_lazy("Distance, m"),
    "centre_height_m": gettext_lazy("Height of its middle, m"), "bearing_deg": gettext_lazy("Bearing, degrees"),
    "dial": gettext_lazy("Dial"), "lens": gettext_lazy("Lens"), "height_m": gettext_lazy("Height, m"),
    "aperture": gettext_lazy("Aperture"), "shutter_s": gettext_lazy("Shutter, s"), "iso": gettext_lazy("ISO"),
    "order": gettext_lazy("Order among the set-ups"),
}  # fmt: skip
IN_FEET = {
    "distance_m": gettext_lazy("Distance"), "centre_height_m": gettext_lazy("Height of its middle"),
    "height_m": gettext_lazy("Height"),
}  # fmt: skip
IMPERIAL = "imperial"
GAP = "__"


class BuiltForm(forms.Form):
    """What is typed over; a field left as it was changes nothing."""

    version = forms.IntegerField(widget=forms.HiddenInput)
    why = forms.CharField(label=gettext_lazy("Why it differs"), max_length=200, required=False)
    failed = forms.BooleanField(label=gettext_lazy("This set-up did not work"), required=False)
    why_failed = forms.CharField(label=gettext_lazy("Why it did not work"), max_length=300, required=False)

    def __init__(self, *args: Any, data_now: Mapping[str, Any], planned: Mapping[str, Any], kit: Mapping[str, Any],
                 units: str, **kwargs: Any) -> None:  # fmt: skip
        super().__init__(*args, **kwargs)
        self.units = units
        was = {(about, key): value for about, key, value in as_shot.paths(planned)}
        self.groups: dict[str, list[str]] = {}
        for about, key, value in as_shot.paths(data_now):
            name = f"{about}{GAP}{key}"
            self.fields[name] = _field(key, value, was.get((about, key)), kit, units)
            self.groups.setdefault(about, []).append(name)

    def grouped(self) -> list[tuple[str, list[forms.BoundField]]]:
        """The fields by what they are of, in the order of the sheet: lights, camera, the set-up."""
        heads = {"camera": _("Camera"), "set-up": _("Set-up")}
        ordered = sorted(self.groups.items(), key=lambda row: (row[0] == "set-up", row[0] == "camera"))
        return [(heads.get(about, _("Light %(letter)s") % {"letter": about}), [self[n] for n in names])
                for about, names in ordered]  # fmt: skip

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        self.typed: dict[tuple[str, str], Any] = {}
        for names in self.groups.values():
            for name in names:
                about, _gap, key = name.partition(GAP)
                text = str(found.get(name) or "")
                if not text.strip():
                    continue  # left empty: as it was
                try:
                    self.typed[about, key] = as_shot.read_value(key, self._metric(key, text))
                except lengths.NoLength:
                    self.add_error(name, _("Type a length, such as 6 ft 10 in."))
                except as_shot.Unusable as error:
                    self.add_error(name, self._refusal(key, error))
        return found

    def _metric(self, key: str, text: str) -> str:
        return f"{lengths.parse(text, self.units):.4f}" if key in IN_FEET and self.units == IMPERIAL else text

    def _refusal(self, key: str, error: as_shot.Unusable) -> str:
        if error.code == "number":
            return _("Type a number, such as 2.10.")
        span = dict(error.values)
        if key in IN_FEET and self.units == IMPERIAL:
            span = {end: lengths.shown(float(value), IMPERIAL) for end, value in span.items()}
        return _("Expected from %(low)s to %(high)s.") % span


def _field(key: str, value: Any, planned: Any, kit: Mapping[str, Any], units: str) -> forms.Field:
    said, now, label = as_shot.worded(key, planned), as_shot.shown(key, value), LABELS[key]
    if key in IN_FEET and units == IMPERIAL:
        said, now = ("" if one is None else lengths.shown(one, units) for one in (planned, value))
        label = IN_FEET[key]
    hint = _("planned %(value)s") % {"value": said} if said else ""
    own = {"label": label, "required": False, "help_text": hint, "initial": now}
    if key in ("modifier", "lens"):
        rows = [(r["id"], r.get("label") or r["id"]) for r in kit["modifiers" if key == "modifier" else "lenses"]]
        known = {code for code, _label in rows}
        more = [(v, v) for v in {value, planned} if v and v not in known]
        return forms.ChoiceField(choices=[*more, *rows], **own)
    mode = "text" if key in ("dial", "shutter_s") or label is not LABELS[key] else "decimal"
    return forms.CharField(max_length=40, widget=forms.TextInput({"inputmode": mode, "autocomplete": "off"}), **own)
