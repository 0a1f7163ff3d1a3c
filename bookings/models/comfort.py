"""Comfort notes: what is known of a sitter's looks, health and wishes. Belongs here: the sensitive tables. They have
no history, no draft and no line in any log; who may read them is `bookings.access`."""

from __future__ import annotations

from typing import Any

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.sitters import Sitter
from studio.models.quantities import Quantity
from studio.models.versions import Versioned

OPEN: dict[str, Any] = {"null": True, "blank": True}  # empty: not known


def word(label: Any, choices: dict[str, Any], **kwargs: Any) -> models.CharField[Any, Any]:
    """One of the brief's words; empty where nobody asked."""
    return models.CharField(label, max_length=14, choices=list(choices.items()), blank=True, **kwargs)


def asked(label: Any, **kwargs: Any) -> models.BooleanField[Any, Any]:
    """Yes, no, or nobody asked."""
    return models.BooleanField(label, **OPEN, **kwargs)


SIDES = {"own_left": _("own left"), "own_right": _("own right")}


class Notes(Versioned):
    """What is known of one sitter that moves light, camera, pose, kit or time. Values are the brief's."""

    sitter = models.OneToOneField(Sitter, on_delete=models.CASCADE, related_name="notes")
    skin = word(
        _("skin"),
        {
            "very light": _("very light"),
            "light": _("light"),
            "intermediate": _("intermediate"),
            "tan": _("tan"),
            "brown": _("brown"),
            "dark": _("dark"),
            "not noted": _("asked, not to be noted"),
        },
    )
    surface = word(_("skin shines"), {"matte": _("little"), "usual": _("as usual"), "shiny": _("much")})
    texture = word(
        _("lines"),
        {"smooth": _("smooth"), "fine lines": _("fine lines"), "lines": _("lines"), "deep lines": _("deep lines")},
    )
    eyes = word(_("eyes"), {"usual": _("as usual"), "deep set": _("deep set")})
    glasses_lens = word(
        _("glasses"),
        {
            "flat": _("flat lenses"),
            "usual": _("usual lenses"),
            "strong": _("strong lenses"),
            "reactive": _("lenses that darken"),
        },
    )
    may_remove = asked(_("glasses may come off"))
    beard = word(_("beard"), {"none": _("none"), "short": _("short"), "full": _("full")})
    hair = word(
        _("hair"),
        {"dark": _("dark"), "mid": _("middle"), "fair": _("fair"), "grey": _("grey"), "white": _("white")},
    )
    head = word(
        _("head"), {"usual": _("as usual"), "bald": _("bald"), "covered": _("covered"), "brim": _("hat with a brim")}
    )
    face_width = word(_("face"), {"narrow": _("narrow"), "usual": _("as usual"), "wide": _("wide")})
    better_side = word(_("better side"), SIDES | {"none": _("no preference")})
    turn_limit_deg = Quantity(_("can turn the head"), unit=_("degrees"), low=0, high=90, **OPEN)
    chin_limit_deg = Quantity(_("can lower or raise the chin"), unit=_("degrees"), low=0, high=90, **OPEN)
    clothes_tone = word(_("clothes"), {"dark": _("dark"), "mid": _("middle"), "light": _("light")})
    bare_arms = asked(_("bare arms"))
    clothes_shiny = asked(_("clothes shine"))
    clothes_pattern = asked(_("clothes with a pattern"))
    stand_minutes = Quantity(_("can stand for"), unit=_("minutes"), low=0, high=1440, **OPEN)
    hip_or_back = asked(_("hip or back to be spared"))
    no_flash = asked(_("no flash"), help_text=_("Flashing light is to be kept away."))
    hearing = asked(_("hears little"))
    low_vision = asked(_("sees little"))
    tremor = asked(_("trembles"))
    sensory = asked(_("sound and touch to be spared"))
    shy = asked(_("takes time to be at ease"))
    broad_seat = asked(_("a broad seat without arms"))
    big_hair = asked(_("hair that stands high or wide"))

    def __str__(self) -> str:
        return "notes"  # never what they say

    @classmethod
    def names(cls) -> list[str]:
        """The fields that say something, in the order they are asked."""
        return [field.name for field in cls._meta.fields if field.name not in ("id", "version", "sitter")]


class Wish(models.Model):
    """What a sitter asks for one feature."""

    sitter = models.ForeignKey(Sitter, on_delete=models.CASCADE, related_name="wishes")
    note = word(
        _("about"),
        {
            "lines": _("lines"),
            "bags": _("bags under the eyes"),
            "neck": _("neck"),
            "chin": _("chin"),
            "width": _("width of the face"),
            "nose": _("nose"),
            "scar": _("scar"),
            "blemish": _("blemish"),
            "hair": _("hair"),
            "shine": _("shine"),
        },
    )
    side = word(_("side"), SIDES | {"both": _("both")})
    wish = word(_("wish"), {"softer": _("softer"), "as it is": _("as it is"), "shown": _("shown")})

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        return "wish"  # never what it says
