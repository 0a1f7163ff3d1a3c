"""Telling everybody of a rota their own time. Belongs here: what each letter says, the event it invites to, and who
was told what. Not here: writing it into the outbox (`actions.letters`), an invitation as text (`invitations`), the
order (`rota`). Nothing known of somebody's comfort is in it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import timedelta
from urllib.parse import urlsplit

from django.conf import settings
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from bookings import correspondence, wording
from bookings.invitations import Happening
from bookings.models import Letter, LetterKind, Place, Rota, Sitting
from studio import clock
from studio.models import Profile

EARLY_MINUTES = 5
OFF = "-off-"  # in the key of a letter that takes a place back
NOT_TOLD, TOLD, CHANGED, NO_ADDRESS = "not_told", "told", "changed", "no_address"


@dataclass(frozen=True)
class Told:
    """One place with whether its person knows of it; `letter` is the newest one to them."""

    place: Place
    letter: Letter | None

    @property
    def state(self) -> str:
        if self.letter is not None:
            known = (self.letter.once_key or "").rpartition("-")[0]
            return TOLD if known == key_of(self.place) else CHANGED
        return NOT_TOLD if self.place.email else NO_ADDRESS

    @property
    def words(self) -> str:
        if self.state == TOLD and self.letter is not None:
            at = self.letter.sent_at or self.letter.written_at
            said = _("told %(day)s") if self.letter.sent_at else _("letter written %(day)s")
            return said % {"day": date_format(timezone.localtime(at), "j F, H:i")}
        words = {
            NOT_TOLD: _("not told yet"),
            CHANGED: _("told another time or place"),
            NO_ADDRESS: _("no address: tell by telephone"),
        }
        return str(words[self.state])

    @property
    def is_to_be_told(self) -> bool:
        return self.state == NOT_TOLD or (self.state == CHANGED and bool(self.place.email))


def key_of(place: Place) -> str:
    """The same as long as the time, the room and the address are: then nobody is told twice. A letter's own key has
    its number in the row of letters to this person behind it, so that a time given back is told again."""
    sitting = place.rota.sitting
    return f"{begin_of(place)}{sitting.room_id}-{place.starts_at:%Y%m%d%H%M}-{place.email.casefold()[:60]}"


def begin_of(place: Place) -> str:
    return f"place-{place.sitter_id}-"


def told(rota: Rota) -> list[Told]:
    """Everybody in turn, in a constant number of queries."""
    places = list(rota.places.in_turn().select_related("rota__sitting__room", "rota__sitting__client"))
    letters = _newest(rota)
    return [Told(place, letters.get(begin_of(place))) for place in places]


def taken_back(rota: Rota) -> list[Letter]:
    """The newest letter of everybody who was told a time and has no place any more, unless they know it."""
    here = {begin_of(place) for place in rota.places.all()}
    gone = [letter for begin, letter in _newest(rota).items() if begin not in here]
    return [letter for letter in gone if OFF not in (letter.once_key or "")]


def _newest(rota: Rota) -> dict[str, Letter]:
    """The newest letter to each person, by the begin of its key; one that never went tells nobody anything."""
    rows = Letter.objects.filter(sitting=rota.sitting, kind=LetterKind.PLACE).order_by("written_at", "pk")
    rows = rows.exclude(state=Letter.State.GIVEN_UP)
    return {"-".join((row.once_key or "").split("-")[:2]) + "-": row for row in rows}


def blanks_of(place: Place, profile: Profile) -> dict[str, str]:
    """What the blanks of a place hold."""
    arrival = place.starts_at - timedelta(minutes=EARLY_MINUTES)
    return {
        "place.name": place.sitter.label,
        "place.date": wording.day(place.starts_at, profile.zone),
        "place.time": wording.time(place.starts_at, profile.zone),
        "place.arrival": wording.time(arrival, profile.zone),
        "place.minutes": str(place.rota.place_minutes),
        "place.number": str(place.number),
        "place.wear": place.rota.wear,
    }


def example(sitting: Sitting, profile: Profile) -> dict[str, str]:
    """For a preview: the first place of a sitting, or words that stand for one."""
    place = Place.objects.in_turn().filter(rota__sitting=sitting).select_related("rota__sitting").first()
    if place is not None:
        return blanks_of(place, profile)
    return {name: f"({words})" for name, words in correspondence.BLANKS.items() if name.startswith("place.")}


def off_body(letter: Letter, profile: Profile) -> str:
    """To somebody whose place is taken back; the subject of the letter before says which."""
    lines = [
        _("You do not need to come: the place we wrote to you about is given back."),
        _("It was: %(subject)s") % {"subject": letter.subject},
    ]
    if _reach(profile):
        lines.append(_("If that is not as you meant it, tell us: %(reach)s.") % {"reach": _reach(profile)})
    return "\n\n".join([*lines, profile.studio_name])


def _reach(profile: Profile) -> str:
    return ", ".join(filter(None, [profile.telephone, profile.email]))


def happening(place: Place, profile: Profile, *, sequence: int) -> Happening:
    """The place as an event of a calendar: one identity for the person, a higher number each time."""
    host = urlsplit(settings.TENTHSTOP_URL).hostname or "localhost"
    return Happening(
        uid=f"place-{place.sitter_id}@{host}",
        starts_at=place.starts_at,
        ends_at=place.starts_at + timedelta(minutes=place.rota.place_minutes),
        summary=_("Portrait at %(studio)s") % {"studio": profile.studio_name},
        place=correspondence.place_line(place.rota.sitting.room, profile),
        sequence=sequence,
        stamp=clock.now(),
    )


def sequence_of(begin: str) -> int:
    """How many letters went to this person before."""
    return Letter.objects.filter(once_key__startswith=begin).count()


def without_address(rows: Iterable[Told]) -> Sequence[str]:
    return [row.place.sitter.label for row in rows if row.state == NO_ADDRESS]
