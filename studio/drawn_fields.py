"""Draws the plain widgets of forms without a template each.

Belongs here: the HTML of Django's own templates of inputs, texts and selects, but for empty lines, made in Python: a
page of a hundred fields asks for some seven hundred small templates otherwise, half the time it takes. Every other
widget goes by its template. Not here: what stands around a field.
"""

from __future__ import annotations

import html
from collections.abc import Callable, Mapping
from typing import Any

from django.forms.renderers import DjangoTemplates
from django.template.base import render_value_in_context
from django.template.context import Context
from django.utils.functional import Promise
from django.utils.safestring import SafeString, mark_safe

# What the widget has not put into words yet goes by the language in use.
_LOCAL = Context()


def _text(value: Any) -> str:
    """Escaped as Django does it, without asking of each of a page's thousands whether it is said later."""
    if isinstance(value, SafeString):
        return value
    return html.escape(value if isinstance(value, str) else str(value))


def _words(value: Any) -> str:
    """What somebody reads, a number as the language writes it."""
    return _text(value) if isinstance(value, str | Promise) else render_value_in_context(value, _LOCAL)


def _attrs(attrs: Mapping[str, Any]) -> str:
    return "".join(
        f" {_text(name)}" if value is True else f' {_text(name)}="{_text(value)}"'
        for name, value in attrs.items()
        if value is not False
    )


def _input(widget: Mapping[str, Any]) -> str:
    value = "" if widget["value"] is None else f' value="{_text(widget["value"])}"'
    name = _text(widget["name"])
    return f'<input type="{widget["type"]}" name="{name}"{value}{_attrs(widget["attrs"])}>'


def _textarea(widget: Mapping[str, Any]) -> str:
    inside = _words(widget["value"]) if widget["value"] else ""
    return f'<textarea name="{_text(widget["name"])}"{_attrs(widget["attrs"])}>\n{inside}</textarea>'


def _option(option: Mapping[str, Any]) -> str:
    label = _words(option["label"])
    return f'<option value="{_text(option["value"])}"{_attrs(option["attrs"])}>{label}</option>'


def _select(widget: Mapping[str, Any]) -> str:
    parts = [f'<select name="{_text(widget["name"])}"{_attrs(widget["attrs"])}>']
    for group, options, _index in widget["optgroups"]:
        if group:
            parts.append(f'\n  <optgroup label="{_words(group)}">')
        parts += [f"\n  {_option(option)}" for option in options]
        if group:
            parts.append("\n  </optgroup>")
    parts.append("\n</select>")
    return "".join(parts)


def _ticked(option: Mapping[str, Any]) -> str:
    """One of several to be ticked, with its words."""
    drawn = _input(option)
    if not option.get("wrap_label"):
        return drawn
    key = option["attrs"].get("id")
    words = _words(option["label"])
    of = f' for="{_text(key)}"' if key else ""
    return f"<label{of}>{drawn} {words}</label>"


def _several(widget: Mapping[str, Any]) -> str:
    attrs = {name: widget["attrs"][name] for name in ("id", "class") if widget["attrs"].get(name)}
    parts = [f"<div{_attrs(attrs)}>"]
    for group, options, _index in widget["optgroups"]:
        if group:
            parts.append(f"\n  <div><label>{_words(group)}</label>")
        parts += [f"<div>\n    {_ticked(option)}</div>" for option in options]
        if group:
            parts.append("\n  </div>")
    parts.append("\n</div>")
    return "".join(parts)


_INPUTS = ("text", "number", "email", "url", "password", "hidden", "checkbox", "date", "time", "datetime", "input")
DRAWN: dict[str, Callable[[Mapping[str, Any]], str]] = {
    **{f"django/forms/widgets/{kind}.html": _input for kind in _INPUTS},
    "django/forms/widgets/textarea.html": _textarea,
    "django/forms/widgets/select.html": _select,
    "django/forms/widgets/select_option.html": _option,
    **{f"django/forms/widgets/{kind}.html": _several for kind in ("radio", "checkbox_select", "multiple_input")},
    **{f"django/forms/widgets/{kind}_option.html": _ticked for kind in ("radio", "checkbox", "input")},
}


class Renderer(DjangoTemplates):
    """Set as FORM_RENDERER."""

    def render(self, template_name: str, context: dict[str, Any], request: Any = None) -> SafeString:
        draw = DRAWN.get(template_name)
        if draw is None:
            return super().render(template_name, context, request)
        return mark_safe(draw(context["widget"]))  # each value was escaped where it was put in
