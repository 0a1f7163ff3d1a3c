"""The one table of defaults: what is assumed where the input leaves a value open. Belongs here: one row
for each key that may be left out, with its sentence. Not here: putting them in (`assumptions`)."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from shotplans.planner.anatomy import GROWN_YEARS, stature_m
from shotplans.planner.people import CHAIR_M
from shotplans.planner.seating import usual_posture
from studio.tongue import noop

Entry = Mapping[str, Any]
Value = str | float | bool | None
DOUBLE_CLOTH = ("octabox", "box", "strip")
UMBRELLAS = ("umbrella_through", "umbrella_back")
# Full width of the beam at half its strength, by kind; values from memory. 120 is an evenly bright cloth.
BEAM_DEG = {"dish": 70.0, "reflector": 60.0, "snoot": 20.0}
ONE_CLOTH_BEAM_DEG, BARE_BEAM_DEG = 95.0, 70.0  # boxes without the inner cloth, and without any; sure to 15 degrees
# Depth from the head's mount to the front, as a share of the front's smaller side; values from memory.
DEPTH_SHARE = {
    "octabox": 0.4,
    "box": 0.4,
    "strip": 1.2,
    "umbrella_through": 0.3,
    "umbrella_back": 0.3,
    "dish": 0.4,
    "reflector": 0.8,
    "lantern": 1.0,
    "snoot": 2.0,
}


@dataclass(frozen=True)
class Gap:
    """One key that may be left open.

    `path` is the entry's path (`[]` for each of a list), `key` the one left open. `value` is a value, or a
    function of the entry and the whole tree. `says` is the end of the sentence, with {value} in it, or None
    where absence simply means none and needs no words. `applies` narrows the row to some entries, `called` is
    what a note on a sitter is called in the sentence; other keys are said by their path.
    """

    path: str
    key: str
    value: Value | Callable[[Entry, Entry], Value]
    says: str | None = None
    applies: Callable[[Entry], bool] = lambda entry: True
    called: str | None = None


def _is(key: str, *values: str) -> Callable[[Entry], bool]:
    return lambda entry: entry.get(key) in values


def _side_m(modifier: Entry) -> float:
    if modifier["shape"] == "disc":
        return float(modifier["diameter_m"])
    return float(min(modifier["width_m"], modifier["height_m"]))


def _depth_m(modifier: Entry, tree: Entry) -> float:
    return min(100.0, round(DEPTH_SHARE[modifier["kind"]] * _side_m(modifier), 2))


def _beam_deg(modifier: Entry, tree: Entry) -> float:
    """An even cloth shines as a matt front does; with one cloth, or none, more of the tube's own way is left."""
    if modifier["kind"] in DOUBLE_CLOTH and modifier.get("inner_cloth") is False:
        return BARE_BEAM_DEG if modifier.get("outer_cloth") is False else ONE_CLOTH_BEAM_DEG
    return BEAM_DEG.get(modifier["kind"], 120.0)


def _step(dial: Entry, tree: Entry) -> float:
    return 1.0 if dial["scale"] == "watt_seconds" else 0.1


def _energy_ws(head: Entry, tree: Entry) -> float:
    """A 400 Ws head gives about f/64 at a metre in its reflector (guide number 64 m; value from memory)."""
    return float(min(100_000.0, max(1.0, round(400.0 * (head["f_number_1m_iso100"] / 64.0) ** 2))))


def _watts(head: Entry, tree: Entry) -> float:
    """A flash draws its energy anew in each recycling, 70 % of it used; a steady head counts as 300 W."""
    if head["light"] == "steady":
        return 300.0
    return float(min(100_000.0, round(head["energy_ws"] / max(head["recycle_s"], 0.05) / 0.7)))


def _peak_amps(head: Entry, tree: Entry) -> float:
    """Twice the steady current for a flash that recycles; the steady current itself for a steady head."""
    circuits = tree["room"]["circuits"]
    volts = circuits[0]["volts"] if circuits else 230.0
    return float(min(10_000.0, round((2.0 if head["light"] == "flash" else 1.0) * head["watts"] / volts, 1)))


def _ambient_lux(room: Entry, tree: Entry) -> float:
    return 10.0 if room["black_out"] else 100.0


def _min_aperture(lens: Entry, tree: Entry) -> float:
    return max(22.0, float(lens["max_aperture"]))


def _min_focus_m(lens: Entry, tree: Entry) -> float:
    """About ten focal lengths: common practice, no source."""
    return round(float(lens["max_focal_mm"]) / 100, 2)


def _height_cm(sitter: Entry, tree: Entry) -> float:
    return round(100.0 * stature_m(sitter["age_years"]))


GAPS: tuple[Gap, ...] = (
    Gap("brief.setups[]", "view", "either", noop("left to the plan")),
    Gap("brief.setups[]", "face_side", "either", noop("left to the plan")),
    Gap("brief", "key_side", "either", noop("left to the plan")),
    Gap("brief", "orientation", "either", noop("left to the plan")),
    Gap("brief", "print_width_cm", 40.0, noop("sharpness is judged for a print {value:g} cm wide")),
    Gap("brief", "viewing_m", 0.6, noop("the print is looked at from {value:g} m")),
    Gap("brief", "copy_space", "none", noop("none is kept free")),
    Gap("brief", "shots_in_order", False),
    Gap("brief.shots[]", "must", False),
    Gap("brief", "retouch", "none", noop("none is planned")),
    Gap("brief", "minutes", None, noop("the shot list is not held against a time")),
    Gap("brief", "decider_present", True, noop("whoever decides is taken to be there")),
    Gap("brief", "haze", False),
    Gap("brief.meter", "setting_reading", "at_camera", noop("taken with the dome at the camera")),
    Gap("brief.meter", "dome", "out", noop("taken as out")),
    Gap("sitters[]", "age_years", GROWN_YEARS, noop("planned as a grown-up of {value:g}"), called=noop("age")),
    Gap(
        "sitters[]", "height_cm", _height_cm, noop("taken as {value:g} cm, the usual at that age"),
        called=noop("height"),
    ),
    Gap("sitters[]", "posture", usual_posture, noop("planned {value}"), called=noop("posture")),
    Gap("sitters[]", "skin", "not noted", noop("planned for a middle reflectance"), called=noop("skin")),
    Gap(
        "sitters[]", "surface", "usual", noop("planned for usual skin, neither matte nor shiny"),
        called=noop("surface"),
    ),
    Gap("sitters[]", "texture", "smooth", noop("planned as smooth"), called=noop("texture")),
    Gap("sitters[]", "eyes", "usual", noop("planned as usual, not deep set"), called=noop("eyes")),
    Gap("sitters[]", "beard", "none", noop("planned without one"), called=noop("beard")),
    Gap("sitters[]", "hair", "mid", noop("planned for a middle tone"), called=noop("hair")),
    Gap("sitters[]", "head", "usual", noop("planned with usual hair, no hat"), called=noop("head")),
    Gap("sitters[]", "face_width", "usual", noop("planned as usual"), called=noop("face width")),
    Gap("sitters[]", "better_side", "none", noop("either side may face the lens"), called=noop("better side")),
    Gap(
        "sitters[]", "turn_limit_deg", 40.0, noop("the head is turned no more than {value:g} degrees"),
        called=noop("turn limit"),
    ),
    Gap(
        "sitters[]", "chin_limit_deg", 10.0, noop("the chin is moved no more than {value:g} degrees"),
        called=noop("chin limit"),
    ),
    Gap("sitters[].wishes[]", "side", "both", noop("taken for both sides"), called=noop("side of a wish")),
    Gap("sitters[].wishes[]", "wish", "as it is", noop("left as it is, ask before the sitting"), called=noop("wish")),
    Gap("sitters[].glasses", "lens", "usual", noop("planned for the usual curve"), called=noop("lens of the glasses")),
    Gap(
        "sitters[].glasses",
        "may_remove",
        False,
        noop("planned to stay on, ask whether one frame may go without"),
        called=noop("taking off the glasses"),
    ),
    Gap("sitters[].clothes", "tone", "mid", noop("planned for a middle tone"), called=noop("tone of the clothes")),
    *(Gap("sitters[].clothes", key, False) for key in ("bare_arms", "shiny", "pattern")),
    *(
        Gap("sitters[]", key, False)
        for key in (
            "central", "hip_or_back", "no_flash", "hearing", "low_vision", "tremor", "sensory", "shy", "broad_seat",
            "big_hair",
        )
    ),
    Gap("room", "keep_out_m", 0.4, noop("taken as {value:g} m along every wall")),
    Gap("room", "set_axis", "either", noop("left to the plan")),
    Gap("room", "black_out", False, noop("taken as not possible")),
    Gap("room", "ambient_lux", _ambient_lux, noop("taken as {value:g} lux")),
    Gap("room.surfaces", "walls", "light grey", noop("taken as {value}")),
    Gap("room.surfaces", "ceiling", "white", noop("taken as {value}")),
    Gap("room.surfaces", "floor", "grey", noop("taken as {value}")),
    Gap("kit.heads[]", "rated_with", "standard_reflector", noop("taken as the standard reflector")),
    Gap("kit.heads[].dial", "scale", "stops", noop("taken as stops below full power")),
    Gap("kit.heads[].dial", "step", _step, noop("taken as {value:g} on the dial's own scale")),
    Gap(
        "kit.heads[]",
        "energy_ws",
        _energy_ws,
        noop("taken as about {value:g} Ws by its output"),
        _is("light", "flash"),
    ),
    Gap("kit.heads[]", "kelvin", 5600.0, noop("taken as {value:g} K")),
    Gap("kit.heads[]", "duration_s", 0.001, noop("taken as {value:g} s"), _is("light", "flash")),
    Gap("kit.heads[]", "duration_kind", "t0.5", noop("taken as {value}"), _is("light", "flash")),
    Gap("kit.heads[]", "recycle_s", 1.5, noop("taken as {value:g} s"), _is("light", "flash")),
    Gap("kit.heads[]", "modelling_watts", 60.0, noop("taken as {value:g} W"), _is("light", "flash")),
    Gap("kit.heads[]", "modelling_watts", 0.0, None, _is("light", "steady")),
    Gap("kit.heads[]", "flicker_free", False, noop("not relied on to be"), _is("light", "steady")),
    Gap("kit.heads[]", "watts", _watts, noop("taken as {value:g} W from the mains")),
    Gap("kit.heads[]", "peak_amps", _peak_amps, noop("taken as {value:g} A")),
    Gap(
        "kit.modifiers[]",
        "beam_deg",
        _beam_deg,
        noop("taken as {value:g} degrees"),
    ),
    Gap("kit.modifiers[]", "inner_cloth", True, noop("taken as there"), _is("kind", *DOUBLE_CLOTH)),
    Gap("kit.modifiers[]", "inner_cloth", False),
    Gap("kit.modifiers[]", "outer_cloth", True, noop("taken as there"), _is("kind", *DOUBLE_CLOTH)),
    Gap("kit.modifiers[]", "outer_cloth", False, noop("taken as not there"), _is("kind", "umbrella_back")),
    Gap("kit.modifiers[]", "outer_cloth", True, None, _is("kind", "umbrella_through", "lantern")),
    Gap("kit.modifiers[]", "outer_cloth", False),
    Gap(
        "kit.modifiers[]",
        "core_stops",
        lambda m, _: 0.0 if m["inner_cloth"] and m["outer_cloth"] else 0.5,
        noop("the edge is taken as {value:g} stops darker than the middle"),
    ),
    Gap("kit.modifiers[]", "lip_m", 0.0, noop("taken as none"), _is("kind", *DOUBLE_CLOTH)),
    Gap("kit.modifiers[]", "lip_m", 0.0),
    Gap("kit.modifiers[]", "depth_m", _depth_m, noop("taken as {value:g} m")),
    Gap(
        "kit.modifiers[]",
        "min_distance_m",
        lambda m, _: 0.5 if m["kind"] in UMBRELLAS else 0.3,
        noop("nothing is planned nearer than {value:g} m"),
    ),
    Gap("kit.stands[]", "reach_m", 0.0, None, _is("kind", "stand")),
    Gap("kit.stands[]", "reach_m", 1.5, noop("taken as {value:g} m"), _is("kind", "boom")),
    Gap("kit.stands[]", "counterweight_kg", 0.0, None, _is("kind", "stand")),
    Gap("kit.stands[]", "counterweight_kg", 7.0, noop("taken as {value:g} kg"), _is("kind", "boom")),
    Gap("kit.stands[]", "footprint_m", 1.0, noop("taken as {value:g} m across the legs")),
    Gap("kit.panels[]", "white_reflectance", 0.85, noop("taken as {value:g}")),
    Gap("kit.panels[]", "black_reflectance", 0.04, noop("taken as {value:g}")),
    Gap("kit.weights[]", "kg", 6.0, noop("taken as {value:g} kg")),
    Gap("kit.flags[]", "width_m", 0.6, noop("taken as {value:g} m")),
    Gap("kit.flags[]", "height_m", 0.9, noop("taken as {value:g} m")),
    Gap("kit.backgrounds[]", "kind", "paper", noop("taken as {value}")),
    Gap("kit.backgrounds[]", "height_m", 2.5, noop("taken as {value:g} m")),
    Gap("kit.lenses[]", "min_aperture", _min_aperture, noop("taken as f/{value:g}")),
    Gap("kit.lenses[]", "min_focus_m", _min_focus_m, noop("taken as {value:g} m")),
    Gap("kit.seats[]", "height_m", CHAIR_M, noop("taken as {value:g} m")),
    Gap("kit.seats[]", "arms", False, noop("taken as without")),
    Gap("kit.seats[]", "back", False, noop("taken as without")),
    Gap("kit.risers[]", "height_m", 0.2, noop("taken as {value:g} m")),
    Gap("kit.risers[]", "arms", False),
    Gap("kit.risers[]", "back", False),
    Gap("preferences", "units", "metric"),
)

# Values of the table as they stand in a sentence.
VALUES = (
    noop("standing"), noop("seated"), noop("wheelchair"), noop("floor"), noop("lap"), noop("white"), noop("grey"),
    noop("light grey"), noop("paper"),
)  # fmt: skip

# Objects that may be left out whole: their keys are then open one by one.
WHOLES: tuple[tuple[str, str], ...] = (
    ("brief", "meter"),
    ("room", "surfaces"),
    ("sitters[]", "clothes"),
    ("kit.heads[]", "dial"),
    ("", "preferences"),
)

# Lists whose entries need no name: they are numbered. (path, key, word)
NUMBERED: tuple[tuple[str, str, str], ...] = (
    ("room.circuits[]", "label", "circuit"),
    ("kit.weights[]", "id", "weight"),
    ("kit.flags[]", "id", "flag"),
    ("kit.triggers[]", "id", "trigger"),
    ("kit.seats[]", "id", "seat"),
    ("kit.risers[]", "id", "riser"),
)
