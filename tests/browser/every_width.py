"""Every page of the demo, in every role that may open it, at every width and at 200 %, contrast and first paint
included. Belongs here: the long list, which `python -m tests.browser.every_page` runs. Not here: the demo, and what is
measured on a page (`everywhere`)."""

from __future__ import annotations

import os
from contextlib import nullcontext
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from studio.access import EVERY_ROLE
from tests import pseudo
from tests.browser import everywhere
from tests.browser.everywhere import CLIENT, WIDTHS, Seen, Walker
from tests.browser.test_every_page import Demo, db, demo  # noqa: F401

SLOW_4G = {"offline": False, "latency": 150, "downloadThroughput": 200_000, "uploadThroughput": 90_000}  # ms, bytes/s
FIRST_PAINT_MS = 1000
OUT = "TENTHSTOP_PICTURES"  # where the command wants the pictures
LONG, ONE = "TENTHSTOP_PSEUDO", "TENTHSTOP_WIDTH"  # whether it wants the long language, and one width alone
# Half as wide and twice as dense: what a window of 1280 shows at 200 % (WCAG 2.2, 1.4.4).
ZOOMED = {"device_scale_factor": 2}


def told(seen: list[Seen]) -> dict[str, list[str]]:
    """Prints the table; what is wrong, by page."""
    for one in seen:
        print(f"{one.name:<24} {one.role:<13} {one.width:>5} {one.painted_ms:>6.0f} ms {one.shift:>6.3f} ", end="")
        print("; ".join(one.wrong) or "whole")
    return {f"{one.name}, {one.role}, {one.width}": one.wrong for one in seen if one.wrong}


def picture(name: str) -> Path | None:
    folder = os.environ.get(OUT)
    return Path(folder) / f"{name.replace(' ', '-').replace(',', '')}.png" if folder else None


@pytest.mark.parametrize("role", [*EVERY_ROLE, CLIENT])
def test_every_page_at_every_width(demo: Demo, chromium: Browser, role: str) -> None:  # noqa: F811
    walker = Walker(chromium, demo.url, demo.world, role)
    zoomed = Walker(chromium, demo.url, demo.world, role, **ZOOMED)
    seen = []
    one = os.environ.get(ONE)
    with pseudo.spoken() if os.environ.get(LONG) else nullcontext():
        for page in [page for page in demo.addresses if role in page.roles]:
            for width in [int(one)] if one else WIDTHS:
                kept = picture(f"{page.name}-{role}-{width}")
                seen.append(walker.open(page.name, page.url, width, contrast=width == WIDTHS[0], picture=kept))
            if not one:
                seen.append(zoomed.open(page.name, page.url, 640))
    walker.close()
    zoomed.close()
    assert told(seen) == {}


@pytest.mark.parametrize("role", EVERY_ROLE)
def test_the_first_page_is_painted_within_a_second_on_a_slow_network(
    demo: Demo,  # noqa: F811
    chromium: Browser,
    role: str,
) -> None:
    walker = Walker(chromium, demo.url, demo.world, role)
    line = walker.context.new_cdp_session(walker.page)
    line.send("Network.enable")
    line.send("Network.setCacheDisabled", {"cacheDisabled": True})
    line.send("Network.emulateNetworkConditions", SLOW_4G)
    seen = walker.open("first page, slow 4G", "/", everywhere.WIDTHS[-1])
    walker.close()
    assert told([seen]) == {}
    assert seen.painted_ms < FIRST_PAINT_MS
