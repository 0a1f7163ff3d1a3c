"""Pages of the bookings, walked as those who work with them."""

from __future__ import annotations

import pytest
from django.urls import reverse

from tests.bookings.making import House
from tests.cast import client_of


@pytest.mark.parametrize("role", ["front_desk", "photographer", "assistant", "owner"])
def test_everybody_sees_the_diary_and_a_sitting(house: House, role: str) -> None:
    sitting = house.book()
    browser = client_of(house.members[role])
    page = browser.get(reverse("diary"), {"day": "2026-12-03"})
    assert page.status_code == 200
    assert "Askew" in page.content.decode()
    page = browser.get(reverse("sitting", args=[sitting.number]))
    assert page.status_code == 200


def test_desk_pages(house: House) -> None:
    desk, owner = client_of(house.desk), client_of(house.members["owner"])
    for name in ("new_sitting", "clients", "new_client"):
        assert desk.get(reverse(name)).status_code == 200
    assert desk.get(reverse("client", args=[house.client.pk])).status_code == 200
    for name in ("kinds", "new_kind"):
        assert owner.get(reverse(name)).status_code == 200
    assert owner.get(reverse("kind", args=[house.kind.pk])).status_code == 200
    s = house.book()
    for role in ("front_desk", "photographer", "assistant"):
        page = client_of(house.members[role]).get(reverse("notes", args=[s.number, s.sitters.first().pk]))
        assert page.status_code == 200
