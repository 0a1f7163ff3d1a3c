"""What readings teach: found again in simulated studios, sure as often as stated, deaf to gross errors."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.records.corrections import Observation, fit_corrections
from tests.bench import corrected


def readings(*offsets: float, head: str = "h", modifier: str = "m", start: int = 0) -> list[Observation]:
    return [Observation(head, modifier, x, float(start + n), start + n) for n, x in enumerate(offsets)]


def test_hidden_offsets_are_found_and_the_stated_doubt_is_true() -> None:
    found = corrected.simulated(seeds=5)
    assert found.median <= corrected.MOST_MEDIAN_STOPS
    assert found.covered == pytest.approx(corrected.COVERED, abs=corrected.COVERED_WITHIN)
    assert found.median < found.plain / 2
    assert found.alarms == 0


def test_nothing_read_teaches_nothing() -> None:
    found = fit_corrections([])
    assert not found.pairs
    assert found.of("h", "m") is None


def test_one_reading_is_believed_less_than_five_and_both_less_than_they_say() -> None:
    one = fit_corrections(readings(-0.4)).pairs["h", "m"]
    five = fit_corrections(readings(-0.4, -0.4, -0.4, -0.4, -0.4)).pairs["h", "m"]
    assert -0.4 < five.offset_stops < one.offset_stops < 0
    assert five.standard_error_stops < one.standard_error_stops


def test_a_gross_error_is_set_aside_and_shown() -> None:
    found = fit_corrections(readings(0.3, 0.2, 0.3, -1.6, 0.3)).pairs["h", "m"]
    assert [o.offset_stops for o in found.set_aside] == [-1.6]
    assert (found.readings, found.mean_stops) == (4, pytest.approx(0.275))
    # without it, the mean of the four
    assert found.offset_stops == pytest.approx(0.275, abs=0.05)


def test_two_readings_that_disagree_widen_the_doubt_and_neither_is_set_aside() -> None:
    agreed = fit_corrections(readings(0.3, 0.3)).pairs["h", "m"]
    torn = fit_corrections(readings(0.3, -1.4)).pairs["h", "m"]
    assert not torn.set_aside
    assert torn.standard_error_stops > agreed.standard_error_stops


def test_a_lamp_that_drifts_is_noticed_and_only_what_it_gives_now_counts() -> None:
    rng = np.random.default_rng(1)
    old, new = rng.normal(0.2, 0.1, 8).round(1), rng.normal(-0.4, 0.1, 5).round(1)
    found = fit_corrections([*readings(*old), *readings(*new, start=100)])
    drift = found.heads["h"].drift
    assert drift is not None
    assert drift.stops == pytest.approx(-0.6, abs=0.1)
    assert (drift.day, drift.after) == (100.0, 5)
    assert found.pairs["h", "m"].readings == 5
    assert found.pairs["h", "m"].mean_stops == pytest.approx(-0.4, abs=0.1)


def test_a_head_lends_what_it_has_in_common_to_a_modifier_never_read() -> None:
    both = [o for m in ("a", "b", "c") for o in readings(-0.5, -0.5, -0.5, modifier=m)]
    others = [o for h in ("x", "y") for o in readings(0.0, 0.0, 0.0, head=h, modifier="a")]
    found = fit_corrections([*both, *others])
    lent = found.of("h", "never")
    assert lent is not None
    assert -0.5 < lent.offset_stops < -0.15
    assert lent.standard_error_stops > found.pairs["h", "a"].standard_error_stops
    assert found.of("x", "never") is None  # one modifier cannot say whose it is


@given(st.lists(st.tuples(st.sampled_from("hij"), st.sampled_from("mno"), st.floats(-9, 9)), max_size=30))
def test_any_readings_give_finite_corrections_no_further_than_what_was_read(rows: list[tuple[str, str, float]]) -> None:
    found = fit_corrections(Observation(h, m, x, float(n), n) for n, (h, m, x) in enumerate(rows))
    most = max((abs(x) for _h, _m, x in rows), default=0.0)
    for one in found.pairs.values():
        assert abs(one.offset_stops) <= most + 1e-9
        assert 0 <= one.standard_error_stops < 20
