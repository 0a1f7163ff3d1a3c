"""Reads for "same as last time": which plan was last, what it was as shot, and the brief that asks for it again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from bookings.models import Sitting
from shotplans import noted_lengths, snapshot
from shotplans.models import Plan
from shotplans.planner.words import roles
from shotplans.records import again, as_shot


@dataclass(frozen=True)
class Once:
    """One set-up as it was shot."""

    setup: dict[str, Any]
    data: dict[str, Any]


@dataclass(frozen=True)
class LeftOut:
    """A set-up of last time that is not asked for again, and why."""

    name: str
    why: str


@dataclass(frozen=True)
class Wanted:
    """The brief that asks for last time's light, each set-up with its own, and what stands in for what is gone."""

    brief: dict[str, Any]
    swaps: list[again.Swap]
    last: Plan
    once: list[Once]
    left_out: list[LeftOut]
    asks_now: int  # set-ups of the brief that stands today, 0 for none: last time's take their place
    has_locked: bool  # by a company's standard, which a plan leaves only with a reason


def last_plan(sitting: Sitting) -> Plan | None:
    """The plan of the client's sitting before this one, of those that have a light."""
    before = Plan.objects.current().filter(sitting__client=sitting.client_id, sitting__starts_at__lt=sitting.starts_at)
    found = before.select_related("sitting", "record").order_by("-sitting__starts_at").first()
    return found if found and any(s["lights"] for s in found.setups) else None


def _left_out(plan: Plan) -> list[LeftOut]:
    record = getattr(plan, "record", None)
    why = {b.setup_name: b.why_failed or _("did not work") for b in record.built.filter(failed=True)} if record else {}
    why |= {s["name"]: _("it had no light") for s in plan.setups if not s["lights"]}
    return [LeftOut(s["name"], why[s["name"]]) for s in plan.setups if s["name"] in why]


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
    """Last time's brief for today's people, purpose and kit, each set-up with its own light as shot; None without
    one."""
    last = last_plan(sitting)
    once = shot(last) if last else []
    if last is None or not once:
        return None
    tree = {k: v for k, v in last.request["brief"].items() if v is not None and k != "event_in_days"}
    labels, then = [s.label for s in sitting.sitters.all()], {s["label"] for s in last.request["sitters"]}
    asked = {s["name"]: s for s in tree["setups"]}
    once = [o for o in once if o.setup["name"] in asked]
    company, today = snapshot.company_standard(sitting), snapshot.free_kit(sitting)
    if company is not None:
        tree["standard"] = company.tree
    tree["setups"], swaps = [], []
    for one in once:
        setup = asked[one.setup["name"]]
        former = tree.get("standard") or setup.get("standard")
        look, swap = again.standard(one.data, one.setup, former, last.request["kit"], today)
        tree["setups"].append(setup | {"people": _people(setup, labels, then), "standard": look})
        swaps += [swap] if swap and swap not in swaps else []
    tree["props"] = [_prop(p, labels) for p in tree.get("props") or ()]
    if (side := again.key_side([o.data for o in once])) is not None:
        tree["key_side"] = side
    brief = getattr(sitting, "brief", None)
    return Wanted(
        tree | _for_today(sitting), swaps, last, once, _left_out(last), len(brief.data["setups"]) if brief else 0,
        bool(company and company.locked_values),
    )  # fmt: skip


def _people(setup: dict[str, Any], labels: list[str], then: set[str]) -> list[str]:
    """Who sits in a set-up now: the same people where they were some of those who came and all come again, else
    everybody."""
    people = setup.get("people") or []
    some = 0 < len(people) < len(then)
    return people if some and set(people) <= set(labels) else labels


def _for_today(sitting: Sitting) -> dict[str, Any]:
    """What today's brief, or the booking, says of what the picture is for; nothing of it where neither does."""
    brief = getattr(sitting, "brief", None)
    wide = sitting.print_width_cm
    said = {"purpose": sitting.purpose, "print_width_cm": float(wide) if wide else None}
    if brief is not None:
        said = {name: brief.data.get(name) or value for name, value in said.items()}
    return {name: value for name, value in said.items() if value} | {"minutes": sitting.minutes}


def _prop(prop: dict[str, Any], labels: list[str]) -> dict[str, Any]:
    return {k: v for k, v in prop.items() if v is not None and (k != "held_by" or v in labels)}


def beside_last(plan: Plan, units: str) -> list[tuple[str, as_shot.Difference]]:
    """Where a plan made as last time is not as it was shot then, set-up by set-up, lengths in the reader's units."""
    brief = getattr(plan.sitting, "brief", None)
    last = brief.again_of if brief else None
    if last is None:
        return []
    then = {o.setup["name"]: o.data for o in shot(last)}
    return [
        (setup["name"], noted_lengths.in_units(units, one))
        for order, setup in enumerate(plan.setups, 1)
        if setup["name"] in then and setup["lights"]
        for one in _otherwise(then[setup["name"]], as_shot.copied(setup, order))
    ]


def _otherwise(then: as_shot.Tree, now: as_shot.Tree) -> list[as_shot.Difference]:
    """Light by light of the same role, for letters are given anew in each plan; a light that only one of them has is
    said whole."""
    left, both, added = list(then["lights"]), [], []
    for light in now["lights"]:
        was = next((x for x in left if x["role"] == light["role"]), None)
        if was is None:
            added.append(light)
        else:
            left.remove(was)
            both.append((was | {"letter": light["letter"]}, light))
    was_lit, is_lit = ([pair[n] for pair in both] for n in (0, 1))
    return [
        *as_shot.differences(then | {"lights": was_lit}, now | {"lights": is_lit}),
        *(as_shot.Difference(x["letter"], roles.said(x["role"]), _("none"), _made_of(x)) for x in added),
        *(as_shot.Difference(x["letter"], roles.said(x["role"]), _made_of(x), _("none")) for x in left),
    ]


def _made_of(light: as_shot.Tree) -> str:
    return str(light["modifier"] or light["panel"] or light["head"])
