"""Photometric files: their flux against published numbers and against a sum over the sphere, and what is no file."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shotplans.light import beams, photometry
from shotplans.records.lm63 import Unreadable, read_lm63

ALL_ROUND = tuple(range(0, 181, 5))
AHEAD = tuple(range(0, 91))


def file(
    angles: tuple[float, ...], rows: list[list[float]], planes: tuple[float, ...] = (0,), *, tilt: str = "TILT=NONE",
    first: str = "IESNA:LM-63-2002", kind: int = 1, factor: float = 1, ballast: float = 1,
) -> bytes:  # fmt: skip
    lines = [first, "[TEST] 1", "[MANUFAC] Quillbridge Lamps", tilt]
    lines += [f"1 -1 {factor} {len(angles)} {len(planes)} {kind} 2 -0.2 0 0", f"{ballast} 1 350"]
    lines += [" ".join(map(str, angles)), " ".join(map(str, planes))]
    return "\r\n".join([*lines, *(" ".join(map(str, row)) for row in rows)]).encode("latin-1")


CONE = (0, 30, 30.0001, 90)
LAMBERT = [[1000 * float(np.cos(np.radians(a))) for a in AHEAD]]


@pytest.mark.parametrize(
    ("content", "lumens"),
    [  # reference/values.md X33
        (file(ALL_ROUND, [[100] * len(ALL_ROUND)]), 1256.64),
        (file(AHEAD, LAMBERT), 3141.59),
        (file(CONE, [[1000, 1000, 0, 0]]), 841.79),
        (file(CONE, [[10, 10, 0, 0]], factor=50, ballast=2), 841.79),
        (file(CONE, [[1000, 1000, 0, 0]] * 2, (0, 360)), 841.79),
        (file(CONE, [[1000, 1000, 0, 0]] * 3, (0, 45, 90), tilt="TILT=INCLUDE\n1\n2\n0 90\n1 0.9"), 841.79),
        (file(CONE, [[1000, 1000, 0, 0]], first="IESNA:LM-63-1995", tilt="TILT=LAMP.TLT"), 841.79),
    ],
)
def test_the_flux_of_a_file_is_the_published_one(content: bytes, lumens: float) -> None:
    # An intensity straight between whole degrees is 2.5e-5 below a cosine.
    assert read_lm63(content).flux_lm == pytest.approx(lumens, rel=3e-5)


@settings(max_examples=25)
@given(st.lists(st.floats(0, 1e4), min_size=6, max_size=6), st.sampled_from([90, 180, 360]))
def test_any_beam_s_flux_is_the_sum_over_the_sphere(cd: list[float], last: int) -> None:
    angles, planes = (0.0, 20.0, 50.0, 90.0, 130.0, 180.0), (0.0, last / 2, float(last))
    rows = [cd, cd[::-1], cd]
    read = read_lm63(file(angles, rows, planes))
    # Our own quadrature in two dimensions, by midpoints, of the same straight lines between the same points.
    at, round_it = (np.arange(1800) + 0.5) / 10, (np.arange(90) + 0.5) * 2 / 90
    by_plane = np.array([np.interp(at, angles, row) for row in rows])
    lower = np.minimum(round_it.astype(int), 1)
    share = (round_it - lower)[:, None]
    grid = by_plane[lower] * (1 - share) + by_plane[lower + 1] * share
    direct = 2 * np.pi * (grid.mean(axis=0) * np.sin(np.radians(at))).sum() * np.radians(0.1)
    assert read.flux_lm == pytest.approx(direct, rel=1e-4, abs=1e-6)


@pytest.mark.parametrize("beam_deg", [20.0, 60.0, 120.0])
def test_a_file_of_a_known_beam_does_what_that_beam_does(beam_deg: float) -> None:
    n = float(beams.beam_exponent(beam_deg))
    shares = read_lm63(file(AHEAD, [[500 * float(np.cos(np.radians(a))) ** n for a in AHEAD]])).shares
    off = np.cos(np.radians([0.0, 5.0, 9.5, 20.0, 40.0]))
    assert photometry.measured_gain(off, shares) == pytest.approx(beams.beam_gain(off, beam_deg), rel=0.01, abs=1e-4)
    assert photometry.measured_flux_over_axis(shares) == pytest.approx(beams.flux_over_axis(beam_deg), rel=0.002)
    assert photometry.measured_width_deg(shares) == pytest.approx(beam_deg, abs=0.05)


GOOD = file(CONE, [[1000, 1000, 0, 0]]).decode()


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("", "Line 1: expected IESNA:LM-63-1995"),
        (GOOD.replace("2002", "1986"), "Line 1: expected IESNA:LM-63-1995"),
        (GOOD.replace("TILT=NONE", "[MORE] 1"), "no line says TILT="),
        (GOOD.replace("TILT=NONE", "TILT="), "Line 4: TILT= says nothing"),
        (GOOD.replace("[TEST]", "TEST"), "Line 2: expected a keyword"),
        (GOOD.replace("1 -1 1 4", "1 -1 1 4.5"), "Line 5: 4.5 cannot be how many angles"),
        (GOOD.replace("1 -1 1 4", "1 -1 one 4"), "Line 5: “one” stands where the factor of the intensities"),
        (GOOD.replace("1 -1 1 4", "1 -1 nan 4"), "Line 5: nan cannot be the factor"),
        (GOOD.replace("4 1 1 2", "4 1 2 2"), "Line 5: photometry of type B"),
        (GOOD.replace("4 1 1 2", "4 1 1 3"), "Line 5: 3 cannot be the unit of lengths"),
        (GOOD.replace("0 30 30.0001 90", "0 30 30 90"), "Line 7: angle from the axis 30 does not rise above 30"),
        (GOOD.replace("0 30 30.0001 90", "0 30 40 80"), "Line 7: the last angle from the axis is 80"),
        (GOOD.replace("0 30 30.0001 90", "5 30 40 90"), "Line 7: the first angle from the axis is 5"),
        (GOOD.replace("\r\n0\r\n", "\r\n45\r\n"), "Line 8: the first plane is 45"),
        (GOOD.replace("1000 1000 0 0", "1000 1000 0"), "Line 9: the file ends where an intensity"),
        (GOOD.replace("1000 1000 0 0", "1000 -5 0 0"), "Line 9: -5 cannot be an intensity"),
        (GOOD + "\r\n7", "Line 10: “7” stands after the last intensity"),
        (GOOD.replace("TILT=NONE", "TILT=INCLUDE\r\n9\r\n"), "Line 5: 9 cannot be the lamp's place"),
    ],
)
def test_what_is_no_photometric_file_is_refused_with_its_line(content: str, says: str) -> None:
    with pytest.raises(Unreadable) as refused:
        read_lm63(content.encode())
    assert says in str(refused.value)


@settings(max_examples=60)
@given(st.one_of(st.binary(max_size=200), st.text(max_size=60).map(lambda t: (GOOD[:150] + t).encode())))
def test_any_bytes_are_read_or_refused(content: bytes) -> None:
    try:
        said, flux = "Line ", read_lm63(content).flux_lm
    except Unreadable as refused:
        said, flux = str(refused), 0.0
    assert said.startswith("Line ")
    assert flux >= 0


def test_a_lamp_without_light_on_its_axis_is_no_beam_to_aim() -> None:
    with pytest.raises(Unreadable, match="no light on the axis"):
        _ = read_lm63(file((90, 180), [[100, 100]])).shares
