"""Sentences about grounds, accents, flags and colour: wrap, haze, spill on nose and lens, colour of the lights."""

from __future__ import annotations

from studio.tongue import noop

PROBLEMS: dict[str, tuple[str, str]] = {
    "ground_graded": (
        noop("The ground {item} falls off by {spread} stops over what is seen; {limit} is the limit."),
        noop(
            "{short} stops less: its lights further off, one from each side, or a narrower piece of it in the picture."
        ),
    ),
    "ground_low": (
        noop(
            "The darkest point of the white ground {item} reads {lowest} stops against the setting; {limit} is wanted."
        ),
        noop("{short} stops more there: its lights more even, or all of it that much brighter."),
    ),
    "ground_wraps": (
        noop("The ground {item} throws {over} stops more on the sitter's back than the face gets: edges melt."),
        noop(
            "{short} stops less on the ground, or the ground {further} m further behind, or black panels beside the sitter."
        ),
    ),
    "ground_hazes": (
        noop(
            "The ground {item} fills {share} % of the picture and its light, scattered in the lens, lifts a black by about "
            "{lift} stops; {limit} is the limit."
        ),
        noop("{short} stops less on the ground, or less of it in the picture."),
    ),
    "all_on_over": (
        noop("With light {letters} on too the face reads {over} stops over the setting; {limit} is the limit."),
        noop("{short} stops less from behind: that light lower in power, further round, or flagged."),
    ),
    "all_on_bounce": (
        noop(
            "With light {letters} on too the face reads {over} stops over the setting, most of it off the room; {limit} is "
            "the limit."
        ),
        noop(
            "{short} stops less: darker walls beside the ground, or key and fill turned down by that much once all is on."
        ),
    ),
    "lens_lit": (
        noop("Light {letter} shines into the lens and lifts a black by about {lift} stops; {limit} is the limit."),
        noop("A flag of {width} x {height} m half a metre before it, a grid on it, or the light further round."),
    ),
    "nose_struck": (
        noop("Light {letter} passes the cheek and strikes the tip of {label}'s nose, {under} stops under the setting."),
        noop("{short} stops less, or the light further round behind the head."),
    ),
    "fill_colour": (
        noop("The fill, light {letter}, is {mired} mired {way} than the key; {limit} is the limit on one face."),
        noop("A filter on light {letter}, {short} mired {cure} at least, or heads of one colour."),
    ),
}

REASONS: dict[str, str] = {
    "accent_gloss": noop(
        "Where light {letter} glances off skin at the edge of the head, skin mirrors: the brightest line looks "
        "about {gloss} stops over what the dome reads there (hair has its own sheen, not counted). Judge it by the frame and "
        "turn it down by eye."
    ),
    "accent_second": noop(
        "Light {letter} is a second one from behind, {level} stops under the key at its own place, so that "
        "{what} parts from the ground too. Off for the setting reading."
    ),
    "accent_clear": noop(
        "From there light {letter} does not pass the cheek to the tip of a nose, and what of it falls on the "
        "lens lifts a black by {lift} stops."
    ),
    "flag_lens": noop(
        "{item} hangs {distance} m before light {letter} and keeps it off the lens: without it a black would rise "
        "by about {before} stops, with it by {after}."
    ),
    "flag_faces": noop(
        "{item} hangs {distance} m before light {letter} and keeps it off the faces; the ground goes on getting "
        "its light."
    ),
    "flag_ground": noop(
        "{item} hangs {distance} m before light {letter} and keeps it off the ground, which comes out at L* "
        "{lightness}."
    ),
    "flag_cloth": noop(
        "{item} hangs {distance} m before light {letter} and shades the light cloth, which the key would "
        "otherwise light past white."
    ),
    "fill_shared": noop(
        "Light {letter} shares the fill: light {first} alone, at full power, would leave the shadows {alone} stops "
        "under the key; both together with the bounce make {level}."
    ),
    "ground_glow": noop(
        "So bright a ground throws light back: on the sitter's back it reads {back} stops under the face, on the "
        "edges of the head {wrap} stops under the key, and scattered in the lens it lifts a black by about {lift} stops."
    ),
    "ground_pair": noop("One light from each side keeps the ground within {spread} stops over what is seen."),
    "colour_differs": noop(
        "Light {letter} is about {mired} mired {way} than the key ({shift} K); from {seen} mired up it shows "
        "as a coloured edge or shadow. A filter evens it; the grey card under each says by how much."
    ),
    "colour_drift": noop(
        "Light {letter} is within {mired} mired of the key by head and cloths, but their powers lie {apart} "
        "stops apart: that may add up to {drift} mired either way, which only the grey card tells."
    ),
}

CAUTIONS: dict[str, str] = {}
