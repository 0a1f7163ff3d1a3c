"""Which pose card a picture gets: by how many, who they are and what is noted, with one base line and one caution.

Belongs here: the choice, and the studio's own cards in place of the house's. Not here: the words (`words.poses`).
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from shotplans.planner.brief import Sitter
from shotplans.planner.cards import PoseCard
from shotplans.planner.people import OLDER_YEARS, SHORT_STAND_MINUTES, age_of, needs_arms, posture_of, spared
from shotplans.planner.relations import ADULT_YEARS, is_small
from shotplans.planner.words import poses
from studio.tongue import gettext as _

BABY_YEARS, CHILD_YEARS = 1.0, 13.0
LARGE = 6
BY_WORDS = ("hands", "profile")  # a sentence that asks for one of these gets its card
PARTS = ("base", "weight", "turn", "hands", "chin", "eyes", "seat", "caution")
KINDS = tuple(poses.CARDS)
HOUSE: dict[str, PoseCard] = {
    kind: PoseCard.model_validate({"kind": kind, "name": poses.NAMES[kind], **dict(zip(PARTS, lines, strict=True))})
    for kind, lines in poses.CARDS.items()
}


def library(own: Sequence[PoseCard]) -> dict[str, PoseCard]:
    """The house's cards with the studio's own in place of those of the same kind."""
    return HOUSE | {card.kind: card for card in own}


def as_said(card: PoseCard) -> PoseCard:
    """A card as it is read: the house's own in the reader's language, a studio's as the studio wrote it."""
    if card is not HOUSE.get(card.kind):
        return card
    return card.model_copy(update={part: _(words) for part in (*PARTS, "name") if (words := getattr(card, part))})


def kind_of(who: Sequence[Sitter], words: str = "") -> str:
    """The kind of card for these people, or for what a sentence asks of one or two of them."""
    said = words.casefold()
    if len(who) <= 2:
        found = next((kind for kind in BY_WORDS if kind in said), None)
        if found is not None:
            return found
    if len(who) == 1:
        return _alone(who[0], "standing" in said)
    if all(age_of(s) < ADULT_YEARS for s in who):
        return "children"
    if len(who) == 2:
        return "couple_older" if any(age_of(s) >= OLDER_YEARS for s in who) and "standing" not in said else "couple"
    return "three" if len(who) == 3 else "four_five" if len(who) < LARGE else "group"


def _alone(sitter: Sitter, stands: bool) -> str:
    posture = posture_of(sitter)
    if posture == "wheelchair":
        return "wheelchair"
    if age_of(sitter) < BABY_YEARS:
        return "baby"
    if is_small(sitter):
        return "small_child"
    if age_of(sitter) < CHILD_YEARS:
        return "child"
    if posture == "standing" or (stands and not sitter.hip_or_back):
        return "standing"
    return "seated_firm" if needs_arms(sitter) else "seated"


def caution(card: PoseCard, who: Sequence[Sitter], stands: bool = False) -> str:
    """The one caution of a picture: what a note asks, the gravest first; else the card's own."""
    short = [float(s.stand_minutes) for s in who if s.stand_minutes is not None]
    upright = stands or any(posture_of(s) == "standing" for s in who)
    asked = {
        "steady": any(s.no_flash for s in who),
        "lap": len(who) > 1 and any(s.posture == "lap" for s in who),
        "chair": upright and any(m <= SHORT_STAND_MINUTES for m in short),
        "way": any(s.low_vision for s in who),
        "rise": len(who) > 1 and card.kind != "couple_older" and any(map(_spared_grown, who)),
        "signs": any(s.hearing for s in who),
        "quiet": any(s.sensory for s in who),
        "rest": any(s.tremor for s in who),
    }
    mild = card.kind in ("seated_firm", "wheelchair", "baby", "small_child")  # these cards are careful themselves
    graver = ("steady", "lap", "chair", "way")
    for code, applies in asked.items():
        if applies and (code in graver or not mild):
            return _(poses.CAUTIONS[code]).format(minutes=min(short, default=0.0))
    return card.caution


def printed(card: PoseCard, who: Sequence[Sitter], stands: bool = False) -> dict[str, str]:
    """A card as a picture carries it: every line, with the caution that holds for these people."""
    said = as_said(card)
    lines = {part: getattr(said, part) for part in PARTS}
    return {"card": card.kind, "name": said.name, **lines, "caution": caution(said, who, stands)}


def said(pose: Mapping[str, str]) -> str:
    """Base and caution as one line; what everybody is owed anyway (ask before touching) is not said each time."""
    careful = pose["caution"] if pose["caution"] not in (poses.ASK_FIRST, _(poses.ASK_FIRST)) else ""
    return f"{pose['base']} {careful}".strip()


def _spared_grown(sitter: Sitter) -> bool:
    return spared(sitter) and age_of(sitter) >= ADULT_YEARS
