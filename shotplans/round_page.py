"""Reads for the meter round: one step with its keys, and what to do where the reading is off.

Belongs here: putting a plan, its record and the pure remedies together for one page. Not here: words (`round_words`),
writing, or the list of all rounds (`workbench`).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext as _

from shotplans import noted_lengths, round_words, workbench
from shotplans.light.exposure import shutter_label
from shotplans.models import CameraSet, Change, Plan, Record
from shotplans.planner import daylight
from shotplans.planner.request import Request
from shotplans.planner.whatif import Change as Asked
from shotplans.records import against_set, remedies
from shotplans.records.readings import FULL_STOPS
from shotplans.sheets.measures import Measures

KEYS_BELOW, KEYS = 3, 6  # whole stops to press: from three under the target's own
EFFECTS_UP_TO = Decimal(3)  # beyond this a light did not fire: nothing to reckon with


@dataclass(frozen=True)
class Question:
    """A likely cause, and under which name it is put right; empty where no single lamp was read."""

    says: str
    cause: str


@dataclass(frozen=True)
class Mend:
    """One way to bring a light to its target: the change to note once it is done, and what else it does."""

    says: str
    letter: str
    what: str
    actual: str
    rest: str
    then: tuple[Decimal, ...]


@dataclass(frozen=True)
class Advice:
    """What to do about one reading: ask first, then turn or move; the other readings under each, unless the lamp would
    be further off its rating than can be reckoned with (`is_beyond`)."""

    questions: tuple[Question, ...]
    mends: tuple[Mend, ...]
    others: tuple[tuple[str, Decimal, tuple[Decimal, ...]], ...]  # place, off now, off after each mend
    is_beyond: bool


@dataclass(frozen=True)
class Here:
    """One step of a round as its page shows it."""

    setup_number: int
    setup: dict[str, Any]
    row: workbench.Step
    steps: tuple[workbench.Step, ...]
    lights: tuple[str, ...]
    keys: tuple[str, ...]
    own_key: str
    changed_since: Change | None
    changed_to: str
    advice: Advice | None
    camera: workbench.Round

    @property
    def place(self) -> int:
        return next(n for n, s in enumerate(self.steps, 1) if s.step["step"] == self.row.step["step"])

    @property
    def is_done(self) -> bool:
        """Whether every reading of the round is within its tolerance: then comes the test frame."""
        return not self.camera.left

    @property
    def before(self) -> workbench.Step | None:
        return self.steps[self.place - 2] if self.place > 1 else None

    @property
    def after(self) -> workbench.Step | None:
        return self.steps[self.place] if self.place < len(self.steps) else None


def round_of(
    plan: Plan, record: Record | None, setup_number: int, asked_back: workbench.AskedBack | None = None
) -> workbench.Round | None:
    """The round of a set-up by its number in the plan; None where it has none."""
    if not 1 <= setup_number <= len(plan.setups):
        return None
    name = plan.setups[setup_number - 1]["name"]
    return next((r for r in workbench.rounds(plan, record, asked_back) if r.setup["name"] == name), None)


def round_after(plan: Plan, record: Record | None, setup_number: int) -> workbench.Round | None:
    """The round of the next set-up that has one."""
    return next((r for r in workbench.rounds(plan, record) if r.number > setup_number), None)


def here(
    plan: Plan, record: Record | None, setup_number: int, step: int, ways: Measures,
    asked_back: workbench.AskedBack | None = None,
) -> Here | None:  # fmt: skip
    """One step of a round, with what to do about its newest reading, lengths as the studio measures; None where the
    plan has no such step."""
    found = round_of(plan, record, setup_number, asked_back)
    row = next((s for s in found.steps if s.step["step"] == step), None) if found else None
    if found is None or row is None:
        return None
    changed = _changed_since(record, row)
    open_ = row.outside and not changed and not (row.reading and row.reading.cause)
    at = int(row.target // 1) + 1
    done = noted_lengths.length_in(ways.units, changed.what, changed.actual) if changed else ""
    low = max(0, min(at - KEYS_BELOW, len(FULL_STOPS) - KEYS))
    return Here(
        setup_number, found.setup, row, found.steps, tuple(_lights(plan, found.setup, row.step, ways)),
        FULL_STOPS[low : low + KEYS], FULL_STOPS[at] if 0 <= at < len(FULL_STOPS) else "", changed, done,
        _advice(plan, found.setup, row, ways) if open_ else None, found,
    )  # fmt: skip


def _changed_since(record: Record | None, row: workbench.Step) -> Change | None:
    """The newest change of one of the step's lights noted after its reading: it is to be read again."""
    if record is None or row.reading is None:
        return None
    later = record.changes.filter(
        setup_name=row.setup_name, about__in=row.step["on"], what__in=Change.MOVES, at__gt=row.reading.at
    )
    return later.order_by("-pk").first()


def _lights(plan: Plan, setup: dict[str, Any], step: dict[str, Any], ways: Measures) -> list[str]:
    """The lights that are on, each with its pair, place and dial: what to look at before the first flash."""
    kit = plan.filled_request.kit
    called = {one.id: one.label or one.id for one in (*kit.heads, *kit.modifiers)}
    found = []
    for light in setup["lights"]:
        if light["letter"] in step["on"] and light["head"]:
            said = {
                "letter": light["letter"], "head": called.get(light["head"], light["head"]),
                "modifier": called.get(light["modifier"], light["modifier"]),
                "distance": ways.length(light["distance_m"]), "dial": light["dial"],
            }  # fmt: skip
            found.append(_("%(letter)s: %(head)s, %(modifier)s, %(distance)s, dial %(dial)s") % said)
    return found


def _advice(plan: Plan, setup: dict[str, Any], row: workbench.Step, ways: Measures) -> Advice:
    off = row.difference or Decimal(0)
    asked = remedies.causes(setup, row.step, off, [m.model_dump() for m in plan.filled_request.kit.modifiers])
    light = remedies.light_of(setup, row.step)
    put_right = round_words.PUT_RIGHT if light is not None else {}
    questions = [Question(round_words.cause(c, ways), put_right.get(c.code, "")) for c in asked]
    mends, effects = _mends(plan, setup, row, off, ways)
    names = {s["step"]: s["place"] for s in setup["meter_round"]}
    sets = {s["step"] for s in setup["meter_round"] if s["sets_camera"]}
    others = [
        (_("the reading that sets the camera") if e.step in sets else names[e.step], e.now,
         tuple(rows[n].then for rows in effects if n < len(rows)))
        for n, e in enumerate(effects[0] if effects else ())
    ]  # fmt: skip
    beyond = light is not None and remedies.is_beyond(plan.filled_request, light, off)
    return Advice(tuple(questions), tuple(mends), tuple(others), beyond)


def _mends(
    plan: Plan, setup: dict[str, Any], row: workbench.Step, off: Decimal, measures: Measures
) -> tuple[list[Mend], list[list[remedies.Effect]]]:
    light = remedies.light_of(setup, row.step)
    if light is None or abs(off) > EFFECTS_UP_TO:
        return [], []
    kit, letter = plan.filled_request.kit, light["letter"]
    ways: list[tuple[Mend, Asked]] = []
    up = remedies.power(light, [h.model_dump() for h in kit.heads if h.id == light["head"]], off)
    if up is not None and up.stops:
        ways.append((_turned(letter, up), Asked("light", letter, "power_below_full_stops", str(up.below_full_stops))))
    least_m = next((float(m.min_distance_m or 0.0) for m in kit.modifiers if m.id == light["modifier"]), 0.0)
    to = remedies.distance(light, off, least_m)
    if to is not None:
        ways.append((_moved(letter, to, measures), Asked("light", letter, "distance_m", f"{to.metres:.2f}")))
    if not ways:
        return [], []
    request = Request.model_validate(plan.request)
    step = int(row.step["step"])
    return (
        [mend for mend, _asked in ways],
        [remedies.effects(request, plan.document, setup["name"], step, off, asked) for _mend, asked in ways],
    )


def _turned(letter: str, up: remedies.Power) -> Mend:
    said = {"letter": letter, "n": abs(up.stops), "dial": up.dial}
    says = _("%(letter)s: power up %(n)s (dial %(dial)s)") if up.stops > 0 else _(
        "%(letter)s: power down %(n)s (dial %(dial)s)"
    )  # fmt: skip
    rest = ""
    if abs(up.missing_stops) >= Decimal("0.1"):
        way = _("%(n)s stop is still missing then") if up.missing_stops > 0 else _("%(n)s stop is still too much then")
        rest = way % {"n": abs(up.missing_stops)}
    return Mend(says % said, letter, "power", up.dial, rest, ())


def _moved(letter: str, to: remedies.Distance, ways: Measures) -> Mend:
    way = ways.near(abs(to.closer_cm) / 100) if ways.is_imperial else f"{abs(to.closer_cm)} cm"
    said = {"letter": letter, "way": way, "place": ways.length(float(to.metres))}
    says = _("%(letter)s: %(way)s closer, to %(place)s") if to.closer_cm > 0 else _(
        "%(letter)s: %(way)s further off, to %(place)s"
    )  # fmt: skip
    return Mend(says % said, letter, "distance", f"{to.metres:.2f} m", "", ())


@dataclass(frozen=True)
class Camera:
    """What the camera stands at beside what was metered: words, and whether something is wrong."""

    metered: str
    set_to: str
    says: tuple[str, ...]
    flagged: bool


def camera(plan: Plan, record: Record | None, found: workbench.Round) -> Camera | None:
    """The newest settings of the camera judged by the newest reading that sets it; None until both are known."""
    read = next((s for s in found.steps if s.step["sets_camera"]), None)
    kept = newest_set(record, found.setup["name"])
    if kept is None or read is None or read.reading is None:
        return None
    verdict = against_set.judged(
        read.reading.amount,
        _planned_camera(plan, found.setup),
        against_set.Set(kept.f_number, kept.shutter_s, kept.iso),
    )
    set_to = f"f/{kept.f_number:g} · {shutter_label(kept.shutter_s)} · ISO {kept.iso}"
    return Camera(read.shown, set_to, tuple(round_words.verdict(verdict)), verdict.flagged)


def newest_set(record: Record | None, setup_name: str) -> CameraSet | None:
    return record.camera_sets.filter(setup_name=setup_name).order_by("-pk").first() if record else None


def _planned_camera(plan: Plan, setup: dict[str, Any]) -> against_set.Planned:
    request = plan.filled_request
    body = next((c for c in request.kit.cameras if c.id == setup["camera"]["body"]), request.kit.cameras[0])
    used = {x["head"] for x in setup["lights"]}
    steady = any(h.light == "steady" for h in request.kit.heads if h.id in used)
    return against_set.Planned(
        setup["camera"]["iso"], setup["camera"]["shutter_s"], steady, float(body.sync_s),
        daylight.ambient_lux(request.room),
    )  # fmt: skip
