"""Forms as a browser finds them on a page. Belongs here: reading a page's forms and what each would send as it stands.
Not here: which pages there are (`form_fuzz`) and what is put in instead (`drawn`)."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from urllib.parse import urljoin, urlsplit

TELLS_ITSELF = {"csrfmiddlewaretoken"}
NOT_SENT = {"submit", "button", "reset", "image"}


@dataclass
class Field:
    """One name of a form; `value` is what it sends untouched, None for nothing (a box not ticked)."""

    name: str
    kind: str
    value: str | None = None
    choices: list[str] = field(default_factory=list)


@dataclass
class Form:
    """Where it goes, how, and its names."""

    action: str
    method: str
    fields: dict[str, Field] = field(default_factory=dict)

    @property
    def sends_files(self) -> bool:
        return any(one.kind == "file" for one in self.fields.values())

    @property
    def key(self) -> tuple[str, str, tuple[str, ...]]:
        """Two forms of the same place and names are one."""
        return self.action, self.method, tuple(sorted(self.fields))


class _Reader(HTMLParser):
    def __init__(self, page: str) -> None:
        super().__init__()
        self.page, self.forms = page, []
        self.by_id: dict[str, Form] = {}
        self.early: list[tuple[str, Field]] = []  # fields that name a form further down
        self.form: Form | None = None
        self.select: Field | None = None
        self.area: Field | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = {name: value or "" for name, value in attrs}
        if tag == "form":
            action = urlsplit(urljoin(self.page, said.get("action", "")))._replace(fragment="").geturl()
            self.form = Form(action, said.get("method", "get").lower())
            self.forms.append(self.form)
            self.by_id[said.get("id", "")] = self.form
        elif tag in ("input", "select", "textarea", "button"):
            self._field(tag, said)
        elif tag == "option" and self.select is not None:
            self.select.choices.append(said.get("value", ""))
            if "selected" in said or self.select.value is None:
                self.select.value = said.get("value", "")

    def _field(self, tag: str, said: dict[str, str]) -> None:
        kind = said.get("type", "text") if tag == "input" else tag
        name = said.get("name", "")
        if not name or name in TELLS_ITSELF or kind in NOT_SENT - {"submit", "button"}:
            return
        is_choice = kind in ("radio", "checkbox", "submit", "button")
        value = said.get("value", "on" if is_choice else "")
        found = self._kept(Field(name, kind), said.get("form"))
        if is_choice:
            found.choices.append(value)
            found.value = value if "checked" in said else found.value
        elif tag == "input" and kind != "file":
            found.value = value
        self.select = found if tag == "select" else None
        self.area = found if tag == "textarea" else None
        if self.area is not None:
            self.area.value = ""

    def _kept(self, new: Field, form_id: str | None) -> Field:
        form = self.by_id.get(form_id) if form_id else self.form
        if form is not None:
            return form.fields.setdefault(new.name, new)
        if form_id:
            self.early.append((form_id, new))
        return new

    def handle_data(self, data: str) -> None:
        if self.area is not None:
            self.area.value = (self.area.value or "") + data

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self.form = None
        elif tag == "select":
            self.select = None
        elif tag == "textarea":
            self.area = None


def read(page: str, text: str) -> list[Form]:
    """Every form of a page whose address is `page`."""
    reader = _Reader(page)
    reader.feed(text)
    for form_id, late in reader.early:
        if form_id in reader.by_id:
            reader.by_id[form_id].fields.setdefault(late.name, late)
    return [form for form in reader.forms if form.action.startswith("/")]
