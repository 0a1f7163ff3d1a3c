"""The consultation as a client reads it: each question in plain and kind words, and which sitting it matters for.

Belongs here: the words, the choices, where an answer belongs, and the rows of the consultation it records. A change of
words is a new `VERSION`; an intake keeps the words it asked. Not here: keeping answers (`actions.intake`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import lru_cache

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from bookings.models import Kind, Notes, Sitter
from bookings.models.kinds import Framing, Intent
from studio import tongue

VERSION = 2
Text = str | Promise
Choices = list[tuple[str, str]]
NOTE, WISH, POSTURE, AGE, WIDTH, WORDS = "note", "wish", "posture", "age", "width", "words"
# What the studio notes in its own words, as a sitter says it.
SAID = {"not noted": _("I would rather not say"), "own_left": _("my left"), "own_right": _("my right")}


@dataclass(frozen=True)
class Question:
    """One question. `kind` says where its answer goes, `at` which field or feature; `rows` what it records."""

    code: str
    asks: Text
    kind: str
    at: str = ""
    rows: tuple[int, ...] = ()
    when: Callable[[Kind, int], bool] = lambda kind, people: True
    words: bool = True  # may also be said in one's own words

    @property
    def choices(self) -> Choices:
        return list(_choices(self, tongue.language()))

    @property
    def is_number(self) -> bool:
        return self.kind in (AGE, WIDTH) or (self.kind == NOTE and hasattr(Notes._meta.get_field(self.at), "unit"))


@lru_cache(maxsize=256)
def _choices(asked: Question, language: str) -> Choices:
    """Said once a language: a page of three people asks two hundred times."""
    if asked.kind == WISH:
        return [("softer", str(_("softer"))), ("as it is", str(_("as it is"))), ("shown", str(_("shown")))]
    if asked.kind == POSTURE:
        return [("seated", str(_("better seated"))), ("wheelchair", str(_("in my wheelchair")))]
    if asked.kind == NOTE:
        field = Notes._meta.get_field(asked.at)
        return [(str(value), str(SAID.get(str(value), label))) for value, label in field.choices or ()] or (
            [] if asked.is_number else [("true", str(_("yes"))), ("false", str(_("no")))]
        )
    return []


def _close(kind: Kind, people: int) -> bool:
    """Faces large enough for what is on them to matter."""
    return kind.framing not in (Framing.GROUP, Framing.FULL)


def _several(kind: Kind, people: int) -> bool:
    return people > 1


def _staged(kind: Kind, people: int) -> bool:
    return kind.intent in (Intent.CHARACTER, Intent.BOLD)


OF_SITTING = (
    Question("purpose", _("What are the pictures for?"), WORDS, rows=(1, 2, 3)),
    Question("wall", _("Where will it hang? Over which furniture, in which colours?"), WORDS, rows=(1, 2)),
    Question("width", _("How wide shall the print be, in centimetres?"), WIDTH, rows=(1, 2), words=False),
    Question("file_use", _("For a page or a file: which shapes, and must there be room for words?"), WORDS,
             rows=(3, 4)),
    Question("mood", _("Three words for the mood you would like."), WORDS, rows=(5, 6)),
    Question("together", _("Who belongs to whom, and who belongs in the middle?"), WORDS,
             rows=(13, 31, 32, 33, 34, 35, 36), when=_several),
    Question("decides", _("Who will choose the pictures, and is there a day you need them by?"), WORDS),
    Question("children", _("Children or a baby? Tell us of naps, meals and what they like."), WORDS, rows=(37, 38, 39),
             when=lambda kind, people: kind.framing == Framing.GROUP or people > 1),
    Question("props", _("What will you bring into the picture: an instrument, a tool, an animal?"), WORDS, rows=(51,)),
)  # fmt: skip
WORN = (
    Question("clothes", _("The clothes you will bring: their tone"), NOTE, "clothes_tone", (26, 27)),
    Question("pattern", _("Is there a pattern or lettering on them?"), NOTE, "clothes_pattern", (28,)),
    Question("arms", _("Will your arms be bare?"), NOTE, "bare_arms", (29,)),
    Question("gleam", _("Do your clothes shine: sequins, medals, a uniform?"), NOTE, "clothes_shiny", (30,)),
    Question("glasses", _("Do you wear glasses? Which lenses?"), NOTE, "glasses_lens", (19, 20, 21)),
    Question("glasses_off", _("May the glasses come off for a picture?"), NOTE, "may_remove", (19,)),
    Question("head", _("Will you wear a covering or a hat, or is the head bald?"), NOTE, "head", (10, 25)),
)  # fmt: skip
AT_EASE = (
    Question("age", _("Age, so that we plan chairs and pauses"), AGE, rows=(37, 38, 39), words=False),
    Question("seat", _("Where will you be most at ease?"), POSTURE, rows=(31, 43)),
    Question("stand", _("How many minutes can you stand with ease?"), NOTE, "stand_minutes", (42,)),
    Question("spare", _("Shall we spare your hip or back?"), NOTE, "hip_or_back", (44,)),
    Question("broad", _("Would a broad seat without arms be better?"), NOTE, "broad_seat", (47,)),
    Question("hands", _("Would your hands like something to rest on?"), NOTE, "tremor", (48,)),
    Question("sensory", _("Shall we spare you noise, touch or surprise?"), NOTE, "sensory", (40,)),
    Question("no_flash", _("Shall flashing or bright light be kept away from you?"), NOTE, "no_flash", (41,)),
    Question("hearing", _("Shall we face you when we speak, or agree on signs?"), NOTE, "hearing", (45,)),
    Question("sight", _("Shall we keep the lights up and describe the way?"), NOTE, "low_vision", (46,)),
    Question("shy", _("Do you like time to be at ease before the camera?"), NOTE, "shy", (50,)),
    Question("else", _("Anything else that would make it easier for you: language, helper, pauses?"), WORDS),
)  # fmt: skip
TO_LOOK = (
    Question("hair", _("Your hair: how dark is it?"), NOTE, "hair", (22, 23)),
    Question("big_hair", _("Does it stand high or wide?"), NOTE, "big_hair", (24,)),
    Question("hair_wish", _("How would you like your hair to look?"), WISH, "hair", (22, 23, 24), _close),
    Question("skin", _("Your skin in the light, if you like to say: it decides how we meter"), NOTE, "skin",
             (11, 12, 13)),
    Question("lines", _("Lines of your face, as you see them"), NOTE, "texture", (7, 8), _close, False),
    Question("lines_wish", _("How would you like lines to look?"), WISH, "lines", (7, 8)),
    Question("bags_wish", _("Under your eyes: how would you like it to look?"), WISH, "bags", (7,), _close, False),
    Question("blemish_wish", _("Something on your skin that is new or passing: how would you like it?"),
             WISH, "blemish", (9,), _close),
    Question("mark_wish", _("A scar or a mark: how would you like it?"), WISH, "scar", (49,)),
    Question("shine", _("Does your skin shine?"), NOTE, "surface", (10,), _close, False),
    Question("shine_wish", _("How would you like shine to look?"), WISH, "shine", (10,), _close, False),
    Question("eyes", _("Your eyes"), NOTE, "eyes", (16,), _close),
    Question("nose_wish", _("Nose or ears: how would you like them to look?"), WISH, "nose", (18,), _close),
    Question("face", _("The shape of your face, as you see it"), NOTE, "face_width", (14, 15), _close),
    Question("width_wish", _("How would you like the width of your face to look?"), WISH, "width", (14, 15),
             _close, False),
    Question("chin_wish", _("Chin and the line under it: how would you like them to look?"), WISH, "chin", (17,),
             _close),
    Question("neck_wish", _("Your neck: how would you like it to look?"), WISH, "neck", (17,), _close, False),
    Question("side", _("Which is your better side?"), NOTE, "better_side", (49,), _close, False),
    Question("show", _("What must show: hands, tools, lines?"), WORDS, rows=(6, 8, 51), when=_staged),
)  # fmt: skip
OF_SITTER = (*WORN, *AT_EASE, *TO_LOOK)
HEADS = tuple((head, {question.code for question in part}) for head, part in (
    (_("What you will wear"), WORN), (_("So that you are at ease"), AT_EASE),
    (_("How you would like to look"), TO_LOOK),
))  # fmt: skip
BY_CODE = {question.code: question for question in (*OF_SITTING, *OF_SITTER)}


def of_sitting(kind: Kind, people: int) -> list[Question]:
    return [question for question in OF_SITTING if question.when(kind, people)]


def of_sitter(kind: Kind, people: int, sitter: Sitter | None = None, *, own_age: bool = False) -> list[Question]:
    """Only what matters; the age is not asked of somebody whose age the studio knows unless it is their `own_age`, the
    answer they gave here: a minor stays one, a slip can be mended."""
    known = sitter is not None and sitter.age_years is not None and not own_age
    return [q for q in OF_SITTER if q.when(kind, people) and not (q.kind == AGE and known)]


def heading(code: str) -> Text:
    """The heading a question stands under; none for one about the picture."""
    return next((head for head, codes in HEADS if code in codes), "")


def as_asked(questions: Iterable[Question]) -> dict[str, str]:
    return {question.code: str(question.asks) for question in questions}
