"""The picture in a JPEG as numbers: spread, what is clipped and blocked, patches, the small copy, and bombs."""

from __future__ import annotations

import io
import struct

import numpy as np
import pytest
from PIL import Image

from shotplans.light import pictures as light
from shotplans.records import pictures
from tests.records import filming


def seen(levels: np.ndarray, **how: int) -> pictures.Look:
    return pictures.look(io.BytesIO(filming.jpeg(filming.picture(levels), quality=95, **how)))[0]


def test_shares_of_what_is_clipped_and_blocked_are_those_of_the_picture() -> None:
    levels = np.full((200, 400, 3), 118, np.uint8)
    levels[:, :40], levels[:, 360:] = 255, 0
    found = seen(levels)
    assert found.clipped == pytest.approx(0.1, abs=0.01)
    assert found.blocked == pytest.approx(0.1, abs=0.01)
    assert found.clipped_parts[:3] == (0, 1, 2)
    assert sum(found.bins[0]) == found.samples == 80_000


def test_red_alone_may_be_clipped() -> None:
    levels = np.full((200, 400, 3), (255, 150, 120), np.uint8)
    found = seen(levels)
    assert found.red_clipped > 0.9
    assert found.bins[1][-1] == 0


def test_a_large_picture_is_sampled_and_says_how() -> None:
    levels = np.full((2400, 3600, 3), 118, np.uint8)
    levels[:240] = 255
    found = seen(levels)
    assert (found.width, found.height, found.reduced, found.samples) == (3600, 2400, 4, 900 * 600)
    assert found.clipped == pytest.approx(0.1, abs=0.005)  # 240 of 2,400 rows


def test_the_small_copy_is_upright_and_carries_nothing_of_the_camera() -> None:
    upright = Image.Exif()
    upright[pictures.ORIENTATION] = 6  # the camera was held upright
    _look, samples = pictures.look(io.BytesIO(filming.jpeg(filming.picture(90), exif=upright.tobytes())))
    small = pictures.small_copy(samples)
    again = Image.open(io.BytesIO(small.jpeg))
    assert (small.width, small.height) == again.size == (160, 240)
    assert not again.getexif()
    assert b"Exif" not in small.jpeg


def test_a_grey_card_gives_exposure_and_colour_in_stops_and_mired() -> None:
    # sRGB 118 is 18 % (ISO 12232's level for a grey card); half a stop more light is 0.2546, level 138.
    card = pictures.patch(filming.picture(118), 0.5, 0.5)
    assert float(light.exposure_stops(card.rgb)) == pytest.approx(0, abs=0.02)
    over = pictures.patch(filming.picture(138), 0.0, 1.0)
    assert float(light.exposure_stops(over.rgb)) == pytest.approx(0.5, abs=0.02)
    assert float(light.warmer_than_neutral_mired(card.rgb)) == pytest.approx(0, abs=0.5)
    warm = pictures.patch(filming.picture(np.full((99, 99, 3), (130, 118, 100), np.uint8)), 0.5, 0.5)
    assert float(light.warmer_than_neutral_mired(warm.rgb)) > 20


def forged(width: int, height: int) -> bytes:
    """A small JPEG that says it is as large as that."""
    body = bytearray(filming.jpeg())
    at = body.index(b"\xff\xc0") + 5
    body[at : at + 4] = struct.pack(">HH", height, width)
    return bytes(body)


NOISE = np.random.default_rng(1).integers(0, 255, (300, 300, 3))


@pytest.mark.parametrize(
    ("body", "why"),
    [
        (b"", "cannot be opened"),
        (b"\xff\xd8\xff\xe0", "cannot be opened"),
        (filming.jpeg(filming.picture(NOISE))[:9000], "stops in the middle"),
        (forged(30_000, 30_000), "too large"),
    ],
    ids=["nothing", "a beginning", "half", "bomb"],
)
def test_what_cannot_be_looked_at_says_why(body: bytes, why: str) -> None:
    with pytest.raises(pictures.NoPicture, match=why):
        pictures.look(io.BytesIO(body))
