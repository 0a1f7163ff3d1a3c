"""What this studio's readings taught, out of the database: for plans, for the page, and for the plot of months.

Belongs here: which readings count. Not here: fitting (`records.corrections`), writing, or wording a page.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from functools import lru_cache
from statistics import median
from typing import Any

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from shotplans.models import Plan, Reading, Retired
from shotplans.planner.kit import MOST_CORRECTION_STOPS
from shotplans.records.corrections import Correction, Fit, Observation, fit_corrections
from studio.models import KitItem

SECONDS_A_DAY = 86_400
MOVED_STOPS = 0.2  # a plan made before says so once a correction of its lights has moved by as much


def observations() -> list[Observation]:
    """Every reading of one light alone that says something of its lamp: not put right, not from before a retirement."""
    until = _retired_until()
    rows = Reading.objects.exclude(head="").filter(cause="", expected__isnull=False).order_by("pk")
    found = []
    for pk, head, modifier, stops, expected, corrected, at in rows.values_list(
        "pk", "head", "modifier", "stops", "expected", "corrected", "at"
    ):
        gone = max((until[key] for key in ((head, ""), (head, modifier)) if key in until), default=None)
        if gone is None or at > gone:
            off = float(stops - expected + corrected)
            found.append(Observation(head, modifier, round(off, 2), at.timestamp() / SECONDS_A_DAY, pk))
    return found


def _retired_until() -> dict[tuple[str, str], datetime]:
    found: dict[tuple[str, str], datetime] = {}
    for head, modifier, at in Retired.objects.in_force().order_by("at").values_list("head", "modifier", "at"):
        found[head, modifier] = at
    return found


def fit() -> Fit:
    """What all readings that count teach today."""
    return _fitted(tuple(observations()))


@lru_cache(maxsize=4)
def _fitted(readings: tuple[Observation, ...]) -> Fit:
    """Fitting is a function of the readings alone, and every plan's page asks it of the same ones."""
    return fit_corrections(readings)


def for_kit(kit: Mapping[str, Iterable[Mapping[str, Any]]]) -> list[dict[str, Any]]:
    """The live corrections of a request's kit, in its own shape and one order: equal readings make equal plans."""
    known = fit()
    if not known.pairs:
        return []
    found = (known.of(str(head["id"]), str(modifier["id"])) for head in kit["heads"] for modifier in kit["modifiers"])
    return [_as_input(one) for one in found if one is not None]


def _as_input(one: Correction) -> dict[str, Any]:
    return {
        "head": one.head, "modifier": one.modifier,
        "offset_stops": _held(one.offset_stops),
        "standard_error_stops": round(one.standard_error_stops, 2), "readings": one.readings,
    }  # fmt: skip


def _held(offset_stops: float) -> float:
    """A correction as a plan takes it: no further than a request may say, which whoever reads the plan is told."""
    return round(max(-MOST_CORRECTION_STOPS, min(MOST_CORRECTION_STOPS, offset_stops)), 2) + 0.0


def is_beyond(offset_stops: float) -> bool:
    """Whether a correction is more than a plan takes: then it is held, and the readings are hardly of that lamp."""
    return abs(_held(offset_stops)) >= MOST_CORRECTION_STOPS


@dataclass(frozen=True)
class Used:
    """One light of a plan that stands on readings; `moved` says where they have gone since, empty where they have
    not; `is_held` that they say as much as a plan takes, or more."""

    letter: str
    setup_name: str
    offset_stops: float
    error_stops: float
    readings: int
    moved: str = ""
    is_held: bool = False


def used_in(plan: Plan, *, today: bool = True) -> list[Used]:
    """The corrections a plan was made with, light by light; and with `today`, what newer readings would say."""
    known = {(c["head"], c["modifier"]): c for c in plan.request.get("corrections") or ()}
    now = fit() if today else None
    found = []
    for setup in plan.setups:
        for light in setup["lights"]:
            pair = (light["head"], light["modifier"])
            held, newer = known.get(pair), now.of(*pair) if now and light["head"] else None
            before = float(held["offset_stops"]) if held else 0.0
            moved = newer is not None and abs(_held(newer.offset_stops) - before) >= MOVED_STOPS
            if held or moved:
                error, readings = (held["standard_error_stops"], held["readings"]) if held else (0.0, 0)
                found.append(
                    Used(
                        light["letter"], setup["name"], round(before, 1) + 0.0, float(error), int(readings),
                        f"{_held(newer.offset_stops):+.1f}" if moved and newer else "", is_beyond(before),
                    )
                )  # fmt: skip
    return found


@dataclass(frozen=True)
class Month:
    """How far readings lay from what was foretold in a month: the median, with corrections and with none."""

    first: date
    readings: int
    error_stops: float
    rated_stops: float


def months() -> list[Month]:
    """Foretold against read, month by month in the studio's zone; what was put right on the set is left out."""
    rows = Reading.objects.exclude(head="").filter(cause="", expected__isnull=False).order_by("pk")
    found: dict[date, list[tuple[float, float]]] = defaultdict(list)
    for stops, expected, corrected, at in rows.values_list("stops", "expected", "corrected", "at"):
        day = timezone.localdate(at)
        found[day.replace(day=1)].append((abs(float(stops - expected)), abs(float(stops - expected + corrected))))
    return [
        Month(first, len(pairs), median(told for told, _r in pairs), median(rated for _t, rated in pairs))
        for first, pairs in sorted(found.items())
    ]


@dataclass(frozen=True)
class Row:
    """One pair as the page shows it."""

    correction: Correction
    head: str
    modifier: str
    drifts: str

    @property
    def is_held(self) -> bool:
        return is_beyond(self.correction.offset_stops)


def rows(known: Fit) -> list[Row]:
    """All pairs that were read, with the kit's own names; a head that drifts says so on its first row."""
    codes = {code for pair in known.pairs for code in pair}
    called = dict(KitItem.objects.filter(code__in=codes).values_list("code", "label"))

    def name(code: str) -> str:
        return f"{called[code]} ({code})" if code in called else _("%(code)s, no longer in the kit") % {"code": code}

    found: list[Row] = []
    for c in known.pairs.values():
        said = found and found[-1].correction.head == c.head
        found.append(Row(c, name(c.head), name(c.modifier), "" if said else drift_words(known, c.head)))
    return found


def drift_words(known: Fit, head: str) -> str:
    """That a head changed and since when, as a sentence; empty where it did not."""
    drift = known.heads[head].drift
    if drift is None:
        return ""
    since = timezone.localtime(datetime.fromtimestamp(drift.day * SECONDS_A_DAY, tz=timezone.get_current_timezone()))
    said = {"n": f"{abs(drift.stops):.1f}", "day": date_format(since, "j F Y"), "count": drift.after}
    if drift.stops < 0:
        return _("This head gives %(n)s stop less since %(day)s; only its %(count)d readings since then count.") % said
    return _("This head gives %(n)s stop more since %(day)s; only its %(count)d readings since then count.") % said
