"""Reads for "same as last time": which plan was last, what it was as shot, and the brief that asks for it again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from bookings.models import Sitting
from shotplans import snapshot
from shotplans.models import Plan
from shotplans.records import again, as_shot


@dataclass(frozen=True)
class Once:
    """One set-up as it was shot."""

    setup: dict[str, Any]
    data: dict[str, Any]


@dataclass(frozen=True)
class Wanted:
    """The brief that asks for last time's light, and what stands in for what is gone."""

    brief: dict[str, Any]
    swap: again.Swap | None
    last: Plan


def last_plan(sitting: Sitting) -> Plan | None:
    """The plan of the client's sitting before this one, of those that have a light."""
    before = Plan.objects.current().filter(sitting__client=sitting.client_id, sitting__starts_at__lt=sitting.starts_at)
    found = before.select_related("sitting", "record").order_by("-sitting__starts_at").first()
    return found if found and any(s["lights"] for s in found.setups) else None


def shot(plan: Plan) -> list[Once]:
    """Every set-up of a plan as it was shot, in the order it was shot; where nothing was kept, as planned with what was
    noted. Those that did not work are left out."""
    record = getattr(plan, "record", None)
    built = {b.setup_name: b for b in record.built.all()} if record else {}
    noted = list(record.changes.order_by("pk")) if record else []
    found = []
    for order, setup in enumerate(plan.setups, 1):
        held = built.get(setup["name"])
        if not setup["lights"] or (held and held.failed):
            continue
        data = held.data if held else as_shot.copied(setup, order)
        if held is None:
            for change in noted:
                if change.setup_name == setup["name"]:
                    as_shot.put_noted(data, change.about, change.what, change.actual)
        found.append(Once(setup, data))
    return sorted(found, key=lambda once: int(once.data["order"]))


def wanted(sitting: Sitting) -> Wanted | None:
    """Last time's brief with the light as shot for its standard, for today's people and kit; None without one."""
    last = last_plan(sitting)
    once = shot(last) if last else []
    if last is None or not once:
        return None
    tree = {k: v for k, v in last.request["brief"].items() if v is not None and k != "event_in_days"}
    labels = [s.label for s in sitting.sitters.all()]
    asked = {s["name"]: s for s in tree["setups"]}
    tree["setups"] = [_setup(asked[o.setup["name"]], labels) for o in once if o.setup["name"] in asked]
    tree["props"] = [_prop(p, labels) for p in tree.get("props") or ()]
    standard, swap = again.standard(
        once[0].data, once[0].setup, tree.get("standard"), last.request["kit"], snapshot.free_kit(sitting)
    )
    return Wanted(tree | {"standard": standard, "minutes": sitting.minutes}, swap, last)


def _setup(setup: dict[str, Any], labels: list[str]) -> dict[str, Any]:
    """The set-up for those who come now: the same people where they all come again, else everybody."""
    people = setup.get("people") or []
    return setup | {"people": people if people and set(people) <= set(labels) else labels}


def _prop(prop: dict[str, Any], labels: list[str]) -> dict[str, Any]:
    return {k: v for k, v in prop.items() if v is not None and (k != "held_by" or v in labels)}


def beside_last(plan: Plan) -> list[tuple[str, as_shot.Difference]]:
    """Where a plan made as last time is not as it was shot then, set-up by set-up."""
    brief = getattr(plan.sitting, "brief", None)
    last = brief.again_of if brief else None
    if last is None:
        return []
    then = {o.setup["name"]: o.data for o in shot(last)}
    return [
        (setup["name"], one)
        for order, setup in enumerate(plan.setups, 1)
        if setup["name"] in then and setup["lights"]
        for one in as_shot.differences(then[setup["name"]], as_shot.copied(setup, order))
    ]
