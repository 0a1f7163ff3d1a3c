"""The house's pose cards and what a shot list says: one catalogue. Plain, inclusive words; shapes, never sizes.

A card has one base line and one caution. Common practice, no source, unless `pose_cards` names one.
"""

from __future__ import annotations

ASK_FIRST = "Ask before touching: say it, or show it first."

# By kind of picture: base, weight, turn, hands, chin, eyes, seat, caution. An empty line has nothing to say there.
CARDS: dict[str, tuple[str, str, str, str, str, str, str, str]] = {
    "standing": (
        "Weight on the back foot, front knee soft, arms a little off the body: wide below, the face on top.",
        "On the back foot.", "Shoulders turned, face back to the camera.", "Something for each hand.",
        "Forehead a little forward.", "At the lens, then just past it.", "", ASK_FIRST,
    ),
    "seated": (
        "Front half of the seat, feet flat, weight a little forward; hands loose in the lap close the base.",
        "A little forward.", "Body turned, face back to the camera.", "Loose, edge to the camera, no fists.",
        "Forehead a little forward.", "At the lens, then just past it.", "A firm seat; look at hem, feet and its edge.",
        ASK_FIRST,
    ),
    "seated_firm": (
        "Well back in the chair, feet flat, hands on the arms as the base.",
        "Back supported.", "The chair is turned, not the sitter.", "On the arms of the chair, or one on the other.",
        "Level, forehead a little forward.", "At the lens.", "Firm, with arms, 45 to 48 cm high.",
        "Offer an arm and give time to rise; no backless stool.",
    ),
    "wheelchair": (
        "The chair is part of the picture as its user likes it; forearms on the rests make the base.",
        "As the sitter sits best.", "The chair is turned by its user.", "On the rests or in the lap.",
        "Level.", "Speak to the sitter, camera at their eyes.", "Others sit to that height.",
        "With brakes on and footplates straight; nobody leans on the chair or moves it unasked.",
    ),
    "baby": (
        "Lying, or held close: the arm or the cloth below is the base.",
        "Carried whole.", "Face to the light.", "As they are.", "Head supported.", "Wait for them.", "",
        "A hand within reach all the time, the head supported; nothing perched, nothing above.",
    ),
    "small_child": (
        "A mark on the floor as a game; sitting, the crossed legs are the base.",
        "As it comes.", "One thing at a time.", "Something small to hold.", "", "Photographer at their height.",
        "Nothing higher than they can step from.", "An adult within reach; stop while it is still fun.",
    ),
    "child": (
        "Feet on the mark, a step apart; seated, knees together and hands on them.",
        "On both feet.", "Short turns, as a game.", "In pockets, or one thing held.", "", "At the lens, then at a joke.",
        "A low firm seat.", "A guardian in the room; one instruction at a time.",
    ),
    "couple": (
        "One shape: overlap, feet apart so that heads can meet, hands joined as the base.",
        "Towards each other.", "Each turned in by half.", "Joined, backs away from the camera.",
        "Heads close, one a little higher.", "One at the lens, one at each other.", "The taller may sit.", ASK_FIRST,
    ),
    "couple_older": (
        "One shape: heads close, one a little higher, hands joined as the base.",
        "Well back, shoulders touching.", "The usual side of each; chairs turned in.", "Joined across the arms.",
        "Level.", "One at the lens, one at each other, one listening.", "Two firm chairs with arms.",
        "Seated first; offer an arm, let them rise in their own time.",
    ),
    "three": (
        "A triangle: no two heads level, the one it is about at the top or in the middle.",
        "Inwards.", "Ends turned a third to the middle.", "On the next shoulder, if all are at ease.",
        "", "At the lens on a count.", "Seats of different heights.", ASK_FIRST,
    ),
    "four_five": (
        "Three as a triangle, the others added to it; knees and hands of those seated are the base.",
        "Inwards.", "Ends turned a third to the middle.", "On the next shoulder, if all are at ease.",
        "", "At the lens on a count.", "Seats of different heights.", ASK_FIRST,
    ),
    "group": (
        "Those it is about seated, others in the gaps, one plane a row; laps and hands in front are the base.",
        "Inwards, close.", "Ends turned a third to the middle.", "Down or on the next shoulder, if all are at ease.",
        "", "Look at every face, then count.", "Firm chairs in front; no step for whom it is not.",
        "Steps held and level; nobody small or unsure on them.",
    ),
    "children": (
        "Sitting close on the floor or a low bench, knees as the base, the smallest in the middle.",
        "As it comes.", "Inwards.", "Arms round each other, if they like.", "", "At a joke beside the lens.",
        "Low and broad.", "An adult within reach; nothing higher than they can step from.",
    ),
    "hands": (
        "Forearms on the lap, a table or the thing they made: that is the base.",
        "Resting.", "Edge of the hand to the camera.", "Soft curve, no fists, all fingers seen.", "", "At the hands.",
        "A cushion under the wrists where they tire.", ASK_FIRST,
    ),
    "profile": (
        "Seated across the camera, the near arm on the chair: shoulder and arm are the base.",
        "A little back.", "Body and face across, the far eye just gone.", "Near hand low and still.",
        "Level, a little forward.", "At a mark on the wall.", "A firm seat set across.", ASK_FIRST,
    ),
}  # fmt: skip

NAMES: dict[str, str] = {
    "standing": "One standing", "seated": "One seated", "seated_firm": "One seated, well back",
    "wheelchair": "One in a wheelchair", "baby": "A baby", "small_child": "A small child", "child": "A child",
    "couple": "Two people", "couple_older": "An older couple", "three": "Three people", "four_five": "Four or five",
    "group": "Six and more", "children": "Children together", "hands": "Hands", "profile": "A profile",
}  # fmt: skip

# In place of a card's caution where a note asks for more care; never what the note says. The first that applies.
CAUTIONS: dict[str, str] = {
    "lap": "The one on a lap is held all the time, a hand within reach; nothing above them.",
    "steady": "Steady light only: heads off at the wall, no test flash.",
    "way": "House lights until seated; say what is where, offer an arm.",
    "chair": "A chair within reach; {minutes:g} minutes of standing at most, then sit.",
    "rise": "Seated first; offer an arm and give time to rise.",
    "signs": "Agree on signs beforehand; face them when speaking.",
    "quiet": "Beeps off; one thing at a time, no touching.",
    "rest": "Hands rest on the base; no holding up.",
}

PROPOSED: dict[str, str] = {
    "everyone": "Everybody.",
    "children": "The children.",
    "grandchildren": "The grandchildren.",
    "household": "The {name} household.",
    "oldest": "The grandparents.",
    "with_grandchildren": "The grandparents with the grandchildren.",
    "siblings": "{names}, as they grew up.",
    "couple": "{names}, just the two.",
    "look": "At the lens, calm.",
    "each_other": "At each other.",
    "listening": "Listening to something said.",
    "laugh": "A laugh.",
    "hands": "Hands.",
    "tighter": "A tighter one.",
    "looser": "A looser one, with room around.",
    "profile": "A profile.",
    "approachable": "A second look, a little warmer.",
    "words": "With room for words.",
}

ORIENTATION: dict[str, str] = {
    "ordered": "as the wall or the page asks",
    "wider": "wider than tall",
    "taller": "taller than wide",
    "base": "the base lies wide: hands, lap or arms of a chair",
    "base_up": "standing, the base is narrow",
    "crops": "a horizontal picture keeps the shoulders and gives square and upright cuts",
    "set": "as the camera of this set-up stands",
}

LAST = "{names} placed last."
