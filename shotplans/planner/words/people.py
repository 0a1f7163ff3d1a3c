"""Sentences about how several people are placed: rows, seats, what one face hides of another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from shotplans.planner.words import joined
from studio.tongue import gettext as _
from studio.tongue import ngettext, noop

MOST_NAMED = 6

PROBLEMS: dict[str, tuple[str, str]] = {
    "evenness": (
        noop("The faces differ by {spread} stops from {bright} to {dim}; {limit} is the limit."),
        noop("One change, the best first: {cures}."),
    ),
    "sharpness": (
        noop("Not all of the face is within the sharp zone: {short} m are missing."),
        noop("{need}, or the camera further off."),
    ),
    "sharpness_of_group": (
        noop("Not every face is within the sharp zone of {shown}: {short} m are missing."),
        noop("{need}; or one change, the best first: {cures}."),
    ),
    "no_room_for_people": (
        noop("The people are wider than the room."),
        noop("A room {short} m wider, or one person fewer."),
    ),
    "group_too_wide": (
        noop("The group is wider than the room."),
        noop("A room {short} m wider; or one change, the best first: {cures}."),
    ),
    "too_many_rows": (
        noop("The group stands in {rows} rows; more than four are deep to light and to hold sharp."),
        noop("Two pictures, a wider room, or people fewer by a row."),
    ),
    "chairs_short": (
        noop("{who} would sit, and no chair that is free is left."),
        noop("{count} more to sit on, or somebody who may as well stand."),
    ),
    "faces_hidden": (noop("From the lens not every face is clear: {who}."), "{mend}."),
    "face_shaded": (
        noop(
            "Light {letter} does not reach {label} whole: {by}'s head takes {share} % of it, {stops} stops of the reading there."
        ),
        "{mend}.",
    ),
}

REASONS: dict[str, str] = {
    "rows": noop(
        "{rows} rows; people are as far apart as they are broad, {spacing} m on average, those behind in the gaps or over "
        "the heads of those before; faces lie {depth} m deep."
    ),
    "one_row": noop("One row; people are as far apart as they are broad, {spacing} m on average."),
    "faces_clear": noop(
        "From the lens, {camera} m up and {over} cm over the mean of the eyes, every face is clear of the people "
        "before it."
    ),
    "group_size": noop(
        "The group is {width} m wide over the elbows and {depth} m deep; eyes lie {low} to {high} m up."
    ),
    "group_focus": noop(
        "Focus {focus} m from the camera, on a card held {off} cm {way} the middle of the group: there both ends of the depth ask "
        "for the same closing, about f/{need}; a third of the way in would ask for f/{third}. {label} is nearest to that plane, "
        "{near} cm off."
    ),
    "rows_lit": noop(
        "Light {letter} is nearest to being blocked for {label} behind {by}, whose head takes {share} % of it: from "
        "{label}'s chin the light stands {height} degrees up, and from {clear} on no part of it would be taken."
    ),
    "on_steps": noop(
        "{who} on {step}, {up} cm up, so that their faces are clear of those before; rated {rating} kg, reckoned with {each} kg "
        "for each person, and the label is read first."
    ),
    "own_chair": noop("{who}: on clear floor inside the row, with people on either side."),
    "own_chair_among_standing": noop(
        "{who}: on clear floor among those who stand beside, not alone before them; seats on either "
        "side would bring the eyes level."
    ),
    "chair_for_floor": noop("{who}: a chair instead of the floor."),
    "chair_for_standing": noop("{who}: a chair instead of standing."),
    "small_last": noop("{who}: placed last, in front, beside the chairs or on a knee."),
    "pair_apart": noop("The two heads are {apart} m apart, as this house sets it for an older pair."),
}

CAUTIONS: dict[str, str] = {
    "steps": noop(
        "Steps: rated, level, inspected and held while people get on and off; small children and anybody unsure stay "
        "on the floor, and no chair is a step."
    ),
}

_CURES = {
    "row_more": noop("one more row"),
    "row_fewer": noop("one row fewer"),
    "light_further": noop("the key 0.5 m further off"),
    "light_nearer_lens": noop("the key 5 degrees nearer the lens"),
    "camera_further": noop("the camera 0.5 m further off"),
    "person_fewer": noop("one person fewer"),
}
_TURNS = {"higher": noop("{by} degrees higher"), "aside": noop("{by} degrees further to its side")}
LEAST_GAIN = 0.05


def cures(found: Sequence[tuple[str, float]], unit: str) -> str:
    """Changes with what each gains alone; those that gain nothing are said to."""
    helps = [
        _("{change} gains {gain} {unit}").format(change=_(_CURES[code]), gain=f"{gain:.1f}", unit=_(unit))
        for code, gain in found
        if gain >= LEAST_GAIN
    ]
    idle = ", ".join(_(_CURES[code]) for code, gain in found if gain < LEAST_GAIN)
    if not helps:
        return _("none of {changes} helps alone").format(changes=idle) if idle else _("people fewer, in two pictures")
    return "; ".join([*helps, _("no gain from {changes}").format(changes=idle)] if idle else helps)


def aperture(need: float, most: float) -> str:
    """The f-number a depth asks for, or that none there is holds it."""
    if need <= 1.03 * most:
        return _("About f/{need}").format(need=f"{need:.1f}")
    return _("No f-number up to f/{most} holds it (f/{need} would)").format(most=f"{most:g}", need=f"{need:.0f}")


def listed(names: Sequence[str]) -> str:
    """Names in one line, the last joined by and; many are cut short with how many are left."""
    if len(names) > MOST_NAMED:
        more = len(names) - MOST_NAMED
        text = ngettext("{names} and {count} more", "{names} and {count} more", more)
        return text.format(names=", ".join(names[:MOST_NAMED]), count=more)
    return joined.both(names)


def hidden(found: Sequence[tuple[str, str, float]]) -> str:
    """Who is behind whom, with how much of the face."""
    sentence = _("{who} behind {by} ({share} % of the face)")
    return listed([sentence.format(who=who, by=by, share=max(1, round(100 * share))) for who, by, share in found])


def clearing(who: str, by: str, *, step_m: float | None, camera_m: float | None, fewer: bool) -> str:
    """The smallest changes that clear the worst of the hidden faces, or all of them."""
    ways = []
    if step_m is not None:
        ways.append(_("a step of {up} cm under {who}").format(up=f"{100 * step_m:.0f}", who=who))
    if camera_m is not None:
        ways.append(_("the camera {up} cm higher clears all").format(up=f"{100 * camera_m:.0f}"))
    if fewer:
        ways.append(_("one person fewer, {by} for instance, clears all").format(by=by))
    if not ways:
        return _(
            "No single step, camera height or person fewer clears all: two pictures, or a wider room for longer rows"
        )
    return joined.begun(joined.either(ways))


def unshaded(letter: str, turns: Mapping[str, float]) -> str:
    """How far a light would have to go so that the shade is within its limit."""
    ways = [_(said).format(by=f"{turns[name]:.0f}") for name, said in _TURNS.items() if name in turns]
    if not ways:
        sentence = _("The rows further apart in height: no place of light {letter} within 45 degrees clears it")
        return sentence.format(letter=letter)
    return _("Light {letter} {ways}").format(letter=letter, ways=joined.either(ways))
