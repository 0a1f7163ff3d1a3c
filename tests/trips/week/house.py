"""Lindenmere Portraits on the Monday morning: its rooms, kit, people, terms and fees, Thursday's four sittings and
Friday's one planned as the demo has them, a portrait of last year to be repeated, and a couple of last month who have
chosen their frames. Belongs here: what was there before the week. Not here: the week."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta

from django.utils import timezone

from bookings.models import Sitting
from shotplans import scenario, scenario_clocks
from shotplans.actions import as_shot, plans, records
from shotplans.models import Plan
from shotplans.scenario_clocks import Earlier
from studio import clock
from studio.models import Member
from tests import lindenmere
from tests.hands.hand import Hand

PEOPLE = ("maud", "tobiah", "ines", "harriet")
MONDAY = date(2026, 11, 30)
LAST_YEAR = Earlier(
    "Barnaby Stroud", ("Barnaby",), "Character portrait", "Garden Room", 358, (350, 345, 340), "A print for the hall"
)
LAST_MONTH = Earlier(
    "Linnet and Hobart Varley", ("Linnet", "Hobart"), "Anniversary couple", "Long Room", 19, (11,),
    "Copper wedding, over the piano", "varley@quillbridge.example",
)  # fmt: skip


@dataclass
class Week:
    """The story as it stands: what time it is, and whose hands are at which page."""

    sign_in: Callable[[str], Hand]
    set_clock: Callable[[datetime], None]
    whole: bool = False  # whether what is done many times alike is done each time
    hands: dict[str, Hand] = field(default_factory=dict)

    def at(self, weekday: int, hour: int, minute: int = 0) -> None:
        """It is this time of Monday (0) to Saturday (5)."""
        self.set_clock(moment(weekday, hour, minute))

    def __getattr__(self, name: str) -> Hand:
        """Maud at the desk, Tobiah with the camera, Ines with the lights or Harriet, whose house it is: each signs in
        when first needed, and stays at the page where they were."""
        if name not in PEOPLE:
            raise AttributeError(name)
        if name not in self.hands:
            self.hands[name] = self.sign_in(name)
        return self.hands[name]


def moment(weekday: int, hour: int, minute: int = 0) -> datetime:
    """A time of the week as the house's clock on the wall shows it."""
    naive = datetime.combine(MONDAY + timedelta(days=weekday), datetime.min.time())
    with timezone.override(scenario.ZONE):
        return timezone.make_aware(naive.replace(hour=hour, minute=minute))


def day(weekday: int) -> str:
    """A day of the week as it is typed."""
    return (MONDAY + timedelta(days=weekday)).isoformat()


def sitting(client: str) -> Sitting:
    """The newest of a client, fresh from the database."""
    return Sitting.objects.filter(client__name=client).latest("pk")


def build() -> None:
    """The house before the week; on the Friday before it."""
    with lindenmere.reckoned_once(), clock.standing(moment(-3, 9)):
        list(scenario.build(lindenmere.BRIEFS, MONDAY + timedelta(days=3), agreed=True))
        with timezone.override(scenario.ZONE):
            _past()


def _past() -> None:
    people = {member.user.username: member for member in Member.objects.select_related("user")}
    open_days = scenario_clocks.house_until(MONDAY)
    for earlier in (LAST_YEAR, LAST_MONTH):
        scenario_clocks.live(earlier, open_days, MONDAY, people["maud"], people["tobiah"])
    _photographed_like_the_bellfounder(sitting("Barnaby Stroud"), people)


def _photographed_like_the_bellfounder(row: Sitting, people: dict[str, Member]) -> None:
    """His light of last year, and that the key stood closer than planned."""
    model = lindenmere.plan("dorrow")
    named = json.loads(json.dumps([model.request, model.document]).replace("Ignace", "Barnaby"))
    with clock.standing(row.starts_at):
        plans.confirm_brief(by=people["tobiah"], sitting=row, data=named[0]["brief"])
        plan = Plan.objects.create(
            sitting=row, number=1, request=named[0], document=named[1], fingerprint=model.fingerprint,
            made_at=row.starts_at, made_by=people["tobiah"],
        )  # fmt: skip
        record = records.open_record(plan=plan)
        built = as_shot.copy_plan(by=people["ines"], record=record, setup_name=plan.setups[0]["name"])
        as_shot.change(by=people["ines"], built=built, typed={("A", "distance_m"): 1.3}, seen=built.version,
                       failed=False, why_failed="", why="the beam")  # fmt: skip


