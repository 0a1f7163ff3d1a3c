"""What all kit has in common. Belongs here: the row every piece has, whatever it is, and who changed its state. Not
here: the numbers of one kind (`lighting`, `grip`, `cameras`), what is used up (`consumables`)."""

from __future__ import annotations

from datetime import date
from typing import Any, Self

from django.core.validators import MaxValueValidator, MinValueValidator, RegexValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models.quantities import mass
from studio.models.staff import Member
from studio.models.versions import Versioned

plain_label = RegexValidator(
    r"^[^\x00-\x1f\x7f]*[^\s\x00-\x1f\x7f][^\x00-\x1f\x7f]*$", _("Write something that can be read on one line.")
)
_SPAN = _("Give a day from 1900 to 2100.")
in_living_memory = [MinValueValidator(date(1900, 1, 1), _SPAN), MaxValueValidator(date(2100, 12, 31), _SPAN)]


class KitQuerySet(models.QuerySet[Any]):
    def free(self) -> Self:
        """Ready to be used; whether a sitting claims it is the calendar's to know."""
        return self.filter(state=KitItem.State.READY)

    def away(self) -> Self:
        """What the owner must see to: in repair or lost."""
        return self.filter(state__in=(KitItem.State.REPAIR, KitItem.State.LOST))

    def to_test_by(self, day: date) -> Self:
        """Whose next electrical test falls on that day or before; what is lost cannot be tested."""
        return self.filter(next_test_on__lte=day).exclude(state=KitItem.State.LOST)


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
    PLANNED: tuple[str, ...] = ()  # fields of every piece that a brief asks of this kind
    DEMANDED: tuple[str, ...] = ()  # those of them a plan cannot do without

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
    mass_kg = mass(_("mass"), null=True, blank=True)
    case = models.CharField(
        _("case"), max_length=60, blank=True, validators=[plain_label], db_index=True,
        help_text=_("Where it is packed, in the same words for all that travel together."),
    )  # fmt: skip
    # Never on anything a client sees.
    serial = models.CharField(_("serial number"), max_length=80, blank=True, validators=[plain_label])
    bought_on = models.DateField(_("bought on"), null=True, blank=True, validators=in_living_memory)
    next_test_on = models.DateField(
        _("next electrical test"), null=True, blank=True, db_index=True, validators=in_living_memory
    )
    photo = models.CharField(max_length=40, blank=True, editable=False)  # the name of our own file, never a phone's

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


class KitChange(models.Model):
    """Who changed the state of a piece, when, from what to what and why; written once."""

    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="kit_changed")
    piece = models.ForeignKey(KitItem, on_delete=models.CASCADE, related_name="changes")
    before = models.CharField(max_length=8, choices=KitItem.State.choices)
    after = models.CharField(max_length=8, choices=KitItem.State.choices)
    why = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ("at", "pk")
        indexes = (models.Index(fields=("at",), name="kit_change_by_time"),)

    def __str__(self) -> str:
        return f"{self.piece_id}: {self.before} to {self.after}"
