"""Labels of the kit: every sticker on its own place of the sheet, and its code read back from the paper."""

from __future__ import annotations

import io
from typing import Any

import pytest
from pypdf import PdfReader

from studio.paper.stickers import GRIDS, Grid, Sticker, placed, render
from tests import cast
from tests.sheets.reading import codes_of


@pytest.mark.parametrize("grid", GRIDS.values(), ids=GRIDS)
def test_stickers_lie_on_their_paper_and_none_over_another(grid: Grid) -> None:
    assert grid.step_x >= grid.width
    assert grid.step_y >= grid.height
    right, low = grid.corner(grid.count - 1)
    assert right + grid.width <= grid.paper.width + 0.01
    assert low + grid.height <= grid.paper.height + 0.01
    # Sheets are cut alike on both sides, to a millimetre.
    assert grid.paper.width - right - grid.width == pytest.approx(grid.left, abs=1.0)
    assert grid.paper.height - low - grid.height == pytest.approx(grid.top, abs=1.5)


def test_a_sheet_that_was_begun_is_used_up_before_the_next() -> None:
    grid = GRIDS["a4-24"]
    assert list(placed(4, grid, 23)) == [(0, 22), (0, 23), (1, 0), (1, 1)]
    made = [Sticker(f"http://localhost/k/h-{n}/", f"h-{n}", "400 Ws head") for n in range(4)]
    pages = PdfReader(io.BytesIO(render(made, grid, start=23, title="Labels", author="Lindenmere"))).pages
    assert ["h-0" in page.extract_text() for page in pages] == [True, False]
    assert "h-3" in pages[1].extract_text()
    with pytest.raises(ValueError, match="start 25"):
        render(made, grid, start=25, title="Labels", author="Lindenmere")


@pytest.mark.django_db
def test_the_sheet_holds_the_address_of_each_piece_that_is_asked_for(settings: Any) -> None:
    settings.TENTHSTOP_URL = "http://localhost"
    codes = ("h400-1", "h400-2", "a-code-as-long-as-codes-may-be-it-is-written-smaller-or-broken"[:60])
    for code in codes:
        cast.make_kit("heads", code, serial="QB-4471")
    ines = cast.client_of(cast.make_member("assistant"))
    answer = ines.get("/kit/of-all/labels.pdf", {"codes": "h400-2, h400-2", "grid": "letter-30", "start": "30"})
    pages = PdfReader(io.BytesIO(answer.content)).pages
    assert [page.extract_text().count("h400-2") for page in pages] == [1, 1]
    assert [round(float(x)) for x in pages[0].mediabox[2:]] == [612, 792]
    everything = PdfReader(io.BytesIO(ines.get("/kit/of-all/labels.pdf").content)).pages[0].extract_text()
    assert "h400-1" in everything
    assert "400 Ws head" in everything
    assert "QB-4471" not in everything
    smallest = ines.get("/kit/of-all/labels.pdf", {"grid": "a4-65"}).content
    assert sorted(codes_of(smallest)) == sorted(f"http://localhost/k/{code}/" for code in codes)


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"codes": "h999"}, "No piece has the code “h999”."),
        ({"grid": "a4-24", "start": "25"}, "This sheet has 24 stickers."),
        ({"start": "many"}, "Give a number, 1 for a whole sheet."),
        ({"grid": "b5"}, "Choose one of the list."),
        ({"words": "trombone"}, "there is nothing to print"),
    ],
)
def test_what_makes_no_sheet_is_said_beside_its_field(asked: dict[str, str], says: str) -> None:
    cast.make_kit("heads")
    answer = cast.client_of(cast.make_member("owner")).get("/kit/of-all/labels.pdf", asked)
    assert answer.status_code == 422
    assert says in answer.content.decode()
