"""What the house's own letters say. Belongs here: what each blank holds for a sitting, the wording in force, the letter
they make. Reads only. Not here: writing letters (`actions.correspondence`), substitution (`blanks`)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.conf import settings
from django.utils import timezone
from django.utils.formats import number_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from bookings import accounts, blanks, links, permissions, prices, wording
from bookings.first_wordings import FIRST
from bookings.models import Sitting, Wording
from studio import clock
from studio.models import Profile, Room

# The printed list: every blank with what stands in it.
BLANKS: dict[str, Any] = {
    "client.name": gettext_lazy("the client's name"),
    "sitting.number": gettext_lazy("the sitting number"),
    "sitting.kind": gettext_lazy("the kind of sitting"),
    "sitting.people": gettext_lazy("how many sit, and their short names"),
    "sitting.purpose": gettext_lazy("what the pictures are for"),
    "sitting.date": gettext_lazy("the day"),
    "sitting.arrival": gettext_lazy("when to arrive"),
    "sitting.start": gettext_lazy("when the sitting begins"),
    "sitting.finish": gettext_lazy("when it is over"),
    "sitting.room": gettext_lazy("the room"),
    "sitting.photographer": gettext_lazy("who photographs"),
    "sitting.fee": gettext_lazy("the fee agreed"),
    "sitting.deposit": gettext_lazy("the deposit, and whether it is paid"),
    "sitting.balance": gettext_lazy("what is left to pay"),
    "sitting.balance_date": gettext_lazy("when that is due"),
    "sitting.included": gettext_lazy("what is included"),
    "sitting.images": gettext_lazy("how many finished images"),
    "sitting.retouching": gettext_lazy("how far pictures are retouched"),
    "sitting.delivery": gettext_lazy("within how many days, and what starts them"),
    "sitting.use": gettext_lazy("what the pictures may be used for"),
    "sitting.release": gettext_lazy("how the release stands"),
    "sitting.who_sees": gettext_lazy("who may see the pictures"),
    "terms.moving": gettext_lazy("what another time costs by the terms of the booking"),
    "terms.cancelling": gettext_lazy("what cancelling costs"),
    "terms.staying_away": gettext_lazy("what lateness and staying away cost"),
    "terms.words": gettext_lazy("the terms in the studio's own words"),
    "change.what": gettext_lazy("what was changed (letters of change)"),
    "change.fee": gettext_lazy("what the change or cancelling costs, empty where nothing"),
    "change.balance": gettext_lazy("what is to be paid or refunded after cancelling"),
    "bill.number": gettext_lazy("the number of a quote, invoice or receipt (letters with one)"),
    "bill.amount": gettext_lazy("its amount"),
    "bill.until": gettext_lazy("until when a quote is valid, empty for other papers"),
    "place.name": gettext_lazy("whose place it is (letters of a headshot day)"),
    "place.date": gettext_lazy("the day of the place"),
    "place.time": gettext_lazy("its time"),
    "place.arrival": gettext_lazy("when to be there for it"),
    "place.minutes": gettext_lazy("how long it takes"),
    "place.number": gettext_lazy("its number"),
    "place.wear": gettext_lazy("what to wear, from the rota"),
    "back.why": gettext_lazy("why the client is asked back just now (letters of asking back)"),
    "back.day": gettext_lazy("the day that comes round"),
    "back.what": gettext_lazy("what the last sitting was for"),
    "link.answer": gettext_lazy("the address under which the client answers"),
    "contact.on_the_day": gettext_lazy("the telephone that is answered on the day"),
    "studio.name": gettext_lazy("the studio"),
    "studio.address": gettext_lazy("its address"),
    "studio.address_line": gettext_lazy("its address in one line"),
    "studio.way_in": gettext_lazy("the way in, from the studio's profile"),
    "studio.telephone": gettext_lazy("its telephone"),
    "studio.email": gettext_lazy("its e-mail address"),
}


@dataclass(frozen=True)
class Text:
    """A letter to be: its subject and its body."""

    subject: str
    body: str


def wording_of(kind: str) -> Text:
    """The wording in force."""
    kept = Wording.objects.filter(kind=kind).first()
    return Text(kept.subject, kept.body) if kept is not None else first_wording(kind)


def first_wording(kind: str) -> Text:
    return Text(str(FIRST[kind].subject), str(FIRST[kind].body))


def compose(
    kind: str,
    sitting: Sitting,
    profile: Profile,
    *,
    text: Text | None = None,
    more: Mapping[str, str] | None = None,
    **change: str,
) -> Text:
    """The letter of a kind for a sitting; `text` another wording than the one in force, `more` the blanks of one
    person's place, of a bill or of asking back, `change` what changed."""
    text = text or wording_of(kind)
    held = values(sitting, profile) | {f"change.{name}": words for name, words in change.items()} | dict(more or {})
    return filled(text, held)


def filled(text: Text, held: Mapping[str, str]) -> Text:
    return Text(blanks.fill(text.subject, held), blanks.fill(text.body, held).strip("\n") + "\n")


def fault_words(fault: blanks.Fault) -> str:
    """What is wrong in a wording, for beside its field."""
    if not fault.name:
        return _("Line %(line)d: “{{” without its “}}”, or the other way round.") % {"line": fault.line}
    words = {"line": fault.line, "name": fault.name, "nearest": fault.nearest}
    if fault.nearest:
        return _("Line %(line)d: there is no blank “%(name)s”. The nearest is “%(nearest)s”.") % words
    return _("Line %(line)d: there is no blank “%(name)s”. The list below has all there are.") % words


def values(sitting: Sitting, profile: Profile) -> dict[str, str]:
    """Every blank but those of a change, for one sitting. Nothing of comfort notes is in reach."""
    return {
        "client.name": sitting.client.name,
        "link.answer": links.address(settings.TENTHSTOP_URL, sitting),
        "contact.on_the_day": profile.telephone or profile.email,
        "studio.name": profile.studio_name,
        "studio.address": profile.address.strip(),
        "studio.address_line": address_line(profile),
        "studio.way_in": profile.way_in.strip(),
        "studio.telephone": profile.telephone,
        "studio.email": profile.email,
        **_of_time(sitting, profile),
        **_of_money(sitting),
        **_of_promises(sitting),
        **_of_terms(sitting),
    }


def promised(sitting: Sitting) -> Mapping[str, Any]:
    """As it was at the booking; of sittings from before such promises were kept, as the kind has it now."""
    return sitting.promised or sitting.kind.promises


def address_line(profile: Profile) -> str:
    return ", ".join(line.strip(" ,") for line in profile.address.splitlines() if line.strip())


def place_line(room: Room, profile: Profile) -> str:
    """Room and address, as an entry of a calendar says where it is."""
    return ", ".join(part for part in (room.name, address_line(profile)) if part)


def _of_time(sitting: Sitting, profile: Profile) -> dict[str, str]:
    zone = profile.zone
    arrival = sitting.starts_at - timedelta(minutes=promised(sitting)["arrive_minutes"])
    sitters = [sitter.label for sitter in sitting.sitters.all()]
    count = ngettext("%(n)d person", "%(n)d people", len(sitters)) % {"n": len(sitters)}
    return {
        "sitting.number": sitting.number,
        "sitting.kind": sitting.kind.name,
        "sitting.people": f"{count}: {', '.join(sitters)}",
        "sitting.purpose": sitting.purpose,
        "sitting.date": wording.day(sitting.starts_at, zone),
        "sitting.arrival": wording.time(arrival, zone),
        "sitting.start": wording.time(sitting.starts_at, zone),
        "sitting.finish": wording.moment_near(sitting.ends_at, sitting.starts_at, zone),
        "sitting.room": sitting.room.name,
        "sitting.photographer": sitting.photographer.name,
    }


def _of_money(sitting: Sitting) -> dict[str, str]:
    account = accounts.of(sitting)
    agreed = sitting.fee is not None
    fee = wording.money(sitting.fee or prices.NOTHING, sitting.currency) if agreed else _("to be agreed")
    deposit = _("none asked")
    if account.deposit:
        trust = accounts.trust_of(sitting)
        said = _("still to be paid")
        if not account.deposit_missing:
            said = _("paid")
        elif trust is not None and trust.waived:
            said = _("not asked for beforehand")
        deposit = f"{wording.money(account.deposit, sitting.currency)} ({said})"
    due = wording.date(_balance_due(sitting))
    return {
        "sitting.fee": fee,
        "sitting.deposit": deposit,
        "sitting.balance": wording.money(account.balance, sitting.currency) if agreed else _("to be agreed"),
        "sitting.balance_date": due if account.balance > 0 or not agreed else _("nothing is left to pay"),
    }


def _balance_due(sitting: Sitting) -> date:
    """So many days before the sitting; on its day for those who book later than that."""
    zone = Profile.get().zone
    day = timezone.localdate(sitting.starts_at, zone)
    due = day - timedelta(days=promised(sitting)["balance_days"])
    return due if due >= timezone.localdate(clock.now(), zone) else day


def _of_promises(sitting: Sitting) -> dict[str, str]:
    said = promised(sitting)
    rows = permissions.of_sitting(sitting)
    unsigned = [row.sitter.label for row in rows if not row.is_signed]
    release = _("signed; what it allows can be limited or taken back for pictures not yet used")
    if unsigned:
        release = _("still to be signed by %(names)s; pictures are shown to others only where you allow it") % {
            "names": ", ".join(unsigned)
        }
    return {
        "sitting.included": said["included"] or _("the sitting itself"),
        "sitting.images": str(said["images"]) if said["images"] is not None else _("as you choose"),
        "sitting.retouching": said["retouching"] or _("as agreed at the viewing"),
        "sitting.delivery": ngettext(
            "within %(n)d working day of the studio; it starts when we have your choice of pictures",
            "within %(n)d working days of the studio; they start when we have your choice of pictures",
            sitting.delivery_days,
        ) % {"n": sitting.delivery_days},
        "sitting.use": said["use"] or _("private use"),
        "sitting.release": release,
        "sitting.who_sees": said["who_sees"] or _("you and the people of the studio; nobody else without a release"),
    }  # fmt: skip


def _of_terms(sitting: Sitting) -> dict[str, str]:
    agreed = sitting.agreed
    if agreed is None:
        free = _("no charge was agreed; please tell us as early as you can")
        return {"terms.moving": free, "terms.cancelling": free, "terms.staying_away": free, "terms.words": ""}
    late = _("whoever is late keeps the end that was agreed; after %(minutes)d minutes it counts as staying away")
    away = [late % {"minutes": agreed.no_show_minutes}]
    if agreed.no_show_percent:
        away.append(_("staying away costs %(percent)s %% of the fee") % {"percent": _percent(agreed.no_show_percent)})
    return {
        "terms.moving": _shares(agreed.move),
        "terms.cancelling": _shares(agreed.cancel),
        "terms.staying_away": ", ".join(away),
        "terms.words": agreed.words.strip(),
    }


def _shares(rules: Iterable[prices.Notice]) -> str:
    words = _("with less than %(hours)d hours' notice %(percent)s %% of the fee")
    said = [words % {"hours": rule.hours, "percent": _percent(rule.percent)} for rule in rules]
    return "; ".join(reversed(said)) or _("without charge")


def _percent(share: Any) -> str:
    return number_format(f"{share.normalize():f}")
