"""What browsers write while the server is killed. Belongs here: one write of each kind, with a word of its own by which
it is found again. Not here: killing, and finding it (`kills`)."""

from __future__ import annotations

import time
import uuid
from datetime import date, timedelta
from typing import Any

from bookings.models import Sitting
from tests.bookings.filling import new_sitting, notes, person, wishes
from tests.bookings.making import at

Kept = tuple[str, str]  # what was written, and the word by which it is found again
FIRST_DAY = date(2027, 1, 4)


def in_new_house(browsers: int) -> Writers:
    """Everything they write about, in the database of the settings, which must be new and migrated."""
    from bookings.models import Kind
    from studio.models import Room
    from tests.access_world import make_world
    from tests.bookings.making import House

    world = make_world()
    kind, last_room = Kind.objects.get(pk=world.sitting.kind_id), Room.objects.order_by("pk").last()
    house = House(world.members, world.room, last_room, kind, world.sitting.client)
    return Writers(world, house, browsers)


class Writers:
    """The hands of all browsers; what is changed again and again (a sitting's time, its notes) each has for itself."""

    def __init__(self, world: Any, house: Any, browsers: int) -> None:
        self.sitting, self.setup = world.sitting, world.plan.setups[0]["name"]
        self.house, self.client_pk, self.owner_pk = house, world.sitting.client_id, world.members["owner"].pk
        self.cookie = {who: f"sessionid={kept['sessionid'].value}" for who, kept in world.signed_in.items()}
        self.kinds = ("client", "money", "consumable", "complaint", "reading", "booking", "move", "notes")
        booked = [house.book(starts_at=at(9, days=400 + n)) for n in range(browsers)]
        self.own = list(Sitting.objects.with_people().filter(pk__in=[one.pk for one in booked]).order_by("pk"))
        self.sitters = [one.sitters.first().pk for one in self.own]
        self.versions: list[int] = []

    def begin(self) -> None:
        """A round on a database brought back."""
        self.versions = [one.version for one in self.own]

    def write(self, server: Any, browser: int, what: str, number: int) -> tuple[int, Kept]:
        """The status, 302 where it was answered as saved (or an entry kept), and by what it is found."""
        word, where = f"K{number}", f"/sittings/{self.sitting.number}"
        if what == "reading":
            word = str(uuid.uuid4())
            now = str(int(time.time() * 1000))
            status, _to, said = server.ask(
                "POST", f"{where}/plans/1/record/readings/", self.cookie["assistant"],
                {"setup": self.setup, "step": "1", "text": "5.6 4"},
                **{"X-Entry": word, "X-Entry-Made": now, "X-Entry-Sent": now},
            )  # fmt: skip
            return (302 if status == 200 and '"kept"' in said else status), (what, word)
        path, who, sent = self._form(what, word, where, number, browser)
        status, to, _said = server.ask("POST", path, self.cookie[who], sent)
        if what == "move" and status == 302:
            self.versions[browser] += 1
        word = f"{self.sitters[browser]} {number}" if what == "notes" else word
        return (403 if to.startswith("/sign-in") else status), (what, word)

    def _form(self, what: str, word: str, where: str, number: int, browser: int) -> tuple[str, str, dict[str, Any]]:
        if what == "client":
            return "/clients/new/", "front_desk", {"version": 1, "name": word}
        if what == "money":
            paid = {"kind": "balance", "amount": "0.01", "method": "card", "paid_note": word}
            return f"{where}/money/", "front_desk", paid
        if what == "consumable":
            counted = {"version": 1, "name": word, "unit": "rolls", "count": 3, "low_mark": 1}
            return "/kit/of-all/consumables/new/", "owner", counted
        if what == "complaint":
            said = {"said": word, "cause": "light", "keeper": self.owner_pk, "due_on": "2099-01-01"}
            return f"/clients/{self.client_pk}/complaints/new/", "owner", said
        if what == "notes":
            added = notes(stand_minutes=str(number)) | wishes("wishes", {"note": "lines", "side": "", "wish": "softer"})
            return f"/sittings/{self.own[browser].number}/notes/{self.sitters[browser]}/", "front_desk", added
        day = (FIRST_DAY + timedelta(days=number)).isoformat()  # each write has a day of its own
        if what == "move":
            row = self.own[browser]
            moved = {
                "number": row.number, "seen": self.versions[browser], "day": day, "time": "15:00", "save": "1",
                "room": row.room_id, "photographer": row.photographer_id, "assistant": row.assistant_id, "note": word,
                "agreed_fee": "0",
            }  # fmt: skip
            return "/diary/move/", "front_desk", moved
        booked = new_sitting(self.house, person(0, "Sitter"), new_name=word, day=day)
        return "/sittings/new/", "front_desk", booked
