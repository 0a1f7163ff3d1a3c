"""Reads for the plan's page: each set-up with its sheet's own content, and what only the screen has room for.

Belongs here: choosing and wording what the frozen document says. Not here: computing anything anew, or who may open
the page. A document made before a key was printed has none: its part is left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from django.core.exceptions import FieldDoesNotExist
from django.utils.translation import gettext as _

from bookings.models import Notes
from shotplans import expected_words
from shotplans.expected_words import Doubt, Face
from shotplans.models import Plan
from shotplans.planner import hand_plan
from shotplans.planner.request import Request
from shotplans.planner.rules import RULES
from shotplans.sheets import blacks, by_hand, changeover, compose, diagram, svg
from shotplans.sheets.changeover import Standing
from shotplans.sheets.content import LightRow, Note, SetupSheet
from shotplans.sheets.live import SIZE_MM, reach
from shotplans.sheets.measures import METRIC, Measures
from shotplans.sheets.scene import Scene
from studio import tongue

Entry = dict[str, Any]
SAID_BELOW = ("Black", "Fill", "Setting", "By hand")  # notes of the sheet that have a list of their own on the page
UNIT = re.compile(r"_(cm|m|years|deg)$")
SITTER_PATH = re.compile(r"sitters\[(\d+)\]\.?(\w*)")


@dataclass(frozen=True)
class Block:
    """A flag or a black panel: where it hangs and what it keeps off."""

    name: str
    place: str
    why: str


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
        expected = expected_words.rows(setup["expected"], ratio_convention, measures)
        expected += expected_words.ground(setup, measures) + expected_words.group(setup["expected"], measures)
        last = next((one for one in reversed(found) if one.drawing), None)
        page = Page(
            sheet, setup, drawing,
            before=last.sheet.setup if last else "", changes=_changes(last, setup, given, measures) if last else (),
            expected=expected, doubts=tuple(expected_words.doubts(setup)),
            notes=tuple(n for n in sheet.notes if n.about not in SAID_BELOW),
            blocks=tuple(_block(b, measures) for b in setup["blocks"]),
            faces=tuple(expected_words.face(s) for s in setup["expected"]["per_sitter"]),
            reasons=tuple(r for r in setup["reasons"] if may_read_notes or not _cites_a_person(r)),
            hand_set=_by_hand(plan, sheet.setup, measures), live=moving,
            instead=tuple(_instead(a, given, ratio_convention, measures) for a in setup["alternatives"]),
        )  # fmt: skip
        found.append(page)
    return found


@lru_cache(maxsize=64)
def _drawn(scene: Scene, number: int, language: str) -> str:
    """The drawing of a set that nobody moves, without the sheet's empty margins, which take half of a telephone; once a
    process, for a plan is frozen, and all who build it look at it."""
    drawing = diagram.draw(scene, *SIZE_MM)
    return svg.render(drawing, f"setup-{number}-drawing", reach(drawing.marks))


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
    stand = f", {block['stand']}" if block.get("stand") else ""
    return Block(str(block["id"]), blacks.place(block, measures) + stand, str(block["why"]))


def _instead(alternative: Entry, given: Any, ratio_convention: str, measures: Measures) -> Instead:
    alone: Entry = {"meter_round": []}  # another way is not metered before it is built: its lights have no targets
    return Instead(
        str(alternative["differs"]), str(alternative["costs"]),
        tuple(compose.light_row(light, alone, given, measures) for light in alternative["lights"]),
        expected_words.rows(alternative["expected"], ratio_convention, measures) if alternative.get("expected") else (),
    )  # fmt: skip
