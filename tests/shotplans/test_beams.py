"""A beam from a laboratory's file: brought in for a head with a modifier, planned by, and taken out of use."""

from __future__ import annotations

import io
import json
from pathlib import Path

import numpy as np
import pytest
from django.test import Client

from shotplans import measured_beams
from shotplans.models import MeasuredBeam
from shotplans.planner import codec
from shotplans.planner.pairs import emitters
from shotplans.sheets import compose, scene
from tests import cast, planned_once
from tests.planner import smallest
from tests.records.test_lm63 import CONE, file

pytestmark = pytest.mark.django_db


@pytest.fixture
def owner() -> Client:
    for code in ("h400-1", "h400-2"):
        cast.make_kit("heads", code)
    cast.make_kit("heads", "h200-1", f_number_1m_iso100=45)
    cast.make_kit("modifiers", "octa150-1")
    return cast.client_of(cast.make_member("owner"))


def send(owner: Client, content: bytes, head: str = "h400-1") -> str:
    pieces = {one["code"]: one["pk"] for one in cast.KitItem.objects.values("code", "pk")}
    sent = io.BytesIO(content)
    sent.name = "octa.ies"
    form = {"head": pieces[head], "modifier": pieces["octa150-1"], "file": sent}
    return owner.post("/beams/", form, follow=True).content.decode()


def test_a_file_is_kept_for_a_pair_and_for_its_like_and_taken_out_again(owner: Client) -> None:
    # A kept beam is known degree by degree: half way from 30 to 31.
    assert "842 lm in the file, 61 degrees wide at half" in send(owner, file(CONE, [[1000, 1000, 0, 0]]))
    kit = {"heads": [{"id": "h400-1", "f": 64}, {"id": "h400-2", "f": 64}, {"id": "h200-1", "f": 45}],
           "modifiers": [{"id": "octa150-1"}]}  # fmt: skip
    assert [(b["head"], b["modifier"]) for b in measured_beams.for_kit(kit)] == [
        ("h400-1", "octa150-1"), ("h400-2", "octa150-1"),
    ]  # fmt: skip
    send(owner, file(CONE, [[900, 900, 0, 0]]))
    row = MeasuredBeam.objects.in_force().get()
    assert row.flux_lm == pytest.approx(757.61, abs=0.02)
    trail = owner.get("/audit/", {"what": "kit"}).content.decode()
    assert "Measured beam of h400-1 with octa150-1" in trail
    assert owner.post(f"/beams/{row.pk}/take-out/").status_code == 302
    assert measured_beams.for_kit(kit) == []
    assert MeasuredBeam.objects.count() == 2


def test_a_file_that_is_none_is_refused_with_its_line_beside_the_field(owner: Client) -> None:
    page = send(owner, file(CONE, [[1000, 1000, 0]]))
    assert "Line 9: the file ends where an intensity should stand." in page
    assert "Choose one of the list." in owner.post("/beams/", {"head": "x"}).content.decode()
    assert not MeasuredBeam.objects.exists()


def test_with_a_file_the_falloff_over_angle_comes_from_it() -> None:
    tree = smallest.everything()
    bare = codec.understand(tree | {"beams": []})
    shares = [1.0 if a < 30 else 0.5 if a < 60 else 0.0 for a in range(91)]
    tree["beams"] = [{"head": "h400-1", "modifier": "octa150-1", "shares": shares}]
    asked = codec.understand(tree)
    assert codec.fingerprint(asked) != codec.fingerprint(bare)

    def at(request, off_deg: float) -> float:
        (pair,) = (e for e in emitters(request.kit, request.corrections, steady=False, measured=request.beams))
        place = 20.0 * np.array([np.sin(np.radians(off_deg)), 0.0, np.cos(np.radians(off_deg))])
        return float(np.linalg.norm(pair.vector(place, np.zeros(3), np.array([0.0, 0.0, 1.0]))))

    assert at(asked, 0) == pytest.approx(at(bare, 0)), "how strong it is on the axis stays as rated"
    assert [at(asked, off) / at(asked, 0) for off in (20, 45, 70)] == pytest.approx([1.0, 0.5, 0.0], abs=0.01)
    assert at(bare, 20) / at(bare, 0) < 0.5, "of a grid of 60 degrees a third is left there"


def test_a_request_without_beams_is_the_request_it_was() -> None:
    tree = smallest.everything()
    del tree["beams"]
    assert codec.fingerprint(codec.understand(tree)) == codec.fingerprint(codec.understand(tree | {"beams": []}))
    tree["beams"] = [{"head": "nobody", "modifier": "octa150-1", "shares": [1, 0]}]
    with pytest.raises(codec.Unreadable, match="is no head"):
        codec.understand(tree)


def test_a_plan_with_a_measured_beam_has_the_darker_ground_that_a_narrower_beam_leaves() -> None:
    tree = json.loads((Path(__file__).parents[2] / "fixtures" / "briefs" / "dorrow.json").read_bytes())
    rated = planned_once.plan(codec.understand(tree))
    key = rated["setups"][0]["lights"][0]
    shares = [np.cos(np.radians(off)) ** 8 for off in range(0, 91, 5)]
    tree["beams"] = [{"head": key["head"], "modifier": key["modifier"], "shares": shares}]
    measured = planned_once.plan(codec.understand(tree))
    assert measured["problems"] == []
    grounds = [plan["setups"][0]["background"] for plan in (rated, measured)]
    drawn = scene.read(rated["setups"][0], compose.filled(codec.understand(tree)))
    assert drawn.sources[0].beam_deg == pytest.approx(2 * np.degrees(np.arccos(0.5 ** (1 / 8))), abs=0.3)  # cos^8, half
    assert grounds[1]["reading_below_setting_stops"] > grounds[0]["reading_below_setting_stops"] + 0.3


def test_a_head_by_a_number_that_no_database_holds_is_refused_beside_the_field(owner: Client) -> None:
    answer = owner.post("/beams/", {"head": "9" * 60, "modifier": "1"})
    assert answer.status_code in (200, 422)
    assert "Choose one of the list." in answer.content.decode()
