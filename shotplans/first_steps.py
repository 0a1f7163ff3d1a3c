"""The first steps of a new studio: what is done and what comes next, asked of the rows themselves.

Belongs here: the order of the steps and what counts as done. Not here: their words (`shotplans/_first_steps.html`),
making the sample (`actions.sample`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.db.models import Exists, QuerySet

from bookings.models import Kind, Sitting
from shotplans.models import Plan, Sample
from studio import starter_kit
from studio.models import Member, Profile, Role, Room


@dataclass(frozen=True)
class Step:
    """One step. `more` is what of it is still missing, as words."""

    name: str
    done: bool
    more: tuple[str, ...] = ()


@dataclass(frozen=True)
class Path:
    """All of them, in the order they are best taken; any may be taken first."""

    steps: tuple[Step, ...]

    @property
    def done(self) -> bool:
        return all(step.done for step in self.steps)

    @property
    def next(self) -> str:
        """The first that is not done."""
        return next((step.name for step in self.steps if not step.done), "")


def today() -> Path:
    """How far the house has come; the sample counts for nothing."""
    sample = Sample.get()
    of_sample = sample.sitting if sample else None
    rooms, kinds = Room.objects.all(), Kind.objects.all()
    sittings, plans = Sitting.objects.all(), Plan.objects.all()
    if of_sample is not None:
        rooms, kinds = rooms.exclude(pk=of_sample.room_id), kinds.exclude(pk=of_sample.kind_id)
        sittings, plans = sittings.exclude(pk=of_sample.pk), plans.exclude(sitting=of_sample)
    missing = starter_kit.missing(but=sample.kit.all() if sample else ())
    there = _there(
        profile=Profile.objects.all(), rooms=rooms, kinds=kinds, sittings=sittings, plans=plans,
        desk=Member.objects.active().in_role(Role.FRONT_DESK),
        photographs=Member.objects.active().in_role(Role.PHOTOGRAPHER),
    )  # fmt: skip
    held = ((Role.FRONT_DESK, "desk"), (Role.PHOTOGRAPHER, "photographs"))
    nobody = [str(role.label) for role, name in held if not there[name]]
    return Path(
        (
            Step("profile", there["profile"]),
            Step("room", there["rooms"]),
            Step("kit", not missing, tuple(missing)),
            Step("people", not nobody, tuple(nobody)),
            Step("kind", there["kinds"]),
            Step("sitting", there["sittings"]),
            Step("sheet", there["plans"]),
        )
    )


def _there(**rows: QuerySet[Any]) -> dict[str, bool]:
    """Whether there are any rows of each, asked in one question: this stands on the owner's first page each time."""
    asked = Member.objects.order_by("pk").annotate(**{f"any_{name}": Exists(found) for name, found in rows.items()})
    first = asked.values_list(*(f"any_{name}" for name in rows)).first() or [False] * len(rows)
    return dict(zip(rows, first, strict=True))
