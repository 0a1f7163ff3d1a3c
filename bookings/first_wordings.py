"""The first wordings of the house's letters. Belongs here: what each says before the owner words it anew. Not here: the
owner's versions (`models.wordings`), what the blanks hold (`correspondence`)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext_lazy as _

from bookings.models import LetterKind


@dataclass(frozen=True)
class FirstWording:
    subject: Any
    parts: tuple[Any, ...]

    @property
    def body(self) -> str:
        return "".join(str(part) for part in self.parts)


_FOOT = _(
    """
{{ studio.name }}
{{ studio.address }}
{{ studio.telephone }}
{{ studio.email }}
"""
)
_WHEN = _(
    """Date: {{ sitting.date }}
Please arrive: {{ sitting.arrival }}
Sitting: {{ sitting.start }} to {{ sitting.finish }}
Where: {{ sitting.room }}, {{ studio.address_line }}
The way in: {{ studio.way_in }}
"""
)

FIRST: dict[str, FirstWording] = {
    LetterKind.CONFIRMATION: FirstWording(
        _("Your sitting on {{ sitting.date }}, {{ sitting.number }}"),
        (
            _("""Dear {{ client.name }},

your sitting is confirmed. This is what we agreed; please tell us if anything is not as you meant it.

Sitting number: {{ sitting.number }}
Kind of sitting: {{ sitting.kind }}
Who sits: {{ sitting.people }}
What the pictures are for: {{ sitting.purpose }}

WHEN AND WHERE
"""),
            _WHEN,
            _("""On the day: {{ contact.on_the_day }}

MONEY
Fee: {{ sitting.fee }}
Deposit: {{ sitting.deposit }}
Balance: {{ sitting.balance }}
Balance due: {{ sitting.balance_date }}

WHAT YOU GET
Included: {{ sitting.included }}
Finished images: {{ sitting.images }}
Retouching: {{ sitting.retouching }}
Delivery: {{ sitting.delivery }}

IF SOMETHING CHANGES
Another time: {{ terms.moving }}
Cancelling: {{ terms.cancelling }}
Lateness and staying away: {{ terms.staying_away }}
{{ terms.words }}

WHO SEES AND USES THE PICTURES
Use: {{ sitting.use }}
Release: {{ sitting.release }}
Who may see them: {{ sitting.who_sees }}
"""),
            _FOOT,
        ),
    ),
    LetterKind.CHANGE: FirstWording(
        _("Changed: your sitting {{ sitting.number }}, now {{ sitting.date }}"),
        (
            _("""Dear {{ client.name }},

your sitting has changed: {{ change.what }}.
By our terms the change costs {{ change.fee }}.

It is now:
"""),
            _WHEN,
            _("""
If that is not as you meant it, please ring us: {{ contact.on_the_day }}
"""),
            _FOOT,
        ),
    ),
    LetterKind.CANCELLATION: FirstWording(
        _("Cancelled: your sitting {{ sitting.number }} on {{ sitting.date }}"),
        (
            _("""Dear {{ client.name }},

your sitting {{ sitting.number }} on {{ sitting.date }} at {{ sitting.start }} is cancelled.
By our terms cancelling costs {{ change.fee }}.
{{ change.balance }}

We would be glad to see you another time.
"""),
            _FOOT,
        ),
    ),
    LetterKind.CLOTHES: FirstWording(
        _("What to wear on {{ sitting.date }}"),
        (
            _("""Dear {{ client.name }},

in two weeks you sit for us: {{ sitting.date }}, {{ sitting.start }}.

Plain clothes in middle tones serve a portrait best. Small checks and stripes can shimmer, and bright white or deep
black draw the eye from the face. Bring a second top. Sitters who belong together need not match: tones that agree
are enough. If you bring something that matters to you to hold or to wear, tell us, so that we can light it.
"""),
            _FOOT,
        ),
    ),
    LetterKind.COMING: FirstWording(
        _("Will you be there on {{ sitting.date }}?"),
        (
            _("""Dear {{ client.name }},

in three days you sit for us:
"""),
            _WHEN,
            _("""
Please tell us with one tap whether you will be there:
{{ link.answer }}

Or ring us: {{ contact.on_the_day }}
"""),
            _FOOT,
        ),
    ),
    LetterKind.TOMORROW: FirstWording(
        _("Tomorrow at {{ sitting.start }}: the way to us"),
        (
            _("""Dear {{ client.name }},

tomorrow you sit for us.
"""),
            _WHEN,
            _("""
Glasses: bring the ones you wear, cleaned; lenses that darken outdoors need ten minutes indoors to clear.
Small children: after their nap is the best time; bring a drink and something they love.

On the day: {{ contact.on_the_day }}
"""),
            _FOOT,
        ),
    ),
    LetterKind.QUOTE: FirstWording(
        _("Quote {{ bill.number }} for your sitting on {{ sitting.date }}"),
        (
            _("""Dear {{ client.name }},

with this letter comes our quote {{ bill.number }} over {{ bill.amount }} for your sitting {{ sitting.number }} on
{{ sitting.date }}. It is valid until {{ bill.until }}. If it suits you, tell us, and we enter it as agreed.

Anything you would rather have otherwise: {{ contact.on_the_day }}
"""),
            _FOOT,
        ),
    ),
    LetterKind.INVOICE: FirstWording(
        _("Invoice {{ bill.number }}, sitting {{ sitting.number }}"),
        (
            _("""Dear {{ client.name }},

with this letter comes our invoice {{ bill.number }} over {{ bill.amount }} for your sitting {{ sitting.number }}.
Left to pay today: {{ sitting.balance }}

If something on it is not as we agreed, please tell us: {{ contact.on_the_day }}
"""),
            _FOOT,
        ),
    ),
    LetterKind.RECEIPT: FirstWording(
        _("Receipt {{ bill.number }}, sitting {{ sitting.number }}"),
        (
            _("""Dear {{ client.name }},

with this letter comes receipt {{ bill.number }} over {{ bill.amount }} for your sitting {{ sitting.number }}.
Left to pay today: {{ sitting.balance }}
"""),
            _FOOT,
        ),
    ),
    LetterKind.INVITATION: FirstWording(
        _("Your next sitting at {{ studio.name }}"),
        (
            _("""Dear {{ client.name }},

{{ back.why }}

Answer this letter or ring us, and we look for a time together. If you would rather not be asked again, say so: one
word is enough.
"""),
            _FOOT,
        ),
    ),
    LetterKind.PLACE: FirstWording(
        _("Your portrait: {{ place.date }}, {{ place.time }}"),
        (
            _("""Dear {{ place.name }},

{{ studio.name }} photographs you for {{ client.name }}.

When: {{ place.date }}, {{ place.time }}, for about {{ place.minutes }} minutes
Please be there at: {{ place.arrival }}
Where: {{ sitting.room }}, {{ studio.address_line }}
The way in: {{ studio.way_in }}
What to wear: {{ place.wear }}

Your number is {{ place.number }}: say it at the door.
If you cannot come then, tell us: {{ studio.telephone }} {{ studio.email }}
"""),
            _FOOT,
        ),
    ),
}
