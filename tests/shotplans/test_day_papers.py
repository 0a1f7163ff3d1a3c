"""A day on paper: one file with a bookmark for each, one command, change-overs as differences, old sheets found out."""

from __future__ import annotations

from datetime import timedelta
from io import BytesIO, StringIO
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command
from django.utils import timezone
from pypdf import PdfReader

from bookings.models import Sitting
from shotplans import day_papers, paper, scenario_rota, workbench
from shotplans.actions import plans
from shotplans.models import Plan
from studio import clock
from studio.models import Profile
from tests import lindenmere
from tests.sheets.reading import codes_of, faults, words_of


def day_of(name: str = "askew") -> Any:
    return timezone.localdate(lindenmere.plan(name).sitting.starts_at, Profile.get().zone)


def get(path: str, role: str = "assistant") -> Any:
    return lindenmere.client_of(role).get(path)


def test_the_day_is_one_file_with_a_bookmark_for_each_paper(studio: None) -> None:
    answer = get(f"/day/papers.pdf?day={day_of():%Y-%m-%d}")
    assert answer["Content-Type"] == "application/pdf"
    assert "no-store" in answer["Cache-Control"]
    read = PdfReader(BytesIO(answer.content))
    with timezone.override(Profile.get().zone):
        wanted = [p.document.title for p in day_papers.papers(day_of(), Profile.get())]
    assert [entry.title for entry in read.outline] == wanted
    assert sum("Meter card" in title for title in wanted) == 5  # four sittings, the joinery's in two set-ups
    pages = [read.get_destination_page_number(entry) for entry in read.outline]
    assert pages == sorted(set(pages))
    assert pages[0] == 0
    assert list(faults(answer.content)) == []


def test_the_door_list_of_a_headshot_day_is_in_the_day_s_one_file(
    studio: None, django_assert_max_num_queries: Any
) -> None:
    scenario_rota.give_places()
    with timezone.override(Profile.get().zone), django_assert_max_num_queries(12):
        found = list(day_papers.door_lists(workbench.planned_on(day_of()), Profile.get(), clock.now()))
    assert [one.file for one in found] == ["l-0002-marrowfield-joinery-door-list.pdf"]
    answer = get(f"/day/papers.pdf?day={day_of():%Y-%m-%d}")
    titles = [entry.title for entry in PdfReader(BytesIO(answer.content)).outline]
    assert titles[1] == "Door list, Marrowfield Joinery"  # after the wall's, before the set's
    words = words_of(answer.content)
    people = lindenmere.sitting("marrowfield").sitters.all()
    door = words[words.index("Door list, Marrowfield Joinery") : words.index("Walk-ins")]
    assert [one.label for one in people if one.label not in door] == []
    assert faults(answer.content) == ()


def test_the_day_sheet_says_the_same_on_screen_and_on_paper(studio: None) -> None:
    page = get(f"/day/?day={day_of():%Y-%m-%d}", "front_desk").content.decode()
    printed = words_of(get(f"/day/sheet.pdf?day={day_of():%Y-%m-%d}", "front_desk").content)
    with timezone.override(Profile.get().zone):
        content = day_papers.day_content(day_of(), workbench.planned_on(day_of()), Profile.get(), timezone.now())
    assert [one.sitting for one in content.sittings] == ["L-0001", "L-0002", "L-0003", "L-0004"]
    for one in content.sittings:
        for words in (one.sitting, one.client, one.setup_at, one.sitter_at, one.finish_at, one.struck_at, one.plan):
            assert words in page
            assert words in printed
        for change in one.changes:
            for line in change.lines:
                assert line in page.replace("&#x27;", "'")
                assert line in printed


def test_a_change_over_says_what_differs_in_the_same_room_alone(studio: None) -> None:
    with timezone.override(Profile.get().zone):
        planned = workbench.planned_on(day_of())
        content = day_papers.day_content(day_of(), planned, Profile.get(), timezone.now())
    rows = {one.client: one for one in content.sittings}
    assert rows["Ottoline and Bertram Askew"].changes == ()
    assert rows["Ignace Dorrow"].changes == ()  # the first in the Garden Room
    joinery = rows["Marrowfield Joinery"].changes
    titles = ["From L-0001 “the pair” to “steady”", "From “steady” to “house standard”"]
    assert [change.title for change in joinery] == titles
    before, after = lindenmere.plan("askew").setups[0], lindenmere.plan("marrowfield").setups[0]
    gone = {x["modifier"] for x in before["lights"]} - {x["modifier"] for x in after["lights"]}
    assert sum(line.startswith("Take down") for line in joinery[0].lines) == len(gone)
    if before["background"]["id"] != after["background"]["id"]:
        assert any(line.startswith(f"Ground: {after['background']['id']} instead of") for line in joinery[0].lines)


def test_the_day_is_read_in_few_queries_however_many_sit(studio: None, django_assert_max_num_queries: Any) -> None:
    maud, day = lindenmere.client_of("front_desk"), day_of()
    with django_assert_max_num_queries(10):
        assert maud.get(f"/day/?day={day:%Y-%m-%d}").status_code == 200


def test_an_empty_day_and_junk_for_a_day_have_their_page(studio: None) -> None:
    assert "No sitting on this day." in get("/day/?day=2031-01-01").content.decode()
    assert "No sittings." in words_of(get("/day/sheet.pdf?day=2031-01-01").content)
    assert get("/day/?day=zwölf").status_code == 200


def test_a_code_of_the_plan_that_holds_opens_its_record(studio: None) -> None:
    plan = lindenmere.plan("dorrow")
    data = paper.setup_pdfs(plan, Profile.get())[0]
    (address,) = codes_of(data)
    path = address.split("8000", 1)[1]
    assert path == f"/sittings/{plan.sitting.number}/sheet/{plan.number}/"
    assert get(path).headers["Location"] == f"/sittings/{plan.sitting.number}/plans/{plan.number}/record/"


def test_feature_58_a_sheet_printed_before_the_plan_changed_is_found_superseded_by_its_code(studio: None) -> None:
    plan = lindenmere.plan("dorrow")
    tobiah = lindenmere.member("photographer")
    with timezone.override(Profile.get().zone):
        plans.make_plan(by=tobiah, sitting=Sitting.objects.get(pk=plan.sitting_id), why="he brings a bell")
    answer = get(f"/sittings/{plan.sitting.number}/sheet/{plan.number}/")
    words = " ".join(answer.content.decode().split())
    assert "This sheet is superseded: it is of plan 1." in words
    assert "Why: he brings a bell" in words
    assert f"/sittings/{plan.sitting.number}/plans/2/setups/1.pdf" in words


def test_the_meter_card_comes_as_a_pdf_in_the_studio_s_paper(studio: None) -> None:
    Profile.objects.update(paper="letter")
    answer = get("/sittings/L-0001/plans/1/setups/1/meter.pdf")
    assert PdfReader(BytesIO(answer.content)).pages[0].mediabox.width == pytest.approx(612, abs=0.5)
    assert get("/sittings/L-0001/plans/1/setups/9/meter.pdf").status_code == 404


def test_feet_and_inches_stand_on_sheet_and_page_where_the_studio_uses_them(studio: None) -> None:
    Profile.objects.update(units="imperial")
    page = get("/sittings/L-0001/plans/1/", "photographer").content.decode()
    sheet = words_of(get("/sittings/L-0001/plans/1/setups/1.pdf").content)
    distance = lindenmere.plan("askew").setups[0]["lights"][0]["distance_m"]
    inches = round(distance / 0.0254 / 2) * 2
    said = f"{inches // 12}'{inches % 12}\""
    assert said in sheet
    assert said.replace("'", "&#x27;").replace('"', "&quot;") in page


def test_the_command_writes_every_paper_of_the_day(studio: None, tmp_path: Path) -> None:
    said = StringIO()
    call_command("sheets", date=f"{day_of():%Y-%m-%d}", out=tmp_path / "day", stdout=said)
    files = sorted(path.name for path in (tmp_path / "day").iterdir())
    assert "day-sheet.pdf" in files
    assert "packing-list.pdf" in files
    assert "l-0001-askew-setup-1.pdf" in files
    assert "l-0001-askew-meter-1.pdf" in files
    assert "l-0001-askew-strike.pdf" in files
    assert len(files) == 2 + 2 * 5 + 4  # the day's two, of each set-up two, of each sitting its strike list
    assert not any("door-list" in name for name in files)  # nobody has a place in a rota
    assert said.getvalue().count(".pdf") == len(files)
    call_command("sheets", date=f"{day_of():%Y-%m-%d}", out=tmp_path, one=True, paper="letter", units="imperial",
                 stdout=said)  # fmt: skip
    assert (tmp_path / f"papers-{day_of():%Y-%m-%d}.pdf").exists()


def test_the_command_says_what_it_cannot_do(studio: None, tmp_path: Path) -> None:
    with pytest.raises(CommandError, match="no day"):
        call_command("sheets", date="tomorrow", out=tmp_path)
    (tmp_path / "file").write_text("")
    with pytest.raises(CommandError, match="cannot be written"):
        call_command("sheets", date="2031-01-01", out=tmp_path / "file" / "day")


def test_a_name_the_font_cannot_print_is_reported(studio: None, tmp_path: Path) -> None:
    sitting = lindenmere.plan("askew").sitting
    sitting.client.name = "Ottoline \u6f22"
    sitting.client.save()
    failed = StringIO()
    call_command("sheets", date=f"{day_of():%Y-%m-%d}", out=tmp_path, stdout=StringIO(), stderr=failed)
    assert "day-sheet.pdf: the font has no \u6f22 (U+6F22)" in failed.getvalue()


def test_the_day_after_has_only_its_own_sitting(studio: None) -> None:
    after = day_of() + timedelta(days=1)
    with timezone.override(Profile.get().zone):
        found = day_papers.papers(after, Profile.get())
    assert [p.file for p in found if "setup" in p.file] == ["l-0005-tarrant-setup-1.pdf", "l-0005-tarrant-setup-2.pdf"]
    assert Plan.objects.count() == 5
