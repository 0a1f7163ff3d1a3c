"""How many of a thing a day needs."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from shotplans.sheets import compose
from shotplans.sheets.content import PackingSheet
from tests.sheets import examples

AT = datetime(2026, 12, 3, 9, tzinfo=UTC)


def packed(*starts: float, names: tuple[str, ...] = ("askew", "dorrow")) -> PackingSheet:
    parts = [(examples.heading(n), *examples.planned(n)) for n in names]
    spans = [(AT + timedelta(hours=h), AT + timedelta(hours=h + 2)) for h in starts]
    return compose.packing_sheet(parts, examples.URL, spans=spans)


def counts(sheet: PackingSheet) -> dict[str, int]:
    return {row.item: row.count for group in sheet.groups for row in group.rows}


def test_what_is_in_use_in_two_rooms_at_once_is_packed_twice() -> None:
    after, at_once = counts(packed(0, 2)), counts(packed(0, 1))
    assert (after["mains cable"], at_once["mains cable"]) == (3, 5)
    assert (after["meter"], at_once["meter"]) == (1, 2)
    assert after["h400-1"] == at_once["h400-1"] == 1  # a piece with a code is one piece; two sittings cannot hold it
    assert counts(packed())["mains cable"] == 3


def test_each_set_up_has_its_sheets_and_each_far_light_its_lead() -> None:
    found = counts(packed(names=("askew", "marrowfield")))
    assert found["setup sheet"] == 2 + 2 * 2
    assert found["extension lead"] == 3


def test_a_stand_with_a_panel_is_weighed_like_one_with_a_head() -> None:
    stands = {one.stand: one for one in packed(names=("marrowfield",)).stands}
    assert stands["stand90-1"].bag_kg == 2.9
    assert stands["stand90-1"].used_for == "L-0043 B; L-0043 C"
