"""The set as shot: the plan copied with one press, what differs typed over, failures kept with why, pictures of it."""

from __future__ import annotations

import errno
import io
import struct
import zlib
from pathlib import Path
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from bookings.models import Sitting
from shotplans.actions import set_photos
from shotplans.models import Built, Change, Record, SetPhoto
from tests.bookings import making
from tests.bookings.making import House
from tests.pages import Page, Visitor

START = "/sittings/L-0001/plans/1/record/"
SETUP = "the pair"


@pytest.fixture
def ines(askew_house: House, db: None, settings: Any, tmp_path: Path) -> Visitor:
    settings.DATA_DIR = tmp_path
    return making.visitor(askew_house, "assistant")


def copied(visitor: Visitor) -> Page:
    visitor.open(START)
    visitor.press("Built as planned")
    return visitor.open(START + "as-shot/1/")


def test_one_press_copies_the_plan_and_pressing_again_changes_nothing(ines: Visitor) -> None:
    ines.open(START)
    page = ines.press("Built as planned")
    assert "Saved as built: the pair, as planned." in page.words
    assert "Saved as shot" in page.words
    built = Built.objects.get()
    light = built.record.plan.setups[0]["lights"][0]
    kept = built.data["lights"][0]
    assert (kept["distance_m"], kept["dial"], kept["modifier"]) == (2.1, light["dial"], "octa150-1")
    ines.client.post(START + "copy/1/")
    assert Built.objects.count() == 1
    assert not Change.objects.exists()


def test_feature_39_the_saved_set_lists_every_difference_from_planned_with_who_and_when(ines: Visitor) -> None:
    copied(ines)
    typed = {
        "A__distance_m": "1,95",
        "A__dial": "1/2 -0.8",
        "B__modifier": "strip30x120-1",
        "camera__aperture": "f/5.6",
        "camera__iso": "200",
        "set-up__order": "2",
        "why": "the beam",
    }
    page = ines.press("Save as shot", typed)
    assert page.address == START
    listed = page.words.split("As shot: every difference from the plan")[1]
    for said in (
        "A, distance: planned 2.10 m, done 1.95 m (the beam)", "A, power: planned 1/4 -0.3, done 1/2 -0.8",
        "B, modifier: planned", "camera, aperture: planned f/8, done f/5.6", "camera, ISO: planned 100, done 200",
        "set-up, order: planned 1, done 2",
    ):  # fmt: skip
        assert said in listed, said
    assert listed.count("Ines Calloway, ") == listed.count("planned ") == 6
    assert Built.objects.get().data["lights"][0]["distance_m"] == 1.95


def test_what_differs_can_be_typed_before_anything_is_copied(ines: Visitor) -> None:
    page = ines.open(START + "as-shot/1/")
    assert not Record.objects.exists()  # looking writes nothing
    page = ines.press("Save as shot", {"A__distance_m": "far"})
    assert page.status == 422
    assert not Built.objects.exists()
    page = ines.press("Save as shot", {"A__distance_m": "1.95"})
    assert "A, distance: planned 2.10 m, done 1.95 m" in page.words
    assert Built.objects.get().data["lights"][0]["distance_m"] == 1.95


def test_what_was_noted_before_the_copy_is_in_it(ines: Visitor) -> None:
    sent = {"setup_name": SETUP, "about": "A", "what": "distance", "actual": "1.75 m", "why": "to the target"}
    ines.client.post(START + "changes/", sent)
    copied(ines)
    assert Built.objects.get().data["lights"][0]["distance_m"] == 1.75
    assert Change.objects.count() == 1


def test_a_set_up_that_failed_is_kept_with_why(ines: Visitor) -> None:
    copied(ines)
    page = ines.press("Save as shot", {"failed": "on", "A__distance_m": "1.80"})
    assert page.status == 422
    assert "Say why it did not work" in page.words
    assert page.forms[-1].values["A__distance_m"] == ["1.80"]
    page = ines.press("Save as shot", {"failed": "on", "why_failed": "glare on his glasses"})
    assert "did not work: glare on his glasses" in page.words


@pytest.mark.parametrize(
    ("field", "text"),
    [("A__distance_m", "far"), ("A__distance_m", "-2"), ("camera__shutter_s", "1/0"), ("camera__iso", "9" * 30),
     ("set-up__order", "0"), ("B__modifier", "a cloud"), ("A__bearing_deg", "nan"), ("why", "x" * 201)],
)  # fmt: skip
def test_a_value_nobody_can_set_says_why_beside_its_field_and_nothing_is_lost(
    ines: Visitor, field: str, text: str
) -> None:
    copied(ines)
    page = ines.press("Save as shot", {"A__centre_height_m": "2.30", field: text})
    assert page.status == 422
    assert 'class="invalid-feedback"' in page.html
    assert page.forms[-1].values["A__centre_height_m"] == ["2.30"]
    assert not Change.objects.exists()


def test_the_second_of_two_phones_keeps_its_text_and_overwrites_nothing(ines: Visitor, askew_house: House) -> None:
    copied(ines)
    tobiah = making.visitor(askew_house, "photographer")
    tobiah.open(START + "as-shot/1/")
    ines.press("Save as shot", {"A__distance_m": "1.80"})
    page = tobiah.press("Save as shot", {"A__distance_m": "1.95"})
    assert page.status == 422
    assert "Somebody else saved this while you had it open." in page.words
    assert page.forms[-1].values["A__distance_m"] == ["1.95"]
    assert Built.objects.get().data["lights"][0]["distance_m"] == 1.8


def picture(kind: str = "JPEG", size: tuple[int, int] = (300, 200), **more: Any) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", size, (90, 90, 90)).save(out, kind, **more)
    return out.getvalue()


def send(visitor: Visitor, *raws: bytes) -> str:
    files = [SimpleUploadedFile(f"../../{n}.jpg", raw) for n, raw in enumerate(raws)]
    return visitor.client.post(START + "photos/1/", {"photos": files}, follow=True).content.decode()


def test_feature_54_three_photos_from_a_phone_show_on_the_record(ines: Visitor, tmp_path: Path) -> None:
    page = send(ines, picture(), picture("PNG"), picture("WEBP"))
    assert "3 pictures saved." in page
    assert page.count("<img ") == 3
    answer = ines.client.get(f"{START}photo/{SetPhoto.objects.first().pk}/")
    assert answer["Content-Type"] == "image/jpeg"
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert "no-store" in answer["Cache-Control"]
    assert sorted(p.parent.name for p in tmp_path.rglob("*.jpg")) == ["set_photos"] * 3


def test_nothing_of_the_phones_file_is_kept_but_the_picture_turned_upright(ines: Visitor, tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6  # turned a quarter
    exif[0x010F] = "somebody"
    exif.get_ifd(0x8825)[1] = "N"  # a place
    send(ines, picture(exif=exif, comment=b"hidden", size=(2600, 1300)))
    (path,) = tmp_path.rglob("*.jpg")
    with Image.open(path) as kept:
        assert (kept.size, dict(kept.getexif()), kept.info.get("comment")) == ((1000, 2000), {}, None)
    assert b"somebody" not in path.read_bytes()


def huge() -> bytes:
    """A PNG of a few bytes that says it is 30,000 points wide and high."""
    head = struct.pack(">IIBBBBB", 30_000, 30_000, 8, 2, 0, 0, 0)
    parts = ((b"IHDR", head), (b"IDAT", zlib.compress(b"")), (b"IEND", b""))
    chunk = b"".join(struct.pack(">I", len(d)) + k + d + struct.pack(">I", zlib.crc32(k + d)) for k, d in parts)
    return b"\x89PNG\r\n\x1a\n" + chunk


def test_what_is_no_picture_is_named_and_the_others_go_in(ines: Visitor) -> None:
    page = send(ines, b"%PDF-1.7", huge(), picture(size=(900, 900))[:-2000], b"<svg/>", picture())
    assert "Picture 1 was not saved: no picture a page can show" in page
    assert "Picture 2 was not saved: the picture is over 120 megapixels" in page
    assert "Picture 3 was not saved: the picture breaks off" in page
    assert "Picture 4 was not saved" in page
    assert SetPhoto.objects.count() == 1
    assert "Choose a picture first." in send(ines)


def test_pictures_that_come_together_are_kept_together_or_not_at_all(
    ines: Visitor, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A disk that is full at the second of three: no page says that the first is kept."""
    puts = iter([None, OSError(errno.ENOSPC, "No space left on device")])

    def put(path: Path, body: bytes) -> None:
        if error := next(puts):
            raise error

    monkeypatch.setattr(set_photos, "put", put)
    ines.client.raise_request_exception = False
    assert "There is no room left" in send(ines, picture(), picture(), picture())
    assert not Record.objects.exists()
    assert not SetPhoto.objects.exists()


def test_a_picture_that_is_none_opens_no_record(ines: Visitor) -> None:
    ines.client.post(START + "photos/1/", {"photos": SimpleUploadedFile("a.csv", b"Name")})
    assert not Record.objects.exists()


def test_pictures_go_with_the_person(ines: Visitor, tmp_path: Path, django_capture_on_commit_callbacks: Any) -> None:
    send(ines, picture())
    sitting = Sitting.objects.get(number="L-0001")
    with django_capture_on_commit_callbacks(execute=True):
        set_photos.erase(sitting, ["Nell"], {})  # nobody of that set-up
    assert len(list(tmp_path.rglob("*.jpg"))) == 1
    with django_capture_on_commit_callbacks(execute=True):
        set_photos.erase(sitting, ["Ottoline"], {})  # a purge of notes
    assert not list(tmp_path.rglob("*.jpg"))
    assert not SetPhoto.objects.exists()
    send(ines, picture())
    with django_capture_on_commit_callbacks(execute=True):
        set_photos.erase(sitting, [], {"Ottoline": "person 1"})
    assert not list(tmp_path.rglob("*.jpg"))


def test_a_signed_record_takes_no_copy_and_no_picture(ines: Visitor) -> None:
    ines.client.post(START + "readings/", {"setup": SETUP, "step": "1", "text": "5.6 4"})
    ines.client.post(START + "sign/")
    assert Record.objects.get().closed_at
    assert "This record is signed." in send(ines, picture())
    ines.client.post(START + "copy/1/")
    assert not Built.objects.exists()
    assert not SetPhoto.objects.exists()
