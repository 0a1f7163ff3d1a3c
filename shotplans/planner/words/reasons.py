"""Why the numbers of any set-up are as they are: one sentence or two for each code."""

from __future__ import annotations

from studio.tongue import noop

REASONS: dict[str, str] = {
    "bearing": noop(
        "{bearing} degrees {side} of the lens is {rel} off {label}'s nose; the brief ({sentence}) "
        "wants {low} to {high}. It draws the {pattern} pattern."
    ),
    "bearing_traded": noop(
        "{bearing} degrees {side} of the lens is {rel} off {label}'s nose; the brief ({sentence}) would "
        "want {low} to {high}, traded for what else holds here: room, stands, glasses, evenness. It draws the {pattern} pattern."
    ),
    "bearing_many": noop(
        "{bearing} degrees {side} of the lens keeps the faces within {even} stops (limit {limit}): for "
        "several people the place of the key decides that, not its power."
    ),
    "height": noop(
        "{height} degrees above the eyes; the brief ({sentence}) wants {low} to {high}: high enough for a catchlight "
        "in the upper half of the eye, low enough to stay clear of the lid."
    ),
    "height_traded": noop(
        "{height} degrees above the eyes; the brief ({sentence}) would want {low} to {high}, traded for ceiling, stands, "
        "glasses or catchlights."
    ),
    "distance": noop(
        "At {distance} m the source is {size} degrees across as the face sees it: the nose shadow's edge is "
        "{edge} mm wide. {step} cm closer: {gain:+.1f} stop, edge {softer} % wider{uneven}."
    ),
    "modifier": noop(
        "{modifier} on {head} came nearest to the brief of {kinds} kinds that mount; what it is judged on: angle "
        "to the nose, size, height, relief, catchlights, evenness."
    ),
    "modifier_standard": noop("{modifier} on {head}: the company's standard names it for the key."),
    "modifier_only": noop("{modifier} on {head} is the only kind of source that mounts on the free kit."),
    "lines_softer": noop(
        "{label} wishes softer: {notes}. Key {rel} degrees off the nose and fill {fill} stops under it leave "
        "{relief:.2f} stops of relief on the front of the face ({shadow:.2f} shadow, {highlight:.2f} highlight); angle and "
        "fill do that for fine lines. The size of the source does not, at this angle: it is for soft edges, a shallow nose shadow and "
        "calm gloss, and for bags, folds and neck."
    ),
    "lines_shown": noop(
        "{label} wishes shown: {notes}. Key {rel} degrees off the nose and fill {fill} stops under it leave {relief:.2f} "
        "stops of relief on the front of the face ({shadow:.2f} shadow, {highlight:.2f} highlight). The trade says a small source draws "
        "lines; measured, the angle draws them and fill takes them away, and the size makes the edges crisp."
    ),
    "wishes_opposed": noop(
        "One wish asks for softer and another for shown: the key stays with the intent, so neither moved it."
    ),
    "skin": noop(
        "On {label}'s skin lines read as {shadow:.2f} stops of shadow and {highlight:.2f} of highlight under this light; "
        "both are given because which of them leads changes with the angle."
    ),
    "brim": noop("A brim shades the eyes, so the key comes in at or just above them."),
    "deep_set": noop("Deep-set eyes want a lower key, so that the brow does not take the catchlight."),
    "chin_softer": noop("The key a little higher and the camera above the eyes put the chin's shadow under the jaw."),
    "narrow_face": noop("A flatter light widens a narrow face."),
    "fairer_far": noop("Skin tones differ: the fairer face sits farther from the key where everything else allows."),
    "light_hair": noop("Fair, grey or white hair takes the hair light lower: {level} stops under the key."),
    "standard": noop("The company's standard narrows the key's place, its size and the ground to last time's."),
    "fill_bounce": noop(
        "The room alone fills to {level} stops under the key, inside the {low} to {high} wanted: no fill is "
        "needed. The estimate is good to about half a stop until readings correct it."
    ),
    "fill_bounce_over": noop(
        "The room alone fills to {level} stops under the key, more than the {low} to {high} wanted, and no "
        "black panel that is free takes enough of it away."
    ),
    "fill_blocked": noop(
        "The room would fill to {bounce} stops under the key; black panels ({panels}) bring it to {level}."
    ),
    "fill_panel": noop(
        "A white panel {distance} m from the face brings the shadows to {level} stops under the key "
        "({low} to {high} wanted), bounce of {bounce} included; it needs no power."
    ),
    "fill_panel_beside": noop(
        "A white panel {distance} m from the face, on the shadow side: the dome at the camera reads the fill "
        "{level} stops under the key ({low} to {high} wanted over the lens), but the panel faces the shadow cheek, which lies "
        "{cheek} stops under the lit one."
    ),
    "fill_head": noop(
        "From over the lens, so that it draws no second shadow; dialled so that fill and bounce lie {level} stops "
        "under the key ({low} to {high} wanted). The key's own bounce off the room gives {bounce}."
    ),
    "fill_none": noop("Nothing in the free kit can fill: the shadows stay {level} stops under the key."),
    "glasses_clear": noop(
        "{label} wears glasses: light {letter} is clear of where the lenses mirror it (margin in degrees: "
        "{margin:.0f}). The curve of the lens, more than its tilt, sets how wide that zone is."
    ),
    "glasses_shows": noop("{label} wears glasses and light {letter} shows in them; first cure: {cure}."),
    "accent": noop(
        "From behind on the shadow side, {level} stops under the key at its own place, so that {what} parts from the "
        "ground. Off for the setting reading."
    ),
    "no_accent_bald": noop("No hair light: bare skin on top would shine."),
    "no_accent_white_hair": noop("No hair light: white hair is already the lightest thing in the picture."),
    "no_accent_shine": noop("No accent: shine is to be calmed."),
    "no_accent_infant": noop("No light over or behind an infant."),
    "no_accent_spill": noop(
        "No accent: past the head or off the room it would add more than a tenth of a stop to the face."
    ),
    "no_accent_kit": noop(
        "No accent: no head, modifier and stand still free can light it from behind, out of the picture."
    ),
    "ground_spill": noop(
        "{item} {distance} m behind reads {reading} stops {way} the setting by spill alone and comes out at "
        "L* {lightness} ({low} to {high} wanted)."
    ),
    "ground_lit": noop(
        "{item} {distance} m behind needs its own light to come out at L* {lightness} ({low} to {high} wanted): "
        "spill alone leaves it darker."
    ),
    "camera": noop(
        "{focal} mm at {distance} m frames {width} x {height} m ({framing}); nearer than {floor} m a face loses "
        "proportion."
    ),
    "aperture": noop(
        "{shown} holds {front} to {behind} m about the focus sharp; the faces need {need_front} to {need_behind}."
    ),
    "aperture_horizon": noop(
        "{shown} holds {front} m from the focus to the horizon sharp; the faces need {need_front} to {need_behind} m."
    ),
    "iso": noop("ISO {iso}: at {base} the lights would have to give more than they have."),
    "turn": noop("{label}'s nose turns {turn} degrees to camera {side}, so that the key is {rel} off it{which}."),
    "pair": noop(
        "{far} sits on the far side turned {turn} degrees into the key, {near} on the near side turned as much "
        "away from it."
    ),
    "in_turn": noop(
        "{people} people take this place one after the other: key and camera go up and down with their eyes."
    ),
    "dome": noop(
        "The dome looks at the camera, so it reads the key {error} stops lower than at the key; the lights are dialled "
        "for that reading. Beyond 45 degrees common practice turns the dome to the light."
    ),
    "print_face": noop("On a print {print_cm} cm wide a face is about {face_cm} cm high, seen from {viewing} m."),
    "side": noop("The key stands at camera {side}: {why}."),
    "steady": noop("Somebody here asked for no flash: only steady light in this set-up, at {shutter} and ISO {iso}."),
}

SIDE_WHY = {
    "ordered": noop("the brief orders it"),
    "people": noop("that serves the side the sitter asked for"),
    "habit": noop("both sides serve alike, and a picture is read from the left"),
}
