"""What is to be expected of a set-up, in words: its numbers by name, each face, how sure each reading is.

Belongs here: wording what a document computed, for the plan's page and for a set that is moved alike. Not here:
computing anything, or which of it a page shows (`plan_page`, `live_numbers`).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from shotplans.planner import uncertainty
from shotplans.planner.expect import sharp_without_end
from shotplans.planner.words import shown
from shotplans.sheets import wording
from shotplans.sheets.measures import Measures

Entry = dict[str, Any]


@dataclass(frozen=True)
class Face:
    """What the light does on one face, each a few words; empty where there is nothing to say."""

    label: str
    relief: str
    nose_shadow: str
    catchlights: tuple[str, ...]
    glasses: tuple[str, ...]


@dataclass(frozen=True)
class Doubt:
    """How sure one reading is and what that is made of, stops."""

    step: int
    stops: str
    parts: tuple[str, ...]


def rows(e: Entry, ratio_convention: str, measures: Measures) -> tuple[tuple[str, str], ...]:
    rows = [(shown("setting_reading"), _sure(e["setting_reading"]["shown"], e.get("setting_uncertainty_stops")))]
    rows += [
        (shown("fill_below_key_stops"), wording.ratio(e["fill_below_key_stops"], ratio_convention)),
        (shown("bounce_below_key_stops"), wording.below(e["bounce_below_key_stops"])),
        (shown("shadow_below_lit_stops"), wording.below(e["shadow_below_lit_stops"])),
    ]
    if e["worst_pair"] and len(e["per_sitter"]) > 1:
        alike, pair = wording.stops(e["evenness_stops"]), dict.fromkeys(e["worst_pair"])
        if len(pair) > 1:  # none is the worst where all are lit alike
            one, other = pair
            alike += _(" (%(one)s to %(other)s)") % {"one": one, "other": other}
        rows.append((shown("evenness_stops"), alike))
    far = _("the horizon") if sharp_without_end(e["sharp_to_m"]) else measures.signed(e["sharp_to_m"])
    sharp = _("%(near)s to %(far)s") % {"near": measures.signed(e["sharp_from_m"]), "far": far}
    rows += [
        (shown("shadow_edge_mm"), f"{e['shadow_edge_mm']:.0f} mm"),
        (shown("apparent_size_deg"), f"{e['apparent_size_deg']:.0f}°, {e['pattern']}"),
        (_("Sharp about the focus"), sharp),
    ]
    return tuple((str(name), str(value)) for name, value in rows)


def _sure(shown: str, stops: float | None) -> str:
    return shown if stops is None else f"{shown}, ± {wording.stops(stops)}"


def ground(setup: Entry, measures: Measures) -> tuple[tuple[str, str], ...]:
    ground = setup["background"]
    words = f"{ground['id']}, {measures.length(ground['distance_m'])}, L* {ground['lightness']:.0f}"
    return ((_("Ground"), words),)


def group(e: Entry, measures: Measures) -> tuple[tuple[str, str], ...]:
    """A group's own measures, where there is a group."""
    g = e.get("group")
    if not g:
        return ()
    metres = measures.length
    rows = [
        (_("Group, wide and deep"), f"{metres(g['width_m'])}, {metres(g['depth_m'])}"),
        (_("Rows"), f"{g['rows']}"),
        (_("Eyes, lowest and highest"), f"{metres(g['eyes_low_m'])}, {metres(g['eyes_high_m'])}"),
        (_("Camera over their mean"), metres(g["camera_over_mean_eyes_m"])),
        (_("Focus at"), _("%(m)s from the lens") % {"m": metres(g["focus_m"])}),
        (_("Faces hidden"), str(g["faces_hidden"]) if g["faces_hidden"] else _(wording.NONE)),
    ]
    if g.get("depth_asks_f"):
        rows.insert(-1, (_("Its depth asks for"), f"f/{g['depth_asks_f']:g}"))
    return tuple((str(name), value) for name, value in rows)


def face(sitter: Entry) -> Face:
    values = (sitter["relief_stops"], sitter["relief_shadow_stops"], sitter["relief_highlight_stops"])
    relief = _("{:.2f}: {:.2f} shadow, {:.2f} highlight").format(*values)
    return Face(
        str(sitter["label"]), relief, _nose(sitter.get("nose_shadow")), tuple(_catchlights(sitter["catchlights"])),
        tuple(_glasses(sitter["glasses"])),
    )  # fmt: skip


def _nose(shadow: Entry | None) -> str:
    if not shadow or shadow["length_mm"] is None:
        return ""
    slant = round(shadow["slant_deg"])
    way = _("straight down")
    if slant:
        way = f"{abs(slant)}° {_('to the right') if slant > 0 else _('to the left')}"
    meets = [_("on the lip")] if shadow["touches_lip"] else []
    meets += [_("joined with the cheek")] if shadow["joins_cheek"] else []
    return ", ".join([f"{shadow['length_mm']:.0f} mm", way, *meets])


def _catchlights(rows: list[Entry]) -> Iterator[str]:
    """Light by light: where it shows in each eye, or why it does not."""
    for letter in dict.fromkeys(str(r["light"]) for r in rows):
        said = {str(r["image_side"]): in_eye(r) for r in rows if r["light"] == letter}
        if len(set(said.values())) == 1 and len(said) > 1:
            yield f"{letter} {_('both eyes')}: {next(iter(said.values()))}"
        else:
            yield f"{letter} " + "; ".join(f"{side}: {words}" for side, words in said.items())


def in_eye(row: Entry) -> str:
    """Where a light shows in an eye and how large, or why it does not."""
    if not row["seen"]:
        return str(row["why_not"])
    hour = round(row["clock"]) or 12
    return _("%(hour)s o'clock, %(mm).1f mm") % {"hour": hour, "mm": row["size_mm"]}


def _glasses(rows: list[Entry]) -> Iterator[str]:
    for row in rows:
        said = f"{row['light']} {off_the_lens(row['margin_deg'])}"
        if row.get("clear_above_deg") is not None:
            said += _(", its lower edge from %(n).0f° up") % {"n": row["clear_above_deg"]}
        yield f"{said}: {row['cure']}" if row.get("cure") else said


def off_the_lens(margin_deg: float) -> str:
    """How far a light is from showing in a lens, or how far it is inside."""
    words = _("clear by %(n).0f°") if margin_deg >= 0 else _("glare, %(n).0f° short")
    return words % {"n": abs(margin_deg)}


def doubts(setup: Entry) -> Iterator[Doubt]:
    for step in setup["meter_round"]:
        parts = step.get("uncertainty_parts")
        if parts:
            said = tuple(f"{parts[name]:.2f}" for name in uncertainty.PARTS)
            yield Doubt(step["step"], f"{step['uncertainty_stops']:.1f}", said)
