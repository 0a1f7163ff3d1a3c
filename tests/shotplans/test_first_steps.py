"""The first five minutes of a new studio: its steps, the starter list of kit, and the sample."""

from __future__ import annotations

from io import BytesIO
from time import monotonic
from typing import Any

import pytest
from django.apps import apps
from django.test import Client
from pypdf import PdfReader

from bookings.models import Claim, Kind, Sitting
from bookings.refusals import Refusal
from shotplans import first_steps, snapshot
from shotplans.actions import sample
from shotplans.models import Plan, Reading, Sample
from studio.access import EVERY_ROLE
from studio.models import KitItem, Member, Profile, Room
from tests import cast
from tests.bookings.making import at
from tests.pages import Visitor
from tests.planned_once import reckoned_once
from tests.studio.forms import opened

pytestmark = pytest.mark.django_db


@pytest.fixture
def nell() -> Member:
    """An owner who works alone."""
    return cast.make_member(*EVERY_ROLE, name="Nell Orrin", short="NO")


def rows() -> dict[str, int]:
    """How many rows there are of everything, but for running numbers, which are never given twice."""
    counted = (model for model in apps.get_models() if model.__name__ not in ("NumberSeries", "Session"))
    return {model.__name__: model._default_manager.count() for model in counted}


def test_feature_72_a_sample_plans_and_prints_with_no_set_up_and_goes_again_whole(nell: Member) -> None:
    browser = cast.client_of(nell)
    assert browser.get("/").headers["Location"] == "/studio/"
    assert "Make the sample" in browser.get("/studio/").content.decode()
    before, began = rows(), monotonic()
    with reckoned_once():
        answer = browser.post("/sample/make/")
    plan = Plan.objects.get()
    assert not plan.document["problems"]
    assert answer.headers["Location"] == f"/sittings/{plan.sitting.number}/plans/1/"
    page = browser.get(answer.headers["Location"]).content.decode()
    assert "Delphine and Rufus Marchbank (sample)" in page
    sheet = b"".join(browser.get(f"/sittings/{plan.sitting.number}/plans/1/setups/1.pdf"))
    assert monotonic() - began < 60, "under five minutes was promised; seconds are meant"
    text = "".join(page.extract_text() for page in PdfReader(BytesIO(sheet)).pages)
    assert "Sample room" in text
    assert "Photographer Nell Orrin. " in text, "who works alone has no assistant"
    assert "150 cm octabox, two cloths, sample" in text
    # What was entered on it goes with it.
    cast.client_of(nell).get(f"/sittings/{plan.sitting.number}/plans/1/record/")
    setup = plan.setups[0]["name"]
    sent = {"setup": setup, "step": "1", "text": "5.6 4"}
    browser.post(f"/sittings/{plan.sitting.number}/plans/1/record/readings/", sent)
    assert Reading.objects.count() == 1
    assert browser.post("/sample/take-away/").headers["Location"] == "/studio/"
    assert rows() == before


def test_the_sample_goes_and_nothing_else_of_the_house_is_touched(nell: Member) -> None:
    own = cast.make_room("Long Room")
    octabox = cast.make_kit("modifiers", "octa150-1")
    with reckoned_once():
        plan = sample.make(by=nell)
    packed = {row["item"] for row in plan.document["packing"]}
    assert octabox.code not in packed, "the sample is planned with its own kit"
    real = Sitting.objects.create(
        number="N-0009", client=plan.sitting.client, kind=plan.sitting.kind, room=own, photographer=nell,
        starts_at=at(15), minutes=60,
    )  # fmt: skip
    free = snapshot.free_kit(real)
    assert [piece["id"] for piece in free["modifiers"]] == ["octa150-1"], "nobody is planned with the sample's kit"
    with pytest.raises(Refusal, match="There is a sample already"):
        sample.make(by=nell)
    with pytest.raises(Refusal, match=r"something of the house stands on it \(sitting\)"):
        sample.take_away()
    assert Sample.objects.exists()
    assert Plan.objects.exists(), "refused, all of it stays"
    real.client = type(real.client).objects.create(name="Marrowfield Joinery")
    real.kind = Kind.objects.create(name="Headshots", minutes=30)
    real.save()
    held = Claim.objects.create(
        sitting=real, resource_kind="room", resource_id=plan.sitting.room_id, starts_at=at(14), ends_at=at(16)
    )
    with pytest.raises(Refusal, match="N-0009, Joinery holds its room or kit"):
        sample.take_away()
    held.delete()
    sample.take_away()
    assert list(Room.objects.all()) == [own]
    assert list(KitItem.objects.values_list("code", flat=True)) == ["octa150-1"]
    assert list(Sitting.objects.all()) == [real]
    with pytest.raises(Refusal, match="taken away already"):
        sample.take_away()


def test_a_sample_needs_somebody_who_photographs() -> None:
    harriet = cast.make_member("owner")
    page = Visitor(cast.client_of(harriet))
    answer = page.client.post("/sample/make/", follow=True)
    assert "Nobody photographs here yet" in answer.content.decode()
    assert not KitItem.objects.exists()


def test_the_steps_say_what_is_done_and_what_comes_next(nell: Member) -> None:
    browser = cast.client_of(nell)
    assert first_steps.today().next == "profile"
    Profile.objects.create(pk=1, studio_name="Lindenmere Portraits")
    cast.make_room()
    page = browser.get("/studio/").content.decode()
    assert "no plan can do without: heads, modifiers, stands and booms, backgrounds, cameras, lenses" in page
    form = opened(browser, "/kit/of-all/starter/")
    assert form["n-h400"] == "2", "what most studios own stands there already"
    assert browser.post("/kit/of-all/starter/", form).headers["Location"] == "/studio/"
    assert KitItem.objects.filter(code="octa150-1", label="150 cm octabox, two cloths").exists()
    assert first_steps.today().next == "kind"
    Kind.objects.create(name="Headshots", minutes=30)
    assert first_steps.today().next == "sitting"


@pytest.mark.parametrize("junk", [{}, {"n-h400": "many"}, {"n-h400": "-1"}, {"n-h400": "13"}, {"n-none": "2"}])
def test_a_starter_list_that_says_nothing_or_nonsense_is_refused(nell: Member, junk: dict[str, Any]) -> None:
    browser = cast.client_of(nell)
    answer = browser.post("/kit/of-all/starter/", junk | {"n-h200": "0"})
    assert answer.status_code == 422
    assert not KitItem.objects.exists()
    if len(junk.get("n-h400", "")) > 1:
        assert f'value="{junk["n-h400"]}"' in answer.content.decode()


def test_what_is_owned_already_keeps_its_code(nell: Member, client: Client) -> None:
    cast.make_kit("heads", "h400-1")
    browser = cast.client_of(nell)
    assert opened(browser, "/kit/of-all/starter/")["n-h400"] == "0"
    browser.post("/kit/of-all/starter/", {"n-h400": "2"})
    assert sorted(KitItem.objects.values_list("code", flat=True)) == ["h400-1", "h400-2", "h400-3"]
