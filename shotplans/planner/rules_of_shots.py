"""Rules on the order of a day: how long a picture takes, who goes first, how long each can wait, what a change costs.

Belongs here: words, numbers and their ranges, rows of `rules.RULES`. Not here: what is done with them (`shotlist`,
`shot_order`, `set_changes`). Common practice, no source.
"""

from __future__ import annotations

from shotplans.planner.rule import Number, Rule
from studio.tongue import noop

MIN = "min"

SHOTS: dict[str, Rule] = {
    "shot_time": Rule(
        noop("Every picture with more than two people, or with somebody small"),
        noop(
            "Each face more is one more to look at, somebody small is waited for, and time left over is given to all."
        ),
        {
            "head_minutes": Number(noop("longer for every head beyond two"), 0.4, 0, 5, MIN),
            "child_minutes": Number(noop("longer for every small child"), 1, 0, 10, MIN),
            "child_most_minutes": Number(noop("a picture with a small child at most"), 8, 2, 30, MIN),
            "turn_most_minutes": Number(noop("a picture of somebody in turn at most"), 7, 2, 30, MIN),
            "stretch": Number(noop("times its least where the booked time allows"), 3, 1, 6, "times"),
        },
    ),
    "shot_order": Rule(
        noop("More than one picture"),
        noop("What must be had is taken while there is time to do it again, and a change of people costs minutes too."),
        {
            "must_share": Number(noop("what must be had within the first"), 60, 20, 100, "%"),
            "come_minutes": Number(noop("somebody comes in or goes out"), 0.2, 0, 5, MIN),
        },
    ),
    "patience": Rule(
        noop("People who wait for their last picture"),
        noop("A small child has so long until it is no fun any more, an older sitter until it is tiring."),
        {
            "small_minutes": Number(noop("under six, done by"), 30, 5, 120, MIN),
            "child_minutes": Number(noop("under thirteen, done by"), 45, 10, 180, MIN),
            "spared_minutes": Number(noop("older, or standing short, done by"), 60, 15, 240, MIN),
            "others_minutes": Number(noop("everybody else, done by"), 120, 30, 600, MIN),
        },
    ),
    "set_change": Rule(
        noop("From one set-up to the next"),
        noop("A light that only moves is soon moved; another front, another light or another ground takes its time."),
        {
            "moved_minutes": Number(noop("a light moved"), 1, 0, 15, MIN),
            "front_minutes": Number(noop("another front on a light"), 2, 0, 15, MIN),
            "light_minutes": Number(noop("a light brought or taken down"), 2, 0, 15, MIN),
            "ground_minutes": Number(noop("another ground"), 4, 0, 30, MIN),
            "camera_minutes": Number(noop("the camera placed or set anew"), 1, 0, 15, MIN),
        },
    ),
}
