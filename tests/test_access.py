"""Who may come to which address: one table, walked as nobody, as each role and as somebody with no role.

An address without a line in the table fails, and so does a line without an address.
"""

from __future__ import annotations

import base64
import copy
import json
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from decimal import Decimal
from functools import cache
from http.cookies import SimpleCookie
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from django.db import transaction
from django.http import HttpResponseForbidden
from django.test import Client
from django.urls import reverse

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
    Terms,
    WantedTime,
)
from shotplans.actions import records, set_photos
from shotplans.models import Brief, Frame, MeasuredBeam, Plan, Retired, SetPhoto, SmallPicture
from shotplans.planner import codec
from studio.access import EVERY_ROLE
from studio.actions import kit_lists, kit_photos
from studio.addresses import every_address
from studio.models import Consumable, DaysOff, KitItem, KitList, Member, Room
from tests import cast, planned_once
from tests.bookings.making import DAY, make_house

EVERYBODY = frozenset(EVERY_ROLE)
DESK, PHOTOGRAPHER, ASSISTANT, OWNER = (frozenset({role}) for role in EVERY_ROLE)
SET = PHOTOGRAPHER | ASSISTANT


class World(NamedTuple):
    """What the addresses with something to fill in are filled in with."""

    members: dict[str, Member]
    room: Room
    sitting: Sitting
    plan: Plan
    signed_in: dict[str, SimpleCookie]

    def browser_of(self, role: str) -> Client:
        """A browser that remembers its sign-in and nothing else."""
        browser = Client()
        browser.cookies = copy.deepcopy(self.signed_in[role])
        return browser

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


class Line(NamedTuple):
    roles: frozenset[str]
    fill: Callable[[World], dict[str, Any]] = lambda world: {}
    post: bool = False  # only ever asked to change something: answers no GET
    refused: frozenset[str] = frozenset()  # let in at the door, refused inside, so that the attempt is logged


TABLE: dict[str, Line] = {
    # the door
    "home": Line(EVERYBODY),
    "mine": Line(EVERYBODY),
    "sign_out": Line(EVERYBODY, post=True),
    "change_role": Line(EVERYBODY, post=True),
    # on set
    "on_set": Line(EVERYBODY),
    "worker": Line(EVERYBODY),
    "token": Line(EVERYBODY),
    # the house
    "studio": Line(OWNER),
    "profile": Line(OWNER),
    "rooms": Line(OWNER),
    "new_room": Line(OWNER),
    "room": Line(OWNER, lambda world: {"pk": world.room.pk}),
    "members": Line(OWNER),
    "new_member": Line(OWNER),
    "member": Line(OWNER, lambda world: {"pk": world.members["owner"].pk}),
    "hours": Line(OWNER),
    "house_week": Line(OWNER),
    "member_week": Line(OWNER, lambda world: {"pk": world.members["assistant"].pk}),
    "as_the_house": Line(OWNER, lambda world: {"pk": world.members["assistant"].pk}, post=True),
    "new_days_off": Line(OWNER),
    "days_off": Line(OWNER, lambda world: {"pk": DaysOff.objects.create(first_day=DAY, last_day=DAY).pk}),
    "beams": Line(PHOTOGRAPHER | OWNER),
    "take_beam_out": Line(PHOTOGRAPHER | OWNER, lambda world: {"pk": beam_of(world).pk}, post=True),
    "kit": Line(EVERYBODY),
    "by_code": Line(EVERYBODY),
    "tick": Line(EVERYBODY, lambda world: {"code": "heads-1"}),
    "change_state": Line(EVERYBODY, lambda world: {"code": "heads-1"}, post=True),
    "piece_photo": Line(EVERYBODY, lambda world: {"code": photographed()}),
    "change_photo": Line(EVERYBODY, lambda world: {"code": "heads-1"}, post=True),
    "kit_tasks": Line(OWNER),
    "consumables": Line(EVERYBODY),
    "new_consumable": Line(OWNER),
    "edit_consumable": Line(OWNER, lambda world: {"pk": counted().pk}),
    "count": Line(EVERYBODY, lambda world: {"pk": counted().pk}, post=True),
    "send_kit": Line(OWNER),
    "sent_kit": Line(OWNER, lambda world: {"pk": kit_list_of(world).pk}),
    "kit_file": Line(OWNER),
    "starter_kit": Line(OWNER),
    "kit_labels": Line(SET | OWNER),
    "label_sheet": Line(SET | OWNER),
    "piece": Line(EVERYBODY, lambda world: {"code": "heads-1"}),
    "edit_piece": Line(OWNER, lambda world: {"code": "heads-1"}),
    "new_piece": Line(OWNER, lambda world: {"section": "heads"}),
    # bookings
    "find": Line(EVERYBODY),
    "diary": Line(EVERYBODY),
    "week": Line(EVERYBODY),
    "gaps": Line(DESK),
    "move_sitting": Line(DESK, post=True),
    "new_sitting": Line(DESK),
    "sitting": Line(EVERYBODY, lambda world: world.of_sitting),
    "change_sitting": Line(DESK, lambda world: world.of_sitting),
    "change_stage": Line(EVERYBODY - ASSISTANT, lambda world: world.of_sitting, post=True),
    "change_hold": Line(DESK, lambda world: world.of_sitting, post=True),
    "client_told": Line(DESK, lambda world: world.of_sitting, post=True),
    "take_money": Line(DESK | OWNER, lambda world: world.of_sitting, post=True),
    "correct_payment": Line(DESK | OWNER, lambda world: world.of_sitting | {"receipt": 1}, post=True),
    "account": Line(DESK | OWNER, lambda world: world.of_sitting),
    "charge_item": Line(DESK | OWNER, lambda world: world.of_sitting, post=True),
    "take_item_back": Line(DESK | OWNER, lambda world: world.of_money("pk"), post=True),
    "change_destination": Line(DESK | OWNER, lambda world: world.of_sitting, post=True),
    "make_quote": Line(DESK | OWNER, lambda world: world.of_sitting, post=True),
    "quote_pdf": Line(DESK | OWNER, lambda world: world.of_money("quote")),
    "accept_quote": Line(DESK | OWNER, lambda world: world.of_money("quote"), post=True),
    "make_invoice": Line(DESK | OWNER, lambda world: world.of_sitting, post=True),
    "invoice_pdf": Line(DESK | OWNER, lambda world: world.of_money("invoice")),
    "receipt_pdf": Line(DESK | OWNER, lambda world: world.of_money("receipt")),
    "send_bill": Line(DESK | OWNER, lambda world: world.of_quote, post=True),
    "takings": Line(DESK | OWNER),
    "takings_sheet": Line(DESK | OWNER),
    "takings_month": Line(DESK | OWNER),
    "takings_export": Line(DESK | OWNER),
    "items": Line(OWNER),
    "new_item": Line(OWNER),
    "item": Line(OWNER, lambda world: {"pk": Item.objects.create(name="Album", kind="print").pk}),
    "tax_rules": Line(OWNER),
    "answer_for_deposit": Line(DESK | OWNER, lambda world: world.of_sitting, post=True),
    "holds": Line(DESK | OWNER),
    "wait_for": Line(EVERYBODY - ASSISTANT, lambda world: world.of_sitting, post=True),
    "late_reason": Line(EVERYBODY - ASSISTANT, lambda world: world.of_sitting, post=True),
    "reshoot": Line(EVERYBODY - ASSISTANT, lambda world: world.of_sitting),
    "complaints": Line(EVERYBODY - ASSISTANT),
    "complaint": Line(EVERYBODY - ASSISTANT, lambda world: {"pk": complaint_of(world).pk}),
    "close_complaint": Line(EVERYBODY - ASSISTANT, lambda world: {"pk": complaint_of(world).pk}, post=True),
    "open_complaint_again": Line(EVERYBODY - ASSISTANT, lambda world: {"pk": complaint_of(world).pk}, post=True),
    "new_complaint": Line(EVERYBODY - ASSISTANT, lambda world: {"pk": world.sitting.client_id}),
    "causes": Line(OWNER),
    "cause": Line(OWNER, lambda world: {"of": "reshoots", "month": "2026-12", "code": "glare"}),
    "waiting": Line(DESK | OWNER),
    "to_ask_back": Line(DESK | OWNER),
    "ask_back": Line(DESK | OWNER, lambda world: {"pk": world.sitting.client_id}, post=True),
    "keep_occasion": Line(DESK | OWNER, lambda world: world.of_sitting, post=True),
    "send_list": Line(DESK | OWNER),
    "sent_list": Line(DESK | OWNER, lambda world: {"pk": sent(world).pk}),
    "wanted_times": Line(DESK),
    "wanted_time": Line(DESK, lambda world: {"pk": wanted_by(world).pk}),
    "take_off_wanted": Line(DESK, lambda world: {"pk": wanted_by(world).pk}, post=True),
    "new_wanted_time": Line(DESK, lambda world: {"pk": world.sitting.client_id}),
    "offer_time": Line(DESK, lambda world: world.of_sitting | {"pk": wanted_by(world).pk}, post=True),
    "use": Line(OWNER),
    "use_file": Line(OWNER),
    "audit": Line(OWNER),
    "audit_file": Line(OWNER),
    "late_list": Line(DESK | OWNER),
    "late_sheet": Line(DESK | OWNER),
    "arrivals": Line(EVERYBODY - ASSISTANT),
    "arrive": Line(EVERYBODY - ASSISTANT, lambda world: world.of_sitting, post=True),
    "permissions": Line(EVERYBODY - ASSISTANT, lambda world: world.of_sitting),
    "sign_release": Line(EVERYBODY - ASSISTANT, lambda world: world.of_sitting, post=True),
    "answer_consents": Line(EVERYBODY - ASSISTANT, lambda world: world.of_sitting, post=True),
    "waive_release": Line(EVERYBODY - ASSISTANT, lambda world: world.of_sitting, post=True),
    "take_back_release": Line(EVERYBODY - ASSISTANT, lambda world: world.of_sitting, post=True),
    "notes": Line(EVERYBODY - OWNER, lambda world: world.of_sitting | {"pk": world.sitting.sitters.first().pk}),
    "make_intake": Line(DESK | PHOTOGRAPHER, lambda world: world.of_sitting, post=True),
    "enter_intake": Line(DESK | PHOTOGRAPHER, lambda world: world.of_sitting),
    "intake_sheet": Line(DESK | PHOTOGRAPHER, lambda world: world.of_sitting),
    "release_copy": Line(EVERYBODY - ASSISTANT, lambda world: world.of_sitting),
    "release_wording": Line(OWNER),
    "rota": Line(DESK, lambda world: world.of_sitting),
    "tell_places": Line(DESK, lambda world: world.of_rota, post=True),
    "door_list": Line(EVERYBODY, lambda world: world.of_rota),
    "slates": Line(EVERYBODY, lambda world: world.of_rota),
    "rota_board": Line(EVERYBODY, lambda world: world.of_rota),
    "rota_tap": Line(DESK | SET, lambda world: world.of_rota | {"pk": Place.objects.first().pk}, post=True),
    "rota_undo": Line(DESK | SET, lambda world: world.of_rota, post=True),
    "walk_in": Line(DESK | SET, lambda world: world.of_rota, post=True),
    "rota_slate": Line(EVERYBODY, lambda world: world.of_rota),
    "make_up": Line(DESK, lambda world: world.of_rota),
    "clients": Line(DESK),
    "find_client": Line(DESK, post=True),
    "client_choices": Line(DESK, post=True),
    "new_client": Line(DESK),
    "client": Line(DESK, lambda world: {"pk": world.sitting.client_id}),
    "kinds": Line(OWNER),
    "new_kind": Line(OWNER),
    "kind": Line(OWNER, lambda world: {"pk": world.sitting.kind_id}),
    "all_terms": Line(OWNER),
    "new_terms": Line(OWNER),
    "terms": Line(OWNER, lambda world: {"pk": Terms.objects.get_or_create(name="Portraits")[0].pk}),
    "letters": Line(DESK | OWNER),
    "letter": Line(DESK | OWNER, lambda world: {"pk": written(world).pk}),
    "letter_sheet": Line(DESK | OWNER, lambda world: {"pk": written(world).pk}),
    "send_again": Line(DESK | OWNER, lambda world: {"pk": written(world).pk}, post=True),
    "handed_over": Line(DESK | OWNER, lambda world: {"pk": written(world).pk}, post=True),
    "write_confirmation": Line(DESK | OWNER, lambda world: world.of_sitting, post=True),
    "note_answer": Line(DESK, lambda world: world.of_sitting, post=True),
    "wordings": Line(OWNER),
    "wording": Line(OWNER, lambda world: {"kind": "confirmation"}),
    "my_calendar": Line(EVERYBODY),
    "make_address": Line(EVERYBODY, post=True),
    "revoke_address": Line(EVERYBODY, post=True),
    # the light
    "read_notes": Line(
        EVERYBODY, lambda world: world.of_sitting | {"pk": world.sitting.sitters.first().pk}, refused=DESK | OWNER
    ),
    "readings": Line(OWNER),
    "purge_now": Line(OWNER, post=True),
    "client_copy": Line(OWNER, lambda world: {"pk": world.sitting.client_id}, post=True),
    "erase_client": Line(OWNER, lambda world: {"pk": world.sitting.client_id}),
    "erasure_receipt": Line(OWNER, lambda world: world.of_erasure),
    "setups": Line(PHOTOGRAPHER),
    "packing": Line(SET),
    "day_sheet": Line(EVERYBODY),
    "day_sheet_pdf": Line(EVERYBODY),
    "day_papers": Line(SET),
    "export": Line(OWNER),
    "export_file": Line(OWNER, post=True),
    "make_sample": Line(OWNER, post=True),
    "take_sample_away": Line(OWNER, post=True),
    "rules": Line(OWNER | PHOTOGRAPHER),
    "rule": Line(OWNER, lambda world: {"code": "older_pair"}),
    "corrections": Line(OWNER | PHOTOGRAPHER),
    "retire_correction": Line(OWNER | PHOTOGRAPHER, post=True),
    "take_back_correction": Line(OWNER | PHOTOGRAPHER, lambda world: {"pk": retired_by(world).pk}, post=True),
    "brief": Line(PHOTOGRAPHER, lambda world: world.of_sitting),
    "again": Line(PHOTOGRAPHER, lambda world: {"number": again_of(world).number}),
    "standard": Line(OWNER | PHOTOGRAPHER, lambda world: {"pk": company_in(world).pk}),
    "make_plan": Line(PHOTOGRAPHER, lambda world: world.of_sitting, post=True),
    "plan": Line(SET, lambda world: world.of_plan),
    "setup_sheet": Line(SET, lambda world: world.of_plan | {"setup": 1}),
    "packing_sheet": Line(SET, lambda world: world.of_plan),
    "shot_list": Line(PHOTOGRAPHER, lambda world: world.of_sitting),
    "shots_on_set": Line(SET, lambda world: world.of_plan),
    "tick_shot": Line(SET, lambda world: world.of_plan, post=True),
    "shots_pdf": Line(SET, lambda world: world.of_plan),
    "pose_cards": Line(OWNER | PHOTOGRAPHER),
    "pose_card": Line(OWNER | PHOTOGRAPHER, lambda world: {"kind": "couple"}),
    "packing_pdf": Line(SET, lambda world: {}),
    "packing_tap": Line(SET, post=True),
    "seen_to": Line(OWNER, lambda world: {"pk": 1}, post=True),
    "walk": Line(SET, lambda world: world.of_plan),
    "tap_walk": Line(SET, lambda world: world.of_plan, post=True),
    "strike": Line(SET, lambda world: world.of_plan),
    "tap_strike": Line(SET, lambda world: world.of_plan, post=True),
    "strike_pdf": Line(SET, lambda world: world.of_plan),
    "location": Line(SET, lambda world: world.of_plan),
    "location_pdf": Line(SET, lambda world: world.of_plan),
    "take_buffer": Line(OWNER, lambda world: {"pk": world.sitting.kind_id}, post=True),
    "meter_card": Line(SET, lambda world: world.of_plan | {"setup": 1}),
    "sheet_code": Line(SET, lambda world: world.of_plan),
    "what_if": Line(PHOTOGRAPHER, lambda world: world.of_plan, post=True),
    "plate": Line(PHOTOGRAPHER, lambda world: world.of_plan | {"setup": 1, "way": 0}),
    "live": Line(PHOTOGRAPHER, lambda world: world.of_plan | {"setup": 1}, post=True),
    "keep_live": Line(PHOTOGRAPHER, lambda world: world.of_plan | {"setup": 1}, post=True),
    "current_record": Line(SET, lambda world: world.of_sitting),
    "record": Line(SET, lambda world: world.of_plan),
    "type_reading": Line(SET, lambda world: world.of_plan, post=True),
    "preview_reading": Line(SET, lambda world: world.of_plan, post=True),
    "meter_round": Line(SET, lambda world: world.of_plan | {"setup": 1}),
    "meter_step": Line(SET, lambda world: world.of_plan | {"setup": 1, "step": 1}),
    "put_right": Line(SET, lambda world: world.of_plan, post=True),
    "set_camera": Line(SET, lambda world: world.of_plan, post=True),
    "copy_plan": Line(SET, lambda world: world.of_plan | {"setup": 1}, post=True),
    "as_shot": Line(SET, lambda world: world.of_plan | {"setup": 1}),
    "add_photos": Line(SET, lambda world: world.of_plan | {"setup": 1}, post=True),
    "set_photo": Line(SET, lambda world: world.of_plan | {"pk": photo_in(world).pk}),
    "take_photo_away": Line(SET, lambda world: world.of_plan | {"pk": photo_in(world).pk}, post=True),
    "note_change": Line(SET, lambda world: world.of_plan, post=True),
    "frames": Line(SET, lambda world: world.of_sitting),
    "known_frames": Line(SET, lambda world: world.of_sitting),
    "send_frames": Line(SET, lambda world: world.of_sitting, post=True),
    "say_setup": Line(SET, lambda world: world.of_sitting, post=True),
    "frame_picture": Line(SET, lambda world: world.of_sitting | {"pk": frame_of(world).pk}),
    "frame_beside": Line(SET, lambda world: world.of_sitting | {"pk": frame_of(world).pk}),
    "mark_eyes": Line(SET, lambda world: world.of_sitting | {"pk": frame_of(world).pk}, post=True),
    "choose_reference": Line(SET, lambda world: world.of_sitting | {"pk": frame_of(world).pk}, post=True),
    "test_frame": Line(SET, lambda world: world.of_plan | {"setup": 1}),
    "send_test_frame": Line(SET, lambda world: world.of_plan | {"setup": 1}, post=True),
    "answer_check": Line(SET, lambda world: world.of_plan | {"setup": 1}, post=True),
    "sign_record": Line(SET, lambda world: world.of_plan, post=True),
}
PICTURE = base64.b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNgAAAAAgABSK+kcQAAAABJRU5ErkJggg=="
)  # one grey point
# A signed address is the key where nobody signs in: its tests stand beside its part.
OPEN_TO_ALL = {"answer", "calendar_feed", "intake", "intake_copy", "sign_in"}
# `answer` carries a signed link, `calendar_feed` a secret: whoever has it may, and nobody can guess it.


def frame_of(world: World) -> Frame:
    """The one frame of that world, with a picture that nobody looks at."""
    said = {"name": "LQ_0001.JPG", "size": 1, "number": 1, "received_at": world.sitting.starts_at}
    frame, made = Frame.objects.get_or_create(sitting=world.sitting, digest="0", defaults=said)
    if made:
        SmallPicture.objects.create(frame=frame, jpeg=b"", width=300, height=200)
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
    return set_photos.keep(by=by, record=record, setup_name="the bellfounder", raw=PICTURE)


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


@pytest.fixture(scope="module")
def standing(django_db_setup: None, django_db_blocker: Any) -> Iterator[World]:
    """Built once for all addresses, and taken back at the end."""
    with django_db_blocker.unblock(), transaction.atomic():
        yield make_world()
        transaction.set_rollback(True)


@pytest.fixture
def world(standing: World, db: None, settings: Any, tmp_path: Path) -> World:
    """The same for one address: what it writes is taken back, what it remembers is its own."""
    settings.DATA_DIR = tmp_path  # pictures of the set lie there
    return copy.deepcopy(standing)


@pytest.fixture(autouse=True)
def said_in_a_word(monkeypatch: pytest.MonkeyPatch) -> None:
    """A refusal is its number here: its page (`studio/test_door`) would be drawn two thousand times."""
    monkeypatch.setattr("studio.urls.handler403", lambda request, exception: HttpResponseForbidden(), raising=False)


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
    newcomer, gone = cast.make_member(name="Nell Orrin"), cast.make_member("owner", name="Ada Orrin", short="Ada")
    signing_in = house.members | {"newcomer": newcomer, "gone": gone}
    signed_in = {role: cast.client_of(member).cookies for role, member in signing_in.items()}
    gone.active = False
    gone.save()
    return World(house.members, house.room, sitting, plan, signed_in)


def lines() -> list[Any]:
    return [pytest.param(name, line, id=name) for name, line in TABLE.items()]


def test_every_address_has_a_line_and_says_the_same() -> None:
    said = {address.name: set(address.allowed_roles) for address in every_address()}
    expected = {name: set(line.roles) for name, line in TABLE.items()}
    assert said == expected | {name: {"anyone"} for name in OPEN_TO_ALL}


def test_no_two_addresses_share_a_name() -> None:
    names = [address.name for address in every_address()]
    assert sorted(names) == sorted(set(names))


@pytest.mark.parametrize(("name", "line"), lines())
def test_a_stranger_is_sent_to_sign_in(name: str, line: Line, world: World) -> None:
    url = reverse(name, kwargs=line.fill(world))
    for answer in (Client().get(url), Client().post(url)):
        assert answer.status_code == 302
        assert answer["Location"].startswith("/sign-in/")


def forbidden_by_the_policy(answer: Any) -> list[str]:
    """Styles and scripts of a page's own, which the browser would drop without a word."""
    if answer.status_code != 200 or "html" not in answer["Content-Type"]:
        return []
    assert "unsafe" not in answer["Content-Security-Policy"]
    page = answer.content.decode()
    return [bad for bad in (" style=", "<style", "onclick=", "onchange=", "<script>") if bad in page]


@pytest.mark.parametrize(("name", "line"), lines())
def test_each_role_sees_its_own_pages_and_no_others(name: str, line: Line, world: World) -> None:
    url = reverse(name, kwargs=line.fill(world))
    for role in world.members:
        client = world.browser_of(role)
        answer = client.post(url) if line.post else client.get(url)
        if role in line.roles:
            # A change that says nothing may be refused in words; it is let in all the same.
            let_in = (403,) if role in line.refused else (200, 302)
            assert answer.status_code in ((200, 302, 400, 404, 422) if line.post else let_in), role
            assert forbidden_by_the_policy(answer) == [], role
        else:
            assert answer.status_code == 403, role
            assert client.post(url).status_code == 403, role


@pytest.mark.parametrize(("name", "line"), lines())
def test_without_a_role_or_after_leaving_nothing_is_seen(name: str, line: Line, world: World) -> None:
    url = reverse(name, kwargs=line.fill(world))
    for who in ("newcomer", "gone"):
        assert world.browser_of(who).get(url).status_code == 403


@pytest.mark.parametrize(("name", "line"), [p for p in lines() if p.values[1].post])
def test_what_changes_something_answers_no_get(name: str, line: Line, world: World) -> None:
    for role in line.roles:
        assert world.browser_of(role).get(reverse(name, kwargs=line.fill(world))).status_code == 405
