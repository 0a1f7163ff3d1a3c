"""Rules on what a note asks of camera, pose, gear, people and minutes: rows of `rules.RULES` beside those of the light.

Belongs here: words, numbers and their ranges. Not here: what is done with them (`consequences`, `poses`, `shots`).
Common practice, no source, unless the row names one.
"""

from __future__ import annotations

from shotplans.planner.rule import Number, Rule
from shotplans.planner.rules_of_shots import SHOTS
from studio.tongue import noop

DEG, MIN, CM = "deg", "min", "cm"

PICTURE: dict[str, Rule] = {
    "wall_print": Rule(
        noop("The print hangs over furniture"),
        noop("A print much narrower than the furniture under it looks lost, a wider one hangs over its ends."),
        {
            "low_share": Number(noop("print against furniture, from"), 50, 20, 100, "%"),
            "high_share": Number(noop("print against furniture, to"), 75, 30, 150, "%"),
        },
    ),
    "face_on_wall": Rule(
        noop("The print is to be read across a room"),
        noop("A face reads across a room when it is near life size, and overpowers it when larger."),
        {
            "across_m": Number(noop("looked at from at least"), 1.0, 0.3, 10, "m"),
            "low_share": Number(noop("face against life size, from"), 60, 20, 100, "%"),
            "high_share": Number(noop("face against life size, to"), 100, 40, 200, "%"),
        },
        noop("advice of the trade, not a limit; sizes by proportion"),
    ),
    "company_grid": Rule(
        noop("Portraits to stand beside others in one grid"),
        noop("Heads of one size and eyes on one line make a grid calm; the reference frame settles doubts."),
        {
            "head_share": Number(noop("head against the picture's height"), 50, 10, 90, "%"),
            "eyes_down_share": Number(noop("eyes below the upper edge"), 33, 15, 60, "%"),
        },
    ),
    "space_for_words": Rule(
        noop("The layout needs room for words"),
        noop("Words want an even ground on their side, and a look into the free space."),
        {
            "free_share": Number(noop("width kept free"), 33, 10, 60, "%"),
            "more_frames": Number(noop("more frames of each picture"), 2, 0, 10, "frames"),
        },
    ),
    "crops": Rule(
        noop("The picture will be cut to other shapes"),
        noop(
            "A cut keeps only part of the width or height, so room is left for it, and the other way up is insurance."
        ),
        {"least_share": Number(noop("of width or height kept, at least"), 60, 20, 100, "%")},
    ),
    "nose_softer": Rule(
        noop("Somebody wishes nose or ears calmer"),
        noop("What is nearer the lens looks larger; distance calms it, the longer lens only keeps the framing."),
        {"camera_least_m": Number(noop("camera at least"), 3.0, 1.5, 6, "m")},
        noop("common practice; sizes by perspective"),
    ),
    "lenses_strong": Rule(
        noop("Thick lenses in the glasses"),
        noop("Seen from the side a strong lens breaks the line of the cheek."),
        {"turn_most_deg": Number(noop("head turned at most"), 20, 0, 60, DEG)},
        noop("value from memory"),
    ),
    "lenses_reactive": Rule(
        noop("Lenses that darken in daylight"),
        noop("They arrive dark and take a while indoors to clear; studio lamps seldom darken them."),
        {
            "clear_low_minutes": Number(noop("time to clear, from"), 5, 0, 30, MIN),
            "clear_high_minutes": Number(noop("time to clear, to"), 10, 0, 60, MIN),
        },
        noop("value from memory"),
    ),
    "hair_big": Rule(
        noop("Big or curly hair"),
        noop("It needs room above, a ground that is well behind, and a wide light from above."),
        {
            "ground_least_m": Number(noop("ground behind at least"), 2.0, 0.5, 5, "m"),
            "headroom_cm": Number(noop("more room above the head"), 10, 0, 40, CM),
        },
    ),
    "clothes_pattern": Rule(
        noop("Stripes, bold patterns or lettering"),
        noop("Fine patterns shimmer in a picture and bold ones outshout a face."),
        {"outfits": Number(noop("outfits to bring"), 3, 1, 10, "outfits")},
    ),
    "older_pair": Rule(
        noop("Two people in one picture, one of them 65 or older"),
        noop("An older pair sits close, one broad light covers both, and standing is kept short."),
        {
            "heads_apart_m": Number(noop("heads apart"), 0.45, 0.30, 0.80, "m"),
            "sitting_minutes": Number(noop("longest sitting"), 40, 10, 120, MIN),
            "standing_minutes": Number(noop("longest standing"), 5, 1, 30, MIN),
            "seat_low_cm": Number(noop("seat, from"), 45, 35, 60, CM),
            "seat_high_cm": Number(noop("seat, to"), 48, 35, 65, CM),
            "faces_stops": Number(noop("faces alike within"), 0.3, 0.1, 1, "stops"),
        },
    ),
    "group_small": Rule(
        noop("Three to five people"),
        noop("Heads at different heights make triangles; one plane keeps all of them sharp."),
        {
            "stools": Number(noop("seats of different heights"), 3, 1, 5, "seats"),
            "people": Number(noop("from how many people"), 3, 3, 5, "people"),
        },
    ),
    "group_large": Rule(
        noop("Six people and more"),
        noop("Two staggered rows under one large key far off, and somebody to look after steps and gaps."),
        {
            "people": Number(noop("from how many people"), 6, 4, 20, "people"),
            "helpers": Number(noop("helpers beside the photographer"), 1, 0, 5, "people"),
        },
    ),
    "blink": Rule(
        noop("Eyes that must be open"),
        noop("The more eyes, the more frames until one has all of them open."),
        {
            "frames_least": Number(noop("frames at least"), 3, 1, 20, "frames"),
            "heads_per_frame": Number(noop("one more frame for every"), 2, 1, 10, "heads"),
        },
        noop("published counts of frames for one with all eyes open"),
    ),
    "newborn": Rule(
        noop("A newborn"),
        noop("A warm room, washed cloths, a hand within reach, and far more time."),
        {
            "years": Number(noop("younger than"), 0.25, 0, 2, "years"),
            "room_low_c": Number(noop("room, from"), 24, 18, 30, "C"),
            "room_high_c": Number(noop("room, to"), 27, 18, 32, "C"),
            "sitting_minutes": Number(noop("sitting at least"), 180, 30, 480, MIN),
        },
        noop("common practice; warmth of the room a value from memory"),
    ),
    "toddler": Rule(
        noop("A toddler"),
        noop("Free to move in a wide light, met at their own height, in the morning or after a nap."),
        {
            "years_low": Number(noop("from an age of"), 1, 0, 3, "years"),
            "years_high": Number(noop("younger than"), 4, 2, 8, "years"),
            "sitting_minutes": Number(noop("sitting at least"), 60, 10, 240, MIN),
        },
    ),
    "school_child": Rule(
        noop("A child of school age"),
        noop("Short turns with play between, a guardian in the room, and a signed release."),
        {
            "years_high": Number(noop("younger than"), 13, 8, 18, "years"),
            "guardian_years": Number(noop("guardian and release under"), 18, 13, 21, "years"),
            "set_minutes": Number(noop("longest turn"), 5, 1, 30, MIN),
        },
    ),
    "sensory": Rule(
        noop("Sound and touch to be spared"),
        noop("A slot without others, the set seen beforehand, beeps off, and time."),
        {
            "extra_low_minutes": Number(noop("longer sitting, from"), 15, 0, 60, MIN),
            "extra_high_minutes": Number(noop("longer sitting, to"), 30, 0, 120, MIN),
        },
    ),
    "short_standing": Rule(
        noop("Standing that must be kept short"),
        noop("The chair is lit first; what is standing comes last and short."),
        {"standing_minutes": Number(noop("longest standing"), 5, 1, 30, MIN)},
    ),
    "wheelchair": Rule(
        noop("Somebody uses a wheelchair"),
        noop("The light is aimed anew at their height, the others sit to it, and the way in is clear."),
        {
            "path_m": Number(noop("way in, clear width"), 0.9, 0.7, 2, "m"),
            "turning_m": Number(noop("room to turn"), 1.5, 1.2, 3, "m"),
        },
        noop("value from memory"),
    ),
    "firm_chair": Rule(
        noop("Hip, knee or back to be spared"),
        noop("A firm chair with arms to its front edge; no low stool and no floor."),
        {
            "seat_low_cm": Number(noop("seat, from"), 45, 35, 60, CM),
            "seat_high_cm": Number(noop("seat, to"), 48, 35, 65, CM),
        },
    ),
    "hearing": Rule(
        noop("Somebody hears little"),
        noop("Light on the photographer's own face, agreed signs, a marked place for an interpreter, and time."),
        {"extra_minutes": Number(noop("longer sitting"), 10, 0, 60, MIN)},
    ),
    "low_vision": Rule(
        noop("Somebody sees little"),
        noop("House lights until seated, no lamp in the eyes, the set described, the way free of cables."),
        {"path_m": Number(noop("way in, clear width"), 0.9, 0.7, 2, "m")},
        noop("common practice; width of the way a value from memory"),
    ),
    "broad_seat": Rule(
        noop("A broad seat is wanted"),
        noop("A rated seat without arms, its label read, support for the back, cool lamps, and breaks."),
        {"rating_kg": Number(noop("seat rated for at least"), 150, 100, 400, "kg")},
    ),
    "hands_rest": Rule(
        noop("Hands that would rather rest"),
        noop("Hands on a base, a cushion or a table, and flash to freeze what still moves."),
        {"supports": Number(noop("cushion or table"), 1, 1, 4, "pieces")},
    ),
    "shy": Rule(
        noop("Somebody is shy of the camera"),
        noop("Nobody watches, the pose is mirrored and talked through, and they are not the first."),
        {
            "extra_minutes": Number(noop("longer sitting"), 5, 0, 30, MIN),
            "place_least": Number(noop("place in the order, not before"), 2, 1, 10, "place"),
        },
    ),
    "small_room": Rule(
        noop("A small or low room"),
        noop("A kicker from the side takes the place of a boom, and compact stands leave a way through."),
        {
            "ceiling_m": Number(noop("ceiling at most"), 2.7, 2.0, 4, "m"),
            "across_m": Number(noop("narrower than"), 3.0, 2.0, 8, "m"),
            "length_m": Number(noop("shorter than"), 6.0, 3.0, 12, "m"),
        },
    ),
    "decider_absent": Rule(
        noop("Who decides is not there"),
        noop("The reference frame is approved by them before the second person sits down."),
        {"approve_before": Number(noop("approved before person"), 2, 1, 10, "place")},
    ),
    "event_date": Rule(
        noop("The pictures are for a day that is fixed"),
        noop("The promise leaves a week before the day, and prints take their own weeks."),
        {
            "before_days": Number(noop("promised before the day by"), 7, 0, 60, "days"),
            "work_low_weeks": Number(noop("finished prints take, from"), 4, 0, 20, "weeks"),
            "work_high_weeks": Number(noop("finished prints take, to"), 6, 0, 30, "weeks"),
        },
    ),
    "blemish": Rule(
        noop("Something on the face that is there today only"),
        noop("Another day may be the better light; otherwise that side turns away and the retouching is agreed."),
        {},
    ),
    "side_chosen": Rule(
        noop("A wish about one side of the face"),
        noop("The side is chosen with the sitter, who may want it shown, softer or left alone."),
        {},
    ),
    "head_covered": Rule(
        noop("A covered head or a hat"),
        noop("It is wardrobe and belongs to its wearer, who sets it right in private with a helper of their choice."),
        {},
    ),
    "arms_bare": Rule(
        noop("Short sleeves in a picture to the waist"),
        noop("Bare arms are large and bright; turned from the key they leave the face the lightest place."),
        {},
    ),
    "props": Rule(
        noop("Things in the picture"),
        noop("Anything held is blunt and safe, and what mirrors is looked at in the test frame."),
        {},
    ),
    "haze": Rule(
        noop("Haze in the picture"),
        noop("A light from behind shows it; the least that reads is enough, and the alarm's owner is told."),
        {},
    ),
    "pace": Rule(
        noop("Every sitting with a booked time"),
        noop("Less than this for a picture or a change of set-up is haste."),
        {
            "shot_minutes": Number(noop("a picture at least"), 2, 0.5, 30, MIN),
            "change_minutes": Number(noop("a change of set-up"), 5, 0, 60, MIN),
        },
    ),
    **SHOTS,
}
