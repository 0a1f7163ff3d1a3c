"""One catalogue for everything the planner says: problems with their mends, reasons, cautions. Codes in, sentences out.

Sentences carry the numbers they are given and nothing else; they are neutral about people and fit to be read by them.
Reasons of notes stay with those who may see notes: paper and desk take the numbers without them.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

PROBLEMS: dict[str, tuple[str, str]] = {
    "no_head": ("There is no head in the free kit, so nothing can be lit.", "Free one head, or move the sitting."),
    "no_steady_head": (
        "Somebody in this set-up asked for no flash and the free kit has no steady head.",
        "Free one steady head, or plan this person by a window.",
    ),
    "no_modifier": (
        "There is no modifier in the free kit, so no light can be shaped.",
        "Free one modifier that fits a head.",
    ),
    "no_mount": (
        "No free head carries a free modifier: their mounts differ and no ring joins them.",
        "Free one ring from a head's mount to a modifier's.",
    ),
    "too_hot": (
        "The free lamps are too hot for the free modifiers: each takes fewer watts than the lamp gives.",
        "Free a cooler lamp, or a modifier rated for more watts.",
    ),
    "no_stand": ("There is no stand in the free kit, so nothing can hold a light.", "Free one stand for the key."),
    "nothing_stands": (
        "No free stand or boom holds a key anywhere it would be wanted in this room.",
        "A stand that carries {mass} kg to {height} m, or more floor round the set: {length} x {across} m is free now.",
    ),
    "too_many_people": (
        "{people} people do not fit this room in four rows: {fits} do.",
        "{over} people fewer in one picture, or a room {wider} m wider.",
    ),
    "room_too_small": (
        "The room is too short for this picture: {have} m are free along the set, {need} m are needed.",
        "{short} m more room, a tighter framing, or a shorter lens than {focal} mm.",
    ),
    "ceiling": ("Light {letter} goes through the ceiling.", "{short} m more height, or a smaller source."),
    "light_in_wall": ("Light {letter} goes through a wall.", "{short} m more room, or a smaller source."),
    "in_picture": ("Light {letter} is seen in the picture.", "Light {letter} {short} m further out, or crop tighter."),
    "no_room_for_camera": (
        "The camera with its photographer does not fit between the mark and the wall.",
        "{short} m more room, or a shorter lens.",
    ),
    "no_room_for_people": ("The people are wider than the room.", "A room {short} m wider, or one more row."),
    "people_under_ceiling": ("The tallest head reaches the ceiling.", "Everybody {short} m lower: seat the back row."),
    "no_stand_for": (
        "No free stand holds light {letter} where it belongs.",
        "One more stand or boom for light {letter}.",
    ),
    "too_heavy": ("Light {letter} is heavier than its stand is rated for.", "A stand rated {short} kg more."),
    "too_high": ("Light {letter} is above the reach of its stand.", "A stand {short} m taller."),
    "arm_short": ("Light {letter} is beyond the boom's arm.", "An arm {short} m longer."),
    "counterweight": (
        "The boom of light {letter} needs more counterweight than is free.",
        "{short} kg more on the boom's short end.",
    ),
    "power_short": (
        "The lights at full power read {short} stops under the aperture.",
        "{short} stops more: a higher ISO, a wider aperture, or the key nearer.",
    ),
    "power_over": (
        "The lights at their lowest power read {short} stops over the aperture.",
        "{short} stops less: a smaller aperture, a weaker head, or the key further off.",
    ),
    "power_low": (
        "Light {letter} cannot be turned down that far.",
        "{short} stops less: cloth over it or further off.",
    ),
    "dial_coarse": (
        "The dial's steps do not land on the aperture: the reading is {short} stops off.",
        "Trim with the key's distance: 5 cm is about a tenth of a stop at 1.5 m.",
    ),
    "sync": (
        "The shutter ordered is faster than the camera's sync speed, so part of the frame stays dark.",
        "{sync_label} or slower.",
    ),
    "ambient": (
        "The room's own light is only {below} stops under the setting and will tint the picture; the shutter cannot be faster.",
        "{short} stops less room light: lamps off, blinds closed.",
    ),
    "too_close": (
        "The camera stands nearer than a face takes kindly at this framing.",
        "{short} m more distance, longer lens.",
    ),
    "min_focus": ("The lens does not focus that near.", "The camera {short} m further, or another lens."),
    "aperture_wide": ("The lens does not open to the aperture ordered.", "f/{widest} or smaller."),
    "aperture_small": ("The lens does not close to the aperture ordered.", "f/{smallest} or wider."),
    "iso_range": ("The camera does not have the ISO ordered.", "An ISO from {low} to {high}."),
    "sharpness": (
        "Not every face is within the sharp zone: {short} m are missing.",
        "About f/{need}, the rows {short} m closer together, or the camera further off.",
    ),
    "catchlight": (
        "{label} has a catchlight from the key in {seen} of {wanted} eyes.",
        "Key lower, or nearer the nose, or chin up a little.",
    ),
    "glare": ("Light {letter} shows in {label}'s glasses.", "First cure: {cure}."),
    "evenness": (
        "The faces differ by {spread} stops from {bright} to {dim}; {limit} is the limit.",
        "The key further off or nearer the lens, or one person fewer in the row.",
    ),
    "bounce_over": (
        "The room alone fills to {level} stops under the key; {wanted} at least is wanted.",
        "{short} stops less: one more black panel on the shadow side, or darker walls.",
    ),
    "fill_short": (
        "The fill reaches only {level} stops under the key; {wanted} at most is wanted.",
        "{short} stops more: one more head, or a white panel nearer.",
    ),
    "ground_narrow": ("The ground {item} does not fill the picture.", "{short} m more of it, or the ground nearer."),
    "ground_too_wide": ("The ground {item} is wider than the room.", "A room {short} m wider, or a narrower ground."),
    "ground_not_white": (
        "The ground {item} stays under white.",
        "{short} stops more on the ground: one more light for it.",
    ),
    "ground_uneven": ("The ground {item} is lit unevenly.", "A second ground light from the other side."),
    "ground_dark": (
        "The ground {item} comes out at L* {lightness}; {low} to {high} is wanted.",
        "A light of its own on the ground, a lighter ground, or the ground nearer the key.",
    ),
    "ground_light": (
        "The ground {item} comes out at L* {lightness}; {low} to {high} is wanted.",
        "A darker ground, or the ground further behind.",
    ),
    "circuit": ("{circuit} carries more than four fifths of its breaker.", "{short} W less on it: another circuit."),
    "too_many_rows": ("The group stands in {rows} rows; more than four hide faces.", "A wider room or fewer people."),
    "character_for_many": (
        "A character light is for up to three people; this is planned as bold.",
        "Three people at most in this picture.",
    ),
}

REASONS: dict[str, str] = {
    "bearing": "{bearing} degrees {side} of the lens is {rel} off {label}'s nose; the brief ({sentence}) "
    "wants {low} to {high}. It draws the {pattern} pattern.",
    "bearing_traded": "{bearing} degrees {side} of the lens is {rel} off {label}'s nose; the brief ({sentence}) would "
    "want {low} to {high}, traded for what else holds here: room, stands, glasses, evenness. It draws the {pattern} pattern.",
    "bearing_many": "{bearing} degrees {side} of the lens keeps the faces within {even} stops (limit {limit}): for "
    "several people the place of the key decides that, not its power.",
    "height": "{height} degrees above the eyes; the brief ({sentence}) wants {low} to {high}: high enough for a catchlight "
    "in the upper half of the eye, low enough to stay clear of the lid.",
    "height_traded": "{height} degrees above the eyes; the brief ({sentence}) would want {low} to {high}, traded for ceiling, stands, "
    "glasses or catchlights.",
    "distance": "At {distance} m the source is {size} degrees across as the face sees it: the nose shadow's edge is "
    "{edge} mm wide. {step} cm closer: {gain:+.1f} stop, edge {softer} % wider{uneven}.",
    "modifier": "{modifier} on {head} came nearest to the brief of {kinds} kinds that mount; what it is judged on: angle "
    "to the nose, size, height, relief, catchlights, evenness.",
    "modifier_standard": "{modifier} on {head}: the company's standard names it for the key.",
    "modifier_only": "{modifier} on {head} is the only kind of source that mounts on the free kit.",
    "lines_softer": "{label} wishes softer: {notes}. Key {rel} degrees off the nose and fill {fill} stops under it leave "
    "{relief:.2f} stops of relief on the front of the face ({shadow:.2f} shadow, {highlight:.2f} highlight); angle and "
    "fill do that for fine lines. The size of the source does not, at this angle: it is for soft edges, a shallow nose shadow and "
    "calm gloss, and for bags, folds and neck.",
    "lines_shown": "{label} wishes shown: {notes}. Key {rel} degrees off the nose and fill {fill} stops under it leave {relief:.2f} "
    "stops of relief on the front of the face ({shadow:.2f} shadow, {highlight:.2f} highlight). The trade says a small source draws "
    "lines; measured, the angle draws them and fill takes them away, and the size makes the edges crisp.",
    "wishes_opposed": "One wish asks for softer and another for shown: the key stays with the intent, so neither moved it.",
    "skin": "On {label}'s skin lines read as {shadow:.2f} stops of shadow and {highlight:.2f} of highlight under this light; "
    "both are given because which of them leads changes with the angle.",
    "brim": "A brim shades the eyes, so the key comes in at or just above them.",
    "deep_set": "Deep-set eyes want a lower key, so that the brow does not take the catchlight.",
    "chin_softer": "The key a little higher and the camera above the eyes put the chin's shadow under the jaw.",
    "narrow_face": "A flatter light widens a narrow face.",
    "fairer_far": "Skin tones differ: the fairer face sits farther from the key where everything else allows.",
    "light_hair": "Fair, grey or white hair takes the hair light lower: {level} stops under the key.",
    "standard": "The company's standard narrows the key's place, its size and the ground to last time's.",
    "fill_bounce": "The room alone fills to {level} stops under the key, inside the {low} to {high} wanted: no fill is "
    "needed. The estimate is good to about half a stop until readings correct it.",
    "fill_bounce_over": "The room alone fills to {level} stops under the key, more than the {low} to {high} wanted, and no "
    "black panel that is free takes enough of it away.",
    "fill_blocked": "The room would fill to {bounce} stops under the key; black panels ({panels}) bring it to {level}.",
    "fill_panel": "A white panel {distance} m from the face brings the shadows to {level} stops under the key "
    "({low} to {high} wanted), bounce of {bounce} included; it needs no power.",
    "fill_panel_beside": "A white panel {distance} m from the face, on the shadow side: the dome at the camera reads the fill "
    "{level} stops under the key ({low} to {high} wanted over the lens), but the panel faces the shadow cheek, which lies "
    "{cheek} stops under the lit one.",
    "fill_head": "From over the lens, so that it draws no second shadow; dialled so that fill and bounce lie {level} stops "
    "under the key ({low} to {high} wanted). The key's own bounce off the room gives {bounce}.",
    "fill_none": "Nothing in the free kit can fill: the shadows stay {level} stops under the key.",
    "glasses_clear": "{label} wears glasses: light {letter} is clear of where the lenses mirror it (margin in degrees: "
    "{margin:.0f}). The curve of the lens, more than its tilt, sets how wide that zone is.",
    "glasses_shows": "{label} wears glasses and light {letter} shows in them; first cure: {cure}.",
    "accent": "From behind on the shadow side, {level} stops under the key at its own place, so that {what} parts from the "
    "ground. Off for the setting reading.",
    "no_accent_bald": "No hair light: bare skin on top would shine.",
    "no_accent_white_hair": "No hair light: white hair is already the lightest thing in the picture.",
    "no_accent_shine": "No accent: shine is to be calmed.",
    "no_accent_infant": "No light over or behind an infant.",
    "no_accent_kit": "No accent: no head, modifier and stand still free can light it from behind, out of the picture.",
    "ground_spill": "{item} {distance} m behind reads {reading} stops {way} the setting by spill alone and comes out at "
    "L* {lightness} ({low} to {high} wanted).",
    "ground_lit": "{item} {distance} m behind needs its own light to come out at L* {lightness} ({low} to {high} wanted): "
    "spill alone leaves it darker.",
    "camera": "{focal} mm at {distance} m frames {width} x {height} m ({framing}); nearer than {floor} m a face loses "
    "proportion.",
    "aperture": "{shown} holds {front} to {behind} m about the focus sharp; the faces need {need_front} to {need_behind}.",
    "iso": "ISO {iso}: at {base} the lights would have to give more than they have.",
    "turn": "{label}'s nose turns {turn} degrees to camera {side}, so that the key is {rel} off it{which}.",
    "pair": "{far} sits on the far side turned {turn} degrees into the key, {near} on the near side turned as much "
    "away from it.",
    "rows": "{rows} rows, {spacing} m from one person to the next, each row behind the gaps of the one before; faces lie "
    "{depth} m deep.",
    "one_row": "One row, {spacing} m from one person to the next.",
    "in_turn": "{people} people take this place one after the other: key and camera go up and down with their eyes.",
    "dome": "The dome looks at the camera, so it reads the key {error} stops lower than at the key; the lights are dialled "
    "for that reading. Beyond 45 degrees common practice turns the dome to the light.",
    "print_face": "On a print {print_cm} cm wide a face is about {face_cm} cm high, seen from {viewing} m.",
    "freeze": "{head} gives nine tenths of its light in about 1/{part} s: a hand that moves at 1 m/s smears {blur} mm.",
    "side": "The key stands at camera {side}: {why}.",
    "steady": "Somebody here asked for no flash: only steady light in this set-up, at {shutter} and ISO {iso}.",
}

SIDE_WHY = {
    "ordered": "the brief orders it",
    "people": "that serves the side the sitter asked for",
    "habit": "both sides serve alike, and a picture is read from the left",
}

CAUTIONS: dict[str, str] = {
    "stands": "Stands: a leg under the load, a sandbag on it; makers' instructions come first.",
    "boom": "Boom: counterweight before the arm goes out, safety cord, end flagged, never over a sitter unless secured.",
    "cables": "Cables flat, taped or covered, away from the sitter's path, a loop at each stand's foot.",
    "flash": "Flash: ask about flashing light before the sitting; no bursts above three a second. Medical advice is the "
    "sitter's own clinician's.",
    "no_flash": "No flash for anyone who asked for none: flash heads off at the wall and triggers out; steady light proved flicker-free at "
    "the shutter used.",
    "hot": "Modelling and steady lamps are hot: nothing of cloth or paper on them, cool before packing; {modifier} takes at "
    "most {watts} W.",
    "load": "Flash heads draw several times their average while recycling: stagger them; local electrical rules and licensed "
    "people come first.",
    "older": "Older sitters: firm chair with arms, dry floor, help offered not imposed, seated first; nothing boomed overhead.",
    "infant": "Infants and toddlers: an adult within arm's reach, nothing boomed overhead, nothing to climb.",
    "panel": "Panels catch people and draughts: weight their stands.",
    "hearing": "Light on the photographer's own face, hand signs agreed before, everybody faced when spoken to.",
    "low_vision": "House lights full until seated, the path clear, the set described; an arm offered, never taken.",
    "tremor": "Hands rest on a base; a short exposure freezes what still moves.",
    "sensory": "A quiet slot, beeps off, the first flash shown beforehand, a pause whenever it is asked for.",
    "standing": "Standing pictures last and short: {minutes} minutes at most, a chair beside the set.",
    "light_clothes": "Light clothes: feather or flag the key off the cloth, and keep it under clipping.",
    "shiny_clothes": "Shiny cloth or metal: look for hot spots in the test frame, flag them.",
    "pattern": "Fine stripes or bold patterns: look at the test frame, have a plain second piece ready.",
    "bare_arms": "Bare arms: the arm away from the key, angled, so that the face stays the lightest place.",
    "flicker": "{head} is not known to be free of flicker: try it at the shutter used before the sitter comes.",
    "dark": "House lights full until everybody is seated.",
}


def problem(code: str, values: Mapping[str, Any], short_by: float) -> tuple[str, str]:
    """What a problem says and the smallest change that mends it."""
    says, mend = PROBLEMS[code]
    filled = {**values, "short": f"{short_by:g}"}
    return says.format(**filled), mend.format(**filled)


def reason(code: str, values: Mapping[str, Any]) -> str:
    """A reason in one or two sentences."""
    return REASONS[code].format(**values)


def caution(code: str, values: Mapping[str, Any] | None = None) -> str:
    """A caution in one sentence."""
    return CAUTIONS[code].format(**(values or {}))


def alternative(modifier: str, distance_m: float, size_deg: float) -> str:
    """How another plan differs."""
    return f"With {modifier} as key, {distance_m:.2f} m off, seen {size_deg:.0f} degrees across."


def costs(other: Mapping[str, Any], ours: Mapping[str, Any]) -> str:
    """What another way changes, number against number."""
    relief = [sum(s["relief_stops"] for s in e["per_sitter"]) / len(e["per_sitter"]) for e in (other, ours)]
    said = [
        f"nose shadow's edge {other['shadow_edge_mm']:.0f} mm instead of {ours['shadow_edge_mm']:.0f}",
        f"relief {relief[0]:.2f} stops instead of {relief[1]:.2f}",
        f"fill {other['fill_below_key_stops']:.1f} stops under the key instead of {ours['fill_below_key_stops']:.1f}",
    ]
    if ours["worst_pair"]:
        said.append(f"faces within {other['evenness_stops']:.1f} stop instead of {ours['evenness_stops']:.1f}")
    return f"{'; '.join(said)}.".capitalize()
