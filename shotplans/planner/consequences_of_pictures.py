"""What picture, room, group and calendar ask: prints and walls, crops, room for words, pairs, rows, dates.

Numbers are those of the plan beside those of the rule. What one person's note asks is in `consultation`.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from shotplans.planner import anatomy
from shotplans.planner.consequence import Asked, Consequence
from shotplans.planner.consultation import firm_seats, stops_apart
from shotplans.planner.notes import older_pair
from shotplans.planner.people import Seated
from shotplans.planner.plan import Solved
from shotplans.planner.shots import frames_for
from shotplans.planner.words import joined, sides
from shotplans.planner.words.consequences import HOLDS, SEATS
from studio.tongue import gettext as _

NEXT_TO_NONE_M = 0.05  # a difference in depth nobody measures
HEAD_ROOM_M = 0.3  # width to hold beyond the outermost noses: common practice, no source
CLOSE = ("head", "head_and_shoulders")


def of_pictures(asked: Asked) -> Iterator[Consequence]:
    """Every consequence that hangs on more than one person's note."""
    yield from _wall(asked)
    for solved in asked.solved:
        yield from _grid(asked, solved)
        yield from _crops(asked, solved)
    yield from _words(asked)
    for solved in asked.solved:
        yield from _pair(asked, solved)
        yield from _group(asked, solved)
    yield from _room(asked)
    yield from _things(asked)
    yield from _calendar(asked)


def _wall(asked: Asked) -> Iterator[Consequence]:
    """The print against the furniture under it, and the face on it against life size, for the widest print."""
    brief = asked.request.brief
    width, furniture = float(brief.print_width_cm), brief.furniture_width_cm
    if furniture is not None:
        low, high = (asked.number("wall_print", n) * furniture / 100 for n in ("low_share", "high_share"))
        values = {"furniture": f"{furniture:g}", "low": f"{low:.0f}", "high": f"{high:.0f}", "width": f"{width:g}"}
        yield asked.of("camera", "wall_print", "wall_print", ("brief.furniture_width_cm",), "low_share", **values)
        if asked.solved and brief.orientation == "either":
            way = asked.solved[0].camera.orientation
            yield asked.of("camera", "wall_orientation", "wall_print", ("brief.orientation",), None, orientation=way)
    if float(brief.viewing_m) >= asked.number("face_on_wall", "across_m") and asked.solved:
        field = asked.solved[0].camera.field_width_m
        face = width * anatomy.HEAD_HEIGHT_M / field
        low, high = (asked.number("face_on_wall", n) * field for n in ("low_share", "high_share"))
        values = {"face": f"{face:.0f}", "life": f"{face / anatomy.HEAD_HEIGHT_M:.0f}", "low": f"{low:.0f}",
                  "high": f"{high:.0f}"}  # fmt: skip
        paths = ("brief.print_width_cm", "brief.viewing_m")
        yield asked.of("camera", "face_on_wall", "face_on_wall", paths, "low_share", **values)


def _grid(asked: Asked, solved: Solved) -> Iterator[Consequence]:
    """Heads and eyes in the frame, where pictures will stand beside others: a standard, or people in turn."""
    brief = asked.request.brief
    if brief.standard_of(solved.setup) is None and not (solved.pose.in_turn and solved.setup.framing in CLOSE):
        return
    camera, first = solved.camera, solved.pose.together[0]
    _right, up, _depth = camera.screen(np.array(first.face_m))
    head = 100 * anatomy.HEAD_HEIGHT_M / camera.field_height_m
    values = {"head": f"{head:.0f}", "eyes": f"{50 * (1 - float(up)):.0f}"}
    at = f"brief.setups[{_index(asked, solved)}].framing"
    yield asked.of("camera", "company_grid", "company_grid", (at,), "head_share", **values)
    if brief.standard is not None:
        yield asked.of("gear", "company_reference", "company_grid", ("brief.standard",))


def _index(asked: Asked, solved: Solved) -> int:
    return [s.name for s in asked.request.brief.setups].index(solved.setup.name)


def ratio_of(crop: float | str) -> float:
    """Width over height of a crop, from a number or a text like 4:5."""
    if isinstance(crop, str):
        for sign in ":x/":
            if sign in crop:
                wide, high = crop.split(sign)
                return float(wide) / float(high)
    return float(crop)


def _crops(asked: Asked, solved: Solved) -> Iterator[Consequence]:
    """How much of the frame each cut keeps, and whether everybody stays in it."""
    camera = solved.camera
    now = camera.field_width_m / camera.field_height_m
    xs = [s.face_m[0] for s in solved.pose.together]
    across = 2 * max(abs(min(xs)), abs(max(xs))) + HEAD_ROOM_M
    least = asked.number("crops", "least_share")
    for n, crop in enumerate(asked.request.brief.crops):
        wanted = ratio_of(crop)
        share = min(wanted / now, now / wanted)
        narrower = wanted < now
        holds = not narrower or across <= camera.field_height_m * wanted + 1e-9
        shown = crop if isinstance(crop, str) else f"{crop:g}"
        values = {"ratio": shown, "share": f"{100 * share:.0f}", "of": _("width") if narrower else _("height"),
                  "holds": _(HOLDS[holds])}  # fmt: skip
        path = (f"brief.crops[{n}]",)
        yield asked.of("camera", "crop", "crops", path, "least_share", **values)
        if 100 * share < least:
            yield asked.of("camera", "crop_other", "crops", path, "least_share", ratio=shown)


def _words(asked: Asked) -> Iterator[Consequence]:
    side = asked.request.brief.copy_space
    if side in ("left", "right"):
        path = ("brief.copy_space",)
        yield asked.of("camera", "space_for_words", "space_for_words", path, "free_share", side=sides.said(str(side)))
        yield asked.of("camera", "space_frames", "space_for_words", path, "more_frames")


def _ages(seated: tuple[Seated, ...]) -> tuple[str, ...]:
    return tuple(f"sitters[{s.person.index}].age_years" for s in seated)


def _pair(asked: Asked, solved: Solved) -> Iterator[Consequence]:
    together = solved.pose.together
    apart = stops_apart(solved)
    if solved.targets.fairer_far and apart is not None:
        paths = tuple(f"sitters[{s.person.index}].skin" for s in together)
        yield asked.of("light", "tones_apart", "tones_apart", paths, "ratio", apart=f"{apart:.1f}")
    if not older_pair([s.person for s in together], len(together)):
        return
    paths = _ages(together)
    gap = abs(together[0].face_m[0] - together[1].face_m[0])
    yield asked.of("pose", "pair_close", "older_pair", paths, "heads_apart_m", apart=f"{gap:.2f}")
    yield asked.of("minutes", "pair_minutes", "older_pair", paths, "sitting_minutes")
    seats = _(SEATS[firm_seats(asked, "older_pair") >= len(together)])
    yield asked.of("gear", "pair_chairs", "older_pair", paths, "seat_low_cm", seats=seats)


def _group(asked: Asked, solved: Solved) -> Iterator[Consequence]:
    together, path = solved.pose.together, (f"brief.setups[{_index(asked, solved)}].people",)
    count = len(together)
    large = asked.number("group_large", "people")
    if asked.number("group_small", "people") <= count < large:
        yield asked.of("gear", "group_stools", "group_small", path, "stools")
    if count >= large:
        yield asked.of("people", "group_helper", "group_large", path, "helpers")
    if count < 2:
        return
    yield asked.of("people", "blink", "blink", path, "heads_per_frame", frames=str(frames_for(count, asked.house)))
    zs = [s.face_m[2] for s in together]
    if max(zs) - min(zs) > NEXT_TO_NONE_M:
        yield asked.of("gear", "tape", "two_rows", path, None, depth=f"{max(zs) - min(zs):.2f}")
    if len({s.row for s in together}) > 1:
        stops = row_stops(solved)
        yield asked.of("light", "two_rows", "two_rows", path, "row_stops", stops=f"{stops:.1f}")


def row_stops(solved: Solved) -> float:
    """Stops by which the key reads brighter at the middle of the front row than of the back row: inverse square."""
    rows: dict[int, list[tuple[float, float, float]]] = {}
    for s in solved.pose.together:
        rows.setdefault(s.row, []).append(s.face_m)
    key = solved.lights[0].at
    far = [float(np.linalg.norm(key - np.mean(np.array(rows[row]), axis=0))) for row in sorted(rows)]
    return float(2 * np.log2(far[-1] / far[0]))


def _room(asked: Asked) -> Iterator[Consequence]:
    room = asked.request.room
    ceiling, across, length = (asked.number("small_room", n) for n in ("ceiling_m", "across_m", "length_m"))
    short, long = sorted((room.width_m, room.depth_m))
    if room.ceiling_m <= ceiling or short < across or long < length:
        values = {"length": f"{long:g}", "across": f"{short:g}", "ceiling": f"{room.ceiling_m:g}"}
        yield asked.of("gear", "small_room", "small_room", ("room.ceiling_m",), "ceiling_m", **values)


def _things(asked: Asked) -> Iterator[Consequence]:
    brief = asked.request.brief
    if brief.props:
        things = [str(p.label) for p in brief.props if p.label] or [_("Props")]
        said = ", ".join(things)
        paths = tuple(f"brief.props[{n}]" for n in range(len(brief.props)))
        yield asked.of("gear", "props", "props", paths, None, things=joined.begun(said))
    if brief.haze:
        yield asked.of("light", "haze", "haze", ("brief.haze",))


def _calendar(asked: Asked) -> Iterator[Consequence]:
    brief = asked.request.brief
    if brief.decider_present is False:
        yield asked.of("people", "decider", "decider_absent", ("brief.decider_present",), "approve_before")
    if brief.event_in_days is not None:
        days = brief.event_in_days - asked.number("event_date", "before_days")
        weeks = asked.number("event_date", "work_high_weeks")
        late = _(": that is longer, agree on a rush or on fewer prints") if days < 7 * weeks else ""
        values = {"days": f"{max(0.0, days):g}", "late": late}
        yield asked.of("minutes", "event", "event_date", ("brief.event_in_days",), "before_days", **values)

