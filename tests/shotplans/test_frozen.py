"""What is read of a plan once for all: no page changes it, and what is blanked is not read from memory."""

from __future__ import annotations

import json
from typing import Any

import pytest

from shotplans.models import Plan, frozen
from tests import lindenmere

PLAN = "/sittings/L-0001/plans/1/"
PAGES = (
    PLAN, f"{PLAN}setups/1.pdf", f"{PLAN}packing.pdf", f"{PLAN}record/", f"{PLAN}walk/", f"{PLAN}strike/",
    f"{PLAN}place/", f"{PLAN}shots/", "/packing/?day=2026-12-03", "/sittings/L-0001/brief/",
)  # fmt: skip


def test_no_page_of_a_plan_changes_what_all_of_them_read(studio: None, monkeypatch: pytest.MonkeyPatch) -> None:
    read: dict[str, Any] = {}
    kept = frozen.read
    monkeypatch.setattr(frozen, "read", lambda text: read.setdefault(text, kept(text)))
    tobiah = lindenmere.client_of("photographer")
    for page in PAGES:
        assert tobiah.get(page).status_code == 200, page
    drawn = tobiah.get(PLAN).context["live"]
    assert drawn, "the set stands still"
    moved = [["light", "A", "distance_m", "2.0"]]
    answer = tobiah.post(f"{PLAN}setups/1/by-hand/", {"changes": json.dumps(moved)})
    assert answer.status_code == 200
    assert tobiah.post(f"{PLAN}what-if/", {"setup": "the pair", "change": "aperture", "value": "5.6"}).status_code < 500
    assert len(read) >= 2, "nothing was read"
    assert all(tree == json.loads(text) for text, tree in read.items())


def test_a_blanked_plan_is_not_read_from_memory(studio: None) -> None:
    plan = Plan.objects.get(pk=lindenmere.plan("askew").pk)
    before = plan.filled_request
    assert Plan.objects.get(pk=plan.pk).filled_request is before
    changed = plan.request | {"sitters": [sitter | {"label": "somebody"} for sitter in plan.request["sitters"]]}
    Plan.objects.filter(pk=plan.pk).update(request=changed)
    again = Plan.objects.get(pk=plan.pk)
    assert {sitter.label for sitter in again.filled_request.sitters} == {"somebody"}
    assert again.request == changed


def test_a_copy_may_be_changed(studio: None) -> None:
    plan = Plan.objects.get(pk=lindenmere.plan("askew").pk)
    plan.filled_request  # noqa: B018
    lindenmere.plan("askew").document["setups"].clear()
    assert Plan.objects.get(pk=plan.pk).document["setups"]
