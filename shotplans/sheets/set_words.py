"""The sentences of a setup sheet: what it is for, what to mind first, and what its drawing cannot say.

Belongs here: sentences from a plan's document. Not here: tables and lists (`compose`), single words (`wording`).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from shotplans.planner.request import Request
from shotplans.sheets import blacks, by_hand, content, diagram, scene, wording
from shotplans.sheets.content import Flags
from shotplans.sheets.measures import Measures
from studio.tongue import gettext as _

Entry = Mapping[str, Any]


def alerts(setup: Entry, flags: Flags) -> tuple[str, ...]:
    """The consequences that hold in this set-up, in their fixed order."""
    here = {s["label"] for s in setup["sitters"]}
    found = (
        bool(flags.no_flash & here),
        bool(flags.chair_with_arms & here),
        bool(flags.glasses & here),
        flags.guardian_in_room,
        flags.release_not_signed,
        flags.see_desk,
        flags.out_of_date,
    )
    return tuple(_(word) for word, holds in zip(wording.ALERTS, found, strict=True) if holds)


def intent(setup: Entry, request: Request) -> str:
    """One sentence: who, how framed, for what use, in which mood."""
    asked = next(s for s in request.brief.setups if s.name == setup["name"])
    labels = [s["label"] for s in setup["sitters"]] or list(asked.people)
    who = wording.people(labels, len(labels))
    each = _("one after the other") if scene.in_turn(setup) else ""
    framing = "" if asked.framing == "group" else wording.framing(asked.framing)
    use = f". {request.brief.purpose.rstrip('.')}" if request.brief.purpose else ""
    those = ", ".join(part for part in (f"{who[:1].upper()}{who[1:]}", each, framing) if part)
    return f"{those}: {wording.mood(str(setup['intent']))}{use}."


def notes(
    setup: Entry, document: Entry, seen: scene.Scene | None, convention: str, measures: Measures
) -> tuple[content.Note, ...]:
    """What the drawing cannot say: ground, mark, pose, the setting reading, the ratio, and a broken limit by name."""
    broken = sorted({p["limit"] for p in document["problems"] if p["setup"] in (None, setup["name"])})
    limits = (
        [content.Note(_("Limit broken"), _("{broken}: see the plan first.").format(broken=", ".join(broken)))]
        if broken
        else []
    )
    if seen is None:
        return (*limits, content.Note(_("No light"), _("this set-up has no usable light: see the plan.")))
    ground, room, expected = setup["background"], setup["room"], setup["expected"]
    reads = wording.beside_setting(ground["reading_below_setting_stops"]) or _("reads as the setting")
    found = [
        *limits,
        content.Note(
            _("Ground"),
            _("{name}, {ground_from_wall} off the wall, {below_setting}.").format(
                name=ground["id"],
                ground_from_wall=measures.length(room["ground_from_wall_m"]),
                below_setting=reads,
            ),
        ),
        content.Note(
            _("Mark"),
            _("{mark_from_ground} from the ground, {mark_from_side_wall} from the wall at camera left.").format(
                mark_from_ground=measures.length(room["mark_from_ground_m"]),
                mark_from_side_wall=measures.length(room["mark_from_side_wall_m"]),
            ),
        ),
        content.Note(
            _("Fill"),
            _("{ratio} under the key.").format(ratio=wording.ratio(expected["fill_below_key_stops"], convention)),
        ),
    ]
    aims = "; ".join(f"{x['letter']} {x['aim_words']}" for x in setup["lights"])
    found.append(content.Note(_("Aim"), f"{aims}."))
    found += [setting(setup)] if setup["meter_round"] else []
    moved = next((one["rows"] for one in document.get("by_hand") or () if one["setup"] == setup["name"]), None)
    found += [content.Note(_("By hand"), by_hand.in_short(moved, measures))] if moved else []
    found += [blacks.note(block, measures) for block in setup["blocks"]]
    return (*found, *poses(setup))


def setting(setup: Entry) -> content.Note:
    """Which lights are on for the reading that sets the camera, and where the dome looks."""
    step = next(s for s in setup["meter_round"] if s["sets_camera"])
    return content.Note(
        _("Setting"),
        (
            _("{shown} with {on} on, panels in, dome to the {toward}.")
            if step["panels"] == "in"
            else _("{shown} with {on} on, dome to the {toward}.")
        ).format(shown=step["target"]["shown"], on=", ".join(step["on"]), toward=wording.toward(step["toward"])),
    )


def poses(setup: Entry) -> tuple[content.Note, ...]:
    """Seat, turn and chin of each sitter of few; many have their rows instead, and those in turn a common mark."""
    people = setup["sitters"]
    if scene.in_turn(setup):
        people = people[:1]
    elif len(people) > diagram.MOST_NAMED:
        return ()
    return tuple(
        content.Note(
            _("First") if scene.in_turn(setup) else str(p["label"]),
            _("{place}, body {body}, nose {nose}, {chin}.").format(
                place=(f"{p['label']}, " if scene.in_turn(setup) else "") + (p["seat"] or _("standing place")),
                body=wording.turned(p["body_turn_deg"]),
                nose=wording.turned(p["nose_bearing_deg"]),
                chin=wording.chin(p["chin_deg"]),
            ),
        )
        for p in people
    )
