"""Sentences on what the notes ask of everybody on set: consequences only, naming nobody and no condition.

Blanks are a rule's own numbers by their names, or numbers of the plan.
"""

from __future__ import annotations

from studio.tongue import noop

CONSEQUENCES: dict[str, str] = {
    "wall_print": noop(
        "Over furniture {furniture} cm wide a print of {low} to {high} cm sits well ({low_share} to {high_share} % "
        "of its width); {width} cm is ordered."
    ),
    "wall_orientation": noop("The picture is {orientation}: hold it against the free wall before the sitting."),
    "face_on_wall": noop(
        "A face comes out {face} cm high, {life} % of life size; {low_share} to {high_share} % reads across a "
        "room, a print {low} to {high} cm wide at this framing."
    ),
    "company_grid": noop(
        "For the grid: head {head} % of the height ({head_share} is usual), eyes {eyes} % down ({eyes_down_share}), "
        "room around for a square and an upright cut."
    ),
    "company_reference": noop("The reference frame of last time is at hand, and the first frame is laid beside it."),
    "crop": noop("Cut to {ratio} the picture keeps {share} % of its {of}; {holds}."),
    "crop_other": noop("Take the other way up once as well: the cut to {ratio} keeps less than {least_share} %."),
    "space_for_words": noop(
        "Keep {free_share} % of the width free at the {side}: people off the middle, looking into the free side, "
        "ground even there."
    ),
    "space_frames": noop("{more_frames} more frames of each picture, and room on both sides once."),
    "chin_forward": noop("Chin a little forward first, then down."),
    "test_frame": noop("The first test frame is shown to the sitter before going on."),
    "other_day": noop("Offer another day before the set is built, and agree what is retouched."),
    "side_chosen": noop("Ask the sitter which side faces the lens, and note the answer, nothing else."),
    "gloss_gear": noop("Blotting paper at the set; powder only the sitter's own."),
    "gloss_camera": noop("Try the camera {camera_down_cm} cm lower when the top of the head gleams."),
    "tone_deep": noop(
        "The same reading as for anybody: hold the highlights; {lift_stops} stops more at most, and only if the "
        "sitter, shown the frame, wants it."
    ),
    "tone_deep_ground": noop("A mid or pale ground stands ready beside the dark one."),
    "tone_fair": noop(
        "Keep the brightest part of the face under clipping, the red channel first; {less_low_stops} to "
        "{less_high_stops} stops less when in doubt."
    ),
    "tones_apart": noop("Read both faces: by their distance from the key they lie {apart} stops apart here."),
    "turn_asked": noop("Head turned {turn_low_deg} to {turn_high_deg} degrees where it can be; {turn} here."),
    "flag_cheek": noop("A flag beside the near cheek, just out of the picture."),
    "near_full_face": noop("The face stays near full to the lens."),
    "white_card": noop("A white card low before the sitter, just out of the picture."),
    "chin_level": noop("Chin level."),
    "camera_above": noop("Camera {camera_up_cm} cm above the eyes, forehead a little forward; {above} cm here."),
    "nose_distance": noop(
        "From {distance} m what is 12 cm nearer the lens looks {larger} % larger; from {camera_least_m} m {least} %."
    ),
    "glasses_gear": noop("A clean cloth for glasses."),
    "glasses_pose": noop("Chin down {chin_down_deg} degrees at most, temples up a little, no rim across an iris."),
    "glasses_minutes": noop("{extra_minutes} minutes more, to look for reflections."),
    "lenses_reactive": noop(
        "Come with the glasses in a case, or bring plain frames: lenses that darken outdoors need "
        "{clear_low_minutes} to {clear_high_minutes} minutes indoors."
    ),
    "lenses_strong": noop("Face within {turn_most_deg} degrees of the lens; {turn} here."),
    "hair_flag": noop("A flag at hand for the light from behind, should the lens catch it."),
    "hair_ground": noop("The ground at least {ground_least_m} m behind; {ground} m here."),
    "hair_room": noop("{headroom_cm} cm more room above the head."),
    "hair_gear": noop("A pick or wide comb, and a mirror."),
    "head_covered": noop("A mirror in private, and the helper the sitter chose; nobody else touches it."),
    "clothes_dark": noop("A dark or mid ground, so that the face stays the lightest place."),
    "clothes_light": noop("Key feathered or flagged off the cloth: at most {spread_stops} stop over the face."),
    "clothes_pattern": noop("Bring {outfits} outfits, one of them plain; the ground stays plain."),
    "arms_pose": noop("Arm away from the key, at an angle."),
    "arms_gear": noop("Long sleeves are on the clothes list."),
    "gloss_cloth": noop("Cotton gloves for medals and metal; ask for the order they are worn in."),
    "pair_chairs": noop("Two chairs with arms, seats {seat_low_cm} to {seat_high_cm} cm high; {seats}."),
    "pair_minutes": noop("Seated {sitting_minutes} minutes at most without a rest, standing {standing_minutes}."),
    "pair_close": noop("Heads {heads_apart_m} m apart, one a little higher, hands joined; {apart} m here."),
    "group_stools": noop("{stools} seats of different heights."),
    "group_helper": noop("{helpers} more to watch gaps and steps; steps rated and level."),
    "two_rows": noop("The front row reads {stops} stops over the back row from the key alone; {row_stops} at most."),
    "tape": noop("Measure from the nearest nose to the farthest: {depth} m here."),
    "blink": noop("{frames} frames of everybody together, a count down before each."),
    "newborn_light": noop("Broad light from the side, no bursts, lamps well away; a hand within reach the whole time."),
    "newborn_room": noop("Room {room_low_c} to {room_high_c} degrees C by a thermometer, cloths washed."),
    "newborn_minutes": noop("At least {sitting_minutes} minutes, so that sleep and feeds fit in."),
    "toddler_camera": noop("Photographer at the height of the smallest: eyes {eyes} m here."),
    "toddler_people": noop("A second helper with toys; morning, or after a nap."),
    "toddler_minutes": noop("At least {sitting_minutes} minutes, pauses included."),
    "child_turns": noop("Turns of {set_minutes} minutes at most, play between."),
    "guardian": noop("A guardian in the room and a signed release before the first frame (under {guardian_years})."),
    "quiet_slot": noop(
        "A slot without others, pictures of the set sent ahead, beeps off, real prompts instead of commands."
    ),
    "quiet_minutes": noop("{extra_low_minutes} to {extra_high_minutes} minutes more, for pauses."),
    "flash_off": noop("All flash heads off at the wall, triggers out; elsewhere never more than {bursts_hz} a second."),
    "seated_first": noop(
        "Seated pictures first; standing last and {standing} minutes at most, a chair beside the set."
    ),
    "clear_way": noop("Way in {path_m} m wide and {turning_m} m to turn, clear of cables."),
    "eyes_level": noop(
        "Camera at their eyes, everybody else seated to that height; nobody leans on or pushes the chair unasked."
    ),
    "firm_chair": noop(
        "A firm chair with arms to its front edge, {seat_low_cm} to {seat_high_cm} cm high, no low stool; {seats}."
    ),
    "signs": noop("Agree hand signs, light the photographer's face, mark a place for an interpreter."),
    "signs_minutes": noop("{extra_minutes} minutes more, so that everything can be shown."),
    "house_lights": noop(
        "House lights full until seated, no lamp in the eyes, way in {path_m} m wide, the set described."
    ),
    "broad_seat": noop(
        "A seat without arms, its label read: {rating_kg} kg at least; {seats}. Support for the back, cool lamps, "
        "breaks."
    ),
    "hands_rest": noop("{supports} cushion or table for the hands; the shutter stays at {shutter}."),
    "private_set": noop(
        "Nobody watches; the pose is shown by the photographer first; not before place {place_least} and before lunch."
    ),
    "private_minutes": noop("{extra_minutes} minutes more before the first frame."),
    "props": noop("{things} at hand, blunt and safe; what mirrors is looked at in the test frame."),
    "haze": noop("The least haze that reads, a light behind it, fresh air, and the owner of the alarm told."),
    "small_room": noop(
        "{length} x {across} m under {ceiling} m: a kicker from the side instead of a boom, compact stands."
    ),
    "decider": noop(
        "The reference frame is approved by whoever decides before person {approve_before}: name and phone on the sheet."
    ),
    "event": noop(
        "Promise {days} days from now, {before_days} before the day; finished prints can take {work_low_weeks} to "
        "{work_high_weeks} weeks{late}."
    ),
    "time": noop(
        "The notes ask for {extra} minutes more; with every picture and change of set-up that makes {need} "
        "minutes{booked}."
    ),
}

# What stands in a blank where a seat is looked for.
SEATS = {True: noop("the free kit has what is needed"), False: noop("the free kit has not enough that fits, bring it")}
HOLDS = {True: noop("everybody stays in it"), False: noop("somebody is cut at the side: step back or leave it")}
# Why a picture is worked on afterwards: agreed with the client, or to be agreed with a sitter.
RETOUCH = {True: noop("Agreed with the client."), False: noop("To be agreed with the sitter beforehand.")}
# What a consequence puts on the packing list, in words; pieces of kit stand there by their own ids, and a cloth for
# lenses is always packed.
BROUGHT: dict[str, tuple[str, ...]] = {
    "company_reference": (noop("reference frame of last time"),),
    "gloss_cloth": (noop("cotton gloves"),),
    "gloss_gear": (noop("blotting paper"),),
    "hair_gear": (noop("pick or wide comb"), noop("mirror")),
    "hands_rest": (noop("cushion"),),
    "head_covered": (noop("mirror"),),
    "newborn_room": (noop("room thermometer"), noop("washed cloths")),
    "toddler_people": (noop("toys"),),
    "white_card": (noop("white card"),),
}
