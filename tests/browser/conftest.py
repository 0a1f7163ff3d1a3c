"""The one real browser of the suite. Belongs here: starting headless Chromium and watching what it complains of."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

import pytest
from playwright.sync_api import (
    Browser,
    BrowserContext,
    ConsoleMessage,
    Locator,
    Page,
    Request,
    Response,
    expect,
    sync_playwright,
)

from tests.cast import PASSWORD

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--no-first-run",
    "--disable-background-networking",
]
PATIENCE_MS = 60_000  # for a busy machine; what is there is seen at once
expect.set_options(timeout=PATIENCE_MS)


def _and_see(act: Callable[..., None]) -> Callable[..., None]:
    """As people do: after a press, wait until what it opens stands there whole. The library waits for the first byte
    only, and half a page can be measured, or typed into before its scripts are there."""

    def whole(place: Locator | Page, *how: Any, **more: Any) -> None:
        act(place, *how, **more)
        (place.page if isinstance(place, Locator) else place).wait_for_load_state()

    return whole


def unfold_pages(page: Page) -> None:
    """On a telephone the pages, one's name and the way out are folded behind one word."""
    page.locator(".pages:not([open]) > summary").click()


@dataclass
class Desk:
    """Somebody's browser window, and everything that went wrong or went elsewhere in it."""

    browser: Browser
    address: str
    wrong: list[str] = field(default_factory=list)
    windows: list[BrowserContext] = field(default_factory=list)

    def sign_in(self, name: str, *, width: int) -> Page:
        self.windows.append(self.browser.new_context(viewport={"width": width, "height": 900}, locale="en-GB"))
        page = self.windows[-1].new_page()
        page.set_default_timeout(PATIENCE_MS)
        page.on("console", self._said)
        page.on("pageerror", lambda error: self.wrong.append(f"script: {error}"))
        page.on("request", self._asked)
        page.on("response", self._answered)
        page.goto(self.address)
        page.fill("[name=username]", name)
        page.fill("[name=password]", PASSWORD)
        page.press("[name=password]", "Enter")
        page.wait_for_url(lambda at: "sign-in" not in at)
        return page

    def _said(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning"):
            self.wrong.append(f"console: {message.text}")

    def _asked(self, request: Request) -> None:
        if not request.url.startswith((self.address, "data:", "blob:")):
            self.wrong.append(f"another host: {request.url}")

    def _answered(self, response: Response) -> None:
        if response.status >= 400:
            self.wrong.append(f"{response.status}: {response.url}")


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    """Started once a file: a start costs as much as a short trip."""
    found = shutil.which("chromium")
    if found is None:
        pytest.skip("no Chromium on this desk; the trip is run by .ci/run, which installs one")
    # The browser's driver keeps a loop of events running in this thread, which Django takes for asynchronous code.
    with pytest.MonkeyPatch.context() as patch, sync_playwright() as playwright:
        patch.setitem(os.environ, "DJANGO_ALLOW_ASYNC_UNSAFE", "true")
        for of in (Locator, Page):
            patch.setattr(of, "click", _and_see(of.click))
            patch.setattr(of, "press", _and_see(of.press))
        browser = playwright.chromium.launch(executable_path=found, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def desk(chromium: Browser, live_server: object) -> Iterator[Desk]:
    """A browser that remembers nothing of the test before."""
    desk = Desk(chromium, str(live_server))
    yield desk
    for window in desk.windows:
        window.close()
