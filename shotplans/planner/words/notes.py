"""Sentences about what notes and wishes ask for, and what was done where two of them disagree."""

from __future__ import annotations

from studio.tongue import noop

PROBLEMS: dict[str, tuple[str, str]] = {
    "time_short": (
        noop("Pictures, changes of set-up and what was asked for need {need} minutes; {booked} are booked{off}."),
        noop("{short} minutes more, or {fewer} pictures fewer."),
    ),
}

# What a sitter wishes changed, and how, as they stand inside a sentence.
NOTES = {
    "lines": noop("lines"), "bags": noop("bags"), "neck": noop("neck"), "chin": noop("chin"), "width": noop("width"),
    "nose": noop("nose"), "scar": noop("scar"), "blemish": noop("blemish"), "hair": noop("hair"),
    "shine": noop("shine"),
}  # fmt: skip
WISHES = {"softer": noop("softer"), "as it is": noop("as it is"), "shown": noop("shown")}

REASONS: dict[str, str] = {
    "source_larger": noop(
        "Gloss is to be spread over a larger front, so the source was wanted {more} degrees larger: {low} to "
        "{high} across; from the face it is {size} degrees across here."
    ),
    "accent_on_dark": noop(
        "What is as dark as the ground would melt into it: a light from behind, {range} the "
        "key at its own place, keeps the outline."
    ),
    "glasses_low": noop(
        "{label} wears glasses: the lower edge of light {letter} lies {edge}, under the "
        "{need} above them that the trade asks for this chin. The computed margin is {margin} degrees; look at the test frame. First cure: {cure}."
    ),
    "glasses_deep_both": noop(
        "Glasses want the middle of the key above {need} degrees, deep-set eyes below {high}: {height} keeps both, "
        "with the chin at {chin}. The other way is a key at {low} degrees with the frames tilted by {tilt}."
    ),
    "glasses_deep_traded": noop(
        "Glasses want the middle of the key above {need} degrees, deep-set eyes below {high}: {height} keeps "
        "to {kept}, and the margin computed for the glasses is {margin}. The other way is a key "
        "at {low} degrees with the frames tilted by {tilt}, or one frame with the glasses off."
    ),
    "brim_glasses": noop(
        "A brim wants the key no higher than {high} degrees, glasses above {need}: {height} here, and the "
        "margin computed for the glasses is {margin}. The other way is the key {more} degrees higher with the brim tilted back as much."
    ),
    "chin_deep": noop(
        "The chin asks for a key {up} degrees higher, deep-set eyes for {high} at most: {low} to {most} was searched and "
        "{height} found, with the camera {camera} cm above the eyes. The other way is a lower key and the forehead further "
        "forward."
    ),
    "wishes_in_numbers": noop(
        "Softer would put the key {soft_low} to {soft_high} degrees off the nose, shown {shown_low} to {shown_high}; "
        "the intent keeps {low} to {high}, and it is {rel} off {label}'s nose. The other way is a set-up for each wish."
    ),
    "turn_lenses": noop(
        "A narrower look wants {label}'s head turned {low} to {high} degrees, thick lenses {most} at most: {turn} here, "
        "so that the cheek's line stays whole. The other way is the wider turn for one frame with the glasses off."
    ),
    "wide_narrow": noop(
        "A narrower look wants the light on the far cheek, a fuller one on the near cheek or both: one key gives {slim} "
        "light {slim_side} and {full} light {full_side}. The other way is a picture of each alone."
    ),
    "sides_opposed": noop(
        "{label}'s better side and the wish about one side ({note}, {asked}) name different sides: the better side "
        "leads, and the nose points {forward}. The other way is a frame of the other side as well."
    ),
    "hair_of_two": noop(
        "Fair, grey or white hair takes the light from behind {low} to {high} stops under the key, dark hair {dark_low} to "
        "{dark_high}: {level} is wanted for both, which leaves the dark hair {less} stops less. The other way is a second "
        "light from behind, one for each."
    ),
    "bare_on_dark": noop(
        "No light from behind, because {why}; yet the ground is dark (L* {lightness}) and an outline may melt into it. "
        "The other way is one {low} to {high} stops under the key, or a mid ground."
    ),
}

CAUTIONS: dict[str, str] = {}
