"""`python -m tests.browser.week`: the week of `tests/trips/week` walked whole in a real browser, the desk and the owner
at 1440 pixels, the photographer at 820, the assistant at 390. Belongs here: serving the house of the story with its own
clock, and a picture of each page that somebody reads. Not here: the story, what its rows must come to."""

from __future__ import annotations

import argparse
import os
import shutil
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, sync_playwright

from tests.browser.hand import BrowserHand

WIDTHS = {"maud": 1440, "harriet": 1440, "tobiah": 820, "ines": 390}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", type=Path, help="a folder for pictures of what was read")
    out = parser.parse_args().out
    with _house() as url, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        walk(browser, url, out)
        browser.close()


def walk(browser: Browser, url: str, out: Path | None) -> None:
    from studio import clock
    from tests.cast import PASSWORD
    from tests.trips.week import house, outcomes, story

    def sign_in(name: str) -> BrowserHand:
        context = browser.new_context(viewport={"width": WIDTHS[name], "height": 900}, locale="en-GB")
        hand = BrowserHand(context, url, name, PASSWORD, pictures=out)
        hand.at(clock.now())
        return hand

    def set_clock(moment: datetime) -> None:
        clock.now = lambda: clock.stands() or moment
        for hand in week.hands.values():
            hand.at(moment)  # type: ignore[attr-defined]

    week = house.Week(sign_in, set_clock, whole=True)
    began = time.monotonic()
    for day in story.walk(week):
        done = ", ".join(f"{who} {x.counted.clicks} clicks {x.counted.keys} keys" for who, x in week.hands.items())
        print(f"{day}: over after {time.monotonic() - began:.0f} s; so far {done}", flush=True)
    if missed := outcomes.ask_all(week):
        raise SystemExit("\n".join(["The week did not come to what it must:", *missed]))
    print(f"The rows were asked {len(outcomes.OUTCOMES)} outcomes: each is as the story has it.", flush=True)


@contextmanager
def _house() -> Iterator[str]:
    """The house of the story in a folder of its own, served by threads of this process, which know its time."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "static").mkdir()
        os.environ |= {"TENTHSTOP_DATA": folder, "DJANGO_SETTINGS_MODULE": "studio.settings"}
        os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"  # the browser's driver keeps a loop of events in this thread
        import django

        django.setup()
        from django.conf import settings
        from django.contrib.staticfiles.handlers import StaticFilesHandler
        from django.core.management import call_command
        from django.test.testcases import LiveServerThread

        from tests.trips.week import house

        settings.WHITENOISE_AUTOREFRESH, settings.ALLOWED_HOSTS = True, ["localhost"]
        settings.STORAGES["staticfiles"]["BACKEND"] = "django.contrib.staticfiles.storage.StaticFilesStorage"
        call_command("migrate", verbosity=0, skip_checks=True)
        house.build()
        server: Any = LiveServerThread("localhost", StaticFilesHandler)
        server.daemon = True
        server.start()
        server.is_ready.wait()
        try:
            yield f"http://localhost:{server.port}"
        finally:
            server.terminate()


if __name__ == "__main__":
    main()
