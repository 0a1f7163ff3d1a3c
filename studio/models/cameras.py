"""Cameras and lenses. Belongs here: bodies and lenses with the numbers a plan asks for, under the brief's own
names. Not here: what a camera was set to."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from studio.models.kit import KitItem
from studio.models.quantities import Quantity, length

OPEN: dict[str, Any] = {"null": True, "blank": True}  # may be left empty: not known


def _ordered(row: KitItem, low: str, high: str, says: Any) -> None:
    lower, higher = getattr(row, low), getattr(row, high)
    if lower is not None and higher is not None and lower > higher:
        raise ValidationError({low: says})


class CameraBody(KitItem):
    """A camera body."""

    SECTION = KitItem.Section.CAMERAS

    sensor_width_mm = Quantity(_("sensor, wide"), unit=_("mm"), low=0.5, high=10_000)
    sensor_height_mm = Quantity(_("sensor, high"), unit=_("mm"), low=0.5, high=10_000)
    base_iso = Quantity(_("base sensitivity"), unit=_("ISO"), low=1, high=10_000_000, default=100)
    max_iso = Quantity(_("highest you would use"), unit=_("ISO"), low=1, high=10_000_000)
    sync_s = Quantity(
        _("shortest time with flash"),
        unit=_("s"),
        low=0.00001,
        high=3600,
        help_text=_("With your trigger: 1/200 is 0.005."),
    )

    def clean(self) -> None:
        super().clean()
        _ordered(self, "base_iso", "max_iso", _("The base sensitivity lies above the highest."))


class Lens(KitItem):
    """A lens; `max_aperture` is the widest, the smaller f-number."""

    SECTION = KitItem.Section.LENSES

    min_focal_mm = Quantity(
        _("shortest focal length"), unit=_("mm"), low=0.5, high=10_000, help_text=_("A fixed lens: the same twice.")
    )
    max_focal_mm = Quantity(_("longest focal length"), unit=_("mm"), low=0.5, high=10_000)
    max_aperture = Quantity(
        _("widest aperture"), unit=_("f/"), low=0.5, high=128, help_text=_("The small f-number: f/1.8 is 1.8.")
    )
    min_aperture = Quantity(_("narrowest aperture"), unit=_("f/"), low=0.5, high=128, **OPEN)
    min_focus_m = length(_("nearest focus"), low=0, **OPEN)

    def clean(self) -> None:
        super().clean()
        _ordered(self, "min_focal_mm", "max_focal_mm", _("The shortest focal length lies above the longest."))
        _ordered(self, "max_aperture", "min_aperture", _("The widest f-number lies above the narrowest."))
