"""Kit that makes or shapes light. Belongs here: heads, modifiers, rings, panels, flags and triggers with the
numbers a plan asks for, under the brief's own names. Not here: what they do to the light."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models.kit import KitItem, plain_label
from studio.models.quantities import Quantity, angle, length, power, share, stops

OPEN: dict[str, Any] = {"null": True, "blank": True}  # may be left empty: not known
MOUNT = _("The mount it is made for, in the same words on head, modifier and ring.")


def _demand(row: models.Model, *names: str) -> None:
    missing = [name for name in names if getattr(row, name) is None]
    if missing:
        raise ValidationError({name: _("A plan cannot do without this number.") for name in missing})


class Head(KitItem):
    """A flash or a steady head."""

    SECTION = KitItem.Section.HEADS
    PLANNED = DEMANDED = ("mass_kg",)

    class Light(models.TextChoices):
        FLASH = "flash", _("flash")
        STEADY = "steady", _("steady")

    class RatedWith(models.TextChoices):
        BARE = "bare", _("bare")
        STANDARD_REFLECTOR = "standard_reflector", _("in its standard reflector")

    class DialScale(models.TextChoices):
        FRACTION = "fraction", _("fractions of full: 1/4 -0.3")
        TEN = "ten", _("numbers up to 10")
        WATT_SECONDS = "watt_seconds", _("watt-seconds")
        STOPS = "stops", _("stops below full")

    class DurationKind(models.TextChoices):
        HALF = "t0.5", "t0.5"
        TENTH = "t0.1", "t0.1"

    light = models.CharField(_("light"), max_length=6, choices=Light.choices, default=Light.FLASH)
    energy_ws = Quantity(_("energy"), unit=_("Ws"), low=0.1, high=100_000, **OPEN)
    range_stops = stops(_("power can be turned down by"))
    f_number_1m_iso100 = Quantity(
        _("f-number at 1 m, full power, ISO 100"),
        unit=_("f/"),
        low=0.1,
        high=1000,
        help_text=_("Needed for a flash. Metered, not from a leaflet, where you can."),
        **OPEN,
    )
    lux_1m = Quantity(
        _("light at 1 m, full power"),
        unit=_("lux"),
        low=0.1,
        high=10_000_000,
        help_text=_("Needed for a steady head."),
        **OPEN,
    )
    rated_with = models.CharField(_("that number was taken"), max_length=20, choices=RatedWith.choices, blank=True)
    dial_scale = models.CharField(_("its dial counts in"), max_length=12, choices=DialScale.choices, blank=True)
    dial_step = Quantity(_("smallest step of the dial"), unit=_("on its scale"), low=0.001, high=10_000, **OPEN)
    mount = models.CharField(_("mount"), max_length=120, validators=[plain_label], help_text=MOUNT)
    watts = power(_("power drawn"), **OPEN)
    peak_amps = Quantity(_("peak current"), unit=_("A"), high=10_000, **OPEN)
    kelvin = Quantity(_("colour"), unit=_("K"), low=1000, high=40_000, **OPEN)
    duration_s = Quantity(_("flash duration"), unit=_("s"), low=0.000001, high=10, **OPEN)
    duration_kind = models.CharField(_("duration measured as"), max_length=4, choices=DurationKind.choices, blank=True)
    recycle_s = Quantity(_("recycling"), unit=_("s"), high=600, **OPEN)
    modelling_watts = power(_("modelling lamp"), **OPEN)
    flicker_free = models.BooleanField(_("free of flicker"), **OPEN)
    battery_ws = Quantity(
        _("battery, energy of one charge"),
        unit=_("Ws"),
        high=100_000_000,
        help_text=_("Only where it lives on a battery. 1 Wh is 3600 Ws."),
        **OPEN,
    )
    battery_full_power_shots = Quantity(
        _("battery, flashes of one charge at full power"),
        unit=_("flashes"),
        high=1_000_000,
        help_text=_("The maker's own count, where there is one; it is taken before the energy."),
        **OPEN,
    )

    def clean(self) -> None:
        super().clean()
        _demand(self, "mass_kg", "f_number_1m_iso100" if self.light == self.Light.FLASH else "lux_1m")


class Modifier(KitItem):
    """What shapes a head's light. The depth of the whole thing and its lip are in metres, like its front."""

    SECTION = KitItem.Section.MODIFIERS
    PLANNED = DEMANDED = ("mass_kg",)

    class Kind(models.TextChoices):
        OCTABOX = "octabox", _("octabox")
        BOX = "box", _("box")
        STRIP = "strip", _("strip")
        UMBRELLA_THROUGH = "umbrella_through", _("umbrella, shot through or with a front cloth")
        UMBRELLA_BACK = "umbrella_back", _("umbrella, turned away")
        DISH = "dish", _("dish")
        REFLECTOR = "reflector", _("reflector")
        LANTERN = "lantern", _("lantern")
        SNOOT = "snoot", _("snoot")

    class Shape(models.TextChoices):
        DISC = "disc", _("round")
        RECT = "rect", _("four corners")

    kind = models.CharField(_("kind"), max_length=16, choices=Kind.choices)
    shape = models.CharField(_("front"), max_length=4, choices=Shape.choices)
    diameter_m = length(_("diameter"), help_text=_("Needed for a round front."), **OPEN)
    width_m = length(_("width"), help_text=_("Needed for a front with four corners."), **OPEN)
    height_m = length(_("height"), help_text=_("Needed for a front with four corners."), **OPEN)
    loss_stops = stops(
        _("loss"),
        low=-10,
        help_text=_("On the axis, 1 m from the front, against the head's own number. Below 0: it gains."),
    )
    mount = models.CharField(_("mount"), max_length=120, validators=[plain_label], help_text=MOUNT)
    beam_deg = angle(_("beam, full width at half its strength"), **OPEN)
    core_stops = stops(_("middle brighter than the edge by"), high=10, **OPEN)
    lip_m = length(_("lip in front of the cloth"), low=0, **OPEN)
    depth_m = length(_("depth from mount to front"), low=0, **OPEN)
    inner_cloth = models.BooleanField(_("inner cloth"), **OPEN)
    outer_cloth = models.BooleanField(_("outer cloth"), **OPEN)
    grid_deg = angle(_("grid, full angle at which it cuts off"), help_text=_("Empty: no grid."), **OPEN)
    min_distance_m = length(_("nearest to cloth or people"), low=0, **OPEN)
    max_modelling_watts = power(_("bears a modelling lamp up to"), **OPEN)

    def clean(self) -> None:
        super().clean()
        _demand(self, "mass_kg", *(("diameter_m",) if self.shape == self.Shape.DISC else ("width_m", "height_m")))


class Adapter(KitItem):
    """A ring that lets a modifier of mount `to_mount` sit on a head of mount `from_mount`."""

    SECTION = KitItem.Section.ADAPTERS

    from_mount = models.CharField(_("head's mount"), max_length=120, validators=[plain_label], help_text=MOUNT)
    to_mount = models.CharField(_("modifier's mount"), max_length=120, validators=[plain_label], help_text=MOUNT)


class Panel(KitItem):
    """A board, white on one side and black on the other."""

    SECTION = KitItem.Section.PANELS

    width_m = length(_("width"))
    height_m = length(_("height"))
    white_reflectance = share(_("white side reflects"), **OPEN)
    black_reflectance = share(_("black side reflects"), **OPEN)


class Flag(KitItem):
    """A small black screen."""

    SECTION = KitItem.Section.FLAGS

    width_m = length(_("width"), **OPEN)
    height_m = length(_("height"), **OPEN)


class Trigger(KitItem):
    """What fires the flash from the camera."""

    SECTION = KitItem.Section.TRIGGERS
