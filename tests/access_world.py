"""A small house in which every address has something to show. Belongs here: making it, and filling in what an
address names. Not here: who may come (`access_table`)."""

from __future__ import annotations

import base64
import copy
import io
import json
from datetime import date, timedelta
from decimal import Decimal
from functools import cache
from http.cookies import SimpleCookie
from pathlib import Path
from typing import Any, NamedTuple

from django.test import Client
from PIL import Image

from bookings.actions import bills, letters, money
from bookings.models import Client as Booker
from bookings.models import (
    Complaint,
    Erasure,
    Item,
    ItemPrice,
    Letter,
    Place,
    Rota,
    SentList,
    Sitting,
    WantedTime,
)
from shotplans.actions import records, set_photos
from shotplans.models import Brief, Frame, MeasuredBeam, Plan, Retired, SetPhoto, SmallPicture
from shotplans.planner import codec
from studio.actions import kit_lists, kit_photos
from studio.models import Consumable, KitItem, KitList, Member, Room
from tests import cast, planned_once
from tests.bookings.making import DAY, make_house

PICTURE = base64.b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNgAAAAAgABSK+kcQAAAABJRU5ErkJggg=="
)  # one grey point
_JPEG = io.BytesIO()
Image.open(io.BytesIO(PICTURE)).save(_JPEG, "JPEG")
POINT = _JPEG.getvalue()


class World(NamedTuple):
    """What the addresses with something to fill in are filled in with."""

    members: dict[str, Member]
    room: Room
    sitting: Sitting
    plan: Plan
    signed_in: dict[str, SimpleCookie]

    def browser_of(self, who: str) -> Client:
        """A browser that remembers its sign-in and nothing else; a stranger's remembers nothing."""
        browser = Client()
        if who in self.signed_in:
            browser.cookies = copy.deepcopy(self.signed_in[who])
        return browser

    def afresh(self) -> World:
        """The same, whatever the filling in of an address does to a row in memory."""
        return self._replace(sitting=copy.deepcopy(self.sitting))

    @property
    def of_sitting(self) -> dict[str, Any]:
        return {"number": self.sitting.number}

    @property
    def of_plan(self) -> dict[str, Any]:
        return self.of_sitting | {"version": self.plan.number}

    @property
    def of_rota(self) -> dict[str, Any]:
        """The sitting, with a place for its first sitter."""
        rota, made = Rota.objects.get_or_create(sitting=self.sitting)
        if made:
            Place.objects.create(rota=rota, sitter=self.sitting.sitters.first(), number=1, queue=1, after=0)
        return self.of_sitting

    @property
    def of_erasure(self) -> dict[str, Any]:
        """A client who was erased."""
        gone = Booker.objects.create(name="erased")
        Erasure.objects.create(client=gone, at=self.sitting.starts_at, by=self.members["owner"], asked_by="by letter")
        return {"pk": gone.pk}

    def of_money(self, what: str) -> dict[str, Any]:
        """The sitting with an item charged, a quote, an invoice and a receipt; `what` names the one that is meant."""
        by, sitting = self.members["front_desk"], self.sitting
        charge = sitting.charges.first()
        if charge is None:
            item = Item.objects.create(name="Wall print", kind="print")
            ItemPrice.objects.create(item=item, from_day=date(2020, 1, 1), amount=Decimal(90))
            charge = bills.charge_item(by=by, sitting=sitting, item=item, count=1)
            bills.quote(by=by, sitting=sitting, wanted=[], valid_until=date(2099, 1, 1))
            bills.invoice(by=by, sitting=sitting)
            money.take(by=by, sitting=sitting, kind="balance", amount=Decimal(10), method="cash")
        found = {"pk": charge.pk, "quote": 1, "invoice": 1, "receipt": 1}
        return self.of_sitting | {what: found[what]}

    @property
    def of_quote(self) -> dict[str, Any]:
        """A quote as one of the papers of the sitting."""
        self.of_money("quote")
        return self.of_sitting | {"what": "quotes", "bill": 1}


def written(world: World) -> Letter:
    return letters.write(sitting=world.sitting, kind="other", to="", subject="Yours", body="", by=None, once_key="1")


def photographed() -> str:
    """A piece with a photo."""
    piece = KitItem.objects.get(code="heads-1")
    kit_photos.keep(piece=piece, raw=PICTURE)
    return piece.code


def beam_of(world: World) -> MeasuredBeam:
    told = {"at": world.sitting.starts_at, "by": world.members["owner"]}
    values = {"shares": [1.0, 0.0], "flux_lm": 1.0, "width_deg": 90.0} | told
    return MeasuredBeam.objects.get_or_create(head="h", modifier="m", defaults=values)[0]


def counted() -> Consumable:
    return Consumable.objects.get_or_create(name="Gaffer tape", unit="rolls")[0]


def kit_list_of(world: World) -> KitList:
    return kit_lists.send_in(by=world.members["owner"], file_name="kit.csv", content=b"section,code\n")


def frame_of(world: World) -> Frame:
    """The one frame of that world, with a picture of one grey point."""
    said = {"name": "LQ_0001.JPG", "size": 1, "number": 1, "received_at": world.sitting.starts_at}
    frame, made = Frame.objects.get_or_create(sitting=world.sitting, digest="0", defaults=said)
    if made:
        SmallPicture.objects.create(frame=frame, jpeg=POINT, width=300, height=200)
    return frame


def complaint_of(world: World) -> Complaint:
    """The one complaint of that world."""
    owner = world.members["owner"]
    said = {"said": "too dark", "cause": "light", "keeper": owner, "due_on": DAY, "opened_at": DAY, "opened_by": owner}
    return Complaint.objects.get_or_create(client=world.sitting.client, defaults=said)[0]


def sent(world: World) -> SentList:
    by = world.members["front_desk"]
    return SentList.objects.create(by=by, at=world.sitting.starts_at, file_name="a.csv", content=b"Name\nWren Hollis\n")


def again_of(world: World) -> Sitting:
    """A later sitting of the client of that world."""
    held = world.sitting
    return Sitting.objects.create(
        number="L-0900", client=held.client, kind=held.kind, room=held.room, photographer=held.photographer,
        starts_at=held.starts_at + timedelta(days=365), minutes=60, setup_minutes=30, strike_minutes=15,
    )  # fmt: skip


def company_in(world: World) -> Booker:
    """A company in that world."""
    return Booker.objects.create(name="Marrowfield Joinery", is_company=True)


def photo_in(world: World) -> SetPhoto:
    """A picture of the set of that world."""
    by, record = world.members["assistant"], records.open_record(plan=world.plan)
    return set_photos.keep(by=by, plan=record.plan, setup_name="the bellfounder", sent=[PICTURE])[0][0]


def retired_by(world: World) -> Retired:
    """A correction taken out of use in that world."""
    return Retired.objects.create(head="h400-1", why="new lamp", at=DAY, by=world.members["owner"])


def wanted_by(world: World) -> WantedTime:
    """The one time waited for in that world."""
    said = {"minutes": 60, "written_at": DAY, "by": world.members["front_desk"]}
    return WantedTime.objects.get_or_create(client=world.sitting.client, defaults=said)[0]


@cache
def planned() -> tuple[dict[str, Any], dict[str, Any]]:
    """One of the example briefs and its plan, reckoned once: here it only has to be there."""
    raw = (Path(__file__).parents[1] / "fixtures" / "briefs" / "dorrow.json").read_bytes()
    return json.loads(raw), planned_once.plan(codec.read_request(raw))


def make_world() -> World:
    cast.make_kit("heads")
    house = make_house()
    sitting = house.book()
    request, document = planned()
    photographer = house.members["photographer"]
    Brief.objects.create(
        sitting=sitting, data=request["brief"], confirmed_at=sitting.starts_at, confirmed_by=photographer
    )
    plan = Plan.objects.create(
        sitting=sitting,
        number=1,
        request=request,
        document=document,
        fingerprint=document["fingerprint"],
        made_at=sitting.starts_at,
        made_by=photographer,
    )
    gone = cast.make_member("owner", name="Ada Orrin", short="Ada")
    signing_in = house.members | {
        "other_assistant": cast.make_member("assistant", name="Linnet Sable", short="LS"),
        "newcomer": cast.make_member(name="Nell Orrin"),
        "gone": gone,
    }
    signed_in = {role: cast.client_of(member).cookies for role, member in signing_in.items()}
    gone.active = False
    gone.save()
    return World(house.members, house.room, sitting, plan, signed_in)
