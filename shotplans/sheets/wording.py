"""How numbers are written on paper and screen: bearings, powers, ratios, times. Words only, no layout.

Angles in whole degrees with the camera's side, light in stops to a tenth.
"""

from __future__ import annotations

from collections.abc import Sequence

from shotplans.light.units import round_to

NONE = "none"
ALERTS = (
    "NO FLASH", "CHAIR WITH ARMS", "GLASSES", "GUARDIAN IN ROOM", "RELEASE NOT SIGNED", "SEE DESK", "PLAN OUT OF DATE",
)  # fmt: skip
MOODS = {
    "soft": "calm on lines, gentle edges",
    "even": "even and consistent, to match",
    "natural": "gentle shape, as by a large window",
    "bold": "strong shape, deep shadow",
    "character": "texture shown, shape drawn from the side",
    "bright": "light ground, low contrast",
}
FRAMINGS = {"head_and_shoulders": "head and shoulders", "three_quarter": "three-quarter length", "full": "full length"}


def bearing(degrees: float) -> str:
    """Off the line from mark to camera, on the camera's side: "20° left"."""
    rounded = round(degrees)
    return f"{abs(rounded)}° {'right' if rounded > 0 else 'left'}" if rounded else "0°"


def stops(value: float) -> str:
    """A difference with its unit: "1.0 stop", "2.3 stops"."""
    tenth = round_to(value, 0.1) + 0.0
    return f"{tenth:.1f} stop{'' if abs(tenth) <= 1 else 's'}"


def below_full(power_below_full_stops: float) -> str:
    return f"{stops(power_below_full_stops)} below full" if power_below_full_stops >= 0.05 else "full power"


def power(dial: str | None, power_below_full_stops: float | None) -> str:
    """The head's own dial first, in words after it: "1/4 -0.3: 2.3 stops below full"."""
    if dial is None or power_below_full_stops is None:
        return "no power: white side in"
    return f"{dial}: {below_full(power_below_full_stops)}"


def ratio(difference_stops: float, convention: str) -> str:
    """A difference in stops with its ratio as a label whose convention is named: "1.0 stop (3:1 on face)".

    `total` compares key and fill together with fill alone, 1 + 2^s to 1, where both reach the face in full;
    `source` the two lights alone, 2^s to 1. Common practice, both are taught.
    """
    gained = 2.0 ** round_to(difference_stops, 0.1)
    value, words = (gained, "key to fill") if convention == "source" else (1 + gained, "on face")
    return f"{stops(difference_stops)} ({f'{value:.1f}'.removesuffix('.0')}:1 {words})"


def listed(names: Sequence[str]) -> str:
    """As they are said: "A", "A and B", "A, B and C"."""
    return " and ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else "".join(names)


def people(labels: Sequence[str], everybody: int) -> str:
    """Who, in short: names up to three, else how many of how many with their names."""
    if len(labels) <= 3:
        return listed(labels)
    if len(labels) == everybody:
        return f"all {everybody}"
    return f"{len(labels)} of {everybody}: {', '.join(labels)}"


def framing(name: str) -> str:
    return FRAMINGS.get(name, name)


def turned(degrees: float) -> str:
    """Where a nose or a body points: "at the lens" or "10° left"."""
    return f"{bearing(degrees)}" if round(degrees) else "at the lens"


def chin(degrees: float) -> str:
    rounded = round(degrees)
    return f"chin {abs(rounded)}° {'up' if rounded > 0 else 'down'}" if rounded else "chin level"
