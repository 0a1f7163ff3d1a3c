"""Plans: numbered, frozen answers. Belongs here: the row and its rule that it is superseded, never edited."""

from __future__ import annotations

from typing import Any, Self

from django.db import models
from django.utils.functional import cached_property
from django.utils.translation import gettext_lazy as _

from bookings.models import Sitting
from shotplans.models.frozen import FrozenJSONField, Kept
from shotplans.planner import assumptions
from shotplans.planner.request import Request
from studio.models import Member


class Frozen(RuntimeError):
    """A plan was about to be changed after it was made."""


class PlanQuerySet(models.QuerySet["Plan"]):
    def current(self) -> Self:
        """Those nothing has superseded."""
        return self.filter(superseded_at=None)

    def of(self, sitting: Sitting) -> Self:
        return self.filter(sitting=sitting)

    def supersede(self, at: Any) -> int:
        """The one change a plan may see: that another has taken its place."""
        return self.current().update(superseded_at=at)


class Plan(models.Model):
    """One plan of one sitting: the input as it was, the document, and the fingerprint that ties them."""

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="plans")
    number = models.PositiveIntegerField(_("version"))
    request = FrozenJSONField(_("input"))
    document = FrozenJSONField(_("plan"))
    fingerprint = models.CharField(_("fingerprint"), max_length=64)
    made_at = models.DateTimeField(_("made at"))
    made_by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")
    why = models.CharField(_("why a new version"), max_length=200, blank=True)
    superseded_at = models.DateTimeField(_("superseded at"), null=True, editable=False)
    blanked_at = models.DateTimeField(_("blanked at"), null=True, editable=False)  # what it told of people is gone

    objects = PlanQuerySet.as_manager()

    class Meta:
        ordering = ("sitting", "-number")
        constraints = (
            models.UniqueConstraint(fields=("sitting", "number"), name="a_plan_number_once_a_sitting"),
            models.UniqueConstraint(
                fields=("sitting",), condition=models.Q(superseded_at=None), name="one_current_plan_a_sitting"
            ),
        )

    def __str__(self) -> str:
        return f"{self.sitting.number}, plan {self.number}"

    def save(self, *args: Any, **kwargs: Any) -> None:
        if self.pk is not None and not self._state.adding:
            raise Frozen(f"{self} is frozen: make a new version instead")
        super().save(*args, **kwargs)

    @cached_property
    def filled_request(self) -> Request:
        """The input it was made from as the planner reads it; a gap that a later version knows has its default."""
        known: Request | None = getattr(self.request, "made_of_it", None)
        if known is None:
            known = assumptions.fill(Request.model_validate(self.request))[0]
            if isinstance(self.request, Kept):  # a plan that was just made holds a tree of its own
                self.request.made_of_it = known
        return known

    @property
    def setups(self) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = self.document["setups"]
        return found

    def setup(self, name: str) -> dict[str, Any] | None:
        """One set-up of the plan by its name."""
        return next((s for s in self.setups if s["name"] == name), None)
