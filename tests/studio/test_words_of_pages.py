"""No page says a word that a translation could not reach: texts of templates, of forms and of answers go through
gettext. Held on the sources, for a page is never seen in all its states."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

import pytest
from django.template import Context, Template

from tests import pseudo

ROOT = Path(__file__).parents[2]
TEMPLATES = sorted((ROOT / "templates").rglob("*.html"))
APPS = ("studio", "bookings", "shotplans")
SOURCES = sorted(
    path for app in APPS for path in (ROOT / app).rglob("*.py") if not {"migrations", "management"} & set(path.parts)
)
SAID = ("alt", "title", "aria-label", "placeholder", "aria-roledescription")
SAME_EVERYWHERE = {"Tenthstop", "Esc", "PDF", "CSV", "ISO", "UTC", "kg", "cm", "mm", "lx", "Ws", "px", "GPS"}
MARKUP = re.compile(
    r"{% block body_class %}.*?{% endblock %}|{#.*?#}|{% comment %}.*?{% endcomment %}"
    r"|{% blocktrans(?:late)?\b.*?{% endblocktrans(?:late)? %}|{%.*?%}|{{.*?}}",
    re.DOTALL,
)
DATA = re.compile(r'\bdata-[\w-]+="[^"]*"')  # for a script; what of it is said is translated where it is made
WORD = re.compile(r"[A-Za-z]{2,}")
KEYWORDS = {"label", "help_text", "verbose_name", "verbose_name_plural", "empty_label", "legend"}
ANSWERS = {"success", "error", "warning", "info", "add_error", "ValidationError", "Refusal"}


class _Texts(HTMLParser):
    """Whatever of a template a reader sees or hears."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.inside: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in ("script", "style", "code", "kbd", "pre"):
            self.inside.append(tag)
        self.found += [value or "" for name, value in attrs if name in SAID]

    def handle_endtag(self, tag: str) -> None:
        if tag in self.inside:
            self.inside.remove(tag)

    def handle_data(self, data: str) -> None:
        if not self.inside:
            self.found.append(data)


def said_plainly(template: str) -> list[str]:
    """Words of a template that stand outside every tag of translation."""
    reader = _Texts()
    reader.feed(DATA.sub("", MARKUP.sub(" ", template)))
    return [word for text in reader.found for word in WORD.findall(text) if word not in SAME_EVERYWHERE]


def said_by_code(source: str) -> Iterator[str]:
    """Labels, help and answers given as they stand, with the line they stand on."""
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Call):
            continue
        name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        given = [one.value for one in node.keywords if one.arg in KEYWORDS]
        if name in ANSWERS:
            given += node.args
        for one in given:
            if isinstance(one, ast.Constant) and isinstance(one.value, str) and " " in one.value.strip():
                yield f"line {one.lineno}: {one.value}"


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: str(path.relative_to(ROOT / "templates")))
def test_every_word_of_a_template_goes_through_translation(path: Path) -> None:
    assert said_plainly(path.read_text()) == []


def test_every_label_and_answer_of_the_code_goes_through_translation() -> None:
    found = {str(path.relative_to(ROOT)): list(said_by_code(path.read_text())) for path in SOURCES}
    assert {name: said for name, said in found.items() if said} == {}


def test_a_plain_word_is_found() -> None:
    assert said_plainly('<p aria-label="Room">{% translate "Room" %} {{ x }} is full</p>') == ["Room", "is", "full"]
    assert list(said_by_code('messages.success(request, "It is saved.")')) == ["line 1: It is saved."]


def test_the_long_language_keeps_values_tags_and_spaces() -> None:
    assert pseudo.said(" Plan %(n)s of <b>{x}</b>, 5 %% ") == " ⟦Pláñ %(n)s óf <b>{x}</b>, 5 %%·····⟧ "
    with pseudo.spoken():
        page = Template(
            '{% load i18n %}{% translate "Room" %} {% blocktranslate count n=2 %}{{ n }} day{% plural %}{{ n }} days'
            "{% endblocktranslate %}"
        ).render(Context())
    assert page == "⟦Róóm··⟧ ⟦2 dáýš··⟧"


def test_a_word_of_a_page_that_is_neither_said_nor_data_is_found() -> None:
    from tests.browser import said  # which reads what this file holds

    data = "\n askew \n the long room by the weir \n"
    page = '<p title="Shut">⟦Róóm··⟧ 3.5 m, 09:30, <b>Askew</b> is full: the long room ⟦by <i>x</i>⟧</p>'
    assert said.untranslated(page, data) == ["Shut", "is full"]
    with pytest.raises(AssertionError, match="cut before its end"):
        said.untranslated("<p>⟦Róóm</p>", data)
