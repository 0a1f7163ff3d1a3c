"""Every page of the demo, and what is measured on one. Belongs here: filling every address of the access table from the
whole demo, opening one page at one width and saying what is wrong with it. Not here: which pages are opened at which
width (`test_every_page`, `every_page`)."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from io import StringIO
from pathlib import Path
from typing import Any

from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.core.management import call_command
from django.http import HttpResponseBase
from django.urls import NoReverseMatch, reverse
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, Request, Response

from bookings import intake_links, links
from bookings.models import Intake, Sitting
from shotplans.management.commands.demo import Command
from shotplans.models import Plan
from studio.access import EVERY_ROLE
from studio.models import Room
from tests import cast, lindenmere
from tests.access_lines import TABLE
from tests.access_world import World
from tests.planned_once import reckoned_once

WIDTHS = (1440, 820, 390)
TALLEST_PX = 6000  # of a picture
SHIFT = 0.05  # as a browser counts it: the share of the window that moved, times how far
WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
CLIENT = "client"  # who has a signed link and no sign-in
# Answers for a script or a device, and files; a page that only lives by POST has its own tests.
NO_PAGE = {"token", "worker", "known_frames", "frame_picture", "set_photo", "piece_photo", "plate"}
WATCH_SHIFTS = """window.shifted = 0; new PerformanceObserver((list) => { for (const one of list.getEntries())
    if (!one.hadRecentInput) window.shifted += one.value; }).observe({type: "layout-shift", buffered: true});"""
# Only what is read of them: a whole answer is as long as a book.
VIOLATIONS = """(options) => axe.run(document, options).then((found) => found.violations.flatMap((one) =>
    one.nodes.slice(0, 3).map((node) => `${one.id}: ${node.html.slice(0, 160)} (${node.failureSummary})`)))"""
MEASURE = """() => ({wide: document.documentElement.scrollWidth, window: innerWidth, shift: window.shifted,
    high: document.documentElement.scrollHeight, h1: document.querySelectorAll("h1").length,
    painted: (performance.getEntriesByName("first-contentful-paint")[0] || {}).startTime || 0})"""


@dataclass(frozen=True)
class Address:
    """One page, and who may open it."""

    name: str
    url: str
    roles: tuple[str, ...]


@dataclass
class Seen:
    """What one opening of a page showed."""

    name: str
    role: str
    width: int
    wrong: list[str] = field(default_factory=list)
    painted_ms: float = 0
    shift: float = 0


def build() -> World:
    """The whole demo, as `manage.py demo` has it, and its day's couple as the sitting of every address."""
    with reckoned_once():
        Command(stdout=StringIO()).fill()
    members = {role: lindenmere.member(role) for role in EVERY_ROLE}
    cast.make_kit("heads", code="heads-1")  # the access table's piece
    sitting = lindenmere.sitting("askew")
    signed_in = {role: cast.client_of(member).cookies for role, member in members.items()}
    return World(members, Room.objects.get(name="Long Room"), sitting, lindenmere.plan("askew"), signed_in)


def unhurried(serve: Callable[..., HttpResponseBase]) -> Callable[..., HttpResponseBase]:
    """Files that a browser need not ask for at every page, as in a house that is served."""

    def kept(*args: Any, **kwargs: Any) -> HttpResponseBase:
        answer = serve(*args, **kwargs)
        answer["Cache-Control"] = "max-age=3600"
        return answer

    return kept


def clear() -> None:
    call_command("flush", verbosity=0, interactive=False, reset_sequences=False, inhibit_post_migrate=False)


def bare_addresses() -> Iterator[Address]:
    """Every page that needs nothing to be there."""
    for name, line in TABLE.items():
        try:
            url = reverse(name)
        except NoReverseMatch:
            continue
        if not line.post and name not in NO_PAGE and not url.endswith((".pdf", ".csv")):
            yield Address(name, url, tuple(role for role in EVERY_ROLE if role in line.roles - line.refused))
    yield Address("sign_in", reverse("sign_in"), (CLIENT,))


def pages(world: World, rotas: World, crowded: Sitting | None = None) -> Iterator[Address]:
    """Every page of the access table; those of a rota from `rotas`. `crowded`: a sitting without a plan that takes the
    place of the world's wherever no plan is asked for."""
    for name, line in TABLE.items():
        if line.post or name in NO_PAGE:
            continue
        roles = tuple(role for role in EVERY_ROLE if role in line.roles - line.refused)
        kwargs = line.fill(rotas if "rota" in name or name in ("slates", "make_up") else world)
        if crowded and name != "current_record" and kwargs in (world.of_sitting, rotas.of_sitting):
            kwargs = {"number": crowded.number}
        url = reverse(name, kwargs=kwargs)
        if not url.endswith((".pdf", ".csv")):
            yield Address(name, url, roles)


def addresses(world: World, crowded: Sitting | None = None) -> Iterator[Address]:
    """Every page there is: the access table's, then those a client opens by a signed link."""
    company = lindenmere.sitting("marrowfield")
    planned = Plan.objects.current().filter(sitting__number=company.number).get()
    yield from pages(world, world._replace(sitting=company, plan=planned), crowded)
    intake = Intake.objects.get(sitting=world.sitting)
    yield Address("sign_in", reverse("sign_in"), (CLIENT,))
    yield Address("intake", reverse("intake", kwargs={"signed": intake_links.signed(intake)}), (CLIENT,))
    yield Address("answer", links.address("", world.sitting), (CLIENT,))
    for name in ("intake", "answer"):
        yield Address(f"{name}, mistyped", reverse(name, kwargs={"signed": "x"}), (CLIENT,))


class Walker:
    """Somebody who opens page after page in one window."""

    def __init__(self, browser: Browser, base: str, world: World, role: str, **how: Any) -> None:
        self.base, self.role, self._wrong = base, role, []  # type: str, str, list[str]
        self.context: BrowserContext = browser.new_context(locale="en-GB", service_workers="block", **how)
        self.context.add_init_script(WATCH_SHIFTS)
        self.context.add_init_script(Axe().axe_script)
        if role in world.signed_in:
            key = world.signed_in[role][settings.SESSION_COOKIE_NAME].value
            self.context.add_cookies([{"name": settings.SESSION_COOKIE_NAME, "value": key, "url": base}])
        self.page: Page = self.context.new_page()
        self.page.set_default_timeout(20_000)
        self.page.on("console", self._said)
        self.page.on("pageerror", lambda error: self._wrong.append(f"script: {error}"))
        self.page.on("request", self._asked)
        self.page.on("response", self._answered)

    def _said(self, message: ConsoleMessage) -> None:
        # Why a worker is not registered here; and a status is told apart by `_answered`.
        known = ("ServiceWorker", "Service Worker", "Failed to load resource")
        if message.type in ("error", "warning") and not any(word in message.text for word in known):
            self._wrong.append(f"console: {message.text}")

    def _asked(self, request: Request) -> None:
        if not request.url.startswith((self.base, "data:", "blob:")):
            self._wrong.append(f"another host: {request.url}")

    def _answered(self, response: Response) -> None:
        mistyped = response.status in (404, 410) and response.url.endswith("/x/")
        if response.status >= 400 and not mistyped:
            self._wrong.append(f"{response.status}: {response.url}")

    def open(
        self,
        name: str,
        url: str,
        width: int,
        *,
        contrast: bool = False,
        picture: Path | None = None,
        checked: bool = True,
    ) -> Seen:
        """One page at one width, and what is wrong with it; `checked`: the checker of accessibility is asked, too."""
        self._wrong = wrong = []
        self.page.set_viewport_size({"width": width, "height": 900})
        self.page.goto(self.base + url)
        found = self.page.evaluate(MEASURE)
        if found["wide"] > found["window"]:
            wrong.append(f"{found['wide']} px in a window of {found['window']}")
        if found["shift"] > SHIFT:
            wrong.append(f"moves while it loads: {found['shift']:.3f}")
        if found["h1"] != 1:
            wrong.append(f"{found['h1']} headings of the first rank")
        if picture is not None:
            # Not the whole page: the browser would paint all of two hundred places before it cuts.
            self.page.set_viewport_size({"width": width, "height": min(max(found["high"], 900), TALLEST_PX)})
            self.page.screenshot(path=picture)
        wrong += self.axe(contrast=contrast) if checked else []
        return Seen(name, self.role, width, wrong, found["painted"], found["shift"])

    def axe(self, *, contrast: bool) -> list[str]:
        """What the checker of WCAG 2.2 A and AA finds on the page that is open. Contrast takes it longer
        than all the rest; `tests/studio/test_looks.py` holds it where the colours are written."""
        rules = {"target-size": {"enabled": True}, "color-contrast": {"enabled": contrast}}
        options = {"runOnly": {"type": "tag", "values": WCAG}, "resultTypes": ["violations"], "rules": rules}
        found: list[str] = self.page.evaluate(VIOLATIONS, options)
        return found

    def close(self) -> None:
        self.context.close()
