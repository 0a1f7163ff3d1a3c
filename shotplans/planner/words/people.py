"""Sentences about how several people are placed: rows, seats, what one face hides of another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

MOST_NAMED = 6

PROBLEMS: dict[str, tuple[str, str]] = {
    "evenness": (
        "The faces differ by {spread} stops from {bright} to {dim}; {limit} is the limit.",
        "One change, the best first: {cures}.",
    ),
    "sharpness": (
        "Not all of the face is within the sharp zone: {short} m are missing.",
        "{need}, or the camera further off.",
    ),
    "sharpness_of_group": (
        "Not every face is within the sharp zone of {shown}: {short} m are missing.",
        "{need}; or one change, the best first: {cures}.",
    ),
    "no_room_for_people": ("The people are wider than the room.", "A room {short} m wider, or one person fewer."),
    "group_too_wide": (
        "The group is wider than the room.",
        "A room {short} m wider; or one change, the best first: {cures}.",
    ),
    "too_many_rows": (
        "The group stands in {rows} rows; more than four are deep to light and to hold sharp.",
        "Two pictures, a wider room, or people fewer by a row.",
    ),
    "chairs_short": (
        "{who} would sit, and no chair that is free is left.",
        "{count} more to sit on, or somebody who may as well stand.",
    ),
    "faces_hidden": ("From the lens not every face is clear: {who}.", "{mend}."),
    "face_shaded": (
        "Light {letter} does not reach {label} whole: {by}'s head takes {share} % of it, {stops} stops of the reading there.",
        "{mend}.",
    ),
}

REASONS: dict[str, str] = {
    "rows": "{rows} rows; people are as far apart as they are broad, {spacing} m on average, those behind in the gaps or over "
    "the heads of those before; faces lie {depth} m deep.",
    "one_row": "One row; people are as far apart as they are broad, {spacing} m on average.",
    "faces_clear": "From the lens, {camera} m up and {over} cm over the mean of the eyes, every face is clear of the people "
    "before it.",
    "group_size": "The group is {width} m wide over the elbows and {depth} m deep; eyes lie {low} to {high} m up.",
    "group_focus": "Focus {focus} m from the camera, on a card held {off} cm {way} the middle of the group: there both ends of the depth ask "
    "for the same closing, about f/{need}; a third of the way in would ask for f/{third}. {label} is nearest to that plane, "
    "{near} cm off.",
    "rows_lit": "Light {letter} is nearest to being blocked for {label} behind {by}, whose head takes {share} % of it: from "
    "{label}'s chin the light stands {height} degrees up, and from {clear} on no part of it would be taken.",
    "on_steps": "{who} on {step}, {up} cm up, so that their faces are clear of those before; rated {rating} kg, reckoned with {each} kg "
    "for each person, and the label is read first.",
    "own_chair": "{who}: on clear floor inside the row, with people on either side.",
    "own_chair_among_standing": "{who}: on clear floor among those who stand beside, not alone before them; seats on either "
    "side would bring the eyes level.",
    "chair_for_floor": "{who}: a chair instead of the floor.",
    "chair_for_standing": "{who}: a chair instead of standing.",
    "small_last": "{who}: placed last, in front, beside the chairs or on a knee.",
    "pair_apart": "The two heads are {apart} m apart, as this house sets it for an older pair.",
}

CAUTIONS: dict[str, str] = {
    "steps": "Steps: rated, level, inspected and held while people get on and off; small children and anybody unsure stay "
    "on the floor, and no chair is a step.",
}

_CURES = {
    "row_more": "one more row",
    "row_fewer": "one row fewer",
    "light_further": "the key 0.5 m further off",
    "light_nearer_lens": "the key 5 degrees nearer the lens",
    "camera_further": "the camera 0.5 m further off",
    "person_fewer": "one person fewer",
}
LEAST_GAIN = 0.05


def cures(found: Sequence[tuple[str, float]], unit: str) -> str:
    """Changes with what each gains alone; those that gain nothing are said to."""
    helps = [f"{_CURES[code]} gains {gain:.1f} {unit}" for code, gain in found if gain >= LEAST_GAIN]
    idle = [_CURES[code] for code, gain in found if gain < LEAST_GAIN]
    if not helps:
        return f"none of {', '.join(idle)} helps alone" if idle else "people fewer, in two pictures"
    return "; ".join([*helps, f"no gain from {', '.join(idle)}"] if idle else helps)


def aperture(need: float, most: float) -> str:
    """The f-number a depth asks for, or that none there is holds it."""
    return f"About f/{need:.1f}" if need <= 1.03 * most else f"No f-number up to f/{most:g} holds it (f/{need:.0f} would)"


def listed(names: Sequence[str]) -> str:
    """Names in one line, the last joined by and; many are cut short with how many are left."""
    shown = list(names[:MOST_NAMED])
    if len(names) > MOST_NAMED:
        return f"{', '.join(shown)} and {len(names) - MOST_NAMED} more"
    return " and ".join([", ".join(shown[:-1]), shown[-1]] if len(shown) > 1 else shown)


def hidden(found: Sequence[tuple[str, str, float]]) -> str:
    """Who is behind whom, with how much of the face."""
    return listed([f"{who} behind {by} ({max(1, round(100 * share))} % of the face)" for who, by, share in found])


def clearing(who: str, by: str, *, step_m: float | None, camera_m: float | None, fewer: bool) -> str:
    """The smallest changes that clear the worst of the hidden faces, or all of them."""
    ways = []
    if step_m is not None:
        ways.append(f"a step of {100 * step_m:.0f} cm under {who}")
    if camera_m is not None:
        ways.append(f"the camera {100 * camera_m:.0f} cm higher clears all")
    if fewer:
        ways.append(f"one person fewer, {by} for instance, clears all")
    if not ways:
        return "No single step, camera height or person fewer clears all: two pictures, or a wider room for longer rows"
    text = ", or ".join(ways)
    return text[0].upper() + text[1:]


def unshaded(letter: str, turns: Mapping[str, float]) -> str:
    """How far a light would have to go so that the shade is within its limit."""
    ways = [
        f"{turns[name]:.0f} degrees {said}"
        for name, said in (("higher", "higher"), ("aside", "further to its side"))
        if name in turns
    ]
    if not ways:
        return f"The rows further apart in height: no place of light {letter} within 45 degrees clears it"
    return f"Light {letter} {', or '.join(ways)}"
