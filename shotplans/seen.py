"""Reads for "Seeing the light" on the photographer's plan page: each set-up's small drawings with their words.

Belongs here: making them of a frozen plan, kept by its fingerprint in the process's own memory, never in a row or a
file. Not here: the drawings themselves (`seeing`), or who may open the page.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django.core.cache import cache
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shotplans import expected_words, heads
from shotplans.models import Plan
from shotplans.planner.expect import Meter
from shotplans.planner.people import Seated
from shotplans.planner.plan import Solved
from shotplans.planner.sitter_view import SHOWS_DEG
from shotplans.seeing import evenness, eye, sway, told
from shotplans.sheets import svg, wording
from shotplans.sheets.measures import METRIC, Measures

KEPT_S = 24 * 3600
DRAWN = 5  # raised when a drawing changes, so that none of the former kind is shown
VISIBLE_STOPS = 0.5


@dataclass(frozen=True)
class Seen:
    """One drawing on the page: what it shows, the `<svg>`, and sentences that say it again."""

    title: str
    drawing: str
    words: tuple[str, ...]


@dataclass(frozen=True)
class Shown:
    """What one set-up shows."""

    setup: str
    number: int
    drawings: tuple[Seen, ...]
    plates: tuple[tuple[int, str, str], ...]  # of the head: which way, its name, the picture in words


def of(plan: Plan, measures: Measures = METRIC) -> list[Shown]:
    """Every set-up with a light, in the plan's order; nothing of one whose document is too old to be placed again."""
    key = f"seen-{DRAWN}-{plan.pk}-{plan.fingerprint}-{bool(plan.blanked_at)}-{measures.units}"
    found: list[Shown] | None = cache.get(key)
    if found is None:
        found = list(_drawn(plan, measures))
        cache.set(key, found, KEPT_S)
    return found


def _drawn(plan: Plan, measures: Measures) -> Iterator[Shown]:
    request = plan.filled_request
    for number, entry in enumerate(plan.setups, start=1):
        meter = heads.meter_at(request, entry)
        if meter is None:
            continue
        name = f"seen-{number}"
        drawings = [*_evenness(meter, measures, name), _sway(meter, measures, name)]
        drawings += _eyes(meter, entry["expected"]["per_sitter"], name)
        yield Shown(str(entry["name"]), number, tuple(drawings), heads.named(request, meter, entry))


def _evenness(meter: Meter, measures: Measures, name: str) -> Iterator[Seen]:
    found = evenness.see(meter, measures)
    if found is None:
        return
    who = [
        _("%(n)s %(label)s %(stops)s") % {"n": n, "label": f.label, "stops": evenness.signed(f.stops)}
        for n, f in enumerate(found.faces, start=1)
    ]
    words = [
        _("Lines of equal reading at face height, every %(step)g stop, against the reading that sets the camera. "
          "The faces differ by %(spread)s.")
        % {"step": found.step_stops, "spread": wording.stops(found.spread_stops)},
    ]  # fmt: skip
    if found.spread_stops > VISIBLE_STOPS:
        words.append(_("More than half a stop between faces shows: take the key farther back or nearer to the lens."))
    if found.numbered:
        words.append(_("From the left: %(who)s.") % {"who": ", ".join(who)})
    yield Seen(_("Evenness over the group"), svg.render(found.drawing, f"{name}-evenness"), tuple(words))


def _sway(meter: Meter, measures: Measures, name: str) -> Seen:
    found = sway.see(meter, measures)
    said = measures.near if measures.is_imperial else measures.length  # hand's breadths, not feet
    tenths = {"m": said(found.sway_m), "near": _tenths(found.nearer_stops)}
    words = [
        _("%(m)s nearer to the key: %(near)s more; as far back: %(far)s less.")
        % (tenths | {"far": _tenths(found.farther_stops)}),
        _("A tenth less is %(m)s farther back.") % {"m": said(abs(found.tenth_m))},
    ]
    if found.law_off_stops >= sway.TOLD_APART_STOPS:
        words.append(
            _("Dashed: a small light of the same reading. A large front gains less near in, by up to %(n)s.")
            % {"n": wording.stops(found.law_off_stops)}
        )
    return Seen(_("Light by distance from the key"), svg.render(found.drawing, f"{name}-sway"), tuple(words))


def _tenths(stops: float) -> str:
    count = round(abs(stops) * 10)
    return ngettext("%(n)d tenth of a stop", "%(n)d tenths of a stop", count) % {"n": count}


def _eyes(meter: Meter, per_sitter: list[dict[str, Any]], name: str) -> Iterator[Seen]:
    by_label = {s.person.label: s for s in meter.solved.pose.together}
    shown = [entry for entry in per_sitter if entry["label"] in by_label]
    drawn = eye.worth_drawing(shown)
    for n in drawn:
        label = str(shown[n]["label"])
        words = tuple(_in_words(meter.solved, by_label[label], shown[n]))
        if n == drawn[0] and len(drawn) < len(shown):
            words = (*words, _("All whose eyes are not drawn here show the same lights."))
        drawing = svg.render(eye.see(meter.solved, by_label[label]), f"{name}-eyes-{n}")
        yield Seen(_("The eyes of %(who)s") % {"who": label}, drawing, words)


def _in_words(solved: Solved, sitter: Seated, entry: dict[str, Any]) -> Iterator[str]:
    """Light by light and eye by eye, in clock terms, or what is in the way; then what covers a lens of the glasses."""
    lights = {light.letter: light for light in solved.lights}
    for row in entry["catchlights"]:
        where = _("left eye") if row["image_side"] == "left" else _("right eye")
        said = expected_words.in_eye(row)
        if not row["seen"] and (high := told.too_high_by(lights[row["light"]], sitter, row["image_side"])):
            said = _("%(why)s: it stands %(stands).0f° up, and up to %(most).0f° the eye would show it") % {
                "why": said, "stands": high[1], "most": high[0],
            }  # fmt: skip
        yield f"{row['light']}, {where}: {said}"
    for row in entry["glasses"]:
        if row["margin_deg"] < SHOWS_DEG:
            for side, share in told.covered(lights[row["light"]], sitter, solved.camera.at).items():
                where = _("left lens of the glasses") if side == "left" else _("right lens of the glasses")
                yield f"{row['light']}, {where}: " + _("covers %(n).0f %% of it") % {"n": max(1.0, 100 * share)}
