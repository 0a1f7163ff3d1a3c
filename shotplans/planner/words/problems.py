"""Broken limits of any set-up: what a problem says, and the smallest change that mends it."""

from __future__ import annotations

PROBLEMS: dict[str, tuple[str, str]] = {
    "no_head": ("There is no head in the free kit, so nothing can be lit.", "Free one head, or move the sitting."),
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
    "room_too_small": (
        "The room is too short for this picture: {have} m are free along the set, {need} m are needed.",
        "{short} m more room, a tighter framing, or a lens of {shorter} mm instead of {focal}.",
    ),
    "ceiling": ("Light {letter} goes through the ceiling.", "{short} m more height, or a smaller source."),
    "light_in_wall": ("Light {letter} goes through a wall.", "{short} m more room, or a smaller source."),
    "stand_in_picture": (
        "The stand of light {letter} is seen in the picture.",
        "The stand {short} m further out, a boom from further out, or a tighter crop.",
    ),
    "in_picture": ("Light {letter} is seen in the picture.", "Light {letter} {short} m further out, or crop tighter."),
    "no_room_for_camera": (
        "The camera with its photographer does not fit between the mark and the wall.",
        "{short} m more room, or a shorter lens.",
    ),
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
        "The shutter ordered is faster than the camera's sync speed: the flash lights about {lit} % of the frame, the rest stays dark.",
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
    "catchlight": (
        "{label} has a catchlight from the key in {seen} of {wanted} eyes.",
        "Key lower, or nearer the nose, or chin up a little.",
    ),
    "glare": ("Light {letter} shows in {label}'s glasses.", "First cure: {cure}."),
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
    "character_for_many": (
        "A character light is for up to three people; this is planned as bold.",
        "Three people at most in this picture.",
    ),
}
