"""Blanks of a wording: the wrong ones are named with their line, the right ones filled with plain text."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings import blanks
from bookings.blanks import Fault

KNOWN = ("sitting.date", "sitting.start", "client.name")


def test_a_wrong_blank_is_said_with_its_line_and_the_nearest_there_is() -> None:
    text = "Dear {{ client.name }},\n\non {{ sitting.dat }} at {{sitting.start}}"
    assert blanks.faults(text, KNOWN) == [Fault(3, "sitting.dat", "sitting.date")]


@pytest.mark.parametrize("text", ["{{ client.name", "client.name }}", "{{ a {{ client.name }}", "{{}}", "{{{ x }}}"])
def test_braces_that_do_not_close_or_hold_nothing_are_a_fault(text: str) -> None:
    assert blanks.faults(text, KNOWN)


def test_a_value_is_never_read_as_a_wording() -> None:
    filled = blanks.fill("{{ client.name }}: {{ sitting.date }}", {
        "client.name": "{{ sitting.date }} {% now %} %(x)s", "sitting.date": "today"
    })  # fmt: skip
    assert filled == "{{ sitting.date }} {% now %} %(x)s: today"


def test_a_line_whose_blanks_are_all_empty_is_left_out_and_no_other() -> None:
    text = "a\nThe way in: {{ sitting.date }}\n\n{{ sitting.date }}{{ sitting.start }}\nb"
    assert blanks.fill(text, {"sitting.date": "", "sitting.start": "9:30"}) == "a\n\n9:30\nb"


@given(st.text(), st.text())
def test_whatever_is_typed_can_be_looked_through_and_filled(text: str, value: str) -> None:
    if not blanks.faults(text, KNOWN):
        filled = blanks.fill(text, dict.fromkeys(KNOWN, value))
        assert "{{" not in value + text or filled is not None
    blanks.fill(text, {})
