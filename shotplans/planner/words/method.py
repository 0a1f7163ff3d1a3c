"""How the numbers of every plan come about, and how far they can be trusted: printed with its assumptions."""

from __future__ import annotations

from studio.tongue import noop

METHOD = (
    noop(
        "Sources are uniform discs or rectangles of the stated size and beam; fronts brighter in the middle count as the disc of equal second moment."
    ),
    noop(
        "Beams are powers of the cosine, grids cut in a straight line to their stated angle, umbrellas spill backwards by a share that is sure to a factor of two."
    ),
    noop("Room bounce is an integrating-sphere estimate from the surfaces, good to about half a stop until read."),
    noop("Relief is of a standard groove (depth to width 0.15) on opaque skin; real skin blurs it: the worst case."),
    noop(
        "Anatomy, lens tilt (8 degrees) and wrap (5) are averages; glare and catchlights are advice, to be looked at."
    ),
    noop(
        "Give or take of a reading: heads 0.3 stop until readings correct them, places 5 cm and 5 degrees, the bounce half a stop of its own, the dial's step; the meter's own error is not in it."
    ),
    noop(
        "A lens is taken to scatter 2 % of a bright field over the picture, each cloth to warm light by 5 mired: values from memory, good to a factor of two."
    ),
    noop("Not computed in this version, so null: cloths, minutes_build."),
)
