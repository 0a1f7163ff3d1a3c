"""A plan's document as text to read at a desk or in a terminal: the same numbers as the JSON, in the order of building.

Takes the document alone, so that what is read and what is stored cannot disagree; in feet and
inches for who measures in them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from shotplans.light.exposure import shutter_label
from shotplans.light.units import feet_and_inches
from shotplans.planner.expect import sharp_without_end
from shotplans.planner.words import roles, sides
from studio.tongue import gettext as _
from studio.tongue import ngettext, noop

WIDTH = 100
FURTHER = " " * 11  # under the word a line begins with
# Codes of the document as they stand in its text.
CODES = {
    code: code
    for code in (
        noop("soft"), noop("even"), noop("natural"), noop("bold"), noop("character"), noop("bright"),
        noop("upright"), noop("horizontal"), noop("width"), noop("depth"), noop("left"), noop("middle"),
        noop("right"), noop("out"), noop("recessed"), noop("in"), noop("light"), noop("camera"),
    )
}  # fmt: skip


def text(document: dict[str, Any], units: str = "metric") -> str:
    """The whole plan as text, lines up to about 100 characters; `units` metric or imperial."""
    long = feet_and_inches if units == "imperial" else _metres
    lines: list[str] = []
    for setup in document["setups"]:
        lines += _setup(setup, long)
    lines += _problems(document["problems"])
    lines += _list(_("Follows from the notes"), (c["says"] for c in document["consequences"]))
    lines += _list(_("Shots"), _shots(document["shots"]))
    lines += _list(_("Packing"), map(_packed, document["packing"]))
    lines += _list(_("Cautions"), document["cautions"])
    lines += _list(_("Assumed"), document["assumptions"])
    lines.append(
        _("{engine}, {count} candidates, {fingerprint}").format(
            engine=document["engine"], count=f"{document['candidates_scored']:,}",
            fingerprint=document["fingerprint"][:12],
        )
    )  # fmt: skip
    return "\n".join(lines) + "\n"


def _packed(row: dict[str, Any]) -> str:
    """A row of the packing list; a piece with a name of its own is told with its id."""
    named = row["label"] not in (row["item"], _(row["item"]))
    said = _("{count} x {label} ({item}) for {what}") if named else _("{count} x {label} for {what}")
    what = _("set") if row["for"] == "set" else row["for"]
    return said.format(count=row["count"], label=row["label"], item=row["item"], what=what)


def _metres(value: float) -> str:
    return f"{value:.2f} m"


def _list(title: str, rows: Any) -> list[str]:
    items = list(rows)
    return [title, *(line for item in items for line in _wrapped(f"- {item}", "  ")), ""] if items else []


def _wrapped(sentence: str, indent: str) -> Iterator[str]:
    from textwrap import wrap

    yield from wrap(sentence, WIDTH, initial_indent=indent, subsequent_indent=indent + "  ") or [indent]


def _setup(setup: dict[str, Any], long: Callable[[float], str]) -> list[str]:
    head = _("Set-up: {name} ({intent})").format(name=setup["name"], intent=_(CODES[setup["intent"]]))
    lines = [head, "=" * len(head)]
    if setup["camera"] is None:
        return [*lines, _("  No usable light: see the problems."), ""]
    camera, ground, room = setup["camera"], setup["background"], setup["room"]
    lines.append(
        _("  Camera   {focal} mm at {distance}, {height} high, {orientation}; {aperture} {shutter} ISO {iso}").format(
            focal=f"{camera['focal_mm']:g}",
            distance=long(camera["distance_m"]),
            height=long(camera["height_m"]),
            orientation=_(CODES[camera["orientation"]]),
            aperture=camera["nearest_third"],
            shutter=shutter_label(camera["shutter_s"]),
            iso=camera["iso"],
        )
    )
    lines.append(
        _("  Ground   {ground}, {distance} behind the mark, {reading}, L* {lightness}").format(
            ground=ground["id"],
            distance=long(ground["distance_m"]),
            reading=_under(ground["reading_below_setting_stops"]),
            lightness=f"{ground['lightness']:.0f}",
        )
    )
    lines.append(
        _(
            "  Room     set along the {axis}; ground {ground} from the wall, mark {mark} from the wall at camera left"
        ).format(
            axis=_(CODES[room["axis"]]),
            ground=long(room["ground_from_wall_m"]),
            mark=long(room["mark_from_side_wall_m"]),
        )
    )
    lines += _sitters(setup, long)
    for light in setup["lights"]:
        lines += _light(light, long)
    for block in setup["blocks"]:
        at = ", ".join(f"{v:.2f}" for v in block["at_m"])
        lines.append(_("  Black    {item} at {place} m: {why}").format(item=block["id"], place=at, why=block["why"]))
    lines += ["", *_expected(setup["expected"], long), "", *_round(setup["meter_round"])]
    if setup["teaches_most"] is not None:
        lines += _wrapped(setup["teaches_most"]["because"], "    ")
    lines += ["", *_list(_("  Why"), (f"{r['about']}: {r['because']}" for r in setup["reasons"]))]
    lines += _list(_("  Instead"), (_instead(a, long) for a in setup["alternatives"]))
    return lines


def _instead(other: dict[str, Any], long: Callable[[float], str]) -> str:
    """Another way: how it differs, what it costs, and where its lights stand."""
    lights = [
        _("{letter} {role} {front} {distance} off, bearing {bearing}, height angle {height}").format(
            letter=x["letter"],
            role=roles.said(x["role"]),
            front=x["modifier"] or x["panel"],
            distance=long(x["distance_m"]),
            bearing=_turned(x["bearing_deg"]),
            height=f"{x['height_angle_deg']:.0f}",
        )
        for x in other["lights"]
    ]
    return f"{other['differs']} {other['costs']} {'; '.join(lights)}."


def _under(stops: float) -> str:
    said = _("{stops} stops under the setting") if stops >= 0 else _("{stops} stops over the setting")
    return said.format(stops=f"{abs(stops):.1f}")


def _sitters(setup: dict[str, Any], long: Callable[[float], str]) -> list[str]:
    rows = []
    for s in setup["sitters"]:
        seat = f", {s['seat']}" if s["seat"] else ""
        rows.append(
            _("  Sitter   {label}: {side}, row {row}, eyes {eyes}, nose {nose}, chin {chin}{seat}").format(
                label=s["label"],
                side=_(CODES[s["side_of_picture"]]),
                row=s["row"],
                eyes=long(s["face_m"][1]),
                nose=_turn(s["nose_bearing_deg"]),
                chin=f"{s['chin_deg']:+.0f}",
                seat=seat,
            )
        )
    for c in setup["changes_per_person"]:
        if c["key_up_m"]:
            said = FURTHER + _("for {label}: key and camera {up} m")
            rows.append(said.format(label=c["label"], up=f"{c['key_up_m']:+.2f}"))
    return rows


def _turn(bearing: float) -> str:
    if not bearing:
        return _("at the lens")
    said = _("{degrees} to camera right") if bearing > 0 else _("{degrees} to camera left")
    return said.format(degrees=f"{abs(bearing):.0f}")


def _turned(bearing: float) -> str:
    """A light's bearing by its side of the lens."""
    return f"{abs(bearing):.0f} {sides.said('right' if bearing > 0 else 'left')}" if bearing else "0"


def _light(light: dict[str, Any], long: Callable[[float], str]) -> list[str]:
    first = _("  {letter} {role} {distance}, bearing {bearing}, height angle {height}, centre {centre}").format(
        letter=light["letter"], role=f"{roles.said(light['role']):<10}", distance=long(light["distance_m"]),
        bearing=_turned(light["bearing_deg"]), height=f"{light['height_angle_deg']:.0f}",
        centre=long(light["centre_height_m"]),
    )  # fmt: skip
    said = f"{_made_of(light)}, {_held(light, long)}, {light['aim_words']}"
    if light["dial"] is not None:
        power = _("power {dial}: {stops} stops below full")
        said += f"; {power.format(dial=light['dial'], stops=format(light['power_below_full_stops'], '.1f'))}"
    return [first, f"               {said}"]


def _made_of(light: dict[str, Any]) -> str:
    """Front, head and ring of a light; a panel by its white side."""
    if not light["head"]:
        return _("{panel}, white").format(panel=light["panel"])
    said = _("{modifier} on {head} with {ring}") if light["adapter"] else _("{modifier} on {head}")
    return said.format(modifier=light["modifier"], head=light["head"], ring=light["adapter"])


def _held(light: dict[str, Any], long: Callable[[float], str]) -> str:
    stand = light["stand"] or _("no stand")
    if not light["arm_m"]:
        return str(stand)
    said = _("{stand}, arm {arm}, counterweight {mass} kg")
    return said.format(stand=stand, arm=long(light["arm_m"]), mass=f"{light['counterweight_kg']:g}")


def _expected(e: dict[str, Any], long: Callable[[float], str]) -> list[str]:
    parts = e["setting_uncertainty_parts"]
    far = _("the horizon") if sharp_without_end(e["sharp_to_m"]) else f"{e['sharp_to_m']:+.2f} m"
    lines = [
        _(
            "  Expect   {reading} set, give or take {stops} stop (heads {heads}, places {places}, bounce {bounce}, "
            "dials {dials})"
        ).format(
            reading=e["setting_reading"]["shown"], stops=f"{e['setting_uncertainty_stops']:g}",
            heads=f"{parts['output']:g}", places=f"{parts['placement']:g}", bounce=f"{parts['bounce']:g}",
            dials=f"{parts['dial']:g}",
        ),
        FURTHER
        + _("fill {fill} under the key (bounce alone {bounce}); shadow cheek {shadow} under the lit one").format(
            fill=f"{e['fill_below_key_stops']:g}", bounce=f"{e['bounce_below_key_stops']:g}",
            shadow=f"{e['shadow_below_lit_stops']:g}",
        ),
        FURTHER
        + _(
            "faces within {faces} stop; edge {edge} mm; source {source} degrees; {pattern}; field {field}; "
            "sharp {near} to {far}"
        ).format(
            faces=f"{e['evenness_stops']:g}", edge=f"{e['shadow_edge_mm']:.0f}",
            source=f"{e['apparent_size_deg']:.0f}", pattern=e["pattern"], field=long(e["field_width_m"]),
            near=f"{e['sharp_from_m']:+.2f}", far=far,
        ),
    ]  # fmt: skip
    for s in e["per_sitter"]:
        eyes = sum(1 for c in s["catchlights"] if c["seen"] and c["light"] == "A")
        lines.append(
            FURTHER
            + _(
                "{label}: relief {relief} stops ({shadow} shadow, {highlight} highlight), most at the {place}; "
                "key in {eyes} of 2 eyes"
            ).format(
                label=s["label"],
                relief=f"{s['relief_stops']:.2f}",
                shadow=f"{s['relief_shadow_stops']:.2f}",
                highlight=f"{s['relief_highlight_stops']:.2f}",
                place=s["worst_place"],
                eyes=eyes,
            )
        )
    return lines


def _round(steps: list[dict[str, Any]]) -> list[str]:
    lines = [_("  Meter round")]
    for s in steps:
        sets = _("  <- sets the camera") if s["sets_camera"] else ""
        lines += _wrapped(
            _(
                "{step}. {place}; dome {dome}, to the {toward}; on {on}, panels {panels}: {target} (give or take "
                "{stops}; set to {tolerance}){sets}"
            ).format(
                step=s["step"],
                place=s["place"],
                dome=_(CODES[s["dome"]]),
                toward=_(CODES[s["toward"]]),
                on=", ".join(s["on"]),
                panels=_(CODES[s["panels"]]),
                target=s["target"]["shown"],
                stops=f"{s['uncertainty_stops']:g}",
                tolerance=f"{s['tolerance_stops']:g}",
                sets=sets,
            ),
            "    ",
        )
    return lines


def _problems(problems: list[dict[str, Any]]) -> list[str]:
    if not problems:
        return [_("No limit is broken."), ""]
    said = _("[{limit}] {setup}: {says} Mend: {mend}")
    rows = (
        said.format(limit=p["limit"], setup=p["setup"] or _("whole brief"), says=p["says"], mend=p["mend"])
        for p in problems
    )
    return _list(_("Problems"), rows)


def _shots(shots: list[dict[str, Any]]) -> Iterator[str]:
    for s in shots:
        minutes = _(", {minutes} min").format(minutes=f"{s['minutes']:g}") if s["minutes"] else ""
        must = _("must") if s["must"] else _("extra")
        frames = ngettext("{n} frame", "{n} frames", s["frames"]).format(n=s["frames"])
        yield _("{n}. [{setup}] {who}: {cue} {frames}, {must}{minutes}").format(
            n=s["n"], setup=s["setup"], who=", ".join(s["who"]), cue=s["cue"], frames=frames, must=must,
            minutes=minutes,
        )  # fmt: skip
