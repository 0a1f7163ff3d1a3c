"""The pages of frames: the test frame with its checks, the ledger of runs, the reference; by role, with bad input."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import HttpResponse

from shotplans import audit
from shotplans.models import CompanyStandard, Frame, FrameCheck, Plan, Reference, SmallPicture
from shotplans.records.frame_checks import CHECKS
from studio import clock
from studio.models import MemberRole, Role
from tests.pages import Visitor
from tests.records import filming
from tests.shotplans.filmed import Set, make_set

JSON = {"Accept": "application/json"}


@pytest.fixture
def there(db: None) -> Set:
    return make_set()


@pytest.fixture
def ines(there: Set) -> Visitor:
    return there.visitor("assistant")


def url(there: Set, rest: str = "") -> str:
    return f"/sittings/{there.sitting.number}/{rest}"


def checks_page(there: Set, rest: str = "") -> str:
    return url(there, f"plans/1/setups/1/test-frame/{rest}")


def post_file(visitor: Visitor, to: str, name: str, body: bytes, **more: Any) -> HttpResponse:
    return visitor.client.post(to, {"files": SimpleUploadedFile(name, body), **more}, headers=JSON)


def just_now(**how: Any) -> bytes:
    return filming.entries(at=clock.now().replace(tzinfo=None), **({"f": 11} | how))


def test_a_test_frame_stands_beside_its_plan_and_says_each_difference(there: Set, ines: Visitor) -> None:
    answer = post_file(ines, checks_page(there, "send/"), "LQ_0001.JPG", filming.jpeg(exif=just_now(f=2.8, auto=True)))
    assert answer.json()["page"] == checks_page(there)
    page = ines.open(checks_page(there))
    for words in ("4 stops over", "automatic: frames will not", "within a minute", "Burnt: 0.0 %", "reset, refire"):
        assert words in page.words
    assert page.html.count("<polyline") == 6  # three curves and their keys, by line style


def test_feature_37_fourteen_checks_each_pass_or_fail_in_one_tap(there: Set, ines: Visitor) -> None:
    page = ines.open(checks_page(there))
    assert len(CHECKS) == 14 == len([f for f in page.forms if "Not good" in f.buttons])
    page = ines.press("Not good", nth=8)
    assert CHECKS[8].remedy in page.words  # only the exception, with its first remedy
    page = ines.press("All the other 13 are good")
    assert [f for f in page.forms if "Not good" in f.buttons] == []
    page = ines.press("Good now")
    assert "All 14 checks good" in page.words
    assert FrameCheck.objects.count() == 15


def test_checks_that_are_none_are_refused_in_words(there: Set, ines: Visitor) -> None:
    answer = ines.client.post(checks_page(there, "checks/"), {"code": "luck", "passed": "yes"}, follow=True)
    assert "There is no such check." in answer.content.decode()
    assert ines.client.get(url(there, "plans/1/setups/9/test-frame/")).status_code == 404


def test_a_new_test_frame_asks_the_checks_again(there: Set, ines: Visitor) -> None:
    ines.open(checks_page(there))
    assert "All 14 checks good" in ines.press("All the other 14 are good").words
    post_file(ines, checks_page(there, "send/"), "LQ_0002.JPG", filming.jpeg(exif=just_now()))
    assert "All 14 checks good" not in ines.open(checks_page(there)).words


def test_a_touched_grey_card_gives_numbers_and_never_a_verdict_without(there: Set, ines: Visitor) -> None:
    post_file(ines, checks_page(there, "send/"), "LQ_0001.JPG", filming.jpeg(filming.picture(138), just_now()))
    at = {"grey.x": "170", "grey.y": "110", "shown": "340"}
    words = ines.client.get(checks_page(there), at).content.decode()
    assert "Exposure +0.5 stop" in words
    assert "White balance 0 mired" in words
    skin = ines.client.get(checks_page(there), {"skin.x": "5", "skin.y": "5"}).content.decode()
    assert "Red lies 117 levels under white" in skin
    for odd in ({"grey.x": "nan", "grey.y": "1"}, {"grey.x": "9e9", "grey.y": "1"}, {"grey.x": "1", "shown": "0"}):
        assert ines.client.get(checks_page(there), odd).status_code == 200


def test_a_raw_comes_as_its_two_ends(there: Set, ines: Visitor) -> None:
    body = filming.raw(just_now(), size=5_000_000)
    sent = {
        "name": "..\\..\\LQ_0009.DNG", "size": str(len(body)), "head": SimpleUploadedFile("head", body[: 1 << 20]),
        "tail": SimpleUploadedFile("tail", body[-(1 << 20) :]),
    }  # fmt: skip
    assert ines.client.post(url(there, "frames/send/"), sent, headers=JSON).json()["lines"][0]["new"]
    frame = Frame.objects.get()
    assert (frame.name, frame.number, frame.size, frame.f_number) == ("LQ_0009.DNG", 9, 5_000_000, 11.0)


def test_each_file_of_a_post_has_its_line_and_the_others_go_in(there: Set, ines: Visitor) -> None:
    files = [
        SimpleUploadedFile("LQ_0041.JPG", filming.jpeg(exif=just_now())),
        SimpleUploadedFile("LQ_0041 again.JPG", filming.jpeg(exif=just_now())),
        SimpleUploadedFile("empty.jpg", b""),
        SimpleUploadedFile("letter.jpg", b"Dear Maud"),
    ]
    page = ines.client.post(url(there, "frames/send/"), {"files": files}).content.decode()
    assert "letter.jpg: no camera data read" in page
    assert Frame.objects.count() in (1, 2)  # the clock may have gone on a second between the two
    nothing = ines.client.post(url(there, "frames/send/"), {}, follow=True).content.decode()
    assert "No file was chosen" in nothing


def test_more_files_than_are_taken_at_once_are_refused_in_words(there: Set, ines: Visitor) -> None:
    files = [SimpleUploadedFile(f"{n}.jpg", b"x") for n in range(101)]
    answer = ines.client.post(url(there, "frames/send/"), {"files": files})
    assert answer.status_code == 400
    assert "at most a hundred at a time" in answer.content.decode()


def test_who_stands_on_set_is_told_no_command_line(there: Set, ines: Visitor) -> None:
    assert "read_frames" not in ines.open(url(there, "frames/")).words
    MemberRole.objects.create(member=there.house.members["assistant"], role=Role.OWNER)
    assert 'class="hint at-a-desk"' in there.visitor("assistant").open(url(there, "frames/")).html


def fill(there: Set) -> None:
    for n in range(40, 44):
        at = filming.MOMENT + timedelta(seconds=n)
        body = filming.jpeg(exif=filming.entries(f=11 if n < 42 else 2.8, at=at))
        there.bring(f"LQ_{n:04d}.JPG", body)


def test_wrong_settings_are_told_as_runs_and_doubts_are_asked(
    there: Set, ines: Visitor, django_assert_max_num_queries: Any
) -> None:
    fill(there)
    page = ines.open(url(there, "frames/"))
    assert "2 taken, 6 on the shot list, 4 still to take" in page.words
    assert "Frames 42-43" in page.words
    page = ines.press("the pair")
    assert "frames 42-43 at f/2.8, planned f/11: 4 stops over" in page.words
    assert "Which set-up is it?" not in page.words
    (row,) = audit.frames(clock.now() - timedelta(hours=1), clock.now() + timedelta(hours=1), there.sitting)
    assert (row.what, row.who) == ("Frames tied by hand: 42-43", "Ines Calloway")
    assert (row.before, row.after) == ("in doubt", "the pair")
    with django_assert_max_num_queries(22):
        ines.client.get(url(there, "frames/"))
    again = {"first": "42", "last": "43", "setup": "the pair"}
    for odd in (again, again | {"first": "x"}, again | {"setup": "another"}):
        answer = ines.client.post(url(there, "frames/set-up/"), odd, follow=True)
        assert answer.status_code == 200
        assert "were tied" not in answer.content.decode()


def tap(there: Set, ines: Visitor, frame: Frame, on: Frame, first: tuple[int, int], second: tuple[int, int]) -> None:
    """Touch two eyes of a picture 340 pixels wide."""
    touched = f"?of={frame.pk}&eye.x={first[0]}&eye.y={first[1]}&shown=340"
    page = ines.open(url(there, f"frames/{on.pk}/beside/{touched}"))
    form = next(f for f in page.forms if "first" in f.values)
    sent = {name: values[0] for name, values in form.values.items() if values}
    ines.client.post(form.action, sent | {"eye.x": second[0], "eye.y": second[1]})


def with_field(there: Set) -> None:
    """The plan's first set-up seen by a sensor of 36 x 24 mm, 0.69 m wide; the frames are known to be of it."""
    document, request = there.plan.document, there.plan.request
    document["setups"][0]["camera"]["orientation"] = "horizontal"
    document["setups"][0]["expected"] = {"field_width_m": 0.69}
    request["kit"]["cameras"][0] |= {"sensor_width_mm": 36, "sensor_height_mm": 24}
    Plan.objects.filter(pk=there.plan.pk).update(document=document, request=request)
    Frame.objects.update(setup_name="the pair")


def test_feature_42_eye_line_and_head_height_are_ruled_with_their_offsets_in_percent(there: Set, ines: Visitor) -> None:
    old = there.bring("LQ_0001.JPG", filming.jpeg()).frame
    new = there.bring("LQ_0002.JPG", filming.jpeg(filming.picture(99))).frame
    with_field(there)
    CompanyStandard.objects.create(
        client=there.sitting.client, values={"head_share": 0.48}, at=clock.now(), by=there.house.members["owner"]
    )
    assert old is not None
    assert new is not None
    ines.client.post(url(there, f"frames/{old.pk}/reference/"))
    assert Reference.objects.get().frame == old
    # 240 x 160 pixels shown 340 wide are 226.7 high: 68 lower is 30 %, eyes 42.5 apart instead of 34 a quarter larger.
    tap(there, ines, old, new, (153, 68), (187, 68))
    tap(there, ines, new, new, (148, 136), (190, 136))
    page = ines.open(url(there, f"frames/{new.pk}/beside/"))
    assert "30.0 % of the height lower" in page.words
    assert "23.5 % larger" in page.words  # 42 pixels against 34
    # 42 of 226.7 pixels apart, times 3.65; the plan's field is 0.23 m / 0.5 high, two thirds as high as wide.
    assert "Head here67.6 %" in page.words
    assert "Planned50 % of the height: 35.3 % larger here" in page.words
    assert "By the company's standard48 % of the height: 40.9 % larger here" in page.words
    assert page.html.count('class="eye-line"') == 2
    assert page.html.count('class="head-line"') == 4


def test_eyes_that_are_none_are_refused_in_words(there: Set, ines: Visitor) -> None:
    frame = there.bring("LQ_0001.JPG", filming.jpeg()).frame
    assert frame is not None
    odd = (("junk", "10", "Mark two eyes"), ("0.5,0.5", "170", "on top of one another"), ("0.5,0.5", "-9", "Mark two"))
    for first, x, words in odd:
        sent = {"first": first, "eye.x": x, "eye.y": "113.33", "shown": "340", "back": str(frame.pk)}
        answer = ines.client.post(url(there, f"frames/{frame.pk}/eyes/"), sent, follow=True)
        assert words in answer.content.decode()
    assert SmallPicture.objects.get().eyes is None


def test_feature_46_pages_of_the_set_are_dark_and_large(there: Set, ines: Visitor) -> None:
    """Targets of 44 pixels and dark pages are measured in the browser; here: every page of frames is one of the set."""
    fill(there)
    beside = url(there, f"frames/{Frame.objects.first().pk}/beside/")
    for address in (url(there, "frames/"), checks_page(there), beside):
        assert '<body class="set">' in ines.open(address).html


def test_a_picture_of_another_sitting_is_not_there(there: Set, ines: Visitor) -> None:
    frame = there.bring("LQ_0001.JPG", filming.jpeg()).frame
    assert frame is not None
    found = ines.client.get(url(there, f"frames/{frame.pk}/picture.jpg"))
    assert (found["Content-Type"], found["Cache-Control"]) == ("image/jpeg", "private, no-store")
    assert ines.client.get(f"/sittings/S-99/frames/{frame.pk}/picture.jpg").status_code == 404
