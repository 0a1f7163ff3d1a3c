"""Hands at a real browser: the same verbs as `tests.hands.quick`, done with its mouse and keyboard. Belongs here:
finding what is meant among what is to be seen, and waiting until the page has answered."""

from __future__ import annotations

import time
from datetime import datetime
from io import BytesIO
from pathlib import Path

from playwright.sync_api import BrowserContext, ElementHandle, Page
from pypdf import PdfReader

from tests.hands.hand import Hand, keys_of

PATIENCE_S = 20.0
LINKS, BUTTONS = "a[href]", "button:not([aria-hidden=true])"
FIELDS = "input:not([type=hidden]):not([type=submit]), textarea, select"
LISTS = "select"
BOXES = "input[type=checkbox], input[type=radio]"
# The same choice as in `quick`: said exactly, at the beginning, somewhere in it; nearest to the words beside it. What
# is folded away may be meant as well: its folds are opened, each for a click.
SEEK = """([css, words, beside]) => {
  const plain = (text) => text.replace(/\\s+/g, " ").trim();
  const said = (node) => node.getAttribute("aria-label") || plain(node.matches("a, button") ? node.textContent :
    node.labels && node.labels.length ? node.labels[0].textContent.replace(/\\*\\s*$/, "") :
    (node.getAttribute("aria-labelledby") || "").split(" ").map((id) => document.getElementById(id))
      .map((one) => one ? one.textContent : "").join(" "));
  const folded = (node) => { const found = [];
    for (let at = node.parentElement; at; at = at.parentElement)
      if (at.tagName === "DETAILS" && !at.open && !node.closest("summary")) found.unshift(at);
    return found; };
  const there = (node) => !node.disabled && !node.closest("[hidden], dialog:not([open])") &&
    (folded(node).length > 0 || node.checkVisibility({visibilityProperty: true}) || node.matches("[type=radio]"));
  const fits = [(a, b) => a === b, (a, b) => a.startsWith(b), (a, b) => a.includes(b)];
  const all = [...document.querySelectorAll(css)];
  for (const fit of fits) {
    let meant = all.filter((node) => fit(said(node), words) && there(node));
    if (beside) {
      const near = (node) => { for (let at = node; at; at = at.parentElement)
        if (plain(at.innerText || at.textContent).includes(beside)) return at.textContent.length; return Infinity; };
      meant = meant.map((node) => [near(node), node]).filter(([far]) => far < Infinity)
        .sort((a, b) => a[0] - b[0]).map(([_far, node]) => node);
    }
    if (meant.length) {
      const folds = meant[0].checkVisibility() ? [] : folded(meant[0]);
      folds.forEach((fold) => { fold.open = true; });
      meant[0].foldsOpened = folds.length;
      return meant[0];
    }
  }
  return null;
}"""


class BrowserHand(Hand):
    """Somebody at a window of a browser, signed in by name and password."""

    def __init__(
        self, context: BrowserContext, url: str, name: str, password: str, *, pictures: Path | None = None
    ) -> None:
        """`pictures`: a folder for one of each page that is read."""
        super().__init__()
        context.set_default_timeout(PATIENCE_S * 1000)
        self.name, self.pictures, self.read = name, pictures, 0
        self.page: Page = context.new_page()
        self.waits_for = 0
        for event, more in (("request", 1), ("requestfinished", -1), ("requestfailed", -1)):
            self.page.on(event, lambda _request, more=more: self._count(more))
        self.page.goto(url)
        self.page.fill("[name=username]", name)
        self.page.fill("[name=password]", password)
        self.page.press("[name=password]", "Enter")
        self.page.wait_for_url(lambda at: "sign-in" not in at)
        self._settle()

    def _count(self, more: int) -> None:
        self.waits_for += more

    def at(self, moment: datetime) -> None:
        """From now on the device believes that it is this moment."""
        self.page.clock.set_system_time(moment)

    def _settle(self) -> None:
        """Until nothing has been on its way for a tenth of a second."""
        until, quiet = time.monotonic() + PATIENCE_S, 0
        while quiet < 3 and time.monotonic() < until:
            self.page.wait_for_timeout(40)
            quiet = quiet + 1 if self.waits_for <= 0 else 0
        self.waits_for = 0
        self.page.wait_for_load_state("load")

    def _seek(self, what: str, css: str, words: str, beside: str) -> ElementHandle:
        until = time.monotonic() + 3
        while True:
            found = self.page.evaluate_handle(SEEK, [css, words, beside]).as_element()
            if found is not None:
                self.counted.clicks += found.evaluate("(node) => node.foldsOpened")
                return found
            if time.monotonic() > until:
                said = self.page.inner_text("main")
                raise AssertionError(f"{self.page.url}: no {what} says “{words}” beside “{beside}”:\n{said[:3000]}")
            self.page.wait_for_timeout(100)

    def _click(self, place: ElementHandle) -> None:
        place.click()
        self.counted.clicks += 1
        self._settle()

    def home(self) -> None:
        place = self.page.query_selector(".house a")
        assert place is not None
        self._click(place)

    def follow(self, words: str, *, beside: str = "") -> None:
        self._click(self._seek("link", LINKS, words, beside))

    def press(self, words: str, *, beside: str = "") -> None:
        self._click(self._seek("button", BUTTONS, words, beside))

    def type(self, label: str, text: str, *, beside: str = "") -> None:
        place = self._seek("field", FIELDS, label, beside)
        kind = place.get_attribute("type") or ""
        self.counted.keys += keys_of(kind, text)
        if kind in ("date", "time", "month"):
            place.fill(text)
        else:
            place.focus()
            place.select_text()
            self.page.keyboard.type(text) if text else self.page.keyboard.press("Delete")

    def pick(self, label: str, option: str, *, beside: str = "") -> None:
        place = self._seek("list", LISTS, label, beside)
        said = place.eval_on_selector_all("option", "(all) => all.map((one) => one.textContent.trim())")
        fitting = [*[one for one in said if one == option], *[one for one in said if one.startswith(option)],
                   *[one for one in said if option in one]]  # fmt: skip
        assert fitting, f"{self.page.url}: {label} has no {option}, only {said}"
        place.select_option(label=fitting[0])
        self.counted.clicks += 1
        self._settle()

    def tick(self, label: str, *, beside: str = "") -> None:
        place = self._seek("box", BOXES, label, beside)
        if place.is_visible():
            self._click(place)
        else:  # a circle drawn by its label
            self._click(place.evaluate_handle("(node) => node.labels[0]").as_element() or place)

    def name_client(self, name: str) -> None:
        """Three letters find who is known; arrow down and the return key choose."""
        self.type("Client", name[:4])
        self.page.get_by_role("option", name=name).wait_for()
        for key in ("ArrowDown", "Enter"):
            self.page.keyboard.press(key)
        self.counted.keys += 2
        self._settle()

    def find(self, text: str) -> None:
        self.page.evaluate("document.activeElement.blur()")
        self.page.keyboard.press("/")
        self.page.keyboard.type(text)
        self._settle()
        self.page.keyboard.press("Enter")
        self.counted.keys += len(text) + 2
        self._settle()

    @property
    def words(self) -> str:
        return " ".join(self.page.inner_text("body").split())  # waits where the page is just being left

    def says(self, *texts: str) -> None:
        until = time.monotonic() + 5
        for text in texts:
            while text not in self.words:
                assert time.monotonic() < until, f"{self.page.url}: “{text}” is not said:\n{self.words}"
                self.page.wait_for_timeout(100)
        if self.pictures is not None:
            self.read += 1
            self.page.screenshot(path=self.pictures / f"{self.name}-{self.read:02}.png")

    def cut_off(self) -> None:
        """Once the device has kept the page, as it does on the set."""
        self.page.wait_for_selector("html[data-kept]")
        self.page.context.set_offline(True)

    def back_on(self) -> None:
        self.page.context.set_offline(False)
        self._settle()

    def paper(self, words: str, *, beside: str = "") -> str:
        place = self._seek("link", LINKS, words, beside)
        self.counted.clicks += 1
        answer = self.page.request.get(place.evaluate("(node) => node.href"))
        assert answer.headers["content-type"] == "application/pdf"
        return " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(answer.body())).pages).split())
