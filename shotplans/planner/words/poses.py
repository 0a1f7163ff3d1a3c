"""The house's pose cards and what a shot list says: one catalogue. Plain, inclusive words; shapes, never sizes.

A card has one base line and one caution. Common practice, no source, unless `pose_cards` names one.
"""

from __future__ import annotations

from studio.tongue import noop

ASK_FIRST = noop("Ask before touching: say it, or show it first.")

# By kind of picture: base, weight, turn, hands, chin, eyes, seat, caution. An empty line has nothing to say there.
CARDS: dict[str, tuple[str, str, str, str, str, str, str, str]] = {
    "standing": (
        noop("Weight on the back foot, front knee soft, arms a little off the body: wide below, the face on top."),
        noop("On the back foot."), noop("Shoulders turned, face back to the camera."),
        noop("Something for each hand."), noop("Forehead a little forward."), noop("At the lens, then just past it."),
        "", ASK_FIRST,
    ),
    "seated": (
        noop("Front half of the seat, feet flat, weight a little forward; hands loose in the lap close the base."),
        noop("A little forward."), noop("Body turned, face back to the camera."),
        noop("Loose, edge to the camera, no fists."), noop("Forehead a little forward."),
        noop("At the lens, then just past it."), noop("A firm seat; look at hem, feet and its edge."), ASK_FIRST,
    ),
    "seated_firm": (
        noop("Well back in the chair, feet flat, hands on the arms as the base."), noop("Back supported."),
        noop("The chair is turned, not the sitter."), noop("On the arms of the chair, or one on the other."),
        noop("Level, forehead a little forward."), noop("At the lens."), noop("Firm, with arms, 45 to 48 cm high."),
        noop("Offer an arm and give time to rise; no backless stool."),
    ),
    "wheelchair": (
        noop("The chair is part of the picture as its user likes it; forearms on the rests make the base."),
        noop("As the sitter sits best."), noop("The chair is turned by its user."),
        noop("On the rests or in the lap."), noop("Level."), noop("Speak to the sitter, camera at their eyes."),
        noop("Others sit to that height."),
        noop("With brakes on and footplates straight; nobody leans on the chair or moves it unasked."),
    ),
    "baby": (
        noop("Lying, or held close: the arm or the cloth below is the base."), noop("Carried whole."),
        noop("Face to the light."), noop("As they are."), noop("Head supported."), noop("Wait for them."), "",
        noop("A hand within reach all the time, the head supported; nothing perched, nothing above."),
    ),
    "small_child": (
        noop("A mark on the floor as a game; sitting, the crossed legs are the base."), noop("As it comes."),
        noop("One thing at a time."), noop("Something small to hold."), "", noop("Photographer at their height."),
        noop("Nothing higher than they can step from."), noop("An adult within reach; stop while it is still fun."),
    ),
    "child": (
        noop("Feet on the mark, a step apart; seated, knees together and hands on them."), noop("On both feet."),
        noop("Short turns, as a game."), noop("In pockets, or one thing held."), "",
        noop("At the lens, then at a joke."), noop("A low firm seat."),
        noop("A guardian in the room; one instruction at a time."),
    ),
    "couple": (
        noop("One shape: overlap, feet apart so that heads can meet, hands joined as the base."),
        noop("Towards each other."), noop("Each turned in by half."), noop("Joined, backs away from the camera."),
        noop("Heads close, one a little higher."), noop("One at the lens, one at each other."),
        noop("The taller may sit."), ASK_FIRST,
    ),
    "couple_older": (
        noop("One shape: heads close, one a little higher, hands joined as the base."),
        noop("Well back, shoulders touching."), noop("The usual side of each; chairs turned in."),
        noop("Joined across the arms."), noop("Level."), noop("One at the lens, one at each other, one listening."),
        noop("Two firm chairs with arms."), noop("Seated first; offer an arm, let them rise in their own time."),
    ),
    "three": (
        noop("A triangle: no two heads level, the one it is about at the top or in the middle."), noop("Inwards."),
        noop("Ends turned a third to the middle."), noop("On the next shoulder, if all are at ease."), "",
        noop("At the lens on a count."), noop("Seats of different heights."), ASK_FIRST,
    ),
    "four_five": (
        noop("Three as a triangle, the others added to it; knees and hands of those seated are the base."),
        noop("Inwards."), noop("Ends turned a third to the middle."),
        noop("On the next shoulder, if all are at ease."), "", noop("At the lens on a count."),
        noop("Seats of different heights."), ASK_FIRST,
    ),
    "group": (
        noop("Those it is about seated, others in the gaps, one plane a row; laps and hands in front are the base."),
        noop("Inwards, close."), noop("Ends turned a third to the middle."),
        noop("Down or on the next shoulder, if all are at ease."), "", noop("Look at every face, then count."),
        noop("Firm chairs in front; no step for whom it is not."),
        noop("Steps held and level; nobody small or unsure on them."),
    ),
    "children": (
        noop("Sitting close on the floor or a low bench, knees as the base, the smallest in the middle."),
        noop("As it comes."), noop("Inwards."), noop("Arms round each other, if they like."), "",
        noop("At a joke beside the lens."), noop("Low and broad."),
        noop("An adult within reach; nothing higher than they can step from."),
    ),
    "hands": (
        noop("Forearms on the lap, a table or the thing they made: that is the base."), noop("Resting."),
        noop("Edge of the hand to the camera."), noop("Soft curve, no fists, all fingers seen."), "",
        noop("At the hands."), noop("A cushion under the wrists where they tire."), ASK_FIRST,
    ),
    "profile": (
        noop("Seated across the camera, the near arm on the chair: shoulder and arm are the base."),
        noop("A little back."), noop("Body and face across, the far eye just gone."), noop("Near hand low and still."),
        noop("Level, a little forward."), noop("At a mark on the wall."), noop("A firm seat set across."), ASK_FIRST,
    ),
}  # fmt: skip

NAMES: dict[str, str] = {
    "standing": noop("One standing"), "seated": noop("One seated"), "seated_firm": noop("One seated, well back"),
    "wheelchair": noop("One in a wheelchair"), "baby": noop("A baby"), "small_child": noop("A small child"),
    "child": noop("A child"), "couple": noop("Two people"), "couple_older": noop("An older couple"),
    "three": noop("Three people"), "four_five": noop("Four or five"), "group": noop("Six and more"),
    "children": noop("Children together"), "hands": noop("Hands"), "profile": noop("A profile"),
}  # fmt: skip

# In place of a card's caution where a note asks for more care; never what the note says. The first that applies.
CAUTIONS: dict[str, str] = {
    "lap": noop("The one on a lap is held all the time, a hand within reach; nothing above them."),
    "steady": noop("Steady light only: heads off at the wall, no test flash."),
    "way": noop("House lights until seated; say what is where, offer an arm."),
    "chair": noop("A chair within reach; {minutes:g} minutes of standing at most, then sit."),
    "rise": noop("Seated first; offer an arm and give time to rise."),
    "signs": noop("Agree on signs beforehand; face them when speaking."),
    "quiet": noop("Beeps off; one thing at a time, no touching."),
    "rest": noop("Hands rest on the base; no holding up."),
}

PROPOSED: dict[str, str] = {
    "everyone": noop("Everybody."),
    "children": noop("The children."),
    "grandchildren": noop("The grandchildren."),
    "household": noop("The {name} household."),
    "oldest": noop("The grandparents."),
    "with_grandchildren": noop("The grandparents with the grandchildren."),
    "siblings": noop("{names}, as they grew up."),
    "couple": noop("{names}, just the two."),
    "look": noop("At the lens, calm."),
    "each_other": noop("At each other."),
    "listening": noop("Listening to something said."),
    "laugh": noop("A laugh."),
    "hands": noop("Hands."),
    "tighter": noop("A tighter one."),
    "looser": noop("A looser one, with room around."),
    "profile": noop("A profile."),
    "approachable": noop("A second look, a little warmer."),
    "words": noop("With room for words."),
}

ORIENTATION: dict[str, str] = {
    "ordered": noop("as the wall or the page asks"),
    "wider": noop("wider than tall"),
    "taller": noop("taller than wide"),
    "base": noop("the base lies wide: hands, lap or arms of a chair"),
    "base_up": noop("standing, the base is narrow"),
    "crops": noop("a horizontal picture keeps the shoulders and gives square and upright cuts"),
    "set": noop("as the camera of this set-up stands"),
}

LAST = noop("{names} placed last.")
