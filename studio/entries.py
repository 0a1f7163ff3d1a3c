"""Entries from a device, each taken in once. Belongs here: the line a view carries whose form may wait on a device for
the network (`static/studio/queue.js` sends it), reading the two clocks, and answering a second sending as the first was
answered. Not here: what an entry does; the view and its action know nothing of any of this.

An entry is an ordinary post of a form, with three headers: `X-Entry`, an id the device made; `X-Entry-Made` and
`X-Entry-Sent`, the device's clock then and now in milliseconds since 1970. A form sent without them goes straight
through.
"""

from __future__ import annotations

import json
import uuid
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import wraps
from typing import Any

from django.contrib import messages
from django.db import transaction
from django.forms import BaseForm
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.utils.translation import gettext as _

from studio import clock
from studio.models import Entry
from studio.sent import whole

View = Callable[..., HttpResponse]
ID, MADE, SENT = "X-Entry", "X-Entry-Made", "X-Entry-Sent"
LAST_MS = 4_102_444_800_000  # the year 2100: later than this no clock is only wrong
LONGEST_WAIT = timedelta(days=14)


@dataclass(frozen=True)
class Sent:
    """What a device says of an entry, by its own clock."""

    id: uuid.UUID
    made: datetime
    sent: datetime

    def made_by(self, received_at: datetime) -> datetime:
        """When it was made by the house's clock: as long before it came in as the device says it waited.

        So a device whose clock is an hour wrong is right by the minute. One whose clock was put right in between says
        nothing of use: then it counts from when it came in.
        """
        waited = self.sent - self.made
        return received_at - waited if timedelta(0) <= waited <= LONGEST_WAIT else received_at


def once(view: View) -> View:
    """Below `@allow(...)`: an entry is carried out once, at the time it was made, however often it is sent.

    Answers an entry with its outcome, never with a page: what a page shows depends on the time, which an entry says.
    """

    @wraps(view)
    def taken(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        if request.method != "POST" or ID not in request.headers:
            return view(request, *args, **kwargs)
        sent = read(request.headers.get(ID, ""), request.headers.get(MADE, ""), request.headers.get(SENT, ""))
        if sent is None:
            return _refused(_("That was no entry of this house. Load the page again and type it once more."), 400)
        then = None
        with transaction.atomic():
            entry, is_new = Entry.objects.select_for_update().get_or_create(pk=sent.id, defaults=_row(request, sent))
            if is_new:
                request.entry = entry  # type: ignore[attr-defined]
                with clock.standing(entry.made_at):
                    answer = view(request, *args, **kwargs)
                _conclude(entry, request, answer)
                then = answer.headers.get("Location")
        if (entry.member_id, entry.path) != (request.member.pk, request.path):  # type: ignore[attr-defined]
            return _refused(_("An entry of that name came in from elsewhere. Type it once more."), 409)
        return JsonResponse({"outcome": entry.outcome, "says": entry.says, "answer": entry.answer, "then": then})

    taken.takes_entries = True  # type: ignore[attr-defined]
    return taken


def say(request: HttpRequest, *wrong: str) -> None:
    """What a page says beside a field where it comes back: an entry has no page, and is told so in words."""
    request.entry_wrong = [*getattr(request, "entry_wrong", []), *wrong]  # type: ignore[attr-defined]


def faults(form: BaseForm) -> list[str]:
    """What is wrong with a form, each with the name of its field where it has one."""
    named = {name: f"{form[name].label}: " for name in form.fields}
    return [f"{named.get(name, '')}{' '.join(said)}" for name, said in form.errors.items()]


def came_in(request: HttpRequest) -> datetime | None:
    """When an entry came in that was made before; None for a form sent as it was filled in."""
    entry: Entry | None = getattr(request, "entry", None)
    return entry.received_at if entry else None


def seen(request: HttpRequest) -> int | None:
    """The version the page had seen, as its form says; None where it says nothing that can be read."""
    return whole(request.POST.get("seen", ""), digits=18)


def read(name: str, made: str, sent: str) -> Sent | None:
    """The three headers as values; None where one of them is none."""
    try:
        found = uuid.UUID(name)
    except ValueError:
        return None
    moments = [_moment(text) for text in (made, sent)]
    return None if None in moments else Sent(found, *moments)  # type: ignore[arg-type]


def _moment(text: str) -> datetime | None:
    if not (text.isascii() and text.isdecimal() and len(text) < 14 and int(text) <= LAST_MS):
        return None
    return datetime.fromtimestamp(int(text) / 1000, UTC)


def _row(request: HttpRequest, sent: Sent) -> dict[str, Any]:
    now = clock.now()
    return {
        "member": request.member, "path": request.path[:200], "base_version": seen(request),  # type: ignore[attr-defined]
        "device_at": sent.made, "device_sent_at": sent.sent, "received_at": now, "made_at": sent.made_by(now),
        "outcome": Entry.Outcome.KEPT,
    }  # fmt: skip


def _conclude(entry: Entry, request: HttpRequest, answer: HttpResponse) -> None:
    """What became of it, from what the view would have shown: an error said, a page of refusal, or neither."""
    said = messages.get_messages(request)
    wrong = getattr(request, "entry_wrong", []) + [str(one) for one in said if one.level >= messages.ERROR]
    if answer.headers.get("Content-Type", "").startswith("application/json"):
        told = json.loads(answer.content)
        entry.answer = told
        wrong += [str(told["error"])] if "error" in told else []
    if wrong or answer.status_code >= 400:
        entry.outcome = Entry.Outcome.REFUSED
        entry.says = " ".join(wrong) or _("The form could not be read as it was filled in. Fill it in once more.")
    entry.save()


def _refused(says: str, status: int) -> JsonResponse:
    return JsonResponse({"outcome": Entry.Outcome.REFUSED, "says": says, "answer": None}, status=status)
