"""What a camera wrote into a file, read from its ends, whatever stands in it."""

from __future__ import annotations

import io
import random
import struct
import time
from dataclasses import asdict
from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from shotplans.records import exif
from shotplans.records.files import Kind, Piece, Sparse, number_in, plain_name, read_piece
from tests.records import filming


def read(body: bytes) -> exif.CameraData:
    return exif.read_camera(read_piece(io.BytesIO(body)))


WHOLE = exif.CameraData(
    f_number=8.0, shutter_s=0.005, iso=100, focal_mm=85.0, white_balance="by hand", flash_fired=True,
    taken=datetime(2026, 12, 3, 9, 41, 12, tzinfo=UTC),
)  # fmt: skip


@pytest.mark.parametrize(
    "body", [filming.jpeg(), filming.raw(), filming.raw(size=6_000_000)], ids=["jpeg", "raw", "6 MB"]
)
def test_settings_of_a_jpeg_and_of_a_raw_are_read(body: bytes) -> None:
    assert read(body) == WHOLE


@settings(max_examples=15)
@given(
    f=st.sampled_from([1.4, 2.8, 5.6, 7.1, 11, 22]), part=st.integers(1, 8000), iso=st.integers(50, 60000),
    mm=st.integers(10, 800), auto=st.booleans(), flash=st.booleans(),
)  # fmt: skip
def test_a_second_reader_finds_the_same(f: float, part: int, iso: int, mm: int, auto: bool, flash: bool) -> None:
    written = filming.entries(f=f, shutter=(1, part), iso=iso, mm=mm, auto=auto, flash=flash)
    ours = read(filming.raw(written))
    theirs: Any = Image.Exif()
    theirs.load(written)
    there = theirs.get_ifd(0x8769)
    assert ours.f_number == pytest.approx(float(there[0x829D]))
    assert ours.shutter_s == pytest.approx(float(there[0x829A]))
    assert (ours.iso, ours.focal_mm) == (there[0x8827], float(there[0x920A]))
    assert (ours.white_balance == "auto", ours.flash_fired) == (there[0xA403] == 0, there[0x9209] == 1)


def test_places_and_serial_numbers_are_not_taken_out() -> None:
    said = str(asdict(read(filming.jpeg())))
    assert "SERIAL" not in said
    assert "51" not in said.replace("0.0051", "")
    assert set(asdict(WHOLE)) == {
        "f_number", "shutter_s", "iso", "focal_mm", "white_balance", "flash_fired", "taken", "odd_time",
    }  # fmt: skip


@pytest.mark.parametrize("text", ["Sunday, 11am", "0000:00:00 00:00:00", "2026:13:41 09:00:00", "1904:01:01 00:00:00"])
def test_a_time_that_is_none_is_said_as_it_stands_and_the_rest_is_read(text: str) -> None:
    found = read(filming.jpeg(exif=filming.entries(at=text)))
    assert (found.taken, found.odd_time, found.f_number) == (None, text, 8.0)


def test_a_camera_that_does_not_say_its_zone_gives_a_naive_time() -> None:
    found = read(filming.jpeg(exif=filming.entries(zone="+1:zz0")))
    assert found.taken == filming.MOMENT


def test_nothing_over_nothing_is_not_known() -> None:
    found = read(filming.jpeg(exif=filming.entries(shutter=(0, 0))))
    assert (found.shutter_s, found.f_number) == (None, 8.0)


@pytest.mark.parametrize(
    ("body", "why"),
    [
        (b"", "empty"),
        (b"This is a text.", "no camera data read"),
        (b"\x89PNG\r\n\x1a\n" + bytes(99), "no camera data read"),
        (b"\xff\xd8\xff", "no camera data read"),
        (b"II*\x00", "no camera data read"),
        (filming.jpeg(exif=b""), "no camera data read"),
        (filming.jpeg()[:60], "no camera data read"),
        (b"II*\x00\x08\0\0\0\x01\0" + struct.pack("<HHIi", 0x8769, 2, 4, 1), "no camera data read"),  # a wrong type
    ],
)
def test_what_cannot_be_read_says_why(body: bytes, why: str) -> None:
    with pytest.raises(exif.Unread, match=why):
        read(body)


def test_ten_megabytes_of_makers_notes_cost_no_time() -> None:
    body = filming.raw(filming.entries(note=b"n" * 10_000_000))
    started = time.process_time()
    assert read(body).f_number == 8.0
    assert time.process_time() - started < 1


def test_a_directory_that_leads_round_and_round_is_given_up() -> None:
    """65,535 entries, each a text of two gigabytes; and a chain of directories one byte apart."""
    entry = struct.pack("<HHII", 0x010F, 2, 0x7FFFFFFF, 0)
    started = time.process_time()
    for body in (b"II*\x00\x08\0\0\0\xff\xff" + entry * 65_535, b"II*\x00" + b"\x08\x01\0\0" * 200_000):
        with pytest.raises(exif.Unread):
            read(body)
    assert time.process_time() - started < 2


def test_files_bent_at_random_are_read_or_refused_and_never_raise_anything_else() -> None:
    chance = random.Random(7)
    for body in (filming.jpeg(), filming.raw()):
        for _ in range(60):
            bent = bytearray(body)
            for _ in range(chance.randrange(1, 30)):
                bent[chance.randrange(min(700, len(bent)))] = chance.randrange(256)
            try:
                read(bytes(bent[: chance.randrange(1, len(bent))]))
            except exif.Unread:
                continue


def test_only_the_ends_are_read_and_the_middle_is_nothing() -> None:
    piece = Piece(30, b"0123456789", b"abcde")
    file = Sparse(piece)
    assert file.seek(8) == 8
    assert file.read(20) == b"89" + bytes(15) + b"abc"
    assert read_piece(io.BytesIO(filming.raw(size=9_000_000))).size == 9_000_000


def test_a_file_is_known_by_its_content_whatever_it_is_called() -> None:
    one, other = (read_piece(io.BytesIO(filming.jpeg(filming.picture(n)))) for n in (90, 91))
    assert one.digest != other.digest
    assert one.kind is Kind.JPEG
    assert read_piece(io.BytesIO(b"text")).kind is Kind.OTHER


@pytest.mark.parametrize(
    ("given", "plain", "number"),
    [
        ("LQ_0041.JPG", "LQ_0041.JPG", 41),
        ("../../house/keys.jpg", "keys.jpg", None),
        ("C:\\cards\\one\\LQ2_7.dng", "LQ2_7.dng", 7),
        ("a\nb\x00c.jpg", "abc.jpg", None),
        ("..", "?", None),
        ("", "?", None),
    ],
)
def test_names_lead_nowhere_and_give_their_number(given: str, plain: str, number: int | None) -> None:
    assert plain_name(given) == plain
    assert number_in(plain_name(given)) == number
