"""Reads for the pages of the shot list: the rows to start from, what of it is taken, how long pictures really took."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from bookings.models import Sitting
from shotplans.models import Plan, SetTap, ShotList, ShotListEdit
from shotplans.planner import shotlist
from shotplans.planner.words.poses import NAMES

OWN_WEIGHT = 8  # pictures that the house's rule counts for against what was measured
SHOWN = 20  # changes of the list on its page
NEWEST = 500  # ticks that are learned from
LONGEST_MIN = 30.0  # a gap longer than this was a break


@dataclass(frozen=True)
class Shot:
    """One picture of a plan with its newest tap."""

    shot: Mapping[str, Any]
    tap: SetTap | None

    @property
    def says(self) -> str:
        """What is said at it, without the card that stands below."""
        if "words" not in self.shot:
            return str(self.shot["cue"])  # a plan of before there were cards
        return " ".join(own for own in (self.shot["words"], shotlist.last_said(self.shot.get("last", ()))) if own)

    @property
    def is_taken(self) -> bool:
        return self.tap is not None and self.tap.done


def rows(sitting: Sitting, plan: Plan | None) -> list[dict[str, Any]]:
    """What the page starts from: the photographer's own rows, else what the plan has; proposals after it, not kept."""
    keys = {s.label: str(s.pk) for s in sitting.sitters.all()}
    own = ShotList.objects.filter(sitting=sitting).first()
    shots = plan.document["shots"] if plan else []
    found = [{**row, "who": [str(pk) for pk in row["who"]], "keep": True} for row in own.rows] if own else []
    if not found:
        found = [_row(s, keys, keep=True) for s in shots]
    said = {(row["words"], row["setup"]) for row in found}
    more = [_row(s, keys, keep=False) for s in (plan.document.get("shots_proposed", []) if plan else [])]
    return [*found, *(row for row in more if (row["words"], row["setup"]) not in said)]


def suggested(sitting: Sitting) -> list[dict[str, Any]]:
    """What the current plan has, in the shape of the photographer's own rows."""
    plan = Plan.objects.of(sitting).current().first()
    keys = {s.label: s.pk for s in sitting.sitters.all()}
    shots = plan.document["shots"] if plan else []
    rows = (_row(s, keys, keep=True) for s in shots)
    return [{"words": r["words"], "who": r["who"], "must": r["must"], "setup": r["setup"], "card": None} for r in rows]


def _row(shot: Mapping[str, Any], keys: Mapping[str, Any], *, keep: bool) -> dict[str, Any]:
    return {"words": shot.get("words", ""), "who": [keys[w] for w in shot["who"] if w in keys],
            "must": bool(shot.get("must")), "setup": shot["setup"], "card": "", "keep": keep}  # fmt: skip


@dataclass(frozen=True)
class Edit:
    """What was set of the list once: sentences that went and that came."""

    edit: ShotListEdit
    gone: list[str]
    new: list[str]


def history(sitting: Sitting) -> list[Edit]:
    """Newest first; people by the names they have today."""
    labels = {s.pk: s.label for s in sitting.sitters.all()}
    edits = ShotListEdit.objects.filter(sitting=sitting).select_related("by")[:SHOWN]
    return [Edit(one, *([_said(row, labels) for row in rows] for rows in (one.before, one.after))) for one in edits]


def _said(row: Mapping[str, Any], labels: Mapping[int, str]) -> str:
    """A row as one line: its sentence, and who it is of, its rank and its card."""
    who = ", ".join(labels[pk] for pk in row["who"] if pk in labels)
    card = _(NAMES[row["card"]]) if row["card"] in NAMES else ""
    more = "; ".join(part for part in (who, _("must") if row["must"] else "", card) if part)
    return " ".join(part for part in (row["words"], f"({more})" if more else "") if part)


def asked(sitting: Sitting) -> dict[str, Any]:
    """The photographer's list as the brief has it; nothing where the suggested one holds."""
    own = ShotList.objects.filter(sitting=sitting).first()
    if own is None or not own.rows:
        return {}
    labels = {s.pk: s.label for s in sitting.sitters.all()}
    names = {s["name"] for s in sitting.brief.data.get("setups", [])}
    shots = [
        {"words": row["words"], "who": [labels[pk] for pk in row["who"] if pk in labels], "must": row["must"],
         "setup": row["setup"] if row["setup"] in names else None, "card": row["card"]}
        for row in own.rows
    ]  # fmt: skip
    return {"shots": shots, "shots_in_order": own.in_order}


def taken(plan: Plan) -> list[Shot]:
    """Every picture with the newest tap about it, of whichever version of the plan."""
    taps = SetTap.objects.filter(plan__sitting=plan.sitting_id, on=SetTap.On.SHOTS).select_related("by")
    newest = {tap.code: tap for tap in taps}
    return [Shot(s, newest.get(s.get("key", ""))) for s in plan.document["shots"]]


def shrunk(rule: float, measured: list[float]) -> float:
    """A mean drawn towards the rule, minutes: the rule counts for eight measurements. Common practice, no source."""
    return round((OWN_WEIGHT * rule + sum(measured)) / (OWN_WEIGHT + len(measured)), 1)


def gaps() -> tuple[list[float], list[float]]:
    """Minutes between one tick and the next of a plan: of pictures in one set-up, and of changes of set-up."""
    within: list[float] = []
    across: list[float] = []
    before: SetTap | None = None
    newest = SetTap.objects.filter(on=SetTap.On.SHOTS, done=True).order_by("-pk")[:NEWEST]
    for tap in sorted(newest, key=lambda one: (one.plan_id, one.at, one.pk)):
        if before is not None and before.plan_id == tap.plan_id:
            minutes = (tap.at - before.at).total_seconds() / 60
            if 0.2 <= minutes <= LONGEST_MIN:
                (within if before.setup_name == tap.setup_name else across).append(minutes)
        before = tap
    return within, across
