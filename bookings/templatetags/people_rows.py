"""Rows of people yet to be typed. Belongs here: drawing an untouched row once, since the others differ by their number
alone; thirty fields a row take longer than the rest of the page. Not here: a row's fields (`bookings/_person.html`)."""

from __future__ import annotations

from django import template
from django.forms import BaseForm, BaseFormSet
from django.template.loader import render_to_string
from django.utils.safestring import SafeString, mark_safe

from studio import tongue

register = template.Library()
ROW = "bookings/_person.html"
NUMBER = "__prefix__"  # Django's own mark in the names and ids of a formset's empty form

_EMPTY: dict[tuple[object, ...], str] = {}  # an empty row is the same for everybody who reads the same language


def _empty(people: BaseFormSet[BaseForm]) -> str:
    key = (people.form, people.prefix, tongue.language())
    if key not in _EMPTY:
        _EMPTY[key] = render_to_string(ROW, {"person": people.empty_form})
    return _EMPTY[key]


@register.simple_tag
def people_rows(people: BaseFormSet[BaseForm]) -> SafeString:
    """Every row, then the empty one that a script copies, as an element of its own."""
    empty = _empty(people)
    if people.is_bound or people.initial:
        rows = [render_to_string(ROW, {"person": person}) for person in people.forms]
    else:
        rows = [empty.replace(NUMBER, str(number)) for number in range(people.total_form_count())]
    # each value was escaped where it was put in
    return mark_safe(f'<div id="people-rows">{"".join(rows)}</div>\n<template id="empty-person">{empty}</template>')
