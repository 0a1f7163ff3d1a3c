"""Sentences about other ways to do it: alternatives, what-if, how sure a reading is, the nearest plan."""

from __future__ import annotations

from studio.tongue import noop

PROBLEMS: dict[str, tuple[str, str]] = {
    "nothing_stands": (
        noop("No free stand or boom holds a key anywhere it would be wanted in this room."),
        noop(
            "A stand that carries {mass} kg to {height} m, or more floor round the set: {length} x {across} m is free now."
        ),
    ),
    "floor_short": (
        noop(
            "No stand has a place to stand: the strips of {kept} m kept free along the walls leave no floor for its foot."
        ),
        noop("Strips of {strip} m, {short} m less along every wall."),
    ),
    "dial_off": (
        noop("The setting reading is {short} stops {way} the aperture."),
        noop("Key and fill {short} stops {turn}, or the camera set to {shown}."),
    ),
}
REASONS: dict[str, str] = {}
CAUTIONS: dict[str, str] = {}

TEACHES = noop(
    "Read light {letter} ({role}) alone first: of all readings of one light it says most about the others. With it known, "
    "the setting reading is good to about {after} stop instead of {before}."
)

# Mends found by trying: each is enough alone.
MENDS: dict[str, str] = {
    "height_angle_deg": noop("light {letter} at {value:.0f} degrees of height"),
    "bearing_deg": noop("light {letter} at a bearing of {value:.0f} degrees"),
    "distance_m": noop("light {letter} {value:.2f} m off"),
    "higher_room": noop("{short} m more height"),
    "smaller_front": noop("a front no more than {size} m high on light {letter}"),
    "taller_stand": noop("a stand {short} m taller"),
    "iso": noop("ISO {iso}"),
    "aperture": "{shown}",
    "as_said": "{cure}",
    "ground_m": noop("the ground {value} m behind the mark"),
    "reflects": noop("a ground that reflects {share} %"),
    "ground_light": noop("{stops} stops more light on the ground, from a light of its own"),
    "wider_ground": noop("a ground {short} m wider"),
}

DIFFERS: dict[str, str] = {
    "modifier": noop("Another modifier: {modifier} as key, {distance} m off, seen {size} degrees across."),
    "fewer": noop("Fewer lights: {heads} instead of {was}."),
    "packed": noop("From what the other set-ups use: without {spared}."),
    "side": noop("The other side: the key at camera {side}, everything mirrored."),
    "facing": noop("The other way of the room: the same set along its {axis}."),
}
# What another way is weighed by: how its own number is said, with the difference against the plan's.
COSTS: dict[str, str] = {
    "edge": noop("nose shadow's edge {own} mm ({by})"),
    "relief": noop("relief {own} stops ({by})"),
    "fill": noop("fill and bounce {own} stops under the key ({by})"),
    "faces": noop("faces within {own} stop ({by})"),
    "ground": noop("ground at L* {own} ({by})"),
    "iso": noop("ISO {own} ({by})"),
    "heads": noop("heads to set {own} ({by})"),
}
COST_FORMS = {
    "edge": "{:.0f}", "relief": "{:.2f}", "fill": "{:.1f}", "faces": "{:.1f}", "ground": "{:.0f}", "iso": "{:.0f}",
    "heads": "{:.0f}",
}  # fmt: skip
WITHOUT = {
    "fill": noop("no light or panel to fill"),
    "accent": noop("no accent"),
    "background": noop("no light of its own on the ground"),
}
SAME = noop("no number of the plan changes")

# The numbers of `expected` that a change is shown by: name, unit, how it is written.
SHOWN: dict[str, tuple[str, str, str]] = {
    "setting_uncertainty_stops": (noop("Give or take of the setting reading"), noop("stops"), "{:.1f}"),
    "fill_below_key_stops": (noop("Fill and bounce under the key"), noop("stops"), "{:.1f}"),
    "bounce_below_key_stops": (noop("Bounce alone under the key"), noop("stops"), "{:.1f}"),
    "shadow_below_lit_stops": (noop("Shadow cheek under the lit one"), noop("stops"), "{:.1f}"),
    "evenness_stops": (noop("Faces within"), noop("stops"), "{:.1f}"),
    "hands_below_face_stops": (noop("Hands under the face"), noop("stops"), "{:.1f}"),
    "sway_stops": (noop("Change for a lean of 5 cm"), noop("stops"), "{:.1f}"),
    "shadow_edge_mm": (noop("Edge of the nose shadow"), "mm", "{:.0f}"),
    "apparent_size_deg": (noop("Key seen from the face"), noop("degrees"), "{:.0f}"),
    "pattern": (noop("Pattern"), "", "{}"),
    "field_width_m": (noop("Width of the field"), "m", "{:.2f}"),
    "sharp_from_m": (noop("Sharp from, before the focus"), "m", "{:+.2f}"),
    "sharp_to_m": (noop("Sharp to, behind the focus"), "m", "{:+.2f}"),
}
SHOWN_OF_GROUND: dict[str, tuple[str, str, str]] = {
    "reading_below_setting_stops": (noop("Ground under the setting"), noop("stops"), "{:.1f}"),
    "lightness": (noop("Lightness of the ground, L*"), "", "{:.0f}"),
}
SHOWN_ELSE = {
    "setting_reading": noop("Setting reading"),
    "relief": noop("Relief of {label}"),
    "catchlights": noop("Light {letter} in the eyes of {label}"),
    "glasses": noop("Light {letter} clear of the glasses of {label}"),
    "step": noop("Reading {step}, {on} on"),
}

REFUSALS: dict[str, str] = {
    "no_setup": noop("This plan has no set-up called {setup}."),
    "older": noop(
        "This plan is of an earlier make and does not hold all that is needed here: make a new version first."
    ),
    "no_light": noop("No light stands in {setup}, so there is nothing to change."),
    "no_value": noop("That value cannot be changed here."),
    "no_number": noop("{given} is not a number: write 2.1, f/8 or 1/125."),
    "out_of_range": noop("{given} cannot be set: from {low} to {high}."),
    "no_place": noop(
        "Light {letter} has no place on that line at that distance: {given} is too near for where it aims."
    ),
    "own_front": noop("Light {letter} cannot be pointed at a place in its own front."),
    "misses": noop("Pointed there, light {letter} would not reach the middle, where the meter is held, at all."),
    "no_such_light": noop("This set-up has no light {name}."),
    "no_such_sitter": noop("Nobody called {name} is in this picture."),
    "no_dial": noop("Light {letter} is a panel: it has no head and no dial."),
    "not_in_kit": noop("{name} is not in the kit that was free for this plan."),
    "taken": noop("{name} is on light {letter} already."),
    "no_ring": noop("{modifier} does not mount on {head}, and no free ring joins them."),
    "mixed": noop(
        "{name} is flash where this set-up is steady light, or the other way round; the two are not read together."
    ),
    "nothing_moved": noop("Nothing stands otherwise than in this plan, so there is nothing to keep."),
    "in_turn": noop("{name} takes the place after the others, so it is one place for all."),
}
