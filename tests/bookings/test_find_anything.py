"""Find: what a few words mean, who may see it, and in how many queries; run again on PostgreSQL with the others."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal

import pytest
from django.core.management import call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext

from bookings import find_anything, found_index
from bookings.actions import money
from bookings.actions.sittings import SitterInput
from bookings.models import Client, Kind, Notes, Sitter, Sitting, Stage
from studio.models import Member
from tests import cast
from tests.bookings.making import House, at

NOW = datetime(2026, 12, 1, 9, tzinfo=UTC)


@pytest.fixture
def full(house: House) -> House:
    cast.make_kit("modifiers", "octa-150")
    headshots = Kind.objects.create(name="Company headshots", minutes=60, intent="even", framing="half")
    joinery = Client.objects.create(name="Marrowfield Joinery", is_company=True, phone="01632 960777")
    zoe = Client.objects.create(name="Zoë Brontë", email="zoe@example.org")
    house.book()
    house.book(
        client=joinery, kind=headshots, starts_at=at(9, days=160), purpose="website", sitters=[SitterInput("Wilf")]
    )
    house.book(client=zoe, starts_at=at(9, days=170), purpose="Müller's wall", sitters=[SitterInput("Zoë")])
    return house


def said(text: str, member: Member) -> dict[str, list[str]]:
    groups = find_anything.anything(text, member=member, now=NOW)
    return {group.title: [hit.name for hit in group.hits] for group in groups}


ASKEW, JOINERY, ZOE = "L-0001 Ottoline and Bertram Askew", "L-0002 Marrowfield Joinery", "L-0003 Zoë Brontë"


@pytest.mark.parametrize(
    ("text", "sittings"),
    [
        ("marrow", [JOINERY]),
        ("rowfield", [JOINERY]),
        ("960 777", [JOINERY]),
        ("bronte", [ZOE]),
        ("ruby", [ASKEW]),
        ("muller", [ZOE]),
        ("L-0002", [JOINERY]),
        ("l2", [JOINERY]),
        ("may 2027", [JOINERY, ZOE]),
        ("May", [JOINERY, ZOE]),
        ("december", [ASKEW]),
        ("may 2026", []),
        ("headshots", [JOINERY]),
        ("joinery headshots may", [JOINERY]),
        ("askew headshots", []),
        ("askew may", []),
        ("zo", [ZOE]),
        ("nothing of the kind", []),
        ("\x00", []),
        ("%%", []),
        ('"" OR a', []),
        ("x" * 5000, []),
    ],
)
def test_a_sitting_is_found_by_what_is_remembered_of_it(full: House, text: str, sittings: list[str]) -> None:
    assert said(text, full.desk).get("Sittings", []) == sittings


def test_a_sitting_to_come_stands_before_those_that_were(full: House) -> None:
    full.book(starts_at=at(9, days=-400))
    full.book(starts_at=at(9, days=40))
    found = [hit.name.split()[0] for hit in find_anything._sittings("askew", NOW).hits]
    assert found == ["L-0001", "L-0005", "L-0004"]


def test_each_role_finds_what_it_may_open_and_nothing_else(full: House) -> None:
    desk, owner = full.desk, full.members["owner"]
    assert said("marrowfield", desk) == {"Clients": ["Marrowfield Joinery"], "Sittings": [JOINERY]}
    assert said("marrowfield", full.members["assistant"]) == {"Sittings": [JOINERY]}
    assert said("octabox", full.members["assistant"]) == {"The house": ["150 cm octabox, octa-150"]}
    assert said("long room", owner) == {"The house": ["Long Room"]}
    assert said("long room", desk) == {}
    assert said("renn", owner) == {"The house": ["Tobiah Renn"]}
    assert said("kit", desk)["Pages"] == ["Kit"]
    assert said("clients", owner) == {}
    assert said("wilf", desk) == {"People who sit": ["Wilf"]}


def test_what_may_still_be_moved_leads_to_other_free_times_for_those_who_may_move_it(full: House) -> None:
    def times(member: Member) -> list[str]:
        groups = find_anything.anything("l2", member=member, now=NOW)
        return [hit.times for group in groups for hit in group.hits if hit.name == JOINERY]

    assert times(full.desk) == ["/diary/gaps/?move=L-0002"]
    assert times(full.members["photographer"]) == [""]
    Sitting.objects.filter(number="L-0002").update(stage=Stage.PHOTOGRAPHED)
    assert times(full.desk) == [""]


def test_a_receipt_is_found_by_those_who_take_money(full: House) -> None:
    sitting = Sitting.objects.get(number="L-0002")
    money.take(by=full.desk, sitting=sitting, kind="balance", method="cash", amount=Decimal(20))
    assert said("R-0001", full.desk) == {"Receipts": ["R-0001"]}
    assert said("r-0001", full.members["photographer"]) == {}


def test_comfort_notes_are_never_looked_through(full: House) -> None:
    Notes.objects.create(sitter=Sitter.objects.get(label="Wilf"), texture="deep lines", glasses_lens="reactive")
    for text in ("deep lines", "lines", "reactive", "lenses that darken"):
        assert all(said(text, member) == {} for member in full.members.values())


def test_what_is_changed_is_found_by_what_it_is_now(full: House) -> None:
    sitter = Sitter.objects.get(label="Wilf")
    sitter.label = "Ambrose"
    sitter.save()
    assert said("wilf", full.desk) == {}
    assert said("ambrose", full.desk) == {"People who sit": ["Ambrose"]}
    sitter.delete()
    assert said("ambrose", full.desk) == {}


def test_finding_asks_as_often_among_many_as_among_few(full: House) -> None:
    desk = Member.objects.with_roles().get(pk=full.desk.pk)  # as a page has them

    def queries(text: str) -> int:
        with CaptureQueriesContext(connection) as asked:
            find_anything.anything(text, member=desk, now=NOW)
        return len(asked)

    texts = ("askew may", "marrow", "L-0002", "headshots")
    few = [queries(text) for text in texts]
    for n in range(30):
        client = Client.objects.create(name=f"Marrow Askew {n}")
        full.book(client=client, starts_at=at(9, days=200 + n), purpose="marrow")
    assert [queries(text) for text in texts] == few
    assert max(few) <= 12


def test_a_lost_index_is_said_and_put_back_by_migrate(full: House) -> None:
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("DROP TRIGGER bookings_sitting_found_in")
    else:
        with connection.cursor() as cursor:
            cursor.execute("DROP INDEX bookings_sitting_found")
    assert found_index.missing(connection) == ["bookings_sitting"]
    full.book(starts_at=at(9, days=300), purpose="gazebo")
    connection.check_constraints()  # PostgreSQL makes no index while something is still to be checked
    call_command("migrate", verbosity=0, skip_checks=True)
    assert found_index.missing(connection) == []
    assert len(said("gazebo", full.desk)["Sittings"]) == 1


@pytest.mark.parametrize(
    "junk", ["", "a", "\x00\x00", "\u202e\u202d", "9" * 400, "<b>x</b>", "- - -", "may may", "''", "{{ 7 }}"]
)
def test_junk_is_answered_with_a_page(full: House, junk: str) -> None:
    desk = cast.client_of(full.desk)
    for answer in (desk.post("/find/", {"q": junk}), desk.get("/find/", {"q": junk})):
        assert answer.status_code == 200
        assert b"<b>x</b>" not in answer.content


def test_what_is_looked_for_is_kept_out_of_addresses_and_logs(full: House, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level("DEBUG", logger="django.request")
    desk = cast.client_of(full.desk)
    page = desk.get("/clients/").content.decode()
    assert '<form class="finder" role="search" method="post" action="/find/">' in page
    answer = desk.post("/find/", {"q": "askew"})
    assert "L-0001" in answer.content.decode()
    assert answer["Cache-Control"] == "no-store"
    assert "askew" not in caplog.text
