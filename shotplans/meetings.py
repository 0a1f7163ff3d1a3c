"""Two people at one reading. Belongs here: which of all readings of a step counts, and which others stand beside it
because who made it had not seen them. Not here: whether a reading is on target (`workbench`)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from django.utils import timezone
from django.utils.translation import gettext as _

from shotplans.models import Reading
from shotplans.records.readings import shown_stops

Where = tuple[str, int]  # set-up and step


@dataclass(frozen=True)
class Met:
    """All readings of one step: the one that counts, what stands beside it, and what a page of them has seen."""

    counts: Reading
    beside: tuple[Reading, ...]
    seen: int

    @property
    def words(self) -> list[str]:
        """A sentence for each that stands beside: both values, both people, both times. Read once more, and the
        newest counts alone."""
        return [self._words(one) for one in self.beside]

    def _words(self, other: Reading) -> str:
        said = {
            "who": self.counts.by.name, "read": shown_stops(self.counts.amount), "at": _time(self.counts),
            "other": other.by.name, "value": shown_stops(other.amount), "then": _time(other),
        }  # fmt: skip
        if other.at < self.counts.at and other.pk > self.counts.pk:
            return _("%(who)s read %(read)s at %(at)s; %(other)s's entry of %(then)s, %(value)s, came in later.") % said
        return _("%(who)s read %(read)s at %(at)s without having seen %(other)s's %(value)s of %(then)s.") % said


def by_step(readings: Iterable[Reading]) -> dict[Where, Met]:
    """Every step that was read. The newest by when it was made counts; of each other person the newest that was not on
    the page it was typed on stands beside it."""
    rows: dict[Where, list[Reading]] = defaultdict(list)
    for one in readings:
        rows[(one.setup_name, one.step)].append(one)
    return {where: _met(found) for where, found in rows.items()}


def _met(found: list[Reading]) -> Met:
    found.sort(key=lambda one: (one.at, one.pk))
    counts = found[-1]
    known = counts.pk if counts.seen is None else counts.seen
    unseen = {one.by_id: one for one in found if one.by_id != counts.by_id and one.pk > known}
    return Met(counts, tuple(unseen.values()), max(one.pk for one in found))


def _time(reading: Reading) -> str:
    return f"{timezone.localtime(reading.at):%H:%M}"
