"""`python -m tests.browser.looks HOUSE --out DIR`: every page of the demo, of an empty house or of a full one, each in
one of its roles, at every width, put together on sheets that a person can look at; with `--dark` in the theme of the
set whatever the page. `--print`: as the browser prints
them. What is wider than its window, moves or is refused is printed, and ends with status 1.
Belongs here: the pictures and the sheets. Not here: the houses (`served`), what is measured (`everywhere`)."""

from __future__ import annotations

import argparse
import subprocess
from pathlib import Path

from PIL import Image, ImageDraw
from playwright.sync_api import Page, sync_playwright

from tests.browser.served import HOUSES, Served, served

SHEET_PX = (1560, 1560)
ACROSS = {1440: 3, 820: 4, 390: 7}  # pictures in a row of a sheet
ROWS = 2
CAPTION_PX = 14
SHEETS = 3  # of a page, on paper
PAPER = ("day_sheet", "packing", "plan", "diary", "week", "sitting", "client", "record", "audit", "arrivals", "setups",
         "walk", "strike", "location", "shots_on_set", "rota", "takings", "account", "late_list", "rules")  # fmt: skip
# As soon as there is a body: later, the larger type would be measured as a page that moves.
ON_SET = """new MutationObserver((_, watch) => { if (!document.body) return; document.body.classList.add("set");
    watch.disconnect(); }).observe(document, {childList: true, subtree: true});"""
CHROMIUM = "/usr/bin/chromium"


def contact_sheets(pictures: list[Path], out: Path, width: int) -> None:
    """The upper part of each picture with its name, row by row."""
    across = ACROSS[width]
    cell = (SHEET_PX[0] // across, SHEET_PX[1] // ROWS)
    for first in range(0, len(pictures), across * ROWS):
        sheet = Image.new("RGB", SHEET_PX, "#888888")
        for at, path in enumerate(pictures[first : first + across * ROWS]):
            left, top = at % across * cell[0], at // across * cell[1]
            with Image.open(path) as picture:
                inside = (cell[0] - 6, cell[1] - CAPTION_PX - 6)
                height = min(picture.height, picture.width * inside[1] // inside[0])
                part = picture.convert("RGB").crop((0, 0, picture.width, height))
                part = part.resize((inside[0], height * inside[0] // picture.width), Image.Resampling.LANCZOS)
            sheet.paste(part, (left, top + CAPTION_PX))
            ImageDraw.Draw(sheet).text((left, top), path.stem, fill="#FFFFFF")
        sheet.save(out / f"sheet-{width}-{first // (across * ROWS) + 1:02d}.png")


def printed(page: Page, path: Path) -> list[Path]:
    """The page as it comes out of a printer, a picture of each of its first sheets."""
    pdf = path.with_suffix(".pdf")
    page.pdf(path=pdf, format="A4", prefer_css_page_size=True, print_background=False)
    stem = path.with_suffix("")
    subprocess.run(["pdftoppm", "-r", "60", "-l", str(SHEETS), "-png", pdf, stem], check=True)
    return sorted(path.parent.glob(f"{stem.name}-[0-9]*.png"))


def prints(house: Served, out: Path, words: list[str]) -> None:
    """Everything asked for, on paper."""
    from tests.browser.everywhere import Walker

    taken: list[Path] = []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu"])
        for page in house.addresses:
            if page.name in (words or PAPER):
                walker = Walker(browser, house.url, house.world, page.roles[0])
                walker.page.goto(house.url + page.url)
                taken += printed(walker.page, out / f"paper-{page.name}.png")
                walker.close()
        browser.close()
    contact_sheets(taken, out, 820)


def look(house: Served, out: Path, widths: list[int], words: list[str], *, dark: bool) -> list[str]:
    """Opens, measures and takes; what is wrong, by page."""
    from studio.access import EVERY_ROLE
    from tests.browser.everywhere import CLIENT, Walker

    chosen = [
        (number, page, page.roles[number % len(page.roles)])
        for number, page in enumerate(house.addresses)
        if not words or any(word in page.name for word in words)
    ]
    wrong, taken = [], {width: dict[int, Path]() for width in widths}
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu"])
        for role in (*EVERY_ROLE, CLIENT):
            walker = Walker(browser, house.url, house.world, role)
            if dark:
                walker.context.add_init_script(ON_SET)
            for number, page, of in chosen:
                for width in widths if of == role else ():
                    path = out / f"{width}-{page.name.replace(' ', '-').replace(',', '')}-{role}.png"
                    seen = walker.open(page.name, page.url, width, picture=path, checked=False)
                    taken[width][number] = path
                    wrong += [f"{page.name}, {role}, {width}: {one}" for one in seen.wrong]
            walker.close()
        browser.close()
    for width, pictures in taken.items():
        contact_sheets([pictures[number] for number in sorted(pictures)], out, width)
    return wrong


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m tests.browser.looks", description=__doc__)
    parser.add_argument("house", choices=HOUSES)
    parser.add_argument("pages", nargs="*", help="parts of names of pages (all)")
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--width", type=int, action="append", choices=list(ACROSS), help="(all)")
    parser.add_argument("--dark", action="store_true", help="in the theme of the set, whatever the page")
    parser.add_argument("--print", action="store_true", help="the pages a person would print, as a browser prints them")
    asked = parser.parse_args()
    asked.out.mkdir(parents=True, exist_ok=True)
    with served(asked.house) as house:
        if asked.print:
            prints(house, asked.out, asked.pages)
            raise SystemExit(0)
        found = look(house, asked.out, asked.width or list(ACROSS), asked.pages, dark=asked.dark)
    print("\n".join(found) or "nothing wrong was measured")
    raise SystemExit(bool(found))
