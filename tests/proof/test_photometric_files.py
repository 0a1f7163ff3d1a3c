"""Our reader of photometric files against another's: the same file gives the same angles, intensities and flux."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest

from shotplans.records.lm63 import read_lm63
from tests.records.test_lm63 import AHEAD, ALL_ROUND, CONE, LAMBERT, file

FINE = tuple(range(181))
LOPSIDED = [[max(0.0, 900 - 5 * a - tilt * a / 180) for a in FINE] for tilt in (0, 90, 200, 90, 0)]
FILES = {
    "the same all round": file(ALL_ROUND, [[100] * len(ALL_ROUND)]),
    "a cosine ahead": file(AHEAD, LAMBERT),
    "factor and ballast": file(CONE, [[10, 10, 0, 0]], factor=50, ballast=2),
    "a quarter of the planes, tilts told": file(
        CONE, [[1000, 1000, 0, 0], [900, 800, 0, 0], [70, 70, 0, 0]], (0, 45, 90), tilt="TILT=INCLUDE\n1\n2\n0 90\n1 1"
    ),
    "all planes, as in 1995": file(FINE, LOPSIDED, (0, 90, 180, 270, 360), first="IESNA:LM-63-1995"),
}


@pytest.mark.parametrize("name", FILES)
def test_another_reader_reads_the_same(name: str, photometric: Any, tmp_path: Path) -> None:
    path = tmp_path / "lamp.ies"
    path.write_bytes(FILES[name])
    ours, other = read_lm63(FILES[name]), photometric.IESFile.read(str(path))
    assert ours.angles_deg == tuple(other.photometry.thetas)
    assert ours.planes_deg == tuple(other.photometry.phis)
    ballast = float(other.header.ballast_factor)  # the other leaves it to whoever asks
    np.testing.assert_allclose(ours.candela, other.photometry.values * ballast, rtol=1e-12)
    assert ours.watts == other.header.input_watts
    if len(ours.angles_deg) > len(CONE):  # its sum takes each angle for a band half way to the next: fine steps alone
        assert ours.flux_lm == pytest.approx(other.photometry.total_optical_power() * ballast, rel=2e-4)


def test_another_reader_s_own_file_is_read_as_it_was_meant(photometric: Any, tmp_path: Path) -> None:
    """Written by the other from what it read: the layout of the text is then none of ours."""
    path = tmp_path / "lamp.ies"
    path.write_bytes(FILES["all planes, as in 1995"])
    photometric.IESFile.read(str(path)).write(str(path))
    anew = read_lm63(path.read_bytes())
    np.testing.assert_allclose(anew.candela, LOPSIDED, rtol=1e-3, atol=0.01)
