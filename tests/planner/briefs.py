"""Valid requests for the planner's tests: twenty-odd fixed ones, and Hypothesis strategies for more.

What belongs here: rooms, kits and people put together as JSON trees. Everything is made anew at each call, so that a
test may change its own. No randomness at import.
"""

from __future__ import annotations

import copy
import json
from typing import Any

from hypothesis import strategies as st

from tests.planner.handmade import BRIEFS

Tree = dict[str, Any]
DEMO = ("askew", "marrowfield", "dorrow", "pellingham", "tarrant")
LEARNED = {"head": "h400-1", "modifier": "octa150-1", "offset_stops": -0.3, "standard_error_stops": 0.1, "readings": 5}
INTENTS = ("soft", "even", "natural", "bold", "character", "bright")


def demo(name: str) -> Tree:
    """One of the five demo sittings."""
    tree: Tree = json.loads((BRIEFS / f"{name}.json").read_text())
    return tree


def studio_kit() -> Tree:
    """All that the demo studio owns."""
    kit: Tree = demo("askew")["kit"]
    return kit


def kit_of(**wanted: tuple[str, ...]) -> Tree:
    """The studio's kit with some lists cut down to the ids named."""
    kit = studio_kit()
    for part, ids in wanted.items():
        kit[part] = [row for row in kit[part] if row["id"] in ids]
    return kit


def one_light_kit() -> Tree:
    """A head, an octabox, a panel and two stands: what fits in a car."""
    return kit_of(
        heads=("h400-1",), modifiers=("octa95-1",), adapters=(), stands=("stand220-1", "stand220-2"),
        panels=("panel-1",), backgrounds=("grey270", "white270"), lenses=("lens85",), seats=("chair46-1",),
    )  # fmt: skip


def car(**parts: Any) -> Tree:
    """The same with some lists changed."""
    return one_light_kit() | parts


def small_flash_kit() -> Tree:
    """Two 80 Ws heads on watt-second dials, a shoot-through umbrella, a small box, on a smaller sensor."""
    kit = one_light_kit()
    head = kit["heads"][0] | {"energy_ws": 80, "f_number_1m_iso100": 28, "range_stops": 5, "mount": "shaft 8",
                              "dial": {"scale": "watt_seconds", "step": 1}, "mass_kg": 1.1}  # fmt: skip
    kit["heads"] = [head | {"id": "h80-1"}, head | {"id": "h80-2"}]
    kit["modifiers"] = [
        {"id": "umb100", "kind": "umbrella_through", "shape": "disc", "diameter_m": 1.0, "loss_stops": 2.0,
         "mount": "shaft 8", "mass_kg": 0.6},
        {"id": "box60x90", "kind": "box", "shape": "rect", "width_m": 0.6, "height_m": 0.9, "loss_stops": 2.2,
         "mount": "shaft 8", "mass_kg": 1.0, "core_stops": 0.5},
    ]  # fmt: skip
    kit["cameras"][0] |= {"id": "camera-2", "sensor_width_mm": 24, "sensor_height_mm": 16, "base_iso": 200}
    kit["lenses"] = [{"id": "lens18-55", "min_focal_mm": 18, "max_focal_mm": 55, "max_aperture": 4, "min_aperture": 22}]
    return kit


def low_stand_kit() -> Tree:
    """One dish on a tall stand, and for the panel only a stand of 0.9 m."""
    stands = ("stand300-1", "stand90-1")
    return kit_of(heads=("h400-1",), modifiers=("dish55",), stands=stands, panels=("panel-1",))


def steady_kit() -> Tree:
    """Steady light only."""
    kit = studio_kit()
    kit["heads"] = [kit["heads"][-1] | {"id": f"steady350-{i}"} for i in (1, 2)]
    return kit


def room(width: float = 9.0, depth: float = 6.0, ceiling: float = 3.2, **more: Any) -> Tree:
    """A room, grey and with two circuits unless told otherwise."""
    grey = {"walls": "grey", "ceiling": "light grey", "floor": "grey"}
    circuits = [{"label": f"circuit {i}", "volts": 230, "breaker_amps": 16} for i in (1, 2)]
    return {"width_m": width, "depth_m": depth, "ceiling_m": ceiling, "surfaces": grey, "circuits": circuits} | more


def white_room() -> Tree:
    """The demo's Garden Room: small and white."""
    found: Tree = demo("dorrow")["room"]
    return found


def sitter(label: str, **notes: Any) -> Tree:
    return {"label": label, "age_years": 40, "height_cm": 170, "posture": "seated", "skin": "light"} | notes


def ada(**notes: Any) -> Tree:
    return sitter("Ada", **notes)


def bo(**notes: Any) -> Tree:
    return sitter("Bo", **notes)


def wish(note: str, wanted: str, side: str = "both") -> Tree:
    return {"note": note, "side": side, "wish": wanted}


def setup(intent: str, framing: str = "head_and_shoulders", tone: str = "mid", **more: Any) -> Tree:
    return {"name": "the picture", "intent": intent, "framing": framing, "background_tone": tone} | more


def request(setups: Tree | list[Tree], sitters: Tree | list[Tree], where: Tree | None = None, kit: Tree | None = None,
            **brief: Any) -> Tree:  # fmt: skip
    """A whole request; one set-up or sitter may stand alone. `preferences` and `corrections` go to the top."""
    top = {key: brief.pop(key) for key in ("preferences", "corrections") if key in brief}
    return copy.deepcopy(
        {
            "brief": {"setups": setups if isinstance(setups, list) else [setups]} | brief,
            "sitters": sitters if isinstance(sitters, list) else [sitters],
            "room": where or room(),
            "kit": kit or studio_kit(),
        }
        | top
    )


def lined(wanted: str) -> Tree:
    return sitter("Ottoline", age_years=66, texture="deep lines", wishes=[wish("lines", wanted)])


def family(people: int) -> list[Tree]:
    """People of two households, every third seated, one child in five."""
    ages = (44, 41, 68, 9, 71, 37, 39, 12, 65, 30)
    return [
        sitter(f"Person {i + 1}", age_years=ages[i % 10], height_cm=130 if ages[i % 10] < 13 else 165 + 4 * (i % 5),
               posture="seated" if i % 3 == 0 else "standing", household=f"House {i % 2 + 1}")
        for i in range(people)
    ]  # fmt: skip


def family_of(people: int) -> list[Tree]:
    """Any number of people, each by another name."""
    return [p | {"label": f"Sitter {i + 1}"} for i, p in enumerate(family(people))]


def varied() -> dict[str, Tree]:
    """Requests that differ in intent, framing, room, kit and notes, each by a name that says what is odd about it."""
    pair = [sitter("Edda", glasses={"lens": "usual", "may_remove": True}), sitter("Ruan", height_cm=185, hair="white")]
    glasses = sitter("Corin", glasses={"lens": "strong", "may_remove": False}, eyes="deep set", surface="shiny")
    standing = [sitter("Edda", posture="standing"), sitter("Ruan", posture="standing", height_cm=185)]
    plain, bald = sitter("Mirela"), sitter("Willem", head="bald", skin="dark")
    found = {f"{intent}, one sitter": request(setup(intent), plain) for intent in INTENTS}
    found |= {
        "soft, lines softer": request(setup("soft", "half"), lined("softer"), retouch="light"),
        "character, lines shown": request(setup("character", tone="dark"), lined("shown"), white_room()),
        "glasses and deep-set eyes": request(setup("even"), glasses, key_side="camera_left"),
        "bald, deep skin, white ground": request(setup("bright", tone="white"), bald),
        "a brim": request(setup("natural"), sitter("Rafe", head="brim", skin="brown")),
        "full length": request(setup("natural", "full"), sitter("Nell", posture="standing"), orientation="upright"),
        "three-quarter length": request(setup("bold", "three_quarter", "dark"), plain, orientation="horizontal"),
        "a head, closely": request(setup("bold", "head", "black", view="three_quarter", face_side="broad"), plain),
        "profile": request(setup("character", tone="black", view="profile"), plain, key_side="camera_right"),
        "a couple, soft": request(setup("soft", "half"), pair, orientation="horizontal"),
        "a couple, bold": request(setup("bold", "half", "dark"), pair),
        "three, natural": request(setup("natural", "group"), family(3)),
        "six, even": request(setup("even", "group"), family(6), print_width_cm=90),
        "a wheelchair and a lap": request(
            setup("natural", "group"),
            [sitter("Osric", posture="wheelchair"),
             sitter("Wilf", age_years=2, height_cm=87, posture="lap", keep_with="Osric")],
        ),
        "no flash": request(setup("even"), sitter("Nell", no_flash=True)),
        "two set-ups": request([setup("soft"), setup("bold", tone="dark") | {"name": "second"}], plain, minutes=60),
        "one light": request(setup("natural"), plain, room(5, 3.5, 2.6), one_light_kit()),
        "small flashes, watt-seconds": request(setup("soft"), plain, room(5, 4, 2.5), small_flash_kit()),
        "steady light": request(setup("natural", "half"), plain, kit=steady_kit()),
        "a low white room": request(setup("soft", "half"), plain, white_room()),
        "a standing couple, one light": request(setup("natural", "half"), standing, kit=one_light_kit()),
        "a tall sitter, a low stand": request(setup("character", "head"), standing[1], kit=low_stand_kit()),
        "orders": request(setup("even"), plain, preferences={"aperture": 5.6, "iso": 200, "shutter_s": 0.008}),
        "a correction": request(setup("even"), plain, corrections=[LEARNED]),
        "meter at the key": request(setup("even"), plain, meter={"setting_reading": "at_key", "dome": "out"}),
    }  # fmt: skip
    return found


def mirrored(tree: Tree) -> Tree:
    """The same request with the key wanted on the other side."""
    other = copy.deepcopy(tree)
    swap = {"camera_left": "camera_right", "camera_right": "camera_left"}
    other["brief"]["key_side"] = swap[tree["brief"]["key_side"]]
    return other


@st.composite
def sitters(draw: st.DrawFn, most: int = 3) -> list[Tree]:
    """One to `most` people with notes that may pull against each other."""
    people = []
    for i in range(draw(st.integers(1, most))):
        notes: Tree = {
            "age_years": draw(st.integers(5, 90)),
            "height_cm": draw(st.integers(120, 200)),
            "posture": draw(st.sampled_from(["standing", "seated", "wheelchair"])),
            "skin": draw(st.sampled_from(["very light", "light", "tan", "brown", "dark", "not noted"])),
            "eyes": draw(st.sampled_from(["usual", "deep set"])),
            "hair": draw(st.sampled_from(["dark", "mid", "fair", "grey", "white"])),
            "head": draw(st.sampled_from(["usual", "bald", "covered"])),
            "glasses": draw(st.none() | st.fixed_dictionaries({"lens": st.sampled_from(["flat", "usual", "strong"])})),
            "better_side": draw(st.sampled_from(["own_left", "own_right", "none"])),
        }
        if draw(st.booleans()):
            note = draw(st.sampled_from(["lines", "bags", "neck", "chin", "width", "nose", "shine"]))
            notes["wishes"] = [wish(note, draw(st.sampled_from(["softer", "shown"])), "own_left")]
        people.append(sitter(f"Sitter {i + 1}", **notes))
    return people


@st.composite
def kits(draw: st.DrawFn) -> Tree:
    """Parts of the studio's kit; any list but cameras, lenses and grounds may turn out empty."""
    kit = studio_kit()
    for part, least in (("heads", 0), ("modifiers", 0), ("adapters", 0), ("stands", 0), ("panels", 0), ("seats", 0),
                        ("backgrounds", 1), ("lenses", 1)):  # fmt: skip
        whole = kit[part]
        size = draw(st.integers(least, len(whole)) | st.just(len(whole)))
        start = draw(st.integers(0, max(0, len(whole) - size)))
        kit[part] = whole[start : start + size]
    return kit


@st.composite
def requests(draw: st.DrawFn) -> Tree:
    """Any valid request for one to three people; many of them cannot be fulfilled without a problem."""
    people = draw(sitters())
    where = room(
        draw(st.integers(12, 40)) / 4, draw(st.integers(12, 40)) / 4, draw(st.integers(22, 40)) / 10,
        keep_out_m=draw(st.sampled_from([0.0, 0.4, 0.8])),
        surfaces={"walls": draw(st.sampled_from(["white", "grey", "black"])), "ceiling": "white", "floor": "grey"},
    )  # fmt: skip
    one = setup(
        draw(st.sampled_from(INTENTS)),
        draw(st.sampled_from(["head", "head_and_shoulders", "half", "three_quarter", "full", "group"])),
        draw(st.sampled_from(["black", "dark", "mid", "light", "white"])),
        view=draw(st.sampled_from(["full", "seven_eighths", "three_quarter", "profile", "either"])),
        face_side=draw(st.sampled_from(["short", "broad", "either"])),
    )
    kit = draw(st.one_of(kits(), st.builds(studio_kit), st.builds(one_light_kit), st.builds(small_flash_kit)))
    side = draw(st.sampled_from(["camera_left", "camera_right", "either"]))
    return request(one, people, where, kit, key_side=side)
