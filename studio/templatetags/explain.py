"""Words of the trade explained where they stand. Belongs here: `{% explain "relief" "bearing" %}`, one folded line."""

from __future__ import annotations

from typing import Any

from django import template

from studio.glossary import WORDS

register = template.Library()


@register.inclusion_tag("studio/_explain.html")
def explain(*names: str) -> dict[str, Any]:
    """A line that names the words and opens to what they mean; a name that is not in the glossary is a KeyError."""
    return {"words": [WORDS[name] for name in names]}
