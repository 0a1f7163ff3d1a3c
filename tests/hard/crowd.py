"""Fifty people of four roles and what each does of a day. Belongs here: the house they work in, the mix of pages and
writes by role, and what must be in the database for every answer that said "saved". Not here: pauses, threads and
figures (`load`)."""

from __future__ import annotations

import itertools
import json
import random
import time
import uuid
from collections import Counter
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from typing import Any

from bookings.models import Sitting
from tests.bookings.filling import new_sitting, notes, person, wishes
from tests.bookings.making import House, at

SHARES = {"front_desk": 20, "photographer": 14, "assistant": 12, "owner": 4}  # of fifty
FIRST_WEEK = date(2027, 1, 4)  # a Monday, far from whatever the demo has
PLANNED, READ, PULLED = "dorrow", "askew", "tarrant"  # planned anew, metered, moved by hand
FRAGMENT = {"X-Fragment": "1"}
WORDS = ("Askew", "joinery", "L-00", "December", "headshots", "Dorrow")
# How often each does what, in a hundred turns; what is no method of `Person` is a page of `Crowd.pages`.
MIX: dict[str, dict[str, int]] = {
    "front_desk": {"diary": 22, "week": 5, "sitting": 18, "find": 16, "arrivals": 6, "clients": 4, "client": 4,
                   "waiting": 3, "letters": 3, "takings": 3, "book": 5, "move": 5, "say_notes": 6},
    "photographer": {"setups": 16, "sitting": 10, "brief": 6, "plan": 20, "heads": 6, "drag": 8, "diary": 10,
                     "record": 8, "packing": 4, "find": 5, "corrections": 3, "rules": 1, "sheet": 2, "make_plan": 1},
    "assistant": {"packing": 18, "tap": 20, "record": 12, "reading": 22, "round": 6, "walk": 5, "plan": 6, "diary": 5,
                  "find": 3, "day_sheet": 2, "papers": 1},
    "owner": {"studio": 16, "diary": 20, "status": 6, "kit": 14, "members": 6, "use": 8, "takings": 10, "audit": 6,
              "find": 6, "sitting": 8},
}  # fmt: skip
Answer = tuple[int, str, str]  # status, where to, text


class Crowd:
    """The house of the demo, with so many people signed in, and a sitting of their own for each of the desk."""

    def __init__(self, people: int, today: date) -> None:
        from tests import lindenmere

        lindenmere.build(today)
        self.today, self.numbers = today, itertools.count(1)
        self.sittings = lindenmere.NUMBERS
        self.plans = {name: lindenmere.plan(name) for name in (PLANNED, READ, PULLED)}
        self.day = self.plans[READ].sitting.starts_at.date()
        self.things = list(_things(self.day))
        self.house = _house()
        self.pages = _pages(self)
        self.people = [Person(self, role, n) for role, n in _shared(people)]

    def day_of_its_own(self) -> str:
        """A working day on which nobody else books."""
        weeks, day = divmod(next(self.numbers), 4)
        return (FIRST_WEEK + timedelta(weeks=weeks, days=day)).isoformat()

    def lost(self, *, is_long: bool) -> list[str]:
        """What was answered as saved and is not there; in a long run, also what nobody came to write."""
        from bookings.models import Notes, SittingChange
        from shotplans.models import PackingTap, Plan
        from studio.models import Entry

        made = Plan.objects.values_list("sitting__number", "number")
        there: dict[str, set[str]] = {
            "book": set(Sitting.objects.values_list("client__name", flat=True)),
            "move": set(SittingChange.objects.filter(what="starts_at").values_list("note", flat=True)),
            "reading": {str(pk) for pk in Entry.objects.filter(outcome="kept").values_list("pk", flat=True)},
            "make_plan": {f"/sittings/{sitting}/plans/{number}/" for sitting, number in made},
        }
        wrong, told = [], Counter[str]()
        for one in self.people:
            wrong += [f"lost: {what} {word}" for what, word in one.saved if what in there and word not in there[what]]
            told.update(what for what, _word in one.saved)
            taps = sum(what == "tap" for what, _word in one.saved)
            if taps != (kept := PackingTap.objects.filter(by=one.member).count()):
                wrong.append(f"lost: {one.member} was told of {taps} taps, {kept} are there")
            said = [int(word) for what, word in one.saved if what == "say_notes"]
            if said and (row := Notes.objects.get(sitter=one.sitter)).stand_minutes != said[-1]:
                wrong.append(f"lost: notes of {one.sitter}: {said[-1]} was saved, {row.stand_minutes} is there")
        return wrong + [f"nothing was written by {what}" for what in there if is_long and not told[what]]


class Person:
    """One of them: `turns` says what they do next, each turn a few requests."""

    def __init__(self, crowd: Crowd, role: str, n: int) -> None:
        from tests import cast

        self.crowd, self.role, self.n = crowd, role, n
        self.member = cast.make_member(role, name=f"{role}{n} Orrin", short=f"{role[0].upper()}{n}")
        self.cookie = f"sessionid={cast.client_of(self.member).cookies['sessionid'].value}"
        self.chance, self.saved = random.Random(f"{role}{n}"), list[tuple[str, str]]()
        self.asked: Callable[..., Answer] = lambda *_, **__: (0, "", "")
        self.wrong: Callable[[str], None] = lambda _said: None
        self.is_out, self.version, self.said = False, 0, 0
        if role == "front_desk":
            self.own = crowd.house.book(starts_at=at(9, days=700 + n))
            self.version, self.sitter = self.own.version, self.own.sitters.first()

    def turn(self) -> None:
        """What comes next."""
        mix = MIX[self.role]
        what = self.chance.choices(list(mix), list(mix.values()))[0]
        do = getattr(self, what, None)
        if do is not None:
            do()
        else:
            self.get(what, self.chance.choice(self.crowd.pages[what]))

    def get(self, what: str, path: str) -> None:
        status, _to, _said = self.asked(what, "GET", path, self.cookie)
        if status != 200:
            self.wrong(f"{what}: answered {status} to {self.role}")

    def post(self, what: str, path: str, sent: dict[str, Any], *, due: int = 302, **head: str) -> Answer:
        found = self.asked(what, "POST", path, self.cookie, sent, **head)
        if found[0] != due or found[1].startswith("/sign-in"):
            self.wrong(f"{what}: answered {found[0]} to {self.role} {found[1]}")
        return found

    # the desk
    def find(self) -> None:
        self.post("find", "/find/", {"q": self.chance.choice(WORDS)}, due=200, **FRAGMENT)

    def book(self) -> None:
        self.get("new sitting", "/sittings/new/")
        word = f"Quernby {next(self.crowd.numbers)} {self.n}"
        sent = new_sitting(self.crowd.house, person(0, "Sitter"), new_name=word, day=self.crowd.day_of_its_own())
        if self.post("book", "/sittings/new/", sent)[0] == 302:
            self.saved.append(("book", word))

    def move(self) -> None:
        row, word = self.own, f"moved {next(self.crowd.numbers)} {self.n}"
        moved = {
            "number": row.number, "seen": self.version, "day": self.crowd.day_of_its_own(), "time": "11:00",
            "room": row.room_id, "photographer": row.photographer_id, "assistant": row.assistant_id, "note": word,
            "agreed_fee": "0",
        }  # fmt: skip
        self.post("see a move", "/diary/move/", moved, due=200, **FRAGMENT)
        if self.post("move", "/diary/move/", moved | {"save": "1"})[0] == 302:
            self.saved.append(("move", word))
            self.version += 1

    def say_notes(self) -> None:
        where = f"/sittings/{self.own.number}/notes/{self.sitter.pk}/"
        self.get("notes", where)
        self.said += 1
        sent = notes(stand_minutes=str(self.said)) | wishes("wishes")
        if self.post("say notes", where, sent)[0] == 302:
            self.saved.append(("say_notes", str(self.said)))

    # the photographer
    def heads(self) -> None:
        for way in (0, 1):
            self.get("head picture", f"{_where(self.crowd.plans[PULLED])}seen/1/{way}/")

    def drag(self) -> None:
        """Seven posts while the hand moves, the last when it lets go."""
        plan = self.crowd.plans[PULLED]
        x, y, z = plan.setups[0]["lights"][0]["position_m"]
        for step in range(1, 8):
            moved = json.dumps([["light", "A", "place_m", f"{x + step / 50:.2f} {y:.2f} {z:.2f}"]])
            sent = {"changes": moved, "thing": "light", "name": "A", "key": "floor_m",
                    "value": f"{x + step / 40:.2f} {z:.2f}", "moving": "1" if step < 7 else "0"}  # fmt: skip
            self.post("drag", f"{_where(plan)}setups/1/by-hand/", sent, due=200, **{"X-Fragment": "live"})
            time.sleep(0.1)

    def make_plan(self) -> None:
        to = self.post("make plan", f"/sittings/{self.crowd.plans[PLANNED].sitting.number}/plans/", {})[1]
        if "/plans/" in to:
            self.saved.append(("make_plan", to))
        else:
            self.wrong(f"make plan: {to}")

    # the assistant
    def tap(self) -> None:
        thing = self.crowd.things[self.n % len(self.crowd.things)]
        what = "back:whole" if self.is_out else "out"
        if self.post("tap", "/packing/tap/", {"day": f"{self.crowd.day}", "item": thing, "what": what})[0] == 302:
            self.is_out = not self.is_out
            self.saved.append(("tap", what))

    def reading(self) -> None:
        plan, word, now = self.crowd.plans[READ], str(uuid.uuid4()), str(int(time.time() * 1000))
        sent = {"setup": plan.setups[0]["name"], "step": "1", "text": f"5.6 {self.chance.randrange(10)}"}
        head = {"X-Entry": word, "X-Entry-Made": now, "X-Entry-Sent": now}
        said = self.post("reading", f"{_where(plan)}record/readings/", sent, due=200, **head)[2]
        if '"kept"' in said:
            self.saved.append(("reading", word))
        else:
            self.wrong(f"reading: {said[:80]}")


def _where(plan: Any) -> str:
    return f"/sittings/{plan.sitting.number}/plans/{plan.number}/"


def _shared(people: int) -> Iterator[tuple[str, int]]:
    """So many people among the roles as fifty are, and one of each at least."""
    for role, of_fifty in SHARES.items():
        for n in range(max(1, of_fifty * people // sum(SHARES.values()))):
            yield role, n


def _house() -> House:
    from bookings.models import Client, Kind
    from studio.models import Room
    from tests import lindenmere

    rooms = list(Room.objects.filter(away=False).order_by("pk"))
    members = {role: lindenmere.member(role) for role in lindenmere.WHO}
    kind, client = Kind.objects.order_by("pk").first(), Client.objects.order_by("pk").first()
    assert kind is not None
    assert client is not None
    return House(members, rooms[0], rooms[1], kind, client)


def _things(day: date) -> Iterator[str]:
    from shotplans import packing_page, workbench
    from studio.models import Profile

    for one in packing_page.lists(day, workbench.planned_on(day), Profile.get()):
        if one.where == packing_page.STUDIO:
            yield from (thing.row.item for thing in one.things if thing.piece is not None)


def _pages(crowd: Crowd) -> dict[str, list[str]]:
    days = [f"{crowd.today + timedelta(days=n)}" for n in range(-3, 11)]
    sittings = [f"/sittings/{number}/" for number in crowd.sittings.values()]
    read, pulled = _where(crowd.plans[READ]), _where(crowd.plans[PULLED])
    found = {name: [f"/{name.replace('_', '-')}/"] for name in
             ("setups", "clients", "waiting", "letters", "corrections", "rules", "studio", "status", "kit", "use",
              "audit")}  # fmt: skip
    return found | {
        "diary": [f"/diary/?day={day}" for day in days], "week": [f"/diary/week/?day={day}" for day in days],
        "arrivals": [f"/arrivals/?day={crowd.day}"], "takings": ["/money/"], "members": ["/studio/members/"],
        "client": [f"/clients/{crowd.house.client.pk}/"], "sitting": sittings,
        "brief": [f"{one}brief/" for one in sittings], "plan": [read, pulled],
        "record": [f"{read}record/", f"{pulled}record/"], "packing": [f"/packing/?day={crowd.day}"],
        "sheet": [f"{read}setups/1.pdf"], "round": [f"{read}record/rounds/1/1/"], "walk": [f"{read}walk/"],
        "day_sheet": [f"/day/?day={crowd.day}"], "papers": [f"/day/papers.pdf?day={crowd.day}"],
    }  # fmt: skip
