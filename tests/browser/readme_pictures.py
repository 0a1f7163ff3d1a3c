"""`python -m tests.browser.readme_pictures`: the README's two pages taken anew, of the demo's house. Belongs here:
which pages, how large, and from where on. Not here: the sheet (`pdftoppm -r 100 -png -singlefile`)."""

from __future__ import annotations

from playwright.sync_api import sync_playwright

from tests.browser.looks import CHROMIUM
from tests.browser.served import ROOT, served

TO = ROOT / "fixtures" / "pictures"
PICTURES = (  # the page, who, its file, its window, and what stands at its top
    ("plan", "photographer", "plan_page.png", (1200, 860), "main svg"),
    ("record", "assistant", "meter_on_a_phone.png", (390, 780), "body"),
)
MARGIN_PX = 8


def take() -> None:
    with served("demo") as house, sync_playwright() as playwright:
        from tests.browser.everywhere import Walker

        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu"])
        urls = {page.name: page.url for page in house.addresses}
        for name, role, file, (width, height), top in PICTURES:
            walker = Walker(browser, house.url, house.world, role)
            walker.page.set_viewport_size({"width": width, "height": height})
            walker.page.goto(house.url + urls[name], wait_until="networkidle")
            from_top = "(found, margin) => scrollTo(0, found.getBoundingClientRect().top - margin)"
            walker.page.locator(top).first.evaluate(from_top, MARGIN_PX)
            walker.page.screenshot(path=TO / file)
            walker.close()
        browser.close()


if __name__ == "__main__":
    take()
