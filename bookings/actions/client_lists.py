"""Clients from a list. Belongs here: what each row would do, and doing all of it in one transaction. Not here: reading
the file (`bookings.client_list`)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from bookings import client_list, find
from bookings.folding import SAME_DIGITS, digits, fold, number_key
from bookings.models import Client, SentList
from studio import clock, sent_lists
from studio.csv_in import Row, Shape
from studio.models import Member
from studio.sent_lists import AlreadyBroughtIn, Faults, FaultsLeft

SKIP, ADD, MERGE = "skip", "add", "merge"
AT_ONCE = 1_000
FILLED = ("email", "phone", "note")


@dataclass
class Outcome(Faults):
    """What a list comes to."""

    added: int = 0
    merged: int = 0
    skipped: int = 0
    known: list[str] = field(default_factory=list)

    def alike(self, line: int, sentence: str) -> None:
        sent_lists.tell(self.known, line, sentence)


def foretell(path: Path, shape: Shape, *, alike: str) -> Outcome:
    """What would be done; nothing is written."""
    return _go(path, shape, alike, write=False)


@transaction.atomic
def bring_in(path: Path, shape: Shape, *, alike: str, leave_out_faults: bool = False) -> Outcome:
    """Write all of the list or nothing. `alike` says what to do with somebody who may be known: leave the row out, add
    it all the same, or give the known client what it is missing (nothing kept is written over).

    Refuses with `FaultsLeft`, `Unreadable`.
    """
    done = _go(path, shape, alike, write=True)
    if done.faulty and not leave_out_faults:
        raise FaultsLeft(done)
    return done


def send_in(*, by: Member, file_name: str, content: bytes) -> SentList:
    """Keep a list until it is confirmed; nobody of it is a client yet."""
    row: SentList = sent_lists.send_in(SentList, by=by, file_name=file_name, content=content)
    return row


@transaction.atomic
def bring_in_sent(*, by: Member, row: SentList, shape: Shape, alike: str, leave_out_faults: bool) -> SentList:
    """All of a list that was sent in, or nothing.

    Refuses with `AlreadyBroughtIn`, `FaultsLeft`, `Unreadable`.
    """
    row = SentList.objects.select_for_update().get(pk=row.pk)
    if row.brought_in_at is not None:
        raise AlreadyBroughtIn
    with sent_lists.as_file(row.content) as path:
        done = bring_in(path, shape, alike=alike, leave_out_faults=leave_out_faults)
    row.by, row.brought_in_at, row.content = by, clock.now(), b""
    row.added, row.merged, row.skipped, row.faulty = done.added, done.merged, done.skipped, done.faulty
    row.save()
    return row


def _go(path: Path, shape: Shape, alike: str, *, write: bool) -> Outcome:
    done, seen, waiting = Outcome(), {}, []
    for row, client in _clients(path, shape, done):
        keys = _keys(client)
        # Who stands further up in the file is known too, though not in the database yet.
        above = next((seen[key] for key in keys if key in seen), None)
        known = [] if above else find.alike(name=client.name, email=client.email, phone=client.phone, most=1)
        seen |= {key: row.line for key in keys if key not in seen}
        if (above or known) and alike != ADD:
            _meet(row, client, above, known, alike, done, write=write)
            continue
        done.added += 1
        waiting.append(client)
        if write and len(waiting) == AT_ONCE:
            Client.objects.bulk_create(waiting)
        if len(waiting) == AT_ONCE:
            waiting.clear()
    if write:
        Client.objects.bulk_create(waiting)
    return done


def _clients(path: Path, shape: Shape, done: Outcome) -> Iterator[tuple[Row, Client]]:
    """Each row as a client that may be kept; the others are told."""
    for row in client_list.rows(path, shape):
        done.rows += 1
        client = Client(**{name: row.values.get(name, "") for name in ("name", *FILLED)})
        if done.broken(row):
            continue
        try:
            client.clean_fields()
        except ValidationError as error:
            said = (
                f"{Client._meta.get_field(name).verbose_name}: {' '.join(all)}"
                for name, all in error.message_dict.items()
            )
            done.fault(row.line, "; ".join(said))
            continue
        yield row, client


def _keys(client: Client) -> list[int]:
    """What tells that two are the same, as small as can be: a list may be a million lines long."""
    texts = [f"n {fold(client.name)}", f"e {fold(client.email)}" if client.email else ""]
    texts.append(f"p {number_key(client.phone)}" if len(digits(client.phone)) >= SAME_DIGITS else "")
    return [hash(text) for text in texts if text]


def _meet(
    row: Row, client: Client, above: int | None, known: list[find.Found], alike: str, done: Outcome, *, write: bool
) -> None:
    """Somebody who may be known already."""
    if above:
        done.alike(
            row.line, _("“%(name)s” may be the same as in line %(above)d.") % {"name": client.name, "above": above}
        )
        done.skipped += 1
        return
    kept = known[0].client
    done.alike(row.line, _("“%(name)s” may be the client “%(known)s”.") % {"name": client.name, "known": kept.name})
    missing = [name for name in FILLED if getattr(client, name) and not getattr(kept, name)]
    if alike != MERGE or not missing:
        done.skipped += 1
        return
    done.merged += 1
    if write:
        for name in missing:
            setattr(kept, name, getattr(client, name))
        kept.version += 1
        kept.save()
