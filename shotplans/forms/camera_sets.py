"""What the camera stands at, as a form: three lists with the plan's own values chosen."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from shotplans.light.exposure import exact_f_number, shutter_label

APERTURES = (1.4, 1.6, 1.8, 2, 2.2, 2.5, 2.8, 3.2, 3.5, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9, 10, 11, 13, 14, 16, 18, 20, 22)
PARTS = (1000, 800, 640, 500, 400, 320, 250, 200, 160, 125, 100, 80, 60, 50, 40, 30, 25, 20, 15, 13, 10, 8, 6, 5, 4)
ISOS = (50, 64, 80, 100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000, 6400)


class CameraSetForm(forms.Form):
    """Aperture, shutter and ISO as the camera shows them."""

    f_number = forms.TypedChoiceField(label=_("Aperture"), coerce=float)
    shutter_s = forms.TypedChoiceField(label=_("Shutter"), coerce=float)
    iso = forms.TypedChoiceField(label=_("ISO"), coerce=int)

    def __init__(self, *args: Any, camera: dict[str, Any], **kwargs: Any) -> None:
        planned = {
            "f_number": f"{_nearest(APERTURES, camera['aperture']):g}",
            "shutter_s": f"{camera['shutter_s']:.6g}", "iso": str(round(camera["iso"])),
        }  # fmt: skip
        kwargs["initial"] = planned | (kwargs.get("initial") or {})
        super().__init__(*args, **kwargs)
        given = kwargs["initial"]
        self.fields["f_number"].choices = [(f"{n:g}", f"f/{n:g}") for n in APERTURES]  # type: ignore[attr-defined]
        times = {f"{1 / n:.6g}" for n in PARTS} | {given["shutter_s"], planned["shutter_s"]}
        self.fields["shutter_s"].choices = [(t, shutter_label(float(t))) for t in sorted(times, key=float)]  # type: ignore[attr-defined]
        isos = sorted({*ISOS, int(given["iso"]), int(planned["iso"])})
        self.fields["iso"].choices = [(str(n), str(n)) for n in isos]  # type: ignore[attr-defined]


def _nearest(labels: tuple[float, ...], value: float) -> float:
    return min(labels, key=lambda n: abs(exact_f_number(float(n)) / value - 1))
