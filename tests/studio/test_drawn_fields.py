"""Fields drawn without a template are, but for empty lines, letter by letter what Django's own templates make (its
documentation, "The form rendering API", names them as what a renderer draws)."""

import re
from datetime import date, time
from decimal import Decimal
from typing import Any

import pytest
from django import forms
from django.forms.renderers import DjangoTemplates
from django.utils.safestring import mark_safe
from django.utils.translation import gettext_lazy

from studio.drawn_fields import DRAWN, Renderer

AWKWARD = ["", None, "plain", "<b>&\"'", mark_safe("<b>"), "   ", "\u0627 \u0628", 0, 12345.5, Decimal("1.50"), "a\nb"]
CHOICES: list[Any] = [
    ("", "---------"), (1, "one & only"), ("two", gettext_lazy("Letters")), (None, 3),
    ("A <group>", [("x", "ex"), ('"y"', mark_safe("<i>why</i>"))]),
]  # fmt: skip
ATTRS = {"id": "id_x", "class": 'a "b"', "required": True, "disabled": False, "data-n": 5, "aria-label": "Ü <"}
INPUTS = [
    forms.TextInput, forms.NumberInput, forms.EmailInput, forms.URLInput, forms.HiddenInput, forms.Textarea,
    forms.CheckboxInput, forms.PasswordInput,
]  # fmt: skip


def same(widget: forms.Widget, value: object) -> None:
    ours, theirs = (widget.render("a <name>", value, ATTRS, renderer) for renderer in (Renderer(), DjangoTemplates()))
    assert ours == theirs.replace("</option>\n", "</option>")


def close(drawn: str) -> str:
    """Without the white between marks, of which those templates leave some."""
    return re.sub(r"\s*([<>])\s*", r"\1", drawn)


@pytest.mark.parametrize("kind", INPUTS)
@pytest.mark.parametrize("value", AWKWARD)
def test_a_field_is_what_its_template_makes_of_it(kind: type[forms.Widget], value: object):
    same(kind(), value)


@pytest.mark.parametrize("value", [date(2026, 11, 28), time(9, 5), None, "no day"])
def test_days_and_times_are_what_their_templates_make_of_them(value: object):
    same(forms.DateInput(attrs={"type": "date"}), value)
    same(forms.TimeInput(attrs={"type": "time"}), value)


@pytest.mark.parametrize("value", [None, "", 1, "1", "two", '"y"', "gone"])
def test_a_choice_is_what_its_templates_make_of_it(value: object):
    same(forms.Select(choices=CHOICES), value)
    same(forms.SelectMultiple(choices=CHOICES), [value, "x"])
    same(forms.NullBooleanSelect(), value)


@pytest.mark.parametrize("value", [None, "", 1, "two", '"y"', "gone"])
def test_several_to_tick_are_what_their_templates_make_of_them(value: object):
    for widget in (forms.RadioSelect(choices=CHOICES), forms.CheckboxSelectMultiple(choices=CHOICES)):
        sent: Any = value if isinstance(widget, forms.RadioSelect) else [value, "x"]
        ours, theirs = (widget.render("a <name>", sent, ATTRS, draws) for draws in (Renderer(), DjangoTemplates()))
        assert close(ours) == close(theirs)


def test_what_is_drawn_by_its_template_still_is():
    same(forms.ClearableFileInput(), None)


def test_no_field_of_ours_brings_options_of_its_own_that_would_be_passed_over():
    assert all(kind.option_template_name in DRAWN for kind in subclasses(forms.Select) - {forms.RadioSelect})


def subclasses(kind: type[Any]) -> set[type[Any]]:
    return {kind}.union(*(subclasses(under) for under in kind.__subclasses__()))
