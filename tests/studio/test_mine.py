"""What a member sets for themselves: units of their own on screens, the house's on paper."""

from __future__ import annotations

import pytest

from studio.models import Member, Profile, Room
from tests import cast
from tests.studio.forms import opened

pytestmark = pytest.mark.django_db


@pytest.fixture
def room() -> Room:
    Profile.objects.create(pk=1)
    return Room.objects.create(name="Long Room", width_m=9.0, depth_m=6.0, ceiling_m=3.2)


def own(member: Member, units: str) -> None:
    browser = cast.client_of(member)
    assert browser.post("/mine/", opened(browser, "/mine/") | {"units": units}).status_code == 302


def test_feature_70_each_reads_and_types_in_their_own_units_and_nothing_drifts(room: Room) -> None:
    harriet, other = cast.make_member("owner", name="Harriet Voss"), cast.make_member("owner", name="Wren Hollis")
    own(harriet, "imperial")
    address = f"/studio/rooms/{room.pk}/"
    in_feet = opened(cast.client_of(harriet), address)
    assert in_feet["width_m"] == "29 ft 6.331 in"  # 9 / 0.3048
    assert opened(cast.client_of(other), address)["width_m"] == "9"
    # Sent back as it stands, nothing drifts; typed in feet, it is kept in metres.
    cast.client_of(harriet).post(address, in_feet)
    room.refresh_from_db()
    assert (room.width_m, room.depth_m, room.ceiling_m) == (9.0, 6.0, 3.2)
    cast.client_of(harriet).post(address, opened(cast.client_of(harriet), address) | {"width_m": "30 ft"})
    room.refresh_from_db()
    assert room.width_m == pytest.approx(30 * 0.3048)
    own(harriet, "")
    assert opened(cast.client_of(harriet), address)["depth_m"] == "6"


def test_another_s_settings_are_nobodys_to_set(room: Room) -> None:
    ines = cast.make_member("assistant", name="Ines Calloway")
    browser = cast.client_of(ines)
    answer = browser.post("/mine/", opened(browser, "/mine/") | {"units": "cubits", "name": "Somebody", "active": ""})
    assert answer.status_code == 422
    assert "cubits" in answer.content.decode()
    own(ines, "metric")
    ines.refresh_from_db()
    assert (ines.name, ines.active, ines.units) == ("Ines Calloway", True, "metric")
