"""The year behind the demo's studio: sittings planned, metered, recorded and filmed, so that corrections, last time's
light and a company's reference are there. Belongs here: that year, each moment at its own time, by way of the actions
the pages use where one sitting needs them and as rows where many are alike. Not here: what its lamps truly give
(`scenario_truth`), what its frames show (`scenario_frames`), what its set told (`scenario_set`), the day itself
(`scenario`).

A light is reckoned once for each kind of sitting; later sittings of the kind are built like it, their dials moved by
what was learned since."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from bookings import afterwards, permissions
from bookings.actions import arrivals
from bookings.actions.sittings import SitterInput
from bookings.models import Client, Consent, Sitting
from shotplans import (
    blanking,
    scenario_clocks,
    scenario_frames,
    scenario_people,
    scenario_set,
    scenario_truth,
    snapshot,
)
from shotplans.actions import as_shot, plans, standards
from shotplans.models import Change, Plan, Reading, Record
from shotplans.planner import codec
from shotplans.records.readings import shown_stops
from shotplans.scenario_clocks import Earlier
from studio import clock
from studio.models import Member

Tree = dict[str, Any]
FIRST, METERING = timedelta(minutes=-25), timedelta(minutes=2)  # before the sitting; from one reading to the next
KEPT_DAYS = 90  # as the studio's profile has it, after delivery


@dataclass(frozen=True)
class Past:
    """One sitting of the year: `ago` days before the demo's day, its light like that of the brief named."""

    ago: int
    client: str
    people: tuple[str, ...]
    brief: str
    kind: str
    room: str = "Long Room"
    is_company: bool = False
    purpose: str = ""


def _couple(ago: int, client: str, *people: str) -> Past:
    return Past(ago, client, people, "askew", "Anniversary couple", purpose="A print over the stairs")


def _character(ago: int, client: str) -> Past:
    who, kind = (client.split()[0],), "Character portrait"
    return Past(ago, client, who, "dorrow", kind, "Garden Room", purpose="A print for the hall")


def _pupil(ago: int, client: str) -> Past:
    return Past(ago, client, (client.split()[0],), "tarrant", "Music school portrait", purpose="The school's programme")


def _joinery(ago: int, purpose: str, *people: str) -> Past:
    return Past(ago, "Marrowfield Joinery", people, "marrowfield", "Company headshots", "Long Room", True, purpose)


ASKEW, LAST_YEAR, JOINED = "Ottoline and Bertram Askew", 349, 45
YEAR = (
    replace(_couple(357, ASKEW, "Ottoline", "Bertram"), purpose="A small print for their daughter abroad"),
    _joinery(LAST_YEAR, "The first page of the people", "Willem", "Corin", "Delphine", "Osric", "Thandie", "Rafe"),
    _character(310, "Barnaby Stroud"),
    _couple(298, "Tamsin and Odo Brindle", "Tamsin", "Odo"),
    _pupil(281, "Petra Vane"),
    _character(255, "Ginevra Lusk"),
    _couple(214, "Averil and Lambert Quaile", "Averil", "Lambert"),
    _pupil(scenario_truth.CLOTH, "Rafferty Doon"),
    _character(172, "Alban Fetch"),
    _couple(131, "Merrit and Sib Harrow", "Merrit", "Sib"),
    _pupil(115, "Isolde Marsh"),
    _character(97, "Hepzibah Crane"),
    _couple(66, "Verity and Joss Tolland", "Verity", "Joss"),
    _pupil(57, "Tobit Lorne"),
    _joinery(JOINED, "Six who joined since", "Mirela", "Piran", "Lotta", "Jabari", "Imogen", "Sunniva"),
    _character(33, "Lucan Mead"),
)
LOOK = {
    "lens_mm": 85.0, "camera_m": 1.8, "camera_above_eyes_m": 0.0, "head_share": 0.48, "key_modifier": "octa150-1",
    "key_m": 1.4, "key_bearing_deg": 30.0, "key_height_deg": 35.0, "fill_below_key_stops": 1.5,
    "background_lightness": 52.0, "kelvin": 5600.0,
}  # fmt: skip
LOCKED = ["lens_mm", "camera_m", "key_modifier", "background_lightness"]


@dataclass
class _House:
    """Who is there, and the plan each kind of light was reckoned for."""

    day: date
    trees: Mapping[str, Tree]
    open_days: afterwards.House
    people: dict[str, Member]
    models: dict[str, Plan]


def tell(day: date, trees: Mapping[str, Tree]) -> str:
    """Live the year before `day`, in its order."""
    people = {member.user.username: member for member in Member.objects.select_related("user")}
    house = _House(day, trees, scenario_clocks.house_until(day), people, {})
    frames, built = 0, []
    for past in YEAR:
        sitting = _booked(house, past)
        with clock.standing(sitting.starts_at - timedelta(days=3)):
            if past.is_company:
                _standard(house, past, sitting.client)
            plan = _planned(house, past, sitting)
        _metered(house, past, plan)
        built.append(plan)
        frames += scenario_frames.film(plan, by=people["ines"], ago=past.ago)
    scenario_set.told(built, people["ines"])
    _forgotten(house)
    read = Reading.objects.exclude(head="").count()
    return f"{len(YEAR)} sittings of the year before, as shot: {read} readings of one light, {frames} frames"


def _booked(house: _House, past: Past) -> Sitting:
    gone = [past.ago - days for days in (7, 12, 20)]
    earlier = Earlier(
        past.client, past.people, past.kind, past.room, past.ago, tuple(gone), past.purpose, is_company=past.is_company
    )
    tree = house.trees[past.brief]
    known = {s["label"]: s for s in tree["sitters"]} if past.client == ASKEW else {}
    sitters = [
        scenario_people.sitter(known[name] | {"age_years": known[name]["age_years"] - 1})
        if name in known
        else SitterInput(name, posture="seated")
        for name in past.people
    ]
    maud, tobiah = house.people["maud"], house.people["tobiah"]
    row = scenario_clocks.live(earlier, house.open_days, house.day, maud, tobiah, sitters)
    if known:
        _keep_notes(row, maud)
    return row


def _keep_notes(sitting: Sitting, maud: Member) -> None:
    """The Askews said that theirs may stay for the next time."""
    what = Consent.What.KEEP_NOTES
    with clock.standing(sitting.starts_at):
        rows = permissions.of_sitting(sitting)
        answers = {(row.sitter.pk, str(what)): ("yes", row.answer_to(what)) for row in rows}
        arrivals.answer(by=maud, sitting=sitting, answers=answers, how="paper")


def _standard(house: _House, past: Past, client: Client) -> None:
    """The joinery's look, locked for the first page; its grey was painted anew before the second."""
    said: Tree = {"by": house.people["harriet"], "client": client, "locked": LOCKED}
    if past.ago == LAST_YEAR:
        standards.keep(**said, values=LOOK, seen=0)
    else:
        values = LOOK | {"background_lightness": 49.0}
        standards.keep(**said, values=values, seen=1, why="the grey wall was painted anew")


def _planned(house: _House, past: Past, sitting: Sitting) -> Plan:
    """The first of a kind is reckoned; the others are built like it."""
    tobiah = house.people["tobiah"]
    plans.confirm_brief(by=tobiah, sitting=sitting, data=_brief(house, past))
    sitting = Sitting.objects.get(pk=sitting.pk)
    model = house.models.get(past.brief)
    if model is None:
        house.models[past.brief] = plans.make_plan(by=tobiah, sitting=sitting)
        return house.models[past.brief]
    request = snapshot.request_for(sitting)
    frozen = snapshot.frozen_input(request)
    names = dict(zip((s["label"] for s in model.request["sitters"]), past.people, strict=True))
    document = scenario_truth.dialled(model.document, frozen["kit"], _known(model.request), _known(frozen))
    fingerprint = codec.fingerprint(request)
    document = blanking.renamed(document, names) | {"fingerprint": fingerprint}
    return Plan.objects.create(
        sitting=sitting, number=1, request=frozen, document=document,
        fingerprint=fingerprint, made_at=clock.now(), made_by=tobiah,
    )  # fmt: skip


def _brief(house: _House, past: Past) -> Tree:
    """The example's brief for these people; the joinery's look comes from its standard, and no steady light was asked
    for."""
    tree: Tree = json.loads(json.dumps(house.trees[past.brief]["brief"]))
    tree |= {"setups": [s for s in tree["setups"] if s["name"] != "steady"], "must": [], "wished": [], "props": []}
    tree |= {"purpose": past.purpose, "standard": None}
    if past.client == ASKEW:
        tree["print_width_cm"] = 30
    for setup in tree["setups"]:
        setup["people"] = list(past.people)
        setup["name"] = {"the bellfounder": "the portrait", "with the viola": "with the instrument"}.get(
            setup["name"], setup["name"]
        )
    return tree


def _known(request: Mapping[str, Any]) -> dict[tuple[str, str], float]:
    return {(c["head"], c["modifier"]): float(c["offset_stops"]) for c in request.get("corrections") or ()}


def _metered(house: _House, past: Past, plan: Plan) -> None:
    """The round of each set-up, lights turned to their targets, some kept as shot, and the signature."""
    ines, at = house.people["ines"], plan.sitting.starts_at + FIRST
    record = Record.objects.create(plan=plan, opened_at=at)
    known, heads = _known(plan.request), {h["id"]: h for h in plan.request["kit"]["heads"]}
    readings, changes = [], []
    for setup in plan.setups:
        for step in setup["meter_round"]:
            at += METERING
            stops, light, target = scenario_truth.reading(setup, step, known, past.ago)
            taught: Tree = {}
            if light is not None:
                pair = (light["head"], light["modifier"])
                taught = {
                    "head": pair[0], "modifier": pair[1], "expected": Decimal(str(round(target, 2))),
                    "corrected": Decimal(str(round(known.get(pair, 0.0), 2))),
                }  # fmt: skip
                off = float(stops) - target
                if abs(off) > scenario_truth.TURNED_FROM:
                    actual = scenario_truth.dial(heads, light, off)
                    changes.append(_turned(record, setup["name"], light, actual, at, ines))
            readings.append(_reading(record, setup["name"], step["step"], stops, at, ines, taught))
    Reading.objects.bulk_create(readings)
    Change.objects.bulk_create(changes)
    with clock.standing(plan.sitting.starts_at):
        _as_shot(past, record, ines)
    Record.objects.filter(pk=record.pk).update(
        closed_at=plan.sitting.ends_at, closed_by=ines, version=record.version + 1
    )


def _reading(
    record: Record, setup_name: str, step: int, stops: Decimal, at: datetime, by: Member, taught: Tree
) -> Reading:
    typed = shown_stops(stops).removeprefix("f/")
    return Reading(
        record=record, setup_name=setup_name, step=step, stops=stops, as_typed=typed, at=at, by=by, **taught
    )


def _turned(record: Record, setup_name: str, light: Tree, actual: str, at: datetime, by: Member) -> Change:
    return Change(
        record=record, setup_name=setup_name, about=light["letter"], what="power", planned=light["dial"], actual=actual,
        at=at + timedelta(minutes=1), by=by,
    )  # fmt: skip


# As shot, by days ago: the set-up, what was otherwise, why; and why it failed, where it did.
AS_SHOT: dict[int, tuple[str, dict[tuple[str, str], Any], str, str]] = {
    357: ("the pair", {("A", "distance_m"): 1.95, ("camera", "aperture"): 7.1}, "softer on her far side", ""),
    LAST_YEAR: ("house standard", {("A", "centre_height_m"): 1.9}, "the hook under the beam", ""),
    57: ("with the instrument", {}, "", "the case shone in every frame; black cloth over it was not enough"),
    JOINED: ("house standard", {}, "", ""),
}


def _as_shot(past: Past, record: Record, ines: Member) -> None:
    if past.ago not in AS_SHOT:
        return
    name, typed, why, failed = AS_SHOT[past.ago]
    built = as_shot.copy_plan(by=ines, record=record, setup_name=name)
    if typed or failed:
        as_shot.change(
            by=ines, built=built, typed=typed, seen=built.version, failed=bool(failed), why_failed=failed, why=why
        )


def _forgotten(house: _House) -> None:
    """What each night's purge took out of those whose day has come; the Askews' notes may stay."""
    for past in YEAR:
        if past.ago - 12 <= KEPT_DAYS or past.client == ASKEW:
            continue
        plan = Plan.objects.select_related("sitting__client").get(
            sitting__client__name=past.client, sitting__sitters__label=past.people[0]
        )
        gone = scenario_clocks.at(house.day - timedelta(days=past.ago - 12 - KEPT_DAYS), 3)
        with clock.standing(gone):
            scenario_frames.forget(plan.sitting, list(past.people))
