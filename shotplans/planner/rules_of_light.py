"""Rules on what a note asks of the light: rows of `rules.RULES` whose numbers move the key, the fill or the accent.

Belongs here: words, numbers and their ranges. Not here: what is done with them (`notes`, `consequences`). Common
practice, no source, unless the row names one.
"""

from __future__ import annotations

from shotplans.planner.rule import Number, Rule
from studio.tongue import noop

DEG = "deg"
UNDER = "stops under the key"

LIGHT: dict[str, Rule] = {
    "lines_softer": Rule(
        noop("Somebody wishes lines, bags, neck, a scar or a blemish softer"),
        noop("A key near the nose, well filled, draws fine lines least; a broad source calms edges, bags and folds."),
        {
            "pull_share": Number(noop("how far the intent moves toward soft"), 60, 0, 100, "%"),
            "near_end_less_deg": Number(noop("nearer the nose at the near end"), 3, 0, 15, DEG),
            "far_end_less_deg": Number(noop("nearer the nose at the far end"), 5, 0, 20, DEG),
            "nose_least_deg": Number(noop("never nearer the nose than"), 5, 0, 20, DEG),
            "relief_share": Number(noop("share of the relief that is still wanted"), 90, 50, 100, "%"),
        },
        noop("common practice; relief by our own study, checked by traced rays [LIGHT-3]"),
    ),
    "lines_shown": Rule(
        noop("Somebody wishes lines, bags, neck or a scar shown"),
        noop("A key that skims from the side with little fill draws every form."),
        {"pull_share": Number(noop("how far the intent moves toward character"), 60, 0, 100, "%")},
        noop("common practice; relief by our own study, checked by traced rays [LIGHT-3]"),
    ),
    "who_minds": Rule(
        noop("Somebody in the picture wishes a change"),
        noop("The light is judged first on the one who asked for something."),
        {"weight": Number(noop("weight of a wish against none"), 4, 1, 20, "times")},
    ),
    "shine": Rule(
        noop("Shine is to be calmed, or the head is bare"),
        noop("A broader source spreads the gloss, and nothing from behind adds to it."),
        {
            "source_more_deg": Number(noop("the source larger by"), 5, 0, 20, DEG),
            "camera_down_cm": Number(noop("the camera lower by"), 5, 0, 20, "cm"),
            "hair_low_stops": Number(noop("a hair light, if one must be, from"), 2, 0, 5, UNDER),
            "hair_high_stops": Number(noop("a hair light, if one must be, to"), 3, 0, 6, UNDER),
        },
    ),
    "tone_deep": Rule(
        noop("A deep tone of skin"),
        noop(
            "Shape comes from highlights, so the source is broad, a rim parts the head from a dark ground, and the "
            "reading stays the same as for anybody."
        ),
        {
            "source_more_deg": Number(noop("the source larger by"), 3, 0, 20, DEG),
            "rim_low_stops": Number(noop("rim against a dark ground, from"), 0.5, 0, 4, UNDER),
            "rim_high_stops": Number(noop("rim against a dark ground, to"), 1.5, 0, 5, UNDER),
            "lift_stops": Number(noop("more exposure, if the sitter wants it, up to"), 0.3, 0, 1, "stops"),
        },
    ),
    "tone_fair": Rule(
        noop("A very light tone of skin"),
        noop("It clips first, in the red channel before the others."),
        {
            "less_low_stops": Number(noop("less exposure when in doubt, from"), 0.1, 0, 1, "stops"),
            "less_high_stops": Number(noop("less exposure when in doubt, to"), 0.2, 0, 1, "stops"),
        },
    ),
    "tones_apart": Rule(
        noop("Two people whose skin differs much in tone"),
        noop("The fairer of the two sits farther from the key, and both are read."),
        {"ratio": Number(noop("reflectance of the fairer over the deeper, from"), 1.5, 1.1, 4, "times")},
    ),
    "face_wide": Rule(
        noop("A wide face, or the wish for a slimmer one"),
        noop("Light on the far cheek and a turned head narrow the lit part of the face."),
        {
            "turn_low_deg": Number(noop("head turned, from"), 30, 0, 60, DEG),
            "turn_high_deg": Number(noop("head turned, to"), 45, 10, 90, DEG),
        },
    ),
    "face_narrow": Rule(
        noop("A narrow face, alone in the picture"),
        noop("A flatter light from nearer the nose widens it."),
        {
            "nose_low_deg": Number(noop("key off the nose, from"), 15, 0, 60, DEG),
            "nose_high_deg": Number(noop("key off the nose, to"), 25, 5, 60, DEG),
            "share": Number(noop("how far the intent moves there"), 50, 0, 100, "%"),
        },
    ),
    "deep_set": Rule(
        noop("Eyes that lie deep"),
        noop("A lower key reaches under the brow, and a white card below helps it."),
        {
            "height_low_deg": Number(noop("height angle of the key, from"), 20, 0, 60, DEG),
            "height_high_deg": Number(noop("height angle of the key, to"), 30, 5, 60, DEG),
        },
    ),
    "chin_softer": Rule(
        noop("Somebody wishes the chin softer"),
        noop("A higher key puts the shadow under the jaw, and a camera above the eyes hides what is below it."),
        {
            "key_up_deg": Number(noop("key higher by"), 3, 0, 15, DEG),
            "camera_up_cm": Number(noop("camera above the eyes by"), 10, 0, 30, "cm"),
        },
    ),
    "glasses": Rule(
        noop("Somebody wears glasses"),
        noop(
            "Every light, the fill above all, is mirrored to the lens when it stands low; chin and temples turn the "
            "mirror away, and that takes a little time."
        ),
        {
            "chin_down_deg": Number(noop("chin down by"), 3, 0, 10, DEG),
            "edge_deg": Number(noop("lower edge of a light above the eyes, chin level"), 3, 0, 40, DEG),
            "slack_deg": Number(noop("and above that for safety"), 5, 0, 20, DEG),
            "extra_minutes": Number(noop("longer sitting"), 5, 0, 30, "min"),
        },
        noop("common practice; the mirror by our own study, checked by traced rays [LIGHT-6]"),
    ),
    "hair_on_dark": Rule(
        noop("Dark hair before a dark ground"),
        noop("Without a hair light it melts into the ground."),
        {
            "low_stops": Number(noop("hair light, from"), 0.5, 0, 4, UNDER),
            "high_stops": Number(noop("hair light, to"), 1.5, 0, 5, UNDER),
        },
    ),
    "hair_dark": Rule(
        noop("Dark hair in a natural light"),
        noop("Dark hair takes more light than fair hair before it shows."),
        {
            "low_stops": Number(noop("hair light, from"), 0.5, 0, 4, UNDER),
            "high_stops": Number(noop("hair light, to"), 1.0, 0, 5, UNDER),
        },
    ),
    "hair_light": Rule(
        noop("Fair, grey or white hair"),
        noop("It is bright already and blows out before dark hair shows."),
        {
            "low_stops": Number(noop("hair light, from"), 1.5, 0, 5, UNDER),
            "high_stops": Number(noop("hair light, to"), 2.5, 0, 6, UNDER),
        },
    ),
    "brim": Rule(
        noop("A hat with a brim"),
        noop("The brim shades the eyes from anything higher."),
        {
            "height_low_deg": Number(noop("height angle of the key, from"), 0, 0, 30, DEG),
            "height_high_deg": Number(noop("height angle of the key, to"), 12, 2, 45, DEG),
        },
    ),
    "clothes_dark": Rule(
        noop("Dark clothes before a dark ground"),
        noop("A light on the shoulder keeps the outline, and the face stays the lightest place."),
        {
            "low_stops": Number(noop("light on the shoulder, from"), -0.5, -1, 4, UNDER),
            "high_stops": Number(noop("light on the shoulder, to"), 0.0, -1, 5, UNDER),
        },
    ),
    "clothes_light": Rule(
        noop("Light clothes"),
        noop("Cloth lighter than the face draws the eye; the key is feathered or flagged off it."),
        {"spread_stops": Number(noop("cloth above the face at most"), 1, 0, 3, "stops")},
    ),
    "clothes_shiny": Rule(
        noop("Shiny cloth, metal or medals"),
        noop("A larger source spreads the gloss; what still burns is flagged."),
        {"source_more_deg": Number(noop("the source larger by"), 3, 0, 20, DEG)},
    ),
    "infant": Rule(
        noop("A small child in the picture"),
        noop("Nothing stands or hangs behind or over a small child."),
        {"years": Number(noop("younger than"), 3, 0, 8, "years")},
    ),
    "two_rows": Rule(
        noop("People in more than one row"),
        noop("The farther the key, the less the back row falls off."),
        {"row_stops": Number(noop("front row over back row at most"), 0.5, 0.1, 1, "stops")},
        noop("common practice; the fall by inverse square"),
    ),
    "no_flash": Rule(
        noop("Somebody asked for no flash"),
        noop("Steady light only, every flash head off at the wall, and nothing that pulses."),
        {"bursts_hz": Number(noop("flashes elsewhere in the house at most"), 3, 1, 3, "a second")},
        noop("published guidance on photosensitivity; the rest common practice"),
    ),
}
