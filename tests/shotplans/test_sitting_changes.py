"""A changed sitting and its light: the plan is out of date, kit moves along, the brief keeps its people's names."""

from __future__ import annotations

import io
from datetime import timedelta

import pytest
from pypdf import PdfReader

from shotplans import paper, snapshot
from shotplans.actions import plans
from shotplans.models import Brief
from studio.models import Profile
from tests import lindenmere
from tests.pages import Visitor

ASKEW = lindenmere.NUMBERS["askew"]
SAVE = "Save"


@pytest.fixture
def maud(studio: None) -> Visitor:
    visitor = lindenmere.visitor("front_desk")
    visitor.open(f"/sittings/{ASKEW}/change/")
    return visitor


def people_of_the_brief() -> list[list[str]]:
    return [setup["people"] for setup in lindenmere.sitting("askew").brief.data["setups"]]


@pytest.mark.parametrize(
    "typed", [{"people-0-age_years": "71"}, {"people-1-label": "Bert"}, {"people-0-posture": "standing"}]
)
def test_a_corrected_person_makes_the_plan_out_of_date(maud: Visitor, typed: dict[str, str]) -> None:
    assert maud.press(SAVE, typed).address == f"/sittings/{ASKEW}/"
    assert snapshot.is_stale(lindenmere.plan("askew"))
    words = lindenmere.visitor("photographer").open(f"/sittings/{ASKEW}/plans/1/").words
    assert "Make a new version before you build." in words


def test_another_room_makes_the_plan_out_of_date(maud: Visitor) -> None:
    garden = lindenmere.sitting("dorrow").room
    assert maud.press(SAVE, {"room": str(garden.pk)}).address == f"/sittings/{ASKEW}/"
    assert snapshot.is_stale(lindenmere.plan("askew"))


def test_kit_moves_with_the_time_and_the_plan_stands_while_the_same_kit_is_free(maud: Visitor) -> None:
    def held() -> dict[int, object]:
        rows = lindenmere.sitting("askew").claims.filter(resource_kind="kit")
        return dict(rows.values_list("resource_id", "starts_at"))

    before = held()
    assert before
    start = lindenmere.sitting("askew").starts_at
    assert maud.press(SAVE, {"time": f"{start - timedelta(minutes=10):%H:%M}"}).address == f"/sittings/{ASKEW}/"
    assert held() == {pk: at - timedelta(minutes=10) for pk, at in before.items()}
    assert not snapshot.is_stale(lindenmere.plan("askew"))


def test_a_new_short_name_is_carried_into_the_brief_and_a_new_plan_can_be_made(maud: Visitor) -> None:
    before, version = people_of_the_brief(), lindenmere.sitting("askew").brief.version
    shots = lindenmere.plan("askew").document["shots"]
    assert [s["who"] for s in shots if s["words"] == "Bertram alone."] == [["Bertram"]]
    maud.press(SAVE, {"people-1-label": "Bert"})
    renamed = [["Bert" if label == "Bertram" else label for label in people] for people in before]
    assert people_of_the_brief() == renamed != before
    assert lindenmere.sitting("askew").brief.version == version + 1
    tobiah = lindenmere.visitor("photographer")
    tobiah.open(f"/sittings/{ASKEW}/brief/")
    tobiah.press("Make a new version of the plan")
    assert [s["label"] for s in lindenmere.plan("askew").document["setups"][0]["sitters"]] == ["Ottoline", "Bert"]
    assert lindenmere.plan("askew").number == 2
    anew = lindenmere.plan("askew").document["shots"]
    assert [s["who"] for s in anew if s["words"] == "Bert alone."] == [["Bert"]]
    assert [s["key"] for s in anew] == [s["key"] for s in shots]  # a tick of before counts


def test_a_new_short_name_is_carried_to_who_holds_a_prop(maud: Visitor) -> None:
    brief = lindenmere.sitting("askew").brief
    brief.data["props"] = [{"label": "album", "held_by": "Bertram"}, {"label": "stick", "held_by": "Ottoline"}]
    brief.save()
    maud.press(SAVE, {"people-1-label": "Bert"})
    assert [prop["held_by"] for prop in lindenmere.sitting("askew").brief.data["props"]] == ["Bert", "Ottoline"]


def test_a_correction_that_renames_nobody_leaves_the_brief_as_it_was(maud: Visitor) -> None:
    version = lindenmere.sitting("askew").brief.version
    maud.press(SAVE, {"people-0-age_years": "71"})
    assert lindenmere.sitting("askew").brief.version == version


def test_somebody_the_brief_names_stays_until_the_brief_lets_go(maud: Visitor) -> None:
    page = maud.press(SAVE, {"people-1-DELETE": "on", "people-0-keep_with": ""})
    assert page.status == 422
    assert "Bertram is named in the brief's set-up “" in page.words
    assert lindenmere.sitting("askew").sitters.count() == 2
    brief = Brief.objects.get(sitting__number=ASKEW)
    for setup in brief.data["setups"]:
        setup["people"] = ["Ottoline"]
    brief.save()
    maud.press(SAVE)
    assert [sitter.label for sitter in lindenmere.sitting("askew").sitters.all()] == ["Ottoline"]
    assert snapshot.is_stale(lindenmere.plan("askew"))


def test_without_a_brief_nobody_is_held(maud: Visitor) -> None:
    lindenmere.sitting("askew").brief.delete()
    maud.press(SAVE, {"people-0-label": "Otti", "people-1-DELETE": "on", "people-0-keep_with": ""})
    assert [sitter.label for sitter in lindenmere.sitting("askew").sitters.all()] == ["Otti"]


def test_what_the_brief_says_otherwise_since_is_told_on_its_page_until_it_is_confirmed_again(maud: Visitor) -> None:
    """Purpose, print and minutes stand in the brief too, so the plan does not follow the desk's change by itself."""
    tobiah = lindenmere.visitor("photographer")
    told = "width of the print from 75 cm to 90 cm by Maud Ferriby"
    assert "since the brief was confirmed" not in tobiah.open(f"/sittings/{ASKEW}/brief/").words
    maud.press(SAVE, {"print_width_cm": "90", "people-0-age_years": "67"})
    words = tobiah.open(f"/sittings/{ASKEW}/brief/").words
    assert told in words
    assert "details of" not in words
    tobiah.press("Confirm the brief", {"print_width_cm": "90"})
    assert told not in tobiah.page.words


def alerts(name: str) -> list[set[str]]:
    return [set(sheet.alerts) for sheet in paper.sheets(lindenmere.plan(name), Profile.get())]


def test_no_alert_goes_missing_from_a_plan_s_sheet_because_somebody_was_renamed_or_taken_out(studio: None) -> None:
    """An alert is due on the old sheet until a new plan is made; it says itself that it is out of date."""
    marrowfield = lindenmere.sitting("marrowfield")
    before = alerts("marrowfield")
    assert before[0] == {"NO FLASH"}
    noted = marrowfield.sitters.get(notes__no_flash=True)
    noted.label = "Somebody else"
    noted.save()
    assert alerts("marrowfield")[0] >= {"NO FLASH", "PLAN OUT OF DATE"}
    noted.delete()
    assert alerts("marrowfield")[0] >= {"NO FLASH", "PLAN OUT OF DATE"}


def test_a_note_on_somebody_new_or_newly_named_is_heeded_on_every_set_up_of_the_old_plan(studio: None) -> None:
    dorrow = lindenmere.sitting("dorrow").sitters.get()
    assert alerts("dorrow") == [{"CHAIR WITH ARMS"}]
    dorrow.label, dorrow.notes.no_flash = "Iggy", True
    dorrow.save()
    dorrow.notes.save()
    assert alerts("dorrow") == [{"CHAIR WITH ARMS", "NO FLASH", "PLAN OUT OF DATE"}]


def test_a_superseded_plan_says_on_paper_that_it_is_out_of_date(studio: None) -> None:
    former = lindenmere.plan("dorrow")
    plans.make_plan(by=lindenmere.member("photographer"), sitting=lindenmere.sitting("dorrow"))
    former.refresh_from_db()
    assert "PLAN OUT OF DATE" in paper.sheets(former, Profile.get())[0].alerts
    assert "PLAN OUT OF DATE" in "".join(page.extract_text() for page in PdfReader(
        io.BytesIO(paper.setup_pdfs(former, Profile.get())[0])).pages)  # fmt: skip
    assert alerts("dorrow") == [{"CHAIR WITH ARMS"}]
