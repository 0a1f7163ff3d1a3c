"""The numbers to expect of a moved set, as name and value, each beside the suggested one where it differs.

Belongs here: which of a set-up's numbers follow a hand at once. Not here: wording what the plan's page shows as well
(`expected_words`), the values a hand may type (`live_rows`).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from shotplans import expected_words
from shotplans.sheets import wording
from shotplans.sheets.measures import Measures

Entry = dict[str, Any]
MOST_FACES = 3  # with more, their ends and counts


@dataclass(frozen=True)
class Number:
    """One number to expect, with the suggested one where it differs."""

    name: str
    value: str
    was: str


def numbers(entry: Entry, convention: str, ways: Measures) -> Iterator[tuple[str, str]]:
    """Name and value; the same names in the same order for every state of a set-up."""
    plain = {**entry["expected"], "setting_uncertainty_stops": None}
    yield from expected_words.rows(plain, convention, ways)
    for light in entry["lights"]:
        alone = next((s for s in entry["meter_round"] if s["on"] == [light["letter"]]), None)
        words = _("%(n).0f° above the eyes") % {"n": light["height_angle_deg"]}
        if alone:
            words += _(", alone %(reading)s") % {"reading": alone["target"]["shown"]}
        if light["power_below_full_stops"] is not None:
            words += f", {wording.power(light['dial'], light['power_below_full_stops'])}"
        words += f", {light['stand'] or _('no stand holds it')}"
        yield _("Light %(letter)s") % {"letter": light["letter"]}, words
    ground = entry["background"]
    yield _("Ground"), f"L* {ground['lightness']:.0f}, {ways.length(ground['distance_m'])}"
    faces = entry["expected"]["per_sitter"]
    yield from _many(faces) if len(faces) > MOST_FACES else _few(faces)


def _few(faces: list[Entry]) -> Iterator[tuple[str, str]]:
    for sitter in faces:
        found = expected_words.face(sitter)
        yield _("Relief, %(who)s") % {"who": found.label}, found.relief
        yield _("Catchlights, %(who)s") % {"who": found.label}, "; ".join(found.catchlights)
        if found.glasses:
            yield _("Glasses, %(who)s") % {"who": found.label}, "; ".join(found.glasses)


def _many(faces: list[Entry]) -> Iterator[tuple[str, str]]:
    """Of a group the two ends and the counts: face by face it stands in the kept plan."""
    least, most = (end(faces, key=lambda f: f["relief_stops"]) for end in (min, max))
    ends = [f"{f['relief_stops']:.2f} ({f['label']})" for f in (least, most)]
    yield _("Relief, least and most"), ", ".join(ends)
    for letter in dict.fromkeys(str(c["light"]) for f in faces for c in f["catchlights"]):
        both = sum(sum(c["seen"] for c in f["catchlights"] if c["light"] == letter) == 2 for f in faces)
        words = _("both eyes of %(n)d of %(of)d") % {"n": both, "of": len(faces)}
        yield _("Catchlights of %(letter)s") % {"letter": letter}, words
    margins = [(g["margin_deg"], f["label"]) for f in faces for g in f["glasses"]]
    if margins:
        least_deg, label = min(margins)
        yield _("Glasses, the nearest to glare"), f"{expected_words.off_the_lens(least_deg)} ({label})"
