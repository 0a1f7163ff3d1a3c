"""The sheet while a hand is on it: how much of it is shown."""

from __future__ import annotations

import pytest

from shotplans.sheets import diagram, live
from studio.paper.primitives import Mark, Text
from tests.sheets.test_diagram import scenes


def words(marks: list[Mark]) -> list[Text]:
    return [mark for mark in marks if isinstance(mark, Text)]


@pytest.mark.parametrize("number", range(5))
def test_all_that_stands_on_the_sheet_is_shown_and_little_beside_it(number: int) -> None:
    sheet = live.Sheet(scenes()[number])
    left, right = sheet.layers(sheet.suggested).across
    for text in words(diagram.standing(sheet.suggested, sheet.laid)):
        assert left <= text.box.left
        assert text.box.right <= right
    drawn = [x for grip in sheet.layers(sheet.suggested).grips for x in (grip.x,)]
    assert left < min(drawn)
    assert max(drawn) < right
    assert right - left < live.SIZE_MM[0], "a telephone shows the room and no margin"
    # While a hand moves, nothing is laid out anew under it.
    assert sheet.layers(sheet.suggested, settled=False).across == sheet.across
