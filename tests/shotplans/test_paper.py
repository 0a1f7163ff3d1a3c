"""Sheets and packing lists from rows: right headers, the plan's own numbers, and consequences instead of conditions."""

from __future__ import annotations

import re
from io import BytesIO

import pytest
from django.http import HttpResponse
from django.urls import reverse
from pypdf import PdfReader

from bookings.models import Notes
from shotplans import paper
from shotplans.actions import plans
from studio.models import Member, Profile
from tests import lindenmere
from tests.sheets.reading import words_of

# What the notes call a condition, in their own words and in those a reader would guess it from.
CONDITIONS = (
    "texture", "wrinkle", "lines", "deep", "beard", "bald", "skin", "tan", "shiny", "hip", "back pain", "hearing",
    "deaf", "vision", "tremor", "shak", "sensory", "autis", "epilep", "seizure", "migraine", "flashing", "medical",
    "wish", "softer", "scar", "turn limit", "chin limit", "walk", "years old",
)  # fmt: skip
# Phrases of the trade that hold one of these words and tell nothing about anybody.
PLAIN = ("hazard walk", "calm on lines", "texture shown, shape drawn")


def sheets(name: str) -> list[str]:
    return [words_of(data) for data in paper.setup_pdfs(lindenmere.plan(name), Profile.get())]


def get(name: str, file: str, role: str = "assistant") -> HttpResponse:
    return lindenmere.client_of(role).get(f"/sittings/{lindenmere.NUMBERS[name]}/plans/1/{file}")


@pytest.mark.parametrize(
    ("file", "saved_as"),
    [("setups/1.pdf", "L-0005-plan-1-setup-1.pdf"), ("setups/2.pdf", "L-0005-plan-1-setup-2.pdf"),
     ("packing.pdf", "L-0005-plan-1-packing.pdf")],
)  # fmt: skip
def test_paper_comes_as_a_pdf_that_no_cache_keeps(studio: None, file: str, saved_as: str) -> None:
    answer = get("tarrant", file)
    assert answer["Content-Type"] == "application/pdf"
    assert answer["Content-Disposition"] == f'inline; filename="{saved_as}"'
    assert "private" in answer["Cache-Control"]
    assert "no-store" in answer["Cache-Control"]
    assert answer.content.startswith(b"%PDF-")


@pytest.mark.parametrize("file", ["setups/0.pdf", "setups/3.pdf", "setups/99999999999999999999.pdf"])
def test_a_sheet_the_plan_does_not_have_is_not_found(studio: None, file: str) -> None:
    assert get("tarrant", file).status_code == 404


@pytest.mark.parametrize("name", list(lindenmere.NUMBERS))
def test_the_sheet_and_the_page_say_the_same_numbers(studio: None, name: str) -> None:
    plan = lindenmere.plan(name)
    address = reverse("plan", args=[plan.sitting.number, plan.number])
    page = lindenmere.visitor("assistant").open(address).words
    for content, sheet in zip(paper.sheets(plan, Profile.get()), sheets(name), strict=True):
        for row in content.lights:
            for said in (row.power, row.distance, row.bearing, row.height, row.target, row.modifier, row.stand):
                assert said in sheet, said
                assert said in page, said
        for value in content.camera:
            assert value.value in sheet
            assert value.value in page


def test_the_head_of_the_sheet_has_the_sittings_three_times_in_the_studios_zone(studio: None) -> None:
    assert "L-0001 Askew Thu 3 Dec 2026, Long Room." in sheets("askew")[0]
    assert "set-up 09:00 sitter 09:30 finish 10:45" in sheets("askew")[0]
    assert "Photographer Tobiah Renn, assistant Ines Calloway." in sheets("askew")[0]
    profile = Profile.get()
    profile.time_zone = "Asia/Tokyo"
    profile.save()
    client = lindenmere.client_of("assistant")
    moved = words_of(client.get("/sittings/L-0001/plans/1/setups/1.pdf").content)
    assert "set-up 18:00 sitter 18:30 finish 19:45" in moved  # Tokyo is nine hours ahead, no summer time


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("askew", [{"CHAIR WITH ARMS", "GLASSES"}]),
        ("marrowfield", [{"NO FLASH"}, {"GLASSES"}]),
        ("dorrow", [{"CHAIR WITH ARMS"}]),
        ("pellingham", [{"CHAIR WITH ARMS", "GLASSES", "GUARDIAN IN ROOM"}]),
        ("tarrant", [{"GUARDIAN IN ROOM", "RELEASE NOT SIGNED"}, {"GUARDIAN IN ROOM", "RELEASE NOT SIGNED"}]),
    ],
)
def test_alerts_are_what_to_do_on_this_set(studio: None, name: str, expected: list[set[str]]) -> None:
    made = paper.sheets(lindenmere.plan(name), Profile.get())
    assert [set(sheet.alerts) for sheet in made] == expected
    for sheet, text in zip(made, sheets(name), strict=True):
        assert all(alert in text for alert in sheet.alerts)


def telling(text: str) -> list[str]:
    plain = text.lower()
    for phrase in PLAIN:
        plain = plain.replace(phrase, "")
    return [word for word in CONDITIONS if re.search(rf"\b{word}", plain)]


@pytest.mark.parametrize("name", list(lindenmere.NUMBERS))
def test_no_word_for_a_condition_is_on_paper(studio: None, name: str) -> None:
    plan = lindenmere.plan(name)
    packing = words_of(paper.packing_pdf([plan], Profile.get()))
    assert [telling(text) for text in [*sheets(name), packing]] == [[]] * (len(plan.setups) + 1)


def test_whatever_is_noted_of_a_person_paper_says_no_more_than_what_to_do(studio: None) -> None:
    """Everything the notes can say, said of one sitter and planned anew."""
    sitting = lindenmere.sitting("dorrow")
    notes = sitting.sitters.get().notes
    said = {"hip_or_back": True, "no_flash": True, "hearing": True, "low_vision": True, "tremor": True,
            "sensory": True, "turn_limit_deg": 10, "chin_limit_deg": 5, "stand_minutes": 2, "texture": "deep lines",
            "surface": "shiny", "skin": "tan", "eyes": "deep set", "head": "bald",
            "shy": True, "broad_seat": True, "big_hair": True}  # fmt: skip
    Notes.objects.filter(pk=notes.pk).update(**said)
    plan = plans.make_plan(by=lindenmere.member("photographer"), sitting=lindenmere.sitting("dorrow"))
    for content, data in zip(paper.sheets(plan, Profile.get()), paper.setup_pdfs(plan, Profile.get()), strict=True):
        assert {"NO FLASH", "CHAIR WITH ARMS"} <= set(content.alerts)
        assert telling(words_of(data)) == []


def test_no_reason_is_on_paper(studio: None) -> None:
    for name in lindenmere.NUMBERS:
        plan = lindenmere.plan(name)
        said = " ".join([*sheets(name), words_of(paper.packing_pdf([plan], Profile.get()))])
        assert [r for s in plan.setups for r in s["reasons"] if " ".join(r["because"].split()) in said] == []


def test_the_days_packing_list_has_every_piece_once_and_each_sitting_it_is_for(studio: None) -> None:
    plans = [lindenmere.plan(name) for name in ("askew", "marrowfield", "dorrow", "pellingham")]
    text = words_of(paper.packing_pdf(plans, Profile.get()))
    for row in (row for plan in plans for row in plan.document["packing"]):
        assert row["item"] in text or row["label"] in text, row
    for plan in plans:
        assert plan.sitting.number in text


def test_paper_names_the_owner_of_no_note_in_its_file_name_or_title(studio: None) -> None:
    answer = get("dorrow", "setups/1.pdf")
    title = PdfReader(BytesIO(answer.content)).metadata
    assert "Ignace" in words_of(answer.content)
    assert "Ignace" not in answer["Content-Disposition"]
    assert "Ignace" not in str(title)


def test_paper_is_the_houses_whatever_a_reader_measures_in(studio: None) -> None:
    """A sheet on a stand is read by everybody; a screen by one."""
    member = lindenmere.member("photographer")
    Member.objects.filter(pk=member.pk).update(units="imperial")
    browser = lindenmere.client_of("photographer")
    page = browser.get("/sittings/L-0001/plans/1/").content.decode()
    assert re.search(r"\d ft \d", page)
    sheet = words_of(get("askew", "setups/1.pdf", "photographer").content)
    assert not re.search(r"\d ft", sheet)
    assert re.search(r"\d\.\d\d m", sheet)
