"""Reads for the photographer's and the assistant's pages: a day's set-ups, a brief to start from, readings by targets.

Belongs here: putting rows and plan documents together for one page. Not here: writing, or wording a plan.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from functools import cached_property
from typing import Any

from django.utils.translation import gettext as _

from bookings.models import Sitting, SittingChange
from shotplans import meetings, noted_lengths
from shotplans.light.exposure import shutter_label
from shotplans.meetings import Met
from shotplans.models import Built, Change, Plan, Reading, Record, SetPhoto
from shotplans.records import as_shot as as_built
from shotplans.records.readings import FULL_STOPS, difference, in_words, shown_stops, stops_of
from studio.days import midnight

NEAR_TENTHS = 30  # three stops either way: farther off a light did not fire, or the wrong one did


@dataclass(frozen=True)
class Planned:
    """One sitting of a day with its current plan, if it has one."""

    sitting: Sitting
    plan: Plan | None

    @property
    def has_brief(self) -> bool:
        return hasattr(self.sitting, "brief")


@dataclass(frozen=True)
class AskedBack:
    """What was typed for one step and could not be read, with the sentence that asks for it again."""

    setup_name: str
    step: int
    text: str
    says: str


@dataclass(frozen=True)
class Step:
    """One step of a meter round beside what was read."""

    setup_name: str
    step: dict[str, Any]
    off: tuple[str, ...]
    reading: Reading | None
    asked_back: AskedBack | None = None
    met: Met | None = None  # the reading among all of its step

    @property
    def seen(self) -> int:
        return self.met.seen if self.met else 0

    @property
    def table(self) -> dict[str, dict[str, Any]]:
        """What each reading near the target means, by its whole stop and tenth: for a page without the network."""
        near = (self.target + Decimal(tenths) / 10 for tenths in range(-NEAR_TENTHS, NEAR_TENTHS + 1))
        return {
            f"{FULL_STOPS[int(one) + 1]} {int(one * 10 % 10)}": compared(self, one)
            for one in near
            if 0 <= one < len(FULL_STOPS) - 1
        }

    @property
    def in_field(self) -> str:
        """What stands in the field: the newest that was typed, clear or not."""
        if self.asked_back:
            return self.asked_back.text
        return self.reading.as_typed if self.reading else ""

    @cached_property
    def target(self) -> Decimal:
        return stops_of(float(self.step["target"]["f_number"]))

    @property
    def shown(self) -> str:
        return shown_stops(self.reading.amount) if self.reading else ""

    @property
    def difference(self) -> Decimal | None:
        return difference(self.reading.amount, self.target) if self.reading else None

    @property
    def words(self) -> str:
        if self.difference is None:
            return ""
        return in_words(self.difference, Decimal(str(self.step["tolerance_stops"])))

    @property
    def outside(self) -> bool:
        return self.difference is not None and abs(self.difference) > Decimal(str(self.step["tolerance_stops"]))


@dataclass(frozen=True)
class Round:
    """The meter round of one set-up."""

    setup: dict[str, Any]
    steps: tuple[Step, ...]
    number: int  # of the set-up in its plan, as addresses have it

    @property
    def camera_words(self) -> str:
        """Aperture, shutter and ISO as they are set."""
        return camera_words(self.setup["camera"])

    @property
    def first_open(self) -> int:
        """The step to go on with: the first that is unread or off, else the last."""
        return self.left[0] if self.left else int(self.steps[-1].step["step"])

    @property
    def left(self) -> list[int]:
        """The steps that are unread, to be read again, or off."""
        return [int(s.step["step"]) for s in self.steps if s.reading is None or s.reading.cause or s.outside]


@dataclass(frozen=True)
class Difference:
    """One way in which what was done differs from the plan, fit for the as-shot list."""

    setup_name: str
    about: str
    what: str
    planned: str
    actual: str
    why: str = ""
    by: str = ""
    at: datetime | None = None

    @property
    def words(self) -> str:
        """Of what, and what."""
        return f"{as_built.said(self.about)}, {as_built.said(self.what)}"


@dataclass(frozen=True)
class AsShot:
    """One set-up of a record: kept as built or not yet, with its pictures."""

    number: int
    name: str
    built: Built | None
    photos: tuple[SetPhoto, ...]


def camera_words(camera: dict[str, Any]) -> str:
    """What is dialled on the camera, as on the sheet's strip."""
    return f"{camera['nearest_third']} · {shutter_label(camera['shutter_s'])} · ISO {camera['iso']}"


def span_of(day: date) -> tuple[datetime, datetime]:
    """A day of the studio's zone as two instants."""
    return midnight(day), midnight(day + timedelta(days=1))


def planned_on(day: date) -> list[Planned]:
    """The day's sittings in order, each with its current plan."""
    start, end = span_of(day)
    expected = Sitting.objects.between(start, end).taking_place()
    sittings = list(expected.with_people().select_related("brief").order_by("starts_at"))
    plans = {p.sitting_id: p for p in Plan.objects.current().filter(sitting__in=sittings)}
    for sitting in sittings:
        if sitting.pk in plans:
            plans[sitting.pk].sitting = sitting  # with all that was asked of it
    return [Planned(s, plans.get(s.pk)) for s in sittings]


def plans_of(planned: Iterable[Planned]) -> list[Plan]:
    return [one.plan for one in planned if one.plan is not None]


def rounds(plan: Plan, record: Record | None, asked_back: AskedBack | None = None) -> list[Round]:
    """Every set-up's meter round, each step with the newest reading typed for it, or what was asked back just now."""
    newest = meetings.by_step(record.readings.select_related("by")) if record is not None else {}
    numbered = enumerate(plan.setups, 1)
    return [Round(s, tuple(_steps(s, newest, asked_back)), n) for n, s in numbered if s["meter_round"]]


def _steps(
    setup: dict[str, Any], newest: dict[tuple[str, int], Met], asked_back: AskedBack | None = None
) -> Iterable[Step]:
    letters = [x["letter"] for x in setup["lights"] if x["head"]]
    for step in setup["meter_round"]:
        off = tuple(x for x in letters if x not in step["on"])
        here = (setup["name"], step["step"])
        asked = asked_back if asked_back and here == (asked_back.setup_name, asked_back.step) else None
        met = newest.get(here)
        yield Step(setup["name"], step, off, met.counts if met else None, asked, met)


def step_of(plan: Plan, setup_name: str, number: int) -> Step | None:
    """One step of a plan, without its reading."""
    setup = plan.setup(setup_name)
    return next((s for s in _steps(setup, {}) if s.step["step"] == number), None) if setup else None


def as_shot(record: Record, units: str) -> list[Difference]:
    """Every difference between the plan and what was done: readings off their targets, and changes noted, lengths as
    their reader measures."""
    found = [
        Difference(
            r.setup["name"], ", ".join(s.step["on"]), _("reading %(n)d") % {"n": s.step["step"]},
            s.step["target"]["shown"],
            f"{s.shown} ({s.words})", by=s.reading.by.name if s.reading else "", at=s.reading.at if s.reading else None,
        )
        for r in rounds(record.plan, record)
        for s in r.steps
        if s.difference
    ]  # fmt: skip
    found += [_changed(c, units) for c in record.changes.select_related("by")]
    return found


def set_ups(plan: Plan, record: Record | None) -> list[AsShot]:
    """Every set-up that can be built, with what is kept of it as shot."""
    built = {b.setup_name: b for b in record.built.select_related("by")} if record else {}
    photos = list(record.photos.select_related("by")) if record else []
    return [
        AsShot(n, s["name"], built.get(s["name"]), tuple(p for p in photos if p.setup_name == s["name"]))
        for n, s in enumerate(plan.setups, 1)
        if s["camera"] is not None
    ]


def _changed(change: Change, units: str) -> Difference:
    planned, actual = (noted_lengths.length_in(units, change.what, text) for text in (change.planned, change.actual))
    said = (change.setup_name, change.about, change.what, planned, actual, change.why)
    return Difference(*said, by=change.by.name, at=change.at)


def starting_brief(sitting: Sitting) -> dict[str, Any]:
    """The brief to start from: the confirmed one, else what the kind of sitting usually asks for."""
    if hasattr(sitting, "brief"):
        data: dict[str, Any] = sitting.brief.data
        return data
    kind = sitting.kind
    setup = {
        "name": "first", "intent": kind.intent, "framing": kind.framing, "background_tone": kind.background_tone,
        "view": kind.view or "either", "people": [s.label for s in sitting.sitters.all()],
    }  # fmt: skip
    brief = {"setups": [setup], "orientation": kind.orientation or "either", "minutes": sitting.minutes}
    use, hangs = sitting.purpose, _hangs(sitting)
    if use or hangs:
        brief["purpose"] = (f"{use.rstrip('. ')}. {hangs}" if use and hangs else use or hangs)[:400]
    if sitting.print_width_cm:
        brief["print_width_cm"] = float(sitting.print_width_cm)
    return brief


def _hangs(sitting: Sitting) -> str:
    return _("It will hang: %(where)s") % {"where": sitting.hangs} if sitting.hangs else ""


def told_since(sitting: Sitting) -> list[SittingChange]:
    """What the desk changed of purpose, print or length after the brief was confirmed, which then says otherwise."""
    if not hasattr(sitting, "brief"):
        return []
    what = SittingChange.What
    in_brief = (what.PURPOSE, what.HANGS, what.PRINT_WIDTH, what.MINUTES)
    later = sitting.changes.filter(what__in=in_brief, at__gt=sitting.brief.confirmed_at)
    return list(later.select_related("by"))


def compared(step: Step, stops: Decimal) -> dict[str, Any]:
    """A reading still being typed beside its target."""
    tolerance = Decimal(str(step.step["tolerance_stops"]))
    off = difference(stops, step.target)
    return {"shown": shown_stops(stops), "words": in_words(off, tolerance), "outside": abs(off) > tolerance}


LIGHT_VALUES = {
    "distance": ("distance_m", "m"), "bearing": ("bearing_deg", "degrees"), "height": ("centre_height_m", "m"),
    "power": ("dial", ""), "modifier": ("modifier", ""),
}  # fmt: skip
CAMERA_VALUES = {
    "distance": ("distance_m", "m"), "height": ("height_m", "m"), "aperture": ("shown", ""),
    "shutter": ("shutter_s", "s"), "ISO": ("iso", ""),
}  # fmt: skip


def planned_value(plan: Plan, setup_name: str, about: str, what: str) -> str:
    """What the plan said of one thing, as text to stand beside what was done; empty where it says nothing."""
    setup = plan.setup(setup_name) or {}
    if about == "camera":
        row, names = setup.get("camera") or {}, CAMERA_VALUES
    elif about == "ground":
        row, names = setup.get("background") or {}, {"distance": ("distance_m", "m"), "ground": ("id", "")}
    else:
        row = next((x for x in setup.get("lights", []) if x["letter"] == about), {})
        names = LIGHT_VALUES
    key, unit = names.get(what, ("", ""))
    value = row.get(key)
    return "" if value is None else f"{value} {unit}".strip()
