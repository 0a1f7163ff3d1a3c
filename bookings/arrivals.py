"""Who comes on a day. Belongs here: the day's sittings with their people's permissions, deposit, needs and lateness, in
a constant number of queries. Not here: doing anything about them (`actions.arrivals`, `actions.sittings`)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.utils.functional import cached_property
from django.utils.translation import gettext as _

from bookings import access_needs, accounts, afterwards, permissions, stages
from bookings.accounts import Deposit
from bookings.late import Late, late_options
from bookings.models import Sitter, Sitting, Stage
from bookings.models.history import apart
from bookings.permissions import BROKEN, MISSING, READY, WAIVED, Permission, Said
from studio.days import midnight

COMING = (Stage.HELD, Stage.CONFIRMED, Stage.NO_SHOW)  # whoever did not come may come after all
MOST_NAMED = 20
NOT_ON_THE_BOARD = (Stage.ENQUIRY, Stage.CANCELLED)
# What a line at the door says, and no more: each table joined is built row by row.
_READ_ALONG = ("client", "kind", "room", "photographer", "hold__behind__client", "trust__by", "rota")


@dataclass(frozen=True)
class Arrival:
    """One sitting as the door sees it."""

    sitting: Sitting
    people: Sequence[Permission]
    needs: Sequence[str]
    deposit: Deposit
    late: Late | None

    @cached_property
    def sentence(self) -> str:
        """Whose move it is; said of few, so it is put together where it is read."""
        return stages.sentence(self.sitting)

    @property
    def is_as_usual(self) -> bool:
        """Confirmed and nothing to say of it: whose move it is stands on the sitting's own page."""
        return self.sitting.stage == Stage.CONFIRMED

    @property
    def is_coming(self) -> bool:
        return self.sitting.stage in COMING

    @property
    def may_arrive(self) -> bool:
        return Stage.ARRIVED in stages.FOLLOWS[self.sitting.stage] and self.is_coming

    @cached_property
    def money(self) -> Said:
        if not self.sitting.deposit:
            return Said(_("no deposit asked"), READY)
        return Said(_("deposit %(how)s") % {"how": self.deposit.words}, READY if self.deposit.is_settled else MISSING)

    @property
    def said(self) -> list[tuple[Said, str]]:
        """What stands of the people with whom it is about, what is in the way first; a minor by age too."""
        names: dict[Said, list[str]] = defaultdict(list)
        for one in self.people:
            for said in one.stand:
                names[said].append(_named(one))
        order = (BROKEN, MISSING, WAIVED, READY)
        return [(said, listed(names[said])) for said in sorted(names, key=lambda said: order.index(said.shape))]

    @property
    def waivers_asked(self) -> list[Permission]:
        return [one for one in self.people if one.waiver_asked]

    @property
    def stand(self) -> Said:
        """The whole sitting in one word."""
        said = [*(said for one in self.people for said in one.stand), self.money]
        if all(one.is_settled for one in said):
            return Said(_("ready"), READY)
        return Said(_("not ready"), BROKEN if any(one.shape == BROKEN for one in said) else MISSING)


@dataclass(frozen=True)
class Board:
    """`coming` and `here`, each in order of time."""

    day: date
    now: datetime
    coming: Sequence[Arrival]
    here: Sequence[Arrival]


def _named(one: Permission) -> str:
    name = apart(one.sitter.label)
    if not one.is_minor:
        return name
    return _("%(name)s (%(age)d)") % {"name": name, "age": one.sitter.age_years}


def listed(names: Sequence[str]) -> str:
    """The names, of very many the first: the page of the permissions has each of them."""
    left = len(names) - MOST_NAMED
    if left < 2:
        return ", ".join(names)
    return _("%(names)s and %(left)d more") % {"names": ", ".join(names[:MOST_NAMED]), "left": left}


def board(day: date, *, now: datetime, today: date) -> Board:
    """The day in the zone in force."""
    rows = (
        Sitting.objects.select_related(*_READ_ALONG)
        .between(midnight(day), midnight(day + timedelta(days=1)))
        .exclude(stage__in=NOT_ON_THE_BOARD)
        .exclude(hold__place__gt=1)
    )
    found = _arrivals(list(rows), now, today, is_today=day == today)
    return Board(
        day, now, [one for one in found if one.is_coming], [one for one in found if not one.is_coming]
    )  # fmt: skip


def _arrivals(rows: Sequence[Sitting], now: datetime, today: date, *, is_today: bool) -> list[Arrival]:
    afterwards.attach(rows)
    money = accounts.of_many(rows)
    people: dict[int, list[Sitter]] = defaultdict(list)
    for sitter in permissions.read_along(Sitter.objects.filter(sitting__in=rows).select_related("notes")):
        people[sitter.sitting_id].append(sitter)
    return [
        Arrival(
            sitting=row,
            people=[permissions.of(sitter) for sitter in people[row.pk]],
            needs=access_needs.of(people[row.pk]),
            deposit=accounts.deposit_of(money[row.pk], today),
            late=late_options(row, now) if is_today else None,  # nobody is waited for on another day
        )
        for row in rows
    ]
