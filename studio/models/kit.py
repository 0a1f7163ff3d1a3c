"""What all kit has in common. Belongs here: the row every piece has, whatever it is. Not here: the numbers
of one kind (`lighting`, `grip`, `cameras`)."""

from __future__ import annotations

from typing import Any, Self

from django.core.validators import RegexValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models.versions import Versioned

plain_label = RegexValidator(
    r"^[^\x00-\x1f\x7f]*[^\s\x00-\x1f\x7f][^\x00-\x1f\x7f]*$", _("Write something that can be read on one line.")
)


class KitQuerySet(models.QuerySet[Any]):
    def free(self) -> Self:
        """Ready to be used; whether a sitting claims it is the calendar's to know."""
        return self.filter(state=KitItem.State.READY)


class KitItem(Versioned):
    """A piece of kit. The tables of the kinds extend it; `section` says which, by the brief's own word."""

    class State(models.TextChoices):
        READY = "ready", _("ready")
        CHARGING = "charging", _("charging")
        REPAIR = "repair", _("in repair")
        LOST = "lost", _("lost")

    class Section(models.TextChoices):
        HEADS = "heads", _("heads")
        MODIFIERS = "modifiers", _("modifiers")
        ADAPTERS = "adapters", _("rings")
        STANDS = "stands", _("stands and booms")
        PANELS = "panels", _("panels")
        WEIGHTS = "weights", _("weights")
        FLAGS = "flags", _("flags")
        TRIGGERS = "triggers", _("triggers")
        BACKGROUNDS = "backgrounds", _("backgrounds")
        CAMERAS = "cameras", _("cameras")
        LENSES = "lenses", _("lenses")
        SEATS = "seats", _("seats")
        RISERS = "risers", _("risers")

    SECTION = ""  # each kind's own, written to `section` as the row is made

    code = models.SlugField(
        _("code"),
        max_length=60,
        unique=True,
        help_text=_("As on its label: letters, digits and hyphens."),
        error_messages={"unique": _("Another piece has that code.")},
    )
    label = models.CharField(
        _("name"), max_length=120, validators=[plain_label], help_text=_("What you call it: 400 Ws head.")
    )
    # Not called kind: modifiers, stands and backgrounds have a kind of their own in the brief.
    section = models.CharField(max_length=12, choices=Section.choices, editable=False)
    state = models.CharField(_("state"), max_length=8, choices=State.choices, default=State.READY)
    note = models.CharField(_("note"), max_length=400, blank=True)

    objects = KitQuerySet.as_manager()

    class Meta:
        ordering = ("code",)
        indexes = (models.Index(fields=("section", "code"), name="kit_by_section"),)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        if not args:  # made here, not read from the table
            kwargs.setdefault("section", self.SECTION)
        super().__init__(*args, **kwargs)

    def __str__(self) -> str:
        return f"{self.label} ({self.code})"
