"""Exposure: f-numbers, shutter times and lux seconds, and how a meter and a camera write them.

What a lamp delivers is in heads, what a dome sees in metering, what moves in motion; nothing here knows where a
light stands.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from shotplans.light.units import F, Numbers, require_not_negative, require_positive, round_to

CALIBRATION_C = 250.0
"""Incident-light calibration constant, flat receptor, lx s at ISO 1; [ISO2720] allows 240 to 400."""

_LABEL_REACH_STOPS = 0.15
_SHUTTER_REACH_STOPS = 0.1
_FIRST_FULL = -2  # f/0.5 is 2 stops below f/1
# fmt: off
_FULL = (0.5, 0.7, 1, 1.4, 2, 2.8, 4, 5.6, 8, 11, 16, 22, 32, 45, 64, 90, 128)
_THIRDS = (
    0.5, 0.56, 0.63, 0.7, 0.8, 0.9, 1, 1.1, 1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.5, 2.8, 3.2, 3.5, 4, 4.5, 5, 5.6,
    6.3, 7.1, 8, 9, 10, 11, 13, 14, 16, 18, 20, 22, 25, 29, 32, 36, 40, 45, 51, 57, 64, 72, 80, 90,
    102, 114, 128,
)
_HALVES = (0.6, 0.85, 1.2, 1.7, 2.4, 3.3, 4.8, 6.7, 9.5, 13, 19, 27, 38, 54, 76, 108)
_HALVES_ELSEWHERE = {3.4: 7, 6.8: 11, 9.6: 13, 13.6: 15}  # the other printing: quarter-stop index
_SHUTTER_PARTS = (
    8000, 6400, 6000, 5000, 4000, 3200, 3000, 2500, 2000, 1600, 1500, 1250, 1000, 800, 750, 640, 500, 400,
    350, 320, 250, 200, 180, 160, 125, 100, 90, 80, 60, 50, 45, 40, 30, 25, 20, 15, 13, 10, 8, 6, 5, 4,
)
_SHUTTER_SECONDS = (
    0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 1, 1.3, 1.5, 1.6, 2, 2.5, 3, 3.2, 4, 5, 6, 8, 10, 13, 15, 20, 25, 30,
    40, 50, 60,
)
# fmt: on


def _label_table() -> list[tuple[float, float]]:
    """Every nominal f-number with the exact one it stands for; thirds first, so that f/13 is a third."""
    thirds = [(label, 2 ** ((_FIRST_FULL * 3 + at) / 6)) for at, label in enumerate(_THIRDS)]
    halves = [(label, 2 ** ((2 * _FIRST_FULL + 1 + 2 * at) / 4)) for at, label in enumerate(_HALVES)]
    others = [(label, 2 ** (quarter / 4)) for label, quarter in _HALVES_ELSEWHERE.items()]
    return thirds + halves + others


_LABELS = _label_table()
_SHUTTERS = [(1 / part, f"1/{part}") for part in _SHUTTER_PARTS]
_SHUTTERS += [(seconds, f"{seconds:g} s") for seconds in _SHUTTER_SECONDS]


def exposure_value(f_number: Numbers, shutter_s: Numbers) -> F:
    """Exposure value log2(N^2 / t) of exact settings, EV; any shape; above zero or ValueError. [EV]"""
    require_positive(f_number=f_number, shutter_s=shutter_s)
    found: F = np.log2(np.square(f_number) / shutter_s)
    return found


def illuminance_lx(f_number: Numbers, shutter_s: Numbers, iso: Numbers) -> F:
    """Illuminance C N^2 / (t S) that these settings ask for, lx; any shape; above zero or ValueError.

    Source: [ISO2720], flat receptor, C = 250.
    """
    require_positive(shutter_s=shutter_s)
    return luminous_exposure_lxs(f_number, iso) / shutter_s


def luminous_exposure_lxs(f_number: Numbers, iso: Numbers) -> F:
    """Incident exposure C N^2 / S that an f-number asks for, lx s; any shape; ValueError unless above zero.

    Source: [ISO2720], flat receptor, C = 250; for flash the time is already inside the exposure.
    """
    require_positive(f_number=f_number, iso=iso)
    found: F = CALIBRATION_C * np.square(f_number) / iso
    return found


def f_number_for(exposure_lxs: Numbers, iso: Numbers) -> F:
    """F-number sqrt(H S / C) that an incident exposure in lx s calls for; any shape; no light gives 0.

    Raises ValueError for a negative exposure or an ISO not above zero. Source: [ISO2720] solved for N.
    """
    require_positive(iso=iso)
    require_not_negative(exposure_lxs=exposure_lxs)
    found: F = np.sqrt(np.asarray(exposure_lxs, dtype=np.float64) * iso / CALIBRATION_C)
    return found


@lru_cache(maxsize=1024)
def exact_f_number(nominal: float) -> float:
    """Exact f-number 2^(n/6) or 2^(n/4) that an engraved label stands for: 11 -> 11.3137.

    Matched by label, not by value: f/13 is engraved for two values, and the third stop is taken then. One
    more than 0.15 stop from every label (f/0.5 to f/128) is no label and comes back unchanged. ValueError
    unless above zero. Source: [FSTOPS].
    """
    require_positive(f_number=nominal)
    gaps = [abs(float(stops_between(nominal, label))) for label, _ in _LABELS]
    nearest = min(range(len(gaps)), key=gaps.__getitem__)
    return _LABELS[nearest][1] if gaps[nearest] <= _LABEL_REACH_STOPS else nominal


def shown(f_number: float) -> str:
    """F-number as a meter shows it, full stop plus tenths: 7.0 -> "f/5.6 +0.6"; always with its tenths.

    Takes exact f-numbers, f/0.5 to f/128 by their engraved labels, further by two figures. ValueError unless
    above zero. Source: [FSTOPS]; the tenths are common practice, no source.
    """
    tenths = round(round_to(10 * float(_aperture_value(f_number)), 1))
    full, over = divmod(tenths, 10)
    return f"{_engraved(_FULL, full - _FIRST_FULL, 2 ** (full / 2))} +0.{over}"


def stops_between(f_a: Numbers, f_b: Numbers) -> F:
    """Stops from f-number a to b, 2 log2(b / a): positive when b asks for more light; any shape. [APEX]"""
    require_positive(f_a=f_a, f_b=f_b)
    found: F = 2 * np.log2(np.asarray(f_b, dtype=np.float64) / f_a)
    return found


def nearest_third(f_number: float) -> tuple[str, float]:
    """Label of the nearest third stop, and the light to add (stops, to 0.1) that would make it exact.

    2^(5.6/2) -> ("f/7.1", 0.1). ValueError unless above zero. Source: [FSTOPS].
    """
    value = float(_aperture_value(f_number))
    third = round(round_to(3 * value, 1))
    label = _engraved(_THIRDS, third - 3 * _FIRST_FULL, 2 ** (third / 6))
    return label, round_to(third / 3 - value, 0.1)


def shutter_label(seconds: float) -> str:
    """Shutter time as a camera writes it: 1/128 -> "1/125", 2 -> "2 s".

    True and nominal times both find their label (the two differ by up to 0.093 stop, [SHUTTER]); a time more
    than 0.1 stop from every label is written out. ValueError unless above zero.
    """
    require_positive(seconds=seconds)
    nominal, label = min(_SHUTTERS, key=lambda row: abs(np.log2(row[0] / seconds)))
    if abs(np.log2(nominal / seconds)) <= _SHUTTER_REACH_STOPS:
        return label
    return f"1/{1 / seconds:.0f}" if seconds < 0.5 else f"{seconds:.3g} s"


def ambient_below_stops(ambient_lux: Numbers, f_number: Numbers, shutter_s: Numbers, iso: Numbers) -> F:
    """Stops by which room light stays under the exposure set: EV of the settings less log2(E S / C) of the room.

    Any shape; inf in the dark, negative where the room outshines the setting. ValueError for negative lux or
    settings not above zero. Sources: [EV], [ISO2720].
    """
    require_not_negative(ambient_lux=ambient_lux)
    require_positive(iso=iso)
    with np.errstate(divide="ignore"):
        room: F = np.log2(np.asarray(ambient_lux, dtype=np.float64) * iso / CALIBRATION_C)
    return exposure_value(f_number, shutter_s) - room


def _aperture_value(f_number: float) -> F:
    return stops_between(1.0, f_number)


def _engraved(labels: tuple[float, ...], at: int, exact: float) -> str:
    if 0 <= at < len(labels):
        return f"f/{labels[at]:g}"
    return f"f/{exact:.2g}" if exact < 1 else f"f/{exact:.0f}"
