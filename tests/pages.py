"""Pages as a person meets them: words, links and forms, followed and filled in as they stand. Belongs here: reading
HTML and sending back what its own forms hold. Not here: what a page should say."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any
from urllib.parse import urljoin, urlsplit

from django.http import HttpResponse
from django.test import Client

FIELDS = ("input", "select", "textarea")


@dataclass
class Form:
    """One form: where it goes and what it holds, by the names it sends; labels lead to names."""

    action: str
    method: str
    values: dict[str, list[str]] = field(default_factory=dict)
    labels: dict[str, str] = field(default_factory=dict)
    buttons: dict[str, tuple[str, str]] = field(default_factory=dict)

    def name_of(self, said: str) -> str:
        return said if said in self.values else self.labels[said]


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.links: list[tuple[str, str]] = []
        self.forms: list[Form] = []
        self.words: list[str] = []
        self._form: Form | None = None
        self._open: dict[str, list[str]] = {}  # texts being gathered: a, label, button, option, textarea
        self._at: dict[str, dict[str, str]] = {}
        self._ids: dict[str, str] = {}
        self._label_for: list[tuple[str, str]] = []
        self._aside = 0
        self._by_id: dict[str, Form] = {}
        self._of_others: list[tuple[str, str, tuple[str, str]]] = []  # buttons that name the form they send

    def handle_starttag(self, tag: str, pairs: list[tuple[str, str | None]]) -> None:
        attributes = {name: value or "" for name, value in pairs}
        self._aside += tag in ("template", "script", "style")
        if self._aside:
            return
        if tag == "form":
            self._form = Form(attributes.get("action", ""), attributes.get("method", "get").lower())
            if self._form.method != "dialog":  # that one only closes what is open
                self.forms.append(self._form)
            self._by_id[attributes.get("id", "")] = self._form
        elif tag == "input":
            self._input(attributes)
        elif tag in ("a", "label", "button", "option", "textarea", "select"):
            self._open[tag], self._at[tag] = [], attributes
            if tag == "select":
                self._hold(attributes, [])
        if tag in FIELDS and "id" in attributes:
            self._ids[attributes["id"]] = attributes.get("name", "")

    def _hold(self, attributes: dict[str, str], values: list[str]) -> None:
        name = attributes.get("name")
        if self._form is not None and name and "disabled" not in attributes:
            self._form.values.setdefault(name, []).extend(values)

    def _input(self, attributes: dict[str, str]) -> None:
        if attributes.get("type") in ("checkbox", "radio"):
            self._hold(attributes, [attributes.get("value", "on")] if "checked" in attributes else [])
        elif attributes.get("type") != "submit":
            self._hold(attributes, [attributes.get("value", "")])

    def handle_endtag(self, tag: str) -> None:
        if tag in ("template", "script", "style"):
            self._aside -= 1
        if self._aside:
            return
        if tag == "form":
            self._name_labels()
            self._form = None
            return
        if tag not in self._open:
            return
        said, attributes = " ".join("".join(self._open.pop(tag)).split()), self._at.pop(tag)
        if tag == "a":
            self.links.append((said, attributes.get("href", "")))
        elif tag == "label" and "for" in attributes:
            self._label_for.append((said.rstrip("*").strip(), attributes["for"]))
        elif tag == "button" and (self._form is not None or "form" in attributes):
            sends = (attributes.get("name", ""), attributes.get("value", ""))
            if "form" in attributes:
                self._of_others.append((attributes["form"], said, sends))
            elif self._form is not None:
                self._form.buttons.setdefault(said, sends)
        elif tag == "textarea":
            self._hold(attributes, [self._raw.removeprefix("\n")])
        elif tag == "option":
            chosen = self._at.get("select", {})
            value = attributes.get("value", said)
            held = self._form.values.get(chosen.get("name", ""), []) if self._form else []
            if "selected" in attributes or (not held and "multiple" not in chosen and not chosen.get("_first")):
                held[:] = [value]
            chosen["_first"] = "seen"

    def close(self) -> None:
        super().close()
        for name, said, sends in self._of_others:
            self._by_id[name].buttons.setdefault(said, sends)

    def handle_data(self, data: str) -> None:
        if self._aside:
            return
        self.words.append(data)
        self._raw = data
        for gathered in self._open.values():
            gathered.append(data)

    def _name_labels(self) -> None:
        for said, target in self._label_for:
            if self._form is not None and target in self._ids:
                self._form.labels.setdefault(said, self._ids[target])
        self._label_for = []


@dataclass(frozen=True)
class Page:
    """What came back, read."""

    address: str
    status: int
    html: str
    words: str
    links: list[tuple[str, str]]
    forms: list[Form]

    def form_with(self, button: str) -> Form:
        return next(form for form in self.forms if button in form.buttons)


def read(address: str, answer: HttpResponse) -> Page:
    reader = _Reader()
    html = answer.content.decode()
    reader.feed(html)
    reader.close()
    return Page(address, answer.status_code, html, " ".join("".join(reader.words).split()), reader.links, reader.forms)


class Visitor:
    """Somebody at a browser without a script: opens one address, then only follows links and presses buttons."""

    def __init__(self, client: Client) -> None:
        self.client = client
        self.page: Page

    def open(self, address: str) -> Page:
        return self._arrive(address, self.client.get(address, follow=True))

    def follow(self, words: str, *, nth: int = 0) -> Page:
        """The link that says `words`; `nth` of those that do."""
        found = [href for said, href in self.page.links if said == words]
        assert len(found) > nth, f"{self.page.address}: no link says “{words}”, only {self.page.links}"
        return self.open(urljoin(self.page.address, found[nth]))

    def fetch(self, words: str) -> HttpResponse:
        """What the link that says `words` leads to, without leaving the page."""
        found = next(href for said, href in self.page.links if said == words)
        return self.client.get(urljoin(self.page.address, found))

    def press(self, button: str, typed: dict[str, Any] | None = None, *, nth: int = 0) -> Page:
        """Fill in the form of a button, by label or name, and press it."""
        forms = [form for form in self.page.forms if button in form.buttons]
        assert len(forms) > nth, f"{self.page.address}: no button says “{button}”"
        form = forms[nth]
        sent: dict[str, Any] = dict(form.values)
        for said, value in (typed or {}).items():
            sent[form.name_of(said)] = value
        name, value = form.buttons[button]
        if name:
            sent[name] = value
        address = urljoin(self.page.address, form.action) if form.action else self.page.address
        assert form.method == "post"
        return self._arrive(address, self.client.post(address, sent, follow=True))

    def _arrive(self, address: str, answer: Any) -> Page:
        if answer.redirect_chain:
            address = urljoin(address, answer.redirect_chain[-1][0])
        assert not urlsplit(address).netloc, address
        self.page = read(address, answer)
        return self.page
