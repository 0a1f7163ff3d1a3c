"""One value of a plan to be another, as a form."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shotplans.planner.whatif import Change

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

    def __init__(self, *args: Any, document: Entry, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._setups = [s for s in document["setups"] if s["lights"]]
        groups = [group for number, entry in enumerate(self._setups) for group in _groups(number, entry)]
        self.fields["what"].choices = groups  # type: ignore[attr-defined]
        self.fields["value"].widget.attrs["autocomplete"] = "off"

    @property
    def can_ask(self) -> bool:
        """Whether anything stands that could be changed."""
        return bool(self._setups)

    @property
    def asked(self) -> tuple[str, Change]:
        """The set-up's name and the change, of a valid form."""
        number, thing, name, key = self.cleaned_data["what"].split("|")
        return self._setups[int(number)]["name"], Change(thing, name, key, self.cleaned_data["value"])


def _groups(number: int, entry: Entry) -> Iterator[tuple[str, Choices]]:
    """The values of each thing of one set-up, each with what it is now."""
    setup = entry["name"]
    for light in entry["lights"]:
        label = _("%(setup)s: light %(letter)s, %(role)s") % {
            "setup": setup, "letter": light["letter"], "role": light["role"],
        }  # fmt: skip
        yield label, _options(f"{number}|light|{light['letter']}", light["letter"], _of_light(light))
    camera = _options(f"{number}|camera|", _("Camera"), _of_camera(entry["camera"]))
    yield _("%(setup)s: camera") % {"setup": setup}, camera
    ground = [("distance_m", _("metres behind the mark"), f"{entry['background']['distance_m']:.2f}")]
    yield _("%(setup)s: ground") % {"setup": setup}, _options(f"{number}|background|", _("Ground"), ground)
    for sitter in entry["sitters"]:
        label = f"{setup}: {sitter['label']}"
        yield label, _options(f"{number}|sitter|{sitter['label']}", sitter["label"], _of_sitter(sitter))


def _options(at: str, thing: str, rows: list[tuple[str, str, str]]) -> Choices:
    """Options that say what they are of by themselves: a closed list shows no group."""
    said = [(key, f"{thing}: {what}", now) for key, what, now in rows]
    return [
        (f"{at}|{key}", _("%(what)s (now %(now)s)") % {"what": what, "now": now} if now else what)
        for key, what, now in said
    ]


def _of_light(light: Entry) -> list[tuple[str, str, str]]:
    rows = [
        ("distance_m", _("distance, m"), f"{light['distance_m']:.2f}"),
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


def _of_camera(camera: Entry) -> list[tuple[str, str, str]]:
    return [
        ("distance_m", _("distance, m"), f"{camera['distance_m']:.2f}"),
        ("height_m", _("height, m"), f"{camera['height_m']:.2f}"),
        ("aperture", _("aperture"), camera["shown"]),
        ("iso", _("ISO"), f"{camera['iso']:.0f}"),
        ("shutter_s", _("shutter, s"), f"{camera['shutter_s']:.3g}"),
    ]


def _of_sitter(sitter: Entry) -> list[tuple[str, str, str]]:
    x, _y, z = sitter["face_m"]
    return [
        ("right_m", _("place, m to camera right of the mark"), f"{x:.2f}"),
        ("toward_camera_m", _("place, m toward the camera"), f"{z:.2f}"),
        ("nose_bearing_deg", _("nose, degrees, + to camera right"), f"{sitter['nose_bearing_deg']:.0f}"),
        ("chin_deg", _("chin, degrees, + up"), f"{sitter['chin_deg']:.0f}"),
    ]
