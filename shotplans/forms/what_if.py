"""One value of a plan to be another, as a form."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shotplans.planner.whatif import Change
from shotplans.sheets import measures
from shotplans.sheets.measures import Measures
from studio import lengths

Entry = dict[str, Any]
Choices = list[tuple[str, str]]
LONGEST = 80


class WhatIfForm(forms.Form):
    """Which value of which thing in which set-up, and what it would be; the values come from the plan's document."""

    what = forms.ChoiceField(label=gettext_lazy("What"))
    value = forms.CharField(
        label=gettext_lazy("Would be"),
        max_length=LONGEST,
        help_text=gettext_lazy("A number, or for a modifier, a head or an aim the code or name as the plan has it."),
    )

    def __init__(self, *args: Any, document: Entry, units: str = "metric", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._setups, self._units = [s for s in document["setups"] if s["lights"]], units
        groups = [group for number, entry in enumerate(self._setups) for group in _groups(number, entry, units)]
        self.fields["what"].choices = groups  # type: ignore[attr-defined]
        self.fields["value"].widget.attrs["autocomplete"] = "off"
        if units == "imperial":
            self.fields["value"].help_text = _(
                "A number, a length such as 4 ft 6 in or 54 in, or for a modifier, a head or an aim the code or name "
                "as the plan has it."
            )

    @property
    def can_ask(self) -> bool:
        """Whether anything stands that could be changed."""
        return bool(self._setups)

    @property
    def asked(self) -> tuple[str, Change]:
        """The set-up's name and the change, of a valid form."""
        number, thing, name, key = self.cleaned_data["what"].split("|")
        return self._setups[int(number)]["name"], Change(thing, name, key, self._metres or self.cleaned_data["value"])

    def in_units(self, sentence: str) -> str:
        return measures.of(self._units).said(sentence)

    def clean(self) -> dict[str, Any]:
        """Feet and inches into the planner's metres, where the house measures in them."""
        data = super().clean() or self.cleaned_data
        self._metres = ""
        if self._units == "imperial" and str(data.get("what", "")).endswith("_m") and "value" in data:
            try:
                self._metres = f"{lengths.parse(data['value'], self._units):g}"
            except lengths.NoLength:
                said = _("%(given)s is no length: write 4 ft 6 in or 54 in.") % {"given": data["value"]}
                self.add_error("value", said)
        return data


def _groups(number: int, entry: Entry, units: str) -> Iterator[tuple[str, Choices]]:
    """The values of each thing of one set-up, each with what it is now."""
    setup, ways = entry["name"], measures.of(units)
    for light in entry["lights"]:
        label = _("%(setup)s: light %(letter)s, %(role)s") % {
            "setup": setup, "letter": light["letter"], "role": light["role"],
        }  # fmt: skip
        yield label, _options(f"{number}|light|{light['letter']}", light["letter"], _of_light(light, ways))
    camera = _options(f"{number}|camera|", _("Camera"), _of_camera(entry["camera"], ways))
    yield _("%(setup)s: camera") % {"setup": setup}, camera
    behind = _("feet and inches behind the mark") if ways.is_imperial else _("metres behind the mark")
    ground = [("distance_m", behind, _now(entry["background"]["distance_m"], ways))]
    yield _("%(setup)s: ground") % {"setup": setup}, _options(f"{number}|background|", _("Ground"), ground)
    for sitter in entry["sitters"]:
        label = f"{setup}: {sitter['label']}"
        yield label, _options(f"{number}|sitter|{sitter['label']}", sitter["label"], _of_sitter(sitter, ways))


def _options(at: str, thing: str, rows: list[tuple[str, str, str]]) -> Choices:
    """Options that say what they are of by themselves: a closed list shows no group."""
    said = [(key, f"{thing}: {what}", now) for key, what, now in rows]
    return [
        (f"{at}|{key}", _("%(what)s (now %(now)s)") % {"what": what, "now": now} if now else what)
        for key, what, now in said
    ]


def _now(metres: float, ways: Measures) -> str:
    return ways.near(metres) if ways.is_imperial else f"{metres:.2f}"


def _unit(ways: Measures) -> str:
    return _("ft and in") if ways.is_imperial else _("m")


def _of_light(light: Entry, ways: Measures) -> list[tuple[str, str, str]]:
    rows = [
        ("distance_m", _("distance, %(unit)s") % {"unit": _unit(ways)}, _now(light["distance_m"], ways)),
        ("bearing_deg", _("bearing, degrees, + to camera right"), f"{light['bearing_deg']:.0f}"),
        ("height_angle_deg", _("height angle, degrees"), f"{light['height_angle_deg']:.0f}"),
        ("aim", _("aimed at whom"), ""),
    ]
    if light["head"] is None:
        return rows
    return [
        *rows,
        ("power_below_full_stops", _("power, stops below full"), f"{light['power_below_full_stops']:.1f}"),
        ("modifier", _("modifier, by its code"), light["modifier"]),
        ("head", _("head, by its code"), light["head"]),
    ]


def _of_camera(camera: Entry, ways: Measures) -> list[tuple[str, str, str]]:
    return [
        ("distance_m", _("distance, %(unit)s") % {"unit": _unit(ways)}, _now(camera["distance_m"], ways)),
        ("height_m", _("height, %(unit)s") % {"unit": _unit(ways)}, _now(camera["height_m"], ways)),
        ("aperture", _("aperture"), camera["shown"]),
        ("iso", _("ISO"), f"{camera['iso']:.0f}"),
        ("shutter_s", _("shutter, s"), f"{camera['shutter_s']:.3g}"),
    ]


def _of_sitter(sitter: Entry, ways: Measures) -> list[tuple[str, str, str]]:
    x, _y, z = sitter["face_m"]
    return [
        ("right_m", _("place, %(unit)s to camera right of the mark") % {"unit": _unit(ways)}, _now(x, ways)),
        ("toward_camera_m", _("place, %(unit)s toward the camera") % {"unit": _unit(ways)}, _now(z, ways)),
        ("nose_bearing_deg", _("nose, degrees, + to camera right"), f"{sitter['nose_bearing_deg']:.0f}"),
        ("chin_deg", _("chin, degrees, + up"), f"{sitter['chin_deg']:.0f}"),
    ]
