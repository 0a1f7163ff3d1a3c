"""What every page is drawn with, read from its style sheets: the colours in both themes, and what a page weighs."""

from __future__ import annotations

import gzip
import re
from pathlib import Path

import pytest
from django.template.loader import get_template

ROOT = Path(__file__).parents[2]
SHEET = (ROOT / "studio" / "static" / "studio" / "studio.css").read_text()
TEXT, LINES = 4.5, 3.0  # WCAG 2.2, 1.4.3 and 1.4.11
NAMED = {"paper", "sheet", "text", "quiet", "rule", "edge", "ink", "broken", "hatch"}
# Where a colour may stand as such: here the tokens are, and a drawing or a photograph keeps its own in both themes.
WITH_COLOURS = {"studio.css": None, "frames.css": {"#161616", "#E6E6E6"}}
PAGE_KB = 90


def tokens(selector: str) -> dict[str, str]:
    """The colours a rule of the one sheet names, by name."""
    found = re.search(re.escape(selector) + r" \{(.*?)\}", SHEET, re.DOTALL)
    assert found
    return dict(re.findall(r"--([a-z]+): (#[0-9A-F]{6})", found[1]))


LIGHT = tokens(":root")
ON_SET = LIGHT | tokens("body.set")


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour, 0 to 1 (WCAG 2.2, relative luminance)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_white_against_black_is_twenty_one_to_one() -> None:
    assert contrast("#FFFFFF", "#000000") == pytest.approx(21)


@pytest.mark.parametrize("theme", [LIGHT, ON_SET], ids=["light", "on set"])
@pytest.mark.parametrize("ground", ["paper", "sheet"])
def test_text_and_the_lines_of_controls_stand_out_in_both_themes(theme: dict[str, str], ground: str) -> None:
    assert set(theme) == NAMED
    words = {name: contrast(theme[name], theme[ground]) for name in ("text", "quiet", "ink", "broken")}
    assert min(words.values()) >= TEXT, words
    assert contrast(theme["edge"], theme[ground]) >= LINES
    assert contrast(theme["text"], theme["sheet"]) >= TEXT  # and turned round: what is pressed


def sheets() -> list[Path]:
    return sorted(path for app in ("studio", "bookings", "shotplans") for path in (ROOT / app).glob("static/*/*.css"))


@pytest.mark.parametrize("sheet", sheets(), ids=lambda path: path.name)
def test_a_sheet_takes_its_colours_from_the_tokens(sheet: Path) -> None:
    allowed: set[str] | None = WITH_COLOURS.get(sheet.name, set())
    stray = set(re.findall(r"#[0-9A-Fa-f]{3,8}\b(?=[^{}]*\})", sheet.read_text()))
    assert allowed is None or stray <= allowed


# What a space, a size of type or the width of a rule may be besides a token: nothing, a share of what is there, or what
# the drawing of one page hangs on, named by its sheet.
TOKEN = r"var\(--[str]\d\)"
FREE = re.compile(rf"0|auto|inherit|none|-1px|-?[\d.]+(em|%|vh|vw)|min\(.*\)|{TOKEN}|calc\(-1 \* {TOKEN}\)")
AS_DRAWN = {
    "diary.css": {"6.75rem", "4.5rem", "2px"},  # heights of its heads, room for Move, room for a focus line
    "frames.css": {"8px"},  # in the units of a drawing
    "rota.css": {"30pt"},  # a name read from across the room
    "studio.css": {"2.25rem", "14mm"},  # beside a tick; the edge of a printed page
}
MEASURES = re.compile(r"(?<![\w-])(margin|padding|gap|row-gap|column-gap|font-size)(?:-[a-z]+)*: ([^;}]+)")
PART = re.compile(r"(?:calc|min)\([^()]*(?:\([^()]*\))?[^()]*\)|[^\s]+")
WIDTH = re.compile(r"(?<![\w.#-])[\d.]+(?:px|rem|em)")
SIDES = "border(?:-(?:top|right|bottom|left))?(?:-width|-radius)?"
RULES = re.compile(rf"(?<![\w-])(?:{SIDES}|outline(?:-offset)?): ([^;}}]+)")


def strays(css: str, allowed: set[str]) -> set[str]:
    """Spaces, sizes and widths of rules that are no token."""
    css = re.sub(r":root \{.*?\}", "", css, count=1, flags=re.DOTALL)
    parts = {part for found in MEASURES.finditer(css) for part in PART.findall(found[2])}
    widths = {width for found in RULES.finditer(css) for width in WIDTH.findall(found[1])}
    return {part for part in parts | widths if not FREE.fullmatch(part)} - allowed - {"!important"}


@pytest.mark.parametrize("sheet", sheets(), ids=lambda path: path.name)
def test_a_sheet_takes_its_spaces_type_and_rules_from_the_tokens(sheet: Path) -> None:
    assert strays(sheet.read_text(), AS_DRAWN.get(sheet.name, set())) == set()


@pytest.mark.parametrize("sheet", sheets(), ids=lambda path: path.name)
def test_what_a_thumb_must_find_is_measured_in_one_place(sheet: Path) -> None:
    said = re.sub(r":root \{.*?\}", "", sheet.read_text(), count=1, flags=re.DOTALL)
    assert not re.search(r"(?<![\w.-])(?:44px|2\.75rem)", said)


def test_what_is_no_token_is_found() -> None:
    assert strays("p { margin: .3rem auto; font-size: 15px; border-left: 3px solid; gap: 0 var(--s1); }", set()) == {
        ".3rem", "15px", "3px",
    }  # fmt: skip


def weight_kb(template: Path) -> float:
    """Styles and scripts a page asks for with those of the frame around it, compressed as they travel, in kB."""
    said = template.read_text() + (ROOT / "templates" / "base.html").read_text()
    for part in re.findall(r'{% include "([^"]+)"', said):
        said += Path(str(get_template(part).origin)).read_text()
    names = set(re.findall(r"{% static '([^']+\.(?:css|js))'", said))
    assert "studio/studio.css" in names
    found = [next(ROOT.glob(f"*/static/{name}")) for name in names]
    return sum(len(gzip.compress(path.read_bytes())) for path in found) / 1000


def test_no_page_asks_for_more_than_ninety_kilobytes_of_styles_and_scripts() -> None:
    pages = [path for path in (ROOT / "templates").rglob("*.html") if "{% extends" in path.read_text()]
    heavy = {path.name: round(weight_kb(path)) for path in pages}
    assert len(heavy) > 80
    assert max(heavy.values()) <= PAGE_KB, heavy
