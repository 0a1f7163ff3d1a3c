"""Rooms and kit in feet and inches where the house measures in them: asked, shown, refused with a sentence."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client

from studio.models import Profile, Room, Stand
from tests import cast


@pytest.fixture
def harriet(db: None) -> Client:
    Profile.objects.create(pk=1, units="imperial")
    return cast.client_of(cast.make_member("owner"))


def sent(client: Client, address: str, **typed: str) -> Any:
    form = client.get(address).context["form"]
    parts = [form]
    for rows in (getattr(form, name, None) for name in ("windows", "circuits")):
        parts += [rows.management_form, *rows.forms] if rows is not None else []
    data = {part.add_prefix(name): part[name].value() for part in parts for name in part.fields}
    kept = {name: value for name, value in (data | typed).items() if value is not None and value is not False}
    return client.post(address, kept)


def test_a_room_is_asked_and_read_in_feet_and_kept_in_metres(harriet: Client) -> None:
    room = Room.objects.create(name="Long Room", width_m=5.2, depth_m=8.0, ceiling_m=3.0)
    address = f"/studio/rooms/{room.pk}/"
    page = harriet.get(address).content.decode()
    assert "Width (ft and in)" in page
    assert 'value="9 ft 10.11 in"' in page  # 3.0 m
    assert sent(harriet, address, width_m="17'6\"").status_code == 302
    room.refresh_from_db()
    assert (room.width_m, room.depth_m, room.ceiling_m) == (5.334, 8.0, 3.0)  # 17.5 x 0.3048; the others as they were
    refused = sent(harriet, address, depth_m="long").content.decode()
    assert "Give a length from 0.394 in to 328 ft 1.008 in, such as 4 ft 6 in or 54 in." in refused
    assert 'value="long"' in refused
    assert "17 ft 6 in by 26 ft" in harriet.get("/studio/rooms/").content.decode()


def test_a_stand_s_heights_are_asked_and_read_in_feet(harriet: Client) -> None:
    stand = Stand.objects.create(code="stand-7", label="stand", max_height_m=2.2, min_height_m=0.9, max_load_kg=5)
    assert sent(harriet, f"/kit/{stand.code}/edit/", max_height_m="7 ft 6 in").status_code == 302
    stand.refresh_from_db()
    assert (stand.max_height_m, stand.min_height_m) == (2.286, 0.9)
    assert "7 ft 6 in" in harriet.get(f"/kit/{stand.code}/").content.decode()
