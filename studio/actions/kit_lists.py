"""Kit from a list. Belongs here: what each row would do, and doing all of it in one transaction. Not here: reading the
file (`studio.csv_in`), what a row says (`studio.kit_list`)."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from copy import copy
from dataclasses import dataclass, field
from typing import Any

from django.conf import settings
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.module_loading import import_string
from django.utils.translation import gettext as _

from studio import clock, csv_in, kit_list, sent_lists
from studio.actions.kit import noted
from studio.csv_in import Row, Unreadable
from studio.models import KIT, KitItem, KitList, Member, versions
from studio.sent_lists import AlreadyBroughtIn, Faults, FaultsLeft

NEEDED = ("section", "code")
Check = Callable[[KitItem], Iterable[tuple[str, str]]]


@dataclass
class Outcome(Faults):
    """What a list comes to."""

    added: int = 0
    changed: int = 0
    same: int = 0
    changes: list[str] = field(default_factory=list)
    left_out: tuple[str, ...] = ()
    pieces: list[tuple[int, KitItem]] = field(default_factory=list)  # written or to be written, with their lines

    def change(self, line: int, sentence: str) -> None:
        sent_lists.tell(self.changes, line, sentence)


def send_in(*, by: Member, file_name: str, content: bytes) -> KitList:
    """Keep a list until it is confirmed; nothing of it is kit yet."""
    row: KitList = sent_lists.send_in(KitList, by=by, file_name=file_name, content=content)
    return row


def foretell(row: KitList) -> Outcome:
    """What would be done; nothing is written.

    Raises `Unreadable`.
    """
    return _go(row, by=None)


@transaction.atomic
def bring_in(*, by: Member, row: KitList, leave_out_faults: bool) -> Outcome:
    """Write all of the list or nothing; what the upper apps know to be impossible is asked once more when all of it
    stands beside the rest.

    Refuses with `AlreadyBroughtIn`, `FaultsLeft`, `Unreadable`.
    """
    row = KitList.objects.select_for_update().get(pk=row.pk)
    if row.brought_in_at is not None:
        raise AlreadyBroughtIn
    done = _go(row, by=by)
    if done.faulty and not leave_out_faults:
        raise FaultsLeft(done)
    before, checks = done.faulty, _checks()
    for line, piece in done.pieces:
        _impossible(line, piece, done, checks)
    if done.faulty > before:
        raise FaultsLeft(done)
    row.by, row.brought_in_at, row.content = by, clock.now(), b""
    row.added, row.changed = done.added, done.changed
    row.save()
    return done


def _go(sent: KitList, *, by: Member | None) -> Outcome:
    """Row by row; written where somebody says so."""
    done, seen, checks = Outcome(), dict[str, int](), _checks()
    with sent_lists.as_file(sent.content) as path:
        found = csv_in.shape(csv_in.head(path, kit_list.known_headings()))
        missing = [name for name in NEEDED if name not in found.columns]
        if missing:
            raise Unreadable(
                _("No column is called “%(name)s”. Send out the kit as a file to see what the columns are called.")
                % {"name": missing[0]}
            )
        done.left_out = found.left_out
        kept = {row.code: row for kind in KIT.values() for row in kind.objects.all()}
        for row in csv_in.rows(path, found):
            done.rows += 1
            piece = _piece(row, kept, seen, done)
            if piece is not None:
                before = kept.get(piece.code)
                is_new = before is None or bool(_changes(piece, before))
                if by is not None or not is_new or not _impossible(row.line, piece, done, checks):
                    _take(row.line, piece, before, done, by)
    return done


def _piece(row: Row, kept: dict[str, Any], seen: dict[str, int], done: Outcome) -> KitItem | None:
    """The row as a piece that may be kept; a fault is told."""
    if done.broken(row):
        return None
    section, code = row.values["section"].casefold(), row.values["code"]
    before = kept.get(code)
    if section not in KIT:
        done.fault(row.line, _("There is no section “%(section)s”.") % {"section": section[:40]})
    elif code in seen:
        done.fault(row.line, _("“%(code)s” stands in line %(line)d already.") % {"code": code, "line": seen[code]})
    elif before is not None and before.section != section:
        words = {"code": code, "section": before.get_section_display()}
        done.fault(row.line, _("“%(code)s” is a piece of another section: %(section)s.") % words)
    else:
        seen[code] = row.line
        try:
            given = kit_list.values(section, row.values)
            fresh = KIT[section](code=code) if before is None else copy(before)
            for name, value in given.items():
                setattr(fresh, name, value)
            fresh.clean_fields(exclude={"kititem_ptr"})
            fresh.clean()
        except ValidationError as error:
            done.fault(row.line, _said(KIT[section], error))
        else:
            return fresh
    return None


def _said(kind: type[KitItem], error: ValidationError) -> str:
    told = error.message_dict
    names = {name: str(column.verbose_name) for name, column in kit_list.of_kind(kind.SECTION).items()}
    return "; ".join(f"{names.get(name, name)}: {' '.join(said)}" for name, said in told.items())


def _take(line: int, piece: KitItem, before: KitItem | None, done: Outcome, by: Member | None) -> None:
    """Count what a good row does, and do it where somebody says so."""
    told = _changes(piece, before)
    if before is not None and not told:
        done.same += 1
        return
    if before is None:
        done.added += 1
    else:
        done.changed += 1
        done.change(line, f"{piece}: {', '.join(told)}")
    done.pieces.append((line, piece))
    if by is None:
        return
    if before is None:
        piece.save(force_insert=True)
    else:
        versions.save(piece, seen=before.version)
        noted(by=by, piece=piece, before=before.state, after=piece.state, why=_("from a list"))


def _changes(piece: KitItem, before: KitItem | None) -> list[str]:
    """What of a piece is not as it was, each from what to what; nothing for one that was not there."""
    return [] if before is None else [
        f"{column.verbose_name} {kit_list.words(old)} → {kit_list.words(new)}"
        for name, column in kit_list.of_kind(piece.section).items()
        if (old := getattr(before, name)) != (new := getattr(piece, name))
    ]  # fmt: skip


def _checks() -> list[Check]:
    """The checks of upper apps, each of which reads the other kit once."""
    return [import_string(path)() for path in settings.KIT_CHECKS]


def _impossible(line: int, piece: KitItem, done: Outcome, checks: list[Check]) -> bool:
    """Whether an upper app knows it to be impossible beside the other kit; told if so."""
    for check in checks:
        for _name, sentence in check(piece):
            done.fault(line, sentence)
            return True
    return False
