"""A field with what stands around it. Belongs here: `{% whole_field field %}`, its label, unit, errors and help, made
in Python: a page of a hundred fields spends more on so small a template than on everything else. Not here: the widget
itself (`studio.drawn_fields`)."""

from __future__ import annotations

from django import template
from django.forms import BoundField
from django.utils.html import conditional_escape as escaped
from django.utils.safestring import SafeString, mark_safe
from django.utils.text import capfirst

register = template.Library()


@register.simple_tag
def whole_field(field: BoundField | str) -> SafeString:
    """Label, widget, what is wrong, help; nothing for a field that a form has not."""
    if not isinstance(field, BoundField):
        return mark_safe("")
    key, unit = field.id_for_label, getattr(field.field, "unit", "")
    tick = " form-check" if getattr(field.field.widget, "input_type", "") == "checkbox" else ""
    parts = [
        f'<div class="mb-3{tick}"><label class="form-label" for="{escaped(key)}">{escaped(capfirst(field.label))}',
        f" ({escaped(unit)})" if unit else "", "</label>", str(field),
        *(f'<p class="invalid-feedback" id="{escaped(key)}_error">{escaped(said)}</p>' for said in field.errors),
    ]  # fmt: skip
    if field.help_text:
        parts.append(f'<div class="form-text" id="{escaped(key)}_helptext">{escaped(field.help_text)}</div>')
    return mark_safe("".join([*parts, "</div>"]))  # each value was escaped where it was put in
