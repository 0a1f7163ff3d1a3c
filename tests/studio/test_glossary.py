"""Words of the trade: each is explained on a page, and each page explains words there are."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from django.template import Context, Template

from studio.glossary import WORDS

TEMPLATES = Path(__file__).parents[2] / "templates"


def asked() -> dict[str, set[str]]:
    """The words each template explains."""
    texts = {str(path.relative_to(TEMPLATES)): path.read_text() for path in TEMPLATES.rglob("*.html")}
    found = {name: re.findall(r"{% explain ([^%]*)%}", text) for name, text in texts.items()}
    return {name: set(re.findall(r'"(\w+)"', " ".join(tags))) for name, tags in found.items() if tags}


def test_every_word_is_explained_somewhere_and_no_page_asks_for_another() -> None:
    assert set().union(*asked().values()) == set(WORDS)


def test_a_word_is_said_and_meant_in_one_line_that_opens_without_a_script() -> None:
    page = Template('{% load explain %}{% explain "relief" "dome" %}').render(Context())
    assert page.startswith("<details")
    assert "What these words mean: relief, dome</summary>" in page
    assert "<dt>dome</dt><dd>The white half ball of the meter." in page


def test_a_word_nobody_explains_is_an_error_of_the_template() -> None:
    with pytest.raises(KeyError):
        Template('{% load explain %}{% explain "barn" %}').render(Context())


@pytest.mark.parametrize("name", WORDS)
def test_each_word_has_one_short_sentence(name: str) -> None:
    means = str(WORDS[name].means)
    assert means.endswith(".")
    assert len(means) < 130
