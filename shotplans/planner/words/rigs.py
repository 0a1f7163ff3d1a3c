"""Sentences about what carries and feeds the lights: arms, weights, circuits, batteries, heat, motion."""

from __future__ import annotations

from studio.tongue import noop

PROBLEMS: dict[str, tuple[str, str]] = {
    "boom_over": (
        noop("The arm of light {letter} passes over somebody nothing is boomed over: an infant or an older sitter."),
        noop("{short} m more between arm and face, seen from above, or a plain stand for light {letter}."),
    ),
    "sandbag_short": (
        noop(
            "{what} wants a sandbag of {wanted} kg on its column to stand a push of {push} N at its height; {have} kg is free for it."
        ),
        noop("{short} kg more on its column, a stand with wider legs, or a lower place."),
    ),
    "circuit_peak": (
        noop(
            "{circuit} would carry {peak} A while heads recycle one after the other; its breaker is rated {breaker} A."
        ),
        noop("{short} A less on it: a head on another circuit, or modelling lamps off."),
    ),
    "battery": (
        noop("The charge of {head} lasts about {lasts} of the {wanted} frames on the list, a fifth kept back."),
        noop("Spare batteries for it, charged: {short}. Or fewer frames."),
    ),
    "recycling_slow": (
        noop(
            "Light {letter} is ready again after {ready} s at this power; at that pace the frames on the list take {short} min more than "
            "they have."
        ),
        noop("{short} min more, fewer frames, or light {letter} at a lower power and nearer."),
    ),
    "blur_flash": (
        noop(
            "{who}, at {speed} m/s, smears {on_print} mm on a print {print_cm} cm wide in the flash of {head}; everything else "
            "is held to {circle} mm."
        ),
        noop(
            "A flash of 1/{need} s or shorter, nine tenths of its light counted: {short} stops shorter. Another head, or this one "
            "at the power where its maker says it is shortest; the kit does not know where that is."
        ),
    ),
    "blur_steady": (
        noop(
            "{who}, at {speed} m/s, smears {on_print} mm on a print {print_cm} cm wide at {shutter}; everything else is held to "
            "{circle} mm."
        ),
        noop(
            "A shutter of 1/{need} s or faster, with {short} stops more light or ISO; or hands on a base and the picture taken at rest."
        ),
    ),
}

REASONS: dict[str, str] = {
    "boom": noop(
        "Light {letter}, {load} kg, hangs {arm} m out on {boom}: {weight} kg balance it on a short end taken as "
        "{counter_arm} m long, a third of the reach. The arm's own weight is not known and not counted."
    ),
    "boom_with_arm": noop(
        "Light {letter}, {load} kg, hangs {arm} m out on {boom}: {weight} kg balance it and the arm's own "
        "{arm_kg} kg on a short end taken as {counter_arm} m long, a third of the reach."
    ),
    "steadiness": noop(
        "Light {letter} is the least steady: {load} kg at {height} m on legs {legs} m across want a bag of {bag} kg "
        "on the column to stand a push of {push} N, {own} kg of its own counted. With {have} kg there it takes about {tips} N at the light "
        "to tip it across its legs."
    ),
    "load": noop(
        "Most loaded for its size is {circuit}: {watts} W ({letters}), where {limit} W is four fifths of its breaker. "
        "Recycling all at once takes about {peak} A, one after the other {staggered} A."
    ),
    "charge": noop(
        "Light {letter} lives on a battery: at {below} stops below full one charge holds about {frames} frames, and it is "
        "ready again after about {ready} s."
    ),
    "freeze": noop(
        "{head} gives nine tenths of its light in about 1/{part} s at full power: what moves at {speed} m/s smears {blur} mm, "
        "{on_print} mm on a print {print_cm} cm wide, where the blur circle is {circle} mm. How that changes below full power is "
        "not known."
    ),
    "steady_blur": noop(
        "Steady light lasts as long as the shutter: at {shutter} what moves at {speed} m/s smears {blur} mm, {on_print} mm "
        "on a print {print_cm} cm wide, where the blur circle is {circle} mm. Hands rest on a base."
    ),
    "ambient_under": noop(
        "{shutter} is no faster than the {sync} the camera can follow a flash with, and the room's own {lux} lux stay "
        "{below} stops under the setting."
    ),
}

CAUTIONS: dict[str, str] = {}
