"""Broken limits of any set-up: what a problem says, and the smallest change that mends it."""

from __future__ import annotations

from studio.tongue import noop

PROBLEMS: dict[str, tuple[str, str]] = {
    "no_head": (
        noop("There is no head in the free kit, so nothing can be lit."),
        noop("Free one head, or move the sitting."),
    ),
    "no_modifier": (
        noop("There is no modifier in the free kit, so no light can be shaped."),
        noop("Free one modifier that fits a head."),
    ),
    "no_mount": (
        noop("No free head carries a free modifier: their mounts differ and no ring joins them."),
        noop("Free one ring from a head's mount to a modifier's."),
    ),
    "too_hot": (
        noop("The free lamps are too hot for the free modifiers: each takes fewer watts than the lamp gives."),
        noop("Free a cooler lamp, or a modifier rated for more watts."),
    ),
    "no_stand": (
        noop("There is no stand in the free kit, so nothing can hold a light."),
        noop("Free one stand for the key."),
    ),
    "room_too_small": (
        noop("The room is too short for this picture: {have} m are free along the set, {need} m are needed."),
        noop("{short} m more room, a tighter framing, or a lens of {shorter} mm instead of {focal}."),
    ),
    "ceiling": (noop("Light {letter} goes through the ceiling."), noop("{short} m more height, or a smaller source.")),
    "light_in_wall": (noop("Light {letter} goes through a wall."), noop("{short} m more room, or a smaller source.")),
    "stand_in_picture": (
        noop("The stand of light {letter} is seen in the picture."),
        noop("The stand {short} m further out, a boom from further out, or a tighter crop."),
    ),
    "in_picture": (
        noop("Light {letter} is seen in the picture."),
        noop("Light {letter} {short} m further out, or crop tighter."),
    ),
    "no_room_for_camera": (
        noop("The camera with its photographer does not fit between the mark and the wall."),
        noop("{short} m more room, or a shorter lens."),
    ),
    "people_under_ceiling": (
        noop("The tallest head reaches the ceiling."),
        noop("Everybody {short} m lower: seat the back row."),
    ),
    "no_stand_for": (
        noop("No free stand holds light {letter} where it belongs."),
        noop("One more stand or boom for light {letter}."),
    ),
    "too_heavy": (
        noop("Light {letter} is heavier than its stand is rated for."),
        noop("A stand rated {short} kg more."),
    ),
    "too_high": (noop("Light {letter} is above the reach of its stand."), noop("A stand {short} m taller.")),
    "arm_short": (noop("Light {letter} is beyond the boom's arm."), noop("An arm {short} m longer.")),
    "counterweight": (
        noop("The boom of light {letter} needs more counterweight than is free."),
        noop("{short} kg more on the boom's short end."),
    ),
    "power_short": (
        noop("The lights at full power read {short} stops under the aperture."),
        noop("{short} stops more: a higher ISO, a wider aperture, or the key nearer."),
    ),
    "power_over": (
        noop("The lights at their lowest power read {short} stops over the aperture."),
        noop("{short} stops less: a smaller aperture, a weaker head, or the key further off."),
    ),
    "power_low": (
        noop("Light {letter} cannot be turned down that far."),
        noop("{short} stops less: cloth over it or further off."),
    ),
    "dial_coarse": (
        noop("The dial's steps do not land on the aperture: the reading is {short} stops off."),
        noop("Trim with the key's distance: 5 cm is about a tenth of a stop at 1.5 m."),
    ),
    "sync": (
        noop(
            "The shutter ordered is faster than the camera's sync speed: the flash lights about {lit} % of the frame, the rest stays dark."
        ),
        noop("{sync_label} or slower."),
    ),
    "ambient": (
        noop(
            "The room's own light is only {below} stops under the setting and will tint the picture; the shutter cannot be faster."
        ),
        noop("{short} stops less room light: lamps off, blinds closed."),
    ),
    "too_close": (
        noop("The camera stands nearer than a face takes kindly at this framing."),
        noop("{short} m more distance, longer lens."),
    ),
    "min_focus": (noop("The lens does not focus that near."), noop("The camera {short} m further, or another lens.")),
    "aperture_wide": (noop("The lens does not open to the aperture ordered."), noop("f/{widest} or smaller.")),
    "aperture_small": (noop("The lens does not close to the aperture ordered."), noop("f/{smallest} or wider.")),
    "iso_range": (noop("The camera does not have the ISO ordered."), noop("An ISO from {low} to {high}.")),
    "catchlight": (
        noop("{label} has a catchlight from the key in {seen} of {wanted} eyes."),
        noop("Key lower, or nearer the nose, or chin up a little."),
    ),
    "glare": (noop("Light {letter} shows in {label}'s glasses."), noop("First cure: {cure}.")),
    "bounce_over": (
        noop("The room alone fills to {level} stops under the key; {wanted} at least is wanted."),
        noop("{short} stops less: one more black panel on the shadow side, or darker walls."),
    ),
    "fill_short": (
        noop("The fill reaches only {level} stops under the key; {wanted} at most is wanted."),
        noop("{short} stops more: one more head, or a white panel nearer."),
    ),
    "ground_narrow": (
        noop("The ground {item} does not fill the picture."),
        noop("{short} m more of it, or the ground nearer."),
    ),
    "ground_too_wide": (
        noop("The ground {item} is wider than the room."),
        noop("A room {short} m wider, or a narrower ground."),
    ),
    "ground_not_white": (
        noop("The ground {item} stays under white."),
        noop("{short} stops more on the ground: one more light for it."),
    ),
    "ground_uneven": (noop("The ground {item} is lit unevenly."), noop("A second ground light from the other side.")),
    "ground_dark": (
        noop("The ground {item} comes out at L* {lightness}; {low} to {high} is wanted."),
        noop("A light of its own on the ground, a lighter ground, or the ground nearer the key."),
    ),
    "ground_light": (
        noop("The ground {item} comes out at L* {lightness}; {low} to {high} is wanted."),
        noop("A darker ground, or the ground further behind."),
    ),
    "circuit": (
        noop("{circuit} carries more than four fifths of its breaker."),
        noop("{short} W less on it: another circuit."),
    ),
    "character_for_many": (
        noop("A character light is for up to three people; this is planned as bold."),
        noop("Three people at most in this picture."),
    ),
}
