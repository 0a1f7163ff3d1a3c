"""Filling in forms as a browser does. Belongs here: reading a page's form and changing some of its fields."""

from __future__ import annotations

from html.parser import HTMLParser
from typing import Any

from django.test import Client


class _Fields(HTMLParser):
    """Names and values of the form that saves the page, as a browser would send them untouched."""

    def __init__(self) -> None:
        super().__init__()
        self.values: dict[str, Any] = {}
        self._own = False
        self._select: str | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        had = dict(attrs)
        if tag == "form":
            self._own = "action" not in had  # sign out and the like go elsewhere
        if not self._own:
            return
        name = had.get("name")
        if tag == "select":
            self._select = name
        elif tag == "option" and self._select and "selected" in had:
            self.values[self._select] = had.get("value") or ""
        elif tag == "input" and name and "disabled" not in had:
            if had.get("type") == "checkbox":
                if "checked" in had:
                    self.values.setdefault(name, []).append(had.get("value") or "on")
            else:
                self.values[name] = had.get("value") or ""


def fields(page: str) -> dict[str, Any]:
    read = _Fields()
    read.feed(page)
    return read.values


def opened(client: Client, url: str) -> dict[str, Any]:
    """The form of a page as it stands when it is opened."""
    answer = client.get(url)
    assert answer.status_code == 200
    return fields(answer.content.decode())
