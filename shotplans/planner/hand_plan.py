"""A plan with one set-up as a hand has moved it: the same input, the whole document reckoned anew, nothing searched.

The document keeps under `by_hand` what was suggested, the changes that stand for the set, and each printed value that
is otherwise with the suggested one and the reason beside it. The input is the one of the plan it was made from, so its
fingerprint still says whether the plan is out of date.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from shotplans.planner import assembled, assumptions, by_hand, document, outcome, reasons, solve
from shotplans.planner.moves import Change, Refused
from shotplans.planner.placed import looked_at, placed, standing
from shotplans.planner.plan import Solved
from shotplans.planner.request import Request

Entry = dict[str, Any]
BY_HAND = "by_hand"
# What a hand may set, by the part of the document it is printed in.
OF_LIGHT = ("distance_m", "bearing_deg", "height_angle_deg", "centre_height_m", "power_below_full_stops")
OF_CAMERA = ("distance_m", "height_m")
OF_SITTER = ("nose_bearing_deg", "chin_deg")
CHANGED_PARTS = ("distance_m", "bearing_deg", "height_angle_deg", "position_m")  # reasons for these are the hand's now


def suggested(document_of_plan: Entry, setup: str) -> Entry | None:
    """A set-up as the planner suggested it, whatever a hand did since; None where the plan has no such set-up."""
    kept = moved(document_of_plan, setup)
    if kept is not None:
        found: Entry = kept["suggested"]
        return found
    return next((s for s in document_of_plan["setups"] if s["name"] == setup), None)


def moved(document_of_plan: Entry, setup: str) -> Entry | None:
    """What a hand did to one set-up, as the document keeps it."""
    return next((one for one in document_of_plan.get(BY_HAND) or () if one["setup"] == setup), None)


def changes(document_of_plan: Entry, setup: str) -> tuple[Change, ...]:
    """The changes that stand for a set-up as the plan has it; none for one as suggested."""
    kept = moved(document_of_plan, setup)
    return tuple(Change(t, n, k, v, free=True) for t, n, k, v in kept["changes"]) if kept else ()


def plan(given: Request, former: Entry, setup: str, wanted: Sequence[Change], reason: str) -> Entry:
    """The document of a plan with these changes to one set-up of a former one. Raises Refused where nothing stands
    otherwise than before, or a change cannot be set."""
    request, assumed = assumptions.fill(given)
    was = suggested(former, setup)
    if was is None or was["camera"] is None:
        raise Refused("no_setup", {"setup": setup})
    base = standing(request, was)
    taken = by_hand.taken(request, base, wanted, None)
    if taken == changes(former, setup):
        raise Refused("nothing_moved", {})
    stands = looked_at(request, by_hand.moved(request, base, taken))
    setups, solved, problems = [], [], []
    for entry in former["setups"]:
        if entry["camera"] is None:
            setups.append(entry)
            continue
        one = stands if entry["name"] == setup else placed(request, entry)
        found = outcome.outcome(request, one, mends=True)
        setups.append(_entry(request, one, found, taken, entry["alternatives"]) if one is stands else entry)
        solved.append(one)
        problems += found.problems
    done = assembled.document(given, request, assumed, setups, solved, problems, former["candidates_scored"])
    dark = {s["name"] for s in setups if s["camera"] is None}
    done["problems"] = [p for p in former["problems"] if p["setup"] in dark] + done["problems"]
    kept = [one for one in former.get(BY_HAND) or () if one["setup"] != setup]
    if taken:
        now = next(s for s in setups if s["name"] == setup)
        kept.append(_kept(was, now, moved(former, setup), taken, reason))
    return {**done, BY_HAND: kept} if kept else done


def _entry(
    request: Request, stands: Solved, found: outcome.Outcome, taken: Sequence[Change], others: Sequence[Entry]
) -> Entry:
    """A set-up as printed. What gave a moved light its place is no longer why it stands there: that is the hand's to
    say. `others` are the planner's answers to the request, which a hand does not change: other ways stay as they were
    weighed against the suggestion."""
    index = [s.name for s in request.brief.setups].index(stands.setup.name)
    side = solve.side_why(request, stands.setup)
    why = reasons.reasons(stands, found.meter, found.expected, found.expected["per_sitter"], index, side)
    letters = {c.name for c in taken if c.thing == "light"}
    gone = {
        f"lights[{n}].{part}" for n, x in enumerate(stands.lights) if x.letter in letters for part in CHANGED_PARTS
    } | {f"{c.thing}.{c.key}" for c in taken}
    aimed = {c.name for c in taken if c.key == "aim_m"}
    gone |= {f"lights[{n}].feather_deg" for n, x in enumerate(stands.lights) if x.letter in aimed}
    return {
        **document.setup(stands), "meter_round": found.meter_round, "teaches_most": found.teaches_most,
        "expected": found.expected, "reasons": [r for r in why if r["about"] not in gone],
        "alternatives": list(others),
    }  # fmt: skip


def _kept(was: Entry, now: Entry, before: Entry | None, taken: Sequence[Change], reason: str) -> Entry:
    """What the document keeps of a hand. A value that stood so in the version before keeps the reason it had."""
    said = {(r["about"], str(r["value"])): r["reason"] for r in (before["rows"] if before else ())}
    rows = [
        {**row, "reason": said.get((row["about"], str(row["value"])), reason)} for row in differing(was, now)
    ]
    return {
        "setup": now["name"], "suggested": {**was, "reasons": [], "alternatives": []},
        "changes": [[c.thing, c.name, c.key, c.value] for c in taken], "rows": rows,
    }  # fmt: skip


def differing(was: Entry, now: Entry) -> list[Entry]:
    """Every value a hand can set that is printed otherwise: where, of what, which, the value and the suggested one."""
    return [row for row in _rows(was, now) if row["value"] != row["suggested"]]


def _rows(was: Entry, now: Entry) -> Iterator[Entry]:
    for n, (a, b) in enumerate(zip(was["lights"], now["lights"], strict=True)):
        yield from (_row(f"lights[{n}]", "light", a["letter"], key, a[key], b[key]) for key in OF_LIGHT)
        said = "aim_words" if a["aim_words"] != b["aim_words"] else "aim_m"
        yield _row(f"lights[{n}]", "light", a["letter"], said, a[said], b[said])
    yield from (_row("camera", "camera", "", key, was["camera"][key], now["camera"][key]) for key in OF_CAMERA)
    yield _row(
        "background", "background", "", "distance_m", was["background"]["distance_m"], now["background"]["distance_m"]
    )
    for n, (a, b) in enumerate(zip(was["sitters"], now["sitters"], strict=True)):
        at = (f"sitters[{n}]", "sitter", a["label"])
        yield _row(*at, "right_m", round(a["face_m"][0], 2), round(b["face_m"][0], 2))
        yield _row(*at, "toward_camera_m", round(a["face_m"][2], 2), round(b["face_m"][2], 2))
        yield from (_row(*at, key, a[key], b[key]) for key in OF_SITTER)


def _row(at: str, thing: str, name: str, key: str, was: Any, now: Any) -> Entry:
    return {"about": f"{at}.{key}", "thing": thing, "name": name, "key": key, "value": now, "suggested": was}
