"""The studio's own numbers in the planner's rules, and the history of them. Belongs here: the rows; not here: the rules
themselves, which are the planner's data (`planner.rules`)."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Self

from django.db import models
from django.utils.translation import gettext_lazy as _

from shotplans.planner import rules
from shotplans.planner.rules import RULES, Number
from studio.models import Member
from studio.models.quantities import plain
from studio.models.versions import Versioned

UNITS = {
    "deg": _("degrees"), "min": _("minutes"), "C": _("°C"), "days": _("days"), "frames": _("frames"),
    "heads": _("heads"), "outfits": _("outfits"), "people": _("people"), "pieces": _("pieces"), "place": _("place"),
    "seats": _("seats"), "stops": _("stops"), "times": _("times"), "weeks": _("weeks"), "years": _("years"),
}  # fmt: skip


def unit_words(unit: str) -> str:
    """A unit of the planner's as a page writes it."""
    return str(UNITS.get(unit, unit))


class OwnNumberQuerySet(models.QuerySet["OwnNumber"]):
    def of(self, rule: str) -> Self:
        return self.filter(rule=rule)


class OwnNumber(Versioned):
    """One number of one rule as this studio sets it. A row is never taken away, so that its version only rises;
    without a value the rule's first one counts."""

    rule = models.CharField(_("rule"), max_length=120)
    number = models.CharField(_("number"), max_length=120)
    value = models.FloatField(_("own value"), null=True)

    objects = OwnNumberQuerySet.as_manager()

    class Meta:
        ordering = ("rule", "number")
        constraints = (models.UniqueConstraint(fields=("rule", "number"), name="a_number_once_a_rule"),)

    def __str__(self) -> str:
        return f"{self.rule}, {self.number}"

    @property
    def known(self) -> Number | None:
        """The number it stands for; None where no rule has it any more."""
        rule = RULES.get(self.rule)
        return rule.numbers.get(self.number) if rule else None

    @property
    def shown(self) -> str:
        """The value without a unit, which only a rule knows."""
        return "" if self.value is None else plain(self.value)


def in_force(rows: Iterable[OwnNumber]) -> dict[tuple[str, str], float]:
    """The values plans are made with, by rule and number: those the rules of today can take. A value whose number is
    gone, that lies outside its range, or that would turn a band upside down is kept and left out."""
    fit = {
        (row.rule, row.number): row.value
        for row in rows
        if row.value is not None and row.known is not None and row.known.low <= row.value <= row.known.high
    }
    turned = {(code, name) for code, *ends in rules.crossed(rules.House(fit)) for name in ends}
    return {key: value for key, value in fit.items() if key not in turned}


class RuleEdit(models.Model):
    """Who set which number of which rule from what to what, when and why. Words and unit are kept as they were then."""

    rule = models.CharField(_("rule"), max_length=120, db_index=True)
    number = models.CharField(_("number"), max_length=120)
    words = models.CharField(_("what it is"), max_length=200)
    unit = models.CharField(_("unit"), max_length=40, blank=True)
    value_from = models.FloatField(_("from"))
    value_to = models.FloatField(_("to"))
    back_to_first = models.BooleanField(_("back to the first value"), default=False)
    why = models.CharField(_("why"), max_length=400)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("-at", "-pk")

    def __str__(self) -> str:
        return f"{self.rule}, {self.number}: {self.value_from} to {self.value_to}"

    @property
    def unit_words(self) -> str:
        return unit_words(self.unit)
