"""The demo's studio: all five planned without a broken limit, the clash refused, everybody there to sign in."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from bookings.models import Claim, Sitting, Stage
from shotplans import scenario
from shotplans.models import Plan
from studio.models import Profile, Room
from tests import lindenmere


def test_all_five_sittings_are_planned_and_no_limit_is_broken(house: list[str], studio: None) -> None:
    assert [line.rsplit(": ", 1)[1] for line in house[:5]] == ["none"] * 5
    assert Plan.objects.count() == Plan.objects.current().count() == 5
    assert not [p for p in Plan.objects.all() if p.document["problems"]]


def test_the_enquiry_for_the_octabox_in_junos_hour_is_refused_with_who_holds_it(house: list[str], studio: None) -> None:
    said = house[-1]
    assert "150 cm octabox" in said
    assert f"{lindenmere.NUMBERS['tarrant']}, Tarrant" in said
    assert "Next free:" in said
    assert Sitting.objects.count() == 5  # the enquiry left nothing behind


def test_the_sittings_stand_where_the_story_has_them(studio: None) -> None:
    with timezone.override(Profile.get().zone):
        found = [
            (s.client.name, timezone.localtime(s.starts_at), s.minutes, s.room.name, s.stage)
            for s in Sitting.objects.select_related("client", "room").order_by("starts_at")
        ]
    assert [(name, f"{at:%H:%M}", minutes, room) for name, at, minutes, room, _ in found] == [
        ("Ottoline and Bertram Askew", "09:30", 75, "Long Room"),
        ("Marrowfield Joinery", "11:30", 160, "Long Room"),
        ("Ignace Dorrow", "15:00", 60, "Garden Room"),
        ("The Pellinghams", "16:45", 75, "Long Room"),
        ("Juno Tarrant", "10:00", 75, "Long Room"),
    ]
    assert [at.date() - lindenmere.DAY for _, at, *_ in found] == [timedelta(0)] * 4 + [timedelta(1)]
    assert {stage for *_, stage in found} == {Stage.CONFIRMED}


def test_every_piece_a_plan_packs_is_held_from_set_up_to_strike(studio: None) -> None:
    for name in lindenmere.NUMBERS:
        sitting = lindenmere.sitting(name)
        packed = {row["item"] for row in lindenmere.plan(name).document["packing"]}
        held = Claim.objects.filter(sitting=sitting, resource_kind="kit")
        owned = {piece["id"] for section in lindenmere.tree(name)["kit"].values() for piece in section}
        assert held.count() == len(packed & owned) > 0
        assert {(c.starts_at, c.ends_at) for c in held} == {(sitting.setup_starts_at, sitting.strike_ends_at)}


@pytest.mark.parametrize(
    ("sign_in", "first_page"),
    [("maud", "/diary/"), ("tobiah", "/setups/"), ("ines", "/packing/"), ("harriet", "/studio/")],
)
def test_each_signs_in_with_the_printed_password_and_lands_on_their_own_page(
    studio: None, sign_in: str, first_page: str
) -> None:
    answer = Client().post("/sign-in/", {"username": sign_in, "password": scenario.PASSWORD}, follow=True)
    assert answer.redirect_chain[-1][0] == first_page
    assert answer.status_code == 200


def test_the_rooms_are_the_briefs_own(studio: None) -> None:
    sizes = {r.name: (r.width_m, r.depth_m, r.ceiling_m) for r in Room.objects.all()}
    assert sizes == {"Long Room": (9.0, 6.0, 3.2), "Garden Room": (5.0, 4.0, 2.6)}
