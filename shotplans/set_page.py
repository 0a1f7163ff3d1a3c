"""Reads for the pages around a sitting: the hazard walk before the sitters come in, the strike list after, what stays
up for the next sitting in the room, each with the newest taps. Belongs here: putting those together. Not here: taps
(`actions.set_taps`), what a list says (`sheets`)."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import Any

from django.utils import timezone

from bookings.models.sittings import OFF
from shotplans.models import Plan, SetTap
from shotplans.sheets import changeover, strike, walk
from shotplans.sheets.changeover import Standing
from shotplans.sheets.measures import Measures
from shotplans.sheets.strike import Line
from shotplans.sheets.walk import Check
from studio.days import midnight

On = SetTap.On


@dataclass(frozen=True)
class Ticked:
    """A line of a list with the tap about it."""

    line: Check | Line
    tap: SetTap | None

    @property
    def is_done(self) -> bool:
        return self.tap is not None and self.tap.done


@dataclass(frozen=True)
class Walk:
    """The walk of one set-up."""

    number: int
    name: str
    checks: tuple[Ticked, ...]
    begun: SetTap | None
    sitters_in: SetTap | None

    @property
    def left(self) -> list[str]:
        return [one.line.name for one in self.checks if not one.is_done and isinstance(one.line, Check)]


@dataclass(frozen=True)
class Strike:
    """The strike list of a plan: what stood last comes down."""

    lines: tuple[Ticked, ...]
    cautions: tuple[str, ...]
    begun: SetTap | None
    struck: SetTap | None
    after: Plan | None
    stays: tuple[str, ...]
    moves: tuple[str, ...]

    @property
    def is_swept(self) -> bool:
        return any(one.is_done and isinstance(one.line, Line) and one.line.code == strike.SWEEP for one in self.lines)

    @property
    def left(self) -> list[str]:
        """What is to come down and has not, the sweep apart."""
        return [
            one.line.says for one in self.lines
            if isinstance(one.line, Line) and not one.is_done and not one.line.stays and one.line.code != strike.SWEEP
        ]  # fmt: skip


def walks(plan: Plan, measures: Measures) -> list[Walk]:
    """Every set-up that can be built."""
    taps = newest(plan, On.WALK)
    found = []
    for number, setup in enumerate(plan.setups, 1):
        if setup["camera"] is None:
            continue
        name = setup["name"]
        rows = tuple(Ticked(c, taps.get((name, c.code))) for c in walk.checks(setup, plan.request, measures))
        begun, sitters_in = (_holding(taps.get((name, code))) for code in (SetTap.BEGUN, SetTap.SITTERS_IN))
        found.append(Walk(number, name, rows, begun, sitters_in))
    return found


def struck(plan: Plan, measures: Measures) -> Strike | None:
    """The strike list; None where nothing was built."""
    setup = last_setup(plan)
    if setup is None:
        return None
    here, after = _standing(plan, setup), next_in_room(plan)
    first = next((s for s in after.setups if s["camera"] is not None), None) if after else None
    there = _standing(after, first) if after and first else None
    taps = newest(plan, On.STRIKE)
    lines = strike.lines(here, measures, there, after.sitting.number if after else "")
    return Strike(
        tuple(Ticked(line, taps.get((setup["name"], line.code))) for line in lines), tuple(strike.cautions(setup)),
        _holding(taps.get((setup["name"], SetTap.BEGUN))), _holding(taps.get((setup["name"], SetTap.STRUCK))),
        after if there else None, strike.stays_up(here, there, measures) if there else (),
        changeover.lines(here, there, measures) if there else (),
    )  # fmt: skip


def last_setup(plan: Plan) -> dict[str, Any] | None:
    """The set-up that stands when the sitting is over."""
    return next((s for s in reversed(plan.setups) if s["camera"] is not None), None)


def next_in_room(plan: Plan) -> Plan | None:
    """The plan of the next sitting in the same room, where it follows on the same day."""
    sitting = plan.sitting
    tomorrow = midnight(timezone.localdate(sitting.starts_at) + timedelta(days=1))
    later = Plan.objects.current().exclude(sitting__stage__in=OFF).filter(
        sitting__room=sitting.room_id, sitting__starts_at__gt=sitting.starts_at, sitting__starts_at__lt=tomorrow
    )  # fmt: skip
    return later.select_related("sitting").order_by("sitting__starts_at").first()


def newest(plan: Plan, on: str) -> dict[tuple[str, str], SetTap]:
    """By set-up and code the newest tap, done or taken back."""
    rows = plan.set_taps.filter(on=on).select_related("by")
    return {(tap.setup_name, tap.code): tap for tap in rows}  # the model's order is the oldest first


def _holding(tap: SetTap | None) -> SetTap | None:
    return tap if tap is not None and tap.done else None


def _standing(plan: Plan, setup: dict[str, Any]) -> Standing:
    return Standing(setup, plan.filled_request)
