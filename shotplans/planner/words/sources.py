"""Sentences about modifiers as they are: beams, cores, lips and grids, strips, feathering, windows and flicker."""

from __future__ import annotations

from studio.tongue import noop

PROBLEMS: dict[str, tuple[str, str]] = {
    "no_steady_head": (
        noop("Somebody in this set-up asked for no flash and the free kit has no steady head."),
        noop(
            "Free one steady head; or a window: {distance} m before one of {window} an overcast sky gives about {lux} lux, "
            "{aperture} at {shutter} and ISO {at_iso}, {doubt} stops either way with the weather."
        ),
    ),
}

REASONS: dict[str, str] = {
    "grid_clear": noop(
        "Its grid ends the light {cut} degrees off its axis, and the middle of the ground lies {off} degrees "
        "off it: the grid keeps the key off the ground."
    ),
    "grid_partly": noop(
        "Its grid ends the light {cut} degrees off its axis; the middle of the ground lies {off} degrees off "
        "it and gets {less} stops less of the key than without the grid."
    ),
    "core": noop(
        "It is {core} stops brighter in the middle than at its edge, so it works like an even front {even} m across "
        "instead of {size} m."
    ),
    "spill": noop(
        "An umbrella spills: about {share} % as much light leaves backwards as forwards (sure to a factor of two) "
        "and comes back off the room. The bounce, {bounce} stops under the key, holds it."
    ),
    "way": noop(
        "{way}, the face sees it {wide} degrees wide and {tall} degrees high, and the relief on the front of "
        "{label}'s face is {relief} stops; hung the other way it would be {other}. {why}."
    ),
    "feathered": noop(
        "Aimed {turn} degrees past the middle, away from the near face: the faces then lie {even} stops apart "
        "as reckoned, aimed between them {straight}. With a beam of {beam} degrees the turn changes the nearest face by "
        "{near} stops and the farthest by {far}; a narrower beam would do more, an evenly bright cloth less."
    ),
    "feathered_cut": noop(
        "Aimed {turn} degrees past the middle, away from the near face; a beam this narrow loses a face "
        "at that aim or aimed between them."
    ),
    "windows": noop(
        "Without blinds the windows add about {lux} lux under an overcast sky, {doubt} stops either way: the "
        "room's own light lies {below} stops under the setting."
    ),
}

WAY_WHY = {
    "relief": noop("This way it comes nearer to what the brief wants"),
    "alike": noop("Both ways serve alike in that"),
    "place": noop("Room, picture, stands or the other parts of the brief decided for this way"),
}

CAUTIONS: dict[str, str] = {
    "flicker": noop(
        "{head} is not known to be free of flicker. If its light rises and falls by {depth} % with {mains} Hz "
        "mains, frames at {shutter} differ by up to {swing} stop; at {safe} they do not. Try it before the sitter comes."
    ),
}
