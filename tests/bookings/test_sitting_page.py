"""A sitting's page: what it says, moving it on, and what upper apps add to it."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import connection
from django.http import HttpRequest
from django.test.utils import CaptureQueriesContext
from django.utils.safestring import mark_safe

from bookings.actions import sittings
from bookings.actions.sittings import SitterInput
from bookings.models import Sitting
from tests import cast
from tests.bookings.making import House, at

KNOWN = SitterInput("Ottoline", age_years=66, notes={"texture": "deep lines", "tremor": True})


def page_of(house: House, sitting: Sitting, role: str = "front_desk") -> str:
    answer = cast.client_of(house.members[role]).get(f"/sittings/{sitting.number}/")
    assert answer.status_code == 200
    return answer.content.decode()


def panel(request: HttpRequest, sitting: Sitting) -> str:
    return mark_safe(f"<h2>Panel of {sitting.number}</h2>")


def no_panel(request: HttpRequest, sitting: Sitting) -> str:
    return ""


def test_it_says_stage_times_people_and_that_notes_exist_without_what_they_say(house: House) -> None:
    page = page_of(house, house.book(sitters=[KNOWN, SitterInput("Bertram")]))
    for words in (
        "Held. Client",
        "09:00 to 09:30",
        "10:45 to 11:00",
        "Long Room",
        "Ines Calloway",
        "75 cm",
        "66 years",
    ):
        assert words in page
    assert page.count("comfort notes exist") == 1
    assert page.count("no comfort notes") == 1
    assert "deep lines" not in page
    assert "rembles" not in page


def test_upper_apps_show_their_panels(house: House, settings: Any) -> None:
    settings.SITTING_PANELS = [f"{__name__}.panel", f"{__name__}.no_panel"]
    assert "<h2>Panel of L-0001</h2>" in page_of(house, house.book())


def test_the_assistant_is_offered_no_step(house: House) -> None:
    sitting = house.book()
    assert "Now confirmed" in page_of(house, sitting, "front_desk")
    assert "Now confirmed" not in page_of(house, sitting, "assistant")


def post(house: House, sitting: Sitting, **sent: Any) -> Any:
    browser = cast.client_of(house.desk)
    return browser.post(f"/sittings/{sitting.number}/stage/", {"seen": 1, "note": ""} | sent, follow=True)


def test_the_desk_moves_it_on_and_the_history_says_who(house: House) -> None:
    page = post(house, house.book(), to="confirmed").content.decode()
    assert "Confirmed. Studio&#x27;s move" in page
    assert "from held to confirmed by <bdi>Maud Ferriby</bdi>" in page


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        ({"to": "cancelled", "note": ""}, "Say why in the note"),
        ({"to": "delivered", "note": "kept"}, "from there it cannot become delivered"),
        ({"to": "nonsense", "note": "kept"}, "Choose one of the steps."),
        ({"to": "", "note": "kept"}, "Choose one of the steps."),
        ({"to": "confirmed", "seen": "x", "note": "kept"}, "Choose one of the steps."),
        ({"to": "confirmed", "seen": 7, "note": "kept"}, "Somebody else changed L-0001 while you had it open"),
    ],
)
def test_a_step_that_cannot_be_is_refused_in_words_and_the_note_is_kept(
    house: House, sent: dict[str, Any], says: str
) -> None:
    answer = post(house, house.book(), **sent)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert says in page[page.index('id="stage-wrong"') : page.index("Now confirmed")], "beside what was pressed"
    assert f'value="{sent["note"]}"' in page
    assert Sitting.objects.get().stage == "held"


def test_a_note_that_is_too_long_is_said_to_be_and_stands_there_whole(house: House) -> None:
    answer = post(house, house.book(), to="cancelled", note="n" * 401)
    assert "at most 400 characters" in answer.content.decode()
    assert "n" * 401 in answer.content.decode()


def test_a_step_of_a_sitting_that_was_cancelled_meanwhile_is_refused_and_the_note_stands_there(house: House) -> None:
    sitting = house.book()
    sittings.change_stage(by=house.desk, sitting=sitting, to="cancelled", note="moved away")
    answer = post(house, sitting, to="confirmed", note="she rang again")
    assert answer.status_code == 422
    assert "Somebody else changed L-0001 while you had it open" in answer.content.decode()
    assert "Your note was: <bdi>she rang again</bdi>" in answer.content.decode()


def test_a_number_nobody_bears_is_not_found(house: House) -> None:
    browser = cast.client_of(house.desk)
    for number in ("L-9999", "x", "9" * 50):
        assert browser.get(f"/sittings/{number}/").status_code == 404


def test_nine_people_cost_no_more_questions_than_two(house: House) -> None:
    browser = cast.client_of(house.desk)

    def asked(sitting: Sitting) -> int:
        with CaptureQueriesContext(connection) as queries:
            browser.get(f"/sittings/{sitting.number}/")
        return len(queries)

    two = asked(house.book())
    nine = asked(house.book(starts_at=at(15), sitters=[SitterInput(f"P{n}") for n in range(9)]))
    assert nine == two <= 18
