"""Sentences about other ways to do it: alternatives, what-if, how sure a reading is, the nearest plan."""

from __future__ import annotations

PROBLEMS: dict[str, tuple[str, str]] = {
    "nothing_stands": (
        "No free stand or boom holds a key anywhere it would be wanted in this room.",
        "A stand that carries {mass} kg to {height} m, or more floor round the set: {length} x {across} m is free now.",
    ),
    "floor_short": (
        "No stand has a place to stand: the strips of {kept} m kept free along the walls leave no floor for its foot.",
        "Strips of {strip} m, {short} m less along every wall.",
    ),
    "dial_off": (
        "The setting reading is {short} stops {way} the aperture.",
        "Key and fill {short} stops {turn}, or the camera set to {shown}.",
    ),
}
REASONS: dict[str, str] = {}
CAUTIONS: dict[str, str] = {}

TEACHES = (
    "Read light {letter} ({role}) alone first: of all readings of one light it says most about the others. With it known, "
    "the setting reading is good to about {after} stop instead of {before}."
)

# Mends found by trying: each is enough alone.
MENDS: dict[str, str] = {
    "height_angle_deg": "light {letter} at {value:.0f} degrees of height",
    "bearing_deg": "light {letter} at a bearing of {value:.0f} degrees",
    "distance_m": "light {letter} {value:.2f} m off",
    "higher_room": "{short} m more height",
    "smaller_front": "a front no more than {size} m high on light {letter}",
    "taller_stand": "a stand {short} m taller",
    "iso": "ISO {iso}",
    "aperture": "{shown}",
    "as_said": "{cure}",
    "ground_m": "the ground {value} m behind the mark",
    "reflects": "a ground that reflects {share} %",
    "ground_light": "{stops} stops more light on the ground, from a light of its own",
    "wider_ground": "a ground {short} m wider",
}

DIFFERS: dict[str, str] = {
    "modifier": "Another modifier: {modifier} as key, {distance} m off, seen {size} degrees across.",
    "fewer": "Fewer lights: {heads} instead of {was}.",
    "packed": "From what the other set-ups use: without {spared}.",
    "side": "The other side: the key at camera {side}, everything mirrored.",
    "facing": "The other way of the room: the same set along its {axis}.",
}
# What another way is weighed by: how its own number is said, with the difference against the plan's.
COSTS: dict[str, str] = {
    "edge": "nose shadow's edge {own} mm ({by})",
    "relief": "relief {own} stops ({by})",
    "fill": "fill and bounce {own} stops under the key ({by})",
    "faces": "faces within {own} stop ({by})",
    "ground": "ground at L* {own} ({by})",
    "iso": "ISO {own} ({by})",
    "heads": "heads to set {own} ({by})",
}
COST_FORMS = {
    "edge": "{:.0f}", "relief": "{:.2f}", "fill": "{:.1f}", "faces": "{:.1f}", "ground": "{:.0f}", "iso": "{:.0f}",
    "heads": "{:.0f}",
}  # fmt: skip
WITHOUT = {"fill": "no light or panel to fill", "accent": "no accent", "background": "no light of its own on the ground"}
SAME = "no number of the plan changes"

# The numbers of `expected` that a change is shown by: name, unit, how it is written.
SHOWN: dict[str, tuple[str, str, str]] = {
    "setting_uncertainty_stops": ("Give or take of the setting reading", "stops", "{:.1f}"),
    "fill_below_key_stops": ("Fill and bounce under the key", "stops", "{:.1f}"),
    "bounce_below_key_stops": ("Bounce alone under the key", "stops", "{:.1f}"),
    "shadow_below_lit_stops": ("Shadow cheek under the lit one", "stops", "{:.1f}"),
    "evenness_stops": ("Faces within", "stops", "{:.1f}"),
    "hands_below_face_stops": ("Hands under the face", "stops", "{:.1f}"),
    "sway_stops": ("Change for a lean of 5 cm", "stops", "{:.1f}"),
    "shadow_edge_mm": ("Edge of the nose shadow", "mm", "{:.0f}"),
    "apparent_size_deg": ("Source seen from the face", "degrees", "{:.0f}"),
    "pattern": ("Pattern", "", "{}"),
    "field_width_m": ("Width of the field", "m", "{:.2f}"),
    "sharp_from_m": ("Sharp from, before the focus", "m", "{:+.2f}"),
    "sharp_to_m": ("Sharp to, behind the focus", "m", "{:+.2f}"),
}
SHOWN_OF_GROUND: dict[str, tuple[str, str, str]] = {
    "reading_below_setting_stops": ("Ground under the setting", "stops", "{:.1f}"),
    "lightness": ("Lightness of the ground, L*", "", "{:.0f}"),
}
SHOWN_ELSE = {
    "setting_reading": "Setting reading",
    "relief": "Relief of {label}",
    "catchlights": "Light {letter} in the eyes of {label}",
    "glasses": "Light {letter} clear of the glasses of {label}",
    "step": "Reading {step}, {on} on",
}

REFUSALS: dict[str, str] = {
    "no_setup": "This plan has no set-up called {setup}.",
    "older": "This plan is of an earlier make and does not hold all that is needed here: make a new version first.",
    "no_light": "No light stands in {setup}, so there is nothing to change.",
    "no_value": "That value cannot be changed here.",
    "no_number": "{given} is not a number: write 2.1, f/8 or 1/125.",
    "out_of_range": "{given} cannot be set: from {low} to {high}.",
    "no_place": "Light {letter} has no place on that line at that distance: {given} is too near for where it aims.",
    "no_such_light": "This set-up has no light {name}.",
    "no_such_sitter": "Nobody called {name} is in this picture.",
    "no_dial": "Light {letter} is a panel: it has no head and no dial.",
    "not_in_kit": "{name} is not in the kit that was free for this plan.",
    "taken": "{name} is on light {letter} already.",
    "no_ring": "{modifier} does not mount on {head}, and no free ring joins them.",
    "mixed": "{name} is flash where this set-up is steady light, or the other way round; the two are not read together.",
    "nothing_moved": "Nothing stands otherwise than in this plan, so there is nothing to keep.",
    "in_turn": "{name} takes the place after the others, so it is one place for all.",
}
