"""The set moved by hand on its pages: asked without a script and with one, kept with a reason, refused in sentences."""

from __future__ import annotations

import io
import json
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from pypdf import PdfReader

from bookings.models import Claim
from shotplans import snapshot
from shotplans.models import Plan
from shotplans.planner import assumptions, by_hand, codec, forecast
from studio.models import KitItem, Profile
from tests import cast
from tests.bookings.making import House
from tests.pages import Visitor

NUMBER = "L-0001"
PLAN = f"/sittings/{NUMBER}/plans/1/"
ASK, KEEP = f"{PLAN}setups/1/by-hand/", f"{PLAN}setups/1/keep/"
ROLLED = forecast.Change("light", "A", by_hand.FLOOR, "-1.5 1.2")


@pytest.fixture
def tobiah(askew_house: House, db: None) -> Client:
    return cast.client_of(askew_house.members["photographer"])


def current() -> Plan:
    return Plan.objects.current().select_related("sitting").get(sitting__number=NUMBER)


def engine(*gestures: forecast.Change) -> forecast.Forecast:
    """What the planner itself says of these gestures, one after the other."""
    plan = current()
    of = forecast.base(assumptions.fill(codec.understand(plan.request))[0], plan.setups[0])
    found = forecast.answer(of)
    for gesture in gestures:
        found = forecast.answer(of, found.changes, gesture)
    return found


def state(found: forecast.Forecast) -> str:
    return json.dumps([[c.thing, c.name, c.key, c.value] for c in found.changes])


def asked(client: Client, **fields: str) -> dict[str, Any]:
    answer = client.post(ASK, {"changes": "[]", **fields}, headers={"X-Fragment": "live"})
    assert answer.status_code == 200
    found: dict[str, Any] = answer.json()
    return found


def test_a_script_gets_the_engines_own_numbers_and_nothing_is_written(tobiah: Client) -> None:
    asked(tobiah)  # the set-up is read back once
    with CaptureQueriesContext(connection) as seen:
        found = asked(tobiah, thing="light", name="A", key=by_hand.ARROW, value="up")
    assert not [q for q in seen.captured_queries if q["sql"].startswith(("INSERT", "UPDATE", "DELETE"))]
    assert len(seen.captured_queries) <= 6, [q["sql"] for q in seen.captured_queries]
    wanted = engine(forecast.Change("light", "A", by_hand.ARROW, "up"))
    light = wanted.setup["lights"][0]
    assert found["changes"] == state(wanted)
    assert found["cells"]["light|A|distance_m"][:2] == [f"{light['distance_m']:.2f}", "suggested 2.10"]
    assert wanted.setup["expected"]["setting_reading"]["shown"] in found["answer"]
    assert found["room"] is None  # the walls stand


def test_by_the_form_alone_a_value_is_moved_looked_at_and_kept_with_its_reason(tobiah: Client) -> None:
    visitor = Visitor(tobiah)
    visitor.open(PLAN)
    assert "at Ottoline's face" in visitor.page.words
    visitor.press("Move it so", {"light|A|bearing_deg": "-41"})
    assert "suggested -20" in visitor.page.words
    assert "A, key: bearing -40°" in visitor.page.words
    moved = state(engine(forecast.Change("light", "A", "bearing_deg", "-40")))
    kept = visitor.client.post(KEEP, {"changes": moved, "why": "The door stays free."}, follow=True).content.decode()
    plan = current()
    assert (plan.number, plan.why) == (2, "The door stays free.")
    assert "<strong>A, bearing</strong> 40° left, suggested 20° left: The door stays free." in kept
    assert "key: bearing 40° left, before 20° left" in kept
    former = Plan.objects.get(sitting=plan.sitting, number=1)
    assert plan.setups[0]["alternatives"] == former.setups[0]["alternatives"] != []
    assert "weighed against what was suggested" in kept
    assert (plan.fingerprint, snapshot.is_stale(plan)) == (former.fingerprint, snapshot.is_stale(former))
    held = Claim.objects.filter(sitting=plan.sitting, resource_kind="kit").values("resource_id")
    packed = KitItem.objects.filter(code__in={row["item"] for row in plan.document["packing"]})
    assert set(KitItem.objects.filter(pk__in=held)) == set(packed)
    base = f"/sittings/{NUMBER}/plans/2/"
    for rest in ("record/", "record/rounds/1/1/", "walk/", "strike/", "place/", "shots/", "setups/1/meter.pdf"):
        assert visitor.client.get(base + rest).status_code == 200, rest
    pages = PdfReader(io.BytesIO(visitor.client.get(f"{base}setups/1.pdf").content)).pages
    sheet = " ".join("".join(page.extract_text() for page in pages).split())
    assert "40° left (suggested 20° left)" in sheet
    assert "door" not in sheet  # a reason may cite what is known of somebody: it is the page's alone


def test_without_a_reason_nothing_is_kept_and_nothing_is_lost(tobiah: Client) -> None:
    moved = state(engine(ROLLED))
    answer = tobiah.post(KEEP, {"changes": moved, "why": "  "})
    assert answer.status_code == 422
    assert "Say why it stands otherwise" in answer.content.decode()
    assert moved.replace('"', "&quot;") in answer.content.decode()
    assert current().number == 1


def test_a_superseded_plan_is_not_kept_over_a_newer_one(tobiah: Client) -> None:
    moved = state(engine(ROLLED))
    assert tobiah.post(KEEP, {"changes": moved, "why": "first"}).status_code == 302
    answer = tobiah.post(KEEP, {"changes": moved, "why": "again, from an old page"})
    assert answer.status_code == 422
    assert "Another version took this plan" in answer.content.decode()
    assert current().number == 2
    as_it_is = tobiah.post(f"/sittings/{NUMBER}/plans/2/setups/1/keep/", {"changes": moved, "why": "nothing new"})
    assert "nothing to keep" in as_it_is.content.decode()


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"changes": "[[1]]"}, "could not be read"),
        ({"changes": "{" * 3000}, "could not be read"),
        ({"changes": '[["light", "A", "place_m", "0 0 900"]]'}, "cannot be set"),
        ({"thing": "light", "name": "Q", "key": "arrow", "value": "up"}, "no light Q"),
        ({"thing": "light", "name": "A", "key": "sheet", "value": "plan x y", "ruler": "0"}, "could not be read"),
        ({"thing": "light", "name": "A", "key": "sheet", "value": "plan 3 nan", "ruler": "1 1 1 1 1 1 1 1 1"}, "read"),
        ({"light|A|distance_m": "far"}, "distance, m: far is not a number"),
        ({"camera||height_m": "9"}, "cannot be set"),
    ],
)
def test_what_cannot_be_set_is_said_and_the_set_stays(tobiah: Client, fields: dict[str, str], sentence: str) -> None:
    found = asked(tobiah, **fields)
    assert sentence in found["refused"]
    assert found["changes"] == "[]"


def test_where_a_light_points_is_chosen_by_name_and_typed_in_degrees(tobiah: Client) -> None:
    before = asked(tobiah)["cells"]["light|A|aim_m"]
    words = {said: at for at, said in before[2]}
    assert {"at Ottoline's face", "between the faces", "at the middle of the ground"} <= set(words)
    found = asked(tobiah, **{"light|A|aim_m": words["at Ottoline's face"]})
    suggested = f"suggested {dict(before[2])[before[0]]}"
    assert found["cells"]["light|A|aim_m"][:2] == [words["at Ottoline's face"], suggested]
    assert "A, key: points at Ottoline's face" in found["says"]
    turned = asked(tobiah, changes=found["changes"], **{"light|A|turn_deg": "-10"})
    assert turned["cells"]["light|A|turn_deg"][0] == "-10"
    assert "10 degrees past the middle, on the ground's side" in turned["says"]
    assert "not a number" in asked(tobiah, **{"light|A|aim_m": "the cat"})["refused"]


def test_in_feet_and_inches_the_same_is_typed_and_shown(tobiah: Client) -> None:
    Profile.objects.update(units="imperial")
    found = asked(tobiah, **{"camera||distance_m": "8 ft"})
    assert found["cells"]["camera||distance_m"][0].startswith("8 ft")
