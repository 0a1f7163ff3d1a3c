"""A plan's document as text to read at a desk or in a terminal: the same numbers as the JSON, in the order of building.

Takes the document alone, so that what is read and what is stored cannot disagree; feet and inches only here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from shotplans.light.exposure import shutter_label
from shotplans.light.units import feet_and_inches

WIDTH = 100


def text(document: dict[str, Any], units: str = "metric") -> str:
    """The whole plan as text, lines up to about 100 characters; `units` metric or imperial."""
    long = feet_and_inches if units == "imperial" else _metres
    lines: list[str] = []
    for setup in document["setups"]:
        lines += _setup(setup, long)
    lines += _problems(document["problems"])
    lines += _list("Follows from the notes", (c["says"] for c in document["consequences"]))
    lines += _list("Shots", _shots(document["shots"]))
    lines += _list(
        "Packing",
        (
            f"{p['count']} x {p['label']} ({p['item']}) for {p['for']}"
            if p["label"] != p["item"]
            else f"{p['count']} x {p['item']} for {p['for']}"
            for p in document["packing"]
        ),
    )
    lines += _list("Cautions", document["cautions"])
    lines += _list("Assumed", document["assumptions"])
    lines.append(f"{document['engine']}, {document['candidates_scored']:,} candidates, {document['fingerprint'][:12]}")
    return "\n".join(lines) + "\n"


def _metres(value: float) -> str:
    return f"{value:.2f} m"


def _list(title: str, rows: Any) -> list[str]:
    items = list(rows)
    return [title, *(line for item in items for line in _wrapped(f"- {item}", "  ")), ""] if items else []


def _wrapped(sentence: str, indent: str) -> Iterator[str]:
    from textwrap import wrap

    yield from wrap(sentence, WIDTH, initial_indent=indent, subsequent_indent=indent + "  ") or [indent]


def _setup(setup: dict[str, Any], long: Callable[[float], str]) -> list[str]:
    head = f"Set-up: {setup['name']} ({setup['intent']})"
    lines = [head, "=" * len(head)]
    if setup["camera"] is None:
        return [*lines, "  No usable light: see the problems.", ""]
    camera, ground, room = setup["camera"], setup["background"], setup["room"]
    lines.append(
        f"  Camera   {camera['focal_mm']:g} mm at {long(camera['distance_m'])}, {long(camera['height_m'])} high, "
        f"{camera['orientation']}; {camera['nearest_third']} {_label(camera['shutter_s'])} ISO {camera['iso']}"
    )
    lines.append(
        f"  Ground   {ground['id']}, {long(ground['distance_m'])} behind the mark, "
        f"{_under(ground['reading_below_setting_stops'])}, L* {ground['lightness']:.0f}"
    )
    lines.append(
        f"  Room     set along the {room['axis']}; ground {long(room['ground_from_wall_m'])} from the wall, mark "
        f"{long(room['mark_from_side_wall_m'])} from the wall at camera left"
    )
    lines += _sitters(setup, long)
    for light in setup["lights"]:
        lines += _light(light, long)
    for block in setup["blocks"]:
        lines.append(f"  Black    {block['id']} at {', '.join(f'{v:.2f}' for v in block['at_m'])} m: {block['why']}")
    lines += ["", *_expected(setup["expected"], long), "", *_round(setup["meter_round"])]
    if setup["teaches_most"] is not None:
        lines += _wrapped(setup["teaches_most"]["because"], "    ")
    lines += ["", *_list("  Why", (f"{r['about']}: {r['because']}" for r in setup["reasons"]))]
    lines += _list("  Instead", (_instead(a, long) for a in setup["alternatives"]))
    return lines


def _instead(other: dict[str, Any], long: Callable[[float], str]) -> str:
    """Another way: how it differs, what it costs, and where its lights stand."""
    lights = [
        f"{x['letter']} {x['role']} {x['modifier'] or x['panel']} {long(x['distance_m'])} off, bearing "
        f"{_turned(x['bearing_deg'])}, height angle {x['height_angle_deg']:.0f}"
        for x in other["lights"]
    ]
    return f"{other['differs']} {other['costs']} {'; '.join(lights)}."


def _under(stops: float) -> str:
    return f"{abs(stops):.1f} stops {'under' if stops >= 0 else 'over'} the setting"


def _label(shutter_s: float) -> str:
    return shutter_label(shutter_s)


def _sitters(setup: dict[str, Any], long: Callable[[float], str]) -> list[str]:
    rows = []
    for s in setup["sitters"]:
        seat = f", {s['seat']}" if s["seat"] else ""
        rows.append(
            f"  Sitter   {s['label']}: {s['side_of_picture']}, row {s['row']}, eyes {long(s['face_m'][1])}, "
            f"nose {_turn(s['nose_bearing_deg'])}, chin {s['chin_deg']:+.0f}{seat}"
        )
    for c in setup["changes_per_person"]:
        if c["key_up_m"]:
            rows.append(f"           for {c['label']}: key and camera {c['key_up_m']:+.2f} m")
    return rows


def _turn(bearing: float) -> str:
    if not bearing:
        return "at the lens"
    return f"{abs(bearing):.0f} to camera {'right' if bearing > 0 else 'left'}"


def _turned(bearing: float) -> str:
    """A light's bearing by its side of the lens."""
    return f"{abs(bearing):.0f} {'right' if bearing > 0 else 'left'}" if bearing else "0"


def _light(light: dict[str, Any], long: Callable[[float], str]) -> list[str]:
    what = f"{light['modifier']} on {light['head']}" if light["head"] else f"{light['panel']}, white"
    ring = f" with {light['adapter']}" if light["adapter"] else ""
    first = (
        f"  {light['letter']} {light['role']:<10} {long(light['distance_m'])}, bearing "
        f"{_turned(light['bearing_deg'])}, height angle "
        f"{light['height_angle_deg']:.0f}, centre {long(light['centre_height_m'])}"
    )
    held = f"{light['stand'] or 'no stand'}"
    if light["arm_m"]:
        held += f", arm {long(light['arm_m'])}, counterweight {light['counterweight_kg']:g} kg"
    power = ""
    if light["dial"] is not None:
        power = f"; power {light['dial']}: {light['power_below_full_stops']:.1f} stops below full"
    return [first, f"               {what}{ring}, {held}, {light['aim_words']}{power}"]


def _expected(e: dict[str, Any], long: Callable[[float], str]) -> list[str]:
    parts = e["setting_uncertainty_parts"]
    lines = [
        f"  Expect   {e['setting_reading']['shown']} set, give or take {e['setting_uncertainty_stops']:g} stop (heads "
        f"{parts['output']:g}, places {parts['placement']:g}, bounce {parts['bounce']:g}, dials {parts['dial']:g})",
        f"           fill {e['fill_below_key_stops']:g} under the key (bounce "
        f"alone {e['bounce_below_key_stops']:g}); shadow cheek {e['shadow_below_lit_stops']:g} under the lit one",
        f"           faces within {e['evenness_stops']:g} stop; edge {e['shadow_edge_mm']:.0f} mm; source "
        f"{e['apparent_size_deg']:.0f} degrees; {e['pattern']}; field {long(e['field_width_m'])}; sharp "
        f"{e['sharp_from_m']:+.2f} to {e['sharp_to_m']:+.2f} m",
    ]
    for s in e["per_sitter"]:
        eyes = sum(1 for c in s["catchlights"] if c["seen"] and c["light"] == "A")
        lines.append(
            f"           {s['label']}: relief {s['relief_stops']:.2f} stops ({s['relief_shadow_stops']:.2f} shadow, "
            f"{s['relief_highlight_stops']:.2f} highlight), most at the {s['worst_place']}; key in {eyes} of 2 eyes"
        )
    return lines


def _round(steps: list[dict[str, Any]]) -> list[str]:
    lines = ["  Meter round"]
    for s in steps:
        sets = "  <- sets the camera" if s["sets_camera"] else ""
        lines += _wrapped(
            f"{s['step']}. {s['place']}; dome {s['dome']}, to the {s['toward']}; on {', '.join(s['on'])}, panels "
            f"{s['panels']}: {s['target']['shown']} (give or take {s['uncertainty_stops']:g}; set to "
            f"{s['tolerance_stops']:g}){sets}",
            "    ",
        )
    return lines


def _problems(problems: list[dict[str, Any]]) -> list[str]:
    if not problems:
        return ["No limit is broken.", ""]
    return _list(
        "Problems", (f"[{p['limit']}] {p['setup'] or 'whole brief'}: {p['says']} Mend: {p['mend']}" for p in problems)
    )


def _shots(shots: list[dict[str, Any]]) -> Iterator[str]:
    for s in shots:
        minutes = f", {s['minutes']:g} min" if s["minutes"] else ""
        must = "must" if s["must"] else "wished"
        yield f"{s['n']}. [{s['setup']}] {', '.join(s['who'])}: {s['cue']} {s['frames']} frames, {must}{minutes}"
