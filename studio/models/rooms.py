"""Rooms. Belongs here: the box a set stands in, its surfaces, windows and circuits. Not here: where in it a set
stands."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models.quantities import Quantity, length
from studio.models.versions import Versioned


class Surface(models.TextChoices):
    """A surface by the trade's word; what it reflects is the planner's to know."""

    WHITE = "white", _("white")
    LIGHT_GREY = "light grey", _("light grey")
    GREY = "grey", _("grey")
    DARK = "dark", _("dark")
    BLACK = "black", _("black")


class Room(Versioned):
    """A room of the studio. Its two sides are `width_m` and `depth_m`, in whichever order the owner walks it."""

    class SetAxis(models.TextChoices):
        WIDTH = "width", _("along the width")
        DEPTH = "depth", _("along the depth")
        EITHER = "either", _("either way")

    name = models.CharField(
        _("name"), max_length=80, unique=True, error_messages={"unique": _("Another room has that name.")}
    )
    width_m = length(_("width"))
    depth_m = length(_("depth"))
    ceiling_m = length(_("height of the ceiling"))
    keep_out_m = length(
        _("kept free along the walls"), low=0, default=0.4, help_text=_("Doors, radiators, a way past.")
    )
    set_axis = models.CharField(_("camera looks"), max_length=6, choices=SetAxis.choices, default=SetAxis.EITHER)
    surface_walls = models.CharField(_("walls"), max_length=10, choices=Surface.choices, default=Surface.LIGHT_GREY)
    surface_ceiling = models.CharField(_("ceiling"), max_length=10, choices=Surface.choices, default=Surface.WHITE)
    surface_floor = models.CharField(_("floor"), max_length=10, choices=Surface.choices, default=Surface.GREY)
    ambient_lux = Quantity(
        _("daylight and lamps left on"),
        unit=_("lux"),
        high=200_000,
        null=True,
        blank=True,
        help_text=_("At the place of the sitter, as dark as you work. Empty: not measured."),
    )
    black_out = models.BooleanField(_("can be made dark"), default=False)
    away = models.BooleanField(_("away from the studio"), default=False)
    address = models.TextField(_("address"), max_length=400, blank=True)
    way_in = models.TextField(
        _("way in and parking"), max_length=400, blank=True, help_text=_("Door, stairs, lift, where to unload.")
    )
    power_note = models.TextField(
        _("power there"), max_length=400, blank=True, help_text=_("Where the sockets and the breakers are, and whose.")
    )
    emergency = models.TextField(
        _("in an emergency"), max_length=400, blank=True,
        help_text=_("Exits, extinguisher, first-aid kit, nearest hospital, whom to call."),
    )  # fmt: skip
    active = models.BooleanField(_("in use"), default=True)

    class Meta:
        ordering = ("name",)

    def __str__(self) -> str:
        return self.name


class Window(models.Model):
    """An opening to daylight; a size nobody measured is left to the planner's stated assumption."""

    room = models.ForeignKey(Room, on_delete=models.CASCADE, related_name="windows")
    wall = models.CharField(_("wall"), max_length=40, help_text=_("As you call it: street side."))
    width_m = length(_("width"), null=True, blank=True)
    height_m = length(_("height"), null=True, blank=True)
    sill_m = length(_("sill above the floor"), low=0, null=True, blank=True)

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        return self.wall


class Circuit(models.Model):
    """One circuit of a room with its breaker."""

    room = models.ForeignKey(Room, on_delete=models.CASCADE, related_name="circuits")
    label = models.CharField(_("name"), max_length=40, help_text=_("As written at the socket: circuit 1."))
    volts = Quantity(_("voltage"), unit=_("V"), low=1, high=1000)
    breaker_amps = Quantity(_("breaker"), unit=_("A"), low=0.1, high=10_000)

    class Meta:
        ordering = ("label", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=("room", "label"),
                name="circuit_label_once_in_a_room",
                violation_error_message=_("This room has a circuit of that name already."),
            ),
        )

    def __str__(self) -> str:
        return self.label
