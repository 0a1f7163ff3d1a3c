"""What stands in the way of a plan before its day: a piece that is not ready, or held by another sitting then, or a
battery that cannot recharge between two sittings. Belongs here: finding it in a few questions, however many sittings
there are, with an owned stand-in. Not here: planning anew (`actions.plans`), the sums (`records.stand_in`, `charging`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import starmap
from typing import Any, NamedTuple

from django.utils import timezone
from django.utils.translation import gettext as _

from bookings.models import Claim, ResourceKind
from bookings.models.sittings import OFF
from bookings.slots import Span
from shotplans import snapshot
from shotplans.models import PackingTap, Plan
from shotplans.planner import charging
from shotplans.records import again
from shotplans.records.stand_in import StandIn, stand_in
from studio.days import midnight
from studio.models import KIT, KitItem

AHEAD = timedelta(days=8)  # a day and the week after it


@dataclass(frozen=True)
class Clash:
    """One thing in the way of one plan: what it is, as a sentence, and what would do instead."""

    plan: Plan
    item: str
    says: str
    instead: StandIn | None = None


@dataclass(frozen=True)
class InTheWay:
    """All that is in the way of one plan."""

    plan: Plan
    clashes: tuple[Clash, ...]

    @property
    def why(self) -> str:
        """The reason of a new version."""
        return "; ".join(one.says.rstrip(".") for one in self.clashes)[:200]


def by_plan(clashes: Iterable[Clash]) -> list[InTheWay]:
    """The same plan by plan, in the order the plans come."""
    found: dict[int, list[Clash]] = {}
    for one in clashes:
        found.setdefault(one.plan.pk, []).append(one)
    return [InTheWay(of[0].plan, tuple(of)) for of in found.values()]


def from_day(day: date, read: Iterable[Plan] = ()) -> list[Clash]:
    """Of the sittings of a day and of the week after it; `read`: plans of that day which the page has read already."""
    start, known = midnight(day), list(read)
    rows = _current().filter(sitting__starts_at__gte=start, sitting__starts_at__lt=start + AHEAD)
    plans = [*rows.exclude(pk__in=[plan.pk for plan in known]), *(p for p in known if not _is_past(p))]
    return _found(sorted(plans, key=lambda plan: (plan.sitting.starts_at, plan.pk)))


def of_plan(plan: Plan) -> list[Clash]:
    """Of one plan, and of the batteries it shares with the sittings of its day; nothing of one that is over."""
    return [] if _is_past(plan) else _of_one(plan, _claims([plan]))


def beside(plan: Plan) -> tuple[list[Clash], list[str]]:
    """The same, and what the plan was made without, asking once who holds what."""
    if _is_past(plan):
        return [], []
    claims = _claims([plan])
    return _of_one(plan, claims), _without(plan, claims)


def _of_one(plan: Plan, claims: Mapping[int, list[Held]]) -> list[Clash]:
    return _of_kit([plan], claims) + (_of_shared_batteries(plan) if _uses(plan) else [])


def _without(plan: Plan, claims: Mapping[int, list[Held]]) -> list[str]:
    """What another sitting holds then: heads, modifiers and booms, of which nothing like them was left. Sentences;
    three questions, none where nobody else holds anything."""
    span, kit = plan.sitting.spans.whole, plan.request["kit"]
    others = ((pk, [c for c in of if _meets(c, plan, span)]) for pk, of in claims.items())
    held = {pk: of[-1] for pk, of in others if of}
    if not held:
        return []
    had = {piece["id"] for section in LIKE for piece in kit.get(section) or ()}
    found = []
    for section, alike in LIKE.items():
        left = {alike(piece) for piece in kit.get(section) or ()}
        for row in KIT[section].objects.free().filter(pk__in=held).exclude(code__in=had).order_by("code"):
            sort = alike(snapshot.piece(section, row))
            if sort is not None and sort not in left:
                found.append(_holds(row.code, held[row.pk]))
    return found


def _is_past(plan: Plan) -> bool:
    """Whether nothing of it will be built any more."""
    return plan.superseded_at is not None or plan.sitting.stage in OFF or plan.blanked_at is not None


def _size(piece: dict[str, Any]) -> tuple[str, float] | None:
    return str(piece["kind"]), round(again.size_m(piece), 1)


LIKE: dict[str, Callable[[dict[str, Any]], object | None]] = {
    "heads": lambda piece: piece["mount"],
    "modifiers": _size,
    "stands": lambda piece: piece["kind"] if piece["kind"] == "boom" else None,
}


def _current() -> Any:
    rows = Plan.objects.current().filter(blanked_at=None).exclude(sitting__stage__in=OFF)
    return rows.select_related("sitting__room", "sitting__client").order_by("sitting__starts_at", "pk")


def _found(rows: Iterable[Plan]) -> list[Clash]:
    plans = list(rows)
    return _of_kit(plans, _claims(plans)) + _batteries(plans)


def _of_kit(plans: Sequence[Plan], claims: Mapping[int, list[Held]]) -> list[Clash]:
    used = {plan.pk: {row["item"] for row in plan.document["packing"]} for plan in plans}
    codes = set().union(*used.values()) if used else set()
    pieces = {p.code: p for p in KitItem.objects.filter(code__in=codes)} if codes else {}
    clashing = []
    for plan in plans:
        span = plan.sitting.spans.whole
        for code in sorted(used[plan.pk] & pieces.keys()):
            piece, says = pieces[code], ""
            claim = next((c for c in claims.get(piece.pk, ()) if _meets(c, plan, span)), None)
            if piece.state in _AWAY:
                says = _("%(piece)s is %(state)s.") % {"piece": code, "state": piece.get_state_display()}
            elif claim is not None:
                says = _holds(code, claim)
            if says:
                clashing.append((plan, piece, says))
    sections = {piece.section for _plan, piece, _says in clashing}
    kit = _Kit(claims, snapshot.ready_kit(sections) if sections else {})
    found = [Clash(plan, piece.code, says, _instead(plan, piece, kit)) for plan, piece, says in clashing]
    return _without_rings_taken_instead(found, {code for code, piece in pieces.items() if piece.section == "adapters"})


def _without_rings_taken_instead(found: list[Clash], rings: set[str]) -> list[Clash]:
    """Packing may have taken another ring along for one that is not to be had; asked where a ring is in the way."""
    wanted = rings & {one.item for one in found}
    days = {timezone.localdate(one.plan.sitting.starts_at) for one in found}
    taps = PackingTap.objects.filter(day__in=days, item__in=wanted) if wanted else ()
    taken = {(tap.day, tap.where, tap.item): tap.instead for tap in taps}  # the model's order is the oldest first
    return [one for one in found if not taken.get(_of_packing(one.plan, one.item))]


def _of_packing(plan: Plan, item: str) -> tuple[date, str, str]:
    """Which day's list has a thing of a plan: one of its own away from the studio."""
    row = plan.sitting
    return timezone.localdate(row.starts_at), row.number if row.room.away else "", item


_AWAY = (KitItem.State.REPAIR, KitItem.State.LOST)  # on the charger today is no clash for a day to come


@dataclass
class _Kit:
    """Who holds what in the days asked for, and the ready pieces of the sections in which one clashes."""

    held: Mapping[int, list[Held]]
    ready: Mapping[str, list[tuple[int, dict[str, Any]]]]

    def free(self, plan: Plan, section: str) -> list[dict[str, Any]]:
        span = plan.sitting.spans.whole
        return [
            tree for pk, tree in self.ready.get(section, ())
            if pk not in self.held or not any(_meets(claim, plan, span) for claim in self.held[pk])
        ]  # fmt: skip


class Held(NamedTuple):
    """A claim of kit as it is asked for here: a busy week has hundreds, and no row of them is wanted whole."""

    piece_id: int
    sitting_id: int
    starts_at: datetime
    ends_at: datetime
    number: str
    room: str


def _claims(plans: Sequence[Plan]) -> dict[int, list[Held]]:
    """Claims of kit in the time of these plans, by piece: one question."""
    if not plans:
        return {}
    spans = [plan.sitting.spans.whole for plan in plans]
    rows = Claim.objects.filter(resource_kind=ResourceKind.KIT)
    rows = rows.during(min(s.starts_at for s in spans), max(s.ends_at for s in spans))
    found: dict[int, list[Held]] = {}
    asked = ("resource_id", "sitting_id", "starts_at", "ends_at", "sitting__number", "sitting__room__name")
    for claim in starmap(Held, rows.values_list(*asked)):
        found.setdefault(claim.piece_id, []).append(claim)
    return found


def _meets(claim: Held, plan: Plan, span: Span) -> bool:
    return claim.sitting_id != plan.sitting_id and claim.starts_at < span.ends_at and claim.ends_at > span.starts_at


def _holds(code: str, claim: Held) -> str:
    return _("%(piece)s is held by %(number)s in %(room)s from %(start)s to %(end)s.") % {
        "piece": code, "number": claim.number, "room": claim.room,
        "start": f"{timezone.localtime(claim.starts_at):%H:%M}", "end": f"{timezone.localtime(claim.ends_at):%H:%M}",
    }  # fmt: skip


def _instead(plan: Plan, piece: KitItem, kit: _Kit) -> StandIn | None:
    """What is free then and most like it."""
    wanted = next((p for p in plan.request["kit"].get(piece.section) or () if p["id"] == piece.code), None)
    if wanted is None:
        return None
    packed = {row["item"] for row in plan.document["packing"]}
    free = [p for p in kit.free(plan, piece.section) if p["id"] not in packed]
    key = {"heads": "head", "modifiers": "modifier", "adapters": "adapter", "stands": "stand"}.get(piece.section, "")
    lights = (x for setup in plan.setups for x in setup["lights"])
    light = next((x for x in lights if key and x[key] == piece.code), None)
    return stand_in(piece.section, wanted, free, light)


def _of_shared_batteries(plan: Plan) -> list[Clash]:
    """Of the batteries a plan shares with the sittings of its day."""
    start = midnight(timezone.localdate(plan.sitting.starts_at))
    same_day = _current().filter(sitting__starts_at__gte=start, sitting__starts_at__lt=start + timedelta(days=1))
    return [one for one in _batteries(list(same_day)) if one.plan.pk == plan.pk]


def _uses(plan: Plan) -> list[charging.Use]:
    span = plan.sitting.spans.whole
    return charging.uses(plan.sitting.number, plan.document, plan.request, span.starts_at, span.ends_at)


def _batteries(plans: Sequence[Plan]) -> list[Clash]:
    by_number = {plan.sitting.number: plan for plan in plans}
    found = [use for plan in plans for use in _uses(plan)]
    return [Clash(by_number[s.use.sitting], s.use.head, _lasts(s)) for s in charging.short(found)]


def _lasts(short: charging.Short) -> str:
    return _(
        "The battery of %(head)s needs %(share)d %% of a charge and has about %(left)d %% after %(before)s, "
        "%(minutes)d minutes earlier: bring a second one, charged."
    ) % {
        "head": short.use.head, "share": round(100 * short.use.share), "left": round(100 * short.left),
        "before": short.before.sitting, "minutes": short.minutes,
    }  # fmt: skip
