"""Rooms with their windows and circuits, as the owner keeps them."""

from __future__ import annotations

import pytest
from django.test import Client
from pytest_django import DjangoAssertNumQueries

from studio.models import Circuit, Room, Window
from tests import cast
from tests.studio.forms import fields, opened

pytestmark = pytest.mark.django_db


def test_a_room_is_entered_with_its_circuits(owner: Client) -> None:
    form = opened(owner, "/studio/rooms/new/")
    form |= {"name": "Garden Room", "width_m": "5", "depth_m": "4.0", "ceiling_m": "2.6", "surface_walls": "white"}
    form |= {"circuits-0-label": "circuit 1", "circuits-0-volts": "230", "circuits-0-breaker_amps": "16"}
    assert owner.post("/studio/rooms/new/", form).headers["Location"] == "/studio/rooms/"
    room = Room.objects.get()
    assert (room.name, room.width_m, room.ceiling_m, room.keep_out_m) == ("Garden Room", 5.0, 2.6, 0.4)
    assert [(c.label, c.volts, c.breaker_amps) for c in room.circuits.all()] == [("circuit 1", 230.0, 16.0)]
    page = owner.get("/studio/rooms/").content.decode()
    assert "5 m by 4 m, ceiling 2.6 m" in page
    assert "circuit 1: 230 V, 16 A" in page


def test_a_wrong_number_is_answered_beside_its_field_and_all_text_is_kept(owner: Client) -> None:
    form = opened(owner, "/studio/rooms/new/")
    form |= {"name": "Loft", "width_m": "wide", "depth_m": "-4", "ceiling_m": "1e999", "circuits-0-label": "circuit 1"}
    answer = owner.post("/studio/rooms/new/", form)
    page = answer.content.decode()
    assert answer.status_code == 200
    assert page.count("Give a number from 0.01 to 100 m.") == 3
    kept = fields(page)
    for name in ("name", "width_m", "depth_m", "ceiling_m", "circuits-0-label"):
        assert kept[name] == form[name]
    assert "This field is required" in page  # the circuit's own fields, in the same answer
    assert not Room.objects.exists()


def test_a_name_is_given_once(owner: Client) -> None:
    cast.make_room("Long Room")
    form = opened(owner, "/studio/rooms/new/") | {"name": "Long Room", "width_m": 5, "depth_m": 4, "ceiling_m": 3}
    assert "Another room has that name." in owner.post("/studio/rooms/new/", form).content.decode()


def test_the_first_save_wins_and_the_second_loses_nothing(owner: Client) -> None:
    room = cast.make_room()
    url = f"/studio/rooms/{room.pk}/"
    first, second = opened(owner, url), opened(owner, url)
    assert owner.post(url, first | {"ceiling_m": "3.0"}).status_code == 302
    answer = owner.post(url, second | {"ceiling_m": "3.4", "name": "Long Room East"})
    page = answer.content.decode()
    assert answer.status_code == 200
    assert "Somebody else saved this while you had it open" in page
    assert fields(page)["ceiling_m"] == "3.4"
    table = page.split("<table")[1].split("</table>")[0]
    assert "<td>3</td><td>3.4</td>" in table
    assert "Long Room East" in table
    assert "Depth" not in table
    room.refresh_from_db()
    assert (room.name, room.ceiling_m) == ("Long Room", 3.0)
    # Saved again, now knowing what differs, it stands.
    assert owner.post(url, fields(page)).status_code == 302
    room.refresh_from_db()
    assert (room.name, room.ceiling_m, room.version) == ("Long Room East", 3.4, 3)


def test_a_circuit_taken_out_meanwhile_does_not_come_back_unseen(owner: Client) -> None:
    room = cast.make_room(circuits=2)
    url = f"/studio/rooms/{room.pk}/"
    first, second = opened(owner, url), opened(owner, url)
    assert owner.post(url, first | {"circuits-1-DELETE": "on"}).status_code == 302
    page = owner.post(url, second | {"circuits-0-breaker_amps": "20"}).content.decode()
    assert "circuit 1: 230 V, 16 A" in page
    assert "circuit 1: 230 V, 20 A; circuit 2: 230 V, 16 A" in page
    assert owner.post(url, fields(page)).status_code == 302
    assert [c.label for c in Circuit.objects.all()] == ["circuit 1"]


def test_a_circuit_typed_into_a_stale_form_is_read_out_and_not_lost(owner: Client) -> None:
    room = cast.make_room(circuits=1)
    url = f"/studio/rooms/{room.pk}/"
    first, second = opened(owner, url), opened(owner, url)
    assert owner.post(url, first | {"ceiling_m": "3"}).status_code == 302
    typed = {"circuits-1-label": "by the window", "circuits-1-volts": "230", "circuits-1-breaker_amps": "ten"}
    for new in (typed, typed | {"circuits-1-breaker_amps": "10"}):
        page = owner.post(url, second | new).content.decode()
        assert f"by the window: 230 V, {new['circuits-1-breaker_amps']} A" in page


@pytest.mark.parametrize(
    "junk",
    [
        {},
        {"version": "x" * 500, "circuits-TOTAL_FORMS": "-1"},
        {"circuits-TOTAL_FORMS": "99999999999999999999", "circuits-INITIAL_FORMS": "nan"},
        {"name": "\x00", "width_m": "NaN", "ceiling_m": "١٢", "surface_walls": "<script>"},
        {"circuits-TOTAL_FORMS": "1", "circuits-INITIAL_FORMS": "1", "circuits-0-id": "999999999999999999999"},
        {"version": "999999999999999999999999999999"},
    ],
)
def test_junk_is_refused_and_never_breaks_the_page(owner: Client, junk: dict[str, str]) -> None:
    room = cast.make_room()
    for url in (f"/studio/rooms/{room.pk}/", "/studio/rooms/new/"):
        assert owner.post(url, junk).status_code == 200
    assert owner.get("/studio/rooms/99999999999999999999999/").status_code == 404
    room.refresh_from_db()
    assert room.version == 1


def test_the_list_asks_no_more_for_more_rooms(
    owner: Client, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    for number in range(12):
        cast.make_room(f"Room {number}")
    with django_assert_max_num_queries(7):
        owner.get("/studio/rooms/")


def test_windows_are_entered_mended_and_taken_out_with_their_room(owner: Client) -> None:
    room = cast.make_room()
    url = f"/studio/rooms/{room.pk}/"
    typed = {"windows-0-wall": "street side", "windows-0-width_m": "1.4", "windows-0-height_m": "1.8"}
    assert owner.post(url, opened(owner, url) | typed).status_code == 302
    window = Window.objects.get()
    assert (window.room, window.wall, window.width_m, window.height_m, window.sill_m) == (
        room, "street side", 1.4, 1.8, None,
    )  # fmt: skip
    first, second = opened(owner, url), opened(owner, url)
    assert owner.post(url, first | {"windows-0-DELETE": "on"}).status_code == 302
    assert not Window.objects.exists()
    page = owner.post(url, second | {"windows-0-sill_m": "0.9"}).content.decode()
    assert "street side: 1.4 m, 1.8 m, 0.9 m" in page


def test_a_windows_wrong_size_is_told_beside_it(owner: Client) -> None:
    room = cast.make_room()
    url = f"/studio/rooms/{room.pk}/"
    page = owner.post(url, opened(owner, url) | {"windows-0-wall": "", "windows-0-width_m": "wide"}).content.decode()
    assert "Give a number from 0.01 to 100 m." in page
    assert "This field is required" in page
    assert fields(page)["windows-0-width_m"] == "wide"
