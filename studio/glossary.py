"""Words of the trade, each in one sentence. Belongs here: what a word means on our pages. Not here: which page explains
which (`{% explain %}` in its template)."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _


@dataclass(frozen=True)
class Word:
    """One word as the pages write it, and what it means here."""

    word: Promise
    means: Promise


WORDS: dict[str, Word] = {
    "key": Word(_("key, fill, accent"), _(
        "The key shapes the face, the fill lifts its shadows, an accent draws hair or shoulder off the ground.")),
    "bearing": Word(_("bearing"), _(
        "Degrees round the sitter from the line to the camera, seen from above; plus is the right of the picture.")),
    "height_angle": Word(_("height angle"), _(
        "Degrees of a light above the sitter's eyes, seen from where they sit or stand.")),
    "relief": Word(_("relief"), _(
        "How far lines and texture of the skin stand out in this light, in stops between their two sides.")),
    "evenness": Word(_("evenness"), _(
        "How far apart the faces are lit, in stops between the brightest and the darkest.")),
    "tone": Word(_("L*"), _("How light the ground looks in the picture: 0 is black, 100 is white.")),
    "trim": Word(_("trim"), _(
        "What is left between the meter's tenths and the camera's nearest third; turned in on the light.")),
    "setting": Word(_("setting reading"), _(
        "The aperture the camera is set to: key, fill and room together, without accents and ground lights.")),
    "dome": Word(_("dome"), _(
        "The white half ball of the meter. Where it faces decides what it reads, so the page says it each time.")),
    "target": Word(_("target"), _("What the plan expects the meter to say at that place with those lights.")),
    "as_shot": Word(_("as shot"), _("What was really set and metered, beside what was planned.")),
    "intent": Word(_("intent"), _("What the light is to do for the sitter, as a sentence they may read.")),
    "framing": Word(_("framing"), _("How much of the people the picture shows, from the head alone to full length.")),
    "ring": Word(_("ring"), _(
        "The part between a head and what is hung on it. Without one that fits both, nothing is packed.")),
    "spare": Word(_("rule of one"), _("One spare of whatever would end the sitting if it failed.")),
    "loss": Word(_("loss"), _(
        "Stops of light that stay in a modifier, against the same head with its usual reflector.")),
    "beam": Word(_("beam"), _("The angle between the directions where a light has fallen to half of its middle.")),
    "correction": Word(_("correction"), _(
        "What the house's own readings say a head gives more or less than its rating, and how sure that is.")),
    "run": Word(_("run"), _("Frames one after the other with the same settings.")),
    "clipped": Word(_("clipped, blocked"), _("So bright or so dark that the file holds no detail there.")),
    "standard": Word(_("company standard"), _(
        "The look a company's portraits share, locked, so that next year's match.")),
    "hold": Word(_("hold"), _("A time kept in pencil until a day; without an answer it goes back to the diary.")),
    "second_hold": Word(_("second hold"), _("The next in the queue: it gets the time if the first lets go.")),
    "set_up_strike": Word(_("set-up, strike"), _(
        "Building the lights before a sitting and taking them down after it.")),
    "release": Word(_("release"), _("The signed word of what the pictures may be used for.")),
}  # fmt: skip
