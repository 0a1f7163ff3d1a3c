"""Limits of what stands behind the sitter: an uneven ground, its glow and veil, light on nose, lens and meter.

Part of check.py. Limits are common practice, no source, but for the setting of the veil: a white ground may read one
stop over (job.md section 3) and published grounds of 1.5 and more haze, and the limit lies between the two.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, log2

from shotplans.light import flare
from shotplans.planner import behind, colours, flags, glow
from shotplans.planner.expect import Meter
from shotplans.planner.ground import DARK_MOST_L
from shotplans.planner.plan import Ground, Light, Solved
from shotplans.planner.problem import Problem, up

WHITE_LOWEST_STOPS = 0.3  # the darkest point of a white ground over the setting
GRADED_MOST_STOPS = 1.5  # a ground that is not white may fall off by so much over what is seen
WHITE_SPREAD_STOPS = 0.3
BLACK_LIFT_MOST_STOPS = 0.85  # of a 4 % black by a bright ground
LENS_LIFT_MOST_STOPS = 0.3
NOSE_UNDER_STOPS = 1.0  # a light nearer to the setting than this draws a second edge on the nose
SLACK = 0.05


def problems(solved: Solved, meter: Meter) -> Iterator[Problem]:
    """Every broken limit behind the sitter, and a fill of another colour."""
    hung = solved.ground
    if hung is not None:
        yield from _evenness(solved, hung)
        yield from _glow(solved, meter, hung)
    yield from _meter(solved, meter)
    setting = meter.setting()
    for light in solved.by_role("accent", "background"):
        yield from _lens(solved, light, setting)
    for light in solved.by_role("accent"):
        yield from _nose(solved, light, setting)
    yield from colours.problems(solved)


def tenths_up(value: float) -> float:
    """A shortage in stops, rounded up to the tenth that a meter shows."""
    return max(0.1, ceil(value * 10 - 1e-6) / 10)


def _evenness(solved: Solved, hung: Ground) -> Iterator[Problem]:
    white = hung.wanted[0] >= 95
    limit = WHITE_SPREAD_STOPS if white else GRADED_MOST_STOPS
    values = {"item": hung.item.id, "spread": f"{hung.spread_stops:.1f}", "limit": f"{limit:g}"}
    lit_from_both = len(solved.by_role("background")) > 1
    dark = hung.wanted[1] <= DARK_MOST_L  # there a fall-off is not seen
    if hung.spread_stops > limit + SLACK and (lit_from_both or not white) and not dark:
        yield Problem(None, "background", tenths_up(hung.spread_stops - limit), "stops", "ground_graded", values)
    lowest = hung.lowest_above_setting
    if white and hung.reading_above_setting >= 0.25 and lowest < WHITE_LOWEST_STOPS - SLACK:
        short = WHITE_LOWEST_STOPS - lowest
        values = {"item": hung.item.id, "lowest": f"{lowest:+.1f}", "limit": f"{WHITE_LOWEST_STOPS:+g}"}
        yield Problem(None, "background", tenths_up(short), "stops", "ground_low", values)


def _glow(solved: Solved, meter: Meter, hung: Ground) -> Iterator[Problem]:
    found = glow.glow(meter)
    if found.back_over_face > SLACK:
        short = tenths_up(found.back_over_face)
        further = up(max(0.05, glow.further_m(solved, short)))
        values = {"item": hung.item.id, "over": f"{found.back_over_face:.1f}", "further": f"{further:.2f}"}
        yield Problem(None, "background", short, "stops", "ground_wraps", values)
    if found.black_lift > BLACK_LIFT_MOST_STOPS:
        most = float(flare.luminance_for_lift(BLACK_LIFT_MOST_STOPS, behind.BLACK, found.share, flare.GLARE_INDEX))
        now = hung.item.reflectance * 2.0**hung.reading_above_setting
        values = {
            "item": hung.item.id,
            "lift": f"{found.black_lift:.1f}",
            "share": f"{100 * found.share:.0f}",
            "limit": f"{BLACK_LIFT_MOST_STOPS:g}",
        }
        yield Problem(None, "background", tenths_up(log2(now / most)), "stops", "ground_hazes", values)


def _meter(solved: Solved, meter: Meter) -> Iterator[Problem]:
    """With all lights on the face may read no more than a tenth over the setting."""
    setting = meter.setting()
    over = log2(behind.all_on(meter) / setting)
    if over > behind.ALL_ON_MOST_STOPS:
        letters = ", ".join(x.letter for x in solved.by_role("accent", "background"))
        values = {"over": f"{over:.1f}", "letters": letters, "limit": f"{behind.ALL_ON_STOPS:g}"}
        room = behind.bounced(meter) > 0.5 * (behind.all_on(meter) - setting)
        limit, code = ("bounce", "all_on_bounce") if room else ("accent", "all_on_over")
        yield Problem(None, limit, tenths_up(over - behind.ALL_ON_STOPS), "stops", code, values)


def _lens(solved: Solved, light: Light, setting: float) -> Iterator[Problem]:
    lift = behind.lens_lift_stops(light, solved.camera, setting, solved.flags)
    if lift > LENS_LIFT_MOST_STOPS:
        width, height = flags.size_for_lens_m(light, solved.camera.at, 0.5)
        values = {
            "letter": light.letter,
            "lift": f"{lift:.1f}",
            "limit": f"{LENS_LIFT_MOST_STOPS:g}",
            "width": f"{up(width):.2f}",
            "height": f"{up(height):.2f}",
        }
        yield Problem(None, "accent", tenths_up(lift - LENS_LIFT_MOST_STOPS), "stops", "lens_lit", values)


def _nose(solved: Solved, light: Light, setting: float) -> Iterator[Problem]:
    for sitter in solved.pose.together:
        got = behind.on_nose(light, sitter)
        under = log2(setting / max(got, 1e-9 * setting))
        if under < NOSE_UNDER_STOPS - SLACK:
            values = {"letter": light.letter, "label": sitter.person.label, "under": f"{max(under, 0.0):.1f}"}
            yield Problem(None, "accent", tenths_up(NOSE_UNDER_STOPS - under), "stops", "nose_struck", values)
