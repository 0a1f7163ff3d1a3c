"""Frames coming in by the command and one by one: once each, tied, a line for what was not read, gone with people."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command

from shotplans import client_copy
from shotplans.actions import frames
from shotplans.models import Frame, Reference, SmallPicture
from studio.models import Profile
from tests.records import filming
from tests.shotplans.filmed import Set, make_set


@pytest.fixture
def there(db: None) -> Set:
    return make_set(one_setup=True)


def f11(**how: Any) -> bytes:
    return filming.jpeg(exif=filming.entries(f=11, **how))


def folder_of(path: Path, count: int) -> Path:
    for n in range(count):
        at = filming.MOMENT + timedelta(seconds=n)
        (path / f"LQ_{n + 1:04d}.JPG").write_bytes(f11(at=at))
    return path


def run(path: Path, capsys: pytest.CaptureFixture[str], number: str) -> tuple[str, str]:
    call_command("read_frames", str(path), "--sitting", number)
    said = capsys.readouterr()
    return said.out, said.err


def test_a_folder_goes_in_once_however_often_it_is_read(
    there: Set, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder_of(tmp_path, 12)
    assert "12 files, 12 new frames, 0 not read" in run(tmp_path, capsys, there.sitting.number)[0]
    assert "12 files, 0 new frames, 0 not read" in run(tmp_path, capsys, there.sitting.number)[0]
    (tmp_path / "copy of LQ_0003.JPG").write_bytes((tmp_path / "LQ_0003.JPG").read_bytes())
    _out, err = run(tmp_path, capsys, there.sitting.number)
    assert "is here already, as frame 3" in err
    rows = Frame.objects.of(there.sitting).in_order()
    assert [row.number for row in rows] == list(range(1, 13))
    assert {(row.setup_name, row.tied_by) for row in rows} == {("the pair", "only")}


def test_each_bad_file_has_its_line_and_the_others_go_in(
    there: Set, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder_of(tmp_path, 2)
    (tmp_path / "empty.jpg").write_bytes(b"")
    (tmp_path / "text.jpg").write_bytes(b"not a picture")
    (tmp_path / "LQ_0007.JPG").write_bytes(filming.jpeg(exif=filming.entries(at="Sunday, 11am")))
    (tmp_path / "half.jpg").write_bytes(filming.jpeg(filming.picture(90))[:-60])
    outside = tmp_path.parent / "outside.jpg"
    outside.write_bytes(filming.jpeg(filming.picture(33)))
    (tmp_path / "link.jpg").symlink_to(outside)
    out, err = run(tmp_path, capsys, there.sitting.number)
    assert "6 files, 4 new frames, 2 not read" in out
    lines = dict(line.split(": ", 1) for line in err.strip().splitlines())
    assert "empty" in lines["empty.jpg"]
    assert "no camera data read" in lines["text.jpg"]
    assert "Sunday, 11am" in lines["LQ_0007.JPG"]
    assert "stops in the middle" in lines["half.jpg"]


@pytest.mark.parametrize(("folder", "number"), [("nowhere", "S-1"), (".", "L-9999")])
def test_a_folder_or_a_sitting_that_is_none_is_said(there: Set, folder: str, number: str, tmp_path: Path) -> None:
    with pytest.raises(CommandError, match="Nothing was read"):
        call_command("read_frames", str(tmp_path / folder), "--sitting", number)


def test_a_frame_from_the_watched_folder_becomes_the_test_frame_it_is_sent_as(there: Set) -> None:
    first = there.bring("LQ_0001.JPG", f11()).frame
    again = there.bring("LQ_0001.JPG", f11(), test_of="the pair")
    assert (again.frame, again.says, again.new) == (first, "", False)
    assert list(Frame.objects.values_list("is_test", "tied_by")) == [(True, "person")]


def test_a_raw_beside_its_jpeg_is_one_frame(there: Set) -> None:
    first = there.bring("LQ_0041.JPG", filming.jpeg())
    second = there.bring("LQ_0041.dng", filming.raw())
    assert second.frame is not None
    assert second.frame.beside == first.frame
    assert "counted once" in second.says
    assert Frame.objects.of(there.sitting).counted().count() == 1


def test_small_pictures_are_kept_only_if_the_studio_wishes_and_carry_no_place(there: Set) -> None:
    kept = there.bring("a1.jpg", filming.jpeg()).frame
    assert kept is not None
    assert b"SERIAL" not in bytes(kept.picture.jpeg)
    Profile.objects.update(keep_small_pictures=False)
    there.bring("a2.jpg", filming.jpeg(filming.picture(70)))
    assert SmallPicture.objects.count() == 1
    assert Frame.objects.count() == 2


def test_a_client_s_own_copy_says_which_frames_are_known(there: Set) -> None:
    there.bring("LQ_0001.JPG", f11())
    ((_name, rows),) = [part for part in client_copy.parts(there.sitting.client) if part[0] == "frames"]
    assert [(row["file"], row["picture kept"]) for row in rows] == [("LQ_0001.JPG", True)]


def referenced(there: Set) -> Frame:
    frame = there.bring("Ottoline Askew 12.jpg", filming.jpeg()).frame
    assert frame is not None
    frames.choose_reference(by=there.house.members["photographer"], frame=frame)
    return frame


def test_with_the_notes_of_who_is_on_them_go_pictures_and_reference(there: Set) -> None:
    frame = referenced(there)
    Frame.objects.update(setup_name="the pair")
    frames.forget(there.sitting, ["Nell"], {})  # nobody of that set-up
    assert (SmallPicture.objects.count(), Reference.objects.count()) == (1, 1)
    frames.forget(there.sitting, ["Ottoline"], {})
    assert (SmallPicture.objects.count(), Reference.objects.count()) == (0, 0)
    assert Frame.objects.get().name == frame.name  # what it was set to stays, as do the readings


def test_a_company_s_reference_stays_until_whoever_is_on_it_is_erased(there: Set) -> None:
    referenced(there)
    there.bring("LQ_0013.JPG", f11())
    there.sitting.client.is_company = True
    there.sitting.client.save()
    frames.forget(there.sitting, ["Ottoline"], {})
    assert [p.frame.name for p in SmallPicture.objects.select_related("frame")] == ["Ottoline Askew 12.jpg"]
    frames.forget(there.sitting, ["Ottoline"], {"Ottoline": "person 1"})
    assert (SmallPicture.objects.count(), Reference.objects.count()) == (0, 0)
    assert set(Frame.objects.values_list("name", "look")) == {("-", None)}
