"""The shot list on the pages: set, kept, planned, ticked on set, printed; the studio's own pose cards."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from shotplans import audit, paper, shot_page, snapshot
from shotplans.models import OwnPoseCard, Plan, PoseCardEdit, SetTap, ShotList, ShotListEdit
from studio.models import Profile
from tests.bookings.making import House, visitor
from tests.pages import Visitor
from tests.sheets.reading import words_of

LONG_AGO, FAR_AHEAD = datetime(2000, 1, 1, tzinfo=UTC), datetime(2100, 1, 1, tzinfo=UTC)
LIST, ON_SET = "/sittings/L-0001/shots/", "/sittings/L-0001/plans/1/shots/"


@pytest.fixture
def tobiah(askew_house: House, db: None) -> Visitor:
    return visitor(askew_house, "photographer")


@pytest.fixture
def plan(tobiah: Visitor) -> Plan:
    return Plan.objects.current().select_related("sitting__room", "sitting__kind").get()


def rows(*words: str, seen: int = 0, **more: str) -> dict[str, str | list[str]]:
    sent: dict[str, str | list[str]] = {"row": [str(n) for n in range(len(words))], "seen": str(seen), **more}
    for n, said in enumerate(words):
        sent |= {f"row-{n}-words": said, f"row-{n}-keep": "on", f"row-{n}-setup": "the pair"}
    return sent


def test_a_list_kept_for_a_plan_that_cannot_be_made_says_that_it_is_kept_and_what_is_missing(
    tobiah: Visitor, plan: Plan
) -> None:
    plan.sitting.sitters.all().delete()
    page = tobiah.client.post(LIST, rows("The close pair.", plan="1"), follow=True).content.decode()
    assert "Your list is saved; no plan was made of it. " in page
    assert [row["words"] for row in ShotList.objects.get().rows] == ["The close pair."]
    assert Plan.objects.of(plan.sitting).count() == 1


def test_the_list_is_pruned_added_to_and_kept_and_the_plan_says_that_it_is_old(tobiah: Visitor, plan: Plan) -> None:
    page = tobiah.client.get(LIST).content.decode()
    assert "The close pair." in page
    assert "A laugh." in page  # proposed, not ticked
    answer = tobiah.client.post(LIST, rows("The close pair.", "By the clock.", save="1") | {"row-1-must": "on"})
    assert answer.status_code == 302
    kept = ShotList.objects.get()
    assert [(r["words"], r["must"]) for r in kept.rows] == [("The close pair.", False), ("By the clock.", True)]
    tree = snapshot.brief_tree(plan.sitting)
    assert [s["words"] for s in tree["shots"]] == ["The close pair.", "By the clock."]
    assert snapshot.is_stale(plan)
    turned = rows("By the clock.", "The close pair.", save="1", seen=1) | {"row-0-must": "on"}
    tobiah.client.post(LIST, turned)
    tobiah.client.post(LIST, {"suggest": "1", "seen": "2"})
    assert ShotList.objects.get().rows == []
    edits = [
        (len(e.before), [r["words"] for r in e.after], e.reordered) for e in ShotListEdit.objects.order_by("pk")
    ]  # fmt: skip
    suggested = [s["words"] for s in plan.document["shots"]]
    assert edits == [(7, ["The close pair.", "By the clock."], False), (0, [], True), (2, suggested, False)]
    page = tobiah.client.get(LIST).content.decode()
    assert "Before: By the clock. (must) The close pair." in page
    assert "back to the suggested list" in page
    trail = [(row.before, row.after, row.note) for row in audit.shot_lists(LONG_AGO, FAR_AHEAD, plan.sitting)]
    assert ("2 pictures", "2 pictures", "in another order") in trail
    assert "shots" not in snapshot.brief_tree(plan.sitting)


def test_a_row_goes_up_without_a_script_and_nothing_is_kept_yet(tobiah: Visitor) -> None:
    page = tobiah.client.post(LIST, rows("One.", "Two.", move="up:1")).content.decode()
    assert page.index("Two.") < page.index("One.")
    assert not ShotList.objects.exists()
    assert tobiah.client.post(LIST, rows("One.", "Two.", move="up:99")).status_code == 200


@pytest.mark.parametrize(
    "sent",
    [rows("", save="1"), rows("x" * 201, save="1"), rows("One.", save="1") | {"row-0-setup": "nowhere"},
     rows("One.", save="1") | {"row-0-who": "99999"}, rows("One.", save="1", seen=7)],
)  # fmt: skip
def test_what_cannot_be_kept_is_said_and_stays_in_its_field(tobiah: Visitor, sent: dict[str, str]) -> None:
    answer = tobiah.client.post(LIST, sent)
    assert answer.status_code == 422
    assert str(sent["row-0-words"]) in answer.content.decode()
    assert not ShotList.objects.exists()


def test_a_picture_is_ticked_once_by_an_entry_sent_twice_and_may_be_taken_back(tobiah: Visitor, plan: Plan) -> None:
    shot = plan.document["shots"][0]
    entry = {"HTTP_X_ENTRY": "7b0cf5a6-6f1c-4e0e-9c3b-2f6d7d3f1a11", "HTTP_X_ENTRY_MADE": "1790000000000",
             "HTTP_X_ENTRY_SENT": "1790000060000"}  # fmt: skip
    for _time in range(2):
        tobiah.client.post(f"{ON_SET}tick/", {"key": shot["key"], "done": "yes"}, **entry)
    assert SetTap.objects.filter(on=SetTap.On.SHOTS).count() == 1
    assert shot_page.taken(plan)[0].is_taken
    page = tobiah.client.get(ON_SET)
    assert "Next: 2" in page.content.decode()
    assert "X-On-Set" in page.headers
    tobiah.client.post(f"{ON_SET}tick/", {"key": shot["key"], "done": "no"})
    assert not shot_page.taken(plan)[0].is_taken
    assert "no such picture" in tobiah.client.post(f"{ON_SET}tick/", {"key": "x"}, follow=True).content.decode()


def test_the_page_on_set_asks_as_often_for_seven_ticks_as_for_none(tobiah: Visitor, plan: Plan) -> None:
    counts = []
    for keys in ((), [s["key"] for s in plan.document["shots"]]):
        for key in keys:
            tobiah.client.post(f"{ON_SET}tick/", {"key": key})
        with CaptureQueriesContext(connection, ) as asked:
            tobiah.client.get(ON_SET)
        counts.append(len(asked))
    assert counts[0] == counts[1]


def test_feature_34_and_35_the_paper_prints_musts_first_each_with_a_base_and_a_caution(
    tobiah: Visitor, plan: Plan
) -> None:
    answer = tobiah.client.get("/sittings/L-0001/plans/1/shots.pdf")
    assert answer.headers["Content-Type"] == "application/pdf"
    for size, units in (("a4", "metric"), ("letter", "imperial")):
        words = words_of(paper.shot_list_pdf(plan, Profile(paper=size, units=units, studio_name="Lindenmere")))
        assert words.count("Base: ") == words.count("Caution: ") == len(plan.document["shots"])
        assert words.index("The close pair.") < words.index("Ottoline alone.") < words.index("Standing, last")
        assert ("from the mark" in words)
        assert (("ft" in words) == (units == "imperial"))


def test_the_studios_own_card_is_kept_with_its_history_and_stands_in_the_next_plan(
    tobiah: Visitor, plan: Plan
) -> None:
    page = "/pose-cards/couple_older/"
    assert "hands joined as the base" in tobiah.client.get(page).content.decode()
    sent = {"name": "Ours", "base": "Own base.", "caution": "Own caution.", "in_use": "on", "version": "0"}
    assert tobiah.client.post(page, sent).status_code == 302
    assert snapshot.tree_for(plan.sitting)["cards"][0]["base"] == "Own base."
    assert tobiah.client.post(page, sent | {"base": "Another."}).status_code == 422  # opened before the first was kept
    assert tobiah.client.post(page, {"version": "1", "name": "Ours", "base": "", "caution": "c."}).status_code == 422
    assert [(e.before, e.after["base"]) for e in PoseCardEdit.objects.all()] == [({}, "Own base.")]
    assert OwnPoseCard.objects.get().base == "Own base."
    assert tobiah.client.get("/pose-cards/nothing/").status_code == 404


def test_minutes_are_learned_slowly() -> None:
    assert shot_page.shrunk(2.0, []) == 2.0
    assert shot_page.shrunk(2.0, [4.0] * 8) == 3.0  # as many as the rule counts for: half the way
