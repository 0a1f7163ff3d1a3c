"""Every address there is. Belongs here: walking the table of addresses, for the checks and tests that hold
each of them to the rules."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from django.urls import URLPattern, URLResolver, get_resolver


class Address(NamedTuple):
    route: str
    name: str
    view: Any

    @property
    def allowed_roles(self) -> tuple[str, ...]:
        """Who may come; empty where the view does not say."""
        roles: tuple[str, ...] = getattr(self.view, "allowed_roles", ())
        return roles


def every_address() -> Iterator[Address]:
    yield from _walk(get_resolver().url_patterns, "/", "")


def _walk(patterns: list[Any], before: str, space: str) -> Iterator[Address]:
    for entry in patterns:
        route = before + str(entry.pattern)
        if isinstance(entry, URLResolver):
            yield from _walk(entry.url_patterns, route, f"{space}{entry.namespace}:" if entry.namespace else space)
        elif isinstance(entry, URLPattern):
            yield Address(route, space + (entry.name or ""), entry.callback)
