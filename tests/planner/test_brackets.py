"""The demo's plans lie inside the photographer's brackets, or outside for a reason that is written down."""

from __future__ import annotations

import pytest

from tests.planner import brackets
from tests.planner.brackets import ROWS, Row


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.sitting}, {row.setup}: {row.what}")
def test_a_figure_is_inside_its_bracket_or_says_why_not(row: Row) -> None:
    held = brackets.inside(row)
    assert held is not None, "the plan has no such light"
    assert held != bool(row.as_good), row.as_good or "outside without a reason"


def test_the_command_prints_every_row(capsys: pytest.CaptureFixture[str]) -> None:
    assert brackets.main() == 0
    assert capsys.readouterr().out.count(" plan ") == len(ROWS)
