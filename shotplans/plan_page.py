"""Reads for the plan's page: each set-up with its sheet's own content, and what only the screen has room for.

Belongs here: choosing and wording what the frozen document says. Not here: computing anything anew, or who may open
the page. A document made before a key was printed has none: its part is left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from django.core.exceptions import FieldDoesNotExist
from django.utils.translation import gettext as _

from bookings.models import Notes
from shotplans.models import Plan
from shotplans.planner import hand_plan
from shotplans.planner.request import Request
from shotplans.planner.rules import RULES
from shotplans.sheets import by_hand, changeover, compose, diagram, svg, wording
from shotplans.sheets.changeover import Standing
from shotplans.sheets.content import LightRow, Note, SetupSheet
from shotplans.sheets.measures import METRIC, Measures
from shotplans.sheets.scene import Scene
from studio import tongue

DRAWING_MM = (190.0, 150.0)
Entry = dict[str, Any]
SAID_BELOW = ("Black", "Fill", "Setting", "By hand")  # notes of the sheet that have a list of their own on the page
UNIT = re.compile(r"_(cm|m|years|deg)$")
SITTER_PATH = re.compile(r"sitters\[(\d+)\]\.?(\w*)")
PARTS = ("output", "placement", "bounce", "dial")


@dataclass(frozen=True)
class Block:
    """A flag or a black panel: where it hangs and what it keeps off."""

    name: str
    place: str
    why: str


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


@dataclass(frozen=True)
class Instead:
    """Another way, with its own lights and numbers."""

    differs: str
    costs: str
    lights: tuple[LightRow, ...]
    expected: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Page:
    """One set-up as its page shows it: its sheet's own content, the drawing, what is expected."""

    sheet: SetupSheet
    setup: Entry
    drawing: str = ""
    notes: tuple[Note, ...] = ()
    blocks: tuple[Block, ...] = ()
    expected: tuple[tuple[str, str], ...] = ()
    faces: tuple[Face, ...] = ()
    doubts: tuple[Doubt, ...] = ()
    reasons: tuple[Entry, ...] = ()
    instead: tuple[Instead, ...] = ()
    before: str = ""  # the set-up that stands there before this one
    hand_set: tuple[by_hand.Said, ...] = ()  # values that a hand set, each with the suggested one and why
    live: Any = None  # what is needed to move it by hand, for whoever may
    changes: tuple[tuple[str, ...], ...] = ()  # from that one, walk by walk: what differs and nothing else


@dataclass(frozen=True)
class Follows:
    """One consequence of what is known: what to do; and, for those who may read notes, what it follows from."""

    kind: str
    says: str
    because: str = ""


def pages(
    plan: Plan,
    sheets: Iterable[SetupSheet],
    ratio_convention: str,
    *,
    may_read_notes: bool,
    measures: Measures = METRIC,
    live: Mapping[int, Any] | None = None,
) -> list[Page]:
    """Every set-up of a plan: the same content as on paper, and what only the screen has room for. `live`: the drawings
    that may be moved by hand, by the number of their sheet."""
    given = plan.filled_request
    found: list[Page] = []
    for sheet, setup in zip(sheets, plan.setups, strict=True):
        if sheet.scene is None:
            found.append(Page(sheet, setup))
            continue
        moving = (live or {}).get(sheet.number)
        drawing = moving.drawing if moving else _drawn(sheet.scene, sheet.number, tongue.language())
        expected = expected_rows(setup["expected"], ratio_convention, measures)
        expected += _ground(setup, measures) + _group(setup["expected"], measures)
        last = next((one for one in reversed(found) if one.drawing), None)
        page = Page(
            sheet, setup, drawing,
            before=last.sheet.setup if last else "", changes=_changes(last, setup, given, measures) if last else (),
            expected=expected, doubts=tuple(_doubts(setup)),
            notes=tuple(n for n in sheet.notes if n.about not in SAID_BELOW),
            blocks=tuple(_block(b, measures) for b in setup["blocks"]),
            faces=tuple(face(s) for s in setup["expected"]["per_sitter"]),
            reasons=tuple(r for r in setup["reasons"] if may_read_notes or not _cites_a_person(r)),
            hand_set=_by_hand(plan, sheet.setup, measures), live=moving,
            instead=tuple(_instead(a, given, ratio_convention, measures) for a in setup["alternatives"]),
        )  # fmt: skip
        found.append(page)
    return found


@lru_cache(maxsize=64)
def _drawn(scene: Scene, number: int, language: str) -> str:
    """The drawing of a set that nobody moves, once a process: a plan is frozen, and all who build it look at it."""
    return svg.render(diagram.draw(scene, *DRAWING_MM), f"setup-{number}-drawing")


def _by_hand(plan: Plan, name: str, measures: Measures) -> tuple[by_hand.Said, ...]:
    kept = hand_plan.moved(plan.document, name)
    return tuple(by_hand.said(row, measures) for row in kept["rows"]) if kept else ()


def _changes(last: Page, setup: Entry, given: Request, measures: Measures) -> tuple[tuple[str, ...], ...]:
    walks = changeover.in_walks(Standing(last.setup, given), Standing(setup, given), measures)
    return tuple(tuple(move.words for move in walk.moves) for walk in walks)


def follows(plan: Plan, *, may_read_notes: bool) -> list[Follows]:
    """The plan's consequences, by kind in the order of first saying; what they follow from only for some eyes."""
    rows = plan.document.get("consequences") or []
    kinds = list(dict.fromkeys(str(row["kind"]) for row in rows))
    ordered = sorted(rows, key=lambda row: kinds.index(str(row["kind"])))
    return [Follows(str(r["kind"]), str(r["says"]), _because(plan, r) if may_read_notes else "") for r in ordered]


def retouching(plan: Plan) -> list[tuple[str, str]]:
    """How far the pictures are retouched, and why: each level once, with the numbers of its shots."""
    shots: dict[tuple[str, str], list[str]] = {}
    for row in plan.document.get("retouch") or []:
        shots.setdefault((str(row["level"]), str(row["why"])), []).append(str(row["shot"]))
    if len(shots) == 1:
        return [(f"{level}, {_('all shots')}", why) for level, why in shots]
    return [(f"{level}, {_('shots')} {', '.join(numbers)}", why) for (level, why), numbers in shots.items()]


def _because(plan: Plan, row: Entry) -> str:
    """The rule's own occasion and whom or what it was read from."""
    rule = RULES.get(str(row.get("rule")))
    sources = list(dict.fromkeys(filter(None, (_read_from(plan, str(path)) for path in row.get("from") or ()))))
    return "; ".join(filter(None, (rule.said_when if rule else "", ", ".join(sources))))


def _read_from(plan: Plan, path: str) -> str:
    """A path of the input as words: a person and what is noted, or a line of the brief."""
    found = SITTER_PATH.match(path)
    if found is None:
        return _spelt(path.rpartition(".")[2].partition("[")[0])
    label = str(plan.request["sitters"][int(found[1])]["label"])
    return f"{label}: {_note(found[2])}" if found[2] else label


def _note(name: str) -> str:
    try:
        return str(Notes._meta.get_field(name).verbose_name)  # type: ignore[union-attr]
    except FieldDoesNotExist:
        return _spelt(name)


def _spelt(key: str) -> str:
    return UNIT.sub("", key).replace("_", " ")


def _cites_a_person(reason: Entry) -> bool:
    return any(str(path).startswith("sitters") for path in reason.get("from") or ())


def _block(block: Entry, measures: Measures) -> Block:
    x, y, z = block["at_m"]
    place = _("%(aside)s %(side)s of the mark, %(along)s %(where)s it, middle %(up)s high") % {
        "aside": measures.length(abs(x)), "side": _("right") if x > 0 else _("left"), "along": measures.length(abs(z)),
        "where": _("before") if z >= 0 else _("behind"), "up": measures.length(y),
    }  # fmt: skip
    stand = f", {block['stand']}" if block.get("stand") else ""
    return Block(str(block["id"]), place + stand, str(block["why"]))


def expected_rows(e: Entry, ratio_convention: str, measures: Measures) -> tuple[tuple[str, str], ...]:
    rows = [(_("Setting reading"), _sure(e["setting_reading"]["shown"], e.get("setting_uncertainty_stops")))]
    rows += [
        (_("Fill under the key"), wording.ratio(e["fill_below_key_stops"], ratio_convention)),
        (_("Room alone, under the key"), wording.stops(e["bounce_below_key_stops"])),
        (_("Shadow cheek under the lit one"), wording.stops(e["shadow_below_lit_stops"])),
    ]
    if e["worst_pair"] and len(e["per_sitter"]) > 1:
        alike, pair = wording.stops(e["evenness_stops"]), dict.fromkeys(e["worst_pair"])
        if len(pair) > 1:  # none is the worst where all are lit alike
            alike += f" ({' to '.join(pair)})"
        rows.append((_("Faces alike within"), alike))
    near, far = (measures.signed(e[end]) for end in ("sharp_from_m", "sharp_to_m"))
    sharp = _("%(near)s to %(far)s") % {"near": near, "far": far}
    rows += [
        (_("Edge of the nose shadow"), f"{e['shadow_edge_mm']:.0f} mm"),
        (_("Key seen from the face"), f"{e['apparent_size_deg']:.0f}°, {e['pattern']}"),
        (_("Sharp about the focus"), sharp),
    ]
    return tuple((str(name), str(value)) for name, value in rows)


def _sure(shown: str, stops: float | None) -> str:
    return shown if stops is None else f"{shown}, ± {wording.stops(stops)}"


def _ground(setup: Entry, measures: Measures) -> tuple[tuple[str, str], ...]:
    ground = setup["background"]
    words = f"{ground['id']}, {measures.length(ground['distance_m'])}, L* {ground['lightness']:.0f}"
    return ((_("Ground"), words),)


def _group(e: Entry, measures: Measures) -> tuple[tuple[str, str], ...]:
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
        said = {str(r["image_side"]): _in_eye(r) for r in rows if r["light"] == letter}
        if len(set(said.values())) == 1 and len(said) > 1:
            yield f"{letter} {_('both eyes')}: {next(iter(said.values()))}"
        else:
            yield f"{letter} " + "; ".join(f"{side}: {words}" for side, words in said.items())


def _in_eye(row: Entry) -> str:
    if not row["seen"]:
        return str(row["why_not"])
    hour = round(row["clock"]) or 12
    return _("%(hour)s o'clock, %(mm).1f mm") % {"hour": hour, "mm": row["size_mm"]}


def _glasses(rows: list[Entry]) -> Iterator[str]:
    for row in rows:
        words = _("clear by %(n).0f°") if row["margin_deg"] >= 0 else _("glare, %(n).0f° short")
        said = f"{row['light']} {words % {'n': abs(row['margin_deg'])}}"
        if row.get("clear_above_deg") is not None:
            said += _(", its lower edge from %(n).0f° up") % {"n": row["clear_above_deg"]}
        yield f"{said}: {row['cure']}" if row.get("cure") else said


def _doubts(setup: Entry) -> Iterator[Doubt]:
    for step in setup["meter_round"]:
        parts = step.get("uncertainty_parts")
        if parts:
            yield Doubt(step["step"], f"{step['uncertainty_stops']:.1f}", tuple(f"{parts[p]:.2f}" for p in PARTS))


def _instead(alternative: Entry, given: Any, ratio_convention: str, measures: Measures) -> Instead:
    alone: Entry = {"meter_round": []}  # another way is not metered before it is built: its lights have no targets
    return Instead(
        str(alternative["differs"]), str(alternative["costs"]),
        tuple(compose.light_row(light, alone, given, measures) for light in alternative["lights"]),
        expected_rows(alternative["expected"], ratio_convention, measures) if alternative.get("expected") else (),
    )  # fmt: skip
