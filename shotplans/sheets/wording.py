"""How numbers are written on paper and screen: bearings, powers, ratios; and single words. No layout.

Angles in whole degrees with the camera's side, light in stops to a tenth.
"""

from __future__ import annotations

from collections.abc import Sequence

from shotplans.light.units import round_to
from shotplans.planner.expect import MOST_BELOW_STOPS
from shotplans.planner.framings import FRAMINGS
from shotplans.planner.words import joined
from studio.tongue import gettext as _
from studio.tongue import ngettext, noop

NONE = noop("none")
ALERTS = (
    noop("NO FLASH"), noop("CHAIR WITH ARMS"), noop("GLASSES"), noop("GUARDIAN IN ROOM"), noop("RELEASE NOT SIGNED"),
    noop("SEE DESK"), noop("PLAN OUT OF DATE"),
)  # fmt: skip
MOODS = {
    "soft": noop("calm on lines, gentle edges"),
    "even": noop("even and consistent, to match"),
    "natural": noop("gentle shape, as by a large window"),
    "bold": noop("strong shape, deep shadow"),
    "character": noop("texture shown, shape drawn from the side"),
    "bright": noop("light ground, low contrast"),
}
ORIENTATIONS = {"upright": noop("upright"), "horizontal": noop("horizontal")}
TOWARD = {"camera": noop("camera"), "light": noop("light")}


def bearing(degrees: float) -> str:
    """Off the line from mark to camera, on the camera's side: "20° left"."""
    rounded = round(degrees)
    if not rounded:
        return "0°"
    return (_("{degrees}° right") if rounded > 0 else _("{degrees}° left")).format(degrees=abs(rounded))


def stops(value: float) -> str:
    """A difference with its unit: "1.0 stop", "2.3 stops"."""
    tenth = round_to(value, 0.1) + 0.0
    return ngettext("{stops} stop", "{stops} stops", 1 if abs(tenth) <= 1 else 2).format(stops=f"{tenth:.1f}")


def beside_setting(below_stops: float) -> str:
    """How a ground reads against the setting: "0.5 stop under the setting"; empty where it reads as the setting."""
    if abs(below_stops) < 0.05:
        return ""
    said = _("{stops} under the setting") if below_stops > 0 else _("{stops} over the setting")
    return said.format(stops=stops(abs(below_stops)))


def below(value: float) -> str:
    """How far light lies under the key: "1.3 stops", or "9.9 stops or more" where a plan counts no further."""
    return _("{stops} or more").format(stops=stops(value)) if value >= MOST_BELOW_STOPS else stops(value)


def below_full(power_below_full_stops: float) -> str:
    return (
        _("{stops} below full").format(stops=stops(power_below_full_stops))
        if power_below_full_stops >= 0.05
        else _("full power")
    )


def power(dial: str | None, power_below_full_stops: float | None) -> str:
    """The head's own dial first, in words after it: "1/4 -0.3: 2.3 stops below full"."""
    if dial is None or power_below_full_stops is None:
        return _("no power: white side in")
    return f"{dial}: {below_full(power_below_full_stops)}"


def ratio(difference_stops: float, convention: str) -> str:
    """A difference in stops with its ratio as a label whose convention is named: "1.0 stop (3:1 on face)".

    `total` compares key and fill together with fill alone, 1 + 2^s to 1, where both reach the face in full;
    `source` the two lights alone, 2^s to 1. Common practice, both are taught. From ten to one on the figure is whole: a
    tenth of a stop is seven in a hundred of it.
    """
    gained = 2.0 ** round_to(difference_stops, 0.1)
    value, words = (gained, _("key to fill")) if convention == "source" else (1 + gained, _("on face"))
    figure = f"{value:.0f}" if value >= 10 else f"{value:.1f}".removesuffix(".0")
    return f"{below(difference_stops)} ({figure}:1 {words})"


def people(labels: Sequence[str], everybody: int) -> str:
    """Who, in short: names up to three, else how many of how many with their names."""
    if len(labels) <= 3:
        return joined.both(labels)
    if len(labels) == everybody:
        return _("all {everybody}").format(everybody=everybody)
    return _("{some} of {everybody}: {names}").format(some=len(labels), everybody=everybody, names=", ".join(labels))


def framing(name: str) -> str:
    return _(FRAMINGS[name].words) if name in FRAMINGS else name


def mood(intent: str) -> str:
    return _(MOODS[intent])


def orientation(name: str) -> str:
    """How a picture stands, as a word."""
    return _(ORIENTATIONS[name]) if name in ORIENTATIONS else name


def toward(name: str) -> str:
    """What a meter's dome looks at, as a word."""
    return _(TOWARD[name]) if name in TOWARD else name


def turned(degrees: float) -> str:
    """Where a nose or a body points: "at the lens" or "10° left"."""
    return f"{bearing(degrees)}" if round(degrees) else _("at the lens")


def chin(degrees: float) -> str:
    rounded = round(degrees)
    if not rounded:
        return _("chin level")
    return (_("chin {degrees}° up") if rounded > 0 else _("chin {degrees}° down")).format(degrees=abs(rounded))
